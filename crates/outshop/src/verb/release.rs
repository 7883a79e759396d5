//! `release`: the signed hand-over of an engine to service.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::locomotive::engine;

use super::saved;
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
        let told = format!(
            "No. {} is released by {} on {}. Nothing in this book stopped her then; a finding, open work or a lapsed clock ends it.",
            self.engine,
            context.by()?,
            words::day(on)
        );
        Ok(saved(&receipt, told, json!({})))
    }
}
