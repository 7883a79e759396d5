//! Which copies in a folder are kept: the newest ones, and the newest of each of the last months.

use std::path::{Path, PathBuf};

use jiff::civil::DateTime;

use crate::backup::keys_of;
use crate::error::StoreError;
use crate::file::Store;

/// How many copies are kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Keep {
    /// The newest, whatever their day.
    pub newest: usize,
    /// Beyond those, the newest of each month, for so many months that have one.
    pub months: usize,
}

/// A copy in a folder.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dated {
    /// When it was made, by its name.
    pub at: DateTime,
    /// The file.
    pub path: PathBuf,
}

/// The name of a copy made at a time: the book's own name, then day and time to the second.
pub fn dated_name(book: &Path, at: DateTime) -> String {
    format!("{}-{}.book", stem(book), at.strftime("%Y%m%d-%H%M%S"))
}

fn stem(book: &Path) -> String {
    let stem = book.file_stem().map(|s| s.to_string_lossy().into_owned());
    stem.unwrap_or_else(|| "book".into())
}

/// The whole copies of a book in a folder, oldest first: by name, and by their first entry, so that a file of
/// another book or of another program is never counted, and never taken away.
///
/// # Errors
/// If the folder or the book cannot be read.
pub fn copies(book: &Store, folder: &Path) -> Result<Vec<Dated>, StoreError> {
    let cannot = |why: std::io::Error| StoreError::Database(format!("{}: {why}", folder.display()));
    let origin = book.origin()?;
    let mut found = Vec::new();
    for file in std::fs::read_dir(folder).map_err(cannot)? {
        let path = file.map_err(cannot)?.path();
        let Some(at) = when(book.path(), &path) else {
            continue;
        };
        let same = Store::look_at(&path).and_then(|copy| copy.origin());
        if same.is_ok_and(|first| first == origin) {
            found.push(Dated { at, path });
        }
    }
    found.sort();
    Ok(found)
}

fn when(book: &Path, path: &Path) -> Option<DateTime> {
    let name = path.file_name()?.to_str()?;
    let rest = name.strip_prefix(&stem(book))?.strip_prefix('-')?;
    DateTime::strptime("%Y%m%d-%H%M%S", rest.strip_suffix(".book")?).ok()
}

/// Takes away the copies that the rule does not keep; gives those.
///
/// # Errors
/// If one cannot be taken away; the others stay.
pub fn rotate(copies: &[Dated], keep: Keep) -> Result<Vec<Dated>, StoreError> {
    let gone = not_kept(copies, keep);
    for copy in &gone {
        let away = |path: &Path| {
            std::fs::remove_file(path)
                .map_err(|why| StoreError::Database(format!("{}: {why}", path.display())))
        };
        away(&copy.path)?;
        let keys = keys_of(&copy.path);
        if keys.exists() {
            away(&keys)?;
        }
    }
    Ok(gone)
}

/// What the rule does not keep, of copies in order of their age. The newest is always kept.
pub fn not_kept(copies: &[Dated], keep: Keep) -> Vec<Dated> {
    let mut months = Vec::new();
    let mut gone = Vec::new();
    for (age, copy) in copies.iter().rev().enumerate() {
        if age < keep.newest.max(1) {
            continue;
        }
        let month = (copy.at.year(), copy.at.month());
        if !months.contains(&month) && months.len() < keep.months {
            months.push(month);
        } else {
            gone.push(copy.clone());
        }
    }
    gone.reverse();
    gone
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Dated {
        Dated {
            at: DateTime::strptime("%Y%m%d-%H%M%S", text).unwrap(),
            path: PathBuf::from(text),
        }
    }

    #[test]
    fn the_newest_are_kept_and_the_newest_of_each_month_before_them() {
        let names = [
            "20260105-180000",
            "20260120-180000",
            "20260210-180000",
            "20260211-180000",
            "20260401-180000",
            "20260402-180000",
            "20260403-180000",
        ];
        let all: Vec<_> = names.iter().map(|name| at(name)).collect();
        let gone = |newest, months| -> Vec<String> {
            let keep = Keep { newest, months };
            let gone = not_kept(&all, keep);
            gone.iter().map(|d| d.path.display().to_string()).collect()
        };
        assert_eq!(gone(7, 0), [""; 0]);
        assert_eq!(gone(2, 12), [names[0], names[2]]);
        assert_eq!(gone(3, 1), [names[0], names[1], names[2]]);
        assert_eq!(gone(3, 0), names[..4]);
        // Even a rule of nothing keeps the newest.
        assert_eq!(gone(0, 0), names[..6]);
    }
}
