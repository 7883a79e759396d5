//! Tampering by somebody who can take the guards off and put them back: a check must see it, and name
//! the first entry that differs.

use rusqlite::types::{Value, ValueRef};
use rusqlite::{Connection, params};
use store::{CANNOT_PROVE, Entry, Hash, Store, chain};

use crate::every_kind;
use crate::world::{Dice, Folder, act, act_in, clean, fire, logged, raw, rows, shop, state, told};

/// A book whose entries use every column: a batch, a correction, and bodies long and short.
fn full(folder: &Folder) -> Store {
    let path = folder.file("shop.book");
    let mut store = shop(&path);
    for statement in every_kind::work().into_iter().skip(5) {
        let id = 0x500 + u128::from(store.head().unwrap().0);
        state(&mut store, &act(id), statement).unwrap();
    }
    for number in 0..28 {
        let id = 0x1000 + u128::from(number);
        let act = if number % 2 == 0 {
            act(id)
        } else {
            act_in(7, id)
        };
        state(&mut store, &act, fire(number)).unwrap();
    }
    let slip = store.head().unwrap().0;
    store
        .correct(
            &act_in(8, 0x9000),
            slip,
            "misread the clock",
            &every_kind::fire_of(27, 99),
        )
        .unwrap();
    clean(&store);
    store
}

/// Fifty entries of the book, the first and the last always among them.
fn sample(count: usize) -> Vec<usize> {
    let mut dice = Dice::new(50);
    let mut sample: Vec<usize> = (0..count).collect();
    while sample.len() > 50 {
        let at = 1 + dice.below(sample.len() as u64 - 2) as usize;
        sample.remove(at);
    }
    sample
}

