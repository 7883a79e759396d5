//! `inspect day` and `writeup`: the start of a day in one act, and what the crew reports at its end.

use std::str::FromStr;

use clap::{Args, Subcommand};
use jiff::civil::Time;
use serde::Deserialize;
use serde_json::json;
use shop::Refusal;
use shop::book::{
    Book, CrewReport, FindingId, Heat, InspectionId, LocomotiveId, Made, ReportId, Symptom,
    SymptomTold,
};
use shop::finding::{NewReport, answer_symptom, open_symptoms, symptom};
use shop::locomotive::{engine, finding, part};
use shop::record::{Daily, DayItem, How, NewDay, daily_of, start_day};

use super::{name, saved, wrap};
use crate::words::{self, tag};
use crate::{Answer, Context, Failure};

/// Answer items of today's daily inspection in one act; it is opened if none is open.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Day {
    /// Her number.
    pub engine: String,
    /// What was looked at: item=good: what was seen; or item=fair: ...; or item=not-fitted: ...; or
    /// item=defect@F-004: ...; or item=defect@part: ..., which records a finding. The item is its number in the list or the id of its rule.
    #[serde(default)]
    pub items: Vec<Told>,
    /// Close it too; the one who does signs as inspector.
    #[arg(long)]
    #[serde(default)]
    pub close: bool,
    /// With --close: the time of day it was made, such as 07:40.
    #[arg(long, value_name = "HH:MM")]
    pub at: Option<String>,
    /// With --close: the place it was made at.
    #[arg(long)]
    pub place: Option<String>,
}

/// Where and at what time of day an inspection was made, if anything was said.
pub(super) fn made_at(
    at: &Option<String>,
    place: &Option<String>,
) -> Result<Option<Made>, Failure> {
    let said = |text: &Option<String>| {
        let text = text.as_deref().map(str::trim);
        text.filter(|text| !text.is_empty()).map(str::to_string)
    };
    let at = said(at).map(|text| {
        text.parse::<Time>()
            .map_err(|_| Failure::Input(words::day::no_time(&text)))
    });
    let (at, place) = (at.transpose()?, said(place));
    Ok((at.is_some() || place.is_some()).then_some(Made { at, place }))
}

/// One item as told.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Told {
    /// The item.
    pub item: String,
    /// `good`, `fair`, `not-fitted` or `defect`, with what was seen after a colon or apart; empty where nobody said.
    #[serde(default)]
    pub how: String,
    /// Of a defect: a finding such as F-004, or the part it is on.
    #[serde(default)]
    pub at: String,
    /// What was seen.
    #[serde(default)]
    pub seen: String,
}

impl FromStr for Told {
    type Err = String;

    fn from_str(text: &str) -> Result<Told, String> {
        let (item, rest) = text.split_once('=').ok_or_else(|| {
            format!(
                "`{text}` is not an answered item: item=good: what was seen, was expected, such as 2=good: both glasses clear"
            )
        })?;
        let (how, seen) = rest.split_once(':').unwrap_or((rest, ""));
        let (how, at) = how.split_once('@').unwrap_or((how, ""));
        let own = |text: &str| text.trim().to_string();
        Ok(Told {
            item: own(item),
            how: own(how),
            at: own(at),
            seen: own(seen),
        })
    }
}

impl Told {
    /// What it says, where a new finding would have this id.
    fn read(&self, book: &Book, her: LocomotiveId, id: FindingId) -> Result<DayItem, Refusal> {
        let at = self.at.trim();
        // `good: words` is how it is and what was seen in one, as a page offers words that were used before.
        let (how, again) = match self.how.trim().split_once(':') {
            Some((how, again)) => (how.trim(), again.trim()),
            None => (self.how.trim(), ""),
        };
        let seen = [again, self.seen.trim()];
        let seen: Vec<_> = seen.into_iter().filter(|it| !it.is_empty()).collect();
        let how = match how {
            "" => How::NotSaid,
            "good" | "fair" | "not-fitted" if !at.is_empty() => {
                return Err(Refusal::input(format!(
                    "Item {} is said to be {how} and has a defect on {at}: one of the two was expected.",
                    self.item
                )));
            }
            "good" => How::Good,
            "fair" => How::Fair,
            "not-fitted" => How::NotFitted,
            "defect" if at.is_empty() => {
                return Err(Refusal::input(format!(
                    "Item {} has a defect: the part it is on, or a finding such as F-004, was expected.",
                    self.item
                )));
            }
            "defect" => match finding(book, at) {
                Ok((known, _)) => How::Known(known),
                Err(no) if at.starts_with("F-") => return Err(no),
                Err(_) => How::Found {
                    id,
                    part: part(book, her, at)?.0,
                },
            },
            other => {
                return Err(Refusal::input(format!(
                    "`{other}` is not how item {} was found: good, fair, not-fitted or defect were expected.",
                    self.item
                )));
            }
        };
        Ok(DayItem {
            item: self.item.clone(),
            how,
            seen: seen.join("; "),
        })
    }
}

