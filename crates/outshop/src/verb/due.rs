//! `due`: every clock of one or all engines, why, and which promised runs it stops.

use clap::Args;
use jiff::civil::Date;
use rules::Rulebook;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, LocomotiveId};
use shop::clock::{Anchor, Arm, Clock, State};
use shop::locomotive::{checking_of, engine, engines};
use shop::report::{Ahead, Release, Stop, ahead};

use super::{rule_held, wrap};
use crate::{Answer, Context, Failure, words};

/// Every clock of one or all engines, why, and which promised runs it stops.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Due {
    /// Her number; every engine if left out.
    pub engine: Option<String>,
    /// Open every line: the rule as we read it, each arm, what would change it.
    #[arg(long)]
    #[serde(default)]
    pub why: bool,
    /// Look ahead along the promised runs: the first day each clock stops her, and the last good day for each.
    #[arg(long)]
    #[serde(default)]
    pub ahead: bool,
    /// Suppose something held on a day: 31=2026-05-20, F-004=2026-05-20. Nothing is entered.
    #[arg(long, value_name = "WHAT=DAY", requires = "engine")]
    #[serde(default)]
    pub hold: Vec<String>,
    /// Suppose a run promised: 2026-06-06=charter. Nothing is entered.
    #[arg(long, value_name = "DAY=WHAT", requires = "engine")]
    #[serde(default)]
    pub run: Vec<String>,
    /// List every deadline by its day: inspections, papers, defects, findings to look at again.
    #[arg(long, conflicts_with_all = ["why", "ahead", "hold", "run"])]
    #[serde(default)]
    pub dates: bool,
}

impl Due {
    /// Tells.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        if self.dates && (self.why || self.looks_ahead()) {
            return Err(Failure::Input(
                "The list of deadlines takes nothing beside it: ask for it alone.".into(),
            ));
        }
        if self.dates {
            return super::dates::list(context, self.engine.as_deref());
        }
        let on = context.on()?;
        let rules = context.rules()?;
        // Opened lines name the times that are missing from her fires; only then are those read one by one.
        let book = match &self.engine {
            Some(number) if self.why => context.book_with_fires_of(number)?,
            _ => context.book()?,
        };
        let wanted = match &self.engine {
            Some(number) => vec![engine(&book, number)?.0],
            None => engines(&book).into_iter().map(|(id, _)| id).collect(),
        };
        if wanted.is_empty() {
            return Err(Failure::Input(
                "There is no engine in this book yet.".into(),
            ));
        }
        let supposed = super::ahead::supposed(&self.hold, &self.run)?;
        if !supposed.is_empty() && self.engine.is_none() {
            return Err(Failure::Input(
                "What is supposed is supposed of one engine: her number was expected.".into(),
            ));
        }
        // A roundhouse's clocks name every day they counted: that is built for a program that asks for it.
        let for_program = context.globals().json;
        let (mut texts, mut values) = (Vec::new(), Vec::new());
        let mut stopped = false;
        for id in wanted {
            let kept = book.locomotives.get(&id).filter(|_| self.looks_ahead());
            let (text, value, stops) = match kept {
                Some(kept) => {
                    let (text, value, held) =
                        super::ahead::one(&book, rules, (id, kept), on, &supposed)?;
                    (text, Some(value), held)
                }
                None => one(&book, rules, id, on, self.why, for_program)?,
            };
            texts.push(text);
            values.extend(value);
            stopped |= stops;
        }
        let json = if self.engine.is_some() {
            values.pop().unwrap_or_default()
        } else {
            Value::Array(values)
        };
        Ok(Answer {
            text: format!("{}{}\n", texts.join("\n"), words::STANDING),
            json,
            code: u8::from(stopped),
        })
    }
}

impl Due {
    fn looks_ahead(&self) -> bool {
        self.ahead || !self.hold.is_empty() || !self.run.is_empty()
    }
}

