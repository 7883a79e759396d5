//! The figure a reading is held against, where the law gives it by a table or a formula: which facts of the
//! engine or the part it hangs on, and what is missing.

use std::collections::BTreeMap;

use measure::{Fraction, House, Size};
use rules::{Axis, Bands, Body, Limit, LimitFormula, LimitTable, Place};

use super::number::measured;
use crate::book::Locomotive;

/// What is told of an engine and a part.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Told<'a> {
    /// Facts by their words, as written: `center-diameter` is `44 in`.
    pub(crate) facts: &'a BTreeMap<String, String>,
    /// The engine, where one is known.
    pub(crate) engine: Option<&'a Locomotive>,
}

/// The limit that a body of any kind comes to; nothing if it is no limit at all.
///
/// # Errors
/// What is missing or cannot be used, one line each.
pub(crate) fn figure(body: &Body, told: Told<'_>) -> Result<Option<Limit>, Vec<String>> {
    match body {
        Body::Limit(limit) => Ok(Some(limit.clone())),
        Body::LimitTable(table) => told.cell(table).map(Some),
        Body::LimitFormula(formula) => told.worked(formula).map(Some),
        _ => Ok(None),
    }
}

impl Told<'_> {
    fn fact(&self, name: &str) -> Option<&str> {
        let spelled = [name.replace('_', "-"), name.to_string()];
        let mut told = spelled.iter().filter_map(|word| self.facts.get(word));
        told.next().map(String::as_str)
    }

    /// The cell of a table for this engine and part.
    fn cell(&self, table: &LimitTable) -> Result<Limit, Vec<String>> {
        let row = self.on_axis(&table.rows, table);
        let column = table.columns.as_ref().map(|axis| self.on_axis(axis, table));
        let (row, column) = match (row, column) {
            (Ok(row), None) => (row, None),
            (Ok(row), Some(Ok(column))) => (row, Some(column)),
            (row, column) => {
                let missing = [row.err(), column.and_then(Result::err)];
                return Err(missing.into_iter().flatten().collect());
            }
        };
        let found = match &column {
            Some(column) => table.limit_at(row.place(), column.place()),
            None => table.limit_in(row.place()),
        };
        found.map_err(|outside| vec![outside.to_string()])
    }

    /// Where on one side of a table the engine or part stands.
    fn on_axis(&self, axis: &Axis, table: &LimitTable) -> Result<Stands, String> {
        let of_driver = table.quantity == "tire-thickness" && axis.name == "axle_load";
        if of_driver && self.fact(&axis.name).is_none() {
            let load = self.engine.and_then(|engine| engine.axle_load_lb);
            return load
                .map(|load| Stands::Number(Fraction::from_integer(i128::from(load))))
                .ok_or_else(|| "the weight on drivers per driving axle".to_string());
        }
        let name = match axis.name.as_str() {
            "center_diameter" => "the diameter of the wheel center".to_string(),
            other => format!("the {}", other.replace('_', " ")),
        };
        let told = self.fact(&axis.name);
        match (&axis.bands, told) {
            (Bands::Words(words), None) => Err(format!("{name}: {}", words.join(", "))),
            (Bands::Edges { .. }, None) => Err(name),
            (Bands::Words(_), Some(word)) => Ok(Stands::Word(word.trim().to_string())),
            (Bands::Edges { .. }, Some(text)) => {
                number(text, &axis.unit).map(Stands::Number).map_err(|e| {
                    let sort = if axis.unit == "in" {
                        "as a size"
                    } else {
                        "as a number"
                    };
                    format!("{name} {sort} ({e})")
                })
            }
        }
    }

    /// A formula worked for this engine and part.
    fn worked(&self, formula: &LimitFormula) -> Result<Limit, Vec<String>> {
        let (mut given, mut missing) = (Vec::new(), Vec::new());
        for fact in &formula.facts {
            // The boiler's own pressure is in the book; a reservoir's is not.
            let of_boiler = fact.meaning == "MAWP" && fact.unit == "psi";
            let mawp = self.engine.and_then(|engine| engine.mawp_psig);
            let value = match (self.fact(&fact.name), mawp.filter(|_| of_boiler)) {
                (Some(text), _) => number(text, &fact.unit)
                    .map_err(|e| format!("{} in {} ({e})", fact.meaning, fact.unit)),
                (None, Some(mawp)) => Ok(Fraction::from_integer(i128::from(mawp))),
                (None, None) => Err(format!(
                    "{} in {} (`{}`)",
                    fact.meaning,
                    fact.unit,
                    fact.name.replace('_', "-")
                )),
            };
            match value {
                Ok(value) => given.push((fact.name.as_str(), value)),
                Err(need) => missing.push(need),
            }
        }
        if !missing.is_empty() {
            return Err(missing);
        }
        formula.limit_for(&given).map_err(|e| vec![e.to_string()])
    }
}

/// A place on an axis that is kept.
enum Stands {
    Number(Fraction),
    Word(String),
}

impl Stands {
    fn place(&self) -> Place<'_> {
        match self {
            Stands::Number(number) => Place::Number(*number),
            Stands::Word(word) => Place::Word(word),
        }
    }
}

/// A fact as a number of its unit, exactly; its unit must be written.
fn number(text: &str, unit: &str) -> Result<Fraction, String> {
    if unit == "in" {
        return Size::parse(text)
            .map(Size::inches)
            .map_err(|e| e.to_string());
    }
    if unit == "mm" {
        return Size::parse(text).map(Size::mm).map_err(|e| e.to_string());
    }
    measured(text, unit, House::Inch)
}