/// The columns that hold bytes, so that a test can reach into each.
type Column = (&'static str, fn(&mut Entry) -> Option<&mut Vec<u8>>);
const BYTES: [Column; 11] = [
    ("id", |e| Some(&mut e.id)),
    ("batch", |e| e.batch.as_mut()),
    ("device", |e| Some(&mut e.device)),
    ("person", |e| Some(&mut e.person)),
    ("done_on", |e| Some(&mut e.done_on)),
    ("recorded_at", |e| Some(&mut e.recorded_at)),
    ("kind", |e| Some(&mut e.kind)),
    ("body", |e| Some(&mut e.body)),
    ("supersedes", |e| e.supersedes.as_mut()),
    ("prev", |e| Some(&mut e.prev)),
    ("hash", |e| Some(&mut e.hash)),
];

#[test]
fn every_bit_of_every_byte_of_every_column_counts() {
    let folder = Folder::new("bits");
    let store = full(&folder);
    let entries = store.entries().unwrap();
    let head = store.head().unwrap();
    assert_eq!(chain(&entries, head), []);
    let mut dice = Dice::new(1);
    let mut flipped = 0;
    for at in sample(entries.len()) {
        let before = at
            .checked_sub(1)
            .and_then(|b| entries.get(b))
            .map_or(Hash::NONE, |b| Hash(b.hash.as_slice().try_into().unwrap()));
        let whole = &entries[at];
        assert_eq!(whole.fault(before), None);
        for (name, column) in BYTES {
            let length = column(&mut whole.clone()).map_or(0, |bytes| bytes.len());
            for byte in 0..length {
                let mut harmed = whole.clone();
                column(&mut harmed).unwrap()[byte] ^= 1 << dice.below(8);
                assert!(harmed.fault(before).is_some(), "{at} {name} {byte}");
                flipped += 1;
            }
        }
        for harm in [
            |e: &mut Entry| {
                e.batch = if e.batch.is_some() {
                    None
                } else {
                    Some(Vec::new())
                }
            },
            |e: &mut Entry| {
                e.supersedes = if e.supersedes.is_some() {
                    None
                } else {
                    Some(Vec::new())
                }
            },
            |e: &mut Entry| std::mem::swap(&mut e.device, &mut e.person),
            // The end of one column moved to the beginning of the next.
            |e: &mut Entry| {
                let moved = e.done_on.pop().unwrap();
                e.recorded_at.insert(0, moved);
            },
            |e: &mut Entry| e.form ^= 1,
            |e: &mut Entry| e.seq ^= 1 << 40,
        ] {
            let mut harmed = whole.clone();
            harm(&mut harmed);
            assert!(harmed.fault(before).is_some(), "{at}: {harmed:?}");
        }
    }
    assert!(flipped > 10_000, "{flipped}");
}

const GUARDS: [&str; 4] = ["entry_stands", "entry_stays", "entry_follows", "head_stays"];

/// Takes the guards off, does what it is told, and puts them back as they were.
fn behind_the_guards(raw: &mut Connection, harm: impl FnOnce(&Connection)) {
    let change = raw.transaction().unwrap();
    let texts: Vec<String> = GUARDS
        .iter()
        .map(|name| {
            let find = "SELECT sql FROM sqlite_schema WHERE name = ?1";
            let text = change.query_row(find, [name], |row| row.get(0)).unwrap();
            change
                .execute_batch(&format!("DROP TRIGGER {name}"))
                .unwrap();
            text
        })
        .collect();
    harm(&change);
    for text in texts {
        change.execute_batch(&text).unwrap();
    }
    change.commit().unwrap();
}

/// The first entry that a check names.
fn first(store: &Store) -> Option<u64> {
    let found = store.check().unwrap().differences;
    let first = found.iter().find_map(|d| d.entry);
    let least = found.iter().filter_map(|d| d.entry).min();
    assert_eq!(first, least, "{found:?}");
    first
}

fn column_of(raw: &Connection, name: &str, seq: i64) -> Value {
    let ask = format!("SELECT {name} FROM entry WHERE seq = ?1");
    raw.query_row(&ask, [seq], |row| row.get(0)).unwrap()
}

/// A value with one of its upper bits turned, so that an id becomes no other id that stands; what was
/// missing is there, and empty.
fn harmed(value: &Value, dice: &mut Dice) -> Value {
    let mut flip = |bytes: &[u8]| {
        let mut bytes = bytes.to_vec();
        let at = dice.below(bytes.len() as u64) as usize;
        bytes[at] ^= 0x10 << dice.below(4);
        bytes
    };
    match value {
        Value::Null => Value::Text(String::new()),
        Value::Integer(number) => Value::Integer(number ^ (1 << 40)),
        // Bytes that are no text any more are written all the same: see `put`.
        Value::Text(text) => Value::Blob(flip(text.as_bytes())),
        Value::Blob(bytes) => Value::Blob(flip(bytes)),
        Value::Real(_) => panic!("no column holds a float"),
    }
}

fn put(raw: &Connection, name: &str, seq: i64, value: &Value) {
    let as_is = matches!(name, "prev" | "hash" | "seq" | "form") || *value == Value::Null;
    let set = if as_is { "?1" } else { "CAST(?1 AS TEXT)" };
    let text = format!("UPDATE entry SET {name} = {set} WHERE seq = ?2");
    assert_eq!(raw.execute(&text, params![value, seq]).unwrap(), 1);
}

#[test]
fn every_column_of_fifty_entries_changed_in_the_file_is_named() {
    let folder = Folder::new("columns");
    let store = full(&folder);
    let mut raw = raw(&folder.file("shop.book"));
    raw.execute_batch("PRAGMA synchronous = OFF").unwrap();
    let mut dice = Dice::new(2);
    let names = BYTES.map(|(name, _)| name);
    let count = store.entries().unwrap().len();
    assert!(count >= 50);
    for at in sample(count) {
        let seq = i64::try_from(at).unwrap() + 1;
        for name in names.iter().copied().chain(["seq", "form"]) {
            let was = column_of(&raw, name, seq);
            let is = harmed(&was, &mut dice);
            behind_the_guards(&mut raw, |raw| put(raw, name, seq, &is));
            assert_eq!(first(&store), Some(seq as u64), "{name} of {seq}");
            let now = if name == "seq" { seq ^ (1 << 40) } else { seq };
            behind_the_guards(&mut raw, |raw| put(raw, name, now, &was));
        }
    }
    clean(&store);
}

#[test]
fn a_number_below_one_is_a_stray_and_the_gap_it_left_is_named() {
    let folder = Folder::new("stray");
    let path = folder.file("shop.book");
    let store = logged(&path, 5);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch("UPDATE entry SET seq = -3 WHERE seq = 7")
            .unwrap();
    });
    assert_eq!(first(&store), Some(7));
    assert!(told(&store).contains(&"an entry numbered -3 does not belong in a book".to_string()));
}

