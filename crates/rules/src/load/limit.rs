//! Limits and limit tables as written: numbers with a unit of their own, lengths as fractions in quotes.

use serde::Deserialize;
use toml::Value;

use super::{text, word};
use crate::words::WHEN;
use crate::{AtValue, Axis, Compare, Limit, LimitTable, LimitValue};

/// On which side a reading must lie, or that none is allowed.
#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "kebab-case")]
enum Side {
    Max,
    Min,
    Range,
    None,
}

#[derive(Deserialize, Clone, Copy)]
#[serde(rename_all = "kebab-case")]
enum Edge {
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
    text::filled("subject", &it.subject)?;
    text::filled("measured", &it.measured)?;
    it.when.iter().try_for_each(|w| word("when", WHEN, w))?;
    let (compare, value, written) = match (it.compare, &it.value) {
        (Side::None, None) => (Compare::Max, LimitValue::CountNone, String::from("none")),
        (Side::None, Some(_)) => return Err("compare = \"none\" has no value; remove it".into()),
        (_, None) => return Err("missing key `value`".into()),
        (Side::Range, Some(value)) => range(value, it.unit.is_some())?,
        (side, Some(value)) => {
            let (value, written) = single("value", value, it.unit.is_some())?;
            (
                if side == Side::Max {
                    Compare::Max
                } else {
                    Compare::Min
                },
                value,
                written,
            )
        }
    };
    let at_value = match (it.compare, it.at_value) {
        (Side::None, None) => AtValue::Passes,
        (Side::None, Some(_)) => return Err("compare = \"none\" has no at_value; remove it".into()),
        (_, None) => {
            return Err(
                "missing key `at_value`; say whether the value itself \"passes\" or \"fails\""
                    .into(),
            );
        }
        (_, Some(edge)) => edge.into(),
    };
    let unit = match (it.compare, it.unit) {
        (Side::None, None) => return Err("missing key `unit`: say of what none is allowed".into()),
        (_, Some(unit)) => text::filled("unit", &unit).map(|()| unit)?,
        (_, None) => String::from("in"),
    };
    Ok(Limit {
        subject: it.subject,
        measured: it.measured,
        when: it.when,
        compare,
        value,
        written,
        at_value,
        unit,
        grounds: it.grounds,
        together_with: it.together_with,
    })
}

fn single(key: &str, value: &Value, has_unit: bool) -> Result<(LimitValue, String), String> {
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

/// A table as written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableText {
    subject: String,
    measured: String,
    compare: Side,
    at_value: Edge,
    grounds: bool,
    rows: AxisText,
    columns: AxisText,
    cells: Vec<Vec<Value>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AxisText {
    name: String,
    unit: String,
    upper_edges: Vec<String>,
}

pub(super) fn table(it: TableText) -> Result<LimitTable, String> {
    text::filled("subject", &it.subject)?;
    text::filled("measured", &it.measured)?;
    let compare = match it.compare {
        Side::Max => Compare::Max,
        Side::Min => Compare::Min,
        Side::Range | Side::None => {
            return Err("the cells of a limit table are \"max\" or \"min\"".into());
        }
    };
    let rows = axis("rows", it.rows)?;
    let columns = axis("columns", it.columns)?;
    let (down, across) = (rows.upper_edges.len() + 1, columns.upper_edges.len() + 1);
    if it.cells.len() != down || it.cells.iter().any(|row| row.len() != across) {
        return Err(format!(
            "the edges make {down} rows of {across} cells; the cells are not so laid out"
        ));
    }
    let mut cells = Vec::new();
    for row in &it.cells {
        cells.push(
            row.iter()
                .map(|cell| text::length("cells", cell))
                .collect::<Result<Vec<_>, _>>()?,
        );
    }
    Ok(LimitTable {
        subject: it.subject,
        measured: it.measured,
        compare,
        at_value: it.at_value.into(),
        grounds: it.grounds,
        rows,
        columns,
        cells,
    })
}

fn axis(key: &str, it: AxisText) -> Result<Axis, String> {
    let mut upper_edges = Vec::new();
    for edge in &it.upper_edges {
        upper_edges.push(text::number(&format!("{key}.upper_edges"), edge)?);
    }
    if upper_edges.is_empty() || !upper_edges.is_sorted_by(|a, b| a < b) {
        return Err(format!(
            "{key}.upper_edges must name at least one edge, each above the one before"
        ));
    }
    Ok(Axis {
        name: it.name,
        unit: it.unit,
        upper_edges,
    })
}
