//! Several readings of one thing, and the one that governs.

use crate::answer::{TableValue, less};
use crate::card::{Measure, Symbol};
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, Unit, show};

/// The largest of some readings, in SI; none where there are none.
pub fn largest(readings: &[f64]) -> Option<f64> {
    readings.iter().copied().reduce(f64::max)
}

/// The smallest of some readings, in SI; none where there are none.
pub fn smallest(readings: &[f64]) -> Option<f64> {
    readings.iter().copied().reduce(f64::min)
}

/// The smallest and the largest of the readings given as `name`, in SI.
///
/// # Errors
/// [`SheetError::Missing`] when none was given; [`Inputs::read`] has already asked for a list the law needs.
pub fn ends(inputs: &Inputs, name: &'static str) -> Result<(f64, f64), SheetError> {
    let readings = inputs.list_si(name);
    let ends = smallest(readings).zip(largest(readings));
    ends.ok_or_else(|| inputs.missing(name))
}

/// How much more one length is than another, both in metres, without the dust that subtracting leaves; with a minus where
/// it is less.
pub fn more(length: f64, than: f64) -> f64 {
    less(length, than, Dimension::Length)
}

/// The reading that governs, as a value of `symbol` that stands in the formula; `how` says which of them it is.
pub fn governing(symbol: Symbol, si: f64, how: impl Into<String>) -> TableValue {
    let printed = match symbol.measure {
        Measure::Of(dimension) => {
            show::value(si, Unit::of(dimension, House::Inch), 4, Rounding::Nearest)
        }
        Measure::Named(_) => crate::formula::significant(si),
    };
    TableValue {
        symbol,
        value: si,
        printed,
        row: how.into(),
    }
}

/// How one of several readings is called: "the largest of 4 readings of the bore".
pub fn which(word: &str, of: &[f64], what: &str) -> String {
    match of.len() {
        1 => format!("the {what}, read once"),
        count => format!("the {word} of {count} readings of the {what}"),
    }
}

/// A length in inches to a thousandth, for a cell of a table.
pub fn thou(si: f64) -> String {
    show::number(Unit::Inch.from_si(si), 3, Rounding::Nearest)
}
