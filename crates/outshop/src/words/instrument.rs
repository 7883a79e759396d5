//! Instruments.

use shop::book::{CheckMade, Instrument};
use shop::locomotive::{Doubt, last_check};

use super::day;

/// What it is, what it measures, where it lies, its last check.
pub fn line(kept: &Instrument) -> String {
    let mut told = vec![kept.what.clone()];
    told.extend(kept.range.clone());
    told.extend(kept.shelf.as_ref().map(|shelf| format!("shelf {shelf}")));
    told.push(match last_check(kept) {
        None => NEVER_CHECKED.to_string(),
        Some(check) if check.good => format!("found good {}", day(check.on)),
        Some(check) => format!("FOUND WRONG {}", day(check.on)),
    });
    told.join("; ")
}

/// No check.
pub const NEVER_CHECKED: &str = "never checked in this book";

/// One check.
pub fn check(check: &CheckMade, by: &str) -> String {
    let mut told = format!(
        "{} {} against {}, by {by}",
        day(check.on),
        if check.good {
            "found good"
        } else {
            "found wrong"
        },
        check.against
    );
    if let Some(error) = &check.error {
        told.push_str(&format!("; error {error}"));
    }
    if let Some(more) = &check.told {
        told.push_str(&format!("; {more}"));
    }
    told
}

/// Which readings are in doubt.
pub fn doubt(doubt: &Doubt) -> String {
    match doubt.good {
        Some(good) => format!(
            "in doubt: every reading taken with it from {}, when it was last found good, through {}",
            day(good),
            day(doubt.found)
        ),
        None => format!(
            "in doubt: every reading taken with it through {}; it was never found good before",
            day(doubt.found)
        ),
    }
}

/// Beside a reading in doubt.
pub const IN_DOUBT: &str = "in doubt: its instrument was found wrong";
/// Beside a reading that was questioned.
pub const QUESTIONED: &str = "questioned";
/// The page.
pub const TITLE: &str = "Instruments";
/// Under its title.
pub const LEAD: &str = "A reading that names an instrument by its number is found again when the instrument is found wrong.";
/// None.
pub const NONE: &str = "No instrument is in this book yet.";
/// A form.
pub const ADD: &str = "Register an instrument";
/// Its button.
pub const ADD_IT: &str = "Register it";
/// A field.
pub const NUMBER: &str = "The number on it";
/// What it tells.
pub const NUMBER_TELLS: &str = "one word with a figure, such as M-12";
/// A field.
pub const WHAT: &str = "What it is";
/// What it tells.
pub const WHAT_TELLS: &str = "such as outside micrometer";
/// A field.
pub const RANGE: &str = "What it measures";
/// What it tells.
pub const RANGE_TELLS: &str = "from and to, such as 0 to 1 in";
/// A field.
pub const SHELF: &str = "Where it lies";
/// A section.
pub const CHECKS: &str = "Checks";
/// A form.
pub const CHECK: &str = "Enter a check";
/// Its button.
pub const KEEP_CHECK: &str = "Keep the check";
/// A choice.
pub const GOOD: &str = "found good";
/// A choice.
pub const WRONG: &str = "found wrong";
/// A field.
pub const AGAINST: &str = "Held against";
/// What it tells.
pub const AGAINST_TELLS: &str = "a master, blocks, a dead weight";
/// A field.
pub const ERROR: &str = "Error found";
/// What it tells.
pub const ERROR_TELLS: &str = "as written, such as +.002 in at 1 in";
/// A column.
pub const DAY: &str = "Day";
/// A column.
pub const PART: &str = "Part";
/// A column.
pub const READING: &str = "Reading";
/// A column.
pub const STATE: &str = "State";

/// Over the readings in doubt.
pub fn in_doubt(count: usize) -> String {
    super::count(count, "reading in doubt", "readings in doubt")
}
