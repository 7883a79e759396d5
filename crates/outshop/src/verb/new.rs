//! `new`: makes a book.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::book::PersonId;
use shop::locomotive::NewBook;
use store::{By, Store};

use super::saved;
use crate::{Answer, Context, Failure};

/// Make a new book, with the shop's name and its officer.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct New {
    /// The shop's name.
    #[arg(long)]
    pub shop: String,
    /// Its one time zone, by its IANA name, such as America/Denver.
    #[arg(long)]
    pub zone: String,
    /// The officer, who may do everything and says who else may do what.
    #[arg(long)]
    pub officer: String,
    /// House units of the book.
    #[arg(long, default_value = "inch")]
    #[serde(default = "inch")]
    pub units: String,
    /// Hold the book's today at this day: a demonstration.
    #[arg(long, hide = true)]
    pub demonstration: Option<String>,
}

impl New {
    /// Makes it.
    ///
    /// # Errors
    /// If a file stands there, or what was typed does not read.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let path = context.path()?;
        let officer = PersonId(context.id()?);
        let new = NewBook {
            shop: self.shop.clone(),
            time_zone: self.zone.clone(),
            house: self.units.clone(),
            officer: self.officer.clone(),
            demonstration: self.demonstration.as_deref().map(super::date).transpose()?,
        };
        // Everything is asked of the pure verb before a file is made, so that a bad name leaves none behind.
        shop::locomotive::new_book(&new, officer)?;
        let act = context.act(By::Id(officer), &self.zone)?;
        let mut store = Store::create(&path)?;
        let receipt = store.write(&act, |_, _| shop::locomotive::new_book(&new, officer))?;
        context.take(store);
        // The shop's certificate authority is made with the book, so that the first copy holds it already.
        super::serve::authority(context)?;
        let first_day = match new.demonstration {
            Some(_) => String::new(),
            None => format!(
                "{}\n",
                crate::words::backup::first_day(&path.display().to_string())
            ),
        };
        let told = format!(
            "A book for {} is made at {}; {} is its officer.",
            self.shop.trim(),
            path.display(),
            self.officer.trim()
        );
        let mut answer = saved(
            &receipt,
            told,
            json!({ "book": path.display().to_string() }),
        );
        answer.text.push_str(&first_day);
        Ok(answer)
    }
}

fn inch() -> String {
    "inch".into()
}
