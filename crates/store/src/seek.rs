//! Finding things by their words: a full-text index over the derived rows, and what is found with it.
//!
//! It is derived like the rows themselves: table `said` holds the words of each row, and `seek` is SQLite's full-text
//! index (FTS5) over it. Both can be dropped and made again.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};
use shop::book::{Book, LocomotiveId, Row, RowKind, Wanted, row_words};

use crate::check::Difference;
use crate::error::StoreError;
use crate::file::Store;
use crate::read::{self, LoadError};

/// The most hits of a kind that are given; how many there are is told.
pub const MOST_OF_A_KIND: usize = 25;

/// One thing found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hit {
    /// Which row.
    pub row: Row,
    /// Its text.
    pub text: String,
}

/// What was found: the hits by kind, the newest rows first, and a book that holds them with the parts they hang on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// How many there are of each kind, and the first of them.
    pub kinds: BTreeMap<RowKind, (usize, Vec<Hit>)>,
    /// A book of what they speak of: the shop's own rows, every engine, the hits, their parts.
    pub book: Book,
}

impl Store {
    /// Finds every thing that says all of what is wanted; of one engine alone, where one is named.
    ///
    /// # Errors
    /// If a row does not read, or the database fails.
    pub fn find(
        &self,
        wanted: &[Wanted],
        engine: Option<LocomotiveId>,
    ) -> Result<Found, StoreError> {
        find(&self.connection, wanted, engine).map_err(|e| e.into_store(&self.path))
    }
}

/// What is wanted, in the words of the index. Every word is quoted, so that none of them is an operator.
fn expression(wanted: &[Wanted]) -> String {
    let way = |terms: &Vec<shop::book::Term>| {
        let terms = terms.iter().map(|term| {
            let word = term.word.replace('"', "");
            format!("\"{word}\"{}", if term.begins { "*" } else { "" })
        });
        let all: Vec<String> = terms.collect();
        format!("({})", all.join(" AND "))
    };
    let all = wanted.iter().map(|one| {
        let ways: Vec<String> = one.ways.iter().map(way).collect();
        format!("({})", ways.join(" OR "))
    });
    all.collect::<Vec<_>>().join(" AND ")
}

fn find(
    connection: &Connection,
    wanted: &[Wanted],
    engine: Option<LocomotiveId>,
) -> Result<Found, LoadError> {
    let mut book = read::load_of_shop(connection)?;
    read::take(
        connection,
        &mut book,
        "SELECT kind, key, body FROM state WHERE kind = ?1",
        &[RowKind::Locomotive.word()],
    )?;
    let mut kinds: BTreeMap<RowKind, (usize, Vec<Hit>)> = BTreeMap::new();
    if !wanted.is_empty() {
        const SQL: &str = "SELECT said.kind, said.key FROM seek JOIN said ON said.id = seek.rowid \
            WHERE seek MATCH ?1 ORDER BY seek.rowid DESC";
        let mut all = connection.prepare_cached(SQL)?;
        let mut rows = all.query([expression(wanted)])?;
        let mut body = connection
            .prepare_cached("SELECT engine, body FROM state WHERE kind = ?1 AND key = ?2")?;
        let only = engine.map(|id| id.to_string());
        while let Some(row) = rows.next()? {
            let (kind, key): (String, String) = (row.get(0)?, row.get(1)?);
            let Some(known) = RowKind::from_word(&kind) else {
                continue;
            };
            let (count, hits) = kinds.entry(known).or_default();
            // Beyond those that are given nothing is read, unless only some of them count.
            if hits.len() >= MOST_OF_A_KIND && only.is_none() {
                *count += 1;
                continue;
            }
            let kept = body.query_row([&kind, &key], |row| {
                Ok((row.get::<_, Option<String>>(0)?, row.get::<_, String>(1)?))
            });
            let Some((hers, text)) = kept.optional()? else {
                continue;
            };
            if only.is_some() && hers != only {
                continue;
            }
            *count += 1;
            if hits.len() < MOST_OF_A_KIND {
                let row = Row { kind: known, key };
                book.take_row(&row, &text).map_err(LoadError::Row)?;
                hits.push(Hit { row, text });
            }
        }
        kinds.retain(|_, (count, _)| *count > 0);
    }
    for part in parts_of(&book) {
        const SQL: &str = "SELECT kind, key, body FROM state WHERE kind = ?1 AND key = ?2";
        read::take(connection, &mut book, SQL, &[RowKind::Part.word(), &part])?;
    }
    Ok(Found { kinds, book })
}

/// The parts that things in a book hang on.
fn parts_of(book: &Book) -> BTreeSet<String> {
    let findings = book.findings.values().map(|it| it.part);
    let tools = book.tooling.values().map(|it| it.part);
    let photos = book.photos.values().filter_map(|it| it.part);
    let readings = book.readings.all().map(|(part, _)| part);
    let all = findings.chain(tools).chain(photos).chain(readings);
    all.map(|part| part.to_string()).collect()
}

const SAY: &str = "INSERT INTO said (kind, key, words) VALUES (?1, ?2, ?3)";

