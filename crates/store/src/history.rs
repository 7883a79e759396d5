//! The history that counts: entries with corrections in place and withdrawn batches left out.

use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

use rusqlite::Row;
use rusqlite::types::ValueRef;
use shop::book::{BatchId, Book, EntryId, FoldError, Meta, PersonId, Statement};

use crate::entry::Entry;

/// An entry read: its meta, its statement, and what it stands instead of.
#[derive(Debug, Clone)]
pub struct Read {
    pub meta: Meta,
    pub statement: Statement,
    pub supersedes: Option<EntryId>,
}

/// The columns of an entry that the history needs, in the order of [`read_row`].
pub const COLUMNS: &str =
    "SELECT seq, id, batch, person, done_on, kind, form, body, supersedes FROM entry ORDER BY seq";

/// One entry's columns, as text that is not copied.
struct Columns<'e> {
    seq: i64,
    id: &'e [u8],
    batch: Option<&'e [u8]>,
    person: &'e [u8],
    done_on: &'e [u8],
    kind: &'e [u8],
    form: i64,
    body: &'e [u8],
    supersedes: Option<&'e [u8]>,
}

/// Reads an entry, or says why it does not read.
pub fn read(entry: &Entry) -> Result<Read, String> {
    Columns {
        seq: entry.seq,
        id: &entry.id,
        batch: entry.batch.as_deref(),
        person: &entry.person,
        done_on: &entry.done_on,
        kind: &entry.kind,
        form: entry.form,
        body: &entry.body,
        supersedes: entry.supersedes.as_deref(),
    }
    .read()
}

/// Reads an entry straight from its row, or says which does not read and why.
pub fn read_row(row: &Row<'_>) -> Result<Read, String> {
    fn get<'r>(row: &'r Row<'_>, at: usize) -> Result<ValueRef<'r>, String> {
        row.get_ref(at).map_err(|e| e.to_string())
    }
    fn bytes<'r>(row: &'r Row<'_>, at: usize) -> Result<Option<&'r [u8]>, String> {
        match get(row, at)? {
            ValueRef::Null => Ok(None),
            ValueRef::Text(bytes) | ValueRef::Blob(bytes) => Ok(Some(bytes)),
            _ => Err("a column is a number where text was expected".into()),
        }
    }
    fn number(row: &Row<'_>, at: usize) -> Result<i64, String> {
        get(row, at)?.as_i64().map_err(|e| e.to_string())
    }
    let seq = number(row, 0)?;
    let read = || -> Result<Read, String> {
        Columns {
            seq,
            id: bytes(row, 1)?.unwrap_or_default(),
            batch: bytes(row, 2)?,
            person: bytes(row, 3)?.unwrap_or_default(),
            done_on: bytes(row, 4)?.unwrap_or_default(),
            kind: bytes(row, 5)?.unwrap_or_default(),
            form: number(row, 6)?,
            body: bytes(row, 7)?.unwrap_or_default(),
            supersedes: bytes(row, 8)?,
        }
        .read()
    };
    read().map_err(|why| format!("entry {seq}: {why}"))
}

impl Columns<'_> {
    fn read(&self) -> Result<Read, String> {
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
        let form = u32::try_from(self.form).map_err(|_| "its form is no form".to_string())?;
        let (kind, body) = (text(self.kind, "kind")?, text(self.body, "body")?);
        let statement = Statement::read(kind, form, body).map_err(|e| e.to_string())?;
        let batch: Option<BatchId> = self.batch.map(|b| id(b, "batch")).transpose()?;
        let person: PersonId = id(self.person, "person")?;
        let done_on = text(self.done_on, "day")?
            .parse()
            .map_err(|_| "its day is no day".to_string())?;
        let supersedes = self
            .supersedes
            .map(|s| id(s, "superseded entry"))
            .transpose()?;
        let meta = Meta {
            seq: u64::try_from(self.seq).unwrap_or(0),
            id: id(self.id, "id")?,
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
    let targets: HashSet<EntryId> = entries.iter().filter_map(|r| r.supersedes).collect();
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
                if targets.contains(&read.meta.id) {
                    places.insert(read.meta.id, kept.len());
                }
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
