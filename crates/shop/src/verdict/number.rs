//! A number in one of the law's units, as a person writes it: `60 psi`, `3`, `12.5 %`. Exactly, and never in
//! another unit than the limit's.

use measure::{Dimension, Fraction, House, entered, fraction};

/// Other ways in which people write a unit of the rule files.
const SPELLED: &[(&str, &[&str])] = &[
    ("psi", &["psig", "lb/sq in", "lbf/in2"]),
    ("lb", &["lbs", "pounds", "pound"]),
    ("ft", &["feet", "foot"]),
    ("degrees F", &["F", "°F", "deg F", "degF"]),
    ("degrees", &["deg", "°", "degree"]),
    ("minutes", &["min", "minute"]),
    ("dB(A)", &["dBA", "dB"]),
    ("sq in", &["in2", "in²", "square inches"]),
    ("strokes a minute", &["strokes/min", "strokes per minute"]),
    ("psi a minute", &["psi/min", "psi per minute"]),
    ("mph", &["miles an hour"]),
    ("km/h", &["kmh", "kph"]),
    ("degrees C", &["C", "°C", "deg C", "degC"]),
    ("sq cm", &["cm2", "cm²"]),
    ("kPa a minute", &["kPa/min", "kPa per minute"]),
];

/// Whether things are counted in a unit, by whole ones.
pub(super) fn is_counted(unit: &str) -> bool {
    rules::words::unit(unit).is_some_and(|unit| unit.steps_in_one == 1)
}

/// Reads a number of a unit. What is counted may come without its unit; what is measured may not.
///
/// # Errors
/// A sentence that says what was read and what was expected.
pub(crate) fn measured(text: &str, unit: &str, house: House) -> Result<Fraction, String> {
    let text = text.trim();
    let ends = |c: char| !(c.is_ascii_digit() || " ./-+".contains(c));
    let (figures, written) = text.split_at(text.find(ends).unwrap_or(text.len()));
    let written = written.trim();
    let example = format!("such as `60 {unit}`");
    let same = |word: &str| word.eq_ignore_ascii_case(written);
    let others = SPELLED.iter().find(|(known, _)| *known == unit);
    let share = unit.starts_with("percent") && (written == "%" || same("percent"));
    let is_unit = same(unit) || share || others.is_some_and(|(_, o)| o.iter().any(|o| same(o)));
    let counted = is_counted(unit);
    if written.is_empty() && !counted {
        return Err(format!(
            "`{text}` has no unit; a number of {unit} was expected, {example}"
        ));
    }
    if !written.is_empty() && !is_unit {
        return Err(format!(
            "`{text}` is not in the unit of the limit; a number of {unit} was expected, {example}"
        ));
    }
    let read = entered(figures.trim(), Dimension::Ratio, house).ok();
    let exact = read.and_then(|entered| entered.exact);
    match exact {
        Some(number) if counted && (!number.is_integer() || *number.numer() < 0) => Err(format!(
            "`{text}` cannot be counted; a whole number of {unit}, none or more, was expected"
        )),
        Some(number) => Ok(number),
        None => Err(format!(
            "`{text}` does not read as a number; a number of {unit} was expected, {example}"
        )),
    }
}

/// A number of a unit as it is said: exactly, as decimals where they end, else as a fraction.
pub(super) fn said(number: Fraction, unit: &str) -> String {
    let shown = match fraction::places_needed(number) {
        Some(places) if places <= 6 => {
            fraction::decimal(number, places, measure::Rounding::Nearest)
        }
        _ => fraction::mixed(number),
    };
    format!("{shown} {unit}")
}
