//! Files that must be refused: each in `tests/bad/` opens with the file name it pretends to have and the sentence
//! expected of the loader.

use std::collections::BTreeSet;
use std::path::Path;

use rules::Rulebook;

const SOURCES: &str = r#"
[made-up]
issuer = "Juniper Fork Railroad Museum"
title = "Invented rules for tests"
edition = "first"
seen = "this test"
good_for = "nothing but this test"
"#;

#[test]
fn every_bad_file_is_refused_with_its_sentence() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    let mut sentences = BTreeSet::new();
    for entry in std::fs::read_dir(&folder).expect("the folder") {
        let path = entry.expect("an entry").path();
        let text = std::fs::read_to_string(&path).expect("a text");
        let told = |key: &str| {
            let line = text.lines().find_map(|l| l.strip_prefix(key));
            line.unwrap_or_else(|| panic!("{} does not say `{key}`", path.display()))
                .trim()
                .to_owned()
        };
        let (name, expected) = (told("# as:"), told("# refused:"));
        let said = match Rulebook::from_files(&[("sources.toml", SOURCES), (&name, &text)]) {
            Ok(_) => panic!("{} was accepted", path.display()),
            Err(error) => error.to_string(),
        };
        assert_eq!(said, format!("{name}: {expected}"), "{}", path.display());
        assert!(
            sentences.insert(expected),
            "{} repeats another's sentence",
            path.display()
        );
    }
    assert!(sentences.len() >= 30, "only {} bad files", sentences.len());
}

#[test]
fn a_rulebook_without_sources_or_with_a_broken_one_is_refused() {
    let said = |files: &[(&str, &str)]| {
        Rulebook::from_files(files)
            .expect_err("refused")
            .to_string()
    };
    assert_eq!(
        said(&[]),
        "sources.toml: is missing; every rule cites a paper named there"
    );
    let unknown = said(&[("sources.toml", "[a]\nissuer = \"x\"\npages = 3\n")]);
    assert!(
        unknown.starts_with("sources.toml: line 3: unknown key `pages`"),
        "{unknown}"
    );
}

/// Keys that a rule may leave out, and the members of a list (`    "..."`), whose loss the tests of the lists find.
/// Every other line of every file is needed.
const OPTIONAL: [&str; 10] = [
    "fitting",
    "except",
    "cautious",
    "first_start",
    "together_with",
    "    \"",
    "only_if",
    "out_of_use",
    "at_once",
    "restarted_by_items",
];

#[test]
fn no_line_of_any_rule_can_be_lost_unnoticed() {
    let rulebook = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rulebook");
    let sources = std::fs::read_to_string(rulebook.join("sources.toml")).expect("the sources");
    let mut lost = 0;
    for rule in Rulebook::built_in().expect("the rulebook loads").rules() {
        let file = format!("{}.toml", rule.id);
        let mut folders = std::fs::read_dir(rulebook.join(&rule.jurisdiction)).expect("the folder");
        let path = folders
            .find_map(|f| Some(f.ok()?.path().join(&file)).filter(|p| p.exists()))
            .expect("the file");
        let text = std::fs::read_to_string(&path).expect("a text");
        // The file is read alone here, so what it says of other rules is taken out first.
        let text = without_references(&text);
        let name = format!("{}/any/{file}", rule.jurisdiction);
        for line in text
            .lines()
            .filter(|l| !l.is_empty() && !OPTIONAL.iter().any(|key| l.starts_with(key)))
        {
            let without = text.replacen(&format!("{line}\n"), "", 1);
            let read = Rulebook::from_files(&[("sources.toml", &sources), (&name, &without)]);
            assert!(read.is_err(), "{file} still loads without `{line}`");
            lost += 1;
        }
    }
    assert!(lost > 1000, "only {lost} lines were tried");
}

/// A rule's text without its pair and with an empty list of limits.
fn without_references(text: &str) -> String {
    let mut kept = String::new();
    let mut inside = false;
    for line in text.lines() {
        if inside {
            inside = line != "]";
        } else if line.starts_with("limits = ") {
            inside = line == "limits = [";
            kept.push_str("limits = []\n");
        } else if !line.starts_with("together_with") {
            kept.push_str(line);
            kept.push('\n');
        }
    }
    kept
}

/// The faults a rulebook can have that matter most, and the bad file that proves each is found.
#[test]
fn the_faults_that_matter_most_each_have_a_bad_file() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad");
    for (fault, file) in [
        ("a missing citation", "cite-missing"),
        ("a citation of a paper nobody named", "unknown-source"),
        ("a gap between versions", "versions-gap"),
        ("an overlap of versions", "versions-overlap"),
        ("an open version before another", "versions-overlap-open"),
        ("a day that is none", "bad-date"),
        ("an end before its beginning", "until-before-start"),
        ("a decimal where a fraction belongs", "decimal-length"),
        ("the same in quotes", "decimal-length-in-quotes"),
        ("the same in a table", "table-cell-decimal"),
        ("a mark missing", "mark-missing"),
        ("a mark of no known sort", "mark-unknown"),
        ("an unknown circumstance", "unknown-when"),
        ("an unknown unit", "unknown-unit"),
        ("an unknown event", "unknown-event"),
        ("an unknown occasion", "unknown-occasion"),
        ("a limit that is not on file", "unknown-limit"),
    ] {
        assert!(
            folder.join(format!("{file}.toml")).exists(),
            "{fault}: {file}"
        );
    }
}

#[test]
fn an_id_that_two_files_use_is_refused() {
    let text = std::fs::read_to_string(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bad/unknown-when.toml"),
    )
    .expect("a text")
    .replace("\"sunday\"", "");
    let one = ("invented/invented.limit.toml", text.as_str());
    let two = ("invented/other/invented.limit.toml", text.as_str());
    assert!(Rulebook::from_files(&[("sources.toml", SOURCES), one]).is_ok());
    let said = Rulebook::from_files(&[("sources.toml", SOURCES), one, two]);
    assert_eq!(
        said.expect_err("refused").to_string(),
        "invented/other/invented.limit.toml: the id `invented.limit` is used by another file too"
    );
}
