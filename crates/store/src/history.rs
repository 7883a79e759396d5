//! The history that counts: entries with corrections in place and withdrawn batches left out.

use std::borrow::Cow;
use std::collections::HashMap;

use shop::book::{BatchId, Book, EntryId, FoldError, Meta, PersonId, Statement};

use crate::entry::Entry;

/// An entry read: its meta, its statement, and what it stands instead of.
#[derive(Debug, Clone)]
pub struct Read {
    pub meta: Meta,
    pub statement: Statement,
    pub supersedes: Option<EntryId>,
}

/// A reason why an entry does not read.
pub fn read(entry: &Entry) -> Result<Read, String> {
    fn text<'e>(bytes: &'e [u8], column: &str) -> Result<&'e str, String> {
        std::str::from_utf8(bytes).map_err(|_| format!("its {column} is not text"))
    }
    fn id<T: std::str::FromStr<Err = shop::book::IdError>>(
        bytes: &[u8],
        column: &str,
    ) -> Result<T, String> {
        text(bytes, column)?
            .parse()
            .map_err(|e: shop::book::IdError| e.to_string())
    }
    let form = u32::try_from(entry.form).map_err(|_| "its form is no form".to_string())?;
    let statement = Statement::read(text(&entry.kind, "kind")?, form, text(&entry.body, "body")?)
        .map_err(|e| e.to_string())?;
    let batch: Option<BatchId> = entry.batch.as_deref().map(|b| id(b, "batch")).transpose()?;
    let person: PersonId = id(&entry.person, "person")?;
    let done_on = text(&entry.done_on, "day")?
        .parse()
        .map_err(|_| "its day is no day".to_string())?;
    let supersedes = entry
        .supersedes
        .as_deref()
        .map(|s| id(s, "superseded entry"))
        .transpose()?;
    let meta = Meta {
        seq: entry.number(),
        id: id(&entry.id, "id")?,
        batch,
        person,
        done_on,
    };
    Ok(Read {
        meta,
        statement,
        supersedes,
    })
}

/// The batches that have been taken back.
pub fn withdrawn(entries: &[Read]) -> Vec<BatchId> {
    entries
        .iter()
        .filter_map(|e| match &e.statement {
            Statement::BatchWithdrawn(it) => Some(it.batch),
            _ => None,
        })
        .collect()
}

/// The statements that count, in the order of the entries: a correction takes the place of what it
/// puts right, with its own number and day and the person of the first; a withdrawn batch is as
/// never entered.
pub fn effective(entries: &[Read]) -> Result<Vec<(Meta, Cow<'_, Statement>)>, String> {
    let withdrawn = withdrawn(entries);
    let gone = |read: &Read| read.meta.batch.is_some_and(|b| withdrawn.contains(&b));
    let mut kept: Vec<(Meta, Cow<'_, Statement>)> = Vec::with_capacity(entries.len());
    let mut places: HashMap<EntryId, usize> = HashMap::new();
    for read in entries.iter().filter(|r| !gone(r)) {
        match (&read.statement, read.supersedes) {
            (Statement::BatchWithdrawn(_), _) => {}
            (Statement::Correction(correction), Some(target)) => {
                let place = places.get(&target).copied();
                let Some(slot) = place.and_then(|at| kept.get_mut(at)) else {
                    return Err(format!(
                        "entry {} puts right an entry that is not there",
                        read.meta.seq
                    ));
                };
                // Who did the work does not change because somebody else mends the entry.
                let meta = Meta {
                    person: slot.0.person,
                    ..read.meta
                };
                let instead = correction.statement().map_err(|e| e.to_string())?;
                *slot = (meta, Cow::Owned(instead));
                places.insert(read.meta.id, place.unwrap_or_default());
            }
            (Statement::Correction(_), None) => {
                return Err(format!("entry {} puts right nothing", read.meta.seq));
            }
            (statement, _) => {
                places.insert(read.meta.id, kept.len());
                kept.push((read.meta, Cow::Borrowed(statement)));
            }
        }
    }
    Ok(kept)
}

/// Folds the history that counts from an empty book.
pub fn fold(entries: &[Read]) -> Result<Book, String> {
    let kept = effective(entries)?;
    shop::book::fold(
        kept.iter()
            .map(|(meta, statement)| (*meta, statement.as_ref())),
    )
    .map_err(|e: FoldError| e.to_string())
}
