//! Sets that a shop writes: the examples of this repository are read, and each fault is told with its line.
//! Everything in these files is invented, and the checks are of our own format: there is no outside source.

use std::path::Path;

use jiff::civil::{Date, date};
use rules::{Beside, Body, Origin, RuleSet, Rulebook, Span, beside, words};

fn book() -> &'static Rulebook {
    Rulebook::built_in().expect("the rulebook loads")
}

/// An example of `docs/examples/`.
pub fn example(name: &str) -> String {
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/examples");
    std::fs::read_to_string(docs.join(name)).expect("an example")
}

fn own() -> String {
    example("own-limits.toml")
}

fn read(text: &str) -> RuleSet {
    RuleSet::read(text, book()).unwrap_or_else(|faults| {
        let said: Vec<_> = faults.iter().map(|f| f.at("FILE")).collect();
        panic!("{}", said.join("\n"))
    })
}

/// What is said of a text that is refused, one line each.
fn said(text: &str) -> Vec<String> {
    let faults = RuleSet::read(text, book()).expect_err("refused");
    faults.iter().map(|f| f.at("FILE")).collect()
}

/// The line of the `nth` place (from 0) where a text has `what`.
fn line_of(text: &str, what: &str, nth: usize) -> usize {
    let mut lines = (1..).zip(text.lines()).filter(|(_, l)| l.contains(what));
    lines.nth(nth).map(|(n, _)| n).expect("the line")
}

const DAY: Date = date(2026, 5, 2);

#[test]
fn both_examples_are_read_and_say_what_they_are() {
    let own = read(&own());
    assert_eq!(
        (own.id.as_str(), own.origin),
        ("juniper-fork", Origin::Shop)
    );
    assert!(!own.origin.binds_as_law());
    assert_eq!(own.rules.rules().count(), 4);
    for rule in own.rules.rules() {
        assert_eq!(
            (rule.jurisdiction.as_str(), rule.origin),
            ("juniper-fork", Origin::Shop)
        );
        assert!(book().rule(&rule.id).is_err());
    }

    let hallow = read(&example("invented-hallow.toml"));
    assert_eq!(hallow.origin, Origin::Elsewhere);
    assert!(hallow.title.contains("invented") && hallow.answers.contains("nobody"));
    assert!(hallow.rules.counts_service_days("invented-hallow"));
    // Its own inspections, smallest first, behind the built-in word it uses.
    let kinds = hallow
        .rules
        .inspections("invented-hallow", DAY)
        .expect("kinds");
    let kinds: Vec<_> = kinds.iter().map(|(w, _)| *w).collect();
    assert_eq!(kinds, ["daily", "washing", "half-yearly", "lift-and-test"]);
    let clocks = hallow.rules.clocks("invented-hallow", DAY).expect("clocks");
    let clocks: Vec<_> = clocks.iter().map(|c| c.rule.as_str()).collect();
    assert_eq!(
        clocks,
        [
            "invented-hallow.clock.daily",
            "invented-hallow.clock.washing",
            "invented-hallow.clock.half-yearly",
            "invented-hallow.clock.lift-and-test",
        ]
    );
    // No inspection of its own contains another: an item stands on the lists that name it.
    let items = |kind: &str| {
        let items = hallow
            .rules
            .items("invented-hallow", kind, DAY)
            .expect("items");
        items.into_iter().map(|r| r.rule).collect::<Vec<_>>()
    };
    assert_eq!(items("washing"), ["invented-hallow.washing.plugs"]);
    assert_eq!(items("half-yearly"), ["invented-hallow.half-yearly.motion"]);
    assert_eq!(
        items("lift-and-test"),
        [
            "invented-hallow.washing.plugs",
            "invented-hallow.half-yearly.motion"
        ]
    );
    // The version of the day.
    let span = |day| match hallow
        .rules
        .ruling("invented-hallow.clock.half-yearly", day)
    {
        Ok(ruling) => match ruling.body {
            Body::Calendar(it) => (ruling.version, it.span),
            other => panic!("{other:?}"),
        },
        Err(error) => panic!("{error}"),
    };
    assert_eq!(
        span(date(2023, 12, 31)),
        (1, Span::Months(9, rules::MonthEnd::LastDay))
    );
    assert_eq!(
        span(date(2024, 1, 1)),
        (2, Span::Months(6, rules::MonthEnd::LastDay))
    );
}

