//! What can go wrong with a book: a refusal, bad input, or a file or machine that failed.

use std::path::PathBuf;

/// What kind of failure; the shell turns it into an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// The book's rules say no. Exit code 1.
    Refused,
    /// What was entered is wrong. Exit code 2.
    Input,
    /// The book or the machine failed. Exit code 3.
    Machine,
}

/// An error of the store. Nothing was saved where one is returned from a write.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// A verb said no.
    #[error(transparent)]
    Refused(#[from] shop::Refusal),
    /// There is no such file.
    #[error("There is no book at {0}. A book is made with `outshop new`.")]
    Absent(PathBuf),
    /// A file stands where a new book was to be made.
    #[error("{0} exists already; a new book never overwrites a file. Give a name that is free.")]
    Exists(PathBuf),
    /// The file is not a book of ours.
    #[error(
        "{path} is not a book of this program: {why}. It was not changed. Name the right file."
    )]
    Foreign {
        /// The file.
        path: PathBuf,
        /// What was seen instead.
        why: String,
    },
    /// The file was written by a newer build.
    #[error(
        "{path} has the layout {found}; this build knows {known}. It was not changed. Use the newer program."
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its layout.
        found: i64,
        /// Ours.
        known: i64,
    },
    /// The file lies on a network share.
    #[error(
        "{0} lies on a network share, where two writers cannot be kept apart. Nothing was saved there. Keep the book on this machine's own disk."
    )]
    Network(PathBuf),
    /// The file is damaged.
    #[error(
        "{path} is damaged: {why}. Nothing was changed. Set the file aside as it is, and go on from the last backup."
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was seen.
        why: String,
    },
    /// The disk is full.
    #[error(
        "The disk is full ({0}). The entry was not saved; what was in the book before still is. Make room, then enter it again."
    )]
    Full(String),
    /// Somebody else is writing and did not finish in time.
    #[error(
        "The book is being written to by somebody else, who did not finish in time. The entry was not saved; try again."
    )]
    Busy,
    /// The same id came with another statement.
    #[error(
        "Entry {seq} has this id already and says something else. Nothing was saved. Look at that entry; what is new is entered anew."
    )]
    OtherBody {
        /// The entry that has the id.
        seq: u64,
    },
    /// The database said something else.
    #[error(
        "The book could not be read or written: {0}. Nothing was saved. See to the disk and to who may write there, then run `outshop check`."
    )]
    Database(String),
}

impl StoreError {
    /// What kind of failure it is.
    pub fn class(&self) -> Class {
        match self {
            StoreError::Refused(refusal) => match refusal.class {
                shop::Class::Refused => Class::Refused,
                shop::Class::Input => Class::Input,
            },
            StoreError::OtherBody { .. } => Class::Refused,
            StoreError::Exists(_) | StoreError::Absent(_) => Class::Input,
            StoreError::Foreign { .. }
            | StoreError::Newer { .. }
            | StoreError::Network(_)
            | StoreError::Damaged { .. }
            | StoreError::Full(_)
            | StoreError::Busy
            | StoreError::Database(_) => Class::Machine,
        }
    }

    /// Turns a database error into one that says what happened to this file.
    pub(crate) fn of(path: &std::path::Path) -> impl Fn(rusqlite::Error) -> StoreError + '_ {
        move |error| {
            use rusqlite::ErrorCode;
            match error.sqlite_error_code() {
                Some(ErrorCode::NotADatabase) => StoreError::Foreign {
                    path: path.into(),
                    why: "it is no database file".into(),
                },
                Some(ErrorCode::DatabaseCorrupt) => StoreError::Damaged {
                    path: path.into(),
                    why: error.to_string(),
                },
                Some(ErrorCode::DiskFull) => StoreError::Full(error.to_string()),
                Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy,
                _ => StoreError::Database(error.to_string()),
            }
        }
    }
}
