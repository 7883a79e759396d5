//! `inspect`: open, answer and close an inspection.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::json;
use shop::book::{Answer as Answered, InspectionId};
use shop::inspection::unmet;
use shop::locomotive::{engine, finding, inspection};

use super::{name, saved, wrap};
use crate::{Answer, Context, Failure, words};

/// Open, answer and close an inspection.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Inspect {
    /// Open an inspection of an engine.
    Open {
        /// Her number.
        engine: String,
        /// The kind: daily, 31, 92, annual, fifth-annual, 1472.
        kind: String,
    },
    /// Answer one item.
    Answer(AnswerItem),
    /// An inspection with its items and answers.
    Show {
        /// Its number, such as I-001.
        inspection: String,
    },
    /// Close an inspection; the one who does signs as inspector.
    Close {
        /// Its number, such as I-001.
        inspection: String,
    },
}

/// Answer one item: good, a defect with its finding, or not fitted, and what was seen.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AnswerItem {
    /// The inspection, such as I-001.
    pub inspection: String,
    /// The item: its number in the list, or the id of its rule.
    pub item: String,
    /// What was seen. There is no one word for all of them.
    #[arg(long)]
    pub seen: String,
    /// No defect.
    #[arg(long, conflicts_with_all = ["defect", "not_fitted"])]
    #[serde(default)]
    pub good: bool,
    /// A defect, recorded as this finding, such as F-001.
    #[arg(long, conflicts_with = "not_fitted")]
    pub defect: Option<String>,
    /// The engine has no such fitting.
    #[arg(long)]
    #[serde(default)]
    pub not_fitted: bool,
}

impl Inspect {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Inspect::Open {
                engine: number,
                kind,
            } => {
                let rules = context.rules()?;
                let id = InspectionId(context.id()?);
                let receipt = context.save(|book, by, on| {
                    let (locomotive, _) = engine(book, number)?;
                    shop::inspection::open(book, rules, id, locomotive, kind, by, on)
                })?;
                let book = context.book()?;
                let (given, items) = book
                    .inspections
                    .get(&id)
                    .map_or((0, 0), |i| (i.number, i.items.len()));
                let told = format!(
                    "I-{given:03}: the {kind} inspection of No. {number} is open, {} to answer.",
                    words::count(items, "item", "items")
                );
                Ok(saved(
                    &receipt,
                    told,
                    json!({ "inspection": format!("I-{given:03}"), "items": items }),
                ))
            }
            Inspect::Answer(it) => it.run(context),
            Inspect::Close { inspection: number } => {
                let receipt = context.save(|book, by, _| {
                    let (id, _) = inspection(book, number)?;
                    shop::inspection::close(book, id, by)
                })?;
                let book = context.book()?;
                let (_, kept) = inspection(&book, number)?;
                let told = format!(
                    "I-{:03} is closed and signed by {}; the {} and every smaller clock run from {}.",
                    kept.number,
                    kept.closed.map_or("?", |(_, by)| name(&book, by)),
                    kept.kind,
                    kept.closed
                        .map_or(String::new(), |(day, _)| words::day(day))
                );
                Ok(saved(&receipt, told, json!({})))
            }
            Inspect::Show { inspection: number } => show(context, number),
        }
    }
}

impl AnswerItem {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, by, _| {
            let (id, kept) = inspection(book, &self.inspection)?;
            let answer = match (self.good, &self.defect, self.not_fitted) {
                (true, None, false) => Answered::Good,
                (false, Some(number), false) => Answered::Defect {
                    finding: finding(book, number)?.0,
                },
                (false, None, true) => Answered::NotFitted,
                _ => {
                    return Err(shop::Refusal::input(
                        "Say one of --good, --defect F-001 or --not-fitted.",
                    ));
                }
            };
            let item = shop::inspection::find_item(kept, &self.item)?.rule.clone();
            shop::inspection::answer(book, id, &item, answer, &self.seen, by)
        })?;
        let book = context.book()?;
        let (_, kept) = inspection(&book, &self.inspection)?;
        let open = kept
            .items
            .iter()
            .filter(|i| !kept.answers.contains_key(&i.rule))
            .count();
        let told = format!(
            "I-{:03} item {} is answered; {open} of {} still open.",
            kept.number,
            self.item,
            kept.items.len()
        );
        Ok(saved(&receipt, told, json!({ "open": open })))
    }
}

fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let book = context.book()?;
    let (_, kept) = inspection(&book, number)?;
    let her = book
        .locomotives
        .get(&kept.locomotive)
        .map_or("?", |e| e.number.as_str());
    let mut text = format!(
        "I-{:03}: the {} inspection of No. {her}, opened {} by {}\n",
        kept.number,
        kept.kind,
        words::day(kept.opened_on),
        name(&book, kept.opened_by)
    );
    let mut items = Vec::new();
    for (at, item) in kept.items.iter().enumerate() {
        let (word, seen) = match kept.answers.get(&item.rule) {
            None => ("open".to_string(), String::new()),
            Some(given) => {
                let word = match &given.answer {
                    Answered::Good => "good".to_string(),
                    Answered::NotFitted => "not fitted".to_string(),
                    Answered::Defect { finding } => {
                        format!(
                            "defect F-{:03}",
                            book.findings.get(finding).map_or(0, |f| f.number)
                        )
                    }
                };
                (word, format!("{} ({})", given.seen, name(&book, given.by)))
            }
        };
        let said = if seen.is_empty() {
            format!("{} ({})", item.text, item.section)
        } else {
            format!("{} ({}): {seen}", item.text, item.section)
        };
        text.push_str(&format!(
            "  {:>2}  {word:<13} {}\n",
            at + 1,
            wrap(&said, 20, 100)
        ));
        items.push(json!({ "item": at + 1, "rule": item.rule, "text": item.text, "section": item.section, "answer": word, "seen": seen }));
    }
    let missing = unmet(&book, kept);
    match kept.closed {
        Some((day, by)) => text.push_str(&format!(
            "  Closed {} and signed by {}.\n",
            words::day(day),
            name(&book, by)
        )),
        None if missing.is_empty() => {
            text.push_str("  Every item is answered; it can be closed and signed.\n")
        }
        None => text.push_str(&format!(
            "  {} before it can be closed.\n",
            words::count(missing.len(), "thing is open", "things are open")
        )),
    }
    text.push_str(&format!("{}\n", words::STANDING));
    let closed = kept
        .closed
        .map(|(day, by)| json!({ "on": day.to_string(), "by": name(&book, by) }));
    Ok(Answer::done(
        text,
        json!({ "inspection": format!("I-{:03}", kept.number), "kind": kept.kind, "items": items, "closed": closed, "open": missing }),
    ))
}