/// Neither example is in the rulebook of this program.
#[test]
fn no_example_is_built_in() {
    let known: Vec<_> = book().jurisdictions().into_iter().collect();
    assert_eq!(known, ["us-diesel", "us-steam"]);
    assert!(
        book()
            .rules()
            .all(|r| r.origin == Origin::Law && !r.id.contains("hallow"))
    );
    assert_eq!(Rulebook::is_built_in("us-steam"), Ok(true));
    assert_eq!(Rulebook::is_built_in("juniper-fork"), Ok(false));
}

/// Each fault the document names, what makes it of the example, on which line it is told, and in which words.
#[test]
fn every_fault_is_told_with_its_line_and_what_was_expected() {
    let cite = r#"cite = { source = "order-4", section = "paragraph 2", edition = "issued 1 March 2026" }"#;
    let of_1 = |key: &str| line_of(&own(), key, 0);
    let first = line_of(&own(), "[[rule.version]]", 0);
    for (fault, old, new, line, says) in [
        (
            "a missing citation",
            cite,
            "",
            first,
            "juniper-fork.crosshead.vertical, version 1: missing key `cite`",
        ),
        (
            "a citation of a paper nobody named",
            "source = \"order-4\", section = \"paragraph 2\"",
            "source = \"order-9\", section = \"paragraph 2\"",
            of_1("cite ="),
            "version 1: the source `order-9` is not named in this file; expected a table [source.order-9]",
        ),
        (
            "an empty section",
            "section = \"paragraph 2\"",
            "section = \" \"",
            of_1("cite ="),
            "version 1: `section` is empty",
        ),
        (
            "an impossible date",
            "in_force = 2026-03-01",
            "in_force = \"2026-02-30\"",
            of_1("in_force"),
            "version 1: `in_force` is 2026-02-30, which is not a day of the calendar; expected as 2000-01-18",
        ),
        (
            "an end before its beginning",
            "until = \"open\"",
            "until = 2026-02-01",
            of_1("until"),
            "version 1: `until` lies before in_force, 2026-03-01",
        ),
        (
            "a decimal where a fraction belongs",
            "value = \"3/16 in\"",
            "value = 0.1875",
            of_1("value ="),
            "version 1: `value` is the decimal 0.1875; a length is written in quotes",
        ),
        (
            "the same in quotes",
            "value = \"3/16 in\"",
            "value = \"0.1875 in\"",
            of_1("value ="),
            "version 1: `value` is \"0.1875 in\", a decimal",
        ),
        (
            "finer than a micrometre",
            "value = \"3/16 in\"",
            "value = \"4.7625 mm\"",
            of_1("value ="),
            "version 1: `value` is \"4.7625 mm\", finer than 0.001 mm",
        ),
        (
            "an unknown circumstance",
            "when = [\"main-pin\"]",
            "when = [\"sunday\"]",
            line_of(&own(), "when = [\"main-pin\"]", 0),
            "unknown word `sunday` for `when`",
        ),
        (
            "an unknown unit",
            "value = \"3/16 in\"",
            "value = \"3\"\nunit = \"furlongs\"",
            of_1("value =") + 1,
            "version 1: unknown word `furlongs` for `unit`",
        ),
        (
            "an unknown count",
            "unit = \"service-day\"",
            "unit = \"fortnight\"",
            line_of(&own(), "unit = \"service-day\"", 0),
            "unknown variant `fortnight`",
        ),
        (
            "an unknown inspection",
            "inspection = \"31\"",
            "inspection = \"monthly\"",
            line_of(&own(), "inspection = \"31\"", 0),
            "unknown word `monthly` for `inspection`; expected daily, 31, 92",
        ),
        (
            "an unknown need",
            "needs = []",
            "needs = [\"luck\"]",
            of_1("needs"),
            "unknown word `luck` for `needs`",
        ),
        (
            "an unknown limit of an item",
            "limits = []",
            "limits = [\"us-steam.crosshead.verticle\"]",
            line_of(&own(), "[[rule.version]]", 3),
            "limits names `us-steam.crosshead.verticle`, which is not a limit on file; did you mean `us-steam.crosshead.vertical`?",
        ),
        (
            "an unknown item",
            "due_after = 24",
            "due_after = 24\nrestarted_by_items = [\"juniper-fork.31.brik\"]",
            line_of(&own(), "[[rule.version]]", 2),
            "restarted_by_items names `juniper-fork.31.brik`, which is not an item on file; did you mean `juniper-fork.31.brick`?",
        ),
        (
            "an unknown partner",
            "grounds = false",
            "grounds = false\ntogether_with = \"us-steam.crosshead.vertical\"",
            first,
            "together_with names `us-steam.crosshead.vertical`, which is not another limit of this set on file",
        ),
        (
            "an unknown kind",
            "kind = \"limit\"",
            "kind = \"wish\"",
            of_1("kind ="),
            "unknown kind `wish`; expected one of definition, count",
        ),
        (
            "an unknown key",
            "grounds = false",
            "grounds = false\nmood = \"low\"",
            of_1("grounds") + 1,
            "says: unknown key `mood`",
        ),
        (
            "a mark of no known sort",
            "mark = \"own rule\"\nreading = \"We",
            "mark = \"hearsay\"\nreading = \"We",
            line_of(&own(), "mark = \"own rule\"", 1),
            "version 1: `mark` is \"hearsay\"; it must begin with read in, memory, inference or own rule",
        ),
        (
            "an id that clashes with a built-in rule",
            "id = \"juniper-fork.crosshead.vertical\"",
            "id = \"us-steam.crosshead.vertical\"",
            of_1("id = \"juniper-fork.crosshead"),
            "the id `us-steam.crosshead.vertical` is that of a rule of the law inside this program; expected one under `juniper-fork.`",
        ),
        (
            "an id not under the set's own prefix",
            "id = \"juniper-fork.crosshead.vertical\"",
            "id = \"juniper.crosshead\"",
            of_1("id = \"juniper-fork.crosshead"),
            "the id `juniper.crosshead` is not under this set; expected it to begin with `juniper-fork.`",
        ),
        (
            "the prefix alone",
            "id = \"juniper-fork.crosshead.vertical\"",
            "id = \"juniper-fork-crosshead\"",
            of_1("id = \"juniper-fork.crosshead"),
            "is not under this set",
        ),
        (
            "an id that two rules use",
            "id = \"juniper-fork.clock.31\"",
            "id = \"juniper-fork.crosshead.vertical\"",
            line_of(&own(), "[[rule]]", 2),
            "the id `juniper-fork.crosshead.vertical` is used twice in this file",
        ),
        (
            "the name of a built-in set",
            "id = \"juniper-fork\"\n",
            "id = \"us-steam\"\n",
            of_1("id = \"juniper-fork\""),
            "[set]: the id `us-steam` is that of a rulebook inside this program; expected a name of your own",
        ),
        (
            "a set of no known origin",
            "origin = \"shop\"",
            "origin = \"law\"",
            of_1("origin"),
            "[set]: `origin` is \"law\"; expected \"shop\" for rules of your own, or \"elsewhere\"",
        ),
        (
            "nobody who answers",
            "answers = \"the chief mechanical officer\"",
            "answers = \"\"",
            of_1("answers"),
            "[set]: `answers` is empty",
        ),
        ("no set", "[set]", "[sett]", 1, "the table [set] is missing"),
        (
            "an inspection of the program's own word",
            "[source.order-4]",
            "[[inspection]]\nword = \"92\"\nmeaning = \"ours\"\n\n[source.order-4]",
            of_1("[source.order-4]"),
            "`92` is a word of this program already",
        ),
        (
            "an inspection nobody could hold",
            "inspection = \"31\"\nrestarted_by = [\"31\",",
            "inspection = \"monthly\"\nrestarted_by = [\"monthly\", \"31\",",
            0,
            "calls for the inspection `monthly`, and no item of this set is on its list",
        ),
    ] {
        let text = own();
        assert!(text.contains(old), "{fault}: the example has no `{old}`");
        let mut text = text.replacen(old, new, 1);
        if fault == "an inspection nobody could hold" {
            text.push_str("\n[[inspection]]\nword = \"monthly\"\nmeaning = \"every month\"\n");
        }
        let told = said(&text);
        let at = if line == 0 {
            String::new()
        } else {
            format!("FILE:{line}: ")
        };
        assert!(
            told.iter().any(|t| t.starts_with(&at) && t.contains(says)),
            "{fault}: expected `{at}...{says}`, and was told\n{}",
            told.join("\n")
        );
    }
}

