//! Limit tables and limits by formula, as written.

use serde::Deserialize;
use toml::Value;

use super::{limit, text, word};
use crate::expression::Expression;
use crate::words::TABLE_WORDS;
use crate::{Axis, Bands, Fact, LimitFormula, LimitTable};

/// A table as written. Without `unit` the cells are lengths.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableText {
    quantity: String,
    subject: String,
    measured: String,
    when: Vec<String>,
    compare: limit::Side,
    at_value: Option<limit::Edge>,
    unit: Option<String>,
    grounds: bool,
    rows: AxisText,
    columns: Option<AxisText>,
    cells: Vec<Vec<Value>>,
}

/// A side of it: bands by their upper edges, or words.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AxisText {
    name: String,
    unit: Option<String>,
    upper_edges: Option<Vec<String>>,
    /// Whether one more band lies above the last edge.
    open: Option<bool>,
    words: Option<Vec<String>>,
}

pub(super) fn table(it: TableText) -> Result<LimitTable, String> {
    limit::what(&it.quantity, &it.subject, &it.measured, &it.when)?;
    let rows = axis("rows", it.rows)?;
    let columns = it.columns.map(|c| axis("columns", c)).transpose()?;
    let (down, across) = (rows.count(), columns.as_ref().map_or(1, Axis::count));
    if it.cells.len() != down || it.cells.iter().any(|row| row.len() != across) {
        return Err(format!(
            "the edges make {down} rows of {across} cells; the cells are not so laid out"
        ));
    }
    let has_unit = it.unit.is_some();
    let mut cells = Vec::new();
    for row in &it.cells {
        let mut line = Vec::new();
        for cell in row {
            let (value, written) = limit::single("cells", cell, has_unit)?;
            line.push((written, value));
        }
        cells.push(line);
    }
    Ok(LimitTable {
        quantity: it.quantity,
        subject: it.subject,
        measured: it.measured,
        when: it.when,
        compare: limit::one_sided(it.compare)?,
        at_value: limit::at_value(it.compare, it.at_value)?,
        unit: limit::unit_word(it.unit)?,
        grounds: it.grounds,
        rows,
        columns,
        cells,
    })
}

fn axis(key: &str, it: AxisText) -> Result<Axis, String> {
    let bands = match (it.upper_edges, it.open, it.words) {
        (Some(edges), Some(open), None) => {
            let mut upper = Vec::new();
            for edge in &edges {
                upper.push(text::number(&format!("{key}.upper_edges"), edge)?);
            }
            if upper.is_empty() || !upper.is_sorted_by(|a, b| a < b) {
                return Err(format!(
                    "{key}.upper_edges must name at least one edge, each above the one before"
                ));
            }
            Bands::Edges { upper, open }
        }
        (None, None, Some(words)) => {
            words
                .iter()
                .try_for_each(|w| word(&format!("{key}.words"), TABLE_WORDS, w))?;
            if words.is_empty() {
                return Err(format!("{key}.words names none"));
            }
            Bands::Words(words)
        }
        _ => {
            return Err(format!(
                "{key} says either upper_edges and open (whether the law has one more band above the last edge), or words"
            ));
        }
    };
    let unit = match (&bands, it.unit) {
        (Bands::Edges { .. }, Some(unit)) => unit,
        (Bands::Words(_), None) => String::new(),
        (Bands::Edges { .. }, None) => {
            return Err(format!("missing key `{key}.unit`: the edges are numbers"));
        }
        (Bands::Words(_), Some(_)) => return Err(format!("{key}.unit goes with edges, not words")),
    };
    Ok(Axis {
        name: it.name,
        unit,
        bands,
    })
}

/// A limit by formula as written. Its unit is always said: "in" for a length.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FormulaText {
    quantity: String,
    subject: String,
    measured: String,
    when: Vec<String>,
    compare: limit::Side,
    at_value: Option<limit::Edge>,
    unit: String,
    grounds: bool,
    formula: String,
    facts: Vec<FactText>,
}

/// A fact of the formula as written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FactText {
    name: String,
    unit: String,
    meaning: String,
    example: String,
}

pub(super) fn formula(it: FormulaText) -> Result<LimitFormula, String> {
    limit::what(&it.quantity, &it.subject, &it.measured, &it.when)?;
    let formula = Expression::read(&it.formula)
        .map_err(|e| format!("the formula `{}` does not read: {e}", it.formula))?;
    let mut facts = Vec::new();
    for fact in it.facts {
        text::filled("facts.meaning", &fact.meaning)?;
        facts.push(Fact {
            example: text::number("facts.example", &fact.example)?,
            name: fact.name,
            unit: fact.unit,
            meaning: fact.meaning,
        });
    }
    let named: std::collections::BTreeSet<&str> = facts.iter().map(|f| f.name.as_str()).collect();
    let needed = formula.facts();
    if named != needed || named.len() != facts.len() {
        let list = |of: &std::collections::BTreeSet<&str>| {
            of.iter().copied().collect::<Vec<_>>().join(", ")
        };
        return Err(format!(
            "the formula uses {}, and `facts` explains {}; each is explained once",
            list(&needed),
            list(&named)
        ));
    }
    let read = LimitFormula {
        quantity: it.quantity,
        subject: it.subject,
        measured: it.measured,
        when: it.when,
        compare: limit::one_sided(it.compare)?,
        at_value: limit::at_value(it.compare, it.at_value)?,
        unit: limit::unit_word(Some(it.unit).filter(|unit| unit != "in"))?,
        grounds: it.grounds,
        written: it.formula,
        facts,
        formula,
    };
    read.limit_for(&read.examples())
        .map_err(|e| format!("the examples do not work: {e}"))?;
    Ok(read)
}
