//! What only the book's own connection knows: how durable it is, and what a full disk does to it.

use jiff::civil::date;
use rusqlite::Connection;
use shop::book::{BookOpened, EntryId, PersonId, Statement};

use crate::{Act, By, Class, Store, StoreError};

struct Folder(std::path::PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("store-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn act(id: u128) -> Act {
    Act {
        id: EntryId(id),
        batch: None,
        device: "bench".into(),
        by: By::Id(PersonId(0xADA)),
        done_on: date(2026, 5, 3),
        recorded_at: "2026-05-03T09:00:00-06:00".into(),
    }
}

fn opened(shop: String) -> Statement {
    Statement::BookOpened(BookOpened {
        shop,
        time_zone: "America/Denver".into(),
        house: "inch".into(),
        demonstration: None,
    })
}

fn ask(connection: &Connection, pragma: &str) -> i64 {
    connection
        .pragma_query_value(None, pragma, |row| row.get(0))
        .unwrap()
}

fn durable(store: &Store) {
    let mode: String = store
        .connection
        .pragma_query_value(None, "journal_mode", |row| row.get(0))
        .unwrap();
    assert_eq!(mode, "wal");
    // Numbers as in https://www.sqlite.org/pragma.html: synchronous 2 is FULL; the others are on or off.
    assert_eq!(ask(&store.connection, "synchronous"), 2);
    assert_eq!(ask(&store.connection, "secure_delete"), 1);
    assert_eq!(ask(&store.connection, "recursive_triggers"), 1);
    assert_eq!(ask(&store.connection, "trusted_schema"), 0);
}

#[test]
fn a_book_is_durable_when_made_and_when_opened_again() {
    let folder = Folder::new("durable");
    let path = folder.0.join("shop.book");
    let store = Store::create(&path).unwrap();
    durable(&store);
    drop(store);
    durable(&Store::open(&path).unwrap());
}

#[test]
fn a_full_disk_saves_nothing_and_harms_nothing() {
    let folder = Folder::new("full");
    let path = folder.0.join("shop.book");
    let mut store = Store::create(&path).unwrap();
    let pages = ask(&store.connection, "page_count");
    store
        .connection
        .pragma_update(None, "max_page_count", pages + 2)
        .unwrap();
    let large = opened("x".repeat(100_000));
    let said = store
        .write(&act(1), |_, _| Ok(vec![large.clone()]))
        .unwrap_err();
    assert!(matches!(said, StoreError::Full(_)), "{said}");
    assert_eq!(said.class(), Class::Machine);
    assert_eq!(store.head().unwrap().0, 0);
    assert_eq!(store.check().unwrap().differences, []);

    // With room again the very same act goes in.
    store
        .connection
        .pragma_update(None, "max_page_count", 1_000_000)
        .unwrap();
    let receipt = store
        .write(&act(1), |_, _| Ok(vec![large.clone()]))
        .unwrap();
    assert_eq!((receipt.entries, receipt.repeated), ((1, 1), false));
    assert_eq!(store.check().unwrap().differences, []);
}
