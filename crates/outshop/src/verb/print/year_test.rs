//! The report of a year's service days, held against the log, the rulebook and what nobody has stated.

use rules::{Body, Rulebook};

use super::shop_test::{Shop, has_room, rows, said};
use super::year;

const ASKED: &str = "Form 5, the yearly report of service days";

/// A log closed from the first day of 2025 through a day, and two days in steam.
fn logged(name: &str, through: &str) -> Shop {
    let mut shop = Shop::new(name);
    let closed: &[&[&str]] = &[
        &[
            "steam",
            "close",
            "14",
            "--from",
            "2025-01-01",
            "--through",
            through,
        ],
        &[
            "steam",
            "days",
            "14",
            "2026-01-10",
            "2026-01-11",
            "--told",
            "wall calendar",
        ],
    ];
    for words in closed {
        shop.says(words);
    }
    shop
}

/// 49 CFR 230.18(b): the service days of the calendar year, none at all included.
#[test]
fn the_report_holds_what_the_rule_asks() {
    let mut shop = logged("year", "2026-04-30");
    let form = year::paper(&mut shop.context, "14", "2026").unwrap();
    let asked = rows(&form, ASKED);
    let value = |line: &str| {
        let row = asked.iter().find(|row| row[0].as_deref() == Some(line));
        row.and_then(|row| row[2].clone())
    };
    let rules = Rulebook::built_in().unwrap();
    let rule = rules.rule("us-steam.form-5.yearly").unwrap();
    let Body::Filing(filing) = &rule.versions[0].body else {
        panic!("not a filing");
    };
    assert!(!filing.contents.is_empty());
    for line in &filing.contents {
        let line = crate::words::sentence(line);
        let said = value(&line);
        assert_eq!(
            said.as_deref(),
            Some("cannot tell: 2 to 4 service days; the log settles it"),
            "{line}"
        );
    }
    let months = rows(&form, "Day by day, as the log has it");
    assert_eq!(months.len(), 12);
    let of = |at: usize| {
        months[at]
            .iter()
            .flatten()
            .map(String::as_str)
            .collect::<Vec<_>>()
    };
    assert_eq!(of(0), ["January", "2", "10, 11"]);
    assert_eq!(of(1), ["February", "none", ""]);
    assert_eq!(of(11), ["December", "to come", ""]);
    // The log is closed through 30 April; 1 and 2 May are nobody's word, and 3 May is not over.
    assert_eq!(of(4), ["May", "0 to 2", "perhaps 1, 2"]);
    let text = said(&form);
    assert!(text.contains("The year is not over"), "{text}");
    assert!(
        text.contains("2 days of the year may have been service days"),
        "{text}"
    );
    // 31 January of the year after, to the Regional Administrator.
    assert!(text.contains("by 2027-01-31"), "{text}");
    assert!(text.contains("Regional Administrator"), "{text}");
    for unstated in [
        "the owner",
        "the operator",
        "the initials on her cab",
        "the regional office",
    ] {
        assert!(text.contains(unstated), "{unstated}");
    }
    has_room(&form);
    assert!(form.print().unwrap().oddities.is_empty());
}

/// A year of no service day is reported too; its last day, which nobody closed, may have been one.
#[test]
fn the_last_day_of_a_year_is_in_doubt_like_any_other() {
    let mut shop = logged("last-day", "2025-12-30");
    let doubt = "cannot tell: 0 to 1 service days; the log settles it";
    let told = |shop: &mut Shop| {
        let form = year::paper(&mut shop.context, "14", "2025").unwrap();
        let asked = rows(&form, ASKED);
        asked[2][2].clone().unwrap()
    };
    assert_eq!(told(&mut shop), doubt);
    shop.says(&["steam", "close", "14", "--through", "2025-12-31"]);
    assert_eq!(told(&mut shop), "0 service days");
}

#[test]
fn what_cannot_be_reported_is_refused_in_a_sentence() {
    let mut shop = logged("refused-year", "2025-12-30");
    for (engine, year, why) in [
        ("803", "2025", "ask for no report of a year's service days"),
        ("14", "2027", "one through 2026 was expected"),
        ("14", "last", "`last` is no year"),
        ("14", "-3", "`-3` is no year"),
        ("15", "2025", "There is no engine `15`"),
    ] {
        let refused = year::paper(&mut shop.context, engine, year).unwrap_err();
        assert!(
            refused.to_string().contains(why),
            "{engine} {year}: {refused}"
        );
    }
}
