//! Proof that a book is what was entered: layout, chain, head, forms, derived rows.

use std::collections::BTreeMap;

use rusqlite::types::ValueRef;

use crate::entry::{Entry, Hash};
use crate::error::StoreError;
use crate::file::Store;
use crate::{history, read, scans, schema, seek};

/// One thing that is not as it should be.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// The entry it is about, where it is about one.
    pub entry: Option<u64>,
    /// What differs, as a sentence.
    pub what: String,
}

/// What `check` found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// Entries read.
    pub entries: u64,
    /// Number and hash of the last, as the head mark says.
    pub head: (u64, Hash),
    /// Derived rows compared.
    pub rows: usize,
    /// Everything that differs, the first entry that differs first.
    pub differences: Vec<Difference>,
}

/// What no check can prove, in words for the reader.
pub const CANNOT_PROVE: &str = "What this check cannot prove: that nobody removed entries from the end of the book together with \
its head mark. Compare the number and hash of the last entry with those on the last printed paper or backup.";

impl Store {
    /// Proves the chain and the derived rows, and names the first entry that differs.
    ///
    /// # Errors
    /// If the file cannot be read at all.
    pub fn check(&self) -> Result<Checked, StoreError> {
        let sql = StoreError::of(&self.path);
        // One view for all of it: an entry made meanwhile must not look like a difference.
        let _view = self.connection.unchecked_transaction().map_err(&sql)?;
        let mut differences = Vec::new();
        pages(&self.connection, &mut differences).map_err(&sql)?;
        layout(&self.connection, &mut differences).map_err(&sql)?;
        let entries = read::entries(&self.connection).map_err(&sql)?;
        let head = read::head(&self.connection).map_err(&sql)?;
        differences.extend(chain(&entries, head));
        let rows = self.derived(&entries, &mut differences).map_err(&sql)?;
        Ok(Checked {
            entries: entries.len() as u64,
            head,
            rows,
            differences,
        })
    }

    fn derived(
        &self,
        entries: &[Entry],
        differences: &mut Vec<Difference>,
    ) -> rusqlite::Result<usize> {
        // Where the ledger itself differs, rows differ because of it: no other entry is blamed for them.
        let sound = !differences.iter().any(|d| d.entry.is_some());
        let mut kept: BTreeMap<(String, String), (Option<String>, String)> = BTreeMap::new();
        let mut all = self
            .connection
            .prepare("SELECT kind, key, engine, body FROM state")?;
        let mut rows = all.query([])?;
        while let Some(row) = rows.next()? {
            let text = |at: usize| -> rusqlite::Result<Option<String>> {
                Ok(match row.get_ref(at)? {
                    ValueRef::Text(bytes) | ValueRef::Blob(bytes) => Some(readable(bytes)),
                    _ => None,
                })
            };
            let need = |at: usize| text(at).map(Option::unwrap_or_default);
            kept.insert((need(0)?, need(1)?), (text(2)?, need(3)?));
        }
        let count = kept.len();
        let mut past = Vec::with_capacity(entries.len());
        for entry in entries {
            match history::read(entry) {
                Ok(read) => past.push(read),
                Err(why) => {
                    differences.push(Difference {
                        entry: sound.then(|| entry.number()),
                        what: format!("entry {} does not read: {why}", entry.seq),
                    });
                    return Ok(count);
                }
            }
        }
        scans::check(&self.connection, &past, differences)?;
        let book = match history::fold(&past) {
            Ok(book) => book,
            Err(why) => {
                differences.push(Difference {
                    entry: None,
                    what: format!("the entries do not fold: {why}"),
                });
                return Ok(count);
            }
        };
        seek::check(&self.connection, &book, differences)?;
        for row in book.rows() {
            let name = (row.kind.word().to_string(), row.key.clone());
            let should = (
                book.row_engine(&row).map(|e| e.to_string()),
                book.row_text(&row).unwrap_or_default(),
            );
            let what = match kept.remove(&name) {
                Some(is) if is == should => continue,
                Some(_) => format!(
                    "the derived row {} {} is not what the entries say",
                    name.0, name.1
                ),
                None => format!("the derived row {} {} is missing", name.0, name.1),
            };
            differences.push(Difference {
                entry: newest(&should.1).filter(|_| sound),
                what,
            });
        }
        for (kind, key) in kept.into_keys() {
            differences.push(Difference {
                entry: None,
                what: format!("the derived row {kind} {key} comes from no entry"),
            });
        }
        Ok(count)
    }
}

