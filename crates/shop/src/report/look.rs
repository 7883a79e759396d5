//! Looking ahead: the first day each clock stops an engine, which promised runs fall, the last good day to hold
//! what is due, which papers that brings, and what a supposed day changes.

use jiff::civil::Date;
use rules::{Rulebook, words};

use super::good::{Asker, Good};
use super::suppose::{Point, Standing, Suppose, Walk, spoken};
use crate::Refusal;
use crate::book::{Book, LocomotiveId, PaperAbout};
use crate::clock::{Clock, Paper, PaperState, State, due, filings};

/// From when a clock stops her.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stopped {
    /// The first day that it stops her or that cannot be told.
    pub from: Date,
    /// The first day that it stops her for certain, where that can be told.
    pub surely: Option<Date>,
    /// Whether the first of them is certain.
    pub certain: bool,
    /// Why, in a sentence.
    pub why: String,
}

/// A paper that a day in the future asks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The rule that asks for it, and its section.
    pub rule: String,
    /// Its section.
    pub section: String,
    /// The paper.
    pub what: String,
    /// What it is for: `the annual of 2026-09-19`.
    pub about: String,
    /// The last day in time.
    pub by: Option<Date>,
    /// Whether it has no day of its own and is due before she is used again.
    pub before_use: bool,
    /// Whether somebody said that it went.
    pub done: bool,
    /// Whether its last day is past today already.
    pub too_late: bool,
}

/// A clock and its course through the days to come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Course {
    /// As it stands on the day asked about.
    pub clock: Clock,
    /// From when it stops her; nothing where no promised run and no day of the calendar does.
    pub stopped: Option<Stopped>,
    /// The day on which what is supposed lets her go again, and from when it stops her after that.
    pub freed: Option<(Date, Option<Stopped>)>,
    /// The last good day to hold what it asks for; nothing where nothing is to be held by any day, or where what
    /// is supposed lets her go again.
    pub good: Option<Good>,
    /// What is left of it after the last run promised, by the most and by the least counted, in its unit.
    pub left_after: Option<(i64, i64)>,
}

/// A promised run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Train {
    /// The day.
    pub day: Date,
    /// What is promised.
    pub what: String,
    /// Whether it can be kept.
    pub standing: Standing,
    /// What is in its way, one line each.
    pub in_the_way: Vec<String>,
}

/// The days ahead of one engine, with what was supposed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Look {
    /// The day asked about.
    pub on: Date,
    /// What was supposed, in the order of its days.
    pub supposed: Vec<Suppose>,
    /// Every clock that is not due on each day of use.
    pub courses: Vec<Course>,
    /// Every promised run from the day on.
    pub trains: Vec<Train>,
    /// The papers that what is supposed held asks for.
    pub papers: Vec<Asked>,
    /// What the answer takes for granted, one line each.
    pub assumed: Vec<String>,
}

/// The days to come as they were walked, and what they come to.
pub(super) struct Walked {
    /// Every point, a doubtful run taken as doubtful.
    pub(super) base: Vec<Point>,
    /// The same with every doubtful run kept.
    pub(super) hopeful: Vec<Point>,
    /// What they come to, without the days on which things are best held.
    pub(super) look: Look,
}

/// The course of the clocks and the runs, without the days on which things are best held.
///
/// # Errors
/// Input: as [`due`]; a supposed day that is past, a thing that is not due on her, a finding that is not hers or
/// is put right.
pub fn courses(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
) -> Result<Look, Refusal> {
    Ok(walked(book, rules, engine, on, supposed)?.look)
}

