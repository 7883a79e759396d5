//! `finding` and `decide`: what was found, told downwards, with its verdict and its routes.

use clap::{Args, Subcommand};
use jiff::civil::Date;
use measure::State;
use rules::{Rulebook, Ruling};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, Finding as Kept, FindingId, FindingState, NoticeGiven, Occasion};
use shop::decision::Wish;
use shop::finding::{NewFinding, NewLifting, unlifted};
use shop::locomotive::{Taking, engine, finding, inspection, part};
use shop::report::{Thing, open_things};
use shop::route::{Choice, Feasible, routes};
use shop::verdict::{Judgement, Verdict};

use super::{date, name, readings, rule_held, saved, wrap};
use crate::words::apart as say;
use crate::{Answer, Context, Failure, words};

/// Record a finding; see its verdict and its routes.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(clippy::large_enum_variant, reason = "one is read for a whole request")]
pub enum Finding {
    /// Record what was found, with its as-found readings.
    Record(Record),
    /// A finding told downwards: found, measured, verdict, routes, decision, job.
    Show {
        /// Its number, such as F-001.
        finding: String,
    },
    /// Say that a finding starts a clock of its own, such as a broken staybolt's thirty days.
    Opens {
        /// Its number, such as F-001.
        finding: String,
        /// The rule of the clock, such as us-steam.clock.broken-staybolt.
        rule: String,
    },
    /// Enter that a special notice was lifted by the authority that gave it.
    Lift(Lift),
    /// Everything open of an engine, oldest first, grouped by what must be apart anyway; how often each was carried.
    Apart {
        /// Her number.
        engine: String,
    },
    /// Every finding, open ones first.
    List {
        /// Only of this engine.
        engine: Option<String>,
    },
}

/// Record a finding.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// The engine's number.
    pub engine: String,
    /// The part's name.
    pub part: String,
    /// What was seen: where, hot or cold, at what pressure.
    #[arg(long)]
    pub told: String,
    /// What the part does, in the family's words, such as weeps-back. May be given again.
    #[arg(long = "shows")]
    #[serde(default)]
    pub shows: Vec<String>,
    /// The inspection it was found at, such as I-001.
    #[arg(long)]
    pub at: Option<String>,
    /// What else it hangs on: write-up, road-failure, special-notice or planned-work.
    #[arg(long, conflicts_with = "at")]
    pub occasion: Option<String>,
    /// Of a special notice: who gave it, by name.
    #[arg(long)]
    pub given_by: Option<String>,
    /// Of a special notice: the office they gave it for.
    #[arg(long)]
    pub office: Option<String>,
    /// Of a special notice: the paper.
    #[arg(long)]
    pub document: Option<String>,
    /// As-found readings: feature@place=value, each as written.
    #[serde(default)]
    pub readings: Vec<String>,
    /// How they were taken.
    #[command(flatten)]
    #[serde(flatten)]
    pub how: super::part::How,
}

/// Enter that a special notice was lifted by the authority that gave it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lift {
    /// The finding that hangs on the notice, such as F-001.
    pub finding: String,
    /// Who lifted it.
    #[arg(long)]
    pub name: String,
    /// For which office.
    #[arg(long)]
    pub office: String,
    /// On which day.
    #[arg(long)]
    pub day: String,
    /// The paper that says so.
    #[arg(long)]
    pub document: String,
}

/// Sign a choice among the routes of a finding.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decide {
    /// The finding, such as F-001.
    pub finding: String,
    /// The route, such as re-cut.
    pub route: String,
    /// Why.
    #[arg(long)]
    pub because: String,
    /// When it is looked at again; needed to carry a finding.
    #[arg(long)]
    pub recheck: Option<String>,
    /// The newest entry of the finding that you had seen; refused if it has changed since.
    #[arg(long)]
    pub seen_entry: Option<u64>,
}

impl Finding {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Finding::Record(it) => it.run(context),
            Finding::Show { finding: number } => show(context, number),
            Finding::Opens {
                finding: number,
                rule,
            } => {
                let rules = context.rules()?;
                let receipt = context.save(|book, by, on| {
                    let (id, _) = finding(book, number)?;
                    shop::clock::open_clock(book, rules, id, rule.trim(), by, on)
                })?;
                let told = format!(
                    "{} starts the clock {}; `due` counts it until the finding is put right.",
                    number.trim(),
                    rule.trim()
                );
                Ok(saved(&receipt, told, json!({})))
            }
            Finding::Lift(it) => it.run(context),
            Finding::Apart { engine: number } => apart(context, number),
            Finding::List { engine: number } => list(context, number.as_deref()),
        }
    }
}