#[test]
fn two_entries_swapped() {
    let folder = Folder::new("swap");
    let path = folder.file("shop.book");
    let store = logged(&path, 8);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch(
            "UPDATE entry SET seq = 99 WHERE seq = 7;
             UPDATE entry SET seq = 7 WHERE seq = 11;
             UPDATE entry SET seq = 11 WHERE seq = 99;",
        )
        .unwrap();
    });
    assert_eq!(first(&store), Some(7));
}

#[test]
fn an_entry_taken_out_of_the_middle() {
    let folder = Folder::new("middle");
    let path = folder.file("shop.book");
    let store = logged(&path, 8);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch("DELETE FROM entry WHERE seq = 9")
            .unwrap();
    });
    assert_eq!(first(&store), Some(9));
    assert!(told(&store).contains(&"entry 9 is missing: 10 follows 8".to_string()));
}

#[test]
fn the_last_entry_taken_away_is_told_by_the_head_mark() {
    let folder = Folder::new("last");
    let path = folder.file("shop.book");
    let store = logged(&path, 4);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch("DELETE FROM entry WHERE seq = 9")
            .unwrap();
    });
    assert_eq!(first(&store), Some(9));
}

#[test]
fn the_head_mark_changed_is_told() {
    let folder = Folder::new("mark");
    let path = folder.file("shop.book");
    let store = logged(&path, 4);
    let whole = store.head().unwrap().1.0.to_vec();
    for at in 0..whole.len() {
        let mut harmed = whole.clone();
        harmed[at] ^= 4;
        raw(&path)
            .execute("UPDATE head SET hash = ?1", [harmed])
            .unwrap();
        assert_eq!(first(&store), Some(9));
    }
    raw(&path)
        .execute("UPDATE head SET hash = ?1, seq = 12", [whole])
        .unwrap();
    assert_eq!(first(&store), Some(10));
}

#[test]
fn the_end_cut_off_with_its_mark_cannot_be_proved_and_the_check_says_so() {
    let folder = Folder::new("cut");
    let path = folder.file("shop.book");
    let mut store = logged(&path, 4);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch(
            "DELETE FROM entry WHERE seq = 9;
             UPDATE head SET seq = 8, hash = (SELECT hash FROM entry WHERE seq = 8);",
        )
        .unwrap();
    });
    // Somebody this careful sets the derived rows back too.
    store.rebuild().unwrap();
    clean(&store);
    assert!(
        CANNOT_PROVE.contains(
            "nobody removed entries from the end of the book together with its head mark"
        )
    );
    assert!(CANNOT_PROVE.contains("last printed paper or backup"));
}

#[test]
fn each_guard_dropped_is_named() {
    for guard in GUARDS {
        let folder = Folder::new("guard");
        let path = folder.file("shop.book");
        let store = logged(&path, 1);
        raw(&path)
            .execute_batch(&format!("DROP TRIGGER {guard}"))
            .unwrap();
        assert_eq!(
            told(&store),
            [format!("the guard or table `{guard}` is gone")]
        );
    }
}

#[test]
fn a_guard_that_no_longer_guards_is_named() {
    let folder = Folder::new("blunt");
    let path = folder.file("shop.book");
    let store = logged(&path, 1);
    raw(&path)
        .execute_batch(
            "DROP TRIGGER entry_stands;
             CREATE TRIGGER entry_stands BEFORE UPDATE ON entry BEGIN SELECT 1; END",
        )
        .unwrap();
    assert_eq!(
        told(&store),
        ["the guard or table `entry_stands` has been changed"]
    );
}

