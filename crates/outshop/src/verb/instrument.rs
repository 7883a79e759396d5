//! `instrument`: the shop's instruments, their checks, and every reading taken with one that was found wrong.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, Instrument as Kept, InstrumentAdded, InstrumentChecked, InstrumentId};
use shop::locomotive::{doubted, doubts, instrument, last_check};

use super::{name, saved};
use crate::words::instrument as say;
use crate::{Answer, Context, Failure, words};

/// Instruments.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Instrument {
    /// Register an instrument by the number on it.
    Add(Add),
    /// Enter that it was held against something better.
    Check(Check),
    /// All of them, with their last check.
    List,
    /// One of them: its checks, and every reading in doubt where it was found wrong.
    Show {
        /// The number on it, such as M-12.
        number: String,
    },
}

/// Register an instrument.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// The number on it, such as M-12. Readings taken "by micrometer M-12" are found by it.
    pub number: String,
    /// What it is, such as "outside micrometer".
    #[arg(long)]
    pub what: String,
    /// What it measures from and to, such as "0 to 1 in".
    #[arg(long)]
    pub range: Option<String>,
    /// Where it lies.
    #[arg(long)]
    pub shelf: Option<String>,
}

/// Enter a check.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// The number on it.
    pub number: String,
    /// What it was held against: a master, blocks, a dead weight.
    #[arg(long)]
    pub against: String,
    /// It was found good.
    #[arg(long)]
    #[serde(default)]
    pub good: bool,
    /// It was found wrong.
    #[arg(long, conflicts_with = "good")]
    #[serde(default)]
    pub wrong: bool,
    /// The error found, as written, such as "+.002 in at 1 in"; of a gauge, "+2 psi at 225 psi".
    #[arg(long, allow_hyphen_values = true)]
    pub error: Option<String>,
    /// What else there is to say.
    #[arg(long)]
    pub told: Option<String>,
}

impl Instrument {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Instrument::Add(it) => {
                let id = InstrumentId(context.id()?);
                let receipt = context.save(|book, _, _| {
                    shop::locomotive::add_instrument(
                        book,
                        InstrumentAdded {
                            id,
                            number: it.number.clone(),
                            what: it.what.clone(),
                            range: it.range.clone(),
                            shelf: it.shelf.clone(),
                        },
                    )
                })?;
                let told = format!("{} is in the book: {}.", it.number.trim(), it.what.trim());
                Ok(saved(
                    &receipt,
                    told,
                    json!({ "instrument": it.number.trim() }),
                ))
            }
            Instrument::Check(it) => it.run(context),
            Instrument::List => {
                let book = context.store()?.book_of_shop()?;
                let mut all: Vec<_> = book.instruments.values().collect();
                all.sort_by_key(|it| (it.number.len(), it.number.clone()));
                let mut text = String::new();
                for it in &all {
                    text.push_str(&format!("{}  {}\n", it.number, say::line(it)));
                }
                if all.is_empty() {
                    text.push_str("No instrument is in this book yet.\n");
                }
                let list: Vec<_> = all.iter().map(|it| value(&book, it)).collect();
                Ok(Answer::done(text, json!(list)))
            }
            Instrument::Show { number } => {
                let book = context.store()?.readings_that_say(number.trim())?;
                let (_, kept) = instrument(&book, number)?;
                Ok(show(&book, kept))
            }
        }
    }
}

impl Check {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.good == self.wrong {
            return Err(Failure::Input(
                "Say how it was found: --good or --wrong was expected.".into(),
            ));
        }
        let receipt = context.save(|book, _, _| {
            let (id, _) = instrument(book, &self.number)?;
            shop::locomotive::check_instrument(
                book,
                InstrumentChecked {
                    instrument: id,
                    good: self.good,
                    error: self.error.clone(),
                    against: self.against.trim().into(),
                    told: self.told.clone(),
                },
            )
        })?;
        let book = context.store()?.readings_that_say(self.number.trim())?;
        let (_, kept) = instrument(&book, &self.number)?;
        let told = if self.good {
            format!("{} was found good.", kept.number)
        } else {
            let count = doubted(&book, kept).len();
            format!(
                "{} was found wrong: {} in doubt, see `outshop instrument show {}`.",
                kept.number,
                words::count(count, "reading is", "readings are"),
                kept.number
            )
        };
        Ok(saved(
            &receipt,
            told,
            json!({ "in_doubt": in_doubt(&book, kept) }),
        ))
    }
}

fn value(book: &Book, kept: &Kept) -> Value {
    json!({
        "number": kept.number, "what": kept.what, "range": kept.range, "shelf": kept.shelf,
        "last_check": last_check(kept).map(|check| json!({ "on": check.on.to_string(), "good": check.good, "error": check.error })),
        "checks": kept.checks.iter().map(|check| json!({
            "on": check.on.to_string(), "by": name(book, check.by), "good": check.good, "error": check.error,
            "against": check.against, "told": check.told,
        })).collect::<Vec<_>>(),
    })
}

fn in_doubt(book: &Book, kept: &Kept) -> Vec<Value> {
    let all = doubted(book, kept).into_iter();
    all.map(|(part, set, read)| {
        let part = book.parts.get(&part);
        let engine = part.and_then(|part| book.locomotives.get(&part.locomotive));
        json!({
            "engine": engine.map(|it| &it.number), "part": part.map(|it| &it.name), "on": set.on.to_string(),
            "state": set.state, "entry": set.entry, "feature": read.feature, "position": read.reading.position,
            "written": read.reading.written(), "measured_by": read.reading.measured_by,
        })
    })
    .collect()
}

fn show(book: &Book, kept: &Kept) -> Answer {
    let mut text = format!("{}: {}\n", kept.number, say::line(kept));
    for check in kept.checks.iter().rev() {
        text.push_str(&format!("  {}\n", say::check(check, name(book, check.by))));
    }
    for doubt in doubts(kept) {
        text.push_str(&format!("  {}\n", say::doubt(&doubt)));
    }
    let all = doubted(book, kept);
    for (part, set, read) in &all {
        let part = book.parts.get(part);
        let engine = part.and_then(|part| book.locomotives.get(&part.locomotive));
        text.push_str(&format!(
            "    {}  No. {} {}: {} at {} {}, {} (entry {})\n",
            words::day(set.on),
            engine.map_or("?", |it| it.number.as_str()),
            part.map_or("?", |it| it.name.as_str()),
            read.feature,
            read.reading.position,
            read.reading.written(),
            words::state(set.state),
            set.entry
        ));
    }
    let mut value = value(book, kept);
    if let Value::Object(map) = &mut value {
        map.insert("in_doubt".into(), json!(in_doubt(book, kept)));
    }
    Answer {
        text,
        json: value,
        // Something stands in doubt: the answer is no.
        code: u8::from(!all.is_empty()),
    }
}
