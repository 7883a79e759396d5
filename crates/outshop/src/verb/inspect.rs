//! `inspect`: open, answer and close an inspection.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::json;
use shop::book::{Answer as Answered, Book, Inspection, InspectionId, ItemCondition};
use shop::clock::span_of;
use shop::inspection::unmet;
use shop::locomotive::{engine, finding, inspection};

use super::{name, saved, wrap};
use crate::words::before as ready_say;
use crate::{Answer, Context, Failure, words};

/// Open, answer and close an inspection.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Inspect {
    /// Open an inspection of an engine.
    Open {
        /// Her number.
        engine: String,
        /// The kind: daily, 31, 92, annual, fifth-annual, 1472; of a diesel, daily, qualified-daily, periodic.
        kind: String,
    },
    /// What to have ready before a coming inspection: part by part, with chance, hours and the day to order by.
    Before {
        /// Her number.
        engine: String,
        /// The inspection: 31, 92, annual, fifth-annual or 1472.
        kind: String,
        /// Lead time to reckon with, in days; the longest that anything promised to us took, if left out.
        #[arg(long, value_name = "DAYS")]
        #[serde(default)]
        lead: Option<u32>,
    },
    /// Answer items of today's daily inspection in one act; it is opened if none is open.
    Day(super::day::Day),
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
        /// The time of day it was made, such as 07:40.
        #[arg(long, value_name = "HH:MM")]
        at: Option<String>,
        /// The place it was made at.
        #[arg(long)]
        place: Option<String>,
    },
    /// Put an inspection away that was not completed; it stays in the record as that, and starts no clock.
    PutAway {
        /// Its number, such as I-001.
        inspection: String,
        /// Why it was not completed.
        #[arg(long)]
        #[serde(default)]
        because: String,
    },
    /// State which day of an inspection that took more than one starts the clocks after it.
    Anchor(super::papers::Anchor),
    /// Record that a paper went: a notice, a form filed, a copy put up in the cab.
    Filed(super::papers::Filed),
    /// Papers: what goes where by when, what has gone, what is kept how long.
    Papers(super::papers::Papers),
}

/// Answer one item: good, fair, a defect with its finding, or not fitted, and what was seen.
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
    #[arg(long, conflicts_with_all = ["fair", "defect", "not_fitted"])]
    #[serde(default)]
    pub good: bool,
    /// Below its best, but safe and within the law.
    #[arg(long, conflicts_with_all = ["defect", "not_fitted"])]
    #[serde(default)]
    pub fair: bool,
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
            Inspect::Before { engine, kind, lead } => ready(context, engine, kind, *lead),
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
            Inspect::Day(it) => it.run(context),
            Inspect::Answer(it) => it.run(context),
            Inspect::Anchor(it) => it.run(context),
            Inspect::Filed(it) => it.run(context),
            Inspect::Papers(it) => it.run(context),
            Inspect::PutAway {
                inspection: number,
                because,
            } => {
                let receipt = context.save(|book, by, on| {
                    let (id, _) = inspection(book, number)?;
                    shop::inspection::put_away(book, id, because, by, on)
                })?;
                let book = context.book()?;
                let (_, kept) = inspection(&book, number)?;
                let told = words::inspection::not_completed(&book, kept);
                Ok(saved(&receipt, told, json!({})))
            }
            Inspect::Close {
                inspection: number,
                at,
                place,
            } => {
                let made = super::day::made_at(at, place)?;
                let receipt = context.save(|book, by, on| {
                    let (id, _) = inspection(book, number)?;
                    shop::inspection::close(book, id, made.clone(), by, on)
                })?;
                let book = context.book()?;
                let (_, kept) = inspection(&book, number)?;
                let signer = kept.closed.map_or("?", |(_, by)| name(&book, by));
                let run_from = match span_of(kept) {
                    Some((first, last)) if first < last => format!(
                        "count by the worst of its days, {} to {}, until somebody states which of them starts the clocks (inspect anchor I-{:03} DAY --why ...)",
                        words::day(first),
                        words::day(last),
                        kept.number
                    ),
                    Some((_, day)) => format!("run from {}", words::day(day)),
                    None => "run again".to_string(),
                };
                let told = format!(
                    "I-{:03} is closed and signed by {signer}; the {} and every smaller clock {run_from}.",
                    kept.number, kept.kind
                );
                Ok(saved(&receipt, told, json!({})))
            }
            Inspect::Show { inspection: number } => show(context, number),
        }
    }
}