#[test]
fn what_does_not_belong_in_a_book_is_named() {
    for (what, name) in [
        ("CREATE TABLE notes (text TEXT)", "notes"),
        ("CREATE VIEW best AS SELECT * FROM entry", "best"),
        ("CREATE INDEX quick ON entry (kind)", "quick"),
        (
            "CREATE TRIGGER quiet AFTER INSERT ON entry BEGIN DELETE FROM state; END",
            "quiet",
        ),
    ] {
        let folder = Folder::new("added");
        let path = folder.file("shop.book");
        let store = logged(&path, 1);
        raw(&path).execute_batch(what).unwrap();
        assert_eq!(
            told(&store),
            [format!("`{name}` does not belong in a book")]
        );
    }
}

#[test]
fn derived_rows_changed_removed_and_added_are_named_and_a_rebuild_mends_them() {
    let folder = Folder::new("derived");
    let path = folder.file("shop.book");
    let mut store = full(&folder);
    let whole = rows(&path);
    let part = format!("part {}", every_kind::PART);
    let newest = store.whole_book().unwrap().parts[&every_kind::PART].last;
    for (harm, said, entry) in [
        (
            "UPDATE state SET body = replace(body, '5/32', '3/16') WHERE kind = 'part'",
            format!("the derived row {part} is not what the entries say"),
            Some(newest),
        ),
        (
            "UPDATE state SET engine = NULL WHERE kind = 'part'",
            format!("the derived row {part} is not what the entries say"),
            Some(newest),
        ),
        (
            "UPDATE state SET body = CAST(x'ff' AS TEXT) WHERE kind = 'part'",
            format!("the derived row {part} is not what the entries say"),
            Some(newest),
        ),
        (
            "DELETE FROM state WHERE kind = 'part'",
            format!("the derived row {part} is missing"),
            Some(newest),
        ),
        (
            "INSERT INTO state (kind, key, body) VALUES ('part', 'x', '{}')",
            "the derived row part x comes from no entry".to_string(),
            None,
        ),
        (
            "INSERT INTO state (kind, key, body) VALUES ('rumor', 'x', '{}')",
            "the derived row rumor x comes from no entry".to_string(),
            None,
        ),
    ] {
        raw(&path).execute_batch(harm).unwrap();
        let found = store.check().unwrap().differences;
        let found: Vec<_> = found.into_iter().map(|d| (d.what, d.entry)).collect();
        assert_eq!(found, [(said, entry)], "{harm}");
        store.rebuild().unwrap();
        clean(&store);
        assert_eq!(rows(&path), whole);
    }
}

