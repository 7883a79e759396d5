//! Finding things: at the command line, on its page, from the box in the head of every page, and not for strangers.

use crate::pages::Served;
use crate::run::Folder;

/// A shop with a drawing, an old number, a reading, a write-up and a tool to be found.
fn shop(name: &str) -> Folder {
    let folder = Folder::shop(name);
    let check = ["14", "right feed check"];
    let known = [
        "--also",
        "old No. 7 check",
        "--drawing",
        "14-B-203",
        "--material",
        "bronze, melt 41",
        "--document",
        "job book",
    ];
    folder.done(&[&["part", "tell"], &check[..], &known[..]].concat());
    folder.done(
        &[
            &["reading", "take"],
            &check[..],
            &["seat-land@front=10/64in by dividers M-3"],
        ]
        .concat(),
    );
    folder.done(&[
        "finding",
        "record",
        "14",
        "right feed check",
        "--occasion",
        "write-up",
        "--shows",
        "weeps-back",
        "--told",
        "side-rod dust on it, and it weeps",
    ]);
    let lap = [
        "tooling",
        "add",
        "lap of gray iron",
        "--engine",
        "14",
        "--part",
        "right feed check",
        "--shelf",
        "drawer 2",
    ];
    folder.done(&lap);
    folder
}

/// The kinds of what was found.
fn kinds(folder: &Folder, words: &[&str]) -> Vec<String> {
    let output = folder.run(&[&["--json", "find"], words].concat());
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let found = json["found"].as_array().unwrap();
    assert_eq!(output.status.code(), Some(i32::from(found.is_empty())));
    found
        .iter()
        .map(|group| group["kind"].as_str().unwrap().to_string())
        .collect()
}

#[test]
fn what_a_person_means_is_found_where_it_stands() {
    let folder = shop("find");
    for (words, kind) in [
        (&["5/32"][..], "Readings"),
        (&["5/32", "in", "seat-land"], "Readings"),
        (&["M-3"], "Readings"),
        (&["#7"], "Parts"),
        (&["No.", "7"], "Parts"),
        (&["14b203"], "Parts"),
        (&["melt 41"], "Parts"),
        (&["side rod dust"], "Findings and decisions"),
        (&["f1"], "Findings and decisions"),
        (&["T-001"], "Tooling"),
        (&["Quill"], "People"),
        (&["staybolts", "annual"], "Rules"),
        (&["acme"], "Worked sheets"),
    ] {
        let found = kinds(&folder, words);
        assert!(found.iter().any(|it| it == kind), "{words:?}: {found:?}");
    }
    // Her number with another word finds what is hers, though the part does not say the number.
    assert!(kinds(&folder, &["No. 14", "feed"]).contains(&"Parts".to_string()));
    assert!(!kinds(&folder, &["99", "feed"]).contains(&"Parts".to_string()));
    assert_eq!(kinds(&folder, &["xylophone"]), [""; 0]);
    let text = folder.done(&["find", "10/64"]);
    assert!(
        text.contains("No. 14 right feed check") && text.contains("10/64"),
        "{text}"
    );
    let empty = folder.run(&["find", "..."]);
    assert_eq!(empty.status.code(), Some(2));
    // Nothing that is typed is a command of the index.
    for words in ["\" OR 1", "a*", "NEAR(a b)", "-x", "(", "col:x"] {
        let code = folder.run(&["find", "--", words]).status.code();
        assert!(matches!(code, Some(0..=2)), "{words}: {code:?}");
    }
    folder.done(&["check"]);
}

#[test]
fn what_is_put_right_is_found_as_it_stands_and_no_longer_as_it_was() {
    let folder = shop("find-mended");
    assert!(kinds(&folder, &["dust"]).contains(&"Findings and decisions".to_string()));
    let entries = folder.json(&["entry", "list"]);
    let list = entries
        .as_array()
        .or_else(|| entries["entries"].as_array())
        .unwrap()
        .clone();
    let entry = list
        .iter()
        .find(|it| it["kind"] == "finding-recorded")
        .unwrap();
    let number = entry["number"]
        .as_u64()
        .or_else(|| entry["entry"].as_u64())
        .unwrap()
        .to_string();
    folder.done(&[
        "entry",
        "correct",
        &number,
        "--because",
        "misheard",
        "told=scale on it, and it weeps",
    ]);
    assert!(!kinds(&folder, &["dust"]).contains(&"Findings and decisions".to_string()));
    assert!(kinds(&folder, &["scale"]).contains(&"Findings and decisions".to_string()));
    folder.done(&["check"]);
}

#[test]
fn the_box_in_the_head_of_every_page_leads_to_what_is_found() {
    let served = Served::of_book(shop("find-page"), "2026-05-03T09:00");
    let first = served.get("/").body;
    assert!(
        first.contains("action=\"/find\"") && first.contains("name=\"q\""),
        "{first}"
    );
    let page = served.get("/find?q=5%2F32").body;
    assert!(
        page.contains("Readings (1)") && page.contains("#entry-"),
        "{page}"
    );
    assert!(page.contains("value=\"5/32\""), "{page}");
    assert!(
        served
            .get("/find?q=xylophone")
            .body
            .contains("Fewer words find more")
    );
    assert!(
        served
            .get("/find?q=%3Cscript%3E")
            .body
            .contains("&lt;script&gt;")
    );
    assert_eq!(served.get("/find").status, 200);
    assert_eq!(served.get("/find?q=...").status, 200);
    let mut stranger = served;
    stranger.sign_in_with("");
    assert_eq!(stranger.get("/find?q=check").status, 303);
}
