//! Why a result is held by nothing published or independent: `law/unproven.csv`, a row for each group of results.
//!
//! A result without proof and without a reason is a hole that nobody looked into; the tests refuse it, and they refuse
//! a reason for what has been proved since.

use crate::csv;
use crate::error::SheetError;

const FILE: &str = include_str!("law/unproven.csv");

const HEADING: [&str; 4] = ["sheet", "results", "cases", "reason"];

/// Why some results of a sheet are unproven, or why no published value of the sheet was found at all.
#[derive(Debug, Clone, PartialEq)]
pub struct Reason {
    /// The sheet it is about.
    pub law: String,
    /// The line of the file.
    pub line: usize,
    /// The results it is about; none where it says why the sheet has no published value. `*` is every unproven one.
    results: Vec<String>,
    /// The cases it is about; `*` is every one.
    cases: Vec<String>,
    /// The reason, a sentence without its full stop.
    pub why: String,
}

impl Reason {
    /// Whether it says why the sheet has no published value.
    pub fn is_of_the_sheet(&self) -> bool {
        self.results.is_empty()
    }

    /// Whether it is about this result of its sheet in this case.
    pub fn is_about(&self, result: &str, case: &str) -> bool {
        let names = |list: &[String], one: &str| list.iter().any(|name| name == "*" || name == one);
        names(&self.results, result) && names(&self.cases, case)
    }

    /// The results and cases that it calls by name.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let all = self.results.iter().chain(&self.cases);
        all.map(String::as_str).filter(|name| *name != "*")
    }

    /// The results and cases that it names, for a person to read.
    pub fn about(&self) -> String {
        if self.is_of_the_sheet() {
            return "no published value".to_owned();
        }
        let told = |list: &[String], every: &str| match list {
            [one] if one == "*" => every.to_owned(),
            list => list.join(", "),
        };
        let results = told(&self.results, "what is unproven");
        let cases = told(&self.cases, "every case");
        format!("{results} ({cases})")
    }
}

/// Every reason on file, in the order of the file.
///
/// # Errors
/// A sentence naming the line that cannot be read; the tests read them all.
pub fn reasons() -> Result<Vec<Reason>, SheetError> {
    let read = csv::rows(FILE, &HEADING).map_err(|detail| SheetError::OwnFault {
        sheet: "every sheet",
        what: "file of reasons",
        detail,
    })?;
    let list = |cell: &str| -> Vec<String> {
        let names = cell.split('|').map(str::trim);
        names
            .filter(|name| !name.is_empty())
            .map(str::to_owned)
            .collect()
    };
    Ok(read
        .into_iter()
        .map(|(line, [law, results, cases, why])| Reason {
            law,
            line,
            results: list(&results),
            cases: list(&cases),
            why,
        })
        .collect())
}
