//! `sheet`: any worked sheet, or the list of them.

use clap::Args;
use physics::Given;
use serde::Deserialize;
use serde_json::json;

use super::pair;
use crate::{Answer, Context, Failure};

/// Work a sheet: its id and name=value arguments.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// The sheet, such as seat.correct.
    #[arg(required_unless_present = "list")]
    pub id: Option<String>,
    /// What goes in: name=value, written as a shop writes it, such as land=5/32in.
    #[serde(default)]
    pub arguments: Vec<String>,
    /// List every sheet, or what one sheet asks for.
    #[arg(long)]
    #[serde(default)]
    pub list: bool,
}

impl Sheet {
    /// Works it.
    ///
    /// # Errors
    /// What the sheet says of its arguments.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let house = context.house();
        let Some(id) = self.id.as_deref().filter(|_| !self.list) else {
            return Ok(self.catalogue());
        };
        let mut given = Vec::new();
        for typed in &self.arguments {
            let (name, text) = pair(typed, "an argument of a sheet")?;
            given.push(Given::typed(&name, &text));
        }
        let sheet = physics::run(id, &given, house)?;
        let json = sheet.to_json();
        let unknown = sheet
            .results
            .iter()
            .any(|r| matches!(&r.value, physics::Shown::Text(t) if t.starts_with("cannot tell")));
        Ok(Answer {
            text: sheet.to_text(),
            json,
            code: u8::from(unknown),
        })
    }

    fn catalogue(&self) -> Answer {
        let mut text = String::new();
        let mut list = Vec::new();
        for entry in physics::catalogue() {
            let card = entry.card;
            if self.id.as_deref().is_some_and(|id| id != card.id) {
                continue;
            }
            text.push_str(&format!("{:<24} {}\n", card.id, card.title));
            let arguments: Vec<_> = card
                .arguments
                .iter()
                .map(|a| json!({ "name": a.name, "symbol": a.symbol, "meaning": a.meaning, "required": a.required }))
                .collect();
            for argument in card.arguments {
                let name = if argument.required {
                    argument.name.to_string()
                } else {
                    format!("[{}]", argument.name)
                };
                text.push_str(&format!("    {name:<22} {}\n", argument.meaning));
            }
            let results: Vec<_> = card
                .results
                .iter()
                .map(|r| json!({ "name": r.name, "meaning": r.meaning }))
                .collect();
            list.push(json!({ "sheet": card.id, "title": card.title, "arguments": arguments, "results": results }));
        }
        Answer::done(text, json!(list))
    }
}
