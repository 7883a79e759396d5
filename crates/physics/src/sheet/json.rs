//! A sheet and a card as JSON, for the shell and for other programs. The keys are a promise.

use super::{Sheet, Shown};
use crate::card::{Card, Kind, ResultKind};
use serde_json::{Map, Value, json};

impl Sheet {
    /// The sheet under the keys `sheet`, `law`, `inputs`, `results`, `steps`, `notices`, `cautions`
    /// and `sources`.
    pub fn to_json(&self) -> Value {
        let inputs: Vec<Value> = self
            .inputs
            .iter()
            .map(|input| {
                let (value, unit) = match &input.value {
                    Shown::Quantity { value, unit, .. } => (json!(value), *unit),
                    Shown::Text(text) => (json!(text), ""),
                    Shown::Table { rows, .. } => (json!(rows), ""),
                };
                json!({
                    "name": input.name, "symbol": input.symbol, "entered": input.entered,
                    "value": value, "unit": unit, "basis": input.basis.to_string(),
                })
            })
            .collect();
        let results: Map<String, Value> = self
            .results
            .iter()
            .map(|result| (result.name.to_owned(), shown(&result.value)))
            .collect();
        let steps: Vec<Value> = self
            .steps
            .iter()
            .map(|step| {
                json!({
                    "formula": step.formula, "substituted": step.substituted,
                    "value": step.value, "unit": step.unit, "source": step.source,
                })
            })
            .collect();
        json!({
            "sheet": self.card.id,
            "law": format!("{} (version {})", self.card.title, self.card.version),
            "inputs": inputs,
            "results": results,
            "steps": steps,
            "notices": self.notices,
            "cautions": self.cautions,
            "sources": self.sources,
        })
    }
}

fn shown(value: &Shown) -> Value {
    match value {
        Shown::Quantity {
            value,
            unit,
            shown,
            si,
        } => {
            json!({"value": value, "unit": unit, "shown": shown, "si": si})
        }
        Shown::Text(text) => json!({"text": text}),
        Shown::Table { columns, rows } => json!({"columns": columns, "rows": rows}),
    }
}

impl Card {
    /// One line of the catalogue: what the law is for, what it takes and what it gives. Units are
    /// left out: they follow the dimension and the house.
    pub fn to_json(&self) -> Value {
        let arguments: Vec<Value> = self
            .arguments
            .iter()
            .map(|argument| {
                let (dimension, range) = match argument.kind {
                    Kind::Quantity(dimension, range)
                    | Kind::List {
                        dimension, range, ..
                    } => (json!(dimension), json!([range.least, range.most])),
                    Kind::Word(_) | Kind::Words { .. } => (Value::Null, Value::Null),
                };
                let roles = match argument.kind {
                    Kind::Words { roles, .. } => json!(roles),
                    _ => Value::Null,
                };
                let list = match argument.kind {
                    Kind::List { count, .. } => json!([count.0, count.1]),
                    _ => Value::Null,
                };
                json!({
                    "name": argument.name, "symbol": argument.symbol, "meaning": argument.meaning,
                    "required": argument.required, "dimension": dimension, "range": range,
                    "choices": argument.choices(), "roles": roles, "list": list,
                })
            })
            .collect();
        let results: Vec<Value> = self
            .results
            .iter()
            .map(|result| {
                let kind = match result.kind {
                    ResultKind::Quantity(dimension, _, _) => json!(dimension),
                    ResultKind::Text => json!("text"),
                    ResultKind::Table => json!("table"),
                };
                json!({"name": result.name, "meaning": result.meaning, "kind": kind})
            })
            .collect();
        json!({
            "sheet": self.id, "title": self.title, "version": self.version, "purpose": self.purpose,
            "arguments": arguments, "results": results, "validity": self.validity,
        })
    }
}
