//! Which day of an inspection that took more than one starts the clocks after it.
//!
//! An annual can run from November to spring. The sections speak of the day of the last inspection and do not
//! say which that is. So nothing is guessed: until somebody who answers for it states the day and how they read
//! the rule, the clocks count by the worst of its days.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{AnchorStated, Authority, Book, InspectionId, PersonId, Statement};
use crate::locomotive::with_authority;

/// States the day of a closed inspection that starts the clocks after it. A later statement takes its place.
///
/// # Errors
/// Refused: the inspection is open, the person may not approve, or nothing says how the rule was read. Input:
/// the day is none of its days.
pub fn anchor(
    book: &Book,
    id: InspectionId,
    day: Date,
    reading: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let inspection = super::kept(book, id)?;
    with_authority(
        book,
        by,
        Authority::Approve,
        "state which day starts the clocks",
        on,
    )?;
    let Some((closed, _)) = inspection.closed else {
        return Err(Refusal::refused(format!(
            "I-{:03} is open: it starts no clock before it is closed.",
            inspection.number
        )));
    };
    let first = inspection.answers.values().map(|given| given.on).min();
    let first = first.unwrap_or(closed).min(closed);
    if !(first..=closed).contains(&day) {
        return Err(Refusal::input(format!(
            "{day} is no day of I-{:03}: its first item was answered on {first} and it was closed on {closed}.",
            inspection.number
        )));
    }
    if reading.trim().is_empty() {
        return Err(Refusal::refused(
            "Say how the rule was read: whoever counts from this day must be able to follow it.",
        ));
    }
    Ok(vec![Statement::AnchorStated(AnchorStated {
        inspection: id,
        day,
        reading: reading.trim().into(),
    })])
}
