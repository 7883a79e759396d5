//! `steam`: the log of an engine.

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{DaySet, Fire, FireId, LocomotiveId, PaperCounted, RunId, days_of_fire};
use shop::clock::{Agreement, NewFire, PaperCheck, own_service_days};
use shop::locomotive::engine;

use super::import::{Days, Import};
use super::{date, instant, saved};
use crate::{Answer, Context, Failure, words};

/// The log: fires, the days it is closed for, runs promised.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Steam {
    /// Log one fire. What nobody wrote down is left out, never guessed.
    Log(Log),
    /// Say which days were service days, from a plain list without times.
    Days(Days),
    /// Show what a log in a file would add, line by line, and add it when told to.
    Import(Import),
    /// Say what a paper counts over a span, to be held against the log.
    Counted(Counted),
    /// Say that the log holds every fire through a day.
    Close {
        /// Her number.
        engine: String,
        /// The last day.
        #[arg(long)]
        through: String,
        /// The first day; needed at the first closing.
        #[arg(long)]
        from: Option<String>,
    },
    /// Promise a run.
    Promise {
        /// Her number.
        engine: String,
        /// The day.
        day: String,
        /// What is promised.
        what: String,
    },
    /// The log of an engine, with the service days each fire makes.
    Show {
        /// Her number.
        engine: String,
    },
}

/// Log one fire.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Log {
    /// Her number.
    pub engine: String,
    /// Fire lit, such as 2026-05-02T06:30.
    #[arg(long)]
    pub lit: Option<String>,
    /// Pressure first above atmosphere.
    #[arg(long)]
    pub up: Option<String>,
    /// Fire out.
    #[arg(long)]
    pub out: Option<String>,
    /// Pressure gone.
    #[arg(long)]
    pub gone: Option<String>,
    /// Miles run.
    #[arg(long)]
    pub miles: Option<u32>,
    /// Whether she was offered for use while it stood: yes or no.
    #[arg(long, value_name = "yes|no")]
    pub offered: Option<String>,
}

/// Say what a paper counts over a span, to be held against the log.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counted {
    /// Her number.
    pub engine: String,
    /// The service days it counts.
    pub service_days: u32,
    /// The first day of the span.
    #[arg(long)]
    pub from: String,
    /// Its last day.
    #[arg(long)]
    pub through: String,
    /// The paper.
    #[arg(long)]
    pub document: String,
}

impl Steam {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Steam::Log(it) => it.run(context),
            Steam::Days(it) => it.run(context),
            Steam::Import(it) => it.run(context),
            Steam::Counted(it) => it.run(context),
            Steam::Close {
                engine: number,
                through,
                from,
            } => {
                let through = date(through)?;
                let from = from.as_deref().map(date).transpose()?;
                let rules = context.rules()?;
                let receipt = context.save(|book, _, on| {
                    let (id, kept) = engine(book, number)?;
                    shop::clock::has_a_log(book, rules, kept)?;
                    shop::clock::close_log(book, id, from, through, on)
                })?;
                Ok(saved(
                    &receipt,
                    format!(
                        "The log of No. {number} is closed through {}.",
                        words::day(through)
                    ),
                    json!({}),
                ))
            }
            Steam::Promise {
                engine: number,
                day,
                what,
            } => {
                let day = date(day)?;
                let id = RunId(context.id()?);
                let receipt = context.save(|book, _, _| {
                    let (locomotive, _) = engine(book, number)?;
                    shop::clock::promise(id, locomotive, day, what)
                })?;
                Ok(saved(
                    &receipt,
                    format!(
                        "No. {number} is promised for {}: {}.",
                        words::day(day),
                        what.trim()
                    ),
                    json!({}),
                ))
            }
            Steam::Show { engine: number } => show(context, number),
        }
    }
}

impl Log {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (lit, up, out, gone) = (
            instant(&self.lit)?,
            instant(&self.up)?,
            instant(&self.out)?,
            instant(&self.gone)?,
        );
        let offered = match self.offered.as_deref().map(str::trim) {
            None => None,
            Some("yes") => Some(true),
            Some("no") => Some(false),
            Some(other) => {
                return Err(Failure::Input(format!(
                    "`{other}` does not say whether she was offered for use: yes or no was expected."
                )));
            }
        };
        let id = FireId(context.id()?);
        let rules = context.rules()?;
        let receipt = context.save_of(&self.engine, |book, _, on| {
            let (locomotive, kept) = engine(book, &self.engine)?;
            shop::clock::has_a_log(book, rules, kept)?;
            shop::clock::log_fire(
                NewFire {
                    id,
                    locomotive,
                    lit,
                    up,
                    out,
                    gone,
                    miles: self.miles,
                    offered,
                },
                on,
            )
        })?;
        let on = context.on()?;
        let days = days_of_fire(
            &Fire {
                // Whose fire it is makes no day.
                locomotive: LocomotiveId(0),
                lit,
                up,
                out,
                gone,
                miles: self.miles,
                offered,
                day: None,
                entry: 0,
            },
            on,
        );
        let told = match (days.least.len(), days.most.len()) {
            (0, 0) => "Logged: fire and pressure never stood together; no service day.".to_string(),
            (least, most) if least == most => {
                let list: Vec<_> = days.least.iter().map(words::day).collect();
                format!(
                    "Logged: {}, {}.",
                    words::count(least, "service day", "service days"),
                    list.join(" and ")
                )
            }
            (least, most) => format!("Logged: {least} to {most} service days; a time is missing."),
        };
        let list = |set: &DaySet| set.iter().map(|d| d.to_string()).collect::<Vec<_>>();
        Ok(saved(
            &receipt,
            told,
            json!({ "least": list(&days.least), "most": list(&days.most) }),
        ))
    }
}