#[test]
fn versions_that_leave_a_gap_or_overlap_are_told_at_the_later_one() {
    let text = example("invented-hallow.toml");
    let line = line_of(&text, "in_force = 2024-01-01", 0);
    for (old, new, says) in [
        (
            "until = 2023-12-31",
            "until = 2023-12-30",
            "invented-hallow.clock.half-yearly: versions leave a gap: version 1 ends 2023-12-30, version 2 begins 2024-01-01",
        ),
        (
            "until = 2023-12-31",
            "until = 2024-01-01",
            "versions overlap: version 1 runs to 2024-01-01, version 2 begins 2024-01-01",
        ),
        (
            "until = 2023-12-31",
            "until = \"open\"",
            "versions overlap: version 1 is open, yet version 2 begins 2024-01-01",
        ),
    ] {
        assert!(text.contains(old));
        let told = said(&text.replacen(old, new, 1));
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(
            told[0].starts_with(&format!("FILE:{line}: ")) && told[0].contains(says),
            "{told:?}"
        );
    }
}

#[test]
fn every_fault_of_a_file_is_told_at_once_in_the_order_of_its_lines() {
    let text = own()
        .replacen("value = \"3/16 in\"", "value = 0.1875", 1)
        .replacen("when = [\"main-pin\"]", "when = [\"sunday\"]", 1)
        .replacen("kind = \"count\"", "kind = \"wish\"", 1);
    let faults = RuleSet::read(&text, book()).expect_err("refused");
    assert_eq!(faults.len(), 3, "{faults:?}");
    assert!(faults.is_sorted_by(|a, b| a.line < b.line));
}

