//! What stands on every page: the places, the frame, verdicts, fields.

use jiff::civil::Date;

/// The program's name, where no book's shop is known.
pub const PROGRAM: &str = "Outshop";
/// The first page.
pub const AHEAD: &str = "Days ahead";
/// What is open.
pub const WORK: &str = "Open work";
/// Worked sheets.
pub const SHEETS: &str = "Sheets";
/// The rulebook.
pub const RULEBOOK: &str = "Rulebook";
/// What the row of places is called, for those who hear the page.
pub const PLACES: &str = "Places";
/// For those who go by keyboard.
pub const SKIP: &str = "To the page";
/// Signs out.
pub const LEAVE: &str = "leave";

/// Verdict words; there are no others.
pub const COMPLIES: &str = "complies";
/// The second.
pub const FAILS: &str = "fails";
/// The third.
pub const CANNOT_TELL: &str = "cannot tell";
/// Of a route that nothing stands against.
pub const CAN_BE_TAKEN: &str = "can be taken";
/// Of one that something does.
pub const CANNOT_BE_TAKEN: &str = "no";

/// The title of a page as the browser shows it.
pub fn title(title: &str) -> String {
    format!("{title} - {PROGRAM}")
}

/// Says that this is a demonstration, and which day it holds.
pub fn demonstration(held: Date) -> String {
    format!(
        "A demonstration: all of it is invented. The book holds its today at {}.",
        super::day(held)
    )
}

/// A track gauge as a shop says it.
pub fn gauge(gauge: measure::Size, house: measure::House) -> String {
    match measure::show::fraction_in(gauge) {
        Some(text) if house == measure::House::Inch => format!("{text} in gauge"),
        _ => format!("{} gauge", measure::show::size(gauge, house)),
    }
}
