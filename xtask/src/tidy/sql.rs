//! SQL stays in the crate `store`, and SQL never asks the time: the day is an argument there as everywhere.

use super::arrows::dependencies;
use super::rust_text::{RustText, in_name, line_of, words};
use super::tree::Tree;
use super::{KEEPS_THE_WORDS, Problem};

/// The one crate that speaks SQL.
const STORE: &str = "crates/store/";

/// Packages through which SQL is spoken.
const DRIVERS: &[&str] = &["rusqlite", "libsqlite3-sys", "libsqlite3_sys"];

/// Beginnings of statements as we write them, in capitals, and lower-case ones no sentence contains.
const STATEMENTS: &[&str] = &[
    "SELECT ",
    "INSERT INTO ",
    "INSERT OR ",
    "REPLACE INTO ",
    "DELETE FROM ",
    "CREATE TABLE ",
    "CREATE INDEX ",
    "CREATE UNIQUE INDEX ",
    "CREATE TRIGGER ",
    "CREATE VIEW ",
    "DROP TABLE ",
    "DROP TRIGGER ",
    "DROP VIEW ",
    "ALTER TABLE ",
    "PRAGMA ",
    "BEGIN IMMEDIATE",
    "VACUUM INTO ",
    "ATTACH DATABASE ",
    "select * from ",
    "insert into ",
    "create table ",
    "pragma ",
];

/// SQLite's names for the present.
const PRESENT: &[&str] = &["current_timestamp", "current_date", "current_time"];

/// SQLite's functions of time: given no time, or the word now, they ask the machine.
const FUNCTIONS: &[&str] = &[
    "date",
    "time",
    "datetime",
    "julianday",
    "unixepoch",
    "strftime",
    "timediff",
];

/// Statements, drivers and `.sql` files are found in `store` and nowhere else.
pub fn stays_in_the_store(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    let elsewhere = |path: &str| !path.starts_with(STORE) && !path.starts_with(KEEPS_THE_WORDS);
    for (path, text) in tree.texts().filter(|(path, _)| elsewhere(path)) {
        let mut report = |line: usize, what: &str| {
            problems.push(Problem::new(
                path,
                line,
                format!("{what} outside crates/store, the only crate that speaks SQL"),
            ));
        };
        if path.ends_with(".sql") {
            report(1, "a file of SQL");
        } else if path.ends_with(".rs") {
            let text = RustText::of(text);
            for (line, literal) in &text.literals {
                if STATEMENTS.iter().any(|words| stands_in(literal, words)) {
                    report(*line, "an SQL statement");
                }
            }
            for driver in DRIVERS {
                if let Some(at) = words(&text.code, driver).next() {
                    report(line_of(&text.code, at), &format!("`{driver}`"));
                }
            }
        } else if path.ends_with("/Cargo.toml") {
            for (line, name) in dependencies(text) {
                if DRIVERS.contains(&name.as_str()) {
                    report(line, &format!("`{name}`"));
                }
            }
        }
    }
    problems
}

/// Whether words stand in a literal, not as the tail of another word.
fn stands_in(literal: &str, words: &str) -> bool {
    literal
        .match_indices(words)
        .any(|(at, _)| !literal[..at].chars().next_back().is_some_and(in_name))
}

/// No SQL, wherever it stands, takes the time from the machine.
pub fn never_asks_the_time(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree
        .texts()
        .filter(|(path, _)| !path.starts_with(KEEPS_THE_WORDS))
    {
        let pieces = if path.ends_with(".rs") {
            RustText::of(text).literals
        } else if path.ends_with(".sql") {
            vec![(1, text.to_owned())]
        } else {
            continue;
        };
        for (first_line, piece) in pieces {
            for at in asks_the_time(&piece) {
                let line = first_line + line_of(&piece, at) - 1;
                problems.push(Problem::new(
                    path,
                    line,
                    "SQL asks the machine for the time; pass the day in as an argument",
                ));
            }
        }
    }
    problems
}

