//! Open work.

use jiff::civil::Date;

/// What is open.
pub const NOT_PUT_RIGHT: &str = "Findings not put right, oldest first";
/// Nothing of it.
pub const NONE: &str = "None.";
/// Inspections.
pub const INSPECTIONS: &str = "Inspections";
/// None of them.
pub const NO_INSPECTION: &str = "None in this book.";
/// Findings left as they are by decision.
pub const CARRIED: &str = "Carried";
/// None of them.
pub const NOTHING_CARRIED: &str = "Nothing is carried.";
/// Findings that are done.
pub const PUT_RIGHT: &str = "Put right";

/// How much there is.
pub fn lead(open: usize, carried: usize) -> String {
    format!(
        "{} not put right; {} carried.",
        super::count(open, "finding is", "findings are"),
        super::count(carried, "is", "are")
    )
}

/// How many are folded away.
pub fn folded(n: usize) -> String {
    format!("({n})")
}

/// A finding as a link says it.
pub fn finding(tag: &str, engine: &str, part: &str) -> String {
    format!("{tag}, No. {engine}, {part}")
}

/// When and by whom.
pub fn found(on: Date, by: &str) -> String {
    format!("Found {} by {by}.", super::day(on))
}

/// When it is looked at again.
pub fn recheck(on: Date) -> String {
    format!("To be looked at again {}.", super::day(on))
}

/// An inspection as a link says it.
pub fn inspection(tag: &str, engine: &str, kind: &str) -> String {
    format!("{tag}, No. {engine}, the {kind}")
}

/// That it is closed.
pub fn closed(on: Date, by: &str) -> String {
    format!(" closed {} by {by}", super::day(on))
}

/// That it is open, and what is not answered.
pub fn opened(on: Date, left: usize) -> String {
    format!(
        ", opened {}: {} not answered",
        super::day(on),
        super::count(left, "item is", "items are")
    )
}
