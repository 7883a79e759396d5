//! Limits as written: numbers with a unit of their own, lengths as fractions in quotes.

use serde::Deserialize;
use toml::Value;

use super::text;
use crate::near::near;
use crate::words;
use crate::{AtValue, Compare, Limit, LimitValue};

/// On which side a reading must lie, or that none is allowed.
#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Side {
    Max,
    Min,
    Range,
    Set,
    None,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Edge {
    Passes,
    Fails,
}

impl From<Edge> for AtValue {
    fn from(edge: Edge) -> Self {
        match edge {
            Edge::Passes => AtValue::Passes,
            Edge::Fails => AtValue::Fails,
        }
    }
}

/// A limit as written. Without `unit` the value is a length.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LimitText {
    quantity: String,
    subject: String,
    measured: String,
    when: Vec<String>,
    compare: Side,
    value: Option<Value>,
    at_value: Option<Edge>,
    unit: Option<String>,
    grounds: bool,
    together_with: Option<String>,
}

pub(super) fn limit(it: LimitText) -> Result<Limit, String> {
    what(&it.quantity, &it.subject, &it.measured, &it.when)?;
    let has_unit = it.unit.is_some();
    let (compare, value, written) = match (it.compare, &it.value) {
        (Side::None, None) => (Compare::Max, LimitValue::CountNone, String::from("none")),
        (Side::None, Some(_)) => return Err("compare = \"none\" has no value; remove it".into()),
        (_, None) => return Err("missing key `value`".into()),
        (Side::Range, Some(value)) => range(value, has_unit)?,
        (side, Some(value)) => {
            let (value, written) = single("value", value, has_unit)?;
            (one_sided(side)?, value, written)
        }
    };
    let unit = match (it.compare, it.unit) {
        (Side::None, None) => return Err("missing key `unit`: say of what none is allowed".into()),
        (_, unit) => unit_word(unit)?,
    };
    Ok(Limit {
        quantity: it.quantity,
        subject: it.subject,
        measured: it.measured,
        when: it.when,
        compare,
        value,
        written,
        at_value: at_value(it.compare, it.at_value)?,
        unit,
        grounds: it.grounds,
        together_with: it.together_with,
    })
}

/// What every limit says first: the quantity as one word, its subject, how it is measured, under which circumstances.
pub(super) fn what(
    quantity: &str,
    subject: &str,
    measured: &str,
    when: &[String],
) -> Result<(), String> {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if quantity.is_empty() || !quantity.chars().all(plain) {
        return Err(format!(
            "`quantity` is \"{quantity}\"; expected one word in lower case with hyphens, as \"flange-height\""
        ));
    }
    text::filled("subject", subject)?;
    text::filled("measured", measured)?;
    when.iter().try_for_each(|w| match words::question(w) {
        Some(_) => Ok(()),
        None => Err(unknown(
            "when",
            w,
            words::circumstances(),
            "words::QUESTIONS",
        )),
    })
}

/// The side of a single value.
pub(super) fn one_sided(side: Side) -> Result<Compare, String> {
    match side {
        Side::Max => Ok(Compare::Max),
        Side::Min => Ok(Compare::Min),
        Side::Set => Ok(Compare::Set),
        Side::Range | Side::None => {
            Err("a table or a formula is \"max\", \"min\" or \"set\"".into())
        }
    }
}

/// Whether the value itself passes: said for every limit that has a side, and for no other.
pub(super) fn at_value(side: Side, edge: Option<Edge>) -> Result<AtValue, String> {
    match (side, edge) {
        (Side::None | Side::Set, None) => Ok(AtValue::Passes),
        (Side::None, Some(_)) => Err("compare = \"none\" has no at_value; remove it".into()),
        (Side::Set, Some(_)) => Err("compare = \"set\" has no at_value; remove it".into()),
        (_, None) => Err(
            "missing key `at_value`; say whether the value itself \"passes\" or \"fails\"".into(),
        ),
        (_, Some(edge)) => Ok(edge.into()),
    }
}

/// The unit's word, from its closed list; a length has none.
pub(super) fn unit_word(unit: Option<String>) -> Result<String, String> {
    let Some(unit) = unit else {
        return Ok(String::from("in"));
    };
    if words::unit(&unit).is_some() {
        return Ok(unit);
    }
    let known = words::UNITS.iter().map(|u| u.word);
    Err(unknown("unit", &unit, known, "words::UNITS"))
}

/// A word that a long list does not hold: those like it are offered, and where the list stands.
fn unknown<'w>(key: &str, given: &str, known: impl Iterator<Item = &'w str>, list: &str) -> String {
    let like = match near(given, known).as_slice() {
        [] => String::new(),
        names => format!("; did you mean `{}`?", names.join("`, or `")),
    };
    format!("unknown word `{given}` for `{key}`, not in `{list}`{like}")
}

/// One value: a length, or a number where the limit has a unit.
pub(super) fn single(
    key: &str,
    value: &Value,
    has_unit: bool,
) -> Result<(LimitValue, String), String> {
    if !has_unit {
        let (written, size) = text::length(key, value)?;
        return Ok((LimitValue::Size(size), written));
    }
    let Value::String(written) = value else {
        return Err(format!(
            "`{key}` is {value}; expected a number in quotes, as \"95\" or \"2 1/2\""
        ));
    };
    Ok((
        LimitValue::Number(text::number(key, written)?),
        written.clone(),
    ))
}

fn range(value: &Value, has_unit: bool) -> Result<(Compare, LimitValue, String), String> {
    let Some([least, most]) = value.as_array().map(Vec::as_slice) else {
        return Err(format!(
            "`value` is {value}; a range is two values, the smaller first"
        ));
    };
    let (least, from) = single("value", least, has_unit)?;
    let (most, to) = single("value", most, has_unit)?;
    let value = match (least, most) {
        (LimitValue::Size(a), LimitValue::Size(b)) if a < b => LimitValue::SizeRange(a, b),
        (LimitValue::Number(a), LimitValue::Number(b)) if a < b => LimitValue::NumberRange(a, b),
        _ => {
            return Err(format!(
                "the range {from} to {to} does not rise; the smaller value comes first"
            ));
        }
    };
    Ok((Compare::Range, value, format!("{from} to {to}")))
}
