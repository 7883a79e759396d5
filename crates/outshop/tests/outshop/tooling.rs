//! The tooling register at its doors: a tool with what it serves, its checks, its shelf, its tag, and its end.

use crate::pages::Served;
use crate::run::Folder;

/// A shop with one tool.
fn with_a_lap(name: &str) -> Folder {
    let folder = Folder::shop(name);
    let lap = [
        "tooling",
        "add",
        "lap, 45 deg half angle",
        "--engine",
        "14",
        "--part",
        "right feed check",
        "--feature",
        "seat-land",
        "--drawing",
        "14-B-9",
        "--shelf",
        "valve drawer 2",
    ];
    let added = folder.json(&lap);
    assert_eq!(added["tooling"], "T-001");
    folder
}

fn said(folder: &Folder, words: &[&str], code: i32) -> String {
    let output = folder.run(words);
    assert_eq!(output.status.code(), Some(code), "{words:?}: {output:?}");
    String::from_utf8(output.stderr).unwrap() + &String::from_utf8(output.stdout).unwrap()
}

#[test]
fn a_tool_is_found_by_what_it_serves_checked_moved_and_taken_out() {
    let folder = with_a_lap("tooling");
    let plain = [
        "tooling",
        "add",
        "mandrel",
        "--engine",
        "14",
        "--part",
        "right feed check",
        "--shelf",
        "rack",
    ];
    folder.done(&plain);
    folder.done(&[
        "part",
        "add",
        "14",
        "left feed check",
        "--family",
        "check-valve",
    ]);
    let tell = [
        "tooling",
        "tell",
        "T-001",
        "--engine",
        "14",
        "--part",
        "left feed check",
        "--feature",
        "seat-half-angle",
    ];
    folder.done(&tell);
    let both = folder.json(&["tooling", "show", "T-001"]);
    assert_eq!(both["serves"][1], "No. 14 left feed check");
    assert_eq!(
        both["features"],
        serde_json::json!(["seat-land", "seat-half-angle"])
    );
    let by = folder.done(&["tooling", "list", "--by-feature"]);
    assert!(
        by.contains("seat-half-angle\n  T-001") && by.contains("feature not told\n  T-002"),
        "{by}"
    );
    let one = folder.json(&["tooling", "list", "--feature", "seat-land"]);
    assert_eq!(one.as_array().unwrap().len(), 1);
    // The other part it serves shows it too.
    assert!(
        folder
            .done(&["part", "show", "14", "left feed check"])
            .contains("T-001")
    );
    let check = ["tooling", "check", "T-001", "--against", "master cone"];
    folder.done(&[&check[..], &["--good", "--on", "2026-04-01"]].concat());
    let found = [&check[..], &["--wrong", "--error", "6 minutes steep"]].concat();
    folder.done(&found);
    let shown = said(&folder, &["tooling", "show", "T-001"], 1);
    assert!(
        shown.contains("FOUND WRONG") && shown.contains("error 6 minutes steep"),
        "{shown}"
    );
    folder.done(&["tooling", "move", "T-001", "--shelf", "valve drawer 3"]);
    folder.done(&[
        "tooling",
        "take-out",
        "T-001",
        "--because",
        "worn past its size",
    ]);
    assert!(
        !folder
            .done(&["part", "show", "14", "left feed check"])
            .contains("T-001")
    );
    let again = said(
        &folder,
        &["tooling", "take-out", "T-001", "--because", "worn"],
        1,
    );
    assert!(again.contains("taken out on"), "{again}");
    folder.done(&["tooling", "move", "T-001", "--shelf", "valve drawer 3"]);
    assert!(
        folder
            .done(&["part", "show", "14", "left feed check"])
            .contains("T-001")
    );
    folder.done(&["check"]);
}

#[test]
fn what_cannot_be_said_of_a_tool_is_refused_and_nothing_is_saved() {
    let folder = with_a_lap("tooling-refused");
    let head = folder.head();
    for (words, says) in [
        (
            &["tooling", "tell", "T-001", "--feature", "tread"][..],
            "no feature of what it serves",
        ),
        (
            &["tooling", "tell", "T-001", "--feature", "seat-land"],
            "Nothing new is told",
        ),
        (
            &["tooling", "tell", "T-009", "--feature", "seat-land"],
            "no tooling T-009",
        ),
        (
            &["tooling", "check", "T-001", "--against", "blocks"],
            "good or wrong",
        ),
        (
            &["tooling", "check", "T-001", "--against", " ", "--good"],
            "held against",
        ),
        (
            &[
                "tooling",
                "check",
                "T-001",
                "--against",
                "blocks",
                "--wrong",
            ],
            "what is wrong",
        ),
        (
            &["tooling", "move", "T-001", "--shelf", " "],
            "where it lies now",
        ),
        (
            &["tooling", "move", "T-001", "--shelf", "valve drawer 2"],
            "lies there already",
        ),
        (
            &["tooling", "take-out", "T-001", "--because", ""],
            "Say why",
        ),
        (&["print", "tool-tag", "lap"], "T-001 was expected"),
    ] {
        let why = said(&folder, words, 2);
        assert!(why.contains(says), "{words:?}: {why}");
        assert!(why.contains("Nothing was saved."), "{words:?}: {why}");
    }
    assert_eq!(folder.head(), head);
}

#[test]
fn the_pages_of_the_tooling_do_the_same_and_hand_out_the_tag() {
    let served = Served::of_book(with_a_lap("tooling-page"), "2026-05-03T09:00");
    let list = served.get("/tooling").body;
    assert!(
        list.contains("T-001") && list.contains("valve drawer 2"),
        "{list}"
    );
    assert!(
        served
            .get("/tooling?by=feature")
            .body
            .contains("<h2>seat-land</h2>")
    );
    let add = "verb=tooling+add&back=%2Ftooling&then=tooling&what=mandrel&engine=14&part=right+feed+check&shelf=";
    let refused = served.post("/do", add);
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(
        refused.body.contains("value=\"mandrel\""),
        "{}",
        refused.body
    );
    let added = served.post("/do", &format!("{add}rack+4&features=guide-bore"));
    assert_eq!(added.status, 303, "{}", added.body);
    assert!(added.head.contains("/tooling/T-002"), "{}", added.head);
    let path = "/tooling/T-002";
    let post = |rest: &str| {
        served
            .post("/do", &format!("back={path}&number=T-002&{rest}"))
            .status
    };
    assert_eq!(post("verb=tooling+check&choice=good&against=blocks"), 303);
    assert_eq!(post("verb=tooling+tell&features=guide-stem"), 303);
    assert_eq!(post("verb=tooling+move&shelf=rack+5"), 303);
    let page = served.get(path).body;
    for says in [
        "found good",
        "guide-bore, guide-stem",
        "rack 5",
        "/print/tool-tag/T-002",
    ] {
        assert!(page.contains(says), "{says}: {page}");
    }
    let tag = served.get("/print/tool-tag/T-002");
    assert!(tag.head.contains("application/pdf"), "{}", tag.head);
    assert_eq!(post("verb=tooling+take-out&because=broken"), 303);
    assert_eq!(served.get("/print/tool-tag/T-002").status, 409);
    assert!(served.get("/tooling").body.contains("taken out"));
    assert_eq!(served.get("/tooling/T-099").status, 404);
}
