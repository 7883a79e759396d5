//! What a shop works every year.

use shop::ruled::yearly::Yearly;

/// The title.
pub const TITLE: &str = "What a shop works every year";
/// What it says.
pub const LEAD: &str = "Each with the sheets that work it and the rules that bound it. What is not on file says what would settle it.";
/// Columns.
pub const HEADS: [&str; 4] = ["Work", "Sheets", "Figures of law", "Not on file"];
/// No sheet.
pub const NO_SHEET: &str = "no sheet on file";

/// What there is of it and what lacks, a sentence each.
pub fn lines(it: &Yearly) -> Vec<String> {
    let mut all = Vec::new();
    all.push(if it.sheets.is_empty() {
        super::sentence(NO_SHEET)
    } else {
        format!("Sheets: {}", it.sheets.join(", "))
    });
    if !it.rules.is_empty() {
        all.push(format!("Figures of law: {}", it.rules.join(", ")));
    }
    if !it.lacks.is_empty() {
        all.push(format!("Not on file: needs {}", it.lacks));
    }
    all
}
