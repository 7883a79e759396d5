//! Plain values for every list, page and paper; no layout.

mod ahead;
mod apart;
mod dates;
mod good;
mod look;
mod past;
mod suppose;

use jiff::civil::Date;
use rules::Rulebook;

pub use ahead::{Ahead, Run, ahead};
pub use apart::{Open, Thing, Together, open_things};
pub use dates::{DateOf, Deadline, Reach, deadlines};
pub use good::Good;
pub use look::{
    Asked, Change, Course, Look, Stopped, Train, changes, course_words, courses, look,
    stopped_words, train_words,
};
pub use past::{Ran, ran_against, reaches_back};
pub use suppose::{Standing, Suppose};

use crate::Refusal;
use crate::book::{Book, Finding, FindingState, LocomotiveId, Occasion};
use crate::clock::{Clock, State, due};
use crate::finding::{open_symptoms, unlifted};
use crate::locomotive::{engine_of, part_of};
use crate::record::stale_signatures;
use crate::route::house;
use crate::verdict::{Question, Verdict, judge};

/// One thing that stands between an engine and service.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stop {
    /// Since or from which day.
    pub from: Date,
    /// What is not settled: a finding or an inspection by its number; nothing where it is a clock.
    pub what: Option<String>,
    /// What it is, in a sentence.
    pub why: String,
}

impl Stop {
    /// Whether it is an open inspection: that keeps her in, and is no defect of hers.
    pub fn is_inspection(&self) -> bool {
        let what = self.what.as_deref();
        what.is_some_and(|what| what.starts_with("inspection "))
    }
}

