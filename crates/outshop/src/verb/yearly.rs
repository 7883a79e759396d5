//! `yearly`: what a shop works every year, by which sheet, and what is not on file.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::ruled::yearly::yearly;

use super::wrap;
use crate::words::year_work as say;
use crate::{Answer, Context, Failure};

/// What a shop works every year: the sheets for it, the rules that bound it, and what is not on file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct YearWork {}

impl YearWork {
    /// Lists it.
    ///
    /// # Errors
    /// If the table does not read.
    pub fn run(self, _: &mut Context) -> Result<Answer, Failure> {
        let mut text = format!("{}\n", say::TITLE);
        let mut list = Vec::new();
        for it in yearly()? {
            text.push_str(&format!("  {}\n", it.work));
            for said in say::lines(it) {
                text.push_str(&format!("      {}\n", wrap(&said, 6, 118)));
            }
            list.push(json!({ "work": it.work, "sheets": it.sheets, "rules": it.rules, "lacks": it.lacks, "on_file": !it.is_not_on_file() }));
        }
        Ok(Answer::done(text, json!(list)))
    }
}
