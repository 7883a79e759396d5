//! The first hundred bytes of a file, read before the database may touch it.
//!
//! A foreign file must stay as it is to the last byte, and a database that opens a file may fold a
//! waiting log into it or leave files beside it. So the file is looked at here first. Positions in
//! the header: <https://www.sqlite.org/fileformat.html>, section 1.3, *The Database Header*.

use std::ffi::OsString;
use std::io::Read;
use std::path::{Path, PathBuf};

use crate::error::StoreError;
use crate::schema;

const LENGTH: usize = 100;
const MAGIC: &[u8; 16] = b"SQLite format 3\0";

/// Refuses a file that is not a whole book of ours, without opening it as a database.
///
/// # Errors
/// Foreign, newer, damaged (cut short), or a file that cannot be read at all.
pub(crate) fn look(path: &Path) -> Result<(), StoreError> {
    let cannot = |why: std::io::Error| StoreError::Database(format!("{}: {why}", path.display()));
    let foreign = |why: &str| StoreError::Foreign {
        path: path.into(),
        why: why.into(),
    };
    let cut = |why: &str| StoreError::Damaged {
        path: path.into(),
        why: why.into(),
    };
    let file = std::fs::File::open(path).map_err(cannot)?;
    let length = file.metadata().map_err(cannot)?.len();
    let mut head = Vec::with_capacity(LENGTH);
    file.take(LENGTH as u64)
        .read_to_end(&mut head)
        .map_err(cannot)?;
    if head.is_empty() {
        return Err(foreign("it is empty"));
    }
    let common = head.len().min(MAGIC.len());
    if head.get(..common) != MAGIC.get(..common) {
        return Err(foreign("it is no database file"));
    }
    let number = |at: usize| {
        let bytes = head.get(at..at + 4)?;
        Some(u32::from_be_bytes(bytes.try_into().ok()?))
    };
    let (Some(pages), Some(layout), Some(application)) = (number(28), number(60), number(68))
    else {
        return Err(cut("it ends inside its first hundred bytes"));
    };
    if i64::from(application) != schema::APPLICATION_ID {
        return Err(foreign("it is a database of another program"));
    }
    newer(path, i64::from(layout))?;
    if head.len() < LENGTH {
        return Err(cut("it ends inside its first hundred bytes"));
    }
    // Two bytes hold the page size; 65536 does not fit and is written as 1.
    let size = match head.get(16..18) {
        Some([0, 1]) => 65_536,
        Some([high, low]) => u64::from(*high) * 256 + u64::from(*low),
        _ => 0,
    };
    // With a log waiting, the last pages may lie there: the database itself sees to that.
    if !log_waits(path) && length < u64::from(pages) * size {
        return Err(cut(&format!(
            "it is {length} bytes long and says that it has {pages} pages of {size}"
        )));
    }
    Ok(())
}

/// Refuses a layout that this build does not know.
pub(crate) fn newer(path: &Path, layout: i64) -> Result<(), StoreError> {
    if layout > schema::LAYOUT {
        return Err(StoreError::Newer {
            path: path.into(),
            found: layout,
            known: schema::LAYOUT,
        });
    }
    Ok(())
}

/// The file beside a book in which its newest changes may lie: the whole name, and then `-wal`.
pub(crate) fn log_of(path: &Path) -> PathBuf {
    beside(path, "-wal")
}

/// The file beside a book that its readers share.
pub(crate) fn shared_of(path: &Path) -> PathBuf {
    beside(path, "-shm")
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    name.into()
}

fn log_waits(path: &Path) -> bool {
    std::fs::metadata(log_of(path)).is_ok_and(|m| m.len() > 0)
}