/// The words kept of a row, with their number in the index.
fn kept(connection: &Connection, row: &Row) -> rusqlite::Result<Option<(i64, String)>> {
    let mut kept =
        connection.prepare_cached("SELECT id, words FROM said WHERE kind = ?1 AND key = ?2")?;
    kept.query_row([row.kind.word(), &row.key], |row| {
        Ok((row.get(0)?, row.get(1)?))
    })
    .optional()
}

/// Keeps the words of a row, new or not; none of a row that is gone.
pub(crate) fn put(connection: &Connection, row: &Row, text: Option<&str>) -> rusqlite::Result<()> {
    if !shop::book::is_found(row.kind) {
        return Ok(());
    }
    put_words(
        connection,
        row,
        text.and_then(|text| row_words(row.kind, text)),
    )
}

fn put_words(connection: &Connection, row: &Row, words: Option<String>) -> rusqlite::Result<()> {
    let kept = kept(connection, row)?;
    if kept.as_ref().map(|(_, words)| words) == words.as_ref() {
        return Ok(());
    }
    if let Some((id, old)) = kept {
        // The index is told what it held, since it keeps no text of its own.
        connection
            .prepare_cached("INSERT INTO seek (seek, rowid, words) VALUES ('delete', ?1, ?2)")?
            .execute(params![id, old])?;
        connection
            .prepare_cached("DELETE FROM said WHERE id = ?1")?
            .execute([id])?;
    }
    if let Some(words) = words {
        connection
            .prepare_cached(SAY)?
            .execute(params![row.kind.word(), row.key, words])?;
        connection
            .prepare_cached("INSERT INTO seek (rowid, words) VALUES (?1, ?2)")?
            .execute(params![connection.last_insert_rowid(), words])?;
    }
    Ok(())
}

/// With more rows than this to be put right, the index is made anew from all of them: to take one out of it costs as much
/// as there are rows with words like its own.
const MANY: usize = 500;

/// Makes the words right for every row that stands, as if all were dropped and made again.
pub(crate) fn put_right(connection: &Connection, book: &Book) -> rusqlite::Result<()> {
    let rows = book.rows();
    let rows = || rows.iter().filter(|row| shop::book::is_found(row.kind));
    let wanted: BTreeSet<(&str, &str)> = rows()
        .map(|row| (row.kind.word(), row.key.as_str()))
        .collect();
    let mut strays = Vec::new();
    {
        let mut all = connection.prepare_cached("SELECT id, kind, key FROM said")?;
        let mut found = all.query([])?;
        while let Some(row) = found.next()? {
            let (id, kind, key): (i64, String, String) = (row.get(0)?, row.get(1)?, row.get(2)?);
            if !wanted.contains(&(kind.as_str(), key.as_str())) {
                strays.push(id);
            }
        }
    }
    let mut wrong = Vec::new();
    for row in rows() {
        let text = book.row_text(row);
        let words = text.as_deref().and_then(|text| row_words(row.kind, text));
        if kept(connection, row)?.map(|(_, words)| words) != words {
            wrong.push((row, words));
        }
    }
    if strays.is_empty() && wrong.len() <= MANY {
        for (row, words) in wrong {
            put_words(connection, row, words)?;
        }
        return Ok(());
    }
    let mut away = connection.prepare_cached("DELETE FROM said WHERE id = ?1")?;
    for id in strays {
        away.execute([id])?;
    }
    let mut away = connection.prepare_cached("DELETE FROM said WHERE kind = ?1 AND key = ?2")?;
    let mut put = connection.prepare_cached(SAY)?;
    for (row, words) in wrong {
        away.execute([row.kind.word(), &row.key])?;
        if let Some(words) = words {
            put.execute(params![row.kind.word(), row.key, words])?;
        }
    }
    connection.execute("INSERT INTO seek (seek) VALUES ('rebuild')", [])?;
    Ok(())
}

/// Holds the words against the rows they are of.
pub(crate) fn check(
    connection: &Connection,
    book: &Book,
    differences: &mut Vec<Difference>,
) -> rusqlite::Result<()> {
    let mut kept: BTreeMap<(String, String), String> = BTreeMap::new();
    let mut all = connection.prepare("SELECT kind, key, words FROM said")?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        kept.insert((row.get(0)?, row.get(1)?), row.get(2)?);
    }
    let mut say = |kind: &str, key: &str, what: &str| {
        differences.push(Difference {
            entry: None,
            what: format!("the words that the row {kind} {key} is found by {what}"),
        });
    };
    for row in book.rows() {
        let words = book
            .row_text(&row)
            .and_then(|text| row_words(row.kind, &text));
        let name = (row.kind.word().to_string(), row.key.clone());
        match (kept.remove(&name), words) {
            (Some(is), Some(should)) if is == should => {}
            (None, None) => {}
            (None, Some(_)) => say(&name.0, &name.1, "are missing"),
            _ => say(&name.0, &name.1, "are not what it says"),
        }
    }
    for (kind, key) in kept.into_keys() {
        say(&kind, &key, "come from no row");
    }
    Ok(())
}