/// Walks the days to come, once and once more in hope.
///
/// # Errors
/// As [`courses`].
pub(super) fn walked(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
) -> Result<Walked, Refusal> {
    let supposed = admitted(book, rules, engine, on, supposed)?;
    let mut walk = Walk::begin(book, rules, engine, on, &supposed)?;
    let points = walk.walk(&supposed, None)?;
    let hopeful = hopeful(book, rules, engine, on, &supposed, &points)?;
    let mut papers = Vec::new();
    for (at, one) in held(&supposed).enumerate() {
        if let Some(id) = walk.made.get(at) {
            papers.extend(papers_of(&walk, rules, *id, one, on)?);
        }
    }
    let mut courses = Vec::new();
    for clock in each_clock(&points) {
        courses.push(course(&points, &hopeful, clock));
    }
    // Where nothing that is supposed lets her go again, a clock that stops her by the least counted does so in
    // every case: either the runs before were kept, or she was stopped by then.
    let frees = |one: &Suppose| !matches!(one, Suppose::Run { .. });
    let sure = !supposed.iter().any(frees);
    let certain = |at: usize| hopeful.get(at).filter(|_| sure);
    let trains = points.iter().enumerate();
    let trains = trains.flat_map(|(at, point)| trains_of(point, certain(at)));
    let trains = trains.collect();
    let assumed = assumed(book, engine, on, &supposed);
    let look = Look {
        on,
        courses,
        trains,
        supposed,
        papers,
        assumed,
    };
    Ok(Walked {
        base: points,
        hopeful,
        look,
    })
}

/// The same walk with every doubtful run kept; the walk itself where nothing is in doubt.
fn hopeful(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
    points: &[Point],
) -> Result<Vec<Point>, Refusal> {
    let doubtful = |point: &Point| point.by_clocks() == Standing::CannotTell;
    if !points.iter().any(doubtful) {
        return Ok(points.to_vec());
    }
    let mut walk = Walk::begin(book, rules, engine, on, supposed)?.hopefully();
    walk.walk(supposed, None)
}

/// Looks ahead from a day: as [`courses`], with the last good day of everything that is to be held.
///
/// # Errors
/// As [`courses`].
pub fn look(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
) -> Result<Look, Refusal> {
    let Walked {
        base,
        hopeful,
        mut look,
    } = walked(book, rules, engine, on, supposed)?;
    let supposed = look.supposed.clone();
    let asker = Asker {
        book,
        rules,
        engine,
        on,
        supposed: &supposed,
        base: &base,
        hopeful: &hopeful,
    };
    for course in &mut look.courses {
        course.good = asker.good(course)?;
    }
    Ok(look)
}

/// What is supposed, checked and in the order of its days.
fn admitted(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    supposed: &[Suppose],
) -> Result<Vec<Suppose>, Refusal> {
    let mut admitted = supposed.to_vec();
    if admitted.is_empty() {
        return Ok(admitted);
    }
    let clocks = due(book, rules, engine, on)?;
    let known: Vec<&str> = clocks
        .iter()
        .filter(|c| c.state != State::EachDay && c.finding.is_none())
        .map(|c| c.inspection.as_str())
        .collect();
    for one in &admitted {
        if one.on() < on {
            return Err(Refusal::input(format!(
                "{} is supposed on {}, which is before {on}: a day from {on} on was expected. What has been done is \
                 entered, not supposed.",
                one.what(),
                one.on()
            )));
        }
        match one {
            Suppose::Held { what, .. } if !known.contains(&what.as_str()) => {
                return Err(Refusal::input(format!(
                    "`{what}` is not due on her: {} or a finding of hers, such as F-004, were expected.",
                    known.join(", ")
                )));
            }
            Suppose::PutRight { finding, .. } => {
                let hers =
                    |f: &&crate::book::Finding| f.number == *finding && f.locomotive == engine;
                let kept = book.findings.values().find(hers).ok_or_else(|| {
                    Refusal::input(format!(
                        "F-{finding:03} is not a finding of this engine: a finding of hers that is not put right \
                         was expected."
                    ))
                })?;
                if kept.state == crate::book::FindingState::Closed {
                    return Err(Refusal::input(format!(
                        "F-{finding:03} is put right already."
                    )));
                }
            }
            Suppose::Run { what, .. } if what.trim().is_empty() => {
                return Err(Refusal::input(
                    "A supposed run needs a word for what it is.",
                ));
            }
            _ => {}
        }
    }
    admitted.sort_by_key(Suppose::on);
    admitted.dedup();
    Ok(admitted)
}

