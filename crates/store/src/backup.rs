//! A whole copy of a book with its keys, and a book made again from one.
//!
//! A copy bears its name only once it is whole: it is made under another name, opened, checked from entry 1, held
//! against the book it is of, written through to the disk, and renamed. Nothing that stands there is overwritten.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags, OptionalExtension};
use rustix::fs::{CWD, RenameFlags, renameat_with};

use crate::check::Checked;
use crate::entry::Hash;
use crate::error::StoreError;
use crate::file::Store;
use crate::{header, schema};

/// Stands at the end of the name of a copy that is not whole yet, or never became so.
pub const HALF: &str = ".half";

/// A copy that was made and proved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copied {
    /// Where the book lies.
    pub book: PathBuf,
    /// Where its keys lie.
    pub keys: PathBuf,
    /// What the check of it said.
    pub checked: Checked,
    /// Whether it lies on the disk of the book it was made of, as far as the machine tells.
    pub same_disk: bool,
}

/// How a copy stands to a book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// Entry for entry the same.
    Equal,
    /// The same up to the copy's last entry; the book has so many more since.
    Behind(u64),
    /// They part at this entry: it is no copy of this book, or one of the two was changed.
    Parts(u64),
}

/// The keys beside a book.
pub fn keys_of(book: &Path) -> PathBuf {
    with_ending(book, ".keys")
}

fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    name.into()
}

impl Store {
    /// Copies the book and its keys while it is in use, proves the copy, and only then gives it its name.
    ///
    /// # Errors
    /// If a file stands there, the disk says no or is full, or the copy is not what the book is. The half copy is
    /// taken away then.
    pub fn copy_whole(&self, to: &Path) -> Result<Copied, StoreError> {
        let half = with_ending(to, HALF);
        free(to)?;
        let made = (|| {
            discard(&half);
            self.copy_to(&half)?;
            copy_keys(&keys_of(self.path()), &keys_of(&half))?;
            let copy = Store::look_at(&half)?;
            let checked = sound(&copy, &half)?;
            if let Relation::Parts(at) = self.relation(&copy)? {
                return Err(damaged(
                    &half,
                    &format!("it differs from the book at entry {at}"),
                ));
            }
            drop(copy);
            settle(&half, to)?;
            Ok(checked)
        })();
        match made {
            Ok(checked) => Ok(Copied {
                book: to.into(),
                keys: keys_of(to),
                checked,
                same_disk: same_disk(self.path(), to),
            }),
            Err(why) => {
                discard(&half);
                Err(why)
            }
        }
    }

    /// Opens a copy to look at it. It is not changed by a byte, and nothing is left beside it.
    ///
    /// # Errors
    /// If there is none, or it is no book of ours.
    pub fn look_at(path: &Path) -> Result<Store, StoreError> {
        if !path.is_file() {
            return Err(StoreError::Absent(path.into()));
        }
        header::look(path)?;
        if header::log_of(path).exists() {
            return Err(damaged(
                path,
                "a log lies beside it: it is a book in use, or was copied by hand while it was",
            ));
        }
        let sql = StoreError::of(path);
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY
            | OpenFlags::SQLITE_OPEN_URI
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        // Told that nobody changes it, SQLite takes no locks and makes no log: a share or a write-protected stick will do.
        let connection = Connection::open_with_flags(uri(path), flags).map_err(&sql)?;
        connection.execute_batch(schema::CONNECTION).map_err(&sql)?;
        Ok(Store {
            connection,
            path: path.into(),
        })
    }

    /// How a copy stands to this book, entry by entry.
    ///
    /// # Errors
    /// If either cannot be read.
    pub fn relation(&self, copy: &Store) -> Result<Relation, StoreError> {
        let (ours, theirs) = (self.hashes()?, copy.hashes()?);
        let part = ours.iter().zip(&theirs).position(|(a, b)| a != b);
        let number = |n: usize| u64::try_from(n).unwrap_or(u64::MAX);
        Ok(match part {
            Some(at) => Relation::Parts(number(at) + 1),
            None if theirs.len() > ours.len() => Relation::Parts(number(ours.len()) + 1),
            None if theirs.len() == ours.len() => Relation::Equal,
            None => Relation::Behind(number(ours.len() - theirs.len())),
        })
    }

    /// The hash of the first entry: the same in every copy of one book, and in no other.
    ///
    /// # Errors
    /// If the book cannot be read.
    pub fn origin(&self) -> Result<Option<Hash>, StoreError> {
        let first = "SELECT hash FROM entry ORDER BY seq LIMIT 1";
        let found = self.connection.query_row(first, [], hash_of).optional();
        found.map_err(StoreError::of(&self.path))
    }

    fn hashes(&self) -> Result<Vec<Hash>, StoreError> {
        let sql = StoreError::of(&self.path);
        let mut all = self
            .connection
            .prepare_cached("SELECT hash FROM entry ORDER BY seq")
            .map_err(&sql)?;
        let rows = all.query_map([], hash_of).map_err(&sql)?;
        rows.collect::<Result<_, _>>().map_err(&sql)
    }
}

fn hash_of(row: &rusqlite::Row<'_>) -> rusqlite::Result<Hash> {
    let bytes: Vec<u8> = row.get(0)?;
    Ok(<[u8; 32]>::try_from(bytes.as_slice()).map_or(Hash::NONE, Hash))
}

