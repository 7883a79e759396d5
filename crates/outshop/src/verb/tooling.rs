//! `tooling`: laps, mandrels, plug gauges, reamers, masters: numbered, on a shelf, with what they serve.

use std::collections::BTreeMap;

use clap::{Args, Subcommand};
use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{
    Book, Tooling as Kept, ToolingChecked, ToolingId, ToolingMoved, ToolingTakenOut, ToolingTold,
};
use shop::locomotive::{NewTooling, engine, last_tool_check, part, tooling};

use super::part::job_of;
use super::{name, saved};
use crate::words::{self, tag, tool as say};
use crate::{Answer, Context, Failure};

/// Tooling.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tooling {
    /// Register a lap, mandrel, gauge or master.
    Add(Add),
    /// Say more of a tool: a feature or a part it serves, its drawing.
    Tell(Tell),
    /// Enter that it was held against something better.
    Check(Check),
    /// It lies on another shelf from now on; one that was taken out is back by this.
    Move {
        /// Its number, such as T-001.
        number: String,
        /// Where it lies now.
        #[arg(long)]
        shelf: String,
    },
    /// It is no longer to be used: worn past its size, broken, lost.
    TakeOut {
        /// Its number, such as T-001.
        number: String,
        /// Why.
        #[arg(long)]
        because: String,
    },
    /// Everything on the shelves, by number or by feature.
    List(List),
    /// One tool: what it serves, where it lies, its checks.
    Show {
        /// Its number, such as T-001.
        number: String,
    },
}

/// Register a piece of tooling.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Add {
    /// What it is, with the size it was made to.
    pub what: String,
    /// The engine whose part it serves.
    #[arg(long)]
    pub engine: String,
    /// The part it serves.
    #[arg(long)]
    pub part: String,
    /// A feature of the part it serves, such as seat-land. May be given again.
    #[arg(long = "feature", value_name = "FEATURE")]
    #[serde(default)]
    pub features: Vec<String>,
    /// The number of its drawing.
    #[arg(long)]
    pub drawing: Option<String>,
    /// Where it lies.
    #[arg(long)]
    pub shelf: String,
    /// The job it was made for.
    #[arg(long)]
    pub job: Option<String>,
}

/// Say more of a tool.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tell {
    /// Its number, such as T-001.
    pub number: String,
    /// A feature it serves. May be given again.
    #[arg(long = "feature", value_name = "FEATURE")]
    #[serde(default)]
    pub features: Vec<String>,
    /// The engine of another part it serves.
    #[arg(long, requires = "part")]
    pub engine: Option<String>,
    /// Another part it serves.
    #[arg(long, requires = "engine")]
    pub part: Option<String>,
    /// The number of its drawing.
    #[arg(long)]
    pub drawing: Option<String>,
}

/// Enter a check of a tool.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// Its number, such as T-001.
    pub number: String,
    /// What it was held against: a master, blocks, a sine bar.
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
    /// The error found, as written, such as "6 minutes steep".
    #[arg(long)]
    pub error: Option<String>,
    /// What else there is to say.
    #[arg(long)]
    pub told: Option<String>,
}

/// What is listed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct List {
    /// Only what serves this feature, such as seat-land.
    #[arg(long)]
    pub feature: Option<String>,
    /// Grouped by the feature they serve.
    #[arg(long)]
    #[serde(default)]
    pub by_feature: bool,
}

