//! Copies of a book: proved, dated, kept by a rule, restored; the drill that CI runs.

use std::path::Path;

use crate::pages::Served;
use crate::run::Folder;

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn at(folder: &Folder, now: &str, words: &[&str]) -> std::process::Output {
    folder
        .command(words)
        .env("OUTSHOP_NOW", now)
        .output()
        .unwrap()
}

#[test]
fn a_copy_is_proved_dated_kept_by_the_rule_and_restores_to_an_equal_book() {
    let folder = Folder::shop("copies");
    let disk = folder.file("stick");
    std::fs::create_dir(&disk).unwrap();
    // A stranger's file and another book's copy lie there already, and stay.
    std::fs::write(disk.join("shop-20260101-000000.book"), "not a book").unwrap();
    let other = Folder::shop("copies-other");
    let stranger = disk.join("shop-20260102-000000.book");
    other.done(&["backup", stranger.to_str().unwrap()]);

    let first = String::from_utf8(
        at(
            &folder,
            "2026-02-01T18:00",
            &["backup", "stick", "--newest", "2", "--months", "1"],
        )
        .stdout,
    )
    .unwrap();
    assert!(first.contains("The book is what was entered"), "{first}");
    assert!(first.contains("same disk as the book"), "{first}");
    for day in ["03-01", "03-02", "03-03", "04-01"] {
        // The folder is remembered.
        let now = format!("2026-{day}T18:00");
        assert!(at(&folder, &now, &["backup"]).status.success(), "{day}");
    }
    let kept: Vec<_> = names(&disk)
        .into_iter()
        .filter(|n| !n.ends_with(".keys"))
        .collect();
    assert_eq!(
        kept,
        [
            "shop-20260101-000000.book",
            "shop-20260102-000000.book",
            "shop-20260302-180000.book",
            "shop-20260303-180000.book",
            "shop-20260401-180000.book",
        ]
    );
    assert!(
        !names(&disk).iter().any(|n| n.contains(".half")),
        "{:?}",
        names(&disk)
    );

    // The drill: an older copy and the newest, against the book that has gone on.
    folder.done(&[
        "locomotive",
        "held",
        "14",
        "annual",
        "2025-11-08",
        "--document",
        "Form 3",
    ]);
    let copy = disk.join("shop-20260401-180000.book");
    let copy = copy.to_str().unwrap();
    let before = std::fs::read(copy).unwrap();
    let told = folder.done(&["restore", copy, "--drill"]);
    for said in [
        "restores to an equal book",
        "Its keys came with it",
        "but for the last entry, which was made since",
    ] {
        assert!(told.contains(said), "{said}: {told}");
    }
    assert_eq!(
        std::fs::read(copy).unwrap(),
        before,
        "the drill changed the copy"
    );
    // Another book's copy is found out.
    let no = folder.run(&["restore", stranger.to_str().unwrap(), "--drill"]);
    assert_eq!(no.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&no.stdout).contains("IT IS NOT THE PRESENT BOOK"));

    // Restored: under its own name, equal entry for entry, with its keys; never over a file that stands.
    let no = folder.run(&["restore", copy]);
    assert_eq!(no.status.code(), Some(2), "{no:?}");
    let told = folder.done(&["restore", copy, "--book", "again.book"]);
    assert!(told.contains("restored to again.book"), "{told}");
    let hash = |book: &str| folder.json(&["check", "--book", book])["head"]["hash"].clone();
    assert_eq!(hash("again.book"), hash(copy));
    assert!(folder.file("again.book.keys").is_file());
}