/// The inspections among what is supposed, in the order in which a walk holds them.
fn held(supposed: &[Suppose]) -> impl Iterator<Item = &Suppose> {
    supposed
        .iter()
        .filter(|one| matches!(one, Suppose::Held { what, .. } if !words::is_work(what)))
}

/// The papers an inspection supposed held asks for, as they stand on the day asked about.
pub(super) fn papers_of(
    walk: &Walk<'_>,
    rules: &Rulebook,
    id: crate::book::InspectionId,
    one: &Suppose,
    on: Date,
) -> Result<Vec<Asked>, Refusal> {
    let about = PaperAbout::Inspection { inspection: id };
    let all = filings(walk.copy(), rules, one.on())?;
    let hers = all.into_iter().filter(|p| p.about.as_ref() == Some(&about));
    Ok(hers.map(|paper| asked(paper, one, on)).collect())
}

fn asked(paper: Paper, one: &Suppose, on: Date) -> Asked {
    let done = paper.state == PaperState::Done;
    Asked {
        rule: paper.ruling.rule.clone(),
        section: paper.ruling.cite.section.clone(),
        what: paper.what,
        about: format!("{} of {}", one.what(), one.on()),
        by: paper.by,
        before_use: paper.by.is_none() && paper.state == PaperState::Open,
        done,
        too_late: !done && paper.by.is_some_and(|by| by < on),
    }
}

/// Every clock of a walk once, as it stood when it was first seen.
fn each_clock(points: &[Point]) -> Vec<&Clock> {
    let mut all: Vec<&Clock> = Vec::new();
    for clock in points.iter().flat_map(|point| &point.clocks) {
        if clock.state != State::EachDay && !all.iter().any(|known| is_same(known, clock)) {
            all.push(clock);
        }
    }
    all
}

fn is_same(a: &Clock, b: &Clock) -> bool {
    a.ruling.rule == b.ruling.rule && a.finding == b.finding
}

/// A clock at a point.
pub(super) fn at<'p>(point: &'p Point, clock: &Clock) -> Option<&'p Clock> {
    point.clocks.iter().find(|other| is_same(other, clock))
}

/// Whether a clock stops her on its day, for certain or perhaps.
pub(super) fn holds_her(clock: &Clock) -> bool {
    matches!(clock.state, State::Stops | State::CannotTell(_))
}

/// Whether the day a clock names is the same by the least counted.
fn is_certain(clock: &Clock, day: Date) -> bool {
    let mut arms = clock.arms.iter();
    arms.any(|arm| arm.stops_on == Some(day) && Some(arm.counted.least) == arm.counted.most)
}

fn course(points: &[Point], hopeful: &[Point], clock: &Clock) -> Course {
    fn days_of<'p>(points: &'p [Point], clock: &Clock) -> Vec<(Date, &'p Clock)> {
        let there = |point: &'p Point| Some((point.day, at(point, clock)?));
        points.iter().filter_map(there).collect()
    }
    let seen = days_of(points, clock);
    let hoped = days_of(hopeful, clock);
    let first = seen.iter().position(|(_, clock)| holds_her(clock));
    let free_again = first.and_then(|first| {
        let mut after = seen.iter().enumerate().skip(first);
        after
            .find(|(_, (_, clock))| !holds_her(clock))
            .map(|(at, _)| at)
    });
    let day_of = |at: usize| seen.get(at).map_or(Date::MAX, |(day, _)| *day);
    let stopped = match free_again {
        // Its stop ends on a supposed day: what comes after that day is told apart.
        Some(at) => {
            let until =
                |days: &[(Date, &Clock)]| days.iter().take_while(|(d, _)| *d < day_of(at)).count();
            let before = seen.get(..until(&seen)).unwrap_or_default();
            let hoped = hoped.get(..until(&hoped)).unwrap_or_default();
            first_stop(before, hoped, clock)
        }
        None => first_stop(&seen, &hoped, clock),
    };
    let freed = free_again.map(|at| {
        let from = hoped
            .iter()
            .take_while(|(day, _)| *day < day_of(at))
            .count();
        let after = seen.get(at..).unwrap_or_default();
        let hoped = hoped.get(from..).unwrap_or_default();
        let next = after
            .first()
            .and_then(|(_, now)| first_stop(after, hoped, now));
        (day_of(at), next)
    });
    let left_after = seen.last().and_then(|(_, last)| {
        let most = last.left?;
        let doubt = last.counted.most?.saturating_sub(last.counted.least);
        Some((most, most + i64::from(doubt)))
    });
    Course {
        clock: clock.clone(),
        stopped,
        freed,
        good: None,
        left_after,
    }
}

