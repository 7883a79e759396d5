//! `locomotive`: the engines, and the inspections held before the book.

use std::collections::BTreeMap;

use clap::{Args, Subcommand};
use measure::{House, Size, show};
use serde::Deserialize;
use serde_json::json;
use shop::book::{HeldBefore, LocomotiveId};
use shop::locomotive::{NewEngine, engine, engines};

use super::{date, saved};
use crate::{Answer, Context, Failure, words};

/// Engines.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Locomotive {
    /// Add an engine.
    Add(Add),
    /// State an inspection held before the book, so that its clocks have a start.
    Held(Held),
    /// State the day of work done outside an inspection, or of a happening such as entering service.
    Day(super::stated::Day),
    /// State a fact that decides which clocks bind her.
    Fact(super::stated::Fact),
    /// Put her under a rule set beside the one she was added under, or say when one ceases to bind her.
    Rules(super::stated::Rules),
    /// Attest a spell in which she was not used.
    OutOfUse(super::stated::Spell),
    /// Every engine.
    List,
    /// One engine, with what is known of her.
    Show {
        /// Her number.
        engine: String,
    },
}

/// Add an engine.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// The number on her cab.
    pub number: String,
    /// Wheel arrangement, such as 2-8-0.
    #[arg(long)]
    pub wheels: String,
    /// Track gauge, such as "56 1/2 in".
    #[arg(long)]
    pub gauge: String,
    /// Which rulebook governs her, such as us-steam, or a set of another jurisdiction in this book.
    #[arg(long)]
    pub rules: String,
    /// Maximum allowable working pressure from her specification card, such as 180psig.
    #[arg(long)]
    pub mawp: Option<String>,
    /// Weight on drivers divided by driving axles, in pounds.
    #[arg(long)]
    pub axle_load: Option<u32>,
    /// Fittings she has.
    #[arg(long, value_delimiter = ',')]
    #[serde(default)]
    pub fitted: Vec<String>,
    /// Fittings she does not have.
    #[arg(long, value_delimiter = ',')]
    #[serde(default)]
    pub not_fitted: Vec<String>,
}

/// State an inspection held before the book.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Held {
    /// Her number.
    pub engine: String,
    /// The kind: 31, 92, annual, fifth-annual, 1472; of a diesel, periodic; or one that a rule set of hers declares.
    pub kind: String,
    /// The day it was completed.
    pub day: String,
    /// The document that says so.
    #[arg(long)]
    pub document: String,
    /// Service days since, if the paper says so; then --through is needed.
    #[arg(long, requires = "through")]
    pub service_days: Option<u32>,
    /// The last day those service days include.
    #[arg(long, requires = "service_days")]
    pub through: Option<String>,
    /// For a fifth annual: annuals held since, if the paper says so.
    #[arg(long)]
    pub annuals: Option<u32>,
}

impl Locomotive {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Locomotive::Add(it) => it.run(context),
            Locomotive::Held(it) => it.run(context),
            Locomotive::Day(it) => it.run(context),
            Locomotive::Fact(it) => it.run(context),
            Locomotive::Rules(it) => it.run(context),
            Locomotive::OutOfUse(it) => it.run(context),
            Locomotive::List => {
                let (rules, book, on) = (context.rules()?, context.book()?, context.on()?);
                let house = context.house();
                let mut text = String::new();
                let mut list = Vec::new();
                for (_, kept) in engines(&book) {
                    text.push_str(&format!(
                        "{:<8} {:<8} gauge {:<22} rules {}\n",
                        format!("No. {}", kept.number),
                        kept.wheels,
                        show::size(kept.gauge, house),
                        shop::locomotive::Law::of(&book, rules, kept).told_on(on)
                    ));
                    list.push(json!({ "engine": kept.number, "wheels": kept.wheels, "rules": kept.jurisdiction }));
                }
                Ok(Answer::done(text, json!(list)))
            }
            Locomotive::Show { engine: number } => show_engine(context, number),
        }
    }
}

