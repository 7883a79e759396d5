//! Papers of a job: permits, certificates, press charts, what was bought; and that no pressure joint is opened before somebody
//! has proved that it holds none.

use jiff::civil::Date;
use measure::{Dimension, Fraction, House, Size, entered, entered_with_unit};

use super::open;
use crate::Refusal;
use crate::book::{Authority, Book, Job, JobPaper, JobPaperKept, JobPaperOf, PersonId, Statement};
use crate::locomotive::{family, with_authority};

/// The fewest points that show how it went in.
const FEWEST: usize = 3;
/// The state of the engine in which a joint is opened.
const OPENED: &str = "cold and drained";

/// Keeps a paper of a job.
///
/// # Errors
/// Refused: the job is closed, or the person has not the authority: to prove zero pressure one must be allowed to repair, to
/// give leave to approve, to keep any other paper to repair. Input: nothing is told; leave without a last day, or one that is
/// past; a certificate, report or weld paper without its name; a press chart with too few points, or points that do not read.
pub fn keep(
    book: &Book,
    kept: JobPaperKept,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    open(book, kept.job)?;
    let (authority, act) = match kept.kind {
        JobPaper::ZeroProven => (Authority::Repair, "prove that a joint holds no pressure"),
        kind if kind.is_permit() => (Authority::Approve, "give leave for work that can hurt"),
        _ => (Authority::Repair, "keep a paper of a job"),
    };
    with_authority(book, by, authority, act, on)?;
    let word = kept.kind.word();
    if kept.told.trim().is_empty() {
        return Err(Refusal::input(match kept.kind {
            JobPaper::ZeroProven => "Say how zero was proven: which gauge, which cock stood open to the air, which valve is shut and locked.".to_string(),
            _ => format!("Say what the {word} says."),
        }));
    }
    if kept.kind.is_permit() && kept.until.is_none_or(|until| until < on) {
        return Err(Refusal::input(format!(
            "Leave is given until a day, today or later: say the last day of the {word}."
        )));
    }
    let has_name = kept
        .document
        .as_ref()
        .is_some_and(|it| !it.trim().is_empty());
    let needs_name = matches!(
        kept.kind,
        JobPaper::Certificate | JobPaper::OutsideReport | JobPaper::Weld
    );
    if needs_name && !has_name {
        return Err(Refusal::input(format!(
            "Say which paper it is: the number or the name on the {word}."
        )));
    }
    match kept.kind {
        JobPaper::PressChart => {
            chart(&kept)?;
        }
        _ if !kept.points.is_empty() || kept.window.is_some() || kept.window_from.is_some() => {
            return Err(Refusal::input(format!(
                "Tons against travel belong to a press-chart, and this is a {word}."
            )));
        }
        _ => {}
    }
    Ok(vec![Statement::JobPaperKept(kept)])
}

/// A press chart as read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PressChart {
    /// Travel, and tons at it.
    pub points: Vec<(Size, Fraction)>,
    /// The least and the most tons that the fit allows at the end.
    pub window: Option<(Fraction, Fraction)>,
}

/// How a press went, held against its window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pressed {
    /// The last point lies in the window.
    Within,
    /// It took fewer tons than the fit asks: it may turn.
    TooFew,
    /// It took more: eye or bushing may be hurt.
    TooMany,
    /// Tons fell on the way: something gave, or the gauge did.
    Fell,
    /// No window was stated.
    NoWindow,
}

impl PressChart {
    /// Where the last point lies; a fall on the way is told first.
    pub fn pressed(&self) -> Pressed {
        let tons = || self.points.iter().map(|(_, tons)| tons);
        if tons().zip(tons().skip(1)).any(|(one, next)| next < one) {
            return Pressed::Fell;
        }
        match (&self.window, self.points.last()) {
            (Some((least, _)), Some((_, last))) if last < least => Pressed::TooFew,
            (Some((_, most)), Some((_, last))) if last > most => Pressed::TooMany,
            (Some(_), Some(_)) => Pressed::Within,
            _ => Pressed::NoWindow,
        }
    }
}

