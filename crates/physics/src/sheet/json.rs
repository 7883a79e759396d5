//! A sheet as JSON, for the shell and for other programs. The keys are a promise.

use super::{Sheet, Shown};
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
