//! Opening and making a book file, and refusing what is not one.

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags};

use crate::error::StoreError;
use crate::schema;

/// An open book.
pub struct Store {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
}

impl Store {
    /// Makes a new, empty book file.
    ///
    /// # Errors
    /// If a file stands there already, on a network share, or when the disk says no.
    pub fn create(path: &Path) -> Result<Store, StoreError> {
        if path.exists() {
            return Err(StoreError::Exists(path.into()));
        }
        refuse_network(path)?;
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
            | OpenFlags::SQLITE_OPEN_CREATE
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags).map_err(StoreError::of(path))?;
        let made = (|| {
            connection.pragma_update(None, "application_id", schema::APPLICATION_ID)?;
            connection.pragma_update(None, "user_version", schema::LAYOUT)?;
            connection.query_row("PRAGMA journal_mode = WAL", [], |_| Ok(()))?;
            connection.execute_batch(schema::CONNECTION)?;
            connection.execute_batch("BEGIN IMMEDIATE")?;
            for (_, sql) in schema::OBJECTS {
                connection.execute_batch(sql)?;
            }
            connection.execute_batch("COMMIT")
        })();
        made.map_err(StoreError::of(path))?;
        Ok(Store {
            connection,
            path: path.into(),
        })
    }

    /// Opens a book.
    ///
    /// # Errors
    /// If there is none, it is not a book, it is damaged, a newer build wrote it, or it lies on a
    /// network share.
    pub fn open(path: &Path) -> Result<Store, StoreError> {
        if !path.is_file() {
            return Err(StoreError::Absent(path.into()));
        }
        refuse_network(path)?;
        let foreign = |why: &str| StoreError::Foreign {
            path: path.into(),
            why: why.into(),
        };
        if std::fs::metadata(path).is_ok_and(|m| m.len() == 0) {
            return Err(foreign("it is empty"));
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags).map_err(StoreError::of(path))?;
        let number =
            |name: &str| connection.pragma_query_value(None, name, |row| row.get::<_, i64>(0));
        if number("application_id").map_err(StoreError::of(path))? != schema::APPLICATION_ID {
            return Err(foreign("it is a database of another program"));
        }
        let layout = number("user_version").map_err(StoreError::of(path))?;
        if layout > schema::LAYOUT {
            return Err(StoreError::Newer {
                path: path.into(),
                found: layout,
                known: schema::LAYOUT,
            });
        }
        connection
            .execute_batch(schema::CONNECTION)
            .map_err(StoreError::of(path))?;
        // A file cut short keeps its first page: ask how long it should be before anyone trusts it.
        let pages = number("page_count").map_err(StoreError::of(path))?;
        let size = number("page_size").map_err(StoreError::of(path))?;
        let is = std::fs::metadata(path).map(|m| m.len()).unwrap_or(0);
        let wal = path.with_extension("book-wal");
        let waiting = std::fs::metadata(wal).is_ok_and(|m| m.len() > 0);
        if !waiting && i64::try_from(is).unwrap_or(i64::MAX) < pages.saturating_mul(size) {
            return Err(StoreError::Damaged {
                path: path.into(),
                why: "the file is shorter than it says it is".into(),
            });
        }
        Ok(Store {
            connection,
            path: path.into(),
        })
    }

    /// Copies the book, whole and as of now, to a new file.
    ///
    /// # Errors
    /// If a file stands there, or the disk says no.
    pub fn copy_to(&self, to: &Path) -> Result<(), StoreError> {
        if to.exists() {
            return Err(StoreError::Exists(to.into()));
        }
        let text = to
            .to_str()
            .ok_or_else(|| StoreError::Database("the name of the copy is not text".into()))?;
        self.connection
            .execute("VACUUM INTO ?1", [text])
            .map_err(StoreError::of(&self.path))?;
        Ok(())
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }
}

impl Drop for Store {
    fn drop(&mut self) {
        // The last one out folds the write-ahead log into the file; failing that, the next one does.
        let _ = self
            .connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()));
    }
}

/// Refuses a file on a network share, where locks do not keep writers apart.
#[allow(
    clippy::useless_conversion,
    reason = "the type of f_type differs between systems"
)]
fn refuse_network(path: &Path) -> Result<(), StoreError> {
    let folder = if path.exists() {
        path
    } else {
        path.parent()
            .filter(|p| !p.as_os_str().is_empty())
            .unwrap_or(Path::new("."))
    };
    // Magic numbers of the network file systems that Linux names in statfs(2).
    const NETWORK: [i64; 6] = [
        0x6969,
        0x517B,
        0xFE53_4D42,
        0xFF53_4D42,
        0x0102_1997,
        0x5346_414F,
    ];
    match rustix::fs::statfs(folder) {
        Ok(about) if NETWORK.contains(&(i64::from(about.f_type) & 0xFFFF_FFFF)) => {
            Err(StoreError::Network(path.into()))
        }
        _ => Ok(()),
    }
}