/// Where a piece of SQL asks the time: byte offsets.
fn asks_the_time(sql: &str) -> Vec<usize> {
    let lower = sql.to_ascii_lowercase();
    let mut found: Vec<usize> = PRESENT
        .iter()
        .flat_map(|word| words(&lower, word))
        .collect();
    for name in FUNCTIONS {
        for at in words(&lower, name) {
            let Some(arguments) = lower[at + name.len()..].trim_start().strip_prefix('(') else {
                continue;
            };
            let arguments: String = arguments
                .split(')')
                .next()
                .unwrap_or_default()
                .chars()
                .filter(|c| !c.is_whitespace())
                .collect();
            let no_time_given = match *name {
                "strftime" => !arguments.contains(','),
                _ => arguments.is_empty() || arguments == "'subsec'" || arguments == "'subsecond'",
            };
            if no_time_given || arguments.contains("'now'") {
                found.push(at);
            }
        }
    }
    found.sort_unstable();
    found
}

#[cfg(test)]
mod tests {
    use super::super::says;
    use super::*;

    #[test]
    fn sql_is_spoken_in_the_store_only() {
        let statement = "fn f() { run(\"SELECT body FROM entry\"); }";
        assert!(
            says(
                stays_in_the_store,
                &[("crates/store/src/read.rs", statement)]
            )
            .is_empty()
        );
        assert_eq!(
            says(
                stays_in_the_store,
                &[("crates/outshop/src/serve.rs", statement)]
            ),
            [
                "crates/outshop/src/serve.rs:1: an SQL statement outside crates/store, the only crate that speaks SQL"
            ]
        );
        assert_eq!(
            says(
                stays_in_the_store,
                &[("devtools/src/a.rs", "use rusqlite::Connection;")]
            )
            .len(),
            1
        );
        assert_eq!(
            says(
                stays_in_the_store,
                &[(
                    "devtools/Cargo.toml",
                    "[dependencies]\nrusqlite.workspace = true"
                )]
            )
            .len(),
            1
        );
        assert_eq!(
            says(stays_in_the_store, &[("crates/shop/src/a.sql", "")]).len(),
            1
        );
    }

    #[test]
    fn english_is_not_sql() {
        let text = "// SELECT is spoken elsewhere\nlet s = \"select a route from the list; nothing is deleted from the book; SELECTED \";";
        assert!(says(stays_in_the_store, &[("crates/outshop/src/words.rs", text)]).is_empty());
        assert!(
            says(
                stays_in_the_store,
                &[("Cargo.toml", "[workspace.dependencies]\nrusqlite = \"0\"")]
            )
            .is_empty()
        );
    }

    #[test]
    fn every_way_of_asking_the_time_is_known() {
        for sql in [
            "SELECT datetime('now')",
            "SELECT DATETIME( 'now', 'localtime')",
            "date()",
            "time ( )",
            "julianday('now')",
            "unixepoch()",
            "unixepoch('subsec')",
            "strftime('%s')",
            "strftime('%s', 'now')",
            "DEFAULT CURRENT_TIMESTAMP",
            "current_date",
            "timediff('now', done_on)",
        ] {
            assert_eq!(asks_the_time(sql).len(), 1, "{sql}");
            assert_eq!(
                says(
                    never_asks_the_time,
                    &[("crates/store/src/a.rs", &format!("x(\"\n{sql}\");"))]
                )
                .len(),
                1,
                "{sql}"
            );
        }
    }

    #[test]
    fn a_given_time_is_no_question() {
        for sql in [
            "date(done_on)",
            "strftime('%Y', done_on)",
            "recorded_at",
            "runtime()",
            "update()",
            "current_timestamps",
        ] {
            assert!(asks_the_time(sql).is_empty(), "{sql}");
        }
        assert!(
            says(
                never_asks_the_time,
                &[("a.rs", "let d = at.datetime(); x(\"fine\");")]
            )
            .is_empty()
        );
    }

    #[test]
    fn the_line_inside_a_long_statement_is_named() {
        let found = says(
            never_asks_the_time,
            &[(
                "a.sql",
                "CREATE TABLE t (\n  at TEXT DEFAULT CURRENT_TIMESTAMP\n);",
            )],
        );
        assert_eq!(
            found,
            ["a.sql:2: SQL asks the machine for the time; pass the day in as an argument"]
        );
    }
}
