//! Yesterday stands: every book in `past/books` opens, checks clean, and has the head it was left with.
//!
//! `2026-11.book` was made by [`write`] below: one statement of every kind at stated times with stated ids,
//! through the store's own doors. When a form or a row changes and this build writes other bytes, the old
//! book stays as it is and a new one is landed beside it with `OUTSHOP_LAND_BOOK=NAME cargo test -p store past`.

use std::path::{Path, PathBuf};

use shop::book::BatchId;
use store::{Act, By, Store};

use crate::every_kind;
use crate::world::{Folder, OFFICER, act, act_in, clean, fire, rows, state, verb};

/// The newest of them: what this build would write today.
const NEWEST: &str = "2026-11-cards";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/past/books")
}

/// A small book that holds every kind.
fn write(path: &Path) -> Store {
    let mut store = Store::create(path).unwrap();
    let first = Act {
        by: By::Id(OFFICER),
        ..act(1)
    };
    store.write(&first, verb(&every_kind::shop())).unwrap();
    for (number, statement) in every_kind::work().into_iter().enumerate().skip(5) {
        let act = Act {
            recorded_at: format!("2026-05-03T10:{number:02}:00-06:00"),
            ..act(0x100 + number as u128)
        };
        state(&mut store, &act, statement).unwrap();
    }
    let logged = store.entries().unwrap();
    let logged = logged.iter().find(|e| e.kind == b"fire-logged").unwrap();
    let because = "nobody saw the gauge at midnight";
    store
        .correct(
            &act(0x200),
            logged.number(),
            because,
            &every_kind::fire_put_right(),
        )
        .unwrap();
    for number in 0..3 {
        state(
            &mut store,
            &act_in(0xBA7C, 0x300 + u128::from(number)),
            fire(number),
        )
        .unwrap();
    }
    store
        .withdraw(&act(0x400), BatchId(0xBA7C), "entered twice")
        .unwrap();
    store
}

/// The line that is kept beside a book: entries and the hash of the last.
fn head(store: &Store) -> String {
    let (seq, hash) = store.head().unwrap();
    format!("{seq} {hash}\n")
}

#[test]
fn every_past_book_opens_checks_clean_and_has_its_head() {
    if let Ok(name) = std::env::var("OUTSHOP_LAND_BOOK") {
        let path = folder().join(format!("{name}.book"));
        let store = write(&path);
        std::fs::write(path.with_extension("head"), head(&store)).unwrap();
    }
    let mut seen = Vec::new();
    for file in std::fs::read_dir(folder()).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|e| e != "book") {
            continue;
        }
        // A copy, because opening a book of an older layout folds its rows anew.
        let folder = Folder::new("past");
        let copy = folder.file("shop.book");
        std::fs::copy(&path, &copy).unwrap();
        let kept = std::fs::read_to_string(path.with_extension("head")).unwrap();
        let mut store = Store::open(&copy).unwrap();
        assert_eq!(head(&store), kept, "{path:?}");
        clean(&store);
        let before = rows(&copy);
        store.rebuild().unwrap();
        assert_eq!(rows(&copy), before, "{path:?}");
        seen.push(path.file_stem().unwrap().to_string_lossy().into_owned());
    }
    assert!(seen.contains(&NEWEST.to_string()), "{seen:?}");
}

#[test]
fn what_this_build_writes_is_the_newest_past_book() {
    let folder = Folder::new("today");
    let store = write(&folder.file("shop.book"));
    clean(&store);
    let kept = std::fs::read_to_string(self::folder().join(format!("{NEWEST}.head"))).unwrap();
    assert_eq!(
        head(&store),
        kept,
        "this build writes other bytes: land a new book beside the old one"
    );
}

#[test]
fn the_newest_past_book_holds_every_kind() {
    let folder = Folder::new("kinds");
    let store = write(&folder.file("shop.book"));
    let entries = store.entries().unwrap();
    for (kind, _) in shop::book::Statement::KINDS {
        assert!(entries.iter().any(|e| e.kind == kind.as_bytes()), "{kind}");
    }
}