impl Tooling {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Tooling::Add(it) => it.run(context),
            Tooling::Tell(it) => it.run(context),
            Tooling::Check(it) => it.run(context),
            Tooling::Move { number, shelf } => {
                let receipt = context.save(|book, _, _| {
                    let (id, _) = tooling(book, number)?;
                    let shelf = shelf.clone();
                    shop::locomotive::move_tooling(book, ToolingMoved { tooling: id, shelf })
                })?;
                told_of(context, &receipt, number, |kept| say::lies(&kept.shelf))
            }
            Tooling::TakeOut { number, because } => {
                let receipt = context.save(|book, _, _| {
                    let (id, _) = tooling(book, number)?;
                    let because = because.clone();
                    let out = ToolingTakenOut {
                        tooling: id,
                        because,
                    };
                    shop::locomotive::take_out_tooling(book, out)
                })?;
                told_of(context, &receipt, number, |_| say::TAKEN_OUT.to_string())
            }
            Tooling::List(it) => {
                let (book, on) = (context.book()?, context.on()?);
                Ok(it.answer(&book, on))
            }
            Tooling::Show { number } => {
                let (book, on) = (context.book()?, context.on()?);
                let (_, kept) = tooling(&book, number)?;
                Ok(show(&book, kept, on))
            }
        }
    }
}

impl Add {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let id = ToolingId(context.id()?);
        let receipt = context.save_of(&self.engine, |book, _, _| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let (part, _) = part(book, locomotive, &self.part)?;
            let job = job_of(book, self.job.as_deref())?;
            let new = NewTooling {
                id,
                what: self.what.clone(),
                part,
                features: self.features.clone(),
                drawing: self.drawing.clone(),
                shelf: self.shelf.clone(),
                job,
            };
            shop::locomotive::add_tooling(book, new)
        })?;
        let number = context.book()?.tooling.get(&id).map_or(0, |t| t.number);
        let number = tag::tool(number);
        let told = format!("{number} {}: {}.", self.what.trim(), self.shelf.trim());
        Ok(saved(&receipt, told, json!({ "tooling": number })))
    }
}

impl Tell {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, _, _| {
            let (id, _) = tooling(book, &self.number)?;
            let mut parts = Vec::new();
            match (&self.engine, &self.part) {
                (Some(number), Some(wanted)) => {
                    let (locomotive, _) = engine(book, number)?;
                    parts.push(part(book, locomotive, wanted)?.0);
                }
                (None, None) => {}
                _ => return Err(shop::Refusal::input(say::BOTH)),
            }
            let told = ToolingTold {
                tooling: id,
                features: self.features.clone(),
                parts,
                drawing: self.drawing.clone(),
            };
            shop::locomotive::tell_tooling(book, told)
        })?;
        told_of(context, &receipt, &self.number, |_| say::TOLD.to_string())
    }
}

impl Check {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.good == self.wrong {
            return Err(Failure::Input(say::GOOD_OR_WRONG.into()));
        }
        let receipt = context.save(|book, _, _| {
            let (id, _) = tooling(book, &self.number)?;
            let check = ToolingChecked {
                tooling: id,
                good: self.good,
                error: self.error.clone(),
                against: self.against.clone(),
                told: self.told.clone(),
            };
            shop::locomotive::check_tooling(book, check)
        })?;
        told_of(context, &receipt, &self.number, |_| {
            say::found(self.good).to_string()
        })
    }
}

/// What was saved of a tool, in one sentence.
fn told_of(
    context: &mut Context,
    receipt: &store::Receipt,
    number: &str,
    say: impl FnOnce(&Kept) -> String,
) -> Result<Answer, Failure> {
    let book = context.book()?;
    let (_, kept) = tooling(&book, number)?;
    let number = tag::tool(kept.number);
    let told = format!("{number} {}.", say(kept));
    Ok(saved(receipt, told, json!({ "tooling": number })))
}

/// What a tool serves, part by part: `No. 14 right feed check`.
pub(crate) fn serves(book: &Book, kept: &Kept) -> Vec<String> {
    let parts = kept.serves().filter_map(|id| book.parts.get(&id));
    parts
        .map(|part| {
            let engine = book.locomotives.get(&part.locomotive);
            let number = engine.map_or("?", |it| it.number.as_str());
            format!("{} {}", words::engine(number), part.name)
        })
        .collect()
}