/// The newest entry behind a derived row, which is where a reader should look.
fn newest(text: &str) -> Option<u64> {
    serde_json::from_str::<serde_json::Value>(text)
        .ok()?
        .get("last")?
        .as_u64()
}

/// Text for comparing and showing. Bytes that are no text are written out as such, so that they can
/// never pass for what was entered.
fn readable(bytes: &[u8]) -> String {
    match std::str::from_utf8(bytes) {
        Ok(text) => text.into(),
        Err(_) => format!("(no text) {bytes:02x?}"),
    }
}

/// Asks the database whether its own pages, indexes and columns hang together.
fn pages(
    connection: &rusqlite::Connection,
    differences: &mut Vec<Difference>,
) -> rusqlite::Result<()> {
    let mut ask = connection.prepare("PRAGMA integrity_check(20)")?;
    let mut rows = ask.query([])?;
    while let Some(row) = rows.next()? {
        let said: String = row.get(0)?;
        if said != "ok" {
            differences.push(Difference {
                entry: None,
                what: format!("the file does not hang together: {said}"),
            });
        }
    }
    Ok(())
}

/// Compares every object of the file with the layout, so that a dropped trigger is named.
fn layout(
    connection: &rusqlite::Connection,
    differences: &mut Vec<Difference>,
) -> rusqlite::Result<()> {
    let mut found: BTreeMap<String, String> = BTreeMap::new();
    let mut all =
        connection.prepare("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL")?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        found.insert(row.get(0)?, row.get(1)?);
    }
    for (name, sql) in schema::OBJECTS {
        let what = match found.remove(*name) {
            Some(is) if is == *sql => continue,
            Some(_) => format!("the guard or table `{name}` has been changed"),
            None => format!("the guard or table `{name}` is gone"),
        };
        differences.push(Difference { entry: None, what });
    }
    for name in schema::OF_SEEK {
        if found.remove(*name).is_none() {
            differences.push(Difference {
                entry: None,
                what: format!("the table `{name}` is gone"),
            });
        }
    }
    for name in found.into_keys() {
        differences.push(Difference {
            entry: None,
            what: format!("`{name}` does not belong in a book"),
        });
    }
    Ok(())
}

/// Follows the chain from the first entry to the head mark. After the first fault the rest is still
/// looked at, each against the hash its forerunner carries, so that every damaged entry is named.
///
/// `entries` are in the order of their numbers; `head` is the number and hash of the head mark. The
/// first difference that names an entry names the first that differs.
pub fn chain(entries: &[Entry], head: (u64, Hash)) -> Vec<Difference> {
    let mut differences = Vec::new();
    let mut before = Hash::NONE;
    let mut expected = 1u64;
    for entry in entries {
        let seq = entry.number();
        if seq == 0 {
            // It has no place in the count; the entry that is missing where it was is named below.
            differences.push(Difference {
                entry: None,
                what: format!("an entry numbered {} does not belong in a book", entry.seq),
            });
            continue;
        }
        let mut say = |entry: u64, what: String| {
            differences.push(Difference {
                entry: Some(entry),
                what,
            })
        };
        if seq != expected {
            say(
                expected,
                format!(
                    "entry {expected} is missing: {} follows {}",
                    entry.seq,
                    expected.saturating_sub(1)
                ),
            );
        }
        if let Some(fault) = entry.fault(before) {
            say(seq, format!("entry {} {fault}", entry.seq));
        }
        before = <[u8; 32]>::try_from(entry.hash.as_slice()).map_or(Hash::NONE, Hash);
        expected = seq.saturating_add(1);
    }
    let last = expected.saturating_sub(1);
    if head.0 != last {
        let gone = last.min(head.0) + 1;
        differences.push(Difference {
            entry: Some(gone),
            what: format!(
                "entry {gone} differs: the head mark says {} entries, and {last} are here",
                head.0
            ),
        });
    } else if head.1 != before {
        differences.push(Difference {
            entry: Some(last),
            what: format!("entry {last} is not the one the head mark was set on"),
        });
    }
    differences
}
