//! What a shop works yearly: for each the sheets that work it and the rules whose figures bound it, or that it is not on file,
//! with what would settle it.

use std::sync::OnceLock;

use crate::Refusal;

/// One piece of yearly work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Yearly {
    /// What it is.
    pub work: String,
    /// The sheets that work it.
    pub sheets: Vec<String>,
    /// The rules that have figures for it.
    pub rules: Vec<String>,
    /// What is not on file, and what would settle it; empty where nothing lacks.
    pub lacks: String,
}

impl Yearly {
    /// Whether no sheet works it.
    pub fn is_not_on_file(&self) -> bool {
        self.sheets.is_empty()
    }
}

fn line(text: &str) -> Option<Yearly> {
    // Four cells; only the last two may hold commas, and the third never does.
    let mut cells = text.splitn(4, ',');
    let mut cell = || cells.next().map(str::trim);
    let (work, sheets, rules, lacks) = (cell()?, cell()?, cell()?, cell()?);
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect();
    Some(Yearly {
        work: work.to_owned(),
        sheets: words(sheets),
        rules: words(rules),
        lacks: lacks.to_owned(),
    })
}

/// All of it, in the order of the table.
///
/// # Errors
/// [`Refusal`] where the table cannot be read.
pub fn yearly() -> Result<&'static [Yearly], Refusal> {
    static ALL: OnceLock<Option<Vec<Yearly>>> = OnceLock::new();
    let read = || {
        let text = include_str!("../../../../tables/yearly.csv");
        let lines = text
            .lines()
            .filter(|it| !it.starts_with('#') && !it.trim().is_empty());
        lines.skip(1).map(line).collect()
    };
    let all = ALL.get_or_init(read);
    all.as_deref()
        .ok_or_else(|| Refusal::input("The table of yearly work does not read."))
}
