//! A folder of its own for each test, a small invented shop in it, and a source of chance that repeats.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use jiff::civil::{Date, date};
use rusqlite::Connection;
use shop::Refusal;
use shop::book::{BatchId, EntryId, FireId, FireLogged, LocomotiveId, PersonId, Statement};
use store::{Act, By, Entry, Hash, Receipt, Store, StoreError};

use crate::every_kind;

/// A new folder, taken away at the end.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Folder {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let path =
            std::env::temp_dir().join(format!("store-{name}-{}-{count}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    /// The names of the files in it, in order.
    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(&self.0)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// The officer of the invented shop.
pub const OFFICER: PersonId = PersonId(0xADA);
/// Engine No. 14 of the invented shop.
pub const ENGINE: LocomotiveId = LocomotiveId(0x14);
/// The day on which the tests stand.
pub const TODAY: Date = date(2026, 5, 3);

/// An act by the officer, with an id of its own.
pub fn act(id: u128) -> Act {
    Act {
        id: EntryId(id),
        batch: None,
        device: "bench".into(),
        by: By::Name("Ada Quill".into()),
        done_on: TODAY,
        recorded_at: "2026-05-03T09:00:00-06:00".into(),
    }
}

/// The same in a batch.
pub fn act_in(batch: u128, id: u128) -> Act {
    Act {
        batch: Some(BatchId(batch)),
        ..act(id)
    }
}

/// States one thing.
pub fn state(store: &mut Store, act: &Act, what: Statement) -> Result<Receipt, StoreError> {
    if let Statement::PhotoAdded(_) = what {
        // What it shows comes with it.
        return store.write_with_scan(act, Some(ENGINE), None, every_kind::PHOTO, |_, _| {
            Ok(vec![what.clone()])
        });
    }
    store.write(act, |_, _| Ok(vec![what.clone()]))
}

/// What the verb says of itself when it is asked.
pub fn verb<'a>(
    what: &'a [Statement],
) -> impl Fn(&shop::book::Book, PersonId) -> Result<Vec<Statement>, Refusal> + 'a {
    move |_, _| Ok(what.to_vec())
}

/// A fire of No. 14 on a day of 2025, counted from New Year.
pub fn fire(number: u32) -> Statement {
    let day = rules::days_after(date(2025, 1, 1), (number % 360).into()).unwrap();
    Statement::FireLogged(FireLogged {
        id: FireId(0xF000 + u128::from(number)),
        locomotive: ENGINE,
        lit: Some(day.at(5, 30, 0, 0)),
        up: Some(day.at(8, 0, 0, 0)),
        out: Some(day.at(17, 0, 0, 0)),
        gone: (!number.is_multiple_of(3)).then(|| day.at(22, 15, 0, 0)),
        miles: Some(20 + number % 40),
        offered: None,
    })
}

/// A book with the shop, its officer, a family, No. 14 and her right feed check: five entries.
pub fn shop(path: &Path) -> Store {
    let mut store = Store::create(path).unwrap();
    let first = Act {
        by: By::Id(OFFICER),
        ..act(1)
    };
    let made = every_kind::shop();
    store.write(&first, verb(&made)).unwrap();
    store
}

/// The same book with `fires` fires.
pub fn logged(path: &Path, fires: u32) -> Store {
    let mut store = shop(path);
    for number in 0..fires {
        state(&mut store, &act(0x1000 + u128::from(number)), fire(number)).unwrap();
    }
    store
}

/// Someone with a database program and no respect.
pub fn raw(path: &Path) -> Connection {
    Connection::open(path).unwrap()
}

/// The rows that the book is kept as: kind, key, engine, body.
pub fn rows(path: &Path) -> Vec<(String, String, Option<String>, String)> {
    let raw = raw(path);
    let mut all = raw
        .prepare("SELECT kind, key, engine, body FROM state ORDER BY kind, key")
        .unwrap();
    all.query_map([], |row| {
        Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
    })
    .unwrap()
    .collect::<Result<_, _>>()
    .unwrap()
}

/// The differences that a check finds, as sentences.
pub fn told(store: &Store) -> Vec<String> {
    store
        .check()
        .unwrap()
        .differences
        .into_iter()
        .map(|d| d.what)
        .collect()
}

/// Asserts that a check finds nothing.
pub fn clean(store: &Store) {
    assert_eq!(told(store), Vec::<String>::new());
}

/// Everything that must stay as it is when something is refused.
pub fn standing(store: &Store) -> ((u64, Hash), Vec<Entry>) {
    (store.head().unwrap(), store.entries().unwrap())
}

/// Chance with a stated seed, so that a failure comes back the same (xorshift).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// From 0 up to `n`, without `n`.
    pub fn below(&mut self, n: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) % n.max(1)
    }
}