fn one(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    on: Date,
    open: bool,
    for_program: bool,
) -> Result<(String, Option<Value>, bool), Failure> {
    let kept = book
        .locomotives
        .get(&id)
        .ok_or_else(|| Failure::Input("There is no such engine.".into()))?;
    let Ahead {
        clocks,
        stops: stopped,
        release: released,
        runs,
        notices,
        ..
    } = ahead(book, rules, id, on)?;
    let mut text = format!(
        "No. {}, {}, on {}\n",
        kept.number,
        kept.wheels,
        words::day(on)
    );
    let wide = clocks.iter().map(|c| c.inspection.len()).max().unwrap_or(0);
    for clock in &clocks {
        let head = format!("  {:<11} {:<wide$} ", state(&clock.state), clock.inspection);
        text.push_str(&head);
        text.push_str(&wrap(
            &format!("{} ({})", clock.why, stands_in(&clock.ruling)),
            head.chars().count(),
            100,
        ));
        text.push('\n');
        if open {
            text.push_str(&opened(book, rules, clock));
        }
    }
    for notice in &notices {
        text.push_str(&format!("  {:<11} {}\n", LOOK, wrap(notice, 14, 100)));
    }
    let used = clocks.iter().map(|clock| &clock.ruling);
    let used = used.map(|ruling| (ruling.rule.as_str(), ruling.version));
    if let Some(line) = rule_held::line(book, rules, used) {
        text.push_str(&format!("  {}\n", wrap(&line, 2, 100)));
    }
    text.push_str(&bottom_line(&kept.number, &stopped, &released, on));
    let mut trains = Vec::new();
    for run in runs {
        let by = &run.in_the_way;
        let said = if by.is_empty() {
            "nothing in this book stops her".to_string()
        } else {
            by.join("; ")
        };
        let line = format!("{}: {said}", run.what);
        text.push_str(&format!(
            "  {:<16} {}\n",
            words::day(run.day),
            wrap(&line, 19, 100)
        ));
        trains.push(json!({ "day": run.day.to_string(), "what": run.what, "stopped_by": by }));
    }
    if !for_program {
        return Ok((text, None, !stopped.is_empty()));
    }
    let mut whole = json!({
        "engine": kept.number, "on": on.to_string(), "clocks": null, "trains": trains,
        "stops": stopped.iter().map(|s| json!({ "from": s.from.to_string(), "why": s.why })).collect::<Vec<_>>(),
        "released": match &released {
            Release::Stands { by, on, log_through } => json!({ "by": by, "on": on.to_string(), "log_through": log_through.to_string() }),
            Release::None(why) => json!({ "none": why }),
        },
        "notices": notices,
    });
    put(&mut whole, "clocks", clocks.iter().map(value).collect());
    Ok((text, Some(whole), !stopped.is_empty()))
}

/// Puts a long list in its place. Named within `json!` it would be copied, value by value.
fn put(whole: &mut Value, name: &str, list: Vec<Value>) {
    if let Some(place) = whole.get_mut(name) {
        *place = Value::Array(list);
    }
}

/// The word before what somebody must look at though it stops nothing.
const LOOK: &str = "look";

/// Where a rule stands, with its set where it is not of this program's rulebook.
fn stands_in(ruling: &rules::Ruling) -> String {
    match ruling.origin {
        rules::Origin::Law => ruling.cite.section.clone(),
        other => format!(
            "{} of {}, {}",
            ruling.cite.section,
            ruling.set,
            other.told()
        ),
    }
}

