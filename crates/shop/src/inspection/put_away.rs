//! An inspection that was not completed and will not be. It is put away with its reason; it stays in the record as not
//! completed, starts no clock, and is never taken for one that was held.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{Authority, Book, InspectionId, InspectionNotCompleted, PersonId, Statement};
use crate::locomotive::with_authority;

/// Puts an inspection away; the one who enters it signs that it was not completed. What was answered in it stays
/// readable, and a finding of it stands as any other.
///
/// # Errors
/// Refused: it is closed or put away already, nothing in it is open, or the person may not inspect. Input: no reason.
pub fn put_away(
    book: &Book,
    id: InspectionId,
    because: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let inspection = super::kept(book, id)?;
    with_authority(book, by, Authority::Inspect, "put an inspection away", on)?;
    let tag = format!("I-{:03}", inspection.number);
    if let Some(day) = inspection.ended_on() {
        let how = super::ended_how(inspection);
        return Err(Refusal::refused(format!("{tag} was {how} on {day}.")));
    }
    if super::unmet(book, inspection).is_empty() {
        return Err(
            Refusal::refused(format!("Nothing is open in {tag}: it is complete."))
                .todo("close and sign it"),
        );
    }
    if because.trim().is_empty() {
        return Err(Refusal::input(format!(
            "Why {tag} was not completed was expected: it stays in the record beside it."
        )));
    }
    Ok(vec![Statement::InspectionNotCompleted(
        InspectionNotCompleted {
            inspection: id,
            because: because.trim().into(),
        },
    )])
}
