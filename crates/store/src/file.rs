//! Opening and making a book file, and refusing what is not one.

use std::path::{Path, PathBuf};

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use crate::error::StoreError;
use crate::{counted, header, schema};

/// An open book.
pub struct Store {
    pub(crate) connection: Connection,
    pub(crate) path: PathBuf,
}

impl Store {
    /// Makes a new, empty book file. If that fails half way, the file is taken away again.
    ///
    /// # Errors
    /// If a file stands there already, on a network share, or when the disk says no.
    pub fn create(path: &Path) -> Result<Store, StoreError> {
        refuse_network(path)?;
        // Making the file ourselves is the only way to be sure that nobody else has just done so.
        match std::fs::File::create_new(path) {
            Ok(_) => {}
            Err(why) if why.kind() == std::io::ErrorKind::AlreadyExists => {
                return Err(StoreError::Exists(path.into()));
            }
            Err(why) => {
                return Err(StoreError::Database(format!("{}: {why}", path.display())));
            }
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let made = Connection::open_with_flags(path, flags).and_then(|connection| {
            connection.pragma_update(None, "application_id", schema::APPLICATION_ID)?;
            connection.pragma_update(None, "user_version", schema::LAYOUT)?;
            connection.execute_batch(schema::CONNECTION)?;
            write_ahead(&connection)?;
            connection.execute_batch("BEGIN IMMEDIATE")?;
            for (_, sql) in schema::OBJECTS {
                connection.execute_batch(sql)?;
            }
            connection.execute_batch(schema::SEEK_FORGETS)?;
            connection.execute_batch("COMMIT")?;
            Ok(connection)
        });
        match made {
            Ok(connection) => Ok(Store {
                connection,
                path: path.into(),
            }),
            Err(why) => {
                for ours in [path, &header::log_of(path), &header::shared_of(path)] {
                    let _ = std::fs::remove_file(ours);
                }
                Err(StoreError::of(path)(why))
            }
        }
    }

    /// Opens a book. A file that is refused is not changed by a byte. One of an older layout has its
    /// derived rows folded anew; its entries are never touched.
    ///
    /// # Errors
    /// If there is none, it is not a book, it is cut short, a newer build wrote it, or it lies on a
    /// network share.
    pub fn open(path: &Path) -> Result<Store, StoreError> {
        if !path.is_file() {
            return Err(StoreError::Absent(path.into()));
        }
        refuse_network(path)?;
        header::look(path)?;
        let sql = StoreError::of(path);
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let mut connection = Connection::open_with_flags(path, flags).map_err(&sql)?;
        counted::watch(&mut connection).map_err(&sql)?;
        // Until the book is known to be ours, closing it must not fold its log into it.
        keep_log(&connection, true).map_err(&sql)?;
        connection.execute_batch(schema::CONNECTION).map_err(&sql)?;
        // Asked again of the database, because a newer header may still lie in the log.
        let layout: i64 = connection
            .pragma_query_value(None, "user_version", |row| row.get(0))
            .map_err(&sql)?;
        header::newer(path, layout)?;
        keep_log(&connection, false).map_err(&sql)?;
        write_ahead(&connection).map_err(&sql)?;
        let mut store = Store {
            connection,
            path: path.into(),
        };
        if layout < schema::LAYOUT {
            store.rebuild()?;
        }
        Ok(store)
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
            .map_err(|why| {
                // Half a copy would pass for a backup.
                let _ = std::fs::remove_file(to);
                StoreError::of(&self.path)(why)
            })?;
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

/// Keeps the book with a log written ahead. A book says so itself; a copy made by
/// [`Store::copy_to`] has to be told once.
fn write_ahead(connection: &Connection) -> rusqlite::Result<()> {
    let mode = |ask: &str| connection.query_row(ask, [], |row| row.get::<_, String>(0));
    if mode("PRAGMA journal_mode")? != "wal" {
        mode("PRAGMA journal_mode = WAL")?;
    }
    Ok(())
}

/// Whether closing the connection leaves the log as it is.
fn keep_log(connection: &Connection, keep: bool) -> rusqlite::Result<()> {
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, keep)?;
    Ok(())
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
