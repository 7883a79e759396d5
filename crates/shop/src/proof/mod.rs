//! Proofs: evidence that a repair holds.

mod blue;

use jiff::civil::Date;

pub use blue::{BLUE, admit_blue, check_blue, degrees, missing_rings, newest, wanted};

use crate::Refusal;
use crate::book::{Authority, Book, JobId, PersonId, Proved, Statement};
use crate::job::open;
use crate::locomotive::with_authority;

/// Records a proof of a job. A proof that did not hold is kept too; a later one stands for it.
///
/// # Errors
/// Refused: the job is closed; the person may not inspect; operations are not done; nothing is told.
/// Input: the job asks for no such proof.
pub fn prove(
    book: &Book,
    job: JobId,
    proof: &str,
    passed: bool,
    told: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let kept = open(book, job)?;
    with_authority(book, by, Authority::Inspect, "record a proof", on)?;
    if !kept.plan.proofs.iter().any(|p| p == proof) {
        return Err(Refusal::input(format!(
            "J-{:03} asks for no proof `{proof}`: {} were expected.",
            kept.number,
            kept.plan.proofs.join(", ")
        )));
    }
    if let Some(at) = kept.operations.iter().position(|o| o.done.is_none()) {
        return Err(Refusal::refused(format!(
            "J-{:03}: operation {} is not done, so there is nothing to prove yet.",
            kept.number,
            at + 1
        )));
    }
    if told.trim().is_empty() {
        return Err(Refusal::refused(
            "A proof needs what was seen: pressure, how long, where it wept or that it did not.",
        ));
    }
    Ok(vec![Statement::Proved(Proved {
        job,
        proof: proof.into(),
        passed,
        told: told.trim().into(),
    })])
}
