//! What is kept beside a book about itself: settings of this machine, and when it was last copied to where.

use rusqlite::{OptionalExtension, params};

use crate::error::StoreError;
use crate::keys::Keys;

/// A copy that was made and proved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LastCopy {
    /// When, in seconds since 1970.
    pub at: i64,
    /// Where.
    pub place: String,
    /// The number of its last entry.
    pub entry: u64,
    /// Whether it lies on the book's own disk.
    pub same_disk: bool,
}

impl Keys {
    /// A setting of this machine, if it was set.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.connection
            .query_row("SELECT value FROM setting WHERE name = ?1", [name], |row| {
                row.get(0)
            })
            .optional()
            .map_err(StoreError::of(&self.path))
    }

    /// Sets one.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn set(&self, name: &str, value: &str) -> Result<(), StoreError> {
        self.connection
            .execute(
                "INSERT OR REPLACE INTO setting (name, value) VALUES (?1, ?2)",
                params![name, value],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// Takes note of a copy that was made and proved.
    ///
    /// # Errors
    /// If the file cannot be written.
    pub fn copied(&self, copy: &LastCopy) -> Result<(), StoreError> {
        self.connection
            .execute(
                "INSERT OR REPLACE INTO copied (at, place, entry, same_disk) VALUES (?1, ?2, ?3, ?4)",
                params![
                    copy.at,
                    copy.place,
                    i64::try_from(copy.entry).unwrap_or(i64::MAX),
                    copy.same_disk
                ],
            )
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// The copies noted here, newest first, so many at most.
    ///
    /// # Errors
    /// If the file cannot be read.
    pub fn copies(&self, most: u32) -> Result<Vec<LastCopy>, StoreError> {
        let sql = StoreError::of(&self.path);
        let mut found = self
            .connection
            .prepare_cached(
                "SELECT at, place, entry, same_disk FROM copied ORDER BY at DESC LIMIT ?1",
            )
            .map_err(&sql)?;
        let rows = found
            .query_map([most], |row| {
                Ok(LastCopy {
                    at: row.get(0)?,
                    place: row.get(1)?,
                    entry: u64::try_from(row.get::<_, i64>(2)?).unwrap_or(0),
                    same_disk: row.get(3)?,
                })
            })
            .map_err(&sql)?;
        rows.collect::<Result<_, _>>().map_err(&sql)
    }
}
