//! `release`: the signed hand-over of an engine to service.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::locomotive::engine;

use super::{name, saved};
use crate::{Answer, Context, Failure, words};

/// Hand an engine to service. Refused while anything in this book stops her.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// Her number.
    pub engine: String,
}

impl Release {
    /// Releases.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let receipt = context.save(|book, by, on| {
            let (id, _) = engine(book, &self.engine)?;
            shop::record::release(book, rules, id, by, on)
        })?;
        let on = context.on()?;
        let book = context.book()?;
        let given = engine(&book, &self.engine)?.1.released.as_ref();
        let given =
            given.ok_or_else(|| Failure::Machine("The release is not in the book.".into()))?;
        let told = format!(
            "No. {} is released by {} on {}; log closed through {}. Nothing in this book stopped her then; a finding, open work or a lapsed clock ends it.",
            self.engine,
            name(&book, given.by),
            words::day(on),
            words::day(given.log_through)
        );
        let value = json!({
            "by": name(&book, given.by), "on": given.on.to_string(), "log_through": given.log_through.to_string(),
        });
        Ok(saved(&receipt, told, value))
    }
}