impl Day {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let made = made_at(&self.at, &self.place)?;
        let inspection = InspectionId(context.id()?);
        let mut findings = Vec::new();
        for _ in &self.items {
            findings.push(FindingId(context.id()?));
        }
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let items = self.items.iter().zip(&findings);
            let items: Result<Vec<_>, _> = items
                .map(|(told, id)| told.read(book, locomotive, *id))
                .collect();
            let new = NewDay {
                inspection,
                locomotive,
                items: items?,
                close: self.close,
                made: made.clone(),
            };
            start_day(book, rules, new, by, on)
        })?;
        let on = context.on()?;
        let book = context.book()?;
        let (id, kept) = engine(&book, &self.engine)?;
        let (Daily::Open(_, daily) | Daily::Closed(_, daily)) = daily_of(&book, id, on) else {
            return Err(Failure::Machine("The daily is not in the book.".into()));
        };
        let open = daily.items.len() - daily.answers.len();
        let number = tag::inspection(daily.number);
        let told = if daily.closed.is_some() {
            words::day::closed(&number, &kept.number, on)
        } else {
            words::day::saved(&number, &kept.number, open, daily.items.len())
        };
        let made: Vec<_> = findings
            .iter()
            .filter_map(|id| book.findings.get(id))
            .map(|f| tag::finding(f.number))
            .collect();
        Ok(saved(
            &receipt,
            told,
            json!({ "inspection": number, "open": open, "closed": daily.closed.is_some(), "findings": made }),
        ))
    }
}

/// The crew's report of a day: what was noticed, or that there is nothing to report.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Writeup {
    /// File the report of a day. Each thing noticed stops her until somebody who may inspect has looked.
    Report(Report),
    /// Say what was seen when somebody looked at a thing written up.
    Answer(Looked),
    /// What crews wrote up, what nobody has looked at first.
    List {
        /// Only of this engine.
        engine: Option<String>,
    },
}

/// File the report of a day.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Report {
    /// Her number.
    pub engine: String,
    /// What was noticed: what; where=left motion; heat=hot; pressure=140psig; wait=no. May be given again.
    #[serde(default)]
    pub symptoms: Vec<Noticed>,
    /// There is nothing to report. It is said, not left out.
    #[arg(long, conflicts_with = "symptoms")]
    #[serde(default)]
    pub nothing: bool,
    /// What else there is to say.
    #[arg(long)]
    pub told: Option<String>,
}

/// One thing noticed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Noticed {
    /// What it does.
    #[serde(default)]
    pub what: String,
    /// Where on the engine.
    #[serde(default, rename = "where")]
    pub place: String,
    /// `hot` or `cold`.
    pub heat: Option<String>,
    /// At which pressure, with its unit.
    pub pressure: Option<String>,
    /// `yes` or `no`: whether it can wait.
    pub wait: Option<String>,
}

impl FromStr for Noticed {
    type Err = String;

    fn from_str(text: &str) -> Result<Noticed, String> {
        let mut pieces = text.split(';').map(str::trim);
        let mut noticed = Noticed {
            what: pieces.next().unwrap_or("").to_string(),
            ..Noticed::default()
        };
        for piece in pieces.filter(|piece| !piece.is_empty()) {
            let (word, value) = piece.split_once('=').unwrap_or((piece, ""));
            let value = value.trim().to_string();
            match word.trim() {
                "where" => noticed.place = value,
                "heat" => noticed.heat = Some(value),
                "pressure" => noticed.pressure = Some(value),
                "wait" => noticed.wait = Some(value),
                other => {
                    return Err(format!(
                        "`{other}` is nothing that is told of a symptom: where, heat, pressure or wait were expected"
                    ));
                }
            }
        }
        Ok(noticed)
    }
}

impl Noticed {
    fn read(&self) -> Result<Symptom, Failure> {
        let word = |text: &Option<String>| text.as_deref().unwrap_or("").trim().to_string();
        let heat = match word(&self.heat).as_str() {
            "" => None,
            "hot" => Some(Heat::Hot),
            "cold" => Some(Heat::Cold),
            other => {
                return Err(Failure::Input(format!(
                    "`{other}` does not say whether she was in steam: hot or cold was expected."
                )));
            }
        };
        let can_wait = match word(&self.wait).as_str() {
            "" => None,
            "yes" => Some(true),
            "no" => Some(false),
            other => {
                return Err(Failure::Input(format!(
                    "`{other}` does not say whether it can wait: yes or no was expected."
                )));
            }
        };
        Ok(Symptom {
            what: self.what.clone(),
            place: self.place.clone(),
            heat,
            pressure: self.pressure.clone(),
            can_wait,
        })
    }
}

