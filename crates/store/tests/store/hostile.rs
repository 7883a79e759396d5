//! Statements that somebody with a database program might try on the ledger: every one is refused by
//! the file itself, whatever the connection has switched off.

use crate::world::{Folder, clean, logged, raw, standing};

/// Tries a statement, with nested triggers on and off, and expects the guard's sentence.
fn refused(name: &str, attempts: &[&str], sentence: &str) {
    let folder = Folder::new(name);
    let path = folder.file("shop.book");
    let store = logged(&path, 3);
    let before = standing(&store);
    for nested in ["ON", "OFF"] {
        let raw = raw(&path);
        raw.execute_batch(&format!("PRAGMA recursive_triggers = {nested}"))
            .unwrap();
        for attempt in attempts {
            let said = raw.execute_batch(attempt).expect_err(attempt).to_string();
            assert!(said.contains(sentence), "{attempt}: {said}");
        }
    }
    assert_eq!(standing(&store), before);
    clean(&store);
}

const CHANGED: &str = "an entry is never changed";
const REMOVED: &str = "an entry is never removed";
const FOLLOWS: &str = "an entry only follows the last one";

/// A whole row: the next number is 9, the id of the last entry is known.
fn row(verb: &str, seq: &str, id: &str, then: &str) -> String {
    format!(
        "{verb} INTO entry (seq, id, device, person, done_on, recorded_at, kind, form, body, prev, hash) \
         VALUES ({seq}, {id}, 'd', 'p', '2026-05-03', 't', 'log-closed', 1, '{{}}', x'00', x'00') {then}"
    )
}

const LAST_ID: &str = "(SELECT id FROM entry WHERE seq = 8)";
const FREE_ID: &str = "'ffffffffffffffffffffffffffffffff'";

#[test]
fn update() {
    refused(
        "update",
        &[
            "UPDATE entry SET body = '{}' WHERE seq = 2",
            "UPDATE entry SET seq = 99 WHERE seq = 8",
            "UPDATE OR REPLACE entry SET seq = 2 WHERE seq = 8",
            "UPDATE OR IGNORE entry SET body = body",
        ],
        CHANGED,
    );
}

#[test]
fn delete() {
    refused(
        "delete",
        &["DELETE FROM entry WHERE seq = 8", "DELETE FROM entry"],
        REMOVED,
    );
}

#[test]
fn delete_of_the_head_mark() {
    refused(
        "head",
        &["DELETE FROM head"],
        "the head mark is never removed",
    );
}

#[test]
fn insert_or_replace_of_a_number() {
    let one = row("INSERT OR REPLACE", "8", FREE_ID, "");
    let two = row("REPLACE", "2", FREE_ID, "");
    refused("replace-number", &[&one, &two], FOLLOWS);
}

#[test]
fn insert_or_replace_of_an_id() {
    let one = row("INSERT OR REPLACE", "9", LAST_ID, "");
    let two = row("REPLACE", "9", LAST_ID, "");
    refused("replace-id", &[&one, &two], FOLLOWS);
}

#[test]
fn insert_or_ignore_with_an_id_that_stands() {
    let one = row("INSERT OR IGNORE", "9", LAST_ID, "");
    refused("ignore", &[&one], FOLLOWS);
}

#[test]
fn insert_or_ignore_with_a_number_that_stands() {
    let one = row("INSERT OR IGNORE", "8", FREE_ID, "");
    refused("ignore-number", &[&one], FOLLOWS);
}

#[test]
fn on_conflict_do_update() {
    let instead = "DO UPDATE SET body = excluded.body";
    let one = row(
        "INSERT",
        "8",
        FREE_ID,
        &format!("ON CONFLICT (seq) {instead}"),
    );
    let two = row(
        "INSERT",
        "9",
        LAST_ID,
        &format!("ON CONFLICT (id) {instead}"),
    );
    refused("upsert", &[&one, &two], FOLLOWS);
}

#[test]
fn numbers_out_of_order() {
    let attempts: Vec<String> = ["10", "0", "-1", "4", "NULL", "9223372036854775807"]
        .iter()
        .map(|seq| row("INSERT", seq, FREE_ID, ""))
        .collect();
    let attempts: Vec<&str> = attempts.iter().map(String::as_str).collect();
    refused("order", &attempts, FOLLOWS);
}

#[test]
fn a_row_of_the_wrong_type() {
    refused(
        "strict",
        &[
            "INSERT INTO entry SELECT seq + 1, x'00', batch, device, person, done_on, recorded_at, kind, 'one', body, supersedes, prev, hash FROM entry WHERE seq = 8",
        ],
        "cannot store",
    );
}
