//! Papers: what goes where by when, what the book says has gone, and what is kept how long.
//!
//! A paper is done when somebody said so, never because a day has passed. Months are added only by the span
//! that the rule names (`rules::Deadline`).

use jiff::civil::{Date, date};
use rules::{Body, Filing, Keep, Rulebook, Ruling, Side, Span, words};

use super::due::due;
use super::line::Clock;
use super::service_day::{of_year, service_days};
use crate::Refusal;
use crate::book::{
    Book, Inspection, InspectionId, Locomotive, LocomotiveId, PaperAbout, PaperSent, Sent,
    Statement,
};
use crate::locomotive::{Law, engine_of};

/// A paper that went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// The day it went.
    pub on: Date,
    /// How, and what shows it.
    pub told: String,
    /// Whether it went after its last day.
    pub late: bool,
}

/// How a paper stands on the day asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PaperState {
    /// Its last day is past and nothing in this book says that it went.
    Overdue,
    /// It is to be sent, and there is time.
    Open,
    /// Its day cannot be told.
    CannotTell,
    /// It went.
    Done,
}

/// One paper of one engine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// Whose.
    pub engine: LocomotiveId,
    /// The rule that asks for it.
    pub ruling: Ruling,
    /// The paper.
    pub what: String,
    /// To whom.
    pub to: Vec<String>,
    /// What it is about; nothing where that cannot be told.
    pub about: Option<PaperAbout>,
    /// The same in words: `the annual I-003`, `the year 2025`.
    pub told: String,
    /// The last day in time; nothing where it cannot be told.
    pub by: Option<Date>,
    /// What went, if somebody said so.
    pub done: Option<Done>,
    /// How it stands.
    pub state: PaperState,
    /// Why, in a sentence.
    pub why: String,
}

/// How long a paper of one engine is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// Whose.
    pub engine: LocomotiveId,
    /// The rule.
    pub ruling: Ruling,
    /// The paper.
    pub what: String,
    /// The oldest day whose paper must still be there; nothing where no paper may be thrown away.
    pub from: Option<Date>,
    /// How long, in a sentence.
    pub why: String,
}

/// What a paper is about, and the day its time is reckoned from.
struct Occasion {
    about: PaperAbout,
    /// Days named by notices that are about it too.
    named: Vec<Date>,
    told: String,
    /// The day of the event; nothing where it has not come and cannot be told.
    day: Option<Date>,
    /// More that belongs to the sentence.
    more: Option<String>,
}

impl Occasion {
    fn is(&self, about: &PaperAbout) -> bool {
        let named = |day: &Date| self.named.contains(day);
        *about == self.about || matches!(about, PaperAbout::Day { day } if named(day))
    }
}

/// Every paper that the rulebooks of the shop's engines ask for, as known on a day, what is overdue first.
///
/// # Errors
/// Input: the day lies before a rulebook's coverage.
pub fn filings(book: &Book, rules: &Rulebook, on: Date) -> Result<Vec<Paper>, Refusal> {
    let mut papers = Vec::new();
    for (engine, kept) in crate::locomotive::engines(book) {
        let clocks = due(book, rules, engine, on)?;
        papers.extend(of_engine(book, rules, engine, kept, &clocks, on)?);
    }
    papers.sort_by_key(in_order);
    Ok(papers)
}

/// The papers of one engine alone, whose clocks of that day are known.
///
/// # Errors
/// As [`filings`].
pub fn filings_of(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    clocks: &[Clock],
    on: Date,
) -> Result<Vec<Paper>, Refusal> {
    let kept = engine_of(book, engine)?;
    let mut papers = of_engine(book, rules, engine, kept, clocks, on)?;
    papers.sort_by_key(in_order);
    Ok(papers)
}

fn in_order(paper: &Paper) -> (PaperState, Date) {
    (paper.state, paper.by.unwrap_or(Date::MAX))
}

fn of_engine(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    kept: &Locomotive,
    clocks: &[Clock],
    on: Date,
) -> Result<Vec<Paper>, Refusal> {
    let mut papers = Vec::new();
    for ruling in Law::of(book, rules, kept).in_force(on)? {
        let Body::Filing(filing) = &ruling.body else {
            continue;
        };
        for occasion in occasions(book, kept, engine, clocks, &ruling.rule, filing, on) {
            papers.push(paper(kept, engine, &ruling, filing, occasion, on)?);
        }
    }
    Ok(papers)
}

