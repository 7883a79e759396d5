//! The page of all deadlines.

use jiff::civil::Date;
use shop::report::{DateOf, Deadline, Reach};

/// Its title, and its name among the places.
pub const TITLE: &str = "Deadlines";
/// Which engine.
pub const ENGINE: &str = "Engine";
/// All of them.
pub const EVERY_ENGINE: &str = "every engine";
/// Shows what was chosen.
pub const SHOW: &str = "Show";
/// Leads to the file for calendar programs.
pub const CALENDAR: &str =
    "As a calendar file, for any calendar program (a copy of today: the book governs)";
/// Nothing is due.
pub const NONE: &str = "Nothing in this book is due by any day.";
/// The column of days.
pub const DAY: &str = "Last day";
/// What must be done.
pub const WHAT: &str = "What";
/// Why.
pub const WHY: &str = "Why";
/// The rule.
pub const RULE: &str = "Rule";
/// Leads to the days ahead of an engine.
pub const LOOK_AHEAD: &str = "Look ahead, and suppose a day";

/// Of which day the list is.
pub fn lead(on: Date, engine: Option<&str>) -> String {
    let whose = match engine {
        Some(number) => format!("No. {number}"),
        None => "Every engine".into(),
    };
    format!(
        "{whose}, as of {}. What cannot be told stands first, then what is past, then day by day.",
        super::day(on)
    )
}

/// How deadlines stand, as a heading.
pub fn reach(reach: Reach) -> &'static str {
    match reach {
        Reach::CannotTell => "Cannot tell until something is stated",
        Reach::Past => "Past",
        Reach::Ahead => "To come",
        Reach::NoDay => "No day yet: no promised run and no day of the calendar reaches it",
    }
}

/// The day of a deadline; both where least and most counted differ.
pub fn day(one: &Deadline) -> String {
    match (one.last, one.at_the_utmost) {
        (Some(last), Some(utmost)) => format!(
            "{} by the most, {} by the least",
            super::day(last),
            super::day(utmost)
        ),
        (Some(last), None) => super::day(last),
        (None, _) => "-".into(),
    }
}

/// What must be done, as a heading.
pub fn what(one: &Deadline) -> String {
    super::sentence(&one.what)
}

/// Whether the name of a thing must stand before its reason: a paper's reason begins with it.
pub fn names_itself(one: &Deadline) -> bool {
    matches!(one.of, DateOf::Paper)
}