#[test]
fn a_copy_that_was_touched_is_no_copy_and_nothing_half_made_looks_whole() {
    let folder = Folder::shop("touched");
    folder.done(&["backup", "copy.book"]);
    // Nothing is overwritten.
    let no = folder.run(&["backup", "copy.book"]);
    assert_eq!(no.status.code(), Some(2));
    // Cut short, and with bytes changed in its middle: neither is restored, and nothing is left behind.
    let whole = std::fs::read(folder.file("copy.book")).unwrap();
    std::fs::write(folder.file("cut.book"), &whole[..whole.len() / 2]).unwrap();
    let mut bent = whole.clone();
    let text = b"Juniper Fork";
    let here = bent.windows(text.len()).position(|w| w == text).unwrap();
    bent[here] = b'K';
    std::fs::write(folder.file("bent.book"), &bent).unwrap();
    for copy in ["cut.book", "bent.book", "none.book"] {
        for words in [
            vec!["restore", copy, "--book", "new.book"],
            vec!["restore", copy, "--drill"],
        ] {
            let no = folder.run(&words);
            assert_ne!(no.status.code(), Some(0), "{words:?}: {no:?}");
        }
        assert!(
            !folder.file("new.book").exists() && !folder.file("new.book.half").exists(),
            "{copy}"
        );
    }
    // A book in use, or one that was copied by hand while it was, is no copy.
    std::fs::write(folder.file("copy.book-wal"), "x").unwrap();
    let no = folder.run(&["restore", "copy.book", "--book", "new.book"]);
    assert!(
        String::from_utf8_lossy(&no.stderr).contains("a book in use"),
        "{no:?}"
    );
    // Without its keys it restores, and says so.
    std::fs::remove_file(folder.file("copy.book-wal")).unwrap();
    std::fs::remove_file(folder.file("copy.book.keys")).unwrap();
    assert!(
        folder
            .done(&["restore", "copy.book", "--book", "new.book"])
            .contains("No keys lie beside")
    );
    // No place was ever named.
    let no = folder.run(&["backup"]);
    assert!(
        String::from_utf8_lossy(&no.stderr).contains("Name a folder"),
        "{no:?}"
    );
    let no = folder.run(&["backup", "--every", "0"]);
    assert_eq!(no.status.code(), Some(2));
}

#[test]
fn a_full_disk_is_said_and_leaves_nothing_that_looks_whole() {
    let folder = Folder::shop("full");
    // Past so many blocks of 512 bytes a file takes no more (POSIX `ulimit -f`); the signal is not taken.
    let script = "trap '' XFSZ; ulimit -f 200; exec \"$@\"";
    let out = std::process::Command::new("sh")
        .args([
            "-c",
            script,
            "sh",
            env!("CARGO_BIN_EXE_outshop"),
            "backup",
            "copy.book",
        ])
        .current_dir(&folder.0)
        .env_clear()
        .env("OUTSHOP_BOOK", "shop.book")
        .output()
        .unwrap();
    assert_eq!(out.status.code(), Some(3), "{out:?}");
    assert!(!String::from_utf8_lossy(&out.stderr).is_empty());
    let left: Vec<_> = names(&folder.0)
        .into_iter()
        .filter(|n| n.starts_with("copy"))
        .collect();
    assert_eq!(left, [""; 0], "something of the copy is left");
    folder.done(&["check"]);
}

#[test]
fn it_is_copied_while_the_desk_runs_and_the_first_page_says_when_it_was_not() {
    let folder = Folder::shop("online");
    let served = Served::of_book(folder, "2026-05-04T09:00");
    assert!(served.get("/").body.contains("was never copied"));
    assert!(served.get("/copies").body.contains("outshop backup FOLDER"));
    std::fs::create_dir(served.folder.file("stick")).unwrap();
    // A page never says where to; the folder is named at the machine.
    assert_eq!(served.post("/copies", "").status, 422);
    assert!(
        at(
            &served.folder,
            "2026-05-04T09:05",
            &["backup", "stick", "--every", "3"]
        )
        .status
        .success()
    );
    assert!(!served.get("/").body.contains("copied"));
    assert_eq!(served.post("/copies", "").status, 303);
    assert_eq!(
        served.post("/copies", "").status,
        422,
        "two copies within one second of a held clock"
    );
    let page = served.get("/copies").body;
    assert!(
        page.contains("shop-20260504-090500.book") && page.contains("same disk"),
        "{page}"
    );
    let folder = served.leaves();
    let later = Served::of_book(folder, "2026-05-07T09:06");
    assert!(
        later
            .get("/")
            .body
            .contains("last copied 3 days ago; a copy every 3 days"),
        "{}",
        later.get("/").body
    );
    assert_eq!(later.post("/copies", "").status, 303);
    assert!(!later.get("/").body.contains("last copied"));
}