impl AnswerItem {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, by, on| {
            let (id, kept) = inspection(book, &self.inspection)?;
            let answer = match (self.good, self.fair, &self.defect, self.not_fitted) {
                (true, false, None, false) => (Answered::Good, None),
                (false, true, None, false) => (Answered::Good, Some(ItemCondition::Fair)),
                (false, false, Some(number), false) => {
                    let finding = finding(book, number)?.0;
                    (Answered::Defect { finding }, None)
                }
                (false, false, None, true) => (Answered::NotFitted, None),
                _ => {
                    return Err(shop::Refusal::input(
                        "Say one of --good, --fair, --defect F-001 or --not-fitted.",
                    ));
                }
            };
            let item = shop::inspection::find_item(kept, &self.item)?.rule.clone();
            shop::inspection::answer(book, id, &item, answer, &self.seen, by, on)
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

/// Which day starts the clocks after a closed inspection.
fn starts(book: &Book, kept: &Inspection) -> String {
    match (&kept.anchor, span_of(kept)) {
        (Some(told), _) => format!(
            "The clocks after it run from {}: {} ({}).",
            words::day(told.day),
            told.reading,
            name(book, told.by)
        ),
        (None, Some((first, last))) if first < last => format!(
            "Which day starts the clocks after it, {} to {}, nobody has stated: they count by the worst of them.",
            words::day(first),
            words::day(last)
        ),
        _ => "The clocks after it run from that day.".to_string(),
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
                let mut word = words::inspection::answer(given).to_string();
                if let Answered::Defect { finding } = &given.answer {
                    let number = book.findings.get(finding).map_or(0, |f| f.number);
                    word.push_str(&format!(" F-{number:03}"));
                }
                let who = name(&book, given.by);
                (
                    word,
                    format!("{} ({who}, {})", given.seen, words::day(given.on)),
                )
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
    let missing = if kept.is_open() {
        unmet(&book, kept)
    } else {
        Vec::new()
    };
    match kept.closed {
        Some((day, by)) => {
            text.push_str(&format!(
                "  Closed {} and signed by {}.\n",
                words::day(day),
                name(&book, by)
            ));
            text.push_str(&format!("  {}\n", wrap(&starts(&book, kept), 2, 100)));
        }
        None if !kept.is_open() => text.push_str(&format!(
            "  {}\n",
            wrap(&words::inspection::not_completed(&book, kept), 2, 100)
        )),
        None if missing.is_empty() => {
            text.push_str("  Every item is answered; it can be closed and signed.\n")
        }
        None => {
            text.push_str("  Before it can be closed:\n");
            for line in &missing {
                text.push_str(&format!("    - {}\n", wrap(line, 6, 100)));
            }
        }
    }
    text.push_str(&format!("{}\n", words::STANDING));
    let closed = kept
        .closed
        .map(|(day, by)| json!({ "on": day.to_string(), "by": name(&book, by) }));
    let away = kept.not_completed.as_ref();
    let away = away.map(
        |it| json!({ "on": it.on.to_string(), "by": name(&book, it.by), "because": it.because }),
    );
    Ok(Answer::done(
        text,
        json!({ "inspection": format!("I-{:03}", kept.number), "kind": kept.kind, "items": items, "closed": closed, "not_completed": away, "open": missing }),
    ))
}

/// What to have ready before an inspection.
fn ready(
    context: &mut Context,
    number: &str,
    kind: &str,
    lead: Option<u32>,
) -> Result<Answer, Failure> {
    let (on, house, rules) = (context.on()?, context.house(), context.rules()?);
    let book = context.book_with_all_readings_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let told = shop::route::before(&book, rules, (id, kind.trim()), lead, on, house)?;
    let mut text = format!("{}\n", ready_say::title(&kept.number, &told.kind));
    let mut line = |indent: usize, said: &str| {
        let said = super::wrap(said, indent, 100);
        text.push_str(&format!("{}{said}\n", " ".repeat(indent)));
    };
    line(2, &ready_say::when(&told));
    line(2, &ready_say::lead(&told));
    for it in &told.likely {
        line(2, &format!("{}: {}", it.name, ready_say::chance(it)));
        line(4, &ready_say::from(it).join("; "));
        if let Some(own) = ready_say::own_lead(it) {
            line(4, &own);
        }
        line(
            4,
            &format!(
                "hours before: {}; order by {}",
                ready_say::hours(it),
                ready_say::order_by(it, on)
            ),
        );
    }
    if told.likely.is_empty() {
        line(2, ready_say::NOTHING);
    }
    line(2, &ready_say::whole(&told));
    for why in &told.wanting {
        line(2, &words::sentence(why));
    }
    let value = json!({
        "engine": kept.number, "inspection": told.kind, "last_day": told.by.map(|day| day.to_string()),
        "service_days": told.ahead.as_ref().map(|ahead| ahead.days), "lead_days": told.lead.as_ref().map(|lead| lead.days),
        "openings": told.openings, "found": told.found, "whole": told.whole.to_json(),
        "likely": told.likely.iter().map(|it| json!({
            "part": it.name, "chance": it.chance, "from": ready_say::from(it), "hours": ready_say::hours(it), "order_by": it.order_by.map(|day| day.to_string()),
            "lead_days": it.lead.as_ref().map(|lead| lead.days), "lead_from": it.lead.as_ref().map(|lead| &lead.from),
        })).collect::<Vec<_>>(),
        "wanting": told.wanting,
    });
    Ok(Answer::done(text, value))
}