#[test]
fn an_index_that_lies_is_told() {
    let folder = Folder::new("index");
    let path = folder.file("shop.book");
    let store = logged(&path, 3);
    let raw = raw(&path);
    // Turns the index of the ids into one of another table's shape, which leaves it without its rows.
    raw.execute_batch("PRAGMA writable_schema = ON").unwrap();
    let free: i64 = raw
        .query_row(
            "SELECT rootpage FROM sqlite_schema WHERE name = 'sqlite_autoindex_entry_1'",
            [],
            |row| row.get(0),
        )
        .unwrap();
    let other: i64 = raw
        .query_row(
            "SELECT rootpage FROM sqlite_schema WHERE name = 'state'",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_ne!(free, other);
    raw.execute(
        "UPDATE sqlite_schema SET rootpage = ?1 WHERE name = 'sqlite_autoindex_entry_1'",
        [other],
    )
    .unwrap();
    drop(raw);
    drop(store);
    let store = Store::open(&path).unwrap();
    match store.check() {
        Ok(checked) => assert!(!checked.differences.is_empty()),
        Err(said) => assert!(matches!(said, store::StoreError::Damaged { .. }), "{said}"),
    }
}

#[test]
fn a_row_reads_as_bytes_whatever_was_done_to_it() {
    let folder = Folder::new("bytes");
    let path = folder.file("shop.book");
    let store = logged(&path, 1);
    behind_the_guards(&mut raw(&path), |raw| {
        raw.execute_batch("UPDATE entry SET body = CAST(x'00ff7b' AS TEXT) WHERE seq = 3")
            .unwrap();
    });
    let raw = raw(&path);
    let held = raw
        .query_row("SELECT body FROM entry WHERE seq = 3", [], |row| {
            Ok(match row.get_ref(0)? {
                ValueRef::Text(bytes) => bytes.to_vec(),
                _ => Vec::new(),
            })
        })
        .unwrap();
    assert_eq!(store.entries().unwrap()[2].body, held);
    assert_eq!(first(&store), Some(3));
}

#[test]
fn a_photograph_lies_whole_in_the_book_and_a_changed_or_missing_one_is_named() {
    let folder = Folder::new("photo");
    let path = folder.file("shop.book");
    let store = full(&folder);
    assert_eq!(
        store.scan_of(every_kind::PHOTO_NAME).unwrap().as_deref(),
        Some(every_kind::PHOTO)
    );
    assert_eq!(store.scan_of("nothing").unwrap(), None);
    drop(store);
    let file = raw(&path);
    // The guards hold for any program.
    for act in [
        "UPDATE scan SET body = x'00'",
        "DELETE FROM scan",
        "INSERT OR REPLACE INTO scan SELECT * FROM scan",
    ] {
        assert!(file.execute(act, []).is_err(), "{act}");
    }
    let off = "DROP TRIGGER scan_stands; DROP TRIGGER scan_stays;";
    file.execute_batch(off).unwrap();
    file.execute("UPDATE scan SET body = x'0011'", []).unwrap();
    drop(file);
    let store = Store::open(&path).unwrap();
    let said = told(&store);
    assert!(
        said.iter()
            .any(|s| s.contains("`blue ring.png` shows is not what was put in")),
        "{said:?}"
    );
    assert!(
        said.iter().any(|s| s.contains("`scan_stands` is gone")),
        "{said:?}"
    );
    assert!(store.scan_of(every_kind::PHOTO_NAME).is_err());
    drop(store);
    raw(&path).execute("DELETE FROM scan", []).unwrap();
    let said = told(&Store::open(&path).unwrap());
    assert!(
        said.iter()
            .any(|s| s.contains("`blue ring.png` shows is gone")),
        "{said:?}"
    );
    raw(&path)
        .execute("INSERT INTO scan VALUES ('ab', 0, x'00')", [])
        .unwrap();
    let said = told(&Store::open(&path).unwrap());
    assert!(
        said.iter().any(|s| s.contains("that no entry speaks of")),
        "{said:?}"
    );
}

#[test]
fn a_photograph_enters_with_its_bytes_or_not_at_all_in_pieces() {
    let folder = Folder::new("pieces");
    let path = folder.file("shop.book");
    let mut store = shop(&path);
    let bytes: Vec<u8> = (0..600_000u32).map(|n| (n % 251) as u8).collect();
    let name = store::name_of(&bytes);
    let photo = shop::book::Statement::PhotoAdded(shop::book::PhotoAdded {
        id: shop::book::PhotoId(7),
        sha256: name.clone(),
        bytes: bytes.len() as u64,
        media: "image/jpeg".into(),
        name: "big.jpg".into(),
        of: shop::book::PhotoOf::Part {
            part: every_kind::PART,
        },
        told: "the whole valve".into(),
        letter: None,
    });
    let before = store.head().unwrap();
    let bare = store.write(&act(0x77), |_, _| Ok(vec![photo.clone()]));
    assert!(bare.unwrap_err().to_string().contains("is not in the book"));
    assert_eq!(store.head().unwrap(), before);
    let with = |store: &mut Store| {
        store.write_with_scan(
            &act(0x78),
            Some(crate::world::ENGINE),
            None,
            &bytes,
            |_, _| Ok(vec![photo.clone()]),
        )
    };
    let receipt = with(&mut store).unwrap();
    assert_eq!(with(&mut store).unwrap().entries, receipt.entries);
    assert_eq!(store.scan_of(&name).unwrap(), Some(bytes));
    let book = store.book().unwrap();
    assert!(
        book.photos
            .values()
            .all(|it| it.part == Some(every_kind::PART))
    );
    assert_eq!(store.photo_of("P-001").unwrap().unwrap().number, 1);
    assert!(store.photo_of("P-002").unwrap().is_none());
    clean(&store);
    let pieces = raw(&path).query_row("SELECT count(*), max(length(body)) FROM scan", [], |row| {
        Ok((row.get::<_, i64>(0)?, row.get::<_, i64>(1)?))
    });
    assert_eq!(pieces.unwrap(), (3, 256 * 1024));
}