/// Reads a press chart.
///
/// # Errors
/// Input: fewer than three points, travel that does not grow, tons below nothing, or what does not read.
pub fn chart(kept: &JobPaperKept) -> Result<PressChart, Refusal> {
    let mut points: Vec<(Size, Fraction)> = Vec::new();
    for (travel, tons) in &kept.points {
        let at = entered_with_unit(travel, Dimension::Length)
            .ok()
            .and_then(|_| Size::parse(travel).ok());
        let at = at.ok_or_else(|| {
            Refusal::input(format!(
                "`{travel}` is no travel: a size with its unit was expected, such as 1-1/2in."
            ))
        })?;
        if points.last().is_some_and(|(before, _)| *before >= at) {
            return Err(Refusal::input(format!(
                "The travel must grow from point to point; {travel} does not."
            )));
        }
        points.push((at, tons_of(tons)?));
    }
    if points.len() < FEWEST {
        return Err(Refusal::input(format!(
            "A press chart has {FEWEST} points at least, each with its travel and its tons; {} were given.",
            points.len()
        )));
    }
    let window = match &kept.window {
        None => None,
        Some((least, most)) => {
            let (least, most) = (tons_of(least)?, tons_of(most)?);
            if least > most {
                return Err(Refusal::input(
                    "The least tons of the window are more than the most.",
                ));
            }
            Some((least, most))
        }
    };
    Ok(PressChart { points, window })
}

/// Tons as written: a bare number, or one with `ton` or `tons` after it.
pub(super) fn tons_of(text: &str) -> Result<Fraction, Refusal> {
    let bare = text.trim();
    let bare = bare.strip_suffix('s').unwrap_or(bare);
    let bare = bare.strip_suffix("ton").unwrap_or(bare).trim();
    entered(bare, Dimension::Ratio, House::Inch)
        .ok()
        .and_then(|read| read.exact)
        .filter(|tons| !bare.ends_with('%') && *tons >= Fraction::from_integer(0))
        .ok_or_else(|| {
            Refusal::input(format!(
                "`{text}` is no number of tons: a number was expected, such as 14.5."
            ))
        })
}

/// The newest proof that what the job opens holds no pressure, made by the day.
pub fn zero_proven(job: &Job, on: Date) -> Option<&JobPaperOf> {
    let proofs = job.papers.iter();
    let mut proofs =
        proofs.filter(|paper| paper.kept.kind == JobPaper::ZeroProven && paper.on <= on);
    proofs.next_back()
}

/// Whether an operation opens what may hold pressure: its part's family holds pressure, and she must be cold and drained for it.
pub fn opens_pressure(book: &Book, job: &Job, operation: usize) -> bool {
    let finding = book.findings.get(&job.plan.finding);
    let part = finding.and_then(|finding| book.parts.get(&finding.part));
    let holds = part
        .and_then(|part| family(book, &part.family).ok())
        .is_some_and(|family| family.holds_pressure);
    let cold = job.plan.operations.get(operation);
    holds && cold.is_some_and(|plan| plan.engine == OPENED)
}

/// Refuses a step that would open a pressure joint which nobody has proved to hold none.
///
/// # Errors
/// Refused.
pub(super) fn must_be_zero(
    book: &Book,
    job: &Job,
    operation: usize,
    on: Date,
) -> Result<(), Refusal> {
    if !opens_pressure(book, job, operation) || zero_proven(job, on).is_some() {
        return Ok(());
    }
    Err(Refusal::refused(format!(
        "J-{:03}: operation {} opens a joint that may hold pressure, and nobody has signed that zero is proven.",
        job.number,
        operation + 1
    ))
    .todo("look at the gauge, open a cock to the air below it, shut and lock what feeds it; then sign `zero-proven` among the papers of the job"))
}
