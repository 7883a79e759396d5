//! Files that are no whole book: refused with the right word, and not changed by a byte.

use std::path::Path;

use shop::book::{PersonAdded, PersonId, Statement, wanted};
use store::{Class, Store, StoreError};

use crate::world::{Folder, act, clean, fire, logged, raw, shop, standing, state};

/// Opens, expects a refusal of the machine, and the folder as it was to the last byte.
fn refused(folder: &Folder, path: &Path) -> StoreError {
    let all = |folder: &Folder| -> Vec<(String, Vec<u8>)> {
        let names = folder.names().into_iter();
        names
            .map(|name| (name.clone(), std::fs::read(folder.file(&name)).unwrap()))
            .collect()
    };
    let before = all(folder);
    let said = Store::open(path).err().expect("it is no book");
    assert_eq!(said.class(), Class::Machine, "{said}");
    assert!(all(folder) == before, "{said}: the folder was changed");
    said
}

fn foreign(name: &str, bytes: &[u8]) -> String {
    let folder = Folder::new(name);
    let path = folder.file("shop.book");
    std::fs::write(&path, bytes).unwrap();
    match refused(&folder, &path) {
        StoreError::Foreign { why, .. } => why,
        other => panic!("{other}"),
    }
}

#[test]
fn nothing_text_and_a_picture() {
    assert_eq!(foreign("empty", b""), "it is empty");
    let no_database = "it is no database file";
    assert_eq!(foreign("letter", b"x"), no_database);
    assert_eq!(
        foreign("text", "Dear Ada,\n".repeat(900).as_bytes()),
        no_database
    );
    assert_eq!(
        foreign("picture", b"\x89PNG\r\n\x1a\n0000000000"),
        no_database
    );
    assert_eq!(foreign("zeros", &[0; 8192]), no_database);
}

#[test]
fn a_folder_and_a_name_that_is_not_there() {
    let folder = Folder::new("absent");
    std::fs::create_dir(folder.file("shop.book")).unwrap();
    for name in ["shop.book", "other.book", "no/such/place.book"] {
        let said = Store::open(&folder.file(name)).err().unwrap();
        assert!(matches!(said, StoreError::Absent(_)), "{said}");
    }
    assert_eq!(folder.names(), ["shop.book"]);
}

#[test]
fn a_database_of_another_program_and_its_waiting_log() {
    let folder = Folder::new("other");
    let path = folder.file("shop.book");
    let other = raw(&path);
    other
        .execute_batch(
            "PRAGMA application_id = 1234567;
             CREATE TABLE entry (seq INTEGER PRIMARY KEY);",
        )
        .unwrap();
    drop(other);
    let said = refused(&folder, &path);
    assert!(
        said.to_string().contains("a database of another program"),
        "{said}"
    );

    // With a log waiting beside it, a careless look would fold the log into the file.
    let other = raw(&path);
    other
        .execute_batch("PRAGMA journal_mode = WAL; INSERT INTO entry VALUES (1);")
        .unwrap();
    let copy = Folder::new("other-log");
    for name in folder.names().iter().filter(|name| !name.ends_with("-shm")) {
        std::fs::copy(folder.file(name), copy.file(name)).unwrap();
    }
    assert_eq!(copy.names(), ["shop.book", "shop.book-wal"]);
    let said = refused(&copy, &copy.file("shop.book"));
    assert!(matches!(said, StoreError::Foreign { .. }), "{said}");
}

#[test]
fn a_layout_from_a_newer_program() {
    let folder = Folder::new("newer");
    let path = folder.file("shop.book");
    drop(logged(&path, 2));
    let newer = raw(&path);
    newer
        .execute_batch("PRAGMA user_version = 99; PRAGMA wal_checkpoint(TRUNCATE)")
        .unwrap();
    drop(newer);
    assert_eq!(folder.names(), ["shop.book"]);
    match refused(&folder, &path) {
        StoreError::Newer { found, known, .. } => assert!(found == 99 && known < 99),
        other => panic!("{other}"),
    }
}

