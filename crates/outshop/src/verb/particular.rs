//! `shop`: what the shop says of itself and of its engines on the law's papers.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::json;
use shop::locomotive::{engine, engines};
use shop::record::{PARTICULARS, state_particular};

use super::shop_rule::{self, Drop, Require};
use super::{name, saved};
use crate::words::particular as say;
use crate::{Answer, Context, Failure, words};

/// What stands on the law's papers of the shop and its engines: owner, railroad, place; rules of its own work.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Shop {
    /// State one of them; a later one takes its place from its own day on.
    State(State),
    /// All of them, and what nobody stated.
    Show,
    /// State that a rule of the shop's own work, stricter than the law, holds from now on; only an officer may.
    Require(Require),
    /// State that such a rule holds no more.
    Drop(Drop),
    /// Every rule a shop can give itself, and which hold on the day.
    Rules,
}

/// State one of them.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct State {
    /// The word: owner, operator, railroad, place, report-place, region, initials; of one engine also boiler-number,
    /// builder, built, boiler-type, dome.
    #[serde(default)]
    pub what: String,
    /// What is so.
    #[serde(default)]
    pub says: String,
    /// Of this engine alone; of all of them if left out.
    #[arg(long)]
    pub engine: Option<String>,
}

impl Shop {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Shop::State(it) => it.run(context),
            Shop::Show => show(context),
            Shop::Require(it) => it.run(context),
            Shop::Drop(it) => it.run(context),
            Shop::Rules => shop_rule::list(context),
        }
    }
}

impl State {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, by, on| {
            let of = self.engine.as_deref().map(|number| engine(book, number));
            let of = of.transpose()?.map(|(id, _)| id);
            state_particular(book, of, &self.what, &self.says, by, on)
        })?;
        let told = say::stated(self.engine.as_deref(), self.what.trim(), self.says.trim());
        Ok(saved(&receipt, told, json!({})))
    }
}

fn show(context: &mut Context) -> Result<Answer, Failure> {
    let on = context.on()?;
    let book = context.book()?;
    let mut text = String::new();
    let mut list = Vec::new();
    for (_, kept) in engines(&book) {
        text.push_str(&format!("{}\n", words::engine(&kept.number)));
        for (word, means, _) in PARTICULARS {
            let said = book.particular(kept, word, on);
            let line = match said {
                Some(it) => say::line(&it.says, it.from, name(&book, it.by)),
                None => say::NOT_STATED.to_string(),
            };
            text.push_str(&format!("  {word:<14} {line}\n"));
            list.push(json!({
                "engine": kept.number, "what": word, "means": means, "says": said.map(|it| &it.says),
                "from": said.map(|it| it.from.to_string()), "by": said.map(|it| name(&book, it.by)),
            }));
        }
    }
    text.push_str(&format!("{}\n", words::STANDING));
    Ok(Answer::done(text, json!(list)))
}
