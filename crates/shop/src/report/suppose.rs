//! What if: an inspection supposed held on a day to come, a finding supposed put right, a run supposed promised.
//!
//! All of it happens in a copy of what concerns one engine. The days to come are walked one promised run after
//! the other, and each is asked the same question that is asked of today ([`due`]); no clock is reckoned anew here.

use std::collections::BTreeSet;

use jiff::civil::Date;
use rules::{Rulebook, words};

use super::{Stop, stops_with};
use crate::Refusal;
use crate::book::{
    Answer, AnswerGiven, Book, DayStated, FindingState, Fires, Inspection, InspectionId,
    Locomotive, LocomotiveId, PersonId, Promise, Readings, RunId, days_of_fire,
};
use crate::clock::{Clock, State, due};
use crate::inspection::items;
use crate::locomotive::engine_of;

/// One thing supposed.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Suppose {
    /// An inspection held and closed, or work with a clock of its own done, on one day.
    Held {
        /// The inspection or the work, as her clocks call it: `31`, `air-brake-valves`.
        what: String,
        /// The day.
        on: Date,
    },
    /// A finding put right and its job closed.
    PutRight {
        /// Its number.
        finding: u32,
        /// The day.
        on: Date,
    },
    /// A run promised.
    Run {
        /// The day.
        on: Date,
        /// What is promised.
        what: String,
    },
}

impl Suppose {
    /// The day it falls on.
    pub fn on(&self) -> Date {
        match self {
            Suppose::Held { on, .. } | Suppose::PutRight { on, .. } | Suppose::Run { on, .. } => {
                *on
            }
        }
    }

    /// What it is, as a shop says it, without its day: `the 31`, `F-004`, `a run, charter`.
    pub fn what(&self) -> String {
        match self {
            Suppose::Held { what, .. } => format!("the {}", spoken(what)),
            Suppose::PutRight { finding, .. } => format!("F-{finding:03}"),
            Suppose::Run { what, .. } => format!("a run, {what}"),
        }
    }
}

/// An inspection or a work as a shop says it.
pub(super) fn spoken(work: &str) -> String {
    if words::is_work(work) {
        work.replace('-', " ")
    } else {
        work.to_string()
    }
}

/// One day of the walk: today, a day with a run, a day on which something is supposed.
#[derive(Debug, Clone)]
pub(super) struct Point {
    pub(super) day: Date,
    /// Every clock on the morning of that day, with what is supposed of the day done.
    pub(super) clocks: Vec<Clock>,
    /// What is not settled: findings and inspections by their numbers.
    pub(super) unsettled: Vec<String>,
    /// What is promised on it.
    pub(super) runs: Vec<String>,
    /// What is supposed done on it.
    pub(super) in_shop: Vec<String>,
}

/// Whether a run can be kept, as far as the clocks of the book tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Nothing in this book stops her.
    Clear,
    /// It cannot be told whether something does.
    CannotTell,
    /// Something does.
    Falls,
}

impl Point {
    /// How the clocks alone let the runs of the day stand.
    pub(super) fn by_clocks(&self) -> Standing {
        let by_state = |clock: &Clock| match clock.state {
            State::Stops => Standing::Falls,
            State::CannotTell(_) => Standing::CannotTell,
            State::Runs | State::EachDay => Standing::Clear,
        };
        let in_shop = if self.in_shop.is_empty() {
            Standing::Clear
        } else {
            Standing::CannotTell
        };
        self.clocks.iter().map(by_state).fold(in_shop, Ord::max)
    }
}

/// A walk through the days to come, in a copy.
pub(super) struct Walk<'r> {
    copy: Book,
    rules: &'r Rulebook,
    engine: LocomotiveId,
    /// The day the book stands at.
    on: Date,
    /// Whether a run of which it cannot be told that it is kept is taken as kept.
    hopeful: bool,
    /// The inspections supposed held, in the order they were.
    pub(super) made: Vec<InspectionId>,
}

