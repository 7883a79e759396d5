//! A condition found, with its readings, hung on an occasion.

mod crew;
mod notice;

use jiff::civil::Date;
use measure::State;

use crate::Refusal;
use crate::book::{
    Authority, Book, FeatureReading, FindingId, FindingRecorded, FindingState, LocomotiveId,
    NoticeGiven, Occasion, PartId, PersonId, Statement,
};
use crate::locomotive::{
    Taking, admit_readings, check_readings, family, finding_of, part_of, take_readings,
    with_authority,
};

pub use crew::{NewReport, answer_symptom, open_symptoms, report, symptom};
pub use notice::{NewLifting, lift, unlifted};

/// A finding to be recorded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewFinding {
    /// Its id.
    pub id: FindingId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Which part.
    pub part: PartId,
    /// What it hangs on.
    pub occasion: Occasion,
    /// What the part does, in the family's words.
    pub conditions: Vec<String>,
    /// What was seen, in the finder's words.
    pub told: String,
    /// As-found readings.
    pub readings: Vec<FeatureReading>,
    /// Who gave the special notice; needed where it hangs on one.
    pub notice: Option<NoticeGiven>,
    /// How the readings were taken.
    pub taking: Taking,
}

/// Takes readings that a finding asks for, as found: at places it did not read, while nobody has decided on it; at any
/// place once it is carried and looked at again. What is put right is measured as left, in its job.
///
/// # Errors
/// Input: as [`take_readings`], or a reading of a place that the finding has. Refused: it is decided on and not carried.
pub fn measure(
    book: &Book,
    id: FindingId,
    readings: Vec<FeatureReading>,
    taking: &Taking,
) -> Result<Vec<Statement>, Refusal> {
    let finding = finding_of(book, id)?;
    let tag = format!("F-{:03}", finding.number);
    match finding.state {
        FindingState::Open => {
            let has = |new: &&FeatureReading| {
                let mut kept = finding.readings.iter();
                kept.any(|old| {
                    old.feature == new.feature && old.reading.position == new.reading.position
                })
            };
            if let Some(twice) = readings.iter().find(has) {
                return Err(Refusal::input(format!(
                    "{tag} has `{}` at {} as it was found: a place that it has not was expected. One that was read \
                     wrongly is put right where it was entered, at entry {}.",
                    twice.feature, twice.reading.position, finding.entry
                )));
            }
        }
        FindingState::Carried => {}
        FindingState::Decided | FindingState::InWork | FindingState::Closed => {
            return Err(Refusal::refused(format!(
                "{tag} has been decided on: what it was found at stands."
            ))
            .todo("what its job left is measured as left, in the job"));
        }
    }
    let mut made = take_readings(book, finding.part, None, State::AsFound, readings, taking)?;
    for statement in &mut made {
        if let Statement::ReadingsTaken(it) = statement {
            it.finding = Some(id);
        }
    }
    Ok(made)
}

/// Records a finding. Anybody may write up what they saw; at an inspection the finder must be one who
/// may inspect.
///
/// # Errors
/// Input: nothing told; a condition or reading the family does not know; a special notice without the one who
/// gave it, or somebody who gave one where there is none; a reading that is questioned and not insisted on. Refused: the inspection is closed or is another
/// engine's, or the finder may not inspect.
pub fn record(
    book: &Book,
    new: NewFinding,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let part = part_of(book, new.part)?;
    if part.locomotive != new.locomotive {
        return Err(Refusal::input(format!(
            "The part `{}` is not this engine's.",
            part.name
        )));
    }
    if let Occasion::Inspection { inspection } = &new.occasion {
        with_authority(
            book,
            by,
            Authority::Inspect,
            "record a finding of an inspection",
            on,
        )?;
        let held = book
            .inspections
            .get(inspection)
            .ok_or_else(|| Refusal::input("There is no such inspection."))?;
        if held.locomotive != new.locomotive {
            return Err(Refusal::input(format!(
                "I-{:03} is another engine's inspection.",
                held.number
            )));
        }
        if let Some(day) = held.ended_on() {
            let how = if held.closed.is_some() {
                "closed"
            } else {
                "put away"
            };
            return Err(
                Refusal::refused(format!("I-{:03} was {how} on {day}.", held.number))
                    .todo("hang the finding on a write-up instead"),
            );
        }
    }
    if new.told.trim().is_empty() {
        return Err(Refusal::input(
            "Say what was seen: where, hot or cold, and at what pressure.",
        ));
    }
    let notice = notice::given(&new.occasion, new.notice)?;
    let family = family(book, &part.family)?;
    if let Some(word) = new
        .conditions
        .iter()
        .find(|w| family.condition(w).is_none())
    {
        let known: Vec<_> = family.conditions.iter().map(|c| c.word.as_str()).collect();
        let known = if known.is_empty() {
            "none".to_string()
        } else {
            known.join(", ")
        };
        return Err(Refusal::input(format!(
            "`{word}` is not what a {} does: {known} were expected.",
            family.family
        )));
    }
    check_readings(family, &new.readings)?;
    let taken = admit_readings(
        book,
        (new.part, part),
        family,
        State::AsFound,
        &new.readings,
        &new.taking,
    )?;
    Ok(vec![Statement::FindingRecorded(FindingRecorded {
        id: new.id,
        locomotive: new.locomotive,
        part: new.part,
        occasion: new.occasion,
        conditions: new.conditions,
        told: new.told.trim().into(),
        readings: new.readings,
        notice,
        taken,
    })])
}
