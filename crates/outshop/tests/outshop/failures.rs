//! Whatever goes wrong: a sentence, the right exit code, and the last entry's hash unchanged.

use std::process::Command;

use crate::pages::Served;
use crate::run::Folder;

/// Refusals of every kind, one after another on one book: none of them may move the head.
#[test]
fn no_refusal_saves_anything() {
    let folder = Folder::shop("refused");
    let head = folder.head();
    let cases: &[(&[&str], i32)] = &[
        (&["due", "41"], 2),
        (&["due", "14", "--on", "1999-12-31"], 2),
        (&["due", "14"], 1),
        (&["steam", "log", "14", "--lit", "2026-05-09T07:00"], 2),
        (&["steam", "log", "14", "--out", "2026-05-02T07:00"], 2),
        (&["steam", "close", "14", "--through", "2026-05-02"], 2),
        (
            &[
                "finding",
                "record",
                "14",
                "right feed check",
                "--occasion",
                "write-up",
                "--told",
                "weeps",
                "seat-land@front=5/32",
            ],
            2,
        ),
        (
            &[
                "finding",
                "record",
                "14",
                "right feed check",
                "--told",
                "weeps",
            ],
            2,
        ),
        (&["person", "add", "Ben Ostrow", "--may", "drive"], 2),
        (&["person", "add", "Ben Ostrow", "--by", "Nobody"], 2),
        (&["inspect", "open", "14", "monthly"], 2),
        (&["release", "14"], 1),
        (&["job", "make", "F-001"], 2),
        (&["entry", "correct", "7", "--because", "", "number=15"], 2),
        (
            &[
                "entry",
                "correct",
                "1",
                "--because",
                "it was otherwise",
                "shop=Juniper Fork Museum",
            ],
            0,
        ),
    ];
    let (last, refused) = cases.split_last().unwrap();
    for (words, code) in refused {
        let output = folder.run(words);
        assert_eq!(output.status.code(), Some(*code), "{words:?}: {output:?}");
        let said = [output.stdout, output.stderr].concat();
        assert!(!said.is_empty(), "{words:?} said nothing");
        assert!(
            !String::from_utf8_lossy(&said).contains("panicked"),
            "{words:?}"
        );
        assert_eq!(folder.head(), head, "{words:?} moved the head");
    }
    // And the guard can fail: a correction that is taken moves it.
    assert_eq!(folder.run(last.0).status.code(), Some(last.1));
    assert_ne!(folder.head(), head);
}

#[test]
fn a_foreign_or_damaged_file_is_named_and_left_alone() {
    let folder = Folder::shop("foreign");
    let whole = std::fs::read(folder.file("shop.book")).unwrap();
    let files: Vec<(&str, Vec<u8>, i32)> = vec![
        (
            "text.book",
            b"this is a shopping list, and quite a long one, so that it is no header".repeat(40),
            3,
        ),
        ("empty.book", Vec::new(), 3),
        ("half.book", whole[..whole.len() / 2].to_vec(), 3),
        ("cut.book", whole[..whole.len() - 1].to_vec(), 3),
        ("header.book", whole[..100].to_vec(), 3),
    ];
    for (name, bytes, code) in files {
        std::fs::write(folder.file(name), &bytes).unwrap();
        for words in [
            vec!["due", "14"],
            vec!["check"],
            vec!["steam", "promise", "14", "2026-05-09", "train"],
        ] {
            let mut all = words.clone();
            all.extend(["--book", name]);
            let output = folder.run(&all);
            assert_eq!(
                output.status.code(),
                Some(code),
                "{name} {words:?}: {output:?}"
            );
            assert!(
                String::from_utf8_lossy(&output.stderr).contains(name),
                "{name} is not named: {output:?}"
            );
        }
        assert_eq!(
            std::fs::read(folder.file(name)).unwrap(),
            bytes,
            "{name} was changed"
        );
    }
    let output = folder.run(&["due", "14", "--book", "absent.book"]);
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert!(!folder.file("absent.book").exists());
}

/// A disk that takes no more: the program may write files of 64 kB at most, as if the rest were full.
#[test]
fn a_full_disk_loses_nothing() {
    let folder = Folder::shop("full");
    let program = env!("CARGO_BIN_EXE_outshop");
    let mut failed = None;
    for n in 0..400 {
        let script = format!(
            "trap '' XFSZ; ulimit -f 96; exec {program} steam promise 14 2026-05-09 'train {n}'"
        );
        let output = Command::new("bash")
            .args(["-c", &script])
            .current_dir(&folder.0)
            .env("OUTSHOP_BOOK", "shop.book")
            .env("OUTSHOP_BY", "Ada Quill")
            .env("OUTSHOP_NOW", "2026-05-03T09:00")
            .output()
            .unwrap();
        if !output.status.success() {
            failed = Some((n, output));
            break;
        }
    }
    let (kept, output) = failed.expect("the disk never filled");
    assert_eq!(output.status.code(), Some(3), "{output:?}");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(
        said.contains("not saved") || said.contains("Nothing was saved"),
        "{said}"
    );
    let checked = folder.json(&["check"]);
    assert_eq!(checked["differences"], serde_json::json!([]));
    let due = folder.json(&["due", "14"]);
    assert_eq!(
        due["trains"].as_array().unwrap().len(),
        kept,
        "every acknowledged promise is there, and no other"
    );
}