#[test]
fn what_is_no_toml_or_holds_nothing_is_a_sentence() {
    let told = said("[set\nid = 3");
    assert!(
        told[0].starts_with("FILE:1: this does not read as TOML: "),
        "{told:?}"
    );
    assert!(said("")[0].contains("the table [set] is missing"));
    let head = own().split("[[rule]]").next().expect("a head").to_owned();
    assert_eq!(
        said(&head),
        ["FILE:1: the file holds no rule; expected at least one [[rule]]"]
    );
    for odd in [
        "\u{0}",
        "rule = 3",
        "set = 3",
        "[set]\n[[rule]]\n",
        "[[set]]\n",
        "rule = [1, 2]",
    ] {
        assert!(!said(odd).is_empty(), "{odd:?}");
    }
}

#[test]
fn no_line_of_an_example_can_be_lost_unnoticed() {
    // Keys a rule may leave out, what only a reader needs, and words whose loss leaves a shorter file.
    const OPTIONAL: [&str; 2] = ["#", "unit = \"bar\""];
    for name in ["own-limits.toml", "invented-hallow.toml"] {
        let text = example(name);
        let lines: Vec<&str> = text.lines().collect();
        let mut lost = 0;
        for (at, line) in lines.iter().enumerate() {
            if line.is_empty() || OPTIONAL.iter().any(|o| line.starts_with(o)) {
                continue;
            }
            let kept: Vec<&str> = lines
                .iter()
                .enumerate()
                .filter(|(n, _)| *n != at)
                .map(|(_, l)| *l)
                .collect();
            let read = RuleSet::read(&kept.join("\n"), book());
            assert!(
                read.is_err(),
                "{name} still reads without line {}: {line}",
                at + 1
            );
            lost += 1;
        }
        assert!(lost > 50, "{lost}");
    }
}

