//! What every opened book is set to: its log is written ahead, it closes into one file, and nothing
//! that was removed stays readable. (What only its own connection knows is asked inside the crate.)

use rusqlite::Connection;
use store::Store;

use crate::world::{Folder, clean, logged, raw, told};

/// The settings that live in the file can be asked of any connection.
fn mode(connection: &Connection) -> String {
    connection
        .pragma_query_value(None, "journal_mode", |row| row.get(0))
        .unwrap()
}

#[test]
fn a_book_has_its_log_written_ahead_made_and_opened_and_copied() {
    let folder = Folder::new("wal");
    let path = folder.file("shop.book");
    let store = logged(&path, 2);
    assert_eq!(mode(&raw(&path)), "wal");
    drop(store);
    let store = Store::open(&path).unwrap();
    assert_eq!(mode(&raw(&path)), "wal");

    // A copy comes out of the database without the mode; opening it sets it again.
    let copy = folder.file("backup.book");
    store.copy_to(&copy).unwrap();
    let copied = Store::open(&copy).unwrap();
    assert_eq!(mode(&raw(&copy)), "wal");
    assert_eq!(copied.head().unwrap(), store.head().unwrap());
    clean(&copied);
}

#[test]
fn closing_leaves_one_file() {
    let folder = Folder::new("one-file");
    let path = folder.file("shop.book");
    drop(logged(&path, 5));
    assert_eq!(folder.names(), ["shop.book"]);
    let store = Store::open(&path).unwrap();
    clean(&store);
    drop(store);
    assert_eq!(folder.names(), ["shop.book"]);
}

#[test]
fn what_a_derived_row_once_said_is_not_left_in_the_file() {
    let folder = Folder::new("erased");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 2);
    raw(&path)
        .execute_batch("INSERT INTO state (kind, key, body) VALUES ('part', 'x', 'QUILLWORT')")
        .unwrap();
    assert_eq!(told(&store).len(), 1);
    store.rebuild().unwrap();
    clean(&store);
    drop(store);
    let bytes = std::fs::read(&path).unwrap();
    assert!(!bytes.windows(9).any(|w| w == b"QUILLWORT"));
}