impl Record {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let taken = readings(&self.readings, State::AsFound, context.by()?)?;
        let taken = self.how.put_on(taken)?;
        let taking = self.how.taking(None)?;
        let id = FindingId(context.id()?);
        let said = [&self.given_by, &self.office, &self.document];
        let notice = said.iter().any(|it| it.is_some()).then(|| NoticeGiven {
            name: self.given_by.clone().unwrap_or_default(),
            office: self.office.clone().unwrap_or_default(),
            document: self.document.clone().unwrap_or_default(),
        });
        let receipt = context.save_of_part(&self.engine, &self.part, |book, by, on| {
            let (locomotive, _) = engine(book, &self.engine)?;
            let (part, _) = part(book, locomotive, &self.part)?;
            let occasion = match (&self.at, self.occasion.as_deref()) {
                (Some(number), _) => Occasion::Inspection { inspection: inspection(book, number)?.0 },
                (None, Some("write-up")) => Occasion::WriteUp,
                (None, Some("road-failure")) => Occasion::RoadFailure,
                (None, Some("special-notice")) => Occasion::SpecialNotice,
                (None, Some("planned-work")) => Occasion::PlannedWork,
                (None, Some(other)) => {
                    return Err(shop::Refusal::input(format!(
                        "`{other}` is not an occasion: write-up, road-failure, special-notice or planned-work were expected."
                    )));
                }
                (None, None) => {
                    return Err(shop::Refusal::input("A finding hangs on an occasion: give --at I-001 or --occasion write-up."));
                }
            };
            let new = NewFinding {
                id,
                locomotive,
                part,
                occasion,
                conditions: self.shows.clone(),
                told: self.told.clone(),
                readings: taken.clone(),
                notice: notice.clone(),
                taking: Taking {
                    on: Some(on),
                    ..taking.clone()
                },
            };
            shop::finding::record(book, new, by, on)
        })?;
        let on = context.on()?;
        let rules = context.rules()?;
        let book = context.book()?;
        let kept = book
            .findings
            .get(&id)
            .ok_or_else(|| Failure::Machine("The finding is not in the book.".into()))?;
        let choice = routes(&book, rules, kept, on, context.house())?;
        let told = format!(
            "F-{:03} is recorded: {}.",
            kept.number,
            choice.judgement.verdict.words()
        );
        Ok(saved(
            &receipt,
            told,
            json!({ "finding": format!("F-{:03}", kept.number), "verdict": choice.judgement.verdict.words() }),
        ))
    }
}

impl Lift {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let day = date(&self.day)?;
        let receipt = context.save(|book, by, on| {
            let new = NewLifting {
                finding: finding(book, &self.finding)?.0,
                name: self.name.clone(),
                office: self.office.clone(),
                day,
                document: self.document.clone(),
            };
            shop::finding::lift(book, new, by, on)
        })?;
        let told = format!(
            "The special notice of {} was lifted {} by {}, {}.",
            self.finding.trim(),
            words::day(day),
            self.name.trim(),
            self.office.trim()
        );
        Ok(saved(&receipt, told, json!({})))
    }
}

impl Decide {
    /// Decides.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let rules = context.rules()?;
        let recheck = self.recheck.as_deref().map(date).transpose()?;
        let receipt = context.save(|book, by, on| {
            let (id, kept) = finding(book, &self.finding)?;
            super::not_stale(&self.finding, self.seen_entry, kept.last)?;
            let wish = Wish {
                finding: id,
                route: self.route.clone(),
                because: self.because.clone(),
                recheck,
            };
            shop::decision::decide(book, rules, wish, by, on)
        })?;
        Ok(saved(
            &receipt,
            format!("{} is decided: {}.", self.finding, self.route),
            json!({}),
        ))
    }
}