/// All tools, by number; those taken out last.
pub(crate) fn by_number(book: &Book) -> Vec<&Kept> {
    let mut all: Vec<_> = book.tooling.values().collect();
    all.sort_by_key(|kept| (kept.out.is_some(), kept.number));
    all
}

/// Tools in use by the feature they serve; those of which nobody told stand under nothing.
pub(crate) fn by_feature(book: &Book) -> BTreeMap<Option<&str>, Vec<&Kept>> {
    let mut groups: BTreeMap<Option<&str>, Vec<&Kept>> = BTreeMap::new();
    for kept in by_number(book)
        .into_iter()
        .filter(|kept| kept.out.is_none())
    {
        if kept.features.is_empty() {
            groups.entry(None).or_default().push(kept);
        }
        for feature in &kept.features {
            groups.entry(Some(feature)).or_default().push(kept);
        }
    }
    groups
}

impl List {
    fn answer(&self, book: &Book, on: Date) -> Answer {
        let wanted = self.feature.as_deref().map(str::trim);
        let is_wanted = |kept: &&Kept| {
            wanted.is_none_or(|word| kept.features.iter().any(|f| f.eq_ignore_ascii_case(word)))
        };
        let all: Vec<_> = by_number(book).into_iter().filter(is_wanted).collect();
        let mut text = String::new();
        if self.by_feature {
            for (feature, tools) in by_feature(book) {
                let tools: Vec<_> = tools.into_iter().filter(is_wanted).collect();
                if tools.is_empty() {
                    continue;
                }
                text.push_str(&format!("{}\n", feature.unwrap_or(say::NO_FEATURE)));
                for kept in tools {
                    text.push_str(&format!("  {}\n", line(book, kept, on)));
                }
            }
        } else {
            for kept in &all {
                text.push_str(&format!("{}\n", line(book, kept, on)));
            }
        }
        if all.is_empty() {
            text.push_str(&format!("{}\n", say::NONE));
        }
        let list: Vec<_> = all.iter().map(|kept| value(book, kept)).collect();
        Answer::done(text, json!(list))
    }
}

fn line(book: &Book, kept: &Kept, on: Date) -> String {
    format!(
        "{}  {}",
        tag::tool(kept.number),
        say::line(kept, &serves(book, kept), on)
    )
}

fn value(book: &Book, kept: &Kept) -> Value {
    json!({
        "tooling": tag::tool(kept.number), "what": kept.what, "serves": serves(book, kept),
        "features": kept.features, "drawing": kept.drawing, "shelf": kept.shelf,
        "job": kept.job.and_then(|id| book.jobs.get(&id)).map(|job| tag::job(job.number)),
        "checks": kept.checks.iter().map(|check| json!({
            "on": check.on.to_string(), "by": name(book, check.by), "good": check.good, "error": check.error,
            "against": check.against, "told": check.told,
        })).collect::<Vec<_>>(),
        "out": kept.out.as_ref().map(|out| json!({ "on": out.on.to_string(), "by": name(book, out.by), "because": out.because })),
    })
}

fn show(book: &Book, kept: &Kept, on: Date) -> Answer {
    let mut text = format!("{}\n", line(book, kept, on));
    if let Some(job) = kept.job.and_then(|id| book.jobs.get(&id)) {
        text.push_str(&format!("  {}\n", say::made_for(&tag::job(job.number))));
    }
    for check in kept.checks.iter().rev() {
        let told = words::instrument::check(check, name(book, check.by));
        text.push_str(&format!("  {told}\n"));
    }
    if let Some(out) = &kept.out {
        text.push_str(&format!("  {}\n", say::out(out, name(book, out.by))));
    }
    let found_wrong = last_tool_check(kept, on).is_some_and(|check| !check.good);
    Answer {
        text,
        json: value(book, kept),
        // Found wrong or taken out: the answer is no.
        code: u8::from(found_wrong || kept.out.is_some()),
    }
}
