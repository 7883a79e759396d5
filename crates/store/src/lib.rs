//! One shop's whole record in one file: append-only entries and the rows derived from them.
//!
//! This is the only crate that speaks SQL. Entries are hash-chained and guarded by triggers; the rows
//! are a convenience that can be dropped and folded anew at any time, and [`Store::check`] proves that
//! they are what the entries say.

mod backup;
mod check;
mod counted;
mod entry;
mod error;
mod file;
mod header;
mod history;
mod keys;
mod keys_copy;
mod keys_device;
mod keys_draft;
mod read;
mod rotate;
mod scans;
mod schema;
mod seek;
mod write;

#[cfg(test)]
mod connection_test;

pub use backup::{Copied, HALF, Relation, keys_of, restore, same_disk};
pub use check::{CANNOT_PROVE, Checked, Difference, chain};
pub use counted::counted;
pub use entry::{Entry, Hash};
pub use error::{Class, StoreError};
pub use file::Store;
pub use keys::{Keys, Token};
pub use keys_copy::LastCopy;
pub use keys_device::{Code, Device};
pub use read::Batch;
pub use rotate::{Dated, Keep, copies, dated_name, not_kept, rotate};
pub use scans::{MOST_SCAN, name_of};
pub use seek::{Found, Hit, MOST_OF_A_KIND};
pub use write::{Act, By, Receipt};