fn apart(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let book = context.book()?;
    let (id, _) = engine(&book, number)?;
    let groups = open_things(&book, id);
    let mut text = String::new();
    let mut list = Vec::new();
    for group in &groups {
        text.push_str(&match group.apart.as_slice() {
            [] => format!("{}\n", say::NOT_SAID),
            apart => format!("{}\n", wrap(&say::off(apart), 2, 100)),
        });
        let mut open = Vec::new();
        for it in &group.open {
            let since = say::since(it.since);
            let (tag, stands, times) = match &it.thing {
                Thing::WriteUp { number } => (
                    words::tag::write_up(*number),
                    words::paper::NOT_LOOKED_AT,
                    0,
                ),
                Thing::Finding {
                    number,
                    state,
                    carried,
                    ..
                } => (
                    words::tag::finding(*number),
                    self::state(*state),
                    carried.len(),
                ),
            };
            let stands = say::carried(&it.thing).unwrap_or_else(|| stands.to_owned());
            let line = format!("{tag}  {}: {} ({since}; {stands})", it.place, it.told);
            text.push_str(&format!("  {}\n", wrap(&line, 9, 100)));
            open.push(json!({
                "open": tag, "place": it.place, "told": it.told, "since": it.since.to_string(), "carried": times,
                "reach": it.reach,
            }));
        }
        list.push(json!({ "apart": group.apart, "open": open }));
    }
    if groups.is_empty() {
        text.push_str(&format!("{}\n", say::NOTHING));
    }
    Ok(Answer::done(text, json!(list)))
}

fn list(context: &mut Context, number: Option<&str>) -> Result<Answer, Failure> {
    let book = context.book()?;
    let only = number
        .map(|n| engine(&book, n))
        .transpose()?
        .map(|(id, _)| id);
    let mut found: Vec<_> = book
        .findings
        .values()
        .filter(|f| only.is_none_or(|id| f.locomotive == id))
        .collect();
    found.sort_by_key(|f| (matches!(f.state, FindingState::Closed), f.number));
    let mut text = String::new();
    let mut list = Vec::new();
    for kept in found {
        let part = book.parts.get(&kept.part).map_or("?", |p| p.name.as_str());
        let her = book
            .locomotives
            .get(&kept.locomotive)
            .map_or("?", |e| e.number.as_str());
        text.push_str(&format!(
            "F-{:03}  {:<8} No. {her}, {part}: {}\n",
            kept.number,
            state(kept.state),
            wrap(&kept.told, 17, 100)
        ));
        list.push(json!({ "finding": format!("F-{:03}", kept.number), "engine": her, "part": part, "state": state(kept.state), "told": kept.told }));
    }
    Ok(Answer::done(text, json!(list)))
}

fn state(state: FindingState) -> &'static str {
    match state {
        FindingState::Open => "open",
        FindingState::Decided => "decided",
        FindingState::InWork => "in work",
        FindingState::Closed => "closed",
        FindingState::Carried => "carried",
    }
}

fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let rules = context.rules()?;
    let book = context.book()?;
    let (_, kept) = finding(&book, number)?;
    // What was found is judged by the rules of the day it was found.
    let choice = routes(&book, rules, kept, kept.found_on, context.house())?;
    let runs = match kept.state {
        FindingState::Closed => Vec::new(),
        _ => shop::clock::runs_out(&book, rules, kept)?,
    };
    let text = told(&book, rules, kept, &choice, &runs);
    let code =
        u8::from(kept.state == FindingState::Open && choice.judgement.verdict != Verdict::Complies);
    Ok(Answer {
        text,
        json: value(&book, kept, &choice, &runs),
        code,
    })
}

