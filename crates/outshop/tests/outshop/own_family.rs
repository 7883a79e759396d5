//! A family of parts that a shop wrote, from the file to a finding decided on. The whistle and its sizes are invented.

use std::path::Path;

use crate::run::Folder;

fn example() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/examples/whistle.toml");
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn a_family_of_the_shops_own_is_taken_in_and_used() {
    let folder = Folder::shop("own-family");
    std::fs::write(folder.file("whistle.toml"), example()).unwrap();
    let told = folder.done(&["family", "check", "whistle.toml"]);
    for said in [
        "no fault found",
        "whistle, version 1",
        "sheets seat.contact",
        "It is not in this book.",
        "Nothing was changed.",
    ] {
        assert!(told.contains(said), "`{said}` is not said: {told}");
    }
    let bad = example().replacen("seat.contact", "seat.kontact", 1);
    let line = bad
        .lines()
        .position(|line| line.contains("seat.kontact"))
        .unwrap()
        + 1;
    std::fs::write(folder.file("bad.toml"), bad).unwrap();
    for verb in ["check", "adopt"] {
        let output = folder.run(&["family", verb, "bad.toml"]);
        let said = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(said.contains(&format!("bad.toml:{line}: ")), "{said}");
        assert!(said.contains("seat.kontact"), "{said}");
    }
    folder.done(&["family", "adopt", "whistle.toml"]);
    let shown = folder.done(&["part", "family", "whistle"]);
    assert!(shown.contains("moves its stop valve below"), "{shown}");
    let again = folder.run(&["family", "adopt", "whistle.toml"]);
    assert_eq!(again.status.code(), Some(2));

    folder.done(&["part", "add", "14", "whistle", "--family", "whistle"]);
    folder.done(&[
        "finding",
        "record",
        "14",
        "whistle",
        "--told",
        "weeps at all pressures",
        "--shows",
        "weeps",
        "--occasion",
        "write-up",
        "slot@front=.040in",
        "slot@right=.041in",
        "slot@back=.040in",
        "slot@left=.042in",
    ]);
    let choice = folder.json(&["finding", "show", "F-001"]);
    let routes = choice["routes"].as_array().unwrap();
    let words: Vec<_> = routes
        .iter()
        .map(|it| it["route"].as_str().unwrap())
        .collect();
    assert_eq!(words, ["carry", "grind", "true-bowl", "renew"]);
    folder.done(&[
        "decide",
        "F-001",
        "grind",
        "--because",
        "it weeps and nothing else is wrong",
    ]);
    let made = folder.done(&["job", "make", "F-001"]);
    assert!(made.contains("J-001"), "{made}");
}

/// How long one takes to come stands with the kind, and what is told of one part goes before it; neither is taken on trust.
#[test]
fn a_lead_time_is_of_the_kind_or_of_the_part_and_must_read() {
    let folder = Folder::shop("lead-time");
    let with = |lead: &str| {
        example().replacen(
            "version = 1\n",
            &format!("version = 1\nlead-time = \"{lead}\"\n"),
            1,
        )
    };
    let bad = with("soon");
    let line = bad.lines().position(|line| line.contains("soon")).unwrap() + 1;
    std::fs::write(folder.file("bad.toml"), bad).unwrap();
    let output = folder.run(&["family", "adopt", "bad.toml"]);
    let said = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
    assert_eq!(output.status.code(), Some(2), "{said}");
    let wanted = format!("bad.toml:{line}: `soon` is no lead time");
    assert!(said.contains(&wanted), "{said}");
    std::fs::write(folder.file("whistle.toml"), with("6 weeks")).unwrap();
    folder.done(&["family", "adopt", "whistle.toml"]);
    folder.done(&["part", "add", "14", "whistle", "--family", "whistle"]);
    let shown = folder.done(&["part", "show", "14", "whistle"]);
    let of_the_kind = "6 weeks, as the family whistle has it, version 1 of this book";
    assert!(shown.contains(of_the_kind), "{shown}");
    for none in [
        "lead-time=soon",
        "lead-time=6 months",
        "lead-time=4294967295 weeks",
    ] {
        let told = ["part", "tell", "14", "whistle", "--fact", none];
        let output = folder.run(&told);
        assert_eq!(output.status.code(), Some(2), "{none}: {output:?}");
    }
    let told = [
        "part",
        "tell",
        "14",
        "whistle",
        "--fact",
        "lead-time=10 days",
    ];
    folder.done(&[&told[..], &["--document", "asked by telephone"]].concat());
    let shown = folder.done(&["part", "show", "14", "whistle"]);
    let of_the_part = "10 days, told by Ada Quill on 2026-05-03: asked by telephone";
    assert!(
        shown.contains(of_the_part) && !shown.contains("6 weeks"),
        "{shown}"
    );
}
