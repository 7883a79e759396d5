//! A figure of the rulebook as a sheet reads it, and an argument of a sheet as the rulebook reads it: exactly, both ways.

use measure::{Dimension, Fraction, House, Size, Unit, entered, fraction, show};
use rules::{AtValue, Compare, Limit, LimitValue};

use super::table::Takes;

/// The number that a limit gives a sheet, in the limit's own unit; lengths in inches.
///
/// # Errors
/// A sentence: the rule counts its figure otherwise than the sheet does.
pub(super) fn number(limit: &Limit, takes: Takes) -> Result<Fraction, String> {
    let (low, high) = match &limit.value {
        LimitValue::Size(size) => (size.inches(), size.inches()),
        LimitValue::SizeRange(low, high) => (low.inches(), high.inches()),
        LimitValue::Number(number) => (*number, *number),
        LimitValue::NumberRange(low, high) => (*low, *high),
        LimitValue::CountNone => return Err("the rule allows none".into()),
    };
    let of_rule = (limit.compare, limit.at_value);
    let fits = match takes {
        Takes::AtMost | Takes::Over(_) | Takes::Share(_) | Takes::ShareOver(_) => {
            matches!(of_rule, (Compare::Max, AtValue::Passes) | (Compare::Set, _))
        }
        Takes::Below => of_rule == (Compare::Max, AtValue::Fails),
        Takes::AtLeast => matches!(of_rule, (Compare::Min, AtValue::Passes) | (Compare::Set, _)),
        Takes::Above => of_rule == (Compare::Min, AtValue::Fails),
        Takes::Low | Takes::High => of_rule == (Compare::Range, AtValue::Passes),
        Takes::Value => limit.compare == Compare::Set,
    };
    if !fits {
        return Err(format!(
            "the rule says {}, and the sheet counts such a figure otherwise: hold the reading by the rule itself",
            limit.words()
        ));
    }
    Ok(if takes == Takes::High { high } else { low })
}

/// Whether one figure asks more of a reading than another.
pub(super) fn is_stricter(takes: Takes, one: Fraction, other: Fraction) -> bool {
    match takes {
        Takes::Value => false,
        Takes::AtLeast | Takes::Above | Takes::Low => one > other,
        _ => one < other,
    }
}

/// A number of a limit's unit, as an argument that counts `dimension` is typed.
///
/// # Errors
/// A sentence: the sheet does not take such a unit.
pub(super) fn as_typed(
    value: Fraction,
    unit: &str,
    dimension: Dimension,
) -> Result<String, String> {
    let plain = match fraction::places_needed(value) {
        Some(places) if places <= 9 => fraction::decimal(value, places, measure::Rounding::Nearest),
        _ => fraction::mixed(value),
    };
    match (dimension, unit) {
        (Dimension::Length, "in") => Ok(length(value)),
        (Dimension::Stress, "psi" | "psi a minute") => Ok(format!("{plain} psi")),
        (Dimension::GaugePressure, "psi") => Ok(format!("{plain} psig")),
        (Dimension::GaugePressure, "kPa") => Ok(format!("{plain} kPa gauge")),
        (Dimension::GaugePressure, "bar") => Ok(format!("{plain} bar gauge")),
        (Dimension::Area, "sq in") => Ok(format!("{plain} sq in")),
        (Dimension::Ratio, share) if share.starts_with("percent") => Ok(format!("{plain}%")),
        (Dimension::Ratio, _) => Ok(fraction::mixed(value)),
        (Dimension::Count, _) => Ok(plain),
        _ => Err(format!(
            "the rule has it in {unit}, and the sheet takes {}",
            dimension.words()
        )),
    }
}

/// A length as the law prints it where it is a fraction of the shop, else in millimetres, where every size ends.
pub(super) fn length(inches: Fraction) -> String {
    match Size::from_inches(inches) {
        Ok(size) if *inches.denom() > 64 => format!("{} mm", fraction_of_mm(size)),
        _ => format!("{} in", fraction::mixed(inches)),
    }
}

fn fraction_of_mm(size: Size) -> String {
    let mm = size.mm();
    let places = fraction::places_needed(mm).unwrap_or(6);
    fraction::decimal(mm, places, measure::Rounding::Nearest)
}

/// What was typed for a quantity, exactly, in a unit of the rulebook; none where it does not read or no such unit was
/// typed.
pub(super) fn in_unit(
    text: &str,
    dimension: Dimension,
    unit: &str,
    house: House,
) -> Option<Fraction> {
    let read = entered(text, dimension, house).ok()?;
    match (unit, read.unit) {
        ("in", _) => size(text, house).map(Size::inches),
        ("ft", _) => size(text, house).map(|size| size.inches() / Fraction::from_integer(12)),
        ("lb", Unit::PoundForce | Unit::Pound) | ("psi", Unit::PsiGauge | Unit::Psi) => read.exact,
        _ => None,
    }
}

/// The same for one or a list, each as a fact is told to the rulebook.
pub(super) fn as_told(
    text: &str,
    dimension: Dimension,
    unit: &str,
    house: House,
) -> Option<Vec<String>> {
    let told = |one| {
        Some(format!(
            "{} {unit}",
            fraction::mixed(in_unit(one, dimension, unit, house)?)
        ))
    };
    text.split(',').map(told).collect()
}

/// A length of an argument, for another limit to judge.
pub(super) fn size(text: &str, house: House) -> Option<Size> {
    Size::parse_in(text, house).ok()
}

/// A figure as it is said beside its rule.
pub(super) fn said(limit: &Limit) -> String {
    match &limit.value {
        LimitValue::Size(size) => show::size(*size, House::Inch),
        _ => limit.words(),
    }
}