fn told(
    book: &Book,
    rules: &Rulebook,
    kept: &Kept,
    choice: &Choice,
    runs: &[(Ruling, Date)],
) -> String {
    let part = book.parts.get(&kept.part).map_or("?", |p| p.name.as_str());
    let her = book
        .locomotives
        .get(&kept.locomotive)
        .map_or("?", |e| e.number.as_str());
    let occasion = match &kept.occasion {
        Occasion::Inspection { inspection } => {
            let at = book.inspections.get(inspection);
            at.map_or("at an inspection".into(), |i| {
                format!("at the {} inspection I-{:03}", i.kind, i.number)
            })
        }
        Occasion::WriteUp => "by a write-up".into(),
        Occasion::RoadFailure => "by a road failure".into(),
        Occasion::SpecialNotice => "by an inspector's special notice".into(),
        Occasion::PlannedWork => "in planned work".into(),
    };
    let mut text = format!(
        "F-{:03}: No. {her}, {part} ({})\n",
        kept.number,
        state(kept.state)
    );
    text.push_str(&format!(
        "Found {} {occasion}, by {} (entry {})\n  {}\n",
        words::day(kept.found_on),
        name(book, kept.found_by),
        kept.entry,
        wrap(&kept.told, 2, 100)
    ));
    if let Some(given) = &kept.notice {
        let said = words::day::given(&given.name, &given.office, &given.document);
        text.push_str(&format!("  {}\n", wrap(&said, 2, 100)));
    }
    if let Some(it) = &kept.lifted {
        let said = words::day::lifted(&it.name, &it.office, it.day, &it.document);
        text.push_str(&format!("  {}\n", wrap(&said, 2, 100)));
    } else if let Some(why) = unlifted(kept, Date::MAX) {
        text.push_str(&format!("  {}.\n", wrap(&words::sentence(&why), 2, 100)));
    }
    if !kept.readings.is_empty() {
        text.push_str("Measured, as found\n");
        for reading in &kept.readings {
            let with = reading
                .reading
                .instrument
                .as_ref()
                .map_or(String::new(), |i| format!(", by {i}"));
            text.push_str(&format!(
                "  {:<18} {:<13} {}{with}\n",
                reading.feature,
                reading.reading.position,
                reading.reading.written()
            ));
        }
    }
    text.push_str(&verdict(&choice.judgement));
    if let Some(line) = line_of(book, rules, &choice.judgement) {
        text.push_str(&format!("  {}\n", wrap(&line, 2, 100)));
    }
    for (ruling, last) in runs {
        let line = words::finding::clock(&ruling.title, *last, &ruling.cite.section);
        text.push_str(&format!("{}\n", wrap(&line, 2, 100)));
    }
    if kept.decision.is_none() {
        text.push_str("Routes\n");
        for offer in &choice.offers {
            let word = can(&offer.feasible);
            text.push_str(&format!(
                "  {:<10} {word:<13} {}\n",
                offer.route.word, offer.route.title
            ));
            let mut line = |what: &str, told: &str| {
                text.push_str(&format!(
                    "             {what}: {}\n",
                    wrap(told, 13 + what.len() + 2, 100)
                ))
            };
            match &offer.feasible {
                Feasible::Yes => {}
                Feasible::No(why) => line("why not", why),
                Feasible::CannotTell(needs) => line("needs", &needs.join("; ")),
            }
            if !offer.route.carries {
                let [low, likely, high] = offer.hours;
                let whose = match words::finding::hours_of(offer.hours_of) {
                    whose if whose.is_empty() => whose,
                    whose => format!(", {whose}"),
                };
                line(
                    "hours",
                    &format!("{likely} likely ({low} to {high}){whose}"),
                );
            }
            if let Some(metal) = &offer.metal {
                line("metal", metal);
            }
            line("buys", &offer.route.buys);
            let tools: Vec<String> = offer.tools.iter().map(shop::route::Tool::told).collect();
            for (what, of_it) in [
                ("sheets", &offer.sheets),
                ("tools first", &tools),
                ("moves", &offer.moves),
            ] {
                if !of_it.is_empty() {
                    line(what, &of_it.join("; "));
                }
            }
            if !offer.unknown.is_empty() {
                line("not known", &offer.unknown.join("; "));
            }
        }
        if !choice.sheets.is_empty() {
            let ids: Vec<_> = choice.sheets.iter().map(|s| s.card.id).collect();
            text.push_str(&format!(
                "  These stand on the sheets {}.\n",
                ids.join(", ")
            ));
        }
    }
    if kept.decision.is_some() {
        let weighed: Vec<_> = choice
            .offers
            .iter()
            .map(|o| format!("{} {}", o.route.word, can(&o.feasible)))
            .collect();
        text.push_str(&format!("Weighed: {}\n", wrap(&weighed.join("; "), 9, 100)));
    }
    if let Some(decision) = &kept.decision {
        text.push_str(&format!(
            "Decided {} by {}: {}\n  {}\n  The verdict that day: {}.\n",
            words::day(decision.on),
            name(book, decision.by),
            decision.route,
            wrap(&decision.because, 2, 100),
            decision.verdict
        ));
        if let Some(day) = decision.recheck {
            text.push_str(&format!("  To be looked at again {}.\n", words::day(day)));
        }
    }
    if let Some(job) = kept.job.and_then(|id| book.jobs.get(&id)) {
        let how = match &job.closed {
            Some((day, by, verdict)) => format!(
                "closed {} by {}; as left: {verdict}",
                words::day(*day),
                name(book, *by)
            ),
            None => "open".into(),
        };
        text.push_str(&format!(
            "Job J-{:03}: {} ({how})\n",
            job.number, job.plan.title
        ));
    }
    text.push_str(&format!(
        "Newest entry {}. {}\n",
        kept.last,
        words::STANDING
    ));
    text
}