/// Everything in this book that stops an engine on a day: lapsed clocks, findings not put right, open
/// work. An empty list says only that nothing in this book stops her.
///
/// # Errors
/// Input: as [`due`].
pub fn stops(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Stop>, Refusal> {
    let clocks = due(book, rules, engine, on)?;
    stops_with(book, rules, engine, on, &clocks)
}

/// As [`stops`], where the clocks are known already.
fn stops_with(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    clocks: &[Clock],
) -> Result<Vec<Stop>, Refusal> {
    let mut stops = Vec::new();
    for clock in clocks {
        if matches!(clock.state, State::Stops | State::CannotTell(_)) {
            let from = clock.stops_on.unwrap_or(on);
            stops.push(Stop {
                from,
                what: None,
                why: format!("{}: {}", clock.ruling.title, clock.why),
            });
        }
    }
    let mut findings: Vec<_> = book
        .findings
        .values()
        .filter(|f| f.locomotive == engine)
        .collect();
    findings.sort_by_key(|f| f.number);
    for finding in findings {
        let part = book
            .parts
            .get(&finding.part)
            .map_or("?", |p| p.name.as_str());
        let state = match finding.state {
            FindingState::Open if finding.occasion == Occasion::RoadFailure => {
                Some(match moved_since(book, engine, finding) {
                    Some(told) => format!("it failed on the road; {told}; nobody has decided"),
                    None => {
                        "it failed on the road, and she stays where she is until somebody decides"
                            .to_string()
                    }
                })
            }
            FindingState::Open => Some("nobody has decided".to_string()),
            FindingState::Decided => Some("decided, and no job is made".to_string()),
            FindingState::InWork => Some("in work".to_string()),
            FindingState::Carried => carried(book, rules, finding, on)?,
            FindingState::Closed => {
                let job = finding.job.and_then(|id| book.jobs.get(&id));
                let stale = job.and_then(|job| stale_signatures(book, job).into_iter().next());
                stale.map(|why| format!("put right, and {why}: it must be signed again"))
            }
        };
        // What a special notice holds is let go by the authority that gave it and by nothing we do.
        let state: Vec<_> = state.into_iter().chain(unlifted(finding, on)).collect();
        if state.is_empty() {
            continue;
        }
        let state = state.join("; ");
        stops.push(Stop {
            from: finding.found_on,
            what: Some(format!("finding F-{:03}", finding.number)),
            why: format!(
                "finding F-{:03}, {part}: {} ({state})",
                finding.number, finding.told
            ),
        });
    }
    for (report, told) in open_symptoms(book, engine) {
        let symptom = &told.symptom;
        let waits = match symptom.can_wait {
            Some(true) => "the crew says it can wait, and nobody has looked",
            Some(false) => "the crew says it cannot wait, and nobody has looked",
            None => "nobody has looked",
        };
        stops.push(Stop {
            from: report.on,
            what: Some(format!("write-up W-{:03}", told.number)),
            why: format!(
                "write-up W-{:03}, {}: {} ({waits})",
                told.number, symptom.place, symptom.what
            ),
        });
    }
    let mut inspections: Vec<_> = book
        .inspections
        .values()
        .filter(|i| i.locomotive == engine && i.is_open())
        .collect();
    inspections.sort_by_key(|i| i.number);
    for open in inspections {
        stops.push(Stop {
            from: open.opened_on,
            what: Some(format!("inspection I-{:03}", open.number)),
            why: format!("the {} inspection I-{:03} is open", open.kind, open.number),
        });
    }
    Ok(stops)
}

/// Where an engine went, or may go, since a finding on the road.
fn moved_since(book: &Book, engine: LocomotiveId, finding: &Finding) -> Option<String> {
    let moves = &book.locomotives.get(&engine)?.moves;
    let last = moves.iter().rfind(|made| made.on >= finding.found_on)?;
    let (from, to) = (&last.decided.from, &last.decided.to);
    Some(match &last.ended {
        None => format!(
            "that she is moved from {from} to {to} was decided on {}",
            last.on
        ),
        Some((_, told, day, _)) => format!("her move from {from} to {to} ended on {day}: {told}"),
    })
}

/// Why a carried finding stops her after all: its day to look again is past, or it no longer complies.
fn carried(
    book: &Book,
    rules: &Rulebook,
    finding: &Finding,
    on: Date,
) -> Result<Option<String>, Refusal> {
    let recheck = finding.decision.as_ref().and_then(|d| d.recheck);
    if recheck.is_none_or(|day| day < on) {
        return Ok(Some(
            "carried, and the day to look again is past".to_string(),
        ));
    }
    let part = part_of(book, finding.part)?;
    let question = Question {
        part,
        readings: &finding.readings,
        conditions: &finding.conditions,
        on: finding.found_on,
        house: house(book),
    };
    // An entry may have been put right since it was decided to carry it.
    Ok(match judge(book, rules, question)?.verdict {
        Verdict::Complies => None,
        other => Some(format!(
            "carried, but as the book stands now: {}",
            other.words()
        )),
    })
}

/// Whether a release stands on a day, and if not, why not.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Release {
    /// It stands: by whom, when, with the log closed through which day.
    Stands {
        /// Who released her.
        by: String,
        /// When.
        on: Date,
        /// The log was closed through this day.
        log_through: Date,
    },
    /// It does not stand.
    None(String),
}

/// The release of an engine as it stands on a day.
///
/// # Errors
/// As [`stops`].
pub fn release(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Release, Refusal> {
    let stopped = stops(book, rules, engine, on)?;
    release_with(book, engine, on, &stopped)
}

/// As [`release`], where what stops her is known already.
fn release_with(
    book: &Book,
    engine: LocomotiveId,
    on: Date,
    stopped: &[Stop],
) -> Result<Release, Refusal> {
    let kept = engine_of(book, engine)?;
    let Some(given) = &kept.released else {
        return Ok(Release::None(
            "she has not been released in this book".into(),
        ));
    };
    if on < given.on {
        return Ok(Release::None(format!(
            "she was released only on {}",
            given.on
        )));
    }
    if kept.unsettled > given.entry {
        return Ok(Release::None(format!(
            "work, a finding or a day of her clocks entered since ended the release of {}",
            given.on
        )));
    }
    if !stopped.is_empty() {
        return Ok(Release::None(format!(
            "what stops her ended the release of {}",
            given.on
        )));
    }
    let by = book
        .persons
        .get(&given.by)
        .map_or("?", |p| p.name.as_str())
        .to_string();
    Ok(Release::Stands {
        by,
        on: given.on,
        log_through: given.log_through,
    })
}
