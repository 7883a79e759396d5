//! What stands in the calendar of deadlines.

use jiff::civil::Date;
use shop::report::Reach;

/// What made it, as RFC 5545 asks.
pub const PRODUCT: &str = "-//Outshop//Deadlines//EN";

/// The line a calendar shows on the day.
pub fn summary(number: &str, what: &str, reach: Reach) -> String {
    match reach {
        Reach::CannotTell => format!("No. {number}: {what}: cannot tell"),
        Reach::Past => format!("No. {number}: {what}: last day, past"),
        Reach::Ahead | Reach::NoDay => format!("No. {number}: {what}: last day"),
    }
}

/// Both days where least and most counted differ.
pub fn range(last: Option<Date>, utmost: Date) -> String {
    match last {
        Some(last) => format!(
            "By the most that may have been counted the last day is {}; by the least, {}.",
            super::day(last),
            super::day(utmost)
        ),
        None => format!(
            "By the least counted the last day is {}.",
            super::day(utmost)
        ),
    }
}

/// The rule, its section, and how it is known.
pub fn rule(rule: &str, section: &str, edition: &str, mark: &str) -> String {
    format!("Rule {rule}, {section}, {edition} ({mark}).")
}

/// Of which day the copy is.
pub fn as_of(on: Date) -> String {
    format!(
        "As of {}, as the book stood then. The book governs: ask it again before leaning on this copy.",
        super::day(on)
    )
}
