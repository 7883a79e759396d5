//! Every day by which something must be done, of every engine, in one list: clocks, papers, carried findings.

use jiff::civil::Date;
use rules::{Rulebook, Ruling};

use super::look::{stopped_words, walked};
use super::suppose::spoken;
use crate::Refusal;
use crate::book::{Book, FindingState, LocomotiveId, PaperAbout};
use crate::clock::{Clock, PaperState, State, filings_of};

/// How a deadline stands. In the order in which it is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reach {
    /// Nobody can tell until something is stated.
    CannotTell,
    /// Its last day is past.
    Past,
    /// It is to come.
    Ahead,
    /// No day of the calendar and no promised run reaches it.
    NoDay,
}

/// What a deadline is of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DateOf {
    /// A clock.
    Clock(Box<Clock>),
    /// A paper.
    Paper,
    /// A carried finding is looked at again.
    Recheck,
}

/// One deadline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Deadline {
    /// Whose.
    pub engine: LocomotiveId,
    /// Her number.
    pub number: String,
    /// A name that stays the same as long as the thing does, however often its day moves.
    pub key: String,
    /// The last day in time, by the most counted.
    pub last: Option<Date>,
    /// The last day by the least counted, where that is a later one.
    pub at_the_utmost: Option<Date>,
    /// How it stands.
    pub reach: Reach,
    /// What must be done, in a few words.
    pub what: String,
    /// Why, in a sentence.
    pub why: String,
    /// The rule, where one asks for it.
    pub ruling: Option<Ruling>,
    /// The number of the finding it hangs on, if it does.
    pub finding: Option<u32>,
    /// What it is of.
    pub of: DateOf,
}

/// Every deadline of every engine, or of one: what cannot be told first, then what is past, then by day.
///
/// # Errors
/// Input: the day lies before a rulebook's coverage.
pub fn deadlines(
    book: &Book,
    rules: &Rulebook,
    on: Date,
    only: Option<LocomotiveId>,
) -> Result<Vec<Deadline>, Refusal> {
    let (mut all, mut papers) = (Vec::new(), Vec::new());
    for (engine, kept) in crate::locomotive::engines(book) {
        if only.is_some_and(|only| only != engine) {
            continue;
        }
        let walked = walked(book, rules, engine, on, &[])?;
        let today = walked.base.first().map_or(&[][..], |point| &point.clocks);
        papers.extend(filings_of(book, rules, engine, today, on)?);
        for course in walked.look.courses {
            let clock = &course.clock;
            let first = course.stopped.as_ref().map(|s| s.from);
            let last = first.and_then(|day| day.yesterday().ok());
            let reach = match (&clock.state, last) {
                (State::CannotTell(_), _) => Reach::CannotTell,
                (State::Stops, _) => Reach::Past,
                (_, Some(_)) => Reach::Ahead,
                (_, None) => Reach::NoDay,
            };
            let last = last.filter(|_| reach != Reach::CannotTell || clock.left.is_some());
            let utmost = course.stopped.as_ref().filter(|s| !s.certain);
            let utmost = utmost.and_then(|s| s.surely?.yesterday().ok());
            let ahead = match (&course.stopped, reach) {
                (Some(stopped), Reach::Ahead) => format!("; {}", stopped_words(Some(stopped))),
                _ => String::new(),
            };
            all.push(Deadline {
                engine,
                number: kept.number.clone(),
                key: format!(
                    "{}/{}/{}",
                    kept.number,
                    clock.ruling.rule,
                    clock.finding.map_or(String::new(), |n| format!("F-{n:03}"))
                ),
                last,
                at_the_utmost: utmost,
                reach,
                what: must(clock),
                why: format!("{}{ahead}", clock.why),
                ruling: Some(clock.ruling.clone()),
                finding: clock.finding,
                of: DateOf::Clock(Box::new(course.clock)),
            });
        }
        for finding in book.findings.values().filter(|f| f.locomotive == engine) {
            let recheck = finding.decision.as_ref().and_then(|d| d.recheck);
            let (FindingState::Carried, Some(day)) = (finding.state, recheck) else {
                continue;
            };
            all.push(Deadline {
                engine,
                number: kept.number.clone(),
                key: format!("{}/recheck/F-{:03}", kept.number, finding.number),
                last: Some(day),
                at_the_utmost: None,
                reach: if day < on { Reach::Past } else { Reach::Ahead },
                what: format!("look again at F-{:03}", finding.number),
                why: format!(
                    "F-{:03}, {}: carried, to be looked at again by {day}",
                    finding.number, finding.told
                ),
                ruling: None,
                finding: Some(finding.number),
                of: DateOf::Recheck,
            });
        }
    }
    for paper in papers {
        let Some(kept) = book.locomotives.get(&paper.engine) else {
            continue;
        };
        let number = kept.number.clone();
        let reach = match (paper.state, paper.by) {
            (PaperState::Done, _) => continue,
            (PaperState::Overdue, _) => Reach::Past,
            (PaperState::CannotTell, _) => Reach::CannotTell,
            (PaperState::Open, Some(_)) => Reach::Ahead,
            (PaperState::Open, None) => Reach::NoDay,
        };
        // A notice to come is named by its rule alone: the day it speaks of may move.
        let about = match &paper.about {
            Some(PaperAbout::Inspection { inspection }) => inspection.to_string(),
            Some(PaperAbout::Day { day }) if paper.told.starts_with("the year") => day.to_string(),
            Some(PaperAbout::Day { day }) if !paper.told.contains("to come") => day.to_string(),
            _ => String::new(),
        };
        all.push(Deadline {
            engine: paper.engine,
            key: format!("{number}/{}/{about}", paper.ruling.rule),
            number,
            last: paper.by,
            at_the_utmost: None,
            reach,
            what: paper.what.clone(),
            why: paper.why,
            ruling: Some(paper.ruling),
            finding: None,
            of: DateOf::Paper,
        });
    }
    all.sort_by(|a, b| {
        let day = |d: &Deadline| d.last.unwrap_or(Date::MAX);
        (a.reach, day(a), &a.number, &a.key).cmp(&(b.reach, day(b), &b.number, &b.key))
    });
    Ok(all)
}

/// What a clock asks for, in a few words.
fn must(clock: &Clock) -> String {
    let work = spoken(&clock.inspection);
    match clock.finding {
        Some(number) => format!("{work} of F-{number:03}"),
        None if !rules::words::is_work(&clock.inspection) => format!("{work} inspection"),
        None => work,
    }
}