fn paper(
    kept: &Locomotive,
    engine: LocomotiveId,
    ruling: &Ruling,
    filing: &Filing,
    occasion: Occasion,
    on: Date,
) -> Result<Paper, Refusal> {
    let by = match occasion.day {
        Some(day) => Some(filing.when.last_day(day)?),
        None => None,
    };
    let sent = kept.papers.iter().filter(|sent| {
        sent.paper.rule == ruling.rule && occasion.is(&sent.paper.about) && sent.paper.sent_on <= on
    });
    let first: Option<&Sent> = sent.min_by_key(|sent| sent.paper.sent_on);
    let done = first.map(|sent| Done {
        on: sent.paper.sent_on,
        told: sent.paper.told.clone(),
        late: by.is_some_and(|by| sent.paper.sent_on > by),
    });
    let state = match (&done, by) {
        (Some(_), _) => PaperState::Done,
        (None, Some(by)) if by < on => PaperState::Overdue,
        // A paper for the cab has no day until she is used; it is open from the start.
        (None, None) if filing.when.span.is_some() => PaperState::CannotTell,
        (None, _) => PaperState::Open,
    };
    let when = match by {
        Some(by) if filing.when.span.is_none() => format!("before she was used on {by}"),
        Some(by) => format!("by {by}"),
        None if filing.when.span.is_none() => "before she is used".to_string(),
        None => "by a day that cannot be told".to_string(),
    };
    let mut why = format!("{}, for {}, {when}", filing.what, occasion.told);
    match &done {
        Some(done) => {
            let late = if done.late { ", late" } else { "" };
            why.push_str(&format!(": done {}{late} ({})", done.on, done.told));
        }
        None if state == PaperState::Overdue => {
            why.push_str(": overdue; nothing in this book says that it was done");
        }
        None => why.push_str(": not done yet"),
    }
    if let Some(more) = &occasion.more {
        why.push_str(&format!("; {more}"));
    }
    Ok(Paper {
        engine,
        ruling: ruling.clone(),
        what: filing.what.clone(),
        to: filing.to.clone(),
        about: Some(occasion.about),
        told: occasion.told,
        by,
        done,
        state,
        why,
    })
}

/// The kinds of inspection a filing's event speaks of. A fifth annual is an annual; a 1472 has papers of its own; a
/// set that the shop wrote may name its own.
fn kinds_of(filing: &Filing) -> Vec<&str> {
    match filing.when.of.as_str() {
        "31-inspection" => vec!["31"],
        "92-inspection" => vec!["92"],
        "annual-inspection" => vec!["annual", "fifth-annual"],
        "1472-inspection" => vec!["1472"],
        "periodic-inspection" => vec!["periodic"],
        "inspection" => filing.inspections.iter().map(String::as_str).collect(),
        _ => Vec::new(),
    }
}

