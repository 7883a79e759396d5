//! `locomotive day`, `fact`, `rules` and `out-of-use`: what no log can know, stated with the paper that shows it.

use clap::Args;
use serde::Deserialize;
use serde_json::json;
use shop::book::{DayStated, FactStated, OutOfUse, RulesBind};
use shop::clock::{attest_out_of_use, credit, state_day, state_fact};
use shop::locomotive::{Law, bind_rules, engine, inspection};

use super::{date, saved};
use crate::{Answer, Context, Failure, words};

/// State the day of work done outside an inspection, or of a happening such as entering service.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Day {
    /// Her number.
    pub engine: String,
    /// What: enters-service, first-flue-installed, air-brake-valves, frame-cleaning, brake-level-2 and so on, or
    /// the rule of an item.
    pub what: String,
    /// The day.
    pub day: String,
    /// The document or person that shows it.
    #[arg(long)]
    pub document: String,
    /// Service days since, if the paper says so; then --through is needed.
    #[arg(long, requires = "through")]
    pub service_days: Option<u32>,
    /// The last day those service days include.
    #[arg(long, requires = "service_days")]
    pub through: Option<String>,
    /// Annuals held since, if the paper says so.
    #[arg(long)]
    pub annuals: Option<u32>,
    /// The inspection of this book in the course of which it was done, such as I-003.
    #[arg(long)]
    pub at: Option<String>,
}

/// State a fact that decides which clocks bind her.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fact {
    /// Her number.
    pub engine: String,
    /// The fact: brake-schedule, condition-monitoring, air-flow-meter, main-reservoirs.
    pub fact: String,
    /// What is true, such as 26-l.
    pub value: String,
    /// From which day; today if left out.
    #[arg(long)]
    pub from: Option<String>,
    /// The document that shows it.
    #[arg(long)]
    pub document: String,
}

/// Put her under a rule set beside the one she was added under, or say when one ceases to bind her.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rules {
    /// Her number.
    pub engine: String,
    /// The set: of this program's rulebook, or of a file of rules in this book.
    pub set: String,
    /// The first day it binds her; the day of this entry if left out. Of the set she was added under only the last
    /// day counts.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub from: Option<String>,
    /// The last day it binds her; it goes on if left out.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub through: Option<String>,
    /// The document that shows it.
    #[arg(long)]
    pub document: String,
}

/// Attest a spell in which she was not used; the one who does answers for it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spell {
    /// Her number.
    pub engine: String,
    /// The first whole day out of use.
    #[arg(long)]
    pub from: String,
    /// The last whole day out of use.
    #[arg(long)]
    pub through: String,
    /// Why, and where she stood.
    #[arg(long)]
    pub told: String,
}

impl Day {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let day = date(&self.day)?;
        let through = self.through.as_deref().map(date).transpose()?;
        let receipt = context.save(|book, _, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let within = match &self.at {
                Some(number) => Some(inspection(book, number)?.0),
                None => None,
            };
            let told = DayStated {
                locomotive,
                what: self.what.trim().into(),
                day,
                service_days_since: self.service_days.zip(through),
                annuals_since: self.annuals,
                inspection: within,
                document: self.document.trim().into(),
            };
            state_day(book, rules, told, on)
        })?;
        let told = format!(
            "{} of No. {}: {}.",
            self.what.trim(),
            self.engine.trim(),
            words::day(day)
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

impl Fact {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let from = self.from.as_deref().map(date).transpose()?;
        let receipt = context.save(|book, _, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let told = FactStated {
                locomotive,
                fact: self.fact.trim().into(),
                value: self.value.trim().into(),
                from: from.unwrap_or(on),
                document: self.document.trim().into(),
            };
            state_fact(book, told, on)
        })?;
        let told = format!(
            "No. {}: {} is {}.",
            self.engine.trim(),
            self.fact.trim(),
            self.value.trim()
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

impl Rules {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let from = self.from.as_deref().map(date).transpose()?;
        let through = self.through.as_deref().map(date).transpose()?;
        let receipt = context.save(|book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let told = RulesBind {
                locomotive,
                set: self.set.trim().into(),
                from: from.unwrap_or(on),
                through,
                document: self.document.trim().into(),
            };
            bind_rules(book, rules, told, by, on)
        })?;
        let book = context.book()?;
        let (_, kept) = engine(&book, &self.engine)?;
        let on = match from {
            Some(from) => from.max(context.on()?),
            None => context.on()?,
        };
        let law = Law::of(&book, rules, kept);
        let sets: Vec<_> = law
            .sets(on)
            .map(|sets| sets.iter().map(|b| b.set.to_string()).collect())
            .unwrap_or_default();
        let told = format!(
            "On {} No. {} is under {}. Every rule of each of them holds; where two speak of one matter, the stricter binds.",
            words::day(on),
            kept.number,
            law.told_on(on)
        );
        Ok(saved(&receipt, told, json!({ "sets": sets })))
    }
}

impl Spell {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let (from, through) = (date(&self.from)?, date(&self.through)?);
        let receipt = context.save(|book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let told = OutOfUse {
                locomotive,
                from,
                through,
                told: self.told.trim().into(),
            };
            attest_out_of_use(book, rules, told, by, on)
        })?;
        let book = context.book()?;
        let (_, kept) = engine(&book, &self.engine)?;
        // With no least every day of every spell counts: the length of the spell this one belongs to.
        let eve = from.yesterday().unwrap_or(from);
        let days = credit(&kept.out_of_use, 1, eve, through);
        let told = format!(
            "No. {} was out of use from {} through {}: {}, attested by {}.",
            kept.number,
            words::day(from),
            words::day(through),
            words::count(usize::try_from(days).unwrap_or(0), "day", "days"),
            context.by()?
        );
        Ok(saved(&receipt, told, json!({ "days": days })))
    }
}
