//! The evidence for each law: rows of expected values with a grade and a source, and what they prove.
//!
//! A row never loosens to fit. Where we and a printed value disagree the row stays, its note opens
//! with `discrepancy:` or `misprint:`, and it proves nothing.

use crate::answer::{Answer, Outcome};
use crate::card::{Card, ResultKind};
use crate::catalogue::{Entry, catalogue, find};
use crate::csv;
use crate::error::SheetError;
use crate::given::Given;
use crate::work::Worked;
use measure::{Dimension, House, Unit, entered};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// How good an expected value is, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Printed in the cited source.
    Published,
    /// Worked by another library, named with its version.
    Independent,
    /// What shops do; no source.
    CommonPractice,
    /// Recalled, not read.
    FromMemory,
    /// Our own earlier output: guards against change, proves nothing.
    Frozen,
}

impl Grade {
    /// Every grade with its words.
    pub const ALL: [(Grade, &'static str); 5] = [
        (Grade::Published, "published"),
        (Grade::Independent, "independent"),
        (Grade::CommonPractice, "common practice"),
        (Grade::FromMemory, "from memory"),
        (Grade::Frozen, "frozen"),
    ];

    /// The grade's words.
    pub fn words(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(grade, _)| *grade == self)
            .map_or("", |(_, words)| words)
    }

    /// Whether a value of this grade proves anything about the world.
    pub fn proves(self) -> bool {
        matches!(self, Grade::Published | Grade::Independent)
    }
}

/// One expected value.
#[derive(Debug, Clone, PartialEq)]
pub struct EvidenceRow {
    /// The law it is about.
    pub law: &'static str,
    /// The line of the law's evidence file.
    pub line: usize,
    /// How good the value is.
    pub grade: Grade,
    /// Who printed or worked it.
    pub source: String,
    /// Where in the source.
    pub locator: String,
    /// The arguments, by name.
    pub inputs: Vec<(String, String)>,
    /// The result it is about.
    pub result: String,
    /// The value as printed.
    pub printed: String,
    /// How far ours may be from it, in the unit printed; none for words.
    pub tolerance: Option<f64>,
    /// Anything a reader must know; a disagreement is explained here.
    pub note: String,
}

/// One row, run.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// The case our law took it for.
    pub branch: &'static str,
    /// Our value, in the unit printed, or our words.
    pub ours: String,
    /// How far apart, in the unit printed.
    pub difference: f64,
    /// Whether ours is within the row's tolerance.
    pub within: bool,
}

const HEADING: [&str; 8] = [
    "grade",
    "source",
    "locator",
    "inputs",
    "result",
    "printed",
    "tolerance",
    "note",
];

/// Every row of every law. An input written `a|b` stands for one row with each.
///
/// # Errors
/// A sentence naming the file and line that cannot be read; the tests read them all.
pub fn evidence() -> Result<Vec<EvidenceRow>, SheetError> {
    let mut all = Vec::new();
    for entry in catalogue() {
        all.extend(rows_of(entry)?);
    }
    Ok(all)
}

fn rows_of(entry: &Entry) -> Result<Vec<EvidenceRow>, SheetError> {
    let law = entry.card.id;
    let fault = |detail: String| SheetError::OwnFault {
        sheet: law,
        what: "evidence",
        detail,
    };
    let mut all = Vec::new();
    for (line, fields) in csv::rows(entry.evidence, &HEADING).map_err(fault)? {
        let [
            grade,
            source,
            locator,
            inputs,
            result,
            printed,
            tolerance,
            note,
        ] = fields;
        let known = Grade::ALL
            .iter()
            .find(|(_, words)| *words == grade)
            .map(|(known, _)| *known);
        let grade = known.ok_or_else(|| fault(format!("line {line}: no grade '{grade}'")))?;
        let tolerance = csv::unless_empty(&tolerance, csv::number)
            .map_err(|why| fault(format!("line {line}: tolerance {why}")))?;
        for inputs in each_case(&inputs) {
            all.push(EvidenceRow {
                law,
                line,
                grade,
                source: source.clone(),
                locator: locator.clone(),
                inputs,
                result: result.clone(),
                printed: printed.clone(),
                tolerance,
                note: note.clone(),
            });
        }
    }
    Ok(all)
}

/// `class=2G|3G; tpi=5` as two lists of arguments.
fn each_case(text: &str) -> Vec<Vec<(String, String)>> {
    let mut cases: Vec<Vec<(String, String)>> = vec![Vec::new()];
    for pair in text
        .split(';')
        .map(str::trim)
        .filter(|pair| !pair.is_empty())
    {
        let (name, values) = pair.split_once('=').unwrap_or((pair, ""));
        cases = cases
            .iter()
            .flat_map(|case| {
                values.split('|').map(|value| {
                    let mut longer = case.clone();
                    longer.push((name.trim().to_owned(), value.trim().to_owned()));
                    longer
                })
            })
            .collect();
    }
    cases
}

impl EvidenceRow {
    /// Whether the row records a disagreement rather than a proof.
    pub fn is_disagreement(&self) -> bool {
        self.note.starts_with("discrepancy:") || self.note.starts_with("misprint:")
    }