fn occasions(
    book: &Book,
    kept: &Locomotive,
    engine: LocomotiveId,
    clocks: &[Clock],
    rule: &str,
    filing: &Filing,
    on: Date,
) -> Vec<Occasion> {
    let event = filing.when.of.as_str();
    let kinds = kinds_of(filing);
    let of_kind = |wanted: &dyn Fn(&str) -> bool| {
        let mut all: Vec<(InspectionId, &Inspection)> = book
            .inspections
            .iter()
            .filter(|(_, i)| i.locomotive == engine && i.opened_on <= on && wanted(&i.kind))
            .map(|(id, i)| (*id, i))
            .collect();
        all.sort_by_key(|(_, i)| i.number);
        all
    };
    match (event, filing.when.before_or_after) {
        ("end-of-calendar-year", _) => years(book, kept, engine, on),
        ("next-service", _) => {
            let held = of_kind(&|kind| filing.inspections.iter().any(|k| k == kind));
            // Only the newest stands in the cab; the older ones have been taken down.
            let newest = held
                .into_iter()
                .filter_map(|(id, i)| Some((i.closed?.0, id, i)))
                .filter(|(closed, ..)| *closed <= on)
                .max_by_key(|(closed, _, i)| (*closed, i.number));
            let in_cab = |(closed, id, i): (Date, InspectionId, &Inspection)| Occasion {
                about: PaperAbout::Inspection { inspection: id },
                named: Vec::new(),
                told: format!("the {} I-{:03}", i.kind, i.number),
                day: first_use(book, engine, closed, on),
                more: None,
            };
            newest.map(in_cab).into_iter().collect()
        }
        (_, Side::After) if !kinds.is_empty() => of_kind(&|kind| kinds.contains(&kind))
            .into_iter()
            .filter_map(|(id, i)| {
                let (closed, _) = i.closed?;
                (closed <= on).then(|| Occasion {
                    about: PaperAbout::Inspection { inspection: id },
                    named: Vec::new(),
                    told: format!("the {} I-{:03} of {closed}", i.kind, i.number),
                    day: Some(closed),
                    more: None,
                })
            })
            .collect(),
        (_, Side::Before) if !kinds.is_empty() => {
            let held = of_kind(&|kind| kinds.contains(&kind));
            let mut all: Vec<Occasion> = held.iter().map(|(id, i)| begun(*id, i)).collect();
            for sent in &kept.papers {
                if let PaperAbout::Day { day } = sent.paper.about
                    && (sent.paper.rule == rule || rule_is_notice(&sent.paper.rule, event))
                    && let Some(at) = noticed(&held, sent.paper.sent_on, day)
                    && let Some(occasion) = all.get_mut(at)
                {
                    occasion.named.push(day);
                }
            }
            let open = held
                .iter()
                .any(|(_, i)| i.ended_on().is_none_or(|day| day > on));
            if !open {
                all.extend(to_come(kept, clocks, &kinds, rule, event, on));
            }
            all
        }
        _ => kept
            .days
            .iter()
            .filter(|d| d.what == event && d.day <= on)
            .map(|d| Occasion {
                about: PaperAbout::Day { day: d.day },
                named: Vec::new(),
                told: format!("the {} of {}", event.replace("-completed", ""), d.day)
                    .replace('-', " ")
                    .replace(&d.day.to_string().replace('-', " "), &d.day.to_string()),
                day: Some(d.day),
                more: None,
            })
            .collect(),
    }
}

/// The first day of an inspection: of its first item, or of its opening if that came sooner or nothing is
/// answered.
fn first_day(inspection: &Inspection) -> Date {
    let first = inspection.answers.values().map(|given| given.on).min();
    first.map_or(inspection.opened_on, |day| day.min(inspection.opened_on))
}

/// The notice before an inspection that has begun.
fn begun(id: InspectionId, inspection: &Inspection) -> Occasion {
    let day = first_day(inspection);
    Occasion {
        about: PaperAbout::Inspection { inspection: id },
        named: Vec::new(),
        told: format!(
            "the {} I-{:03} begun {day}",
            inspection.kind, inspection.number
        ),
        day: Some(day),
        more: None,
    }
}

/// Which of these inspections a notice that named a day was about: the one that day fell into, else the first
/// begun after the notice went, for a day that was moved.
fn noticed(held: &[(InspectionId, &Inspection)], sent_on: Date, day: Date) -> Option<usize> {
    let into = held
        .iter()
        .position(|(_, i)| first_day(i) <= day && i.ended_on().is_none_or(|end| day <= end));
    into.or_else(|| held.iter().position(|(_, i)| first_day(i) >= sent_on))
}