/// The part of a book that concerns one engine. Every kind of thing is named: one that was left out would be missing
/// in the days to come, and what is missing stops nothing there.
fn of_one(book: &Book, engine: LocomotiveId, kept: &Locomotive) -> Book {
    let findings: std::collections::BTreeMap<_, _> = book
        .findings
        .iter()
        .filter(|(_, f)| f.locomotive == engine)
        .map(|(id, f)| (*id, f.clone()))
        .collect();
    let touched: BTreeSet<_> = findings.values().map(|f| f.part).collect();
    Book {
        shop: book.shop.clone(),
        families: book.families.clone(),
        rule_sets: book.rule_sets.clone(),
        // Who held a rule against the law's text starts and stops no clock.
        rules_held: Default::default(),
        persons: book.persons.clone(),
        locomotives: [(engine, kept.clone())].into(),
        parts: (book.parts.iter())
            .filter(|(id, _)| touched.contains(id))
            .map(|(id, part)| (*id, part.clone()))
            .collect(),
        readings: Readings::none_asked(),
        tooling: Default::default(),
        instruments: Default::default(),
        spares: Default::default(),
        lathes: Default::default(),
        cards: Default::default(),
        letters: Default::default(),
        photos: Default::default(),
        fires: Fires::none_asked(),
        logs: (book.logs.get(&engine).cloned().into_iter())
            .map(|log| (engine, log))
            .collect(),
        // What her boiler would bear starts and stops no clock.
        boilers: Default::default(),
        inspections: (book.inspections.iter())
            .filter(|(_, i)| i.locomotive == engine)
            .map(|(id, i)| (*id, i.clone()))
            .collect(),
        reports: (book.reports.iter())
            .filter(|(_, r)| r.locomotive == engine)
            .map(|(id, r)| (*id, r.clone()))
            .collect(),
        findings,
        jobs: (book.jobs.iter())
            .filter(|(_, j)| j.locomotive == engine)
            .map(|(id, j)| (*id, j.clone()))
            .collect(),
    }
}