/// From when a clock stops her, of the days seen and of the same days in the hopeful walk.
fn first_stop(seen: &[(Date, &Clock)], hoped: &[(Date, &Clock)], clock: &Clock) -> Option<Stopped> {
    // The day between two points on which the calendar ran out, as the earlier one announced it.
    let began = |seen: &[(Date, &Clock)], at: usize, day: Date| {
        let before = at.checked_sub(1).and_then(|before| seen.get(before));
        let before = before.filter(|(_, before)| !holds_her(before));
        let announced = before.and_then(|(_, before)| before.stops_on);
        announced.filter(|stop| *stop <= day).unwrap_or(day)
    };
    let first = seen.iter().position(|(_, clock)| holds_her(clock));
    let surely = hoped
        .iter()
        .position(|(_, clock)| clock.state == State::Stops);
    match first.and_then(|at| Some((at, seen.get(at)?))) {
        Some((at, (day, there))) => {
            let from = match at {
                0 => there.stops_on.unwrap_or(*day),
                _ => began(seen, at, *day),
            };
            let certain = there.state == State::Stops;
            let why = match (&there.state, there.counted.most) {
                (State::CannotTell(_), Some(most)) if at > 0 => {
                    let settle: Vec<_> = clock
                        .would_change
                        .iter()
                        .filter(|line| !line.starts_with("holding") && !line.starts_with("doing"))
                        .map(String::as_str)
                        .collect();
                    let settle = if settle.is_empty() {
                        String::new()
                    } else {
                        format!(": needs {}", settle.join("; "))
                    };
                    format!(
                        "cannot tell{settle}; at least {} and at most {most} {} by then, {} allowed",
                        there.counted.least, there.unit, there.limit
                    )
                }
                _ => there.why.clone(),
            };
            let surely = if certain {
                Some(from)
            } else {
                surely.and_then(|at| Some(began(hoped, at, hoped.get(at)?.0)))
            };
            Some(Stopped {
                from,
                surely,
                certain,
                why,
            })
        }
        None => seen.last().and_then(|(_, last)| {
            let from = last.stops_on?;
            let certain = is_certain(last, from);
            Some(Stopped {
                from,
                surely: certain.then_some(from),
                certain,
                // As it is told today, where its day has not moved since.
                why: if clock.stops_on == Some(from) {
                    clock.why.clone()
                } else {
                    last.why.clone()
                },
            })
        }),
    }
}

/// The runs of a day. Where a clock cannot be told there and stops her in the hopeful walk, it stops her.
fn trains_of(point: &Point, hopeful: Option<&Point>) -> Vec<Train> {
    let mut in_the_way = Vec::new();
    let mut standing = point.by_clocks();
    for clock in &point.clocks {
        let hoped = hopeful.and_then(|point| at(point, clock));
        let state = match hoped.map(|hoped| &hoped.state) {
            Some(State::Stops) if holds_her(clock) => &State::Stops,
            _ => &clock.state,
        };
        if *state == State::Stops {
            standing = Standing::Falls;
        }
        match state {
            State::Stops => in_the_way.push(format!("{} first", clock.must())),
            State::CannotTell(_) => {
                in_the_way.push(format!("cannot tell whether {} first", clock.must()));
            }
            State::Runs | State::EachDay => {}
        }
    }
    if !point.in_shop.is_empty() {
        in_the_way.push(format!(
            "cannot tell: {} on the same day, and which comes first is not known",
            point.in_shop.join(" and ")
        ));
    }
    if !point.unsettled.is_empty() {
        let verb = if point.unsettled.len() == 1 {
            "is"
        } else {
            "are"
        };
        in_the_way.push(format!("{} {verb} not settled", point.unsettled.join(", ")));
        standing = Standing::Falls;
    }
    let train = |what: &String| Train {
        day: point.day,
        what: what.clone(),
        standing,
        in_the_way: in_the_way.clone(),
    };
    point.runs.iter().map(train).collect()
}

