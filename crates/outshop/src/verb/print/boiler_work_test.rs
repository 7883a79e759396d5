//! The report of work on a boiler, held against the rulebook and the job it tells of.

use rules::{Body, Rulebook};

use super::boiler_work::{self, APPROVALS};
use super::shop_test::{Shop, has_room, rows, said};

/// A job on a check valve, decided and not begun.
fn ordered(name: &str) -> Shop {
    let mut shop = Shop::new(name);
    let words: &[&[&str]] = &[
        &[
            "part",
            "add",
            "14",
            "right feed check",
            "--family",
            "check-valve",
            "--fact",
            "seat-design=matched",
            "--fact",
            "seat-angle=45deg",
            "--fact",
            "port=1 3/4in",
            "--fact",
            "guide-materials=cast-iron,bronze",
            "--fact",
            "hot-rise=315F",
            "--as-built",
            "seat-wall=.500in",
            "--shop-limit",
            "seat-wall=.250in",
            "--step",
            "seat-wall=.030in",
        ],
        &[
            "finding",
            "record",
            "14",
            "right feed check",
            "--occasion",
            "write-up",
            "--shows",
            "weeps-back",
            "--told",
            "water runs back",
            "seat-half-angle@fore-and-aft=42d54m by two balls",
            "seat-half-angle@athwart=43d06m by two balls",
            "seat-land@front=5/32in by dividers",
            "seat-land@right=5/32in by dividers",
            "seat-land@back=11/64in by dividers",
            "seat-land@left=5/32in by dividers",
            "seat-wall@front=.412in by depth micrometer",
            "seat-wall@right=.409in by depth micrometer",
            "seat-wall@back=.411in by depth micrometer",
            "seat-wall@left=.413in by depth micrometer",
        ],
        &[
            "decide",
            "F-001",
            "renew",
            "--because",
            "a new body is at hand",
        ],
        &["job", "make", "F-001"],
    ];
    for words in words {
        shop.says(words);
    }
    shop
}

/// 49 CFR 230.20: an alteration and an unstayed repair are described and go to the Regional Administrator within 30
/// days; a stayed repair is described, kept for the life of the boiler and not sent.
#[test]
fn each_kind_of_work_is_described_and_goes_where_its_rule_says() {
    let mut shop = ordered("boiler-work");
    let rules = Rulebook::built_in().unwrap();
    for (kind, rule, sent) in [
        ("alteration", "us-steam.form-19.alteration", true),
        ("unstayed-repair", "us-steam.form-19.unstayed-repair", true),
        ("stayed-repair", "us-steam.form-19.stayed-repair", false),
    ] {
        let form = boiler_work::paper(&mut shop.context, "J-001", kind).unwrap();
        let text = said(&form);
        let version = &rules.rule(rule).unwrap().versions[0];
        assert!(text.contains(&version.reading), "{kind}: {text}");
        assert!(text.contains(&version.cite.section), "{kind}");
        assert!(text.contains("life of the boiler"), "{kind}");
        assert_eq!(
            text.contains("Regional Administrator"),
            sent,
            "{kind}: {text}"
        );
        assert!(text.contains("as whoever printed this says"), "{kind}");
        assert_eq!(form.shout.as_deref(), Some("NOT COMPLETED"), "{kind}");
        assert!(text.contains("water runs back"), "{kind}");
        assert!(text.contains("is not stated in this book, so"), "{kind}");
        let found = rows(&form, "Read before and after");
        assert!(
            found
                .iter()
                .any(|row| row[2].as_deref() == Some(".412in") && row[3].is_none()),
            "{kind}: {found:?}"
        );
        // What may need an approval first, but for what is only kept.
        let before = rows(&form, "Approvals asked before such work").len();
        assert_eq!(before, if sent { APPROVALS.len() } else { 0 }, "{kind}");
        has_room(&form);
        assert!(form.print().unwrap().oddities.is_empty(), "{kind}");
    }
}

#[test]
fn the_approvals_it_names_are_those_of_the_rulebook() {
    let rules = Rulebook::built_in().unwrap();
    for id in APPROVALS {
        let rule = rules.rule(id).unwrap();
        let asks = |version: &rules::Version| match &version.body {
            Body::Filing(it) => it.when.of == "work-that-needs-approval",
            _ => false,
        };
        assert!(rule.versions.iter().all(asks), "{id}");
    }
}

#[test]
fn a_kind_of_work_that_is_not_reported_is_refused() {
    let mut shop = ordered("boiler-work-refused");
    let refused = boiler_work::paper(&mut shop.context, "J-001", "painting").unwrap_err();
    let refused = refused.to_string();
    assert!(
        refused.contains("`painting` is no work that is reported"),
        "{refused}"
    );
    assert!(
        refused.contains("alteration or stayed-repair or unstayed-repair"),
        "{refused}"
    );
    let refused = boiler_work::paper(&mut shop.context, "J-009", "alteration").unwrap_err();
    assert!(refused.to_string().contains("J-009"), "{refused}");
}
