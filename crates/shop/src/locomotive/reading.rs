//! Readings of a part: that each names a feature and a place of its family, and what it comes to.

use measure::{Angle, Dimension, Size};

use crate::Refusal;
use crate::book::{Family, Feature, FeatureKind, FeatureReading, ReadingSet};

/// What a reading comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Value {
    /// A size, exact.
    Size(Size),
    /// An angle.
    Angle(Angle),
}

impl Value {
    /// As a size, if it is one.
    pub fn size(self) -> Option<Size> {
        match self {
            Value::Size(size) => Some(size),
            Value::Angle(_) => None,
        }
    }

    /// For comparing readings of one feature: a larger reading has a larger key.
    pub fn key(self) -> f64 {
        match self {
            Value::Size(size) => size.length().to_m(),
            Value::Angle(angle) => angle.to_radians(),
        }
    }
}

/// A text as a value of the feature's kind; its unit must be written.
///
/// # Errors
/// Input, with what the parser said.
pub fn value(feature: &Feature, text: &str) -> Result<Value, Refusal> {
    let wrong = |e: measure::TextError| Refusal::input(format!("The {}: {e}", feature.title));
    match feature.kind {
        FeatureKind::Size => Size::parse(text).map(Value::Size).map_err(wrong),
        FeatureKind::Angle => measure::entered_with_unit(text, Dimension::Angle)
            .map(|entered| Value::Angle(Angle::radians(entered.si)))
            .map_err(wrong),
    }
}

/// A reading as a size; nothing where it is an angle or does not read.
pub fn size_of(feature: &Feature, reading: &FeatureReading) -> Option<Size> {
    value(feature, &reading.reading.written()).ok()?.size()
}

/// The sizes of a feature in a set, each with its place.
pub fn sizes_in<'s>(
    feature: &Feature,
    set: &'s ReadingSet,
) -> impl Iterator<Item = (&'s str, Size)> {
    let of_it = set.readings.iter().filter(|r| r.feature == feature.name);
    of_it.filter_map(|r| Some((r.reading.position.as_str(), size_of(feature, r)?)))
}

/// Of sets with the newest first, the newest in which a feature was read.
pub fn newest_of<'s>(feature: &str, newest: &[&'s ReadingSet]) -> Option<&'s ReadingSet> {
    let read = |set: &&&ReadingSet| set.readings.iter().any(|r| r.feature == feature);
    newest.iter().find(read).copied()
}

/// Checks that each reading is of a feature and a place that the family knows, and that it reads.
///
/// # Errors
/// Input, naming what is not known.
pub fn check_readings(family: &Family, readings: &[FeatureReading]) -> Result<(), Refusal> {
    for reading in readings {
        let feature = family.measured_as(&reading.feature).ok_or_else(|| {
            let known: Vec<_> = family.measured().map(|f| f.name.as_str()).collect();
            Refusal::input(format!(
                "`{}` is not measured on a {}: {} were expected.",
                reading.feature,
                family.family,
                known.join(", ")
            ))
        })?;
        if !feature.positions.contains(&reading.reading.position) {
            return Err(Refusal::input(format!(
                "`{}` is no place to measure the {}: {} were expected.",
                reading.reading.position,
                feature.title,
                feature.positions.join(", ")
            )));
        }
        value(feature, &reading.reading.written())?;
    }
    for (at, reading) in readings.iter().enumerate() {
        let again = readings.iter().take(at).any(|r| {
            r.feature == reading.feature && r.reading.position == reading.reading.position
        });
        if again {
            return Err(Refusal::input(format!(
                "`{}` at `{}` is given twice.",
                reading.feature, reading.reading.position
            )));
        }
    }
    Ok(())
}