/// Say what was seen when somebody looked.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Looked {
    /// The write-up, such as W-001.
    pub write_up: String,
    /// What was seen.
    #[arg(long)]
    pub seen: String,
    /// It is this finding, such as F-001.
    #[arg(long, conflicts_with = "no_defect")]
    pub finding: Option<String>,
    /// Looked at; there is no defect.
    #[arg(long)]
    #[serde(default)]
    pub no_defect: bool,
}

impl Writeup {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Writeup::Report(it) => it.run(context),
            Writeup::Answer(it) => it.run(context),
            Writeup::List { engine: number } => list(context, number.as_deref()),
        }
    }
}

impl Report {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let symptoms: Result<Vec<_>, _> = self.symptoms.iter().map(Noticed::read).collect();
        let symptoms = symptoms?;
        let id = ReportId(context.id()?);
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let new = NewReport {
                id,
                locomotive,
                symptoms: symptoms.clone(),
                nothing: self.nothing,
                told: self.told.clone().unwrap_or_default(),
            };
            shop::finding::report(book, new, by, on)
        })?;
        let on = context.on()?;
        let book = context.book()?;
        let (_, kept) = engine(&book, &self.engine)?;
        let made = book.reports.get(&id);
        let made = made.map(|report| {
            let numbers = report.symptoms.iter().map(|s| tag::write_up(s.number));
            numbers.collect::<Vec<_>>()
        });
        let made = made.unwrap_or_default();
        let told = words::day::reported(&kept.number, on, &made);
        Ok(saved(&receipt, told, json!({ "write_ups": made })))
    }
}

impl Looked {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let receipt = context.save(|book, by, on| {
            let known = match (&self.finding, self.no_defect) {
                (Some(number), false) => Some(finding(book, number)?.0),
                (None, true) => None,
                _ => {
                    return Err(Refusal::input("Say one of --finding F-001 or --no-defect."));
                }
            };
            answer_symptom(book, &self.write_up, known, &self.seen, by, on)
        })?;
        let book = context.book()?;
        let (_, report, _, told) = symptom(&book, &self.write_up)?;
        let open = open_symptoms(&book, report.locomotive).len();
        let said = words::day::looked(&tag::write_up(told.number), self.finding.as_deref(), open);
        Ok(saved(&receipt, said, json!({ "open": open })))
    }
}

fn list(context: &mut Context, number: Option<&str>) -> Result<Answer, Failure> {
    let book = context.book()?;
    let only = number.map(|n| engine(&book, n)).transpose()?;
    let only = only.map(|(id, _)| id);
    let mut all: Vec<(&CrewReport, &SymptomTold)> = book
        .reports
        .values()
        .filter(|r| only.is_none_or(|id| r.locomotive == id))
        .flat_map(|r| r.symptoms.iter().map(move |s| (r, s)))
        .collect();
    all.sort_by_key(|(_, s)| (s.looked.is_some(), s.number));
    let mut text = String::new();
    let mut list = Vec::new();
    for (report, told) in all {
        let her = book
            .locomotives
            .get(&report.locomotive)
            .map_or("?", |e| e.number.as_str());
        let number = tag::write_up(told.number);
        let state = if told.looked.is_some() {
            words::day::LOOKED_AT
        } else {
            words::day::NOT_LOOKED_AT
        };
        let line = format!(
            "No. {her}: {} ({}, {})",
            words::day::symptom(&told.symptom),
            name(&book, report.by),
            words::day(report.on)
        );
        text.push_str(&format!("{number}  {state:<14} {}\n", wrap(&line, 23, 100)));
        let looked = told.looked.as_ref().map(|it| {
            let finding = it.finding.and_then(|id| book.findings.get(&id));
            json!({ "seen": it.seen, "by": name(&book, it.by), "on": it.on.to_string(), "finding": finding.map(|f| tag::finding(f.number)) })
        });
        let symptom = &told.symptom;
        list.push(json!({
            "write_up": number, "engine": her, "on": report.on.to_string(), "by": name(&book, report.by), "what": symptom.what,
            "where": symptom.place, "heat": symptom.heat.map(Heat::word), "pressure": symptom.pressure, "can_wait": symptom.can_wait,
            "looked": looked,
        }));
    }
    if list.is_empty() {
        text.push_str(&format!("{}\n", words::day::NO_WRITE_UP));
    }
    Ok(Answer::done(text, json!(list)))
}
