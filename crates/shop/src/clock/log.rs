//! The log of an engine: fires, the days it is closed for, and the runs promised.

use jiff::civil::{Date, DateTime};

use crate::Refusal;
use crate::book::{
    Book, DayLogged, FireId, FireLogged, LocomotiveId, LogClosed, RunId, RunPromised, Statement,
};
use crate::locomotive::engine_of;

/// A fire to be logged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NewFire {
    /// Its id.
    pub id: FireId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Fire lit.
    pub lit: Option<DateTime>,
    /// Pressure first above atmosphere.
    pub up: Option<DateTime>,
    /// Fire out.
    pub out: Option<DateTime>,
    /// Pressure gone.
    pub gone: Option<DateTime>,
    /// Miles run.
    pub miles: Option<u32>,
    /// Whether she was offered for use.
    pub offered: Option<bool>,
}

/// Logs a fire. It may be entered late, even into days the log was closed for: what was forgotten
/// must be able to come in.
///
/// # Errors
/// Input: neither lit nor pressure-up is given; an end lies at or before its beginning; it lies after
/// `on`.
pub fn log_fire(fire: NewFire, on: Date) -> Result<Vec<Statement>, Refusal> {
    let NewFire {
        id,
        locomotive,
        lit,
        up,
        out,
        gone,
        miles,
        offered,
    } = fire;
    if lit.is_none() && up.is_none() {
        return Err(Refusal::input(
            "A fire needs at least one beginning: when it was lit, or when pressure was up.",
        ));
    }
    for (begin, end, what) in [
        (lit, out, "The fire is out before it is lit"),
        (up, gone, "Pressure is gone before it is up"),
        (lit, up, "Pressure is up before the fire is lit"),
        (lit, gone, "Pressure is gone before the fire is lit"),
    ] {
        if let (Some(begin), Some(end)) = (begin, end)
            && end < begin
        {
            return Err(Refusal::input(format!(
                "{what}: {} comes after {}.",
                hour(begin),
                hour(end)
            )));
        }
    }
    for (begin, end, what) in [
        (lit, out, "The fire is lit and out"),
        (up, gone, "Pressure is up and gone"),
    ] {
        if let (Some(begin), Some(end)) = (begin, end)
            && begin == end
        {
            return Err(Refusal::input(format!(
                "{what} at one time, {}: two times were expected.",
                hour(begin)
            )));
        }
    }
    if let Some(late) = [lit, up, out, gone]
        .into_iter()
        .flatten()
        .find(|at| at.date() > on)
    {
        return Err(Refusal::input(format!(
            "{} lies after today, {on}: a log holds what has happened.",
            hour(late)
        )));
    }
    Ok(vec![Statement::FireLogged(FireLogged {
        id,
        locomotive,
        lit,
        up,
        out,
        gone,
        miles,
        offered,
    })])
}

/// Logs a day whose fire has no times. It may be entered late, as a fire may.
///
/// # Errors
/// Input: the day lies after `on`, or it is not said what shows it.
pub fn log_day(line: DayLogged, on: Date) -> Result<Vec<Statement>, Refusal> {
    if line.day > on {
        return Err(Refusal::input(format!(
            "{} lies after today, {on}: a log holds what has happened.",
            line.day
        )));
    }
    if line.told.trim().is_empty() {
        return Err(Refusal::input(
            "Say which paper the day was read from, or who remembers it.",
        ));
    }
    Ok(vec![Statement::DayLogged(line)])
}

/// A moment of the log as a sentence says it.
pub(super) fn hour(at: DateTime) -> String {
    at.strftime("%Y-%m-%d %H:%M").to_string()
}

/// Says that the log of an engine holds every fire through a day. From then on a day without a fire
/// was cold.
///
/// # Errors
/// Input: `through` is not past; the first closing does not say from which day; days would be left
/// out between two closings. Refused: a fire of those days has neither end written.
pub fn close_log(
    book: &Book,
    engine: LocomotiveId,
    from: Option<Date>,
    through: Date,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = engine_of(book, engine)?;
    if through > on {
        return Err(Refusal::input(format!(
            "The log can be closed through {on} at most: {through} has not happened yet."
        )));
    }
    let next = kept.log_through.and_then(|day| day.tomorrow().ok());
    let from = match (from, next) {
        (None, None) => {
            return Err(Refusal::input(
                "The first closing of a log must say from which day it holds every fire.",
            )
            .todo("give --from with the first day, and --through with the last"));
        }
        (None, Some(next)) => next,
        (Some(from), Some(next)) if from > next => {
            return Err(Refusal::input(format!(
                "The log is closed through {}; closing it from {from} would leave out days.",
                next.yesterday().unwrap_or(next)
            )));
        }
        (Some(from), _) => from,
    };
    if through < from {
        return Err(Refusal::input(format!(
            "Nothing to close: {through} lies before {from}."
        )));
    }
    if let Some(first) = kept.log_from
        && through.tomorrow().is_ok_and(|next| next < first)
    {
        return Err(Refusal::input(format!(
            "The log is closed from {first}; closing it through {through} would leave out days."
        )));
    }
    let unended = book
        .logs
        .get(&engine)
        .into_iter()
        .flat_map(|log| log.unended.values());
    let open = unended
        .filter(|f| f.lit.max(f.up).is_some_and(|at| at.date() <= through))
        .min_by_key(|f| f.lit.max(f.up));
    if let Some(fire) = open {
        let begun = fire
            .lit
            .max(fire.up)
            .map(|at| at.date().to_string())
            .unwrap_or_default();
        return Err(Refusal::refused(format!(
            "The fire of {begun} has no end written, so the log cannot be closed over it."
        ))
        .todo("correct that entry: say when the fire was out or when pressure was gone"));
    }
    Ok(vec![Statement::LogClosed(LogClosed {
        locomotive: engine,
        from,
        through,
    })])
}

/// Promises a run.
///
/// # Errors
/// Input: no word says what was promised.
pub fn promise(
    id: RunId,
    locomotive: LocomotiveId,
    day: Date,
    what: &str,
) -> Result<Vec<Statement>, Refusal> {
    if what.trim().is_empty() {
        return Err(Refusal::input(
            "Say what was promised: a word for the run was expected.",
        ));
    }
    Ok(vec![Statement::RunPromised(RunPromised {
        id,
        locomotive,
        day,
        what: what.trim().to_string(),
    })])
}
