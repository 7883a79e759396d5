//! What the sheets of wear share: which way it goes, how far a limit is, and what each must warn of.

mod rates;

pub use rates::{By, Opening, Rates, Reckoned, SPREAD, STUDENT, Symbols};

use crate::answer::{Answer, Outcome, TableValue, less};
use crate::card::{Argument, Symbol};
use measure::{Dimension, Rounding, Unit, show};

/// Where the room to a limit comes from.
pub const ROOM: &str =
    "from the reading to the limit, the way it wears; nothing where it is passed";

/// What every forecast must warn of.
pub const CAUTIONS: &[&str] = &[
    "A forecast replaces no measurement: at the next opening it is measured, whatever stands here.",
    "The limit in law governs, and so does the inspection it asks for; days left here are no leave to run.",
    "Wear that runs ahead of its own history has a cause: heat, dirt, dry running, a part out of line. Find it before the \
        part is cut again.",
    "Cracks, loose parts and burnt metal know no rate and are not foreseen here.",
];

/// The two ways a reading can go.
pub const WAYS: [&str; 2] = ["larger", "smaller"];

/// The argument that says which way wear takes the reading.
pub const WEARS: Argument = Argument::word(
    "wears",
    &WAYS,
    "which way wear takes the reading: a bore or a clearance larger, a pin or a tire smaller",
);

/// The sign of that way, where it stands in a formula.
pub const SIGN: Symbol = Symbol::named(
    "z",
    "",
    "1 where wear makes the reading larger, minus 1 where smaller",
    "the way it was said to wear",
);

/// Which way wear takes a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// A bore, a clearance.
    Larger,
    /// A pin, a tire.
    Smaller,
}

impl Way {
    /// The way called `word`.
    pub fn of(word: &str) -> Option<Way> {
        match word {
            "larger" => Some(Way::Larger),
            "smaller" => Some(Way::Smaller),
            _ => None,
        }
    }

    /// 1 or minus 1.
    pub fn sign(self) -> f64 {
        match self {
            Way::Larger => 1.0,
            Way::Smaller => -1.0,
        }
    }

    /// How far `to` lies beyond `from` the way it wears, in metres; with a minus where it lies behind.
    pub fn along(self, from: f64, to: f64) -> f64 {
        self.sign() * less(to, from, Dimension::Length)
    }

    /// The room from `present` to `limit`, in metres; nothing where the limit is reached or passed.
    pub fn room(self, present: f64, limit: f64) -> f64 {
        self.along(present, limit).max(0.0)
    }

    /// What the readings themselves say of the way, where a mean `rate` was found; `rate` is above zero where they go the
    /// way it was said to wear.
    pub fn said(self, rate: f64) -> String {
        let (as_said, against) = match self {
            Way::Larger => ("larger", "smaller"),
            Way::Smaller => ("smaller", "larger"),
        };
        if rate > 0.0 {
            format!("{as_said}, as it was said to wear")
        } else if rate < 0.0 {
            format!(
                "{against}, against the way it was said to wear: metal does not grow; look at instrument, place and heat before any of this is believed"
            )
        } else {
            "neither way: no wear is seen".to_owned()
        }
    }
}

/// Adds a value, or says in words what it waits for.
pub fn told(
    answer: Answer,
    name: &'static str,
    value: Option<f64>,
    needs: &[Option<&'static str>],
) -> Answer {
    let wanting: Vec<&str> = needs.iter().flatten().copied().collect();
    match value {
        Some(si) if wanting.is_empty() => answer.with(name, Outcome::Si(si)),
        _ => answer.waiting(&[name], &wanting),
    }
}

/// A value worked from the lists given, which stands in the formula; `value` in the unit of the inch book.
pub fn found(symbol: Symbol, value: f64, how: impl Into<String>) -> TableValue {
    TableValue::inch_book(symbol, value, how)
}

/// A rate of wear in inches, for a cell of a table or a sentence.
pub fn rate_in(si: f64) -> String {
    show::number(Unit::Inch.from_si(si), 7, Rounding::Nearest)
}

/// A reading in inches to a tenth of a thou, for a cell of a table.
pub fn tenths(si: f64) -> String {
    show::number(Unit::Inch.from_si(si), 4, Rounding::Nearest)
}
