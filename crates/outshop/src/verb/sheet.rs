//! `sheet`: any worked sheet, or the list of them.

use clap::Args;
use serde::Deserialize;
use serde_json::json;

use super::pair;
use super::ruled::{self, Asked};
use super::setting::ForLathe;
use crate::{Answer, Context, Failure};

/// Work a sheet: its id and name=value arguments.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// The sheet, such as seat.correct.
    #[arg(required_unless_present = "list")]
    pub id: Option<String>,
    /// What goes in: name=value, written as a shop writes it, such as land=5/32in; engine=14 or rules=us-steam beside it.
    #[serde(default)]
    pub arguments: Vec<String>,
    /// List every sheet, or what one sheet asks for.
    #[arg(long)]
    #[serde(default)]
    pub list: bool,
    /// The engine whose rules give the figures of law that the sheet asks for.
    #[arg(long, value_name = "NUMBER", conflicts_with = "list")]
    #[serde(default)]
    pub engine: Option<String>,
    /// The rulebook that gives them, where no engine is meant: us-steam.
    #[arg(long, value_name = "RULEBOOK", conflicts_with = "list")]
    #[serde(default)]
    pub rules: Option<String>,
    /// The lathe whose settings are wanted, such as LA-001: of a thread that is cut.
    #[arg(long, value_name = "NUMBER", conflicts_with = "list")]
    #[serde(default)]
    pub lathe: Option<String>,
    /// A circumstance that is so, such as steel-plate. May be given more than once.
    #[arg(long, value_name = "WORD", conflicts_with = "list")]
    #[serde(default)]
    pub so: Vec<String>,
    /// A fact that a table hangs on and the sheet does not ask, such as rivet=steel. May be given more than once.
    #[arg(long = "fact", value_name = "NAME=VALUE", conflicts_with = "list")]
    #[serde(default)]
    pub facts: Vec<String>,
}

impl Sheet {
    /// Works it.
    ///
    /// # Errors
    /// What the sheet says of its arguments.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let Some(id) = self.id.as_deref().filter(|_| !self.list) else {
            return Ok(self.catalogue());
        };
        let mut pairs = Vec::new();
        for typed in &self.arguments {
            pairs.push(pair(typed, "an argument of a sheet")?);
        }
        for typed in &self.facts {
            let (name, value) = pair(typed, "a fact")?;
            pairs.push((format!("{}{name}", ruled::FACT), value));
        }
        let said = |name: &str, value: &String| (name.to_string(), value.clone());
        pairs.extend(self.so.iter().map(|word| said(ruled::SO, word)));
        pairs.extend(self.engine.iter().map(|number| said(ruled::ENGINE, number)));
        pairs.extend(self.rules.iter().map(|rules| said(ruled::RULES, rules)));
        pairs.extend(self.lathe.iter().map(|number| said(ruled::LATHE, number)));
        let asked = Asked::of(&pairs);
        let sheet = asked.work(context, id)?;
        let mut answer = Answer {
            text: sheet.to_text(),
            json: sheet.to_json(),
            code: ruled::code(&sheet),
        };
        if let Some(number) = &asked.lathe {
            let told = ForLathe::of(&context.book()?, number, &sheet, context.house())?;
            if let Some(told) = told {
                answer.text.push_str(&told.text());
                if let Some(json) = answer.json.as_object_mut() {
                    json.insert("lathe".into(), told.json());
                }
            }
        }
        Ok(answer)
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
