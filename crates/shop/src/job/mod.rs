//! The plan of a repair and its steps; a step with a hold point stops until the right person looks.

mod cost;
mod paper;
mod wanted;
mod window;

use jiff::civil::Date;

pub use cost::{Cost, Sum, cost};
pub use paper::{PressChart, Pressed, chart, keep, opens_pressure, zero_proven};
pub use wanted::{Before, PaperWanted, papers_wanted};
pub use window::{WINDOW_SHEETS, WindowSheet, differs, sheet_of_chart, window_card, window_sheet};

use crate::Refusal;
use crate::book::{
    Authority, Book, HoldCleared, HoldPoint, Job, JobId, JobMade, OnPaper, Operation,
    OperationDone, PersonId, QuarterHours, Statement,
};
use crate::design::Design;
use crate::locomotive::{family, with_authority};

/// Makes the job of a design.
///
/// # Errors
/// Refused: no authority. Input: the promised day is past.
pub fn make(
    book: &Book,
    id: JobId,
    design: &Design,
    promised: Option<Date>,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "order a job", on)?;
    if let Some(day) = promised
        && day < on
    {
        return Err(Refusal::input(format!("The promised day, {day}, is past.")));
    }
    let finding = book
        .findings
        .get(&design.finding)
        .ok_or_else(|| Refusal::input("There is no such finding."))?;
    let part = book
        .parts
        .get(&finding.part)
        .ok_or_else(|| Refusal::input("There is no such part."))?;
    let family = family(book, &part.family)?;
    let knock_ons = design
        .route
        .knock_ons
        .iter()
        .filter_map(|w| family.knock_on(w))
        .map(|k| k.word.clone())
        .collect();
    let operations = design
        .route
        .operations
        .iter()
        .map(|step| Operation {
            what: step.what.clone(),
            place: step.place.clone(),
            engine: step.engine.clone(),
            hours: step.hours(),
            hold: step.hold.as_ref().map(|h| HoldPoint {
                look: h.look.clone(),
                by: h.by,
            }),
        })
        .collect();
    Ok(vec![Statement::JobMade(JobMade {
        id,
        finding: design.finding,
        route: design.route.word.clone(),
        title: format!("{}: {}", part.name, design.route.title),
        tooling: design.tooling.clone(),
        sizes: design.sizes.clone(),
        operations,
        proofs: design.route.proofs.clone(),
        knock_ons,
        stop_points: design.route.stop_points.clone(),
        cautions: design.route.cautions.clone(),
        sheets: design.sheets.clone(),
        promised,
    })])
}

/// Says that an operation was done.
///
/// # Errors
/// Refused: the job is closed, the person may not repair, an earlier operation is not done, or an
/// earlier hold point is not cleared. Input: no such operation.
pub fn done(
    book: &Book,
    job: JobId,
    operation: u32,
    hours: Option<QuarterHours>,
    told: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = open(book, job)?;
    with_authority(book, by, Authority::Repair, "do an operation of a job", on)?;
    let index = step(kept, operation)?;
    for (before, (plan, state)) in kept
        .plan
        .operations
        .iter()
        .zip(&kept.operations)
        .take(index)
        .enumerate()
    {
        let number = before + 1;
        if state.done.is_none() {
            return Err(Refusal::refused(format!(
                "J-{:03}: operation {number} comes first: {}.",
                kept.number, plan.what
            )));
        }
        if let Some(hold) = &plan.hold
            && state.cleared.is_none()
        {
            return Err(Refusal::refused(format!(
                "J-{:03} stops at the hold point after operation {number}.",
                kept.number
            ))
            .todo(format!(
                "somebody with the authority `{}` looks at: {}",
                hold.by.word(),
                hold.look
            )));
        }
    }
    paper::must_be_zero(book, kept, index, on)?;
    if let Some((day, ..)) = kept.operations.get(index).and_then(|s| s.done.as_ref()) {
        return Err(Refusal::refused(format!(
            "J-{:03}: operation {operation} was done on {day}.",
            kept.number
        )));
    }
    Ok(vec![Statement::OperationDone(OperationDone {
        job,
        operation,
        hours,
        told: told.trim().into(),
    })])
}

/// Clears a hold point. Where that was done in person with a pencil, the one who did it enters it later and names
/// the day and the paper.
///
/// # Errors
/// Input: a paper without a name, or of a day before the work or after today.
/// Refused: the job is closed; the operation is not done or holds nothing; the person has not the
/// authority, or is the one who did the operation; nothing says what was seen.
pub fn clear(
    book: &Book,
    job: JobId,
    operation: u32,
    seen: &str,
    paper: Option<OnPaper>,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = open(book, job)?;
    let index = step(kept, operation)?;
    let (Some(plan), Some(state)) = (kept.plan.operations.get(index), kept.operations.get(index))
    else {
        return Err(Refusal::input("There is no such operation."));
    };
    let Some(hold) = &plan.hold else {
        return Err(Refusal::refused(format!(
            "J-{:03}: there is no hold point after operation {operation}.",
            kept.number
        )));
    };
    // The authority is asked of the day somebody looked, not of the evening on which the paper is entered.
    let looked = paper.as_ref().map_or(on, |paper| paper.day);
    with_authority(book, by, hold.by, "clear this hold point", looked)?;
    let Some((done, doer, ..)) = &state.done else {
        return Err(Refusal::refused(format!(
            "J-{:03}: operation {operation} is not done, so there is nothing to look at.",
            kept.number
        )));
    };
    if *doer == by {
        return Err(Refusal::refused(
            "A hold point takes a second pair of eyes: the one who did the work cannot clear it.",
        ));
    }
    if seen.trim().is_empty() {
        return Err(Refusal::refused(format!(
            "Say what was seen: {}.",
            hold.look
        )));
    }
    let paper = paper.map(|paper| on_paper(paper, *done, on)).transpose()?;
    Ok(vec![Statement::HoldCleared(HoldCleared {
        job,
        operation,
        seen: seen.trim().into(),
        paper,
    })])
}

/// What a clearing on paper must satisfy: a paper is named, and its day lies between the work and today.
fn on_paper(paper: OnPaper, done: Date, on: Date) -> Result<OnPaper, Refusal> {
    let document = paper.document.trim();
    if document.is_empty() {
        return Err(Refusal::input(
            "Say which paper shows that the hold point was cleared, such as the job card with both signatures.",
        ));
    }
    if paper.day < done || paper.day > on {
        return Err(Refusal::input(format!(
            "The hold point was cleared on {}: a day between the work, {done}, and today, {on}, was expected.",
            paper.day
        )));
    }
    Ok(OnPaper {
        day: paper.day,
        document: document.into(),
    })
}

/// A job that is not closed.
///
/// # Errors
/// Input if there is none; refused if it is closed.
pub fn open(book: &Book, job: JobId) -> Result<&Job, Refusal> {
    let kept = book
        .jobs
        .get(&job)
        .ok_or_else(|| Refusal::input("There is no such job in this book."))?;
    match &kept.closed {
        Some((day, ..)) => Err(Refusal::refused(format!(
            "J-{:03} was closed on {day}.",
            kept.number
        ))),
        None => Ok(kept),
    }
}

fn step(job: &Job, operation: u32) -> Result<usize, Refusal> {
    let last = job.operations.len();
    usize::try_from(operation)
        .ok()
        .and_then(|n| n.checked_sub(1))
        .filter(|index| *index < last)
        .ok_or_else(|| {
            Refusal::input(format!(
                "J-{:03} has operations 1 to {last}; {operation} is none of them.",
                job.number
            ))
        })
}