impl<'r> Walk<'r> {
    /// Begins on the day the book stands at.
    pub(super) fn begin(
        book: &Book,
        rules: &'r Rulebook,
        engine: LocomotiveId,
        on: Date,
        supposed: &[Suppose],
    ) -> Result<Walk<'r>, Refusal> {
        let kept = engine_of(book, engine)?;
        let mut walk = Walk {
            copy: of_one(book, engine, kept),
            rules,
            engine,
            on,
            hopeful: false,
            made: Vec::new(),
        };
        if let Some(kept) = walk.copy.locomotives.get_mut(&engine) {
            for (at, one) in supposed.iter().enumerate() {
                if let Suppose::Run { on, what } = one {
                    let id = RunId(u128::MAX.wrapping_sub(at as u128));
                    kept.promises.push(Promise {
                        id,
                        day: *on,
                        what: what.clone(),
                    });
                }
            }
            kept.promises.sort_by_key(|promise| promise.day);
        }
        Ok(walk)
    }

    /// Takes a run of which it cannot be told that it is kept as kept: where the least counted stops her even so,
    /// she stops for certain, for she was either kept running until then or had been stopped before.
    pub(super) fn hopefully(mut self) -> Self {
        self.hopeful = true;
        self
    }

    /// Walks to the last promised run or supposed day, or to `until`, and says how each day stood.
    pub(super) fn walk(
        &mut self,
        supposed: &[Suppose],
        until: Option<Date>,
    ) -> Result<Vec<Point>, Refusal> {
        let promises: Vec<(Date, String)> = self
            .copy
            .locomotives
            .get(&self.engine)
            .into_iter()
            .flat_map(|kept| &kept.promises)
            .filter(|promise| promise.day >= self.on)
            .map(|promise| (promise.day, promise.what.clone()))
            .collect();
        let mut days: BTreeSet<Date> = promises.iter().map(|(day, _)| *day).collect();
        days.extend(supposed.iter().map(Suppose::on));
        // The eve shows what had run out by then.
        let eves = supposed.iter().filter_map(|one| one.on().yesterday().ok());
        days.extend(eves.filter(|eve| *eve > self.on));
        days.insert(self.on);
        let mut points: Vec<Point> = Vec::new();
        for day in days {
            if until.is_some_and(|until| day > until) {
                break;
            }
            if let Some(before) = points.last() {
                self.let_pass(before, day);
            }
            let mut in_shop = Vec::new();
            for one in supposed.iter().filter(|one| one.on() == day) {
                if self.take(one)? {
                    in_shop.push(one.what());
                }
            }
            let clocks = due(&self.copy, self.rules, self.engine, day)?;
            let stops = stops_with(&self.copy, self.rules, self.engine, day, &clocks)?;
            let runs: Vec<String> = promises
                .iter()
                .filter(|(promised, _)| *promised == day)
                .map(|(_, what)| what.clone())
                .collect();
            points.push(Point {
                day,
                clocks,
                unsettled: stops
                    .into_iter()
                    .filter_map(|stop: Stop| stop.what)
                    .collect(),
                runs,
                in_shop,
            });
        }
        Ok(points)
    }

    /// Lets the days from a point up to, and without, `day` pass: the runs of the point are kept unless a clock
    /// stops them, and no other day is steamed.
    fn let_pass(&mut self, before: &Point, day: Date) {
        let (engine, on) = (self.engine, self.on);
        let log = self.copy.logs.entry(engine).or_default();
        // What may be burning today is out by tonight: days without a run are taken as cold.
        for fire in std::mem::take(&mut log.unended).into_values() {
            let days = days_of_fire(&fire, on);
            log.least.add(&days.least);
            log.most.add(&days.most);
        }
        if !before.runs.is_empty() {
            let same_day = !before.in_shop.is_empty();
            match before.by_clocks() {
                Standing::CannotTell if self.hopeful && !same_day => {
                    log.least.insert(before.day);
                    log.most.insert(before.day);
                }
                Standing::Clear => {
                    log.least.insert(before.day);
                    log.most.insert(before.day);
                }
                Standing::CannotTell => log.most.insert(before.day),
                Standing::Falls => {}
            }
        }
        if let (Some(kept), Ok(through)) = (self.copy.locomotives.get_mut(&engine), day.yesterday())
            && through >= on
        {
            kept.close_log(on, through);
        }
    }

    /// Takes one thing supposed as done; says whether it puts her in the shop for the day.
    fn take(&mut self, one: &Suppose) -> Result<bool, Refusal> {
        match one {
            Suppose::Run { .. } => Ok(false),
            Suppose::PutRight { finding, .. } => {
                for kept in self.copy.findings.values_mut() {
                    if kept.number == *finding {
                        kept.state = FindingState::Closed;
                        kept.job = None;
                    }
                }
                Ok(true)
            }
            Suppose::Held { what, on } if !words::is_work(what) => {
                self.hold(what, *on)?;
                Ok(true)
            }
            Suppose::Held { what, on } => {
                if let Some(kept) = self.copy.locomotives.get_mut(&self.engine) {
                    kept.days.push(DayStated {
                        locomotive: self.engine,
                        what: what.clone(),
                        day: *on,
                        service_days_since: None,
                        annuals_since: None,
                        inspection: None,
                        document: "supposed".into(),
                    });
                }
                Ok(true)
            }
        }
    }

    /// Holds an inspection on one day: the one of its kind that is open, or a new one, with every item good.
    fn hold(&mut self, kind: &str, on: Date) -> Result<(), Refusal> {
        let nobody = PersonId(0);
        let engine = self.engine;
        let open = self
            .copy
            .inspections
            .iter()
            .find(|(_, i)| i.locomotive == engine && i.kind == kind && i.is_open())
            .map(|(id, _)| *id);
        let id = match open {
            Some(id) => id,
            None => {
                let kept = engine_of(&self.copy, engine)?;
                let asked = items(
                    &crate::locomotive::Law::of(&self.copy, self.rules, kept),
                    kind,
                    on,
                )?;
                let id = InspectionId(u128::MAX.wrapping_sub(self.made.len() as u128));
                let number = self.copy.inspections.values().map(|i| i.number).max();
                self.copy.inspections.insert(
                    id,
                    Inspection {
                        number: number.unwrap_or(0).saturating_add(1),
                        locomotive: engine,
                        kind: kind.into(),
                        opened_on: on,
                        opened_by: nobody,
                        items: asked,
                        answers: Default::default(),
                        closed: None,
                        made: None,
                        not_completed: None,
                        anchor: None,
                        last: 0,
                    },
                );
                id
            }
        };
        if let Some(held) = self.copy.inspections.get_mut(&id) {
            for item in &held.items {
                held.answers
                    .entry(item.rule.clone())
                    .or_insert_with(|| AnswerGiven {
                        answer: Answer::Good,
                        seen: String::new(),
                        condition: None,
                        by: nobody,
                        on,
                    });
            }
            held.closed = Some((on, nobody));
        }
        self.made.push(id);
        Ok(())
    }

    /// The copy, as it stands.
    pub(super) fn copy(&self) -> &Book {
        &self.copy
    }
}