/// Whether a route can be taken, in a word.
fn can(feasible: &Feasible) -> &'static str {
    match feasible {
        Feasible::Yes => "can be taken",
        Feasible::No(_) => "no",
        Feasible::CannotTell(_) => "cannot tell",
    }
}

/// Which of the figures behind a verdict this shop has not held against the official text.
fn line_of(book: &Book, rules: &Rulebook, judgement: &Judgement) -> Option<String> {
    let used = judgement.lines.iter().filter_map(|l| l.ruling.as_ref());
    rule_held::line(book, rules, used.map(|r| (r.rule.as_str(), r.version)))
}

fn verdict(judgement: &Judgement) -> String {
    let mut text = format!("Verdict: {}\n", wrap(&judgement.verdict.words(), 9, 100));
    for line in &judgement.lines {
        let cite = line.ruling.as_ref().map_or(String::new(), |r| {
            format!(" [{}; {}]", r.cite.section, r.mark)
        });
        let said = format!("{}: {}; limit {}{cite}", line.what, line.found, line.limit);
        let word = match &line.verdict {
            Verdict::Complies => "complies",
            Verdict::Fails(_) => "fails",
            Verdict::CannotTell(_) => "cannot tell",
        };
        text.push_str(&format!("  {word:<12} {}\n", wrap(&said, 15, 100)));
    }
    text
}

fn value(book: &Book, kept: &Kept, choice: &Choice, runs: &[(Ruling, Date)]) -> Value {
    let lines: Vec<_> = choice
        .judgement
        .lines
        .iter()
        .map(|l| json!({
            "what": l.what, "found": l.found, "limit": l.limit, "law": l.law, "verdict": l.verdict.words(),
            "rule": l.ruling.as_ref().map(|r| &r.rule), "version": l.ruling.as_ref().map(|r| r.version),
            "section": l.ruling.as_ref().map(|r| &r.cite.section), "mark": l.ruling.as_ref().map(|r| &r.mark),
        }))
        .collect();
    let offers: Vec<_> = choice
        .offers
        .iter()
        .map(|o| {
            let (can, why) = match &o.feasible {
                Feasible::Yes => ("yes", String::new()),
                Feasible::No(why) => ("no", why.clone()),
                Feasible::CannotTell(needs) => ("cannot tell", needs.join("; ")),
            };
            json!({
                "route": o.route.word, "title": o.route.title, "can_be_taken": can, "why": why,
                "quarter_hours": o.hours.map(|h| h.0), "metal": o.metal, "buys": o.route.buys, "unknown": o.unknown,
                "hours_of": words::finding::hours_of(o.hours_of), "sheets": o.sheets, "tooling": o.route.tooling, "tools": o.tools.iter().map(|tool| json!({ "need": tool.need, "to_be_made": !tool.is_kept(), "kept": tool.kept.iter().map(|kept| json!({ "number": format!("T-{:03}", kept.number), "what": kept.what, "shelf": kept.shelf, "serves": kept.serves })).collect::<Vec<_>>() })).collect::<Vec<_>>(), "moves": o.moves, "stop_points": o.route.stop_points,
            })
        })
        .collect();
    json!({
        "finding": format!("F-{:03}", kept.number), "state": state(kept.state), "told": kept.told, "found_on": kept.found_on.to_string(),
        "verdict": choice.judgement.verdict.words(), "shop_verdict": choice.judgement.shop.words(), "lines": lines, "routes": offers,
        "clocks": runs.iter().map(|(ruling, last)| json!({ "rule": ruling.rule, "section": ruling.cite.section, "last": last.to_string() })).collect::<Vec<_>>(),
        "sheets": choice.sheets.iter().map(|s| s.card.id).collect::<Vec<_>>(),
        "decision": kept.decision.as_ref().map(|d| json!({ "route": d.route, "because": d.because, "by": name(book, d.by), "on": d.on.to_string() })),
        "last": kept.last,
    })
}