/// The notice before the inspection to come: for the day somebody planned and gave notice of, else for the
/// last day its clock allows.
fn to_come(
    kept: &Locomotive,
    clocks: &[Clock],
    kinds: &[&str],
    rule: &str,
    event: &str,
    on: Date,
) -> Option<Occasion> {
    // Several rule sets may have a clock for it: the earliest last day is the one that counts.
    let of_kind = clocks
        .iter()
        .filter(|c| kinds.contains(&c.inspection.as_str()));
    let inspection = of_kind.clone().next().map(|c| c.inspection.as_str());
    let of_kind = of_kind.filter(|c| Some(c.inspection.as_str()) == inspection);
    let dated = of_kind.flat_map(|clock| {
        let arms = clock.arms.iter().filter(|arm| arm.unit == "calendar days");
        arms.map(move |arm| (clock, arm))
    });
    let (clock, arm) = dated.min_by_key(|(_, arm)| arm.stops_on.unwrap_or(Date::MAX))?;
    let anchor = arm.anchor.as_ref();
    let last = arm.stops_on.and_then(|day| day.yesterday().ok());
    // Once its last day is past she is not used until it is held, on whatever day that is.
    let last = last.filter(|last| arm.left.is_some() && *last >= on);
    let planned = kept
        .papers
        .iter()
        .filter_map(|sent| match sent.paper.about {
            PaperAbout::Day { day }
                if (sent.paper.rule == rule || rule_is_notice(&sent.paper.rule, event))
                    && day >= on
                    && anchor.is_none_or(|a| day > a.on) =>
            {
                Some(day)
            }
            _ => None,
        });
    if let Some(day) = planned.max() {
        return Some(Occasion {
            about: PaperAbout::Day { day },
            named: Vec::new(),
            told: format!("the {} planned for {day}", clock.inspection),
            day: Some(day),
            more: last
                .filter(|last| day > *last)
                .map(|last| format!("her last day before it is {last}")),
        });
    }
    let told = last.map_or_else(
        || format!("the {} to come", clock.inspection),
        |last| {
            format!(
                "the {} to come, if it is held on her last day, {last}",
                clock.inspection
            )
        },
    );
    Some(Occasion {
        about: PaperAbout::Day {
            day: last.unwrap_or(on),
        },
        named: Vec::new(),
        told,
        day: last,
        more: None,
    })
}

/// Whether a rule's id is that of the notice of an event: `us-steam.notice.annual`, `annual-inspection`.
fn rule_is_notice(rule: &str, event: &str) -> bool {
    let kind = event.trim_end_matches("-inspection");
    rule.ends_with(&format!(".notice.{kind}"))
}

/// Every year the book knows something of, through the one that runs.
fn years(book: &Book, kept: &Locomotive, engine: LocomotiveId, on: Date) -> Vec<Occasion> {
    let log = book.logs.get(&engine);
    let ended = log.and_then(|log| log.most.iter().next());
    let unended = log.into_iter().flat_map(|log| log.unended.values());
    let unended = unended.filter_map(|f| f.lit.into_iter().chain(f.up).min());
    let first = unended
        .map(|at| at.date().year())
        .chain(ended.map(Date::year))
        .chain(kept.log_from.map(Date::year))
        .min();
    let first = first.unwrap_or(on.year()).min(on.year());
    (first..=on.year())
        .map(|year| {
            let end = date(year, 12, 31);
            let days = of_year(book, engine, year, on, service_days);
            let (least, most) = (days.least.len(), days.most.len());
            let count = if least == most {
                least.to_string()
            } else {
                format!("{least} to {most}")
            };
            let so_far = if end > on { " so far" } else { "" };
            Occasion {
                about: PaperAbout::Day { day: end },
                named: Vec::new(),
                told: format!("the year {year}"),
                day: Some(end),
                more: Some(format!(
                    "service days of the year by this book{so_far}: {count}"
                )),
            }
        })
        .collect()
}

/// The first day she was in steam after an inspection was closed, if the log proves one.
fn first_use(book: &Book, engine: LocomotiveId, closed: Date, on: Date) -> Option<Date> {
    let next = closed.tomorrow().ok()?;
    service_days(book, engine, next, on).least.iter().next()
}

