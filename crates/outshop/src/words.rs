//! Words that more than one screen or paper says, so that they are said alike everywhere.

/// Stands under every number someone may trust with their life.
pub const STANDING: &str =
    "Advice only. The law in force, the code, the drawing and the responsible officer govern.";

/// A day as people read it.
pub fn day(date: jiff::civil::Date) -> String {
    date.strftime("%a %-d %b %Y").to_string()
}

/// `1 service day`, `2 service days`.
pub fn count(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}

/// Words of the pages.
pub mod page {
    /// The first page.
    pub const AHEAD: &str = "Days ahead";
    /// What is open.
    pub const WORK: &str = "Open work";
    /// Worked sheets.
    pub const SHEETS: &str = "Sheets";
    /// The rulebook.
    pub const RULEBOOK: &str = "Rulebook";
    /// For those who go by keyboard.
    pub const SKIP: &str = "To the page";
    /// Signs out.
    pub const LEAVE: &str = "leave";

    /// Says that this is a demonstration, and which day it holds.
    pub fn demonstration(held: jiff::civil::Date) -> String {
        format!(
            "A demonstration: all of it is invented. The book holds its today at {}.",
            super::day(held)
        )
    }
}
