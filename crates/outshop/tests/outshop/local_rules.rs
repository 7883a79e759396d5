//! Rules a shop writes, from the file to the book and to every answer that hangs on them. The shop, its order and the
//! province of Hallow are invented, and so is every figure of theirs.

use std::path::{Path, PathBuf};

use crate::run::Folder;

/// An example of `docs/examples/`.
fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../docs/examples")
        .join(name)
}

/// The text of an example, changed, in a file of the folder.
fn changed(folder: &Folder, name: &str, old: &str, new: &str) {
    let text = std::fs::read_to_string(example("own-limits.toml")).unwrap();
    assert!(text.contains(old));
    std::fs::write(folder.file(name), text.replacen(old, new, 1)).unwrap();
}

fn code(folder: &Folder, words: &[&str]) -> (i32, String) {
    let output = folder.run(words);
    let said = [output.stdout, output.stderr].concat();
    (
        output.status.code().unwrap(),
        String::from_utf8(said).unwrap(),
    )
}

fn head(folder: &Folder) -> String {
    folder.json(&["check"])["head"].to_string()
}

#[test]
fn a_file_is_looked_over_and_changes_nothing() {
    let folder = Folder::shop("rules-check");
    let before = head(&folder);
    let own = example("own-limits.toml");
    let told = folder.done(&["rule", "check", own.to_str().unwrap()]);
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "no fault found",
        "this shop's own; for it answers the chief mechanical officer",
        "stricter than us-steam.crosshead.vertical",
        "stricter than us-steam.clock.31",
        "held against crosshead to guide, vertical clearance of a crosshead-and-guide",
        "No text of juniper-fork is in this book.",
        "Nothing was changed.",
    ] {
        assert!(flat.contains(said), "`{said}` is not said: {told}");
    }
    // Without a book too.
    let mut bare = folder.command(&["rule", "check", own.to_str().unwrap()]);
    assert!(bare.env_remove("OUTSHOP_BOOK").status().unwrap().success());

    changed(&folder, "bad.toml", "value = \"3/16 in\"", "value = 0.1875");
    let (exit, said) = code(&folder, &["rule", "check", "bad.toml"]);
    assert_eq!(exit, 2, "{said}");
    assert!(
        said.contains("bad.toml:37: juniper-fork.crosshead.vertical, version 1: `value` is the decimal 0.1875; a length is written in quotes"),
        "{said}"
    );
    assert!(said.contains("Nothing was saved."), "{said}");
    let (exit, said) = code(&folder, &["rule", "adopt", "bad.toml"]);
    assert!(exit == 2 && said.contains("bad.toml:37: "), "{said}");
    for (file, bytes, says) in [
        ("none.toml", None, "none.toml cannot be read"),
        (
            "bytes.toml",
            Some(b"[set]\n\xff".to_vec()),
            "bytes.toml:2: this is not text in UTF-8",
        ),
        (
            "large.toml",
            Some(vec![b'#'; (1 << 20) + 1]),
            "larger than a megabyte",
        ),
    ] {
        if let Some(bytes) = bytes {
            std::fs::write(folder.file(file), bytes).unwrap();
        }
        let (exit, said) = code(&folder, &["rule", "check", file]);
        assert!(exit == 2 && said.contains(says), "{said}");
    }
    // What only looks like an unlocked door: a looser limit is told to change nothing.
    changed(
        &folder,
        "loose.toml",
        "value = \"3/16 in\"",
        "value = \"3/8 in\"",
    );
    let loose = folder.done(&["rule", "check", "loose.toml"]);
    assert!(
        loose.contains("looser than us-steam.crosshead.vertical"),
        "{loose}"
    );
    assert_eq!(head(&folder), before);
}