impl Counted {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (from, through) = (date(&self.from)?, date(&self.through)?);
        let rules = context.rules()?;
        let receipt = context.save(|book, _, on| {
            let (locomotive, kept) = engine(book, &self.engine)?;
            shop::clock::has_a_log(book, rules, kept)?;
            let told = PaperCounted {
                locomotive,
                from,
                through,
                service_days: self.service_days,
                document: self.document.trim().into(),
            };
            shop::clock::count_paper(book, told, on)
        })?;
        let on = context.on()?;
        let book = context.book()?;
        let (id, kept) = engine(&book, &self.engine)?;
        let checks = shop::clock::paper_checks(&book, id, on);
        let newest = checks.iter().max_by_key(|check| check.count.entry);
        let beside = newest.map_or(String::new(), |check| {
            check.told().map_or_else(
                || "; the log holds as many".to_string(),
                |told| format!(": {told}"),
            )
        });
        let days = words::count(
            usize::try_from(self.service_days).unwrap_or(0),
            "service day",
            "service days",
        );
        let told = format!(
            "No. {}: {days} from {from} through {through} by {}{beside}.",
            kept.number,
            self.document.trim()
        );
        let value = newest.map_or(json!({}), check_value);
        Ok(saved(&receipt, told, value))
    }
}

/// A paper's count beside the log's own, for programs.
pub fn check_value(check: &PaperCheck) -> Value {
    let told = &check.count.told;
    json!({
        "from": told.from.to_string(), "through": told.through.to_string(), "paper_counts": told.service_days,
        "document": told.document, "entry": check.count.entry, "least": check.least, "most": check.most,
        "differs": check.differs(), "agrees": check.agreement == Agreement::Agrees, "told": check.told(),
    })
}

fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let on = context.on()?;
    let book = context.book_with_fires_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let fires = book.fires.of(id).into_iter().flatten();
    let mut fires: Vec<_> = fires.map(|(_, fire)| fire).collect();
    fires.sort_by_key(|f| (f.begins(), f.out.or(f.gone)));
    let hour = |at: Option<jiff::civil::DateTime>| {
        at.map_or("not written".into(), |at| {
            at.strftime("%d %b %H:%M").to_string()
        })
    };
    let mut text = format!("Log of No. {} to {}\n", kept.number, words::day(on));
    text.push_str(&format!(
        "  {:<13} {:<13} {:<13} {:<13} {:>5}  service days\n",
        "lit", "pressure up", "fire out", "pressure gone", "miles"
    ));
    let mut list = Vec::new();
    for fire in fires {
        let days = days_of_fire(fire, on);
        let count = match (days.least.len(), days.most.len()) {
            (least, most) if least == most => format!("{least}"),
            (least, most) => format!("{least} to {most}"),
        };
        let miles = fire.miles.map_or("-".to_string(), |m| m.to_string());
        let used = match fire.offered {
            Some(true) => "  offered for use",
            Some(false) => "  not offered for use",
            None => "",
        };
        if let Some(told) = &fire.day {
            text.push_str(&format!(
                "  {:<55} {miles:>5}  {count}{used}\n",
                format!(
                    "{}: {}",
                    told.day.strftime("%d %b"),
                    words::log::told_day(told.stood, &told.told)
                )
            ));
        } else {
            text.push_str(&format!(
                "  {:<13} {:<13} {:<13} {:<13} {miles:>5}  {count}{used}\n",
                hour(fire.lit),
                hour(fire.up),
                hour(fire.out),
                hour(fire.gone)
            ));
        }
        let at = |at: Option<jiff::civil::DateTime>| at.map(|at| at.to_string());
        list.push(json!({
            "lit": at(fire.lit), "up": at(fire.up), "out": at(fire.out), "gone": at(fire.gone), "miles": fire.miles,
            "least": days.least.len(), "most": days.most.len(), "offered": fire.offered, "entry": fire.entry,
            "day": fire.day.as_ref().map(|it| json!({ "day": it.day.to_string(), "stood": it.stood.word(), "told": it.told })),
        }));
    }
    let since = kept.log_from.unwrap_or(on);
    let all = own_service_days(&book, id, since, on);
    let closed = match (kept.log_from, kept.log_through) {
        (Some(from), Some(through)) => format!(
            "closed from {} through {}",
            words::day(from),
            words::day(through)
        ),
        _ => "never closed".into(),
    };
    text.push_str(&format!(
        "  {} proved; the log is {closed}.\n",
        words::count(all.least.len(), "service day", "service days")
    ));
    let checks = shop::clock::paper_checks(&book, id, on);
    for told in checks.iter().filter_map(PaperCheck::told) {
        text.push_str(&format!("  look: {}\n", super::wrap(&told, 8, 100)));
    }
    let papers: Vec<_> = checks.iter().map(check_value).collect();
    Ok(Answer::done(
        text,
        json!({
            "engine": kept.number, "on": on.to_string(), "fires": list, "service_days": all.least.len(), "papers": papers,
        }),
    ))
}