    /// Works the law for this row and compares.
    ///
    /// # Errors
    /// The law refuses the row's inputs, or the row names a result the law does not give.
    pub fn check(&self) -> Result<Checked, SheetError> {
        let given: Vec<Given> = self
            .inputs
            .iter()
            .map(|(name, text)| Given::typed(name, text))
            .collect();
        let worked = Worked::new(find(self.law)?, &given, House::Inch)?;
        let fault = |detail: String| SheetError::OwnFault {
            sheet: worked.card.id,
            what: "evidence",
            detail: format!("line {}: {detail}", self.line),
        };
        let spec = worked
            .card
            .results
            .iter()
            .find(|spec| spec.name == self.result);
        let spec = spec.ok_or_else(|| fault(format!("no result '{}'", self.result)))?;
        let branch = worked.answer.branch;
        match (worked.answer.result(&self.result), spec.kind) {
            (Some(Outcome::Si(si)), ResultKind::Quantity(dimension, _, _)) => {
                let (printed, unit) = self.printed_value(dimension).map_err(fault)?;
                let ours = unit.from_si(*si);
                let tolerance = self
                    .tolerance
                    .ok_or_else(|| fault("no tolerance".to_owned()))?;
                let difference = (ours - printed).abs();
                // A value that rounds to the printed one may stand exactly on the half digit.
                let within = difference <= tolerance * (1.0 + 1e-9) + 1e-12;
                let ours = crate::formula::significant(ours);
                Ok(Checked {
                    branch,
                    ours,
                    difference,
                    within,
                })
            }
            (Some(Outcome::Text(text)), _) => {
                let within = text.starts_with(&self.printed);
                let difference = if within { 0.0 } else { f64::INFINITY };
                Ok(Checked {
                    branch,
                    ours: text.clone(),
                    difference,
                    within,
                })
            }
            (Some(Outcome::Table { rows, .. }), _) => {
                let rows: Vec<String> = rows.iter().map(|row| row.join(" | ")).collect();
                let within = rows.contains(&self.printed);
                let difference = if within { 0.0 } else { f64::INFINITY };
                Ok(Checked {
                    branch,
                    ours: rows.join("; "),
                    difference,
                    within,
                })
            }
            _ => Err(fault(format!("the law gives no {} here", self.result))),
        }
    }

    /// The printed value and the unit it is printed in.
    fn printed_value(&self, dimension: Dimension) -> Result<(f64, Unit), String> {
        let read = entered(&self.printed, dimension, House::Inch).map_err(|e| e.to_string())?;
        Ok((read.value(), read.unit))
    }

    /// Half of the last digit printed, in the unit printed: the widest tolerance a published value
    /// allows. Minutes of angle count as sixtieths of a degree.
    pub fn half_last_digit(&self) -> f64 {
        if self.printed.ends_with('m') && self.printed.contains('d') {
            return 0.5 / 60.0;
        }
        let digits: String = self
            .printed
            .chars()
            .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | '-'))
            .collect();
        let places = digits.split_once('.').map_or(0, |(_, after)| after.len());
        (0..places).fold(0.5, |half, _| half / 10.0)
    }
}

/// For each result and branch of a law, the best grade that holds it; none where nothing does.
pub type Matrix = BTreeMap<(&'static str, &'static str), Option<Grade>>;

/// For each result and branch of `law`, the best grade that holds it; none where nothing does.
///
/// # Errors
/// An unknown law, or evidence that cannot be read or worked.
pub fn evidence_matrix(law: &str) -> Result<Matrix, SheetError> {
    let entry = find(law)?;
    let mut matrix = BTreeMap::new();
    for result in entry.card.results {
        for branch in entry.card.branches {
            matrix.insert((result.name, *branch), None);
        }
    }
    for row in rows_of(entry)?.iter().filter(|row| !row.is_disagreement()) {
        let checked = row.check()?;
        let place = matrix.iter_mut().find(|((result, branch), _)| {
            *result == row.result && *branch == checked.branch && checked.within
        });
        if let Some((_, best)) = place {
            *best = Some(best.map_or(row.grade, |known: Grade| known.min(row.grade)));
        }
    }
    Ok(matrix)
}

/// The matrix of one law, worked out the first time it is asked for: the evidence does not change
/// while the program runs.
fn remembered(law: &'static str) -> Option<Arc<Matrix>> {
    static KNOWN: Mutex<BTreeMap<&'static str, Option<Arc<Matrix>>>> = Mutex::new(BTreeMap::new());
    let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
    let worked = || evidence_matrix(law).ok().map(Arc::new);
    known.entry(law).or_insert_with(worked).clone()
}

/// The notices a sheet must carry because some of its results rest on nothing better than practice,
/// memory or nothing at all.
pub(crate) fn unproven_notices(card: &Card, answer: &Answer) -> Vec<String> {
    let Some(matrix) = remembered(card.id) else {
        return vec![
            "The evidence for this sheet could not be read: take it as unproven.".to_owned(),
        ];
    };
    let mut practice = Vec::new();
    let mut unproven = Vec::new();
    for ((result, branch), grade) in matrix.iter() {
        if *branch != answer.branch {
            continue;
        }
        match grade {
            Some(grade) if grade.proves() => {}
            Some(Grade::CommonPractice) => practice.push(*result),
            _ => unproven.push(*result),
        }
    }
    let mut notices = Vec::new();
    if !practice.is_empty() {
        notices.push(format!(
            "By common practice, without a source: {}.",
            practice.join(", ")
        ));
    }
    if !unproven.is_empty() {
        let (branch, names) = (answer.branch, unproven.join(", "));
        notices.push(format!(
            "unproven for {branch}: no published or independent value has been found for {names}."
        ));
    }
    notices
}
