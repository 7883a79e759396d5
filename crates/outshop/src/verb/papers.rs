//! `inspect anchor`, `filed` and `papers`: the day that starts the clocks, and the papers that go with the work.

use clap::Args;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{PaperAbout, PaperSent};
use shop::clock::{Kept, Paper, PaperState, file_paper, filings, keeping};
use shop::locomotive::{engine, inspection};

use super::{date, saved, wrap};
use crate::{Answer, Context, Failure, words};

/// State which day of an inspection that took more than one starts the clocks after it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Anchor {
    /// The inspection, such as I-003.
    pub inspection: String,
    /// The day.
    pub day: String,
    /// How the rule was read, and by whom that was agreed.
    #[arg(long)]
    pub why: String,
}

/// Record that a paper went: a notice, a form filed, a copy put up in the cab. The day is --on.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filed {
    /// Her number.
    pub engine: String,
    /// The rule that asks for it, such as us-steam.form-3.after-annual.
    pub rule: String,
    /// What it is about: an inspection such as I-003, a day, or a year.
    #[arg(long)]
    pub about: String,
    /// How it went, and what shows it.
    #[arg(long)]
    pub told: String,
}

/// Papers: what goes where by when, what has gone, what is kept how long.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Papers {
    /// Her number; every engine if left out.
    pub engine: Option<String>,
}

impl Anchor {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let day = date(&self.day)?;
        let receipt = context.save(|book, by, on| {
            let (id, _) = inspection(book, &self.inspection)?;
            shop::inspection::anchor(book, id, day, &self.why, by, on)
        })?;
        let told = format!(
            "The clocks after {} run from {}, as {} reads the rule.",
            self.inspection.trim(),
            words::day(day),
            context.by()?
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

impl Filed {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let receipt = context.save(|book, _, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let text = self.about.trim();
            let about = if let Ok(day) = text.parse() {
                PaperAbout::Day { day }
            } else if let Ok(year) = text.parse::<i16>()
                && let Ok(day) = jiff::civil::Date::new(year, 12, 31)
            {
                PaperAbout::Day { day }
            } else {
                PaperAbout::Inspection {
                    inspection: inspection(book, text)?.0,
                }
            };
            let sent = PaperSent {
                locomotive,
                rule: self.rule.trim().into(),
                about,
                sent_on: on,
                told: self.told.trim().into(),
            };
            file_paper(book, rules, sent, on)
        })?;
        let told = format!(
            "{} for {} is recorded as done.",
            self.rule.trim(),
            self.about.trim()
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

impl Papers {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let on = context.on()?;
        let rules = context.rules()?;
        let book = context.book()?;
        let wanted = match &self.engine {
            Some(number) => Some(engine(&book, number)?.0),
            None => None,
        };
        let hers = |id| wanted.is_none_or(|wanted| wanted == id);
        let number = |id| {
            let kept = book.locomotives.get(&id);
            kept.map_or("?", |e| e.number.as_str())
        };
        let papers: Vec<Paper> = filings(&book, rules, on)?
            .into_iter()
            .filter(|paper| hers(paper.engine))
            .collect();
        let kept: Vec<Kept> = keeping(&book, rules, on)?
            .into_iter()
            .filter(|kept| hers(kept.engine))
            .collect();
        let mut text = format!("Papers on {}\n", words::day(on));
        for paper in &papers {
            let head = format!(
                "  {:<11} {:<8} ",
                state(paper.state),
                format!("No. {}", number(paper.engine))
            );
            text.push_str(&head);
            let line = format!("{} ({})", paper.why, paper.ruling.cite.section);
            text.push_str(&wrap(&line, head.chars().count(), 100));
            text.push('\n');
        }
        if papers.is_empty() {
            text.push_str("  none\n");
        }
        text.push_str("Kept\n");
        for kept in &kept {
            let head = format!("  {:<8} ", format!("No. {}", number(kept.engine)));
            text.push_str(&head);
            let line = format!("{} ({})", kept.why, kept.ruling.cite.section);
            text.push_str(&wrap(&line, head.chars().count(), 100));
            text.push('\n');
        }
        text.push_str(&format!("{}\n", words::STANDING));
        let overdue = papers.iter().any(|p| p.state == PaperState::Overdue);
        let value = json!({
            "on": on.to_string(),
            "papers": papers.iter().map(|p| value(p, number(p.engine))).collect::<Vec<_>>(),
            "kept": kept.iter().map(|k| json!({
                "engine": number(k.engine), "rule": k.ruling.rule, "what": k.what,
                "from": k.from.map(|d| d.to_string()), "why": k.why,
            })).collect::<Vec<_>>(),
        });
        Ok(Answer {
            text,
            json: value,
            code: u8::from(overdue),
        })
    }
}

fn state(state: PaperState) -> &'static str {
    match state {
        PaperState::Overdue => "OVERDUE",
        PaperState::Open => "open",
        PaperState::CannotTell => "cannot tell",
        PaperState::Done => "done",
    }
}

fn value(paper: &Paper, number: &str) -> Value {
    json!({
        "engine": number, "rule": paper.ruling.rule, "version": paper.ruling.version,
        "section": paper.ruling.cite.section, "what": paper.what, "to": paper.to, "about": paper.told,
        "by": paper.by.map(|d| d.to_string()), "state": state(paper.state).to_lowercase(),
        "done": paper.done.as_ref().map(|d| json!({ "on": d.on.to_string(), "told": d.told, "late": d.late })),
        "why": paper.why,
    })
}