#[test]
fn a_newer_text_may_close_and_add_but_not_change_what_has_bound_a_day() {
    let older = read(&own());
    let from = date(2026, 6, 1);
    let faults = |text: &str| {
        let newer = read(text);
        newer
            .faults_after(&older, from)
            .iter()
            .map(|f| f.at("FILE"))
            .collect::<Vec<_>>()
    };
    let text = own();
    assert!(faults(&text).is_empty());
    // Words of ours and the day it was checked may change; the figure may not.
    assert!(
        faults(&text.replacen(
            "checked = { on = 2026-03-01",
            "checked = { on = 2026-05-30",
            1
        ))
        .is_empty()
    );
    let changed = faults(&text.replacen("value = \"3/16 in\"", "value = \"7/32 in\"", 1));
    let line = line_of(&text, "[[rule.version]]", 0);
    assert_eq!(changed.len(), 1);
    assert!(
        changed[0].starts_with(&format!(
            "FILE:{line}: juniper-fork.crosshead.vertical, version 1: it has bound days as it was"
        )),
        "{changed:?}"
    );
    // Closed with its last day, and followed by a new version.
    let closed = |end: &str| text.replacen("until = \"open\"", &format!("until = {end}"), 1);
    assert!(faults(&closed("2026-05-31")).is_empty());
    let early = faults(&closed("2026-05-30"));
    assert!(
        early[0].contains("its last day is 2026-05-31 at the earliest"),
        "{early:?}"
    );
    // A rule taken out.
    let without: String = {
        let at = text.rfind("[[rule]]").expect("the last rule");
        text[..at].to_owned()
    };
    assert!(faults(&without)[0].contains("the rule `juniper-fork.31.brick` is gone"));
    // Another origin.
    let law = text.replacen("origin = \"shop\"", "origin = \"elsewhere\"", 1);
    assert!(faults(&law)[0].contains("a set does not change what it is"));
    // A version that was closed stands.
    let older = read(&closed("2026-05-31"));
    let opened = read(&text).faults_after(&older, date(2026, 7, 1));
    assert!(
        opened[0]
            .says
            .contains("its last day was 2026-05-31; it stands"),
        "{opened:?}"
    );
}