/// The same id twice is saved once; the same id with another statement is refused.
#[test]
fn an_entry_sent_twice_is_saved_once() {
    let folder = Folder::shop("twice");
    let id = "000000000000000000000000000000ab";
    let send = |what: &str| folder.run(&["person", "add", what, "--id", id, "--json"]);
    let mut seeded = folder.command(&["person", "add", "Ben Ostrow", "--id", id]);
    let first = seeded.env("OUTSHOP_SEED", "x").output().unwrap();
    assert_eq!(first.status.code(), Some(0), "{first:?}");
    let head = folder.head();
    let again = folder
        .command(&["person", "add", "Ben Ostrow", "--id", id])
        .env("OUTSHOP_SEED", "x")
        .output()
        .unwrap();
    assert_eq!(again.status.code(), Some(0), "{again:?}");
    assert!(String::from_utf8_lossy(&again.stdout).contains("saved before"));
    let other = send("Cal Wren");
    assert_eq!(other.status.code(), Some(1), "{other:?}");
    assert_eq!(folder.head(), head);
}

/// An act that says what its person had seen is refused when that has changed.
#[test]
fn a_stale_act_is_refused() {
    let folder = Folder::shop("stale");
    let told = [
        "--occasion",
        "write-up",
        "--told",
        "weeps back, hot",
        "--shows",
        "weeps-back",
    ];
    folder.done(&[&["finding", "record", "14", "right feed check"], &told[..]].concat());
    let seen = folder.json(&["finding", "show", "F-001"])["last"]
        .as_u64()
        .unwrap();
    let decide = |seen: u64| {
        folder.run(&[
            "decide",
            "F-001",
            "renew",
            "--because",
            "spare on the shelf",
            "--seen-entry",
            &seen.to_string(),
        ])
    };
    let head = folder.head();
    let output = decide(seen - 1);
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    assert!(String::from_utf8_lossy(&output.stderr).contains("has changed since you looked"));
    assert_eq!(folder.head(), head);
    assert_eq!(decide(seen).status.code(), Some(0));
}

/// Numbers of a size that nobody can mean, in every field whose number is added to a day. A calendar has an end, and running
/// off it ended the program once.
#[test]
fn a_number_that_no_calendar_has_gets_a_sentence() {
    let folder = Folder::shop("calendar");
    for [verb, engine, kind, flag] in [
        ["inspect before", "14", "annual", "--lead"],
        ["print before", "14", "annual", "--lead"],
        ["tires", "14", "", "--lead-weeks"],
    ] {
        let words = |number: &str| -> Vec<String> {
            let start = verb.split(' ').chain([engine, kind]);
            let start = start.filter(|word| !word.is_empty()).map(str::to_owned);
            start.chain([format!("{flag}={number}")]).collect()
        };
        for (number, code) in [
            ("4294967295", 2),
            ("7304485", 2),
            ("2001", 2),
            ("-1", 2),
            ("9e9", 2),
        ] {
            let words = words(number);
            let output = folder.run(&words.iter().map(String::as_str).collect::<Vec<_>>());
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            assert_eq!(output.status.code(), Some(code), "{words:?}: {output:?}");
            assert!(
                said.contains(number) && !said.contains("panicked"),
                "{words:?}: {said}"
            );
        }
        // Nothing is a lead time: it lies on the shelf of the shop next door.
        let words = words("0");
        let output = folder.run(&words.iter().map(String::as_str).collect::<Vec<_>>());
        assert!(
            matches!(output.status.code(), Some(0 | 1)),
            "{words:?}: {output:?}"
        );
    }
    let served = Served::of_book(folder, "2026-05-03T09:00");
    for (path, refused) in [
        ("/engine/14/before/annual?lead=4294967295", true),
        ("/engine/14/before/annual?lead=-1", true),
        ("/engine/14/before/annual?lead=0", false),
        ("/engine/14/before/annual?lead=6+weeks", false),
        ("/engine/14/tires?lead_weeks=4294967295", true),
        ("/engine/14/tires?lead_weeks=0", false),
    ] {
        let page = served.get(path);
        assert_eq!(page.status, 200, "{path}: {}", page.body);
        assert_eq!(
            page.body.contains("is no lead time"),
            refused,
            "{path}: {}",
            page.body
        );
    }
    for path in [
        "/print/before/14/annual?lead=4294967295",
        "/print/before/14/annual?lead=soon",
        "/print/tires/14?lead_weeks=4294967295",
        "/print/tires/14?lead_weeks=soon",
    ] {
        let page = served.get(path);
        assert_eq!(page.status, 422, "{path}: {}", page.body);
    }
}