#[test]
fn a_file_taken_in_binds_an_engine_and_travels_with_the_book() {
    let folder = Folder::shop("rules-adopt");
    std::fs::copy(example("own-limits.toml"), folder.file("ours.toml")).unwrap();
    let told = folder.done(&["rule", "adopt", "ours.toml", "--from", "2026-03-01"]);
    assert!(told.contains("juniper-fork, this shop's own, is in the book as text 1: 4 rules that hold from Sun 1 Mar 2026."), "{told}");
    assert!(told.contains("It binds no engine yet"), "{told}");
    let words = [
        "locomotive",
        "rules",
        "14",
        "juniper-fork",
        "--from",
        "2026-03-01",
        "--document",
        "order 4",
    ];
    let told = folder.done(&words);
    assert!(
        told.contains("No. 14 is under us-steam, juniper-fork (this shop's own)."),
        "{told}"
    );
    // The file is not needed any more; a copy of the book answers the same.
    std::fs::remove_file(folder.file("ours.toml")).unwrap();
    folder.done(&["backup", "copy.book"]);
    for book in ["shop.book", "copy.book"] {
        let due = folder.json(&["due", "14", "--book", book]);
        let rules: Vec<_> = due["clocks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|c| c["rule"].as_str().unwrap())
            .collect();
        assert!(
            rules.contains(&"juniper-fork.clock.31") && rules.contains(&"us-steam.clock.31"),
            "{rules:?}"
        );
        let rule = folder.json(&["rule", "juniper-fork.crosshead.vertical", "--book", book]);
        assert_eq!(rule["origin"], "this shop's own");
        assert_eq!(
            rule["versions"][0]["source"],
            "Shop order 4: wear at which we act"
        );
    }
    let why = code(&folder, &["due", "14", "--why"]).1;
    let flat = why.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        flat.contains("(paragraph 5 of juniper-fork, this shop's own)"),
        "{why}"
    );
    let list = folder.done(&["rule", "--list", "juniper"]);
    assert!(
        list.lines().count() == 4 && list.lines().all(|l| l.ends_with("(this shop's own)")),
        "{list}"
    );
    let show = folder.done(&["locomotive", "show", "14"]);
    assert!(
        show.contains("rules us-steam, juniper-fork (this shop's own)")
            && show.contains("(order 4)"),
        "{show}"
    );
    let check = folder.done(&["check"]);
    assert!(!check.is_empty());
    // An act stands; a newer text follows it.
    let entry = folder.json(&["entry", "list"]);
    assert!(entry.to_string().contains("rules-adopted"));
    changed(
        &folder,
        "newer.toml",
        "title = \"Our own wash round\"",
        "title = \"Our wash round\"",
    );
    let (exit, said) = code(
        &folder,
        &["rule", "adopt", "newer.toml", "--from", "2026-03-01"],
    );
    assert!(
        exit == 2 && said.contains("expected to hold from a later day"),
        "{said}"
    );
    let told = folder.done(&["rule", "adopt", "newer.toml", "--from", "2026-05-01"]);
    assert!(
        told.contains("as text 2") && told.contains("It binds No. 14."),
        "{told}"
    );
}

#[test]
fn an_engine_of_another_country_lives_under_her_own_rules() {
    let folder = Folder::shop("rules-hallow");
    let hallow = example("invented-hallow.toml");
    folder.done(&[
        "rule",
        "adopt",
        hallow.to_str().unwrap(),
        "--from",
        "2024-01-01",
    ]);
    let add = [
        "locomotive",
        "add",
        "33",
        "--wheels",
        "0-6-0",
        "--gauge",
        "1000 mm",
        "--rules",
        "invented-hallow",
    ];
    folder.done(&add);
    let held = [
        "locomotive",
        "held",
        "33",
        "half-yearly",
        "2026-01-31",
        "--document",
        "a form",
    ];
    folder.done(&held);
    let due = folder.json(&["due", "33"]);
    let half = due["clocks"]
        .as_array()
        .unwrap()
        .iter()
        .find(|c| c["inspection"] == "half-yearly")
        .unwrap();
    assert_eq!(
        (half["rule"].as_str(), half["stops_on"].as_str()),
        (
            Some("invented-hallow.clock.half-yearly"),
            Some("2026-08-01")
        )
    );
    assert!(!due.to_string().contains("us-steam"), "{due}");
    folder.done(&["inspect", "open", "33", "washing"]);
}
