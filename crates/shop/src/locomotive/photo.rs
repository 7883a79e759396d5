//! Photographs and scans: what they show, and what kind of file the book takes.

use crate::Refusal;
use crate::book::{Book, Job, PhotoAdded, PhotoOf, Statement};

/// The kinds of file the book takes, each with the bytes it begins with and how it may end in a name.
const KINDS: &[(&str, &[u8])] = &[
    ("image/jpeg", &[0xFF, 0xD8, 0xFF]),
    ("image/png", b"\x89PNG\r\n\x1a\n"),
    ("image/webp", b"RIFF"),
    ("application/pdf", b"%PDF-"),
];

/// What kind of file this is, by its own first bytes: a name may say anything.
pub fn media_of(bytes: &[u8]) -> Option<&'static str> {
    let found = KINDS.iter().find(|(_, begins)| bytes.starts_with(begins));
    let (media, _) = found?;
    let is_webp = bytes.get(8..12) == Some(b"WEBP");
    (*media != "image/webp" || is_webp).then_some(*media)
}

/// Puts a photograph in the book. Its bytes come with it.
///
/// # Errors
/// Input: nothing told; a part, finding, job or proof the book does not have.
pub fn add_photo(book: &Book, new: PhotoAdded) -> Result<Vec<Statement>, Refusal> {
    if new.told.trim().is_empty() {
        return Err(Refusal::input(
            "Say what is seen on it: a picture without a word is lost in a year.",
        ));
    }
    let none = |what: &str| Refusal::input(format!("There is no such {what} in this book."));
    match &new.of {
        PhotoOf::Part { part } if !book.parts.contains_key(part) => return Err(none("part")),
        PhotoOf::Readings { part, entry } if book.readings.get(*part, *entry).is_none() => {
            return Err(none("set of readings of that part"));
        }
        PhotoOf::Letter => {
            let known = new.letter.is_some_and(|id| book.letters.contains_key(&id));
            if !known {
                return Err(none("letter"));
            }
        }
        PhotoOf::Finding { finding } if !book.findings.contains_key(finding) => {
            return Err(none("finding"));
        }
        PhotoOf::Proof { job, proof } => {
            let kept = book.jobs.get(job).ok_or_else(|| none("job"))?;
            asked(kept, proof)?;
        }
        _ => {}
    }
    Ok(vec![Statement::PhotoAdded(PhotoAdded {
        told: new.told.trim().into(),
        ..new
    })])
}

fn asked(job: &Job, proof: &str) -> Result<(), Refusal> {
    if job.plan.proofs.iter().any(|asked| asked == proof) {
        return Ok(());
    }
    Err(Refusal::input(format!(
        "`{proof}` is no proof of J-{:03}: {} were expected.",
        job.number,
        job.plan.proofs.join(", ")
    )))
}
