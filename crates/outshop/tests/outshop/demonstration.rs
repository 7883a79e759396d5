//! The demonstration is the same twice, keeps its own today, and never takes another's place.

use crate::run::Folder;

#[test]
fn two_runs_give_one_head_hash_and_a_clean_book() {
    let folder = Folder::new("demo");
    let mut heads = Vec::new();
    for book in ["one.book", "two.book"] {
        folder.done(&["demo", "--no-serve", "--book", book]);
        let checked = folder.json(&["check", "--book", book]);
        assert_eq!(checked["differences"], serde_json::json!([]));
        heads.push(checked["head"]["hash"].clone());
    }
    assert_eq!(heads[0], heads[1]);
    // Made again over itself: still the same.
    folder.done(&["demo", "--no-serve", "--book", "one.book"]);
    assert_eq!(
        folder.json(&["check", "--book", "one.book"])["head"]["hash"],
        heads[1]
    );
}

#[test]
fn it_tells_what_stops_which_engine_and_the_feed_check_to_its_close() {
    let folder = Folder::new("told");
    let text = folder.done(&["demo", "--book", "d.book"]);
    for said in [
        "STOPS HER   annual",
        "Nothing in this book stops No. 27 on Sat 16 May 2026 (released by Ada Quill",
        "Sat 30 May 2026  Saturday train: the 31 must be held first",
        "F-001: No. 14, right feed check (closed)",
        "Closed Sat 4 Apr 2026 by Ada Quill; as left it complies.",
        "metal left: .1490 in",
        "Everything in it is invented",
    ] {
        assert!(text.contains(said), "missing: {said}\n{text}");
    }
}

#[test]
fn it_keeps_its_own_today_whatever_the_machine_says() {
    let folder = Folder::new("today");
    folder.done(&["demo", "--no-serve", "--book", "d.book"]);
    let output = folder
        .command(&["due", "27", "--json", "--book", "d.book"])
        .env_remove("OUTSHOP_NOW")
        .output()
        .unwrap();
    let due: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(due["on"], "2026-05-16");
}

#[test]
fn it_never_overwrites_a_file_that_is_no_demonstration() {
    let folder = Folder::shop("kept");
    let before = std::fs::read(folder.file("shop.book")).unwrap();
    let output = folder.run(&["demo", "--no-serve"]);
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert_eq!(std::fs::read(folder.file("shop.book")).unwrap(), before);

    std::fs::write(folder.file("notes.txt"), "shopping list").unwrap();
    let output = folder.run(&["demo", "--no-serve", "--book", "notes.txt"]);
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    assert_eq!(
        std::fs::read(folder.file("notes.txt")).unwrap(),
        b"shopping list"
    );
}
