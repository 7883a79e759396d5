//! Every clock of an engine on a day: what was counted, what is left, when it stops her, and why.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use jiff::civil::Date;
use rules::{Body, CountUnit, Rulebook, Ruling, Span, WhicheverFirst};

use crate::Refusal;
use crate::book::{Book, DaySet, Locomotive, LocomotiveId};
use crate::clock::service_day::service_days;

/// What a clock runs from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Anchor {
    /// The kind of inspection held.
    pub kind: String,
    /// The day it was completed.
    pub on: Date,
    /// The document that says so, where it was held before the book.
    pub document: Option<String>,
}

/// A count with what is proved and what is not ruled out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counted {
    /// Proved.
    pub least: u32,
    /// Not ruled out; missing where nothing bounds it.
    pub most: Option<u32>,
}

/// How a clock stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// It does not stop her on the day asked about.
    Runs,
    /// It stops her from this day on (the day asked about, or earlier).
    Stops,
    /// It may stop her; this is missing.
    CannotTell(Vec<String>),
    /// It is due on every day she is offered for use, and stops nothing ahead.
    EachDay,
}

/// One clock of one engine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clock {
    /// The ruling: rule, version, citation, mark.
    pub ruling: Ruling,
    /// The inspection it calls for.
    pub inspection: String,
    /// What it runs from, if the book knows.
    pub anchor: Option<Anchor>,
    /// What was counted.
    pub counted: Counted,
    /// The limit, in the same unit.
    pub limit: u32,
    /// The unit, as a shop says it.
    pub unit: &'static str,
    /// What is left by the most counted.
    pub left: Option<i64>,
    /// The first day it stops her: now, or at the promised run that would be one too many.
    pub stops_on: Option<Date>,
    /// How it stands.
    pub state: State,
    /// Why, in a sentence.
    pub why: String,
    /// The service days proved, newest last (service-day clocks only).
    pub days: Vec<Date>,
}

/// Every clock of an engine on a day, in the order of the rulebook.
///
/// # Errors
/// Input: the day lies before the rulebook's coverage, or the engine's rulebook is not on file.
pub fn due(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Clock>, Refusal> {
    let Some(kept) = book.locomotives.get(&engine) else {
        return Err(Refusal::input("There is no such engine in this book."));
    };
    let view = View {
        book,
        kept,
        engine,
        on,
    };
    let mut clocks = Vec::new();
    for ruling in rules.clocks(&kept.jurisdiction, on)? {
        clocks.push(match ruling.body.clone() {
            Body::Count(it) => match it.unit {
                CountUnit::ServiceDay => {
                    view.by_service_days(ruling, it.inspection, it.due_after, &it.restarted_by)
                }
                CountUnit::Annual => {
                    view.by_annuals(ruling, it.inspection, it.due_after, &it.restarted_by)
                }
                CountUnit::DayOfUse => view.each_day(ruling, it.inspection),
            },
            Body::Calendar(it) => {
                view.by_calendar(ruling, it.inspection, it.span, &it.restarted_by)?
            }
            Body::WhicheverFirst(it) => view.whichever_first(ruling, &it)?,
            _ => continue,
        });
    }
    if clocks.is_empty() {
        return Err(Refusal::input(format!(
            "No clock is on file for the rulebook `{}` of No. {}.",
            kept.jurisdiction, kept.number
        )));
    }
    Ok(clocks)
}

/// One engine on one day.
struct View<'b> {
    book: &'b Book,
    kept: &'b Locomotive,
    engine: LocomotiveId,
    on: Date,
}

/// Where a service-day count starts: what was counted before the book, and the first day after it.
struct Base {
    counted: u32,
    /// Whether a paper told that count.
    by_paper: bool,
    /// First day that certainly belongs to the count.
    from_least: Date,
    /// First day that may belong to it.
    from_most: Date,
}