/// A clock opened: the rule, its arms, what would change it.
fn opened(book: &Book, rules: &Rulebook, clock: &Clock) -> String {
    let mut text = String::new();
    let mut line = |what: &str, told: &str| {
        text.push_str(&format!("      {what:<14} {}\n", wrap(told, 21, 100)));
    };
    let ruling = &clock.ruling;
    line(
        "rule",
        &format!(
            "{}, version {}, {}, {}",
            ruling.rule,
            ruling.version,
            stands_in(ruling),
            ruling.cite.edition
        ),
    );
    line("our reading", &ruling.reading);
    line("how known", &ruling.mark);
    let stands = checking_of(book, rules, &ruling.rule, ruling.version);
    line("this shop", &rule_held::standing(book, &stands));
    if clock.arms.len() > 1 {
        for arm in &clock.arms {
            line("arm", &format!("{}: {}", state(&arm.state), arm.why));
        }
    }
    if let Some(reading) = clock.anchor.as_ref().and_then(|a| a.reading.as_ref()) {
        line("runs from", reading);
    }
    if let Some(beside) = &clock.beside {
        line("not the law", &format!("{}: {}", beside.last, beside.why));
    }
    for change in &clock.would_change {
        line("would change it", change);
    }
    text
}

/// One word and its reason before any tone: a clock's state.
fn state(state: &State) -> &'static str {
    match state {
        State::Runs => "runs",
        State::Stops => "STOPS HER",
        State::CannotTell(_) => "cannot tell",
        State::EachDay => "each day",
    }
}

fn bottom_line(number: &str, stopped: &[Stop], released: &Release, on: Date) -> String {
    let day = words::day(on);
    if stopped.is_empty() {
        let how = match released {
            Release::Stands {
                by,
                on,
                log_through,
            } => {
                format!(
                    "released by {by} on {}; log closed through {}",
                    words::day(*on),
                    words::day(*log_through)
                )
            }
            Release::None(why) => format!("but {why}"),
        };
        return format!(
            "  {}\n",
            wrap(
                &format!("Nothing in this book stops No. {number} on {day} ({how})."),
                2,
                100
            )
        );
    }
    let mut text = format!(
        "  {} No. {number} on {day}:\n",
        if stopped.len() == 1 {
            "This stops"
        } else {
            "These stop"
        }
    );
    for stop in stopped {
        text.push_str(&format!("    - {}\n", wrap(&stop.why, 6, 100)));
    }
    text
}

fn value(clock: &Clock) -> Value {
    let mut whole = json!({
        "rule": clock.ruling.rule, "version": clock.ruling.version, "section": clock.ruling.cite.section,
        "edition": clock.ruling.cite.edition, "mark": clock.ruling.mark, "reading": clock.ruling.reading,
        "inspection": clock.inspection, "finding": clock.finding.map(|n| format!("F-{n:03}")),
        "anchor": clock.anchor.as_ref().map(anchor),
        "counted_min": clock.counted.least, "counted_max": clock.counted.most, "limit": clock.limit, "unit": clock.unit,
        "left": clock.left, "stops_on": clock.stops_on.map(|d| d.to_string()), "state": state(&clock.state).to_lowercase(),
        "why": clock.why, "days": null,
        "arms": clock.arms.iter().map(arm).collect::<Vec<_>>(),
        "beside": clock.beside.as_ref().map(|b| json!({ "last": b.last.to_string(), "why": b.why, "law": false })),
        "would_change": clock.would_change,
    });
    let days = clock.days.iter().map(|day| Value::String(day.to_string()));
    put(&mut whole, "days", days.collect());
    whole
}

fn anchor(anchor: &Anchor) -> Value {
    json!({
        "kind": anchor.kind, "on": anchor.on.to_string(), "earliest": anchor.earliest.to_string(),
        "document": anchor.document, "inspection": anchor.inspection.map(|n| format!("I-{n:03}")),
        "reading": anchor.reading,
    })
}

fn arm(arm: &Arm) -> Value {
    json!({
        "anchor": arm.anchor.as_ref().map(anchor), "counted_min": arm.counted.least,
        "counted_max": arm.counted.most, "limit": arm.limit, "unit": arm.unit, "left": arm.left,
        "stops_on": arm.stops_on.map(|d| d.to_string()), "state": state(&arm.state).to_lowercase(), "why": arm.why,
    })
}
