//! The law's figures a second time: a table of rows, written apart from the rule files, one figure a row. Each row says
//! which rule holds its figure, and the rule is held against it at the value and one step to either side; or it says why
//! no rule does. A figure that stands in one place only is found here.

mod meet;

use jiff::civil::Date;
use serde::Deserialize;

use crate::{Rulebook, RulebookError};

/// One figure of the law.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Its number in the table, from 1.
    pub row: u32,
    /// The section or sections that print it.
    pub section: String,
    /// What is limited.
    pub subject: String,
    /// When it holds; empty for always.
    pub circumstance: String,
    /// `max`, `min`, `range`, `set` (to be used as it stands) or `due` (a clock).
    pub side: String,
    /// The figure as printed, or a formula of named facts.
    pub value: String,
    /// Its unit.
    pub unit: String,
    /// What a reading at the value does: `passes`, `fails`, `set` or `due`.
    pub at_value: String,
    /// The texts it was read in: `2015`, `2015 and 2023`, `2015; words 2023`.
    pub mark: String,
    /// The rule that holds it, or `-`.
    pub rule: String,
    /// Which part of the rule (a cell, an arm), or why no rule holds the row.
    pub part: String,
}

/// How a table of rows stands to a rulebook.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Coverage {
    /// Rows whose rule gives what the row says, with the rule.
    pub covered: Vec<(u32, String)>,
    /// Rows that no rule holds, each with its reason.
    pub listed: Vec<(u32, String)>,
    /// Rows that their rule does not meet, or that name no rule on file: one sentence each.
    pub wrong: Vec<String>,
}

impl Coverage {
    /// How many rows there are.
    pub fn rows(&self) -> usize {
        self.covered.len() + self.listed.len() + self.wrong.len()
    }
}

impl std::fmt::Display for Coverage {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let wrong = match self.wrong.len() {
            0 => String::new(),
            n => format!(" + {n} WRONG"),
        };
        writeln!(
            f,
            "Rows of the law's figures: {} = {} covered + {} listed{wrong}",
            self.rows(),
            self.covered.len(),
            self.listed.len()
        )?;
        for (row, why) in &self.listed {
            writeln!(f, "  row {row} is listed: {why}")?;
        }
        self.wrong.iter().try_for_each(|w| writeln!(f, "  {w}"))
    }
}

/// Reads a table of rows.
///
/// # Arguments
/// `name`, `text`: the CSV file's name, for the sentence when it is wrong, and what stands in it.
///
/// # Errors
/// The first line that does not read, or a row out of its number.
pub fn read_rows(name: &str, text: &str) -> Result<Vec<Row>, RulebookError> {
    let mut rows = Vec::new();
    for read in csv::Reader::from_reader(text.as_bytes()).deserialize() {
        let row: Row = read.map_err(|e| RulebookError::file(name, e.to_string()))?;
        if usize::try_from(row.row) != Ok(rows.len() + 1) {
            let expected = rows.len() + 1;
            return Err(RulebookError::file(
                name,
                format!("row {} stands where row {expected} was expected", row.row),
            ));
        }
        rows.push(row);
    }
    Ok(rows)
}

/// Holds every row against its rule.
///
/// # Arguments
/// `on`: the day whose rules are meant.
pub fn coverage(rulebook: &Rulebook, rows: &[Row], on: Date) -> Coverage {
    let mut found = Coverage::default();
    for row in rows {
        let wrong =
            |why: String| format!("row {}, {} {}: {why}", row.row, row.section, row.subject);
        if row.rule == "-" {
            if row.part.trim().is_empty() {
                found
                    .wrong
                    .push(wrong("it names no rule and gives no reason".into()));
            } else {
                found.listed.push((row.row, row.part.clone()));
            }
            continue;
        }
        let met = match rulebook.ruling(&row.rule, on) {
            Ok(ruling) => meet::meet(rulebook, row, &ruling, on),
            Err(lost) => Err(lost.to_string()),
        };
        match met {
            Ok(()) => found.covered.push((row.row, row.rule.clone())),
            Err(why) => found.wrong.push(wrong(why)),
        }
    }
    found
}
