//! The page that looks ahead along the promised runs of an engine, and supposes a day.

use jiff::civil::Date;
use shop::report::{Asked, Change, Good, Standing};

/// Suppose something.
pub const SUPPOSE: &str = "Suppose a day";
/// That nothing is entered.
pub const NOTHING_ENTERED: &str =
    "What is supposed here is not entered in the book. Each line that is filled in counts.";
/// What is held or put right.
pub const WHAT: &str = "What is held or put right";
/// Nothing is chosen.
pub const NOTHING: &str = "nothing";
/// On which day.
pub const DAY: &str = "On";
/// A run that is not promised.
pub const A_RUN: &str = "A run not promised yet";
/// What the run is.
pub const WHAT_RUN: &str = "What it is";
/// Asks.
pub const LOOK: &str = "Look ahead";
/// Back to the book as it is.
pub const AS_IT_IS: &str = "As the book is, without anything supposed";
/// What is supposed.
pub const IF: &str = "Supposed";
/// What it changes.
pub const CHANGES: &str = "What it changes";
/// Nothing.
pub const NO_CHANGE: &str = "No run and no clock stands otherwise.";
/// The runs.
pub const RUNS: &str = "Promised runs";
/// None.
pub const NO_RUN: &str = "No run is promised, so a clock that counts service days names no day.";
/// The clocks.
pub const CLOCKS: &str = "Each clock, and the last good day";
/// The column of a clock's name.
pub const CLOCK: &str = "Clock";
/// From when.
pub const STOPS: &str = "Stops her";
/// The last good day.
pub const GOOD: &str = "Last good day";
/// The papers of what is supposed.
pub const PAPERS: &str = "Papers that what is supposed asks for";
/// What the answer rests on.
pub const ASSUMED: &str = "Taken for granted";
/// The column of days.
pub const RUN_DAY: &str = "Day";
/// The column of runs.
pub const RUN: &str = "Run";
/// The column of their standing.
pub const STANDING: &str = "Stands";
/// The column of what is in the way.
pub const IN_THE_WAY: &str = "In its way";
/// The column of a changed thing.
pub const CHANGED: &str = "Run or clock";
/// How it stood.
pub const BEFORE: &str = "As the book is";
/// How it would stand.
pub const AFTER: &str = "If so";
/// The column of a rule.
pub const RULE: &str = "Rule";

/// The title.
pub fn title(number: &str) -> String {
    format!("No. {number}, looking ahead")
}

/// Of which day.
pub fn lead(on: Date) -> String {
    format!("From {}, along the runs that are promised.", super::day(on))
}

/// What was supposed on a day.
pub fn supposed(what: &str, on: Date) -> String {
    format!("{what} on {}", super::day(on))
}

/// An inspection or a work to choose.
pub fn choice(work: &str) -> String {
    if work.chars().next().is_some_and(|c| c.is_ascii_digit()) {
        format!("the {work}")
    } else {
        work.replace('-', " ")
    }
}

/// A finding to choose.
pub fn finding(number: u32, told: &str) -> String {
    let mut short: String = told.chars().take(48).collect();
    if short.len() < told.len() {
        short.push_str(" ...");
    }
    format!("F-{number:03} put right: {short}")
}

/// A run's standing.
pub fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Clear => "nothing stops her",
        Standing::CannotTell => super::page::CANNOT_TELL,
        Standing::Falls => "falls",
    }
}

/// The last good day; both where least and most counted differ.
pub fn good(good: &Good) -> String {
    match (good.last, good.at_the_utmost) {
        (None, _) => "none".into(),
        (Some(last), None) => super::day(last),
        (Some(last), Some(utmost)) => format!(
            "{}; {} if what is not known turns out well",
            super::day(last),
            super::day(utmost)
        ),
    }
}

/// A paper and its day.
pub fn paper(paper: &Asked) -> String {
    super::sentence(&crate::verb::ahead::paper_words(paper))
}

/// How a thing stood and would stand, for those who hear it.
pub fn change(change: &Change) -> String {
    super::sentence(&change.what)
}
