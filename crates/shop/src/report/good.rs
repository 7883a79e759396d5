//! The last good day to hold what a clock asks for, so that no promised run falls.

use jiff::civil::Date;
use rules::{Rulebook, words};

use super::look::{Asked, Course, Stopped, at, holds_her, papers_of};
use super::suppose::{Point, Suppose, Walk, spoken};
use crate::Refusal;
use crate::book::{Book, LocomotiveId};
use crate::clock::{Clock, State};

/// The last day on which what a clock asks for can be held so that it stops no promised run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Good {
    /// What is to be held or done: as the clock calls it, or a larger inspection that must take its place.
    pub hold: String,
    /// The last good day; nothing where none is left, or where holding it does not help.
    pub last: Option<Date>,
    /// The last day before a run that it would stop for certain, where that is a later one.
    pub at_the_utmost: Option<Date>,
    /// The first promised run in question.
    pub run: Option<(Date, String)>,
    /// In a sentence.
    pub why: String,
    /// The papers that holding it on the last good day asks for, with their days.
    pub papers: Vec<Asked>,
}

/// Who asks for the last good day of a clock.
pub(super) struct Asker<'a> {
    pub(super) book: &'a Book,
    pub(super) rules: &'a Rulebook,
    pub(super) engine: LocomotiveId,
    pub(super) on: Date,
    pub(super) supposed: &'a [Suppose],
    pub(super) base: &'a [Point],
    /// The same with every doubtful run kept.
    pub(super) hopeful: &'a [Point],
}

impl Asker<'_> {
    /// The last good day of a clock; nothing where it stops her on no day.
    pub(super) fn good(&self, course: &Course) -> Result<Option<Good>, Refusal> {
        let Some(stopped) = &course.stopped else {
            return Ok(None);
        };
        if course.freed.is_some() {
            return Ok(None);
        }
        let clock = &course.clock;
        fn first_run<'p>(
            points: &'p [Point],
            clock: &Clock,
            wanted: fn(&Clock) -> bool,
        ) -> Option<&'p Point> {
            let mut runs = points.iter().filter(|point| !point.runs.is_empty());
            runs.find(|point| at(point, clock).is_some_and(wanted))
        }
        let Some(first) = first_run(self.base, clock, holds_her) else {
            return Ok(self.by_calendar(clock, stopped));
        };
        let told = (first.day, first.runs.join(", "));
        let utmost = first_run(self.hopeful, clock, |clock| clock.state == State::Stops);
        let utmost = utmost.filter(|point| point.day > first.day);
        let at_the_utmost = utmost.and_then(|point| self.free_day_before(point.day));
        let calls_for = spoken(&clock.inspection);
        let Some(last) = self.free_day_before(first.day) else {
            return Ok(Some(Good {
                hold: clock.inspection.clone(),
                last: None,
                at_the_utmost,
                why: format!(
                    "no day without a run is left before the run of {} to hold the {calls_for} on",
                    first.day
                ),
                run: Some(told),
                papers: Vec::new(),
            }));
        };
        for one in self.ways(clock, last) {
            let (points, walk) = self.walked(&one, first.day)?;
            let there = points.iter().find(|point| point.day == first.day);
            if !there.is_some_and(|there| self.helps(clock, first, there)) {
                continue;
            }
            let mut papers = Vec::new();
            if let (Some(id), Suppose::Held { .. }) = (walk.made.last(), &one) {
                papers = papers_of(&walk, self.rules, *id, &one, self.on)?;
            }
            let hold = match &one {
                Suppose::Held { what, .. } => what.clone(),
                other => other.what(),
            };
            let done = one.what();
            let instead = if hold == clock.inspection || clock.finding.is_some() {
                String::new()
            } else {
                format!("; the {calls_for} must be held as part of {done}")
            };
            return Ok(Some(Good {
                why: format!(
                    "with {done} on {last} at the latest the {calls_for} clock stops no run through {}{instead}",
                    first.day
                ),
                hold,
                last: Some(last),
                at_the_utmost,
                run: Some(told),
                papers,
            }));
        }
        let needs = match &clock.state {
            State::CannotTell(needs) => format!("cannot tell: needs {}", needs.join("; ")),
            _ => format!(
                "holding the {calls_for} alone does not help: {}",
                stopped.why
            ),
        };
        Ok(Some(Good {
            hold: clock.inspection.clone(),
            last: None,
            at_the_utmost: None,
            why: needs,
            run: Some(told),
            papers: Vec::new(),
        }))
    }

    /// Where no promised run is in question: the day before the calendar stops her.
    fn by_calendar(&self, clock: &Clock, stopped: &Stopped) -> Option<Good> {
        let last = stopped.from.yesterday().ok()?;
        let (last, why) = if last < self.on {
            (
                None,
                "it is past; no run is promised, and she is not used until it is held".to_string(),
            )
        } else {
            (
                Some(last),
                format!("no promised run is in question; the day after {last} stops her"),
            )
        };
        Some(Good {
            hold: clock.inspection.clone(),
            last,
            at_the_utmost: stopped
                .surely
                .filter(|day| *day > stopped.from)
                .and_then(|day| day.yesterday().ok()),
            run: None,
            why,
            papers: Vec::new(),
        })
    }

    /// The last day before another on which nothing is promised, from today on.
    fn free_day_before(&self, day: Date) -> Option<Date> {
        let promised = |day: Date| {
            let mut points = self.base.iter();
            points.any(|point| point.day == day && !point.runs.is_empty())
        };
        let mut last = day.yesterday().ok()?;
        while last >= self.on {
            if !promised(last) {
                return Some(last);
            }
            last = last.yesterday().ok()?;
        }
        None
    }

    /// What may be held to satisfy a clock, the smallest first.
    fn ways(&self, clock: &Clock, on: Date) -> Vec<Suppose> {
        if let Some(finding) = clock.finding {
            return vec![Suppose::PutRight { finding, on }];
        }
        let mut ways = vec![clock.inspection.clone()];
        if words::rank(&clock.inspection).is_some() {
            let larger = words::INSPECTIONS.iter().chain(words::DIESEL_INSPECTIONS);
            let larger = larger.map(|(word, _)| (*word).to_string());
            ways.extend(larger.filter(|word| {
                *word != clock.inspection && words::contains(word, &clock.inspection)
            }));
        }
        let due = |way: &String| {
            let clocks = self.base.first().into_iter().flat_map(|p| &p.clocks);
            let mut clocks = clocks.filter(|c| c.state != State::EachDay);
            clocks.any(|c| c.inspection == *way)
        };
        let ways = ways.into_iter().filter(due);
        ways.map(|what| Suppose::Held { what, on }).collect()
    }

    /// The days to come with one thing more supposed, up to a day.
    fn walked(&self, one: &Suppose, until: Date) -> Result<(Vec<Point>, Walk<'_>), Refusal> {
        let mut all = self.supposed.to_vec();
        all.push(one.clone());
        all.sort_by_key(Suppose::on);
        let mut walk = Walk::begin(self.book, self.rules, self.engine, self.on, &all)?;
        let points = walk.walk(&all, Some(until))?;
        Ok((points, walk))
    }

    /// Whether a clock no longer holds her at a point, and no other clock came to hold her there instead.
    fn helps(&self, clock: &Clock, before: &Point, after: &Point) -> bool {
        let free = at(after, clock).is_none_or(|clock| !holds_her(clock));
        let worse = after.clocks.iter().any(|other| {
            holds_her(other) && at(before, other).is_none_or(|before| !holds_her(before))
        });
        free && !worse
    }
}