fn assumed(book: &Book, engine: LocomotiveId, on: Date, supposed: &[Suppose]) -> Vec<String> {
    let mut lines = vec![
        "each promised run is kept unless a clock stops it, and makes one service day; a fire lit the evening before \
         or banked past midnight makes another, which is not counted here"
            .to_string(),
        format!("from {on} on, days without a promised run are taken as cold"),
    ];
    let open = |kind: &str| {
        let mut all = book.inspections.values();
        all.find(|i| i.locomotive == engine && i.kind == kind && i.is_open())
    };
    for one in supposed {
        if let Suppose::Held { what, on } = one {
            match open(what) {
                Some(open) => lines.push(format!(
                    "the {what} I-{:03}, which is open, is closed on {on} with every item good",
                    open.number
                )),
                None if !words::is_work(what) => {
                    lines.push(format!(
                        "the {what} begins and closes on {on}, with every item good"
                    ));
                }
                None => lines.push(format!("the {} is done on {on}", spoken(what))),
            }
        }
    }
    lines
}

/// What a supposed day changed: one line a run and a clock, with what was and what would be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// The run or the clock.
    pub what: String,
    /// How it stands as the book is.
    pub before: String,
    /// How it would stand.
    pub after: String,
    /// Whether it is a run.
    pub is_run: bool,
}

/// Every run and clock that stands otherwise with what is supposed than without.
pub fn changes(before: &Look, after: &Look) -> Vec<Change> {
    let mut changes = Vec::new();
    for train in &after.trains {
        let same = |t: &&Train| t.day == train.day && t.what == train.what;
        let was = before.trains.iter().find(same);
        if was.is_none_or(|was| was.in_the_way != train.in_the_way) {
            changes.push(Change {
                what: format!("{}, {}", train.day, train.what),
                before: was.map_or("not promised".into(), train_words),
                after: train_words(train),
                is_run: true,
            });
        }
    }
    for course in &after.courses {
        let was = before
            .courses
            .iter()
            .find(|c| is_same(&c.clock, &course.clock));
        let told = course_words;
        if was.is_some_and(|was| told(was) != told(course)) {
            changes.push(Change {
                what: format!("the {} clock", spoken(&course.clock.inspection)),
                before: was.map_or(String::new(), course_words),
                after: course_words(course),
                is_run: false,
            });
        }
    }
    changes
}

/// How a run stands, in words.
pub fn train_words(train: &Train) -> String {
    match train.standing {
        Standing::Clear => "nothing in this book stops her".into(),
        Standing::CannotTell | Standing::Falls => train.in_the_way.join("; "),
    }
}

/// From when a clock stops her, in words, and what comes after what is supposed lets her go.
pub fn course_words(course: &Course) -> String {
    let mut words = stopped_words(course.stopped.as_ref());
    if let Some((day, next)) = &course.freed {
        words.push_str(&format!(", until {day}; after that "));
        words.push_str(&stopped_words(next.as_ref()));
    }
    words
}

/// From when a clock stops her, in words: both days where least and most differ.
pub fn stopped_words(stopped: Option<&Stopped>) -> String {
    match stopped {
        None => "stops no promised run".into(),
        Some(s) if s.certain => format!("stops her from {}", s.from),
        Some(s) => match s.surely {
            Some(day) => format!(
                "may stop her from {}, stops her for certain from {day}",
                s.from
            ),
            None => format!(
                "may stop her from {}; for certain on no promised run",
                s.from
            ),
        },
    }
}
