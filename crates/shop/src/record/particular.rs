//! What the shop says of itself and of its engines on the law's papers. Nothing is guessed: what nobody said is missing
//! on the paper, and named there.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{Authority, Book, LocomotiveId, ParticularStated, PersonId, Statement};
use crate::locomotive::with_authority;

/// What can be said, each word with its meaning; the last tells whether it is of one engine only.
pub const PARTICULARS: &[(&str, &str, bool)] = &[
    ("owner", "the owner", false),
    ("operator", "the operator", false),
    ("railroad", "the railroad that runs her", false),
    (
        "place",
        "the place where she is inspected and kept up",
        false,
    ),
    (
        "report-place",
        "the place where daily reports are filed and kept",
        false,
    ),
    (
        "region",
        "the regional office that reports are filed with",
        false,
    ),
    ("initials", "the initials on her cab", false),
    ("boiler-number", "the number of her boiler", true),
    ("builder", "her builder", true),
    ("built", "the year or day she was built", true),
    ("boiler-type", "the type of her boiler", true),
    ("dome", "the place of her dome", true),
];

/// States one of [`PARTICULARS`], of one engine or of all. A later one takes its place from its own day on.
///
/// # Errors
/// Input: no such word, nothing said, or one of a single engine said of the whole shop. Refused: the person may not
/// approve.
pub fn state_particular(
    book: &Book,
    engine: Option<LocomotiveId>,
    what: &str,
    says: &str,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let known = PARTICULARS.iter().find(|(word, ..)| *word == what.trim());
    let Some((word, meaning, of_one)) = known else {
        let all: Vec<_> = PARTICULARS.iter().map(|(word, ..)| *word).collect();
        return Err(Refusal::input(format!(
            "`{what}` is nothing that papers ask of the shop: {} were expected.",
            all.join(", ")
        )));
    };
    with_authority(
        book,
        by,
        Authority::Approve,
        "state what stands on the papers",
        on,
    )?;
    if *of_one && engine.is_none() {
        return Err(Refusal::input(format!(
            "{meaning} differs from engine to engine: her number was expected."
        )));
    }
    if says.trim().is_empty() {
        return Err(Refusal::input(format!("Nothing is said of {meaning}.")));
    }
    Ok(vec![Statement::ParticularStated(ParticularStated {
        locomotive: engine,
        what: (*word).into(),
        says: says.trim().into(),
    })])
}