impl View<'_> {
    /// The newest inspection of one of these kinds, held on or before the day asked about.
    fn anchor(&self, kinds: &[String]) -> Option<(Anchor, Base)> {
        self.anchors(kinds)
            .into_iter()
            .max_by_key(|(anchor, _)| anchor.on)
    }

    /// Every inspection of one of these kinds, held on or before the day asked about.
    fn anchors(&self, kinds: &[String]) -> Vec<(Anchor, Base)> {
        let in_book = self.book.inspections.values().filter_map(|i| {
            let (closed, _) = i.closed?;
            let ours = i.locomotive == self.engine && kinds.contains(&i.kind) && closed <= self.on;
            let anchor = Anchor {
                kind: i.kind.clone(),
                on: closed,
                document: None,
            };
            let next = closed.tomorrow().unwrap_or(closed);
            ours.then_some((
                anchor,
                Base {
                    counted: 0,
                    by_paper: false,
                    from_least: next,
                    from_most: closed,
                },
            ))
        });
        let before = self.kept.held_before.iter().filter_map(|held| {
            if !kinds.contains(&held.kind) || held.held_on > self.on {
                return None;
            }
            let anchor = Anchor {
                kind: held.kind.clone(),
                on: held.held_on,
                document: Some(held.document.clone()),
            };
            let base = match held.service_days_since {
                Some((counted, through)) => {
                    let next = through.tomorrow().unwrap_or(through);
                    Base {
                        counted,
                        by_paper: true,
                        from_least: next,
                        from_most: next,
                    }
                }
                None => Base {
                    counted: 0,
                    by_paper: false,
                    from_least: held.held_on.tomorrow().unwrap_or(held.held_on),
                    from_most: held.held_on,
                },
            };
            Some((anchor, base))
        });
        in_book.chain(before).collect()
    }

    fn no_anchor(
        &self,
        ruling: Ruling,
        inspection: String,
        limit: u32,
        unit: &'static str,
    ) -> Clock {
        let needs = format!("when the last {inspection} inspection, or a larger one, was held");
        let why = format!("cannot tell: needs {needs}");
        Clock {
            ruling,
            inspection,
            anchor: None,
            counted: Counted {
                least: 0,
                most: None,
            },
            limit,
            unit,
            left: None,
            stops_on: Some(self.on),
            state: State::CannotTell(vec![needs]),
            why,
            days: Vec::new(),
        }
    }

    fn each_day(&self, ruling: Ruling, inspection: String) -> Clock {
        let anchor = self
            .anchor(std::slice::from_ref(&inspection))
            .map(|(anchor, _)| anchor);
        let why = match &anchor {
            Some(last) => format!(
                "due on each day she is offered for use; last held {}",
                last.on
            ),
            None => "due on each day she is offered for use; none is in this book".to_string(),
        };
        Clock {
            ruling,
            inspection,
            anchor,
            counted: Counted {
                least: 0,
                most: Some(0),
            },
            limit: 1,
            unit: "day of use",
            left: None,
            stops_on: None,
            state: State::EachDay,
            why,
            days: Vec::new(),
        }
    }

    fn by_service_days(
        &self,
        ruling: Ruling,
        inspection: String,
        limit: u32,
        kinds: &[String],
    ) -> Clock {
        const UNIT: &str = "service days";
        let Some((anchor, base)) = self.anchor(kinds) else {
            return self.no_anchor(ruling, inspection, limit, UNIT);
        };
        let least = service_days(self.book, self.engine, base.from_least, self.on).least;
        let most = service_days(self.book, self.engine, base.from_most, self.on).most;
        let counted_least = base.counted + small(least.len());
        // A paper that counted the days since an earlier inspection bounds the days since this one.
        let bounds = self
            .anchors(kinds)
            .into_iter()
            .filter(|(earlier, told)| told.by_paper && earlier.on <= anchor.on);
        let counted_most = bounds
            .map(|(_, told)| {
                let days = service_days(self.book, self.engine, told.from_most, self.on).most;
                told.counted + small(days.len())
            })
            .chain([base.counted + small(most.len())])
            .min()
            .unwrap_or(counted_least)
            .max(counted_least);
        let left = i64::from(limit) - i64::from(counted_most);
        let stops_on = self.stops_after(left, &most);
        let stopped = stops_on.is_some_and(|day| day <= self.on);
        let proved_left = i64::from(limit) - i64::from(counted_least);
        let proved = self
            .stops_after(proved_left, &least)
            .is_some_and(|day| day <= self.on);
        let state = match (stopped, proved) {
            (true, true) => State::Stops,
            (true, false) => State::CannotTell(self.log_needs()),
            (false, _) => State::Runs,
        };
        let since = format!("since the {} of {}", anchor.kind, anchor.on);
        let count = if counted_least == counted_most {
            let unit = if counted_least == 1 {
                "service day"
            } else {
                UNIT
            };
            format!("{counted_least} {unit} {since}")
        } else {
            format!(
                "{counted_least} to {counted_most} {UNIT} {since} ({})",
                self.doubt(&anchor, &least, &most)
            )
        };
        let why = match &state {
            State::CannotTell(needs) => format!("cannot tell: needs {}; {count}", needs.join("; ")),
            State::Stops if left < 0 => {
                format!("{count}: {limit} is the most allowed; {} too many", -left)
            }
            State::Stops => format!(
                "{count}: the next day in steam would be the {} one",
                ordinal(limit + 1)
            ),
            _ => format!("{count}; {left} left"),
        };
        Clock {
            ruling,
            inspection,
            anchor: Some(anchor),
            counted: Counted {
                least: counted_least,
                most: Some(counted_most),
            },
            limit,
            unit: UNIT,
            left: Some(left),
            stops_on,
            state,
            why,
            days: least.iter().collect(),
        }
    }

    /// The first day on which steaming would be one day too many: today if none are left, else the
    /// promised run that would be the one after the last. A day already counted costs nothing more.
    fn stops_after(&self, left: i64, counted: &DaySet) -> Option<Date> {
        if left < 0 {
            return Some(self.on);
        }
        let promised: BTreeSet<Date> = self
            .kept
            .promises
            .iter()
            .map(|p| p.day)
            .filter(|day| *day >= self.on)
            .collect();
        let fresh: Vec<Date> = promised
            .into_iter()
            .filter(|day| !counted.contains(*day))
            .collect();
        let ahead = usize::try_from(left)
            .ok()
            .and_then(|left| fresh.get(left).copied());
        if left > 0 {
            return ahead;
        }
        // None left: she may finish a day that is counted already, and not begin another.
        let today_counted = counted.contains(self.on);
        Some(if today_counted {
            self.on.tomorrow().unwrap_or(self.on)
        } else {
            self.on
        })
    }

    fn log_needs(&self) -> Vec<String> {
        let yesterday = self.on.yesterday().unwrap_or(self.on);
        match self.kept.log_through {
            Some(through) if through >= yesterday => {
                vec!["the times missing from the fires in the log, or the order of the inspection and the fire of its day".into()]
            }
            Some(through) => vec![format!(
                "the log closed through {yesterday} (it is closed through {through})"
            )],
            None => vec![format!(
                "the log closed through {yesterday} (it has never been closed)"
            )],
        }
    }

    fn doubt(&self, anchor: &Anchor, least: &DaySet, most: &DaySet) -> String {
        let yesterday = self.on.yesterday().unwrap_or(self.on);
        let mut said = Vec::new();
        match self.kept.log_through {
            Some(through) if through < yesterday => {
                said.push(format!("log closed through {through}"))
            }
            None => said.push("log never closed".to_string()),
            Some(_) => {}
        }
        if let Some(from) = self.kept.log_from
            && most
                .without(least)
                .iter()
                .any(|day| day < from && day != anchor.on)
        {
            said.push(format!("log begins {from}"));
        }
        if most.contains(anchor.on) && !least.contains(anchor.on) {
            said.push("the day of the inspection itself may count".to_string());
        }
        if said.is_empty() {
            said.push("a time is missing in the log".to_string());
        }
        said.join("; ")
    }

    fn by_calendar(
        &self,
        ruling: Ruling,
        inspection: String,
        span: Span,
        kinds: &[String],
    ) -> Result<Clock, Refusal> {
        let Some((anchor, _)) = self.anchor(kinds) else {
            let limit = if let Span::Days(days) = span {
                days
            } else {
                small_days(self.on, span.after(self.on)?)
            };
            return Ok(self.no_anchor(ruling, inspection, limit, "calendar days"));
        };
        let last = span.after(anchor.on)?;
        let stops_on = last.tomorrow().unwrap_or(last);
        let limit = small_days(anchor.on, last);
        let counted = small_days(anchor.on, self.on);
        let left = i64::from(limit) - i64::from(counted);
        let stops = stops_on <= self.on;
        let since = format!(
            "{counted} calendar days since the {} of {}",
            anchor.kind, anchor.on
        );
        let why = if stops {
            format!("{since}: {limit} is the most allowed; her last day was {last}")
        } else {
            format!("{since}; {left} left, her last day is {last}")
        };
        Ok(Clock {
            ruling,
            inspection,
            anchor: Some(anchor),
            counted: Counted {
                least: counted,
                most: Some(counted),
            },
            limit,
            unit: "calendar days",
            left: Some(left),
            stops_on: Some(stops_on),
            state: if stops { State::Stops } else { State::Runs },
            why,
            days: Vec::new(),
        })
    }

    fn by_annuals(
        &self,
        ruling: Ruling,
        inspection: String,
        limit: u32,
        kinds: &[String],
    ) -> Clock {
        const UNIT: &str = "annual inspections";
        let Some((anchor, _)) = self.anchor(kinds) else {
            return self.no_anchor(ruling, inspection, limit, UNIT);
        };
        let papers = || self.kept.held_before.iter();
        let held_since = |day: Date| {
            let of_papers =
                papers().filter(|h| h.kind == "annual" && h.held_on > day && h.held_on <= self.on);
            let in_book = self.book.inspections.values().filter(|i| {
                let closed = i.closed.map(|(closed, _)| closed);
                i.locomotive == self.engine
                    && i.kind == "annual"
                    && closed.is_some_and(|on| on > day && on <= self.on)
            });
            (small(of_papers.count()), small(in_book.count()))
        };
        // A fifth annual held before the book: a paper must say how many annuals followed it, and one
        // that says so of an earlier inspection bounds the number since this one.
        let told = papers()
            .filter(|h| kinds.contains(&h.kind) && h.held_on <= anchor.on)
            .filter_map(|h| Some((h.held_on, h.annuals_since?)))
            .map(|(day, told)| {
                let (of_papers, in_book) = held_since(day);
                told.max(of_papers) + in_book
            })
            .min();
        let (of_papers, in_book) = held_since(anchor.on);
        let proved = of_papers + in_book;
        let paper = papers().find(|h| h.kind == anchor.kind && h.held_on == anchor.on);
        let (least, most) = match (anchor.document.is_some(), told) {
            (false, _) => (proved, Some(proved)),
            (true, Some(told)) => {
                let told = told.max(proved);
                let sure = paper.is_some_and(|h| h.annuals_since.is_some());
                (if sure { told } else { proved }, Some(told))
            }
            (true, None) => (proved, None),
        };
        let left = most.map(|m| i64::from(limit) - i64::from(m));
        let since = format!("since the {} of {}", anchor.kind, anchor.on);
        let (state, stops_on, why) = match most {
            None => {
                let needs = format!("how many annuals were held {since}");
                (
                    State::CannotTell(vec![needs.clone()]),
                    Some(self.on),
                    format!("cannot tell: needs {needs}"),
                )
            }
            Some(n) if n >= limit => (
                State::Stops,
                Some(self.on),
                format!(
                    "{n} annuals {since}: the {} should have been a fifth annual",
                    ordinal(limit)
                ),
            ),
            Some(n) if n + 1 == limit => (
                State::Runs,
                None,
                format!("{n} annuals {since}: the next annual must be a fifth annual"),
            ),
            Some(n) => {
                let annuals = if n == 1 { "annual" } else { "annuals" };
                (
                    State::Runs,
                    None,
                    format!(
                        "{n} {annuals} {since}; the {} must be a fifth annual",
                        ordinal(limit)
                    ),
                )
            }
        };
        Clock {
            ruling,
            inspection,
            anchor: Some(anchor),
            counted: Counted { least, most },
            limit,
            unit: UNIT,
            left,
            stops_on,
            state,
            why,
            days: Vec::new(),
        }
    }

    fn whichever_first(&self, ruling: Ruling, first: &WhicheverFirst) -> Result<Clock, Refusal> {
        let kinds = &first.restarted_by;
        let counted = match &first.count {
            Some(arm) if arm.unit == CountUnit::ServiceDay => Some(self.by_service_days(
                ruling.clone(),
                first.inspection.clone(),
                arm.due_after,
                kinds,
            )),
            Some(arm) => Some(self.by_annuals(
                ruling.clone(),
                first.inspection.clone(),
                arm.due_after,
                kinds,
            )),
            None => None,
        };
        let dated = match &first.calendar {
            Some(arm) => {
                Some(self.by_calendar(ruling.clone(), first.inspection.clone(), arm.span, kinds)?)
            }
            None => None,
        };
        match (counted, dated) {
            (Some(counted), Some(dated)) => Ok(sooner(counted, dated)),
            (Some(one), None) | (None, Some(one)) => Ok(one),
            (None, None) => Err(Refusal::input(format!(
                "The rule `{}` has no arm to count by.",
                ruling.rule
            ))),
        }
    }
}