#[test]
fn a_rule_is_laid_beside_the_laws_on_the_same_matter() {
    let own = read(&own());
    let ruling = |id: &str| own.rules.ruling(id, DAY).expect("a ruling");
    let law = |id: &str| book().ruling(id, DAY).expect("a ruling");
    let tighter = ruling("juniper-fork.crosshead.vertical");
    // 230.94: 1/4 in; 230.14(a): 31 service days.
    assert_eq!(
        beside(&tighter, &law("us-steam.crosshead.vertical")),
        Some(Beside::Stricter)
    );
    assert_eq!(
        beside(&law("us-steam.crosshead.vertical"), &tighter),
        Some(Beside::Looser)
    );
    assert_eq!(beside(&tighter, &tighter), Some(Beside::Alike));
    assert_eq!(beside(&tighter, &law("us-steam.crosshead.lateral")), None);
    assert_eq!(
        beside(&ruling("juniper-fork.clock.31"), &law("us-steam.clock.31")),
        Some(Beside::Stricter)
    );
    assert_eq!(
        beside(&ruling("juniper-fork.clock.31"), &law("us-steam.clock.92")),
        None
    );
    // One pin is not the other.
    let pin = ruling("juniper-fork.side-rod.bore-over-main-pin");
    assert_eq!(
        beside(&pin, &law("us-steam.rod.side.bore-over-main-pin")),
        Some(Beside::Stricter)
    );
    assert_eq!(
        beside(&pin, &law("us-steam.rod.side.bore-over-other-pin")),
        Some(Beside::Both)
    );
    // The same figure, which only one of the two lets pass.
    let text = example("own-limits.toml").replacen(
        "value = \"3/16 in\"\nat_value = \"passes\"",
        "value = \"1/4 in\"\nat_value = \"fails\"",
        1,
    );
    let edge = read(&text)
        .rules
        .ruling("juniper-fork.crosshead.vertical", DAY)
        .expect("a ruling");
    assert_eq!(
        beside(&edge, &law("us-steam.crosshead.vertical")),
        Some(Beside::Stricter)
    );
    assert_eq!(
        beside(&law("us-steam.crosshead.vertical"), &edge),
        Some(Beside::Looser)
    );
}

/// A day before a set's rules begin is not refused: what bound then is not the set's to say.
#[test]
fn a_rule_of_a_set_does_not_bind_before_its_first_day() {
    let own = read(&own());
    assert!(
        own.rules
            .in_force("juniper-fork", date(2026, 2, 28))
            .expect("a list")
            .is_empty()
    );
    assert_eq!(
        own.rules
            .in_force("juniper-fork", date(2026, 3, 1))
            .expect("a list")
            .len(),
        4
    );
}

/// The document tells every word a file may use.
#[test]
fn the_document_names_every_word_and_its_examples_are_read() {
    let docs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/rule-files.md");
    let text = std::fs::read_to_string(docs).expect("the document");
    let mut missing = Vec::new();
    let mut need = |word: &str| {
        if !text.contains(&format!("`{word}`")) {
            missing.push(word.to_owned());
        }
    };
    for list in [
        words::INSPECTIONS,
        words::DIESEL_INSPECTIONS,
        words::OWN_WORK,
        words::DEFECT_WORK,
        words::FITTINGS,
        words::NEEDS,
        words::OCCASIONS,
        words::KEPT_AT,
        words::EVENTS,
        words::RECIPIENTS,
        words::CONDITIONS,
        words::MARKS,
        words::OWN_MARKS,
        words::TABLE_WORDS,
    ] {
        list.iter().for_each(|(word, _)| need(word));
    }
    words::circumstances().for_each(&mut need);
    words::UNITS.iter().for_each(|unit| need(unit.word));
    for (fact, _, answers) in words::FACTS {
        need(fact);
        answers.iter().for_each(|(word, _)| need(word));
    }
    rules::Kind::ALL.iter().for_each(|(_, word)| need(word));
    assert!(
        missing.is_empty(),
        "docs/rule-files.md does not name {missing:?}"
    );

    // Its examples: each block is a whole file, or a rule to stand under the head of the first.
    let mut blocks = Vec::new();
    for block in text.split("```toml\n").skip(1) {
        blocks.push(block.split("```").next().expect("a block").to_owned());
    }
    let whole = blocks.first().expect("a whole file").clone();
    let head = whole.split("[[rule]]").next().expect("a head").to_owned();
    read(&whole);
    let mut kinds = std::collections::BTreeSet::new();
    for block in &blocks {
        let file = if block.contains("[set]") {
            block.clone()
        } else {
            format!("{head}\n{block}")
        };
        kinds.extend(read(&file).rules.rules().map(|r| r.kind));
    }
    assert_eq!(
        kinds.len(),
        rules::Kind::ALL.len(),
        "an example of every kind: {kinds:?}"
    );
}