/// Makes a book again from a copy, with the keys that lie beside it, and proves it. The copy stays as it is.
///
/// # Errors
/// If a file stands there, the copy is not whole, or the disk says no. What was made half way is taken away.
pub fn restore(copy: &Path, to: &Path) -> Result<(Checked, bool), StoreError> {
    free(to)?;
    let half = with_ending(to, HALF);
    let made = (|| {
        discard(&half);
        let of = Store::look_at(copy)?;
        put(copy, &half)?;
        let with_keys = keys_of(copy).is_file();
        if with_keys {
            put(&keys_of(copy), &keys_of(&half))?;
        }
        let book = Store::open(&half)?;
        let checked = sound(&book, &half)?;
        if book.relation(&of)? != Relation::Equal {
            return Err(damaged(&half, "it is not what the copy is"));
        }
        drop(book);
        settle(&half, to)?;
        Ok((checked, with_keys))
    })();
    if made.is_err() {
        discard(&half);
    }
    made
}

/// Whether two places lie on one disk, as far as the machine tells; the folder is asked where a file is not made yet.
pub fn same_disk(one: &Path, other: &Path) -> bool {
    let device = |path: &Path| {
        let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
        let place = if path.exists() {
            path
        } else {
            folder.unwrap_or(Path::new("."))
        };
        rustix::fs::stat(place).ok().map(|about| about.st_dev)
    };
    let (one, other) = (device(one), device(other));
    one.is_some() && one == other
}

fn damaged(path: &Path, why: &str) -> StoreError {
    StoreError::Damaged {
        path: path.into(),
        why: why.into(),
    }
}

fn sound(book: &Store, path: &Path) -> Result<Checked, StoreError> {
    let checked = book.check()?;
    match checked.differences.first() {
        Some(first) => Err(damaged(path, &first.what)),
        None => Ok(checked),
    }
}

fn free(to: &Path) -> Result<(), StoreError> {
    for place in [to.to_path_buf(), keys_of(to)] {
        if place.exists() {
            return Err(StoreError::Exists(place));
        }
    }
    Ok(())
}

/// The keys as one file that stands by itself. Who may read it may let himself in, so only the owner may.
fn copy_keys(from: &Path, to: &Path) -> Result<(), StoreError> {
    let sql = StoreError::of(from);
    // A book that nobody has opened at the desk yet has none; the copy then gets an empty set.
    let keys = crate::keys::Keys::of_file(from)?;
    let name = to
        .to_str()
        .ok_or_else(|| StoreError::Database("the name of the copy is not text".into()))?;
    keys.connection()
        .execute("VACUUM INTO ?1", [name])
        .map_err(&sql)?;
    crate::keys::owner_only(to);
    Ok(())
}

fn put(from: &Path, to: &Path) -> Result<(), StoreError> {
    std::fs::copy(from, to).map_err(|why| disk(to, &why))?;
    Ok(())
}

fn disk(path: &Path, why: &std::io::Error) -> StoreError {
    let told = format!("{}: {why}", path.display());
    match why.kind() {
        std::io::ErrorKind::StorageFull | std::io::ErrorKind::FileTooLarge => {
            StoreError::Full(told)
        }
        std::io::ErrorKind::AlreadyExists => StoreError::Exists(path.into()),
        _ => StoreError::Database(told),
    }
}

/// Writes a half copy through to the disk and gives it its name: the keys first, so that a book that bears its name
/// is whole.
fn settle(half: &Path, to: &Path) -> Result<(), StoreError> {
    for (from, to) in [(keys_of(half), keys_of(to)), (half.into(), to.into())] {
        if !from.is_file() {
            continue;
        }
        let through = std::fs::File::open(&from).and_then(|file| file.sync_all());
        through.map_err(|why| disk(&from, &why))?;
        name(&from, &to).map_err(|why| disk(&to, &why))?;
    }
    // The new names must be on the disk too; a file system that cannot be asked keeps them in its own time.
    let folder = to.parent().filter(|p| !p.as_os_str().is_empty());
    let _ = std::fs::File::open(folder.unwrap_or(Path::new("."))).and_then(|f| f.sync_all());
    Ok(())
}

fn name(from: &Path, to: &Path) -> std::io::Result<()> {
    match renameat_with(CWD, from, CWD, to, RenameFlags::NOREPLACE) {
        Ok(()) => Ok(()),
        // Some sticks' file systems cannot promise that nothing is replaced; we looked a moment ago.
        Err(rustix::io::Errno::INVAL | rustix::io::Errno::NOSYS) if !to.exists() => {
            std::fs::rename(from, to)
        }
        Err(why) => Err(why.into()),
    }
}

/// Takes away what was made half way.
fn discard(half: &Path) {
    for ours in [half.to_path_buf(), keys_of(half)] {
        for ending in ["", "-wal", "-shm", "-journal"] {
            let _ = std::fs::remove_file(with_ending(&ours, ending));
        }
    }
}

/// A file as SQLite is to open it: it will not change while we look.
fn uri(path: &Path) -> String {
    let mut name = String::from("file:");
    for byte in path.as_os_str().as_encoded_bytes() {
        match byte {
            byte if byte.is_ascii() && !b"?#%".contains(byte) => name.push(char::from(*byte)),
            byte => name.push_str(&format!("%{byte:02X}")),
        }
    }
    name.push_str("?immutable=1");
    name
}