fn show_engine(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let rules = context.rules()?;
    let book = context.book()?;
    let house = context.house();
    let (id, kept) = engine(&book, number)?;
    let law = shop::locomotive::Law::of(&book, rules, kept);
    let unknown = || "not known".to_string();
    let on = context.on()?;
    let mut text = format!(
        "No. {}, {}, rules {}\n",
        kept.number,
        kept.wheels,
        law.told_on(on)
    );
    let mut line = |what: &str, told: String| text.push_str(&format!("  {what:<28} {told}\n"));
    line("track gauge", show::size(kept.gauge, house));
    line(
        "allowed working pressure",
        kept.mawp_psig
            .map_or_else(unknown, |p| format!("{p} psi gauge")),
    );
    line(
        "weight per driving axle",
        kept.axle_load_lb
            .map_or_else(unknown, |p| format!("{p} lb")),
    );
    // No item of a diesel hangs on these.
    let fittings = rules::words::FITTINGS
        .iter()
        .filter(|_| law.counts_service_days());
    for (word, meaning) in fittings {
        let told = match kept.fittings.get(*word) {
            Some(true) => "fitted".to_string(),
            Some(false) => "not fitted".to_string(),
            None => unknown(),
        };
        line(word, format!("{told}: {meaning}"));
    }
    for told in &kept.rules_bound {
        let through = told
            .through
            .map_or(String::new(), |day| format!(" through {}", words::day(day)));
        line(
            &format!("rules: {}", told.set),
            format!(
                "from {}{through} ({})",
                words::day(told.from),
                told.document
            ),
        );
    }
    for held in &kept.held_before {
        line(
            &format!("held before: {}", held.kind),
            format!("{} ({})", words::day(held.held_on), held.document),
        );
    }
    for told in &kept.days {
        line(
            &format!("day: {}", told.what),
            format!("{} ({})", words::day(told.day), told.document),
        );
    }
    for told in &kept.facts {
        line(
            &told.fact,
            format!(
                "{} from {} ({})",
                told.value,
                words::day(told.from),
                told.document
            ),
        );
    }
    for spell in &kept.out_of_use {
        line(
            "out of use",
            format!(
                "{} through {}: {} ({})",
                words::day(spell.from),
                words::day(spell.through),
                spell.told,
                super::name(&book, spell.by)
            ),
        );
    }
    match (kept.log_from, kept.log_through) {
        (Some(from), Some(through)) => line(
            "log closed",
            format!("{} through {}", words::day(from), words::day(through)),
        ),
        _ if !law.counts_service_days() => {}
        _ => line("log closed", "never".into()),
    }
    let mut parts: Vec<_> = book.parts.values().filter(|p| p.locomotive == id).collect();
    parts.sort_by(|a, b| a.name.cmp(&b.name));
    for part in parts {
        line("part", format!("{} ({})", part.name, part.family));
    }
    let value = json!({
        "engine": kept.number, "wheels": kept.wheels, "rules": kept.jurisdiction, "mawp_psig": kept.mawp_psig,
        "axle_load_lb": kept.axle_load_lb, "fittings": kept.fittings, "log_from": kept.log_from.map(|d| d.to_string()),
        "log_through": kept.log_through.map(|d| d.to_string()),
    });
    Ok(Answer::done(text, value))
}

impl Add {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let gauge = Size::parse(&self.gauge)
            .map_err(|e| Failure::Input(format!("The track gauge: {e}")))?;
        let mawp_psig = self.mawp.as_deref().map(psig).transpose()?;
        let mut fittings = BTreeMap::new();
        for (words, fitted) in [(&self.fitted, true), (&self.not_fitted, false)] {
            for word in words {
                if fittings
                    .insert(word.clone(), fitted)
                    .is_some_and(|before| before != fitted)
                {
                    return Err(Failure::Input(format!(
                        "`{word}` is given as fitted and as not fitted."
                    )));
                }
            }
        }
        let new = NewEngine {
            id: LocomotiveId(context.id()?),
            number: self.number.clone(),
            wheels: self.wheels.clone(),
            gauge,
            jurisdiction: self.rules.clone(),
            mawp_psig,
            axle_load_lb: self.axle_load,
            fittings,
        };
        let id = new.id;
        let receipt =
            context.save(|book, _, _| shop::locomotive::add_engine(book, rules, new.clone()))?;
        Ok(saved(
            &receipt,
            format!("No. {} is in the book.", self.number.trim()),
            json!({ "locomotive": id.to_string() }),
        ))
    }
}

/// A gauge pressure in whole psi, as a specification card gives it.
fn psig(text: &str) -> Result<u32, Failure> {
    let read = measure::entered(text, measure::Dimension::GaugePressure, House::Inch)
        .map_err(|e| Failure::Input(format!("The working pressure: {e}")))?;
    let psi = measure::GaugePressure::pascals(read.si).to_psi();
    let whole = psi.round();
    if !(0.5..=2000.0).contains(&psi) || (psi - whole).abs() > 1e-6 {
        return Err(Failure::Input(format!(
            "The working pressure `{text}` is not a whole number of psi gauge between 1 and 2000."
        )));
    }
    Ok(whole as u32)
}

impl Held {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let held_on = date(&self.day)?;
        let through = self.through.as_deref().map(date).transpose()?;
        let service_days_since = self.service_days.zip(through);
        let rules = context.rules()?;
        let receipt = context.save(|book, _, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let held = HeldBefore {
                locomotive,
                kind: self.kind.clone(),
                held_on,
                service_days_since,
                annuals_since: self.annuals,
                document: self.document.trim().into(),
            };
            shop::locomotive::held_before(book, rules, held, on)
        })?;
        let told = format!(
            "The {} inspection of {} is kept as held before the book.",
            self.kind,
            words::day(held_on)
        );
        Ok(saved(&receipt, told, json!({})))
    }
}
