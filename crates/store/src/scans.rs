//! What photographs and scans show: bytes in the book, under their own hash, in pieces.
//!
//! An entry says that a photograph was put in the book and gives its hash; the bytes lie here, once, however many
//! entries speak of them. They are never changed and never removed, like the entries themselves.

use std::collections::BTreeSet;

use rusqlite::{Connection, params};
use sha2::{Digest, Sha256};
use shop::book::{PhotoAdded, Statement};

use crate::check::Difference;
use crate::error::StoreError;
use crate::file::Store;
use crate::history::Read;
use crate::schema;

/// The largest photograph or scan a book takes, in bytes.
pub const MOST_SCAN: usize = 16 * 1024 * 1024;

/// The name bytes go by: their SHA-256 in 64 lower-case hexadecimal digits.
pub fn name_of(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Store {
    /// What lies in the book under a hash, whole; nothing where nothing does.
    ///
    /// # Errors
    /// If the database fails, or what lies there is not what the hash says.
    pub fn scan_of(&self, sha256: &str) -> Result<Option<Vec<u8>>, StoreError> {
        let found = read(&self.connection, sha256).map_err(StoreError::of(&self.path))?;
        match found {
            Some(bytes) if name_of(&bytes) != sha256 => Err(StoreError::Damaged {
                path: self.path.clone(),
                why: format!("the photograph {sha256} is not what was put in"),
            }),
            found => Ok(found),
        }
    }
}

fn read(connection: &Connection, sha256: &str) -> rusqlite::Result<Option<Vec<u8>>> {
    let mut all =
        connection.prepare_cached("SELECT body FROM scan WHERE sha256 = ?1 ORDER BY piece")?;
    let mut rows = all.query([sha256])?;
    let mut whole: Option<Vec<u8>> = None;
    while let Some(row) = rows.next()? {
        let piece = row.get_ref(0)?.as_blob().unwrap_or_default();
        whole.get_or_insert_default().extend_from_slice(piece);
    }
    Ok(whole)
}

fn is_there(connection: &Connection, sha256: &str) -> rusqlite::Result<bool> {
    let mut found = connection.prepare_cached("SELECT 1 FROM scan WHERE sha256 = ?1")?;
    found.exists([sha256])
}

/// Puts bytes under their hash, if they are not there.
pub(crate) fn keep(connection: &Connection, bytes: &[u8]) -> rusqlite::Result<()> {
    let name = name_of(bytes);
    if is_there(connection, &name)? {
        return Ok(());
    }
    let mut put =
        connection.prepare_cached("INSERT INTO scan (sha256, piece, body) VALUES (?1, ?2, ?3)")?;
    for (piece, body) in (0i64..).zip(bytes.chunks(schema::PIECE)) {
        put.execute(params![name, piece, body])?;
    }
    Ok(())
}

/// The first of these statements that speaks of a photograph whose bytes are not in the book.
pub(crate) fn lacking<'s>(
    connection: &Connection,
    statements: &'s [Statement],
) -> rusqlite::Result<Option<&'s PhotoAdded>> {
    for statement in statements {
        if let Statement::PhotoAdded(it) = statement
            && !is_there(connection, &it.sha256)?
        {
            return Ok(Some(it));
        }
    }
    Ok(None)
}

/// Holds everything that entries say of photographs against what lies here, and the other way round.
pub(crate) fn check(
    connection: &Connection,
    past: &[Read],
    differences: &mut Vec<Difference>,
) -> rusqlite::Result<()> {
    let mut spoken_of = BTreeSet::new();
    for read in past {
        let corrected = match &read.statement {
            Statement::Correction(it) => it.statement().ok(),
            _ => None,
        };
        let Statement::PhotoAdded(it) = corrected.as_ref().unwrap_or(&read.statement) else {
            continue;
        };
        if !spoken_of.insert(it.sha256.clone()) {
            continue;
        }
        let what = match self::read(connection, &it.sha256)? {
            Some(bytes) if name_of(&bytes) == it.sha256 => continue,
            Some(_) => "is not what was put in",
            None => "is gone",
        };
        differences.push(Difference {
            entry: Some(read.meta.seq),
            what: format!(
                "entry {}: what the photograph `{}` shows {what}",
                read.meta.seq, it.name
            ),
        });
    }
    let mut all = connection.prepare("SELECT DISTINCT sha256 FROM scan ORDER BY sha256")?;
    let names = all.query_map([], |row| row.get::<_, String>(0))?;
    for name in names {
        let name = name?;
        if !spoken_of.contains(&name) {
            differences.push(Difference {
                entry: None,
                what: format!("a photograph {name} lies in the book that no entry speaks of"),
            });
        }
    }
    Ok(())
}
