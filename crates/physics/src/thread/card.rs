//! Pieces that the cards of the thread laws share.

use crate::card::{Argument, ResultSpec, Symbol};
use measure::Dimension;

/// What a line says that rests on memory and is borne out by published rows.
pub const MEMORY: &str = "from memory; published limits bear it out";
/// What a line says that rests on memory alone.
pub const UNREAD: &str = "from memory";

/// The nominal diameter, from `least` to `most`.
pub const fn diameter(least: &'static str, most: &'static str) -> Argument {
    let (name, meaning) = ("diameter", "nominal diameter");
    Argument::quantity(name, "D", Dimension::Length, least, most, meaning)
}

/// Threads per inch, from `least` to `most`.
pub const fn tpi(least: &'static str, most: &'static str) -> Argument {
    let meaning = "threads per inch";
    Argument::quantity("tpi", "n", Dimension::PerInch, least, most, meaning)
}

/// How many starts a thread has; one, unless said.
pub const STARTS: Argument = Argument::quantity(
    "starts",
    "s",
    Dimension::Count,
    "1",
    "8",
    "number of starts",
)
.optional();

/// A pure figure out of a table.
pub const fn figure(symbol: &'static str, meaning: &'static str, source: &'static str) -> Symbol {
    Symbol::named(symbol, "", meaning, source)
}

/// A length worked on the way, or taken from a table.
pub const fn line(symbol: &'static str, meaning: &'static str, source: &'static str) -> Symbol {
    Symbol::of(symbol, Dimension::Length, meaning, source)
}

/// A length among the results, to a ten-thousandth of an inch.
pub const fn length(
    name: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    source: &'static str,
) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Length, (4, 3), meaning, source)
}