/// Joins the two arms of a clock that runs to whichever comes first.
fn sooner(counted: Clock, dated: Clock) -> Clock {
    if counted.anchor.is_none() {
        return counted;
    }
    let rank = |clock: &Clock| match clock.state {
        State::Stops => 0,
        State::CannotTell(_) => 1,
        State::Runs | State::EachDay => 2,
    };
    // A day holds one service day at most: with as many of them left as calendar days, the calendar is
    // sure to come first; with fewer, the service days may, however few runs are promised.
    let calendar_sure = match (counted.left, dated.left) {
        (Some(counted), Some(dated)) => counted >= dated,
        _ => false,
    };
    let (first, arm) = match rank(&dated).cmp(&rank(&counted)) {
        Ordering::Less => (&dated, "the calendar comes first"),
        Ordering::Greater => (&counted, "the service days come first"),
        Ordering::Equal if calendar_sure => (&dated, "the calendar comes first"),
        Ordering::Equal
            if counted
                .stops_on
                .is_some_and(|day| Some(day) <= dated.stops_on) =>
        {
            (&counted, "the service days come first")
        }
        Ordering::Equal => (&counted, "the service days may come first"),
    };
    let stops_on = [counted.stops_on, dated.stops_on]
        .into_iter()
        .flatten()
        .min();
    let mut bound = first.clone();
    bound.why = format!("{}; and {}; {arm}", counted.why, dated.why);
    bound.stops_on = stops_on;
    bound.days = counted.days;
    bound
}

fn small(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

fn small_days(from: Date, to: Date) -> u32 {
    from.until(to)
        .ok()
        .and_then(|span| u32::try_from(span.get_days()).ok())
        .unwrap_or(0)
}

/// 32 -> `32nd`.
fn ordinal(n: u32) -> String {
    let tail = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{n}{tail}")
}
