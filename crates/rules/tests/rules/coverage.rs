//! Over the calendar, every rule gives exactly one version or says why not.

use jiff::civil::{Date, date};
use rules::{Body, Rule, Rulebook, RulebookError};

/// A date in each quarter from 2000 to 2040.
fn quarters() -> impl Iterator<Item = Date> {
    (2000i16..=2040).flat_map(|year| [2i8, 5, 8, 11].map(move |month| date(year, month, 15)))
}

/// How many versions hold a day, counted without the lookup under test.
fn holding(rule: &Rule, day: Date) -> usize {
    rule.versions
        .iter()
        .filter(|v| v.in_force <= day && v.until.is_none_or(|end| day <= end))
        .count()
}

fn check(rule: &Rule) {
    let first = rule.versions.first().expect("a version").in_force;
    let last = rule.versions.last().expect("a version").until;
    let eve = first.yesterday().expect("a day");
    assert!(
        matches!(rule.ruling(eve), Err(RulebookError::BeforeCoverage { first: f, .. }) if f == first),
        "{}: the day before coverage",
        rule.id
    );
    let bounds = rule
        .versions
        .iter()
        .flat_map(|v| [Some(v.in_force), v.until].into_iter().flatten());
    let around =
        bounds.flat_map(|day| [-1, 0, 1].map(|n| rules::days_after(day, n).expect("a day")));
    for day in around.chain(quarters()) {
        if day < first {
            assert!(
                matches!(rule.on(day), Err(RulebookError::BeforeCoverage { .. })),
                "{} on {day}",
                rule.id
            );
        } else if last.is_some_and(|end| day > end) {
            assert!(
                matches!(rule.on(day), Err(RulebookError::Ended { .. })),
                "{} on {day}",
                rule.id
            );
        } else {
            assert_eq!(holding(rule, day), 1, "{} on {day}", rule.id);
            let version = rule.on(day).expect("a version");
            assert!(
                version.in_force <= day && version.until.is_none_or(|end| day <= end),
                "{} on {day}",
                rule.id
            );
        }
    }
}

#[test]
fn every_rule_on_file_gives_one_version_on_every_day_it_covers() {
    let mut looked_at = 0;
    for rule in Rulebook::built_in().expect("the rulebook loads").rules() {
        check(rule);
        looked_at += 1;
    }
    assert!(looked_at > 100, "only {looked_at} rules on file");
}

const SOURCES: &str = r#"
[made-up]
issuer = "Juniper Fork Railroad Museum"
title = "Invented rules for tests"
edition = "first"
seen = "this test"
good_for = "nothing but this test"
"#;

/// An invented rule that changed once and then ended.
const CHANGED: &str = r#"
id = "invented.clock.31"
title = "An invented clock"
jurisdiction = "invented"
kind = "count"

[[version]]
in_force = 2001-07-01
until = 2010-12-31
dates_mark = "memory"
cite = { source = "made-up", section = "1.1", edition = "first" }
mark = "memory"
reading = "Thirty days."
checked = { on = 2026-01-01, by = "a test" }
[version.says]
unit = "service-day"
due_after = 30
inspection = "31"
restarted_by = ["31"]

[[version]]
in_force = 2011-01-01
until = 2020-06-30
dates_mark = "memory"
cite = { source = "made-up", section = "1.1", edition = "second" }
mark = "memory"
reading = "Thirty-one days."
checked = { on = 2026-01-01, by = "a test" }
[version.says]
unit = "service-day"
due_after = 31
inspection = "31"
restarted_by = ["31"]
"#;

#[test]
fn a_rule_that_changed_answers_by_the_day_the_work_was_done() {
    let files = [
        ("sources.toml", SOURCES),
        ("invented/invented.clock.31.toml", CHANGED),
    ];
    let book = Rulebook::from_files(&files).expect("it loads");
    check(book.rule("invented.clock.31").expect("the rule"));
    let due_after = |day| match book
        .ruling("invented.clock.31", day)
        .expect("a ruling")
        .body
    {
        Body::Count(count) => count.due_after,
        other => panic!("{other:?}"),
    };
    assert_eq!(due_after(date(2010, 12, 31)), 30);
    assert_eq!(due_after(date(2011, 1, 1)), 31);
    let ended = book
        .ruling("invented.clock.31", date(2020, 7, 1))
        .expect_err("it ended")
        .to_string();
    assert_eq!(
        ended,
        "`invented.clock.31` ended with 2020-06-30; on 2020-07-01 it was no longer in force"
    );
    let before = book
        .ruling("invented.clock.31", date(2001, 6, 30))
        .expect_err("not yet")
        .to_string();
    assert!(
        before.starts_with(
            "`invented.clock.31` is on file from 2001-07-01 only; 2001-06-30 is before that"
        ),
        "{before}"
    );
    assert!(
        book.clocks("invented", date(2021, 1, 1))
            .expect("ended rules are left out")
            .is_empty()
    );
}
