//! Days of the past on which an engine was in steam though something stopped her, as an entry made late now shows.
//!
//! Such an entry is true and stays. What it means is told to whoever enters it: nobody finds it by chance years later.

use std::collections::BTreeSet;

use jiff::civil::Date;
use rules::Rulebook;

use super::stops_with;
use crate::Refusal;
use crate::book::{Book, LocomotiveId, Statement};
use crate::clock::{State, due};

/// So many of her newest days in steam are looked at; a late line of a log of decades does not walk through all of it.
const MOST_DAYS: usize = 400;

/// A day she was in steam, and what stood against it that was not known before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ran {
    /// The day.
    pub day: Date,
    /// What stood against it: a clock by its title, a finding or a write-up by its number.
    pub against: Vec<String>,
}

/// Which engine a late entry speaks of, and from which day on it may change what stood against her: lines of her log,
/// findings, what a crew wrote up. Nothing for an entry that is about another thing.
pub fn reaches_back(statement: &Statement, done_on: Date) -> Option<(LocomotiveId, Date)> {
    match statement {
        Statement::FireLogged(it) => {
            let times = [it.lit, it.up, it.out, it.gone].into_iter().flatten();
            let first = times.map(|at| at.date()).min()?;
            Some((it.locomotive, first))
        }
        Statement::DayLogged(it) => Some((it.locomotive, it.day)),
        Statement::FindingRecorded(it) => Some((it.locomotive, done_on)),
        Statement::CrewReported(it) if !it.symptoms.is_empty() => Some((it.locomotive, done_on)),
        _ => None,
    }
}

/// Her days in steam from a day on and before today against which something stands in one book that did not in the
/// other: before and after an entry. A day that the entry first shows in steam is among them, a day in doubt is not.
///
/// # Errors
/// As [`due`].
pub fn ran_against(
    before: &Book,
    after: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    from: Date,
    today: Date,
) -> Result<Vec<Ran>, Refusal> {
    let Some(eve) = today.yesterday().ok().filter(|eve| *eve >= from) else {
        return Ok(Vec::new());
    };
    let days = after.logs.get(&engine);
    let days: Vec<Date> = days.map_or(Vec::new(), |log| {
        log.least.within(from, eve).iter().collect()
    });
    let mut ran = Vec::new();
    for day in days.iter().rev().take(MOST_DAYS).rev() {
        // A day that was not known to be one in steam had nothing standing against it.
        let steamed = before.logs.get(&engine);
        let known = match steamed.is_some_and(|log| log.least.contains(*day)) {
            true => against(before, rules, engine, *day)?,
            false => BTreeSet::new(),
        };
        let now = against(after, rules, engine, *day)?;
        let new: Vec<String> = now.difference(&known).cloned().collect();
        if !new.is_empty() {
            ran.push(Ran {
                day: *day,
                against: new,
            });
        }
    }
    Ok(ran)
}

/// What stood against her being in steam on a day. What was found or written up on the day itself came after she was
/// lit; an inspection that was open is not counted, since a daily is opened on the days she runs.
fn against(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    day: Date,
) -> Result<BTreeSet<String>, Refusal> {
    let clocks = due(book, rules, engine, day)?;
    let lapsed = clocks.iter().filter(|clock| clock.state == State::Stops);
    let mut all: BTreeSet<String> = lapsed.map(|clock| clock.ruling.title.clone()).collect();
    for stop in stops_with(book, rules, engine, day, &[])? {
        if stop.from < day && !stop.is_inspection() {
            all.extend(stop.what);
        }
    }
    Ok(all)
}