#[test]
fn a_newer_layout_that_is_still_in_the_log() {
    let folder = Folder::new("newer-log");
    let path = folder.file("shop.book");
    drop(logged(&path, 2));
    let newer = raw(&path);
    newer.execute_batch("PRAGMA user_version = 99").unwrap();
    let copy = Folder::new("newer-copy");
    for name in ["shop.book", "shop.book-wal"] {
        std::fs::copy(folder.file(name), copy.file(name)).unwrap();
    }
    let before = ["shop.book", "shop.book-wal"].map(|n| std::fs::read(copy.file(n)).unwrap());
    let said = Store::open(&copy.file("shop.book")).err().unwrap();
    assert!(matches!(said, StoreError::Newer { .. }), "{said}");
    let after = ["shop.book", "shop.book-wal"].map(|n| std::fs::read(copy.file(n)).unwrap());
    assert!(before == after, "the book or its log was changed");
}

#[test]
fn a_book_that_a_newer_program_has_raised_meanwhile_is_not_written_to() {
    let folder = Folder::new("raised");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 2);
    let stood = standing(&store);
    raw(&path)
        .execute_batch("PRAGMA user_version = 99")
        .unwrap();
    let said = state(&mut store, &act(0x90), fire(9)).unwrap_err();
    assert!(matches!(said, StoreError::Newer { .. }), "{said}");
    assert_eq!(standing(&store), stood);
}

#[test]
fn a_book_of_an_older_layout_has_its_rows_folded_anew_as_it_is_opened() {
    let folder = Folder::new("older");
    let path = folder.file("shop.book");
    let store = logged(&path, 2);
    let stood = standing(&store);
    drop(store);
    // Rows as some older program may have shaped them.
    raw(&path)
        .execute_batch("UPDATE state SET body = '{\"old\":1}'; PRAGMA user_version = 0")
        .unwrap();
    let store = Store::open(&path).unwrap();
    clean(&store);
    assert_eq!(standing(&store), stood);
    let layout = |path: &Path| -> i64 {
        raw(path)
            .pragma_query_value(None, "user_version", |row| row.get(0))
            .unwrap()
    };
    assert!(layout(&path) > 0);
}

/// More rows with other words than are put right one by one: the index is made anew, and finds what stands and no more.
#[test]
fn a_book_whose_words_an_older_program_cut_otherwise_is_found_by_its_own() {
    let folder = Folder::new("words");
    let path = folder.file("shop.book");
    let mut store = shop(&path);
    let people = (0..600u128).map(|n| {
        Statement::PersonAdded(PersonAdded {
            id: PersonId(0xB000 + n),
            name: format!("Hand Number{n}"),
            may: Vec::new(),
            trade: None,
        })
    });
    let people: Vec<Statement> = people.collect();
    store.write(&act(2), |_, _| Ok(people.clone())).unwrap();
    drop(store);
    let found = |store: &Store, words: &str| {
        let found = store.find(&wanted(words), None).unwrap();
        found.kinds.values().map(|(count, _)| count).sum::<usize>()
    };
    for fewer in [true, false] {
        // A few rows, then all of them; and words of a row that is not there.
        let only = if fewer {
            "WHERE words LIKE '%number59%'"
        } else {
            ""
        };
        let cut = format!(
            "UPDATE said SET words = 'otherwise' {only};
             INSERT INTO said (kind, key, words) SELECT 'person', 'nobody', 'otherwise' WHERE {};
             INSERT INTO seek (seek) VALUES ('rebuild'); PRAGMA user_version = 0",
            u8::from(!fewer)
        );
        raw(&path).execute_batch(&cut).unwrap();
        let store = Store::open(&path).unwrap();
        clean(&store);
        assert_eq!(found(&store, "otherwise"), 0);
        assert_eq!(found(&store, "number599"), 1);
        assert_eq!(found(&store, "hand"), 600);
    }
}

#[test]
fn a_book_cut_short_anywhere() {
    let folder = Folder::new("cut");
    let path = folder.file("whole.book");
    drop(logged(&path, 12));
    let whole = std::fs::read(&path).unwrap();
    let mut lengths: Vec<usize> = (0..=120).collect();
    lengths.extend([511, 512, 513, 1000, whole.len() - 1, whole.len() - 100]);
    for page in (4096..whole.len()).step_by(4096) {
        lengths.extend([page - 1, page, page + 1, page + 2000]);
    }
    lengths.retain(|length| *length < whole.len());
    for length in lengths {
        for name in ["shop.book", "x.y.book", "book"] {
            let folder = Folder::new("short");
            let path = folder.file(name);
            std::fs::write(&path, &whole[..length]).unwrap();
            match refused(&folder, &path) {
                StoreError::Damaged { .. } => assert!(length > 0),
                StoreError::Foreign { why, .. } => assert_eq!((length, &*why), (0, "it is empty")),
                other => panic!("{length}: {other}"),
            }
            assert_eq!(folder.names(), [name]);
        }
    }
}

