//! A part's life.

use jiff::civil::Date;

/// Heads a form.
pub const MEASURE: &str = "Enter readings";
/// Asks.
pub const AS_WHAT: &str = "They are";
/// A section.
pub const FACTS: &str = "Facts";
/// A fact nobody stated.
pub const NOT_KNOWN: &str = "not known";
/// A section.
pub const FOUND_AND_LEFT: &str = "As found and as left";
/// No reading.
pub const NEVER_MEASURED: &str = "Never measured in this book.";
/// A section.
pub const TOOLING: &str = "Tooling that fits it";
/// None.
pub const NO_TOOLING: &str = "None on the shelves.";
/// A section.
pub const FINDINGS: &str = "Findings";
/// A field.
pub const SEEN: &str = "What was seen";
/// What it tells.
pub const SEEN_TELLS: &str = "where, hot or cold, at what pressure";
/// A field.
pub const FOUND_AT: &str = "Found at";
/// A choice.
pub const A_WRITE_UP: &str = "a write-up";
/// Over the conditions.
pub const IT: &str = "It";
/// How readings are written.
pub const AS_WRITTEN: &str =
    "Readings as written, with their unit. A place left blank is not read, and says so.";
/// A form.
pub const RECORD: &str = "Record a finding";
/// Its button.
pub const RECORD_IT: &str = "Record it";

/// The head of the page, before the engine's number.
pub fn head(part: &str) -> String {
    format!("{part}, ")
}

/// The title of the page.
pub fn title(part: &str, engine: &str) -> String {
    format!("{part}, No. {engine}")
}

/// Over the column of metal.
pub fn metal_left(left: &str, re_cuts: Option<i64>) -> String {
    match re_cuts {
        Some(n) => format!("Metal left: {left}, {}", super::re_cuts(n)),
        None => format!("Metal left: {left}"),
    }
}

/// What the column stands on.
pub fn was(feature: &str, now: &str, state: measure::State, on: Date) -> String {
    format!(
        "The {feature} was {now} {} on {}.",
        super::state(state),
        super::day(on)
    )
}

/// The column, for those who do not see it.
pub fn column(left: &str) -> String {
    format!("{left} of metal left above the shop limit")
}

/// A mark beside the column.
pub fn as_built(size: &str) -> String {
    format!("as built {size}")
}

/// A mark beside the column.
pub fn now(size: &str) -> String {
    format!("now {size}")
}

/// A mark beside the column.
pub fn shop_limit(size: &str) -> String {
    format!("our shop limit {size}")
}

/// Under the column.
pub const HATCHED: &str = "hatched: not ours to spend";

/// Over a set of readings.
pub fn set(on: Date, state: measure::State) -> String {
    format!("{}, {}", super::day(on), super::state(state))
}

/// Who read, and which entry says so.
pub fn by(name: &str, entry: u64) -> String {
    format!("by {name}, entry {entry}")
}

/// What a tool is and where it lies.
pub fn tool(what: &str, shelf: &str) -> String {
    format!("{what}: {shelf}")
}

/// When it was found, and what.
pub fn found(on: Date, told: &str) -> String {
    format!("{}: {told}", super::day(on))
}

/// An open inspection as a choice.
pub fn inspection(kind: &str, tag: &str) -> String {
    format!("the {kind} inspection {tag}")
}

/// What was read here when it was last closed.
pub fn last_left(read: &str) -> String {
    format!("last left {read}")
}