/// How long each paper of an engine is kept: what must still be there on a day.
///
/// # Errors
/// Input: there is no such engine, or the day lies before a rulebook's coverage.
pub fn keeping_of(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Kept>, Refusal> {
    let kept = engine_of(book, engine)?;
    let mut all = Vec::new();
    for ruling in Law::of(book, rules, kept).in_force(on)? {
        let Body::Retention(says) = ruling.body.clone() else {
            continue;
        };
        let (from, why) = match says.keep {
            Keep::Days(days) => {
                let from = Span::Days(days).before(on)?;
                let why = format!(
                    "{}: kept {days} days; from {from} on it must be there",
                    says.what
                );
                (Some(from), why)
            }
            Keep::LifeOfBoiler => (
                None,
                format!("{}: kept for the life of the boiler", says.what),
            ),
            Keep::WhileCurrent => (
                None,
                format!("{}: kept until the next one takes its place", says.what),
            ),
            Keep::NoPeriodInText => (
                None,
                format!(
                    "{}: the text names no period, so nobody may say that it can be thrown away",
                    says.what
                ),
            ),
        };
        all.push(Kept {
            engine,
            ruling,
            what: says.what,
            from,
            why,
        });
    }
    Ok(all)
}

/// The same of every engine of the shop.
///
/// # Errors
/// As [`keeping_of`].
pub fn keeping(book: &Book, rules: &Rulebook, on: Date) -> Result<Vec<Kept>, Refusal> {
    let mut all = Vec::new();
    for (engine, _) in crate::locomotive::engines(book) {
        all.extend(keeping_of(book, rules, engine, on)?);
    }
    Ok(all)
}

/// Records that a paper went.
///
/// # Errors
/// Input: the rule is no filing of her rulebook, the inspection is not hers, the paper is not about that kind
/// of thing, the day is not past, or nothing is told.
pub fn file_paper(
    book: &Book,
    rules: &Rulebook,
    sent: PaperSent,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = engine_of(book, sent.locomotive)?;
    let mut known = Vec::new();
    let mut found = None;
    for ruling in Law::of(book, rules, kept).in_force(sent.sent_on)? {
        if let Body::Filing(filing) = ruling.body {
            if ruling.rule == sent.rule {
                found = Some(filing);
            }
            known.push(ruling.rule);
        }
    }
    let Some(filing) = found else {
        return Err(Refusal::input(format!(
            "`{}` asks for no paper of No. {}: {} were expected.",
            sent.rule,
            kept.number,
            known.join(", ")
        )));
    };
    if sent.sent_on > on {
        return Err(Refusal::input(format!(
            "{} has not come yet: a paper is recorded once it has gone.",
            sent.sent_on
        )));
    }
    if sent.told.trim().is_empty() {
        return Err(Refusal::input("Say how it went, and what shows it."));
    }
    let event = filing.when.of.as_str();
    let after_inspection =
        filing.when.before_or_after == Side::After && !kinds_of(&filing).is_empty();
    match &sent.about {
        PaperAbout::Inspection { inspection } => {
            let held = book.inspections.get(inspection);
            let held = held.filter(|i| i.locomotive == sent.locomotive);
            let kind = held
                .map(|i| i.kind.as_str())
                .ok_or_else(|| Refusal::input("That inspection is not of this engine."))?;
            let fits =
                kinds_of(&filing).contains(&kind) || filing.inspections.iter().any(|k| k == kind);
            if !fits {
                return Err(Refusal::input(format!(
                    "`{}` is not about a {kind} inspection.",
                    sent.rule
                )));
            }
        }
        PaperAbout::Day { .. } if after_inspection || event == "next-service" => {
            return Err(Refusal::input(format!(
                "`{}` is about an inspection: its number, such as I-003, was expected.",
                sent.rule
            )));
        }
        PaperAbout::Day { day } if event == "end-of-calendar-year" => {
            if (day.month(), day.day()) != (12, 31) {
                return Err(Refusal::input(format!(
                    "`{}` is about a year: 31 December of it was expected.",
                    sent.rule
                )));
            }
        }
        PaperAbout::Day { day } if words::HAPPENINGS.contains(&event) => {
            if !kept.days.iter().any(|d| d.what == event && d.day == *day) {
                return Err(Refusal::input(format!(
                    "Nothing in this book says that the {} of No. {} was on {day}.",
                    event.replace('-', " "),
                    kept.number
                ))
                .todo(format!(
                    "state it first: locomotive day {} {event} {day}",
                    kept.number
                )));
            }
        }
        PaperAbout::Day { .. } => {}
    }
    Ok(vec![Statement::PaperSent(sent)])
}
