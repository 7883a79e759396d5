//! The days ahead of an engine: what stops her, from when, and what that does to each promised run.

use jiff::civil::Date;
use rules::Rulebook;

use super::{Release, Stop, release_with, stops_with};
use crate::Refusal;
use crate::book::{Book, LocomotiveId};
use crate::clock::{Clock, PaperCheck, State, due, paper_checks};
use crate::locomotive::engine_of;

/// A promised run, and what is in its way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// The day.
    pub day: Date,
    /// What is promised.
    pub what: String,
    /// What is in its way, one line each; empty where nothing in this book stops her.
    pub in_the_way: Vec<String>,
}

/// An engine and the days ahead of her.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ahead {
    /// Every clock.
    pub clocks: Vec<Clock>,
    /// What stops her on the day asked about.
    pub stops: Vec<Stop>,
    /// Her release as it stands.
    pub release: Release,
    /// Promised runs from the day asked about on.
    pub runs: Vec<Run>,
    /// The first day something stops her, and what, if anything does.
    pub stopped_from: Option<(Date, String)>,
    /// Whether the answer rests on days nobody vouched for, or on a fact that is missing.
    pub unsure: bool,
    /// What somebody must look at though it stops nothing, one sentence each: papers that count other days than
    /// the log holds.
    pub notices: Vec<String>,
}

/// The days ahead of an engine, from `on`.
///
/// # Errors
/// As [`due`].
pub fn ahead(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Ahead, Refusal> {
    let kept = engine_of(book, engine)?;
    let clocks = due(book, rules, engine, on)?;
    let stopped = stops_with(book, rules, engine, on, &clocks)?;
    let runs = kept
        .promises
        .iter()
        .filter(|promise| promise.day >= on)
        .map(|promise| Run {
            day: promise.day,
            what: promise.what.clone(),
            in_the_way: in_the_way(&clocks, &stopped, promise.day),
        })
        .collect();
    let by_clock = clocks.iter().filter_map(|clock| {
        let day = clock.stops_on?;
        Some((day, first(clock)))
    });
    let first_clock = by_clock.min();
    let stopped_from = match (stopped.first(), first_clock) {
        (_, Some((day, why))) if day <= on => Some((on, why)),
        (Some(stop), _) => Some((
            on,
            format!(
                "{} is not settled",
                stop.what.as_deref().unwrap_or("something")
            ),
        )),
        (None, clock) => clock,
    };
    let yesterday = on.yesterday().unwrap_or(on);
    let logged = crate::locomotive::Law::of(book, rules, kept).counts_service_days();
    let unsure = (logged && kept.log_through.is_none_or(|through| through < yesterday))
        || clocks
            .iter()
            .any(|clock| matches!(clock.state, State::CannotTell(_)));
    Ok(Ahead {
        release: release_with(book, engine, on, &stopped)?,
        clocks,
        stops: stopped,
        runs,
        stopped_from,
        unsure,
        notices: paper_checks(book, engine, on)
            .iter()
            .filter_map(PaperCheck::told)
            .collect(),
    })
}

/// What comes first, short enough for a picture: `the 31 first`.
fn first(clock: &Clock) -> String {
    format!(
        "the {} first",
        clock
            .inspection
            .replace("-", " ")
            .replace("fifth annual", "fifth-annual")
    )
}

/// What is in the way of a promised run: clocks that stop her by then, and what is not settled today.
fn in_the_way(clocks: &[Clock], stopped: &[Stop], day: Date) -> Vec<String> {
    let mut by: Vec<String> = Vec::new();
    for clock in clocks {
        // Two rule sets may ask for the same work: it is named once.
        let told = if matches!(clock.state, State::CannotTell(_)) {
            format!("cannot tell whether {} first", clock.must())
        } else if clock.stops_on.is_some_and(|stop| stop <= day) {
            format!("{} first", clock.must())
        } else {
            continue;
        };
        if !by.contains(&told) {
            by.push(told);
        }
    }
    let unsettled: Vec<_> = stopped
        .iter()
        .filter_map(|stop| stop.what.as_deref())
        .collect();
    if !unsettled.is_empty() {
        let verb = if unsettled.len() == 1 { "is" } else { "are" };
        by.push(format!("{} {verb} not settled", unsettled.join(", ")));
    }
    by
}
