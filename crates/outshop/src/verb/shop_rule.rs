//! `shop require`, `shop drop`, `shop rules`: rules of this shop's own work, stricter than the law.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::record::{SHOP_RULES, state_shop_rule};

use super::{name, saved};
use crate::{Answer, Context, Failure, words};

/// State that a rule of the shop's own work holds from now on; only an officer may.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Require {
    /// Its word, as `outshop shop rules` lists them: another-certifies, wall-ahead, wall-dates.
    pub rule: String,
    /// Why, and which paper says so.
    #[arg(long)]
    pub because: String,
}

/// State that such a rule holds no more.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drop {
    /// Its word.
    pub rule: String,
    /// Why, and which paper says so.
    #[arg(long)]
    pub because: String,
}

impl Require {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        state(context, &self.rule, true, &self.because)
    }
}

impl Drop {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        state(context, &self.rule, false, &self.because)
    }
}

fn state(context: &mut Context, rule: &str, holds: bool, because: &str) -> Result<Answer, Failure> {
    let receipt =
        context.save(|book, by, on| state_shop_rule(book, rule, holds, because, by, on))?;
    let on = words::day(context.on()?);
    let word = rule.trim();
    let told = if holds {
        format!(
            "From {on} on this shop's rule `{word}` holds: {}.",
            meaning(word)
        )
    } else {
        format!("From {on} on this shop's rule `{word}` holds no more.")
    };
    Ok(saved(
        &receipt,
        told,
        json!({ "rule": word, "holds": holds }),
    ))
}

fn meaning(word: &str) -> &'static str {
    let known = SHOP_RULES.iter().find(|(known, _)| *known == word);
    known.map_or("", |(_, meaning)| meaning)
}

pub(super) fn list(context: &mut Context) -> Result<Answer, Failure> {
    let (book, on) = (context.book()?, context.on()?);
    let (mut text, mut all) = (String::new(), Vec::new());
    for (word, meaning) in SHOP_RULES {
        let stands = book.shop.as_ref().and_then(|shop| shop.rule(word, on));
        let told = stands.map_or("does not hold in this shop".to_string(), |rule| {
            format!(
                "holds since {}, stated by {}: {}",
                words::day(rule.on),
                name(&book, rule.by),
                rule.told.because
            )
        });
        text.push_str(&format!("{word}: {meaning}\n  {told}\n"));
        all.push(json!({
            "rule": word, "meaning": meaning, "holds": stands.is_some(),
            "since": stands.map(|rule| rule.on.to_string()), "by": stands.map(|rule| name(&book, rule.by)),
            "because": stands.map(|rule| &rule.told.because),
        }));
    }
    Ok(Answer::done(text, json!(all)))
}