#[test]
fn a_book_whose_end_still_lies_in_its_log_is_whole_whatever_it_is_called() {
    // As a machine leaves it that stops while the log is being folded into the file: the first page
    // says how long the file will be, the last pages are not there yet, and the log still has them.
    for name in ["shop.book", "x.y.book", "book", "book.", ".book", "a b.c"] {
        let folder = Folder::new("folding");
        let path = folder.file(name);
        let mut store = logged(&path, 3);
        for number in 20..40 {
            state(&mut store, &act(0x2000 + u128::from(number)), fire(number)).unwrap();
        }
        let stood = standing(&store);
        let log = std::fs::read(folder.file(&format!("{name}-wal"))).unwrap();
        drop(store);
        let whole = std::fs::read(&path).unwrap();
        assert!(whole.len() >= 3 * 4096);

        let found = Folder::new("found");
        let path = found.file(name);
        std::fs::write(&path, &whole[..2 * 4096]).unwrap();
        let said = Store::open(&path)
            .err()
            .expect("without its log it is cut short");
        assert!(matches!(said, StoreError::Damaged { .. }), "{said}");

        std::fs::write(found.file(&format!("{name}-wal")), log).unwrap();
        let store = Store::open(&path).expect(name);
        assert_eq!(standing(&store), stood);
        clean(&store);
        drop(store);
        assert_eq!(found.names(), [name]);
    }
}

#[test]
fn the_log_of_another_book_beside_a_short_one_does_not_help_it() {
    let folder = Folder::new("wrong-log");
    let path = folder.file("shop.book");
    drop(logged(&path, 6));
    let whole = std::fs::read(&path).unwrap();
    std::fs::write(&path, &whole[..whole.len() - 4096]).unwrap();
    std::fs::write(folder.file("shop.book-wal"), [7; 5000]).unwrap();
    let said = Store::open(&path).err().expect("cut short");
    assert!(matches!(said, StoreError::Damaged { .. }), "{said}");
    assert_eq!(std::fs::read(&path).unwrap().len(), whole.len() - 4096);
}

#[test]
fn bytes_spoiled_inside_are_told_by_a_check() {
    let folder = Folder::new("rot");
    let path = folder.file("shop.book");
    drop(logged(&path, 40));
    let whole = std::fs::read(&path).unwrap();
    for page in 1..whole.len() / 4096 {
        let mut bytes = whole.clone();
        bytes[page * 4096..(page + 1) * 4096].fill(0x5A);
        let spoiled = Folder::new("spoiled");
        let path = spoiled.file("shop.book");
        std::fs::write(&path, &bytes).unwrap();
        let said = Store::open(&path).and_then(|store| store.check());
        match said {
            Ok(checked) => assert!(!checked.differences.is_empty(), "page {page}"),
            Err(said) => assert!(matches!(said, StoreError::Damaged { .. }), "{page}: {said}"),
        }
    }
}

#[test]
fn a_book_that_could_not_be_made_leaves_nothing_behind() {
    let folder = Folder::new("made");
    let said = Store::create(&folder.file("no/such/folder.book"))
        .err()
        .unwrap();
    assert!(matches!(said, StoreError::Database(_)), "{said}");
    assert_eq!(folder.names(), Vec::<String>::new());
    // The log of a book that is gone does not get into a new one of the same name.
    let path = folder.file("shop.book");
    let store = logged(&path, 3);
    let log = std::fs::read(folder.file("shop.book-wal")).unwrap();
    drop(store);
    std::fs::remove_file(&path).unwrap();
    std::fs::write(folder.file("shop.book-wal"), log).unwrap();
    let store = Store::create(&path).unwrap();
    assert_eq!(store.head().unwrap().0, 0);
    clean(&store);
}
