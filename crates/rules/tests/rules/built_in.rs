//! The rulebook built into the program: it loads, and its clocks, lists and papers say what the law says.
//! Published: 49 CFR Part 230, annual edition of 2015, at the section named beside each check.

use jiff::civil::{Date, date};
use rules::{
    Body, CalendarArm, CountArm, CountUnit, Keep, Kind, MonthEnd, Rulebook, RulebookError, Span,
    lint, words,
};

fn book() -> &'static Rulebook {
    Rulebook::built_in().expect("the rulebook loads")
}

const DAY: Date = date(2026, 5, 2);

fn body(id: &str) -> Body {
    book().ruling(id, DAY).expect("a ruling").body
}

/// A count clock as unit, how many, inspection, and what restarts it.
fn count(id: &str) -> (CountUnit, u32, String, Vec<String>) {
    match body(id) {
        Body::Count(c) => (c.unit, c.due_after, c.inspection, c.restarted_by),
        other => panic!("{id} is {other:?}"),
    }
}

fn owned(words: &[&str]) -> Vec<String> {
    words.iter().map(|w| (*w).to_owned()).collect()
}

#[test]
fn the_clocks_count_what_the_law_counts() {
    // 230.13, 230.14(a), 230.15(a), 230.16(a)(2).
    let all = ["daily", "31", "92", "annual", "fifth-annual", "1472"];
    assert_eq!(
        count("us-steam.clock.daily"),
        (CountUnit::DayOfUse, 1, "daily".into(), owned(&all))
    );
    assert_eq!(
        count("us-steam.clock.31"),
        (CountUnit::ServiceDay, 31, "31".into(), owned(&all[1..]))
    );
    assert_eq!(
        count("us-steam.clock.92"),
        (CountUnit::ServiceDay, 92, "92".into(), owned(&all[2..]))
    );
    assert_eq!(
        count("us-steam.clock.fifth-annual"),
        (
            CountUnit::Annual,
            5,
            "fifth-annual".into(),
            owned(&all[4..])
        )
    );

    // 230.16(a)(1): 368 calendar days.
    let Body::Calendar(annual) = body("us-steam.clock.annual") else {
        panic!("not a calendar")
    };
    assert_eq!(
        (annual.span, annual.inspection.as_str()),
        (Span::Days(368), "annual")
    );
    assert_eq!(annual.restarted_by, owned(&all[3..]));

    // 230.17(a): 1472 service days or 15 years; the first 15 years from service or 365 days after the first flue.
    let Body::WhicheverFirst(big) = body("us-steam.clock.1472") else {
        panic!("not whichever-first")
    };
    assert_eq!(
        big.counts,
        [CountArm {
            unit: CountUnit::ServiceDay,
            due_after: 1472
        }]
    );
    let arm = CalendarArm {
        span: Span::Years(15, MonthEnd::LastDay),
        from: "inspection".into(),
    };
    assert_eq!(big.calendar, Some(arm));
    assert_eq!(
        big.first_start.map(|f| (f.at_latest, f.within)),
        Some(("first-flue-installed".into(), Span::Days(365)))
    );
}

#[test]
fn every_clock_is_restarted_by_exactly_the_inspections_that_contain_its_own() {
    for ruling in book().clocks("us-steam", DAY).expect("clocks") {
        let (inspection, restarted_by) = match ruling.body {
            Body::Count(c) => (c.inspection, c.restarted_by),
            Body::Calendar(c) => (c.inspection, c.restarted_by),
            Body::WhicheverFirst(w) => (w.inspection, w.restarted_by),
            other => panic!("{other:?} is not a clock"),
        };
        // Work with a clock of its own is restarted by that work alone.
        if words::rank(&inspection).is_none() {
            assert_eq!(restarted_by, [inspection], "{}", ruling.rule);
            continue;
        }
        let containing: Vec<String> = words::INSPECTIONS
            .iter()
            .map(|(w, _)| (*w).to_owned())
            .filter(|w| words::contains(w, &inspection))
            .collect();
        assert_eq!(restarted_by, containing, "{}", ruling.rule);
    }
}

#[test]
fn the_clocks_come_smallest_first_and_a_defects_own_clock_is_not_among_them() {
    let clocks = book().clocks("us-steam", DAY).expect("clocks");
    let ids: Vec<&str> = clocks
        .iter()
        .filter_map(|r| r.rule.strip_prefix("us-steam.clock."))
        .collect();
    assert_eq!(
        ids,
        [
            "daily",
            "31",
            "92",
            "annual",
            "fifth-annual",
            "1472",
            "air-brake-valves",
            "frame"
        ]
    );
    // 230.74, 230.106(a): outside the round of inspections.
    let Body::WhicheverFirst(valves) = body("us-steam.clock.air-brake-valves") else {
        panic!("not whichever-first")
    };
    let arms: Vec<_> = valves
        .counts
        .iter()
        .map(|a| (a.unit, a.due_after))
        .collect();
    assert_eq!(arms, [(CountUnit::ServiceDay, 368), (CountUnit::Annual, 2)]);
    assert_eq!(valves.calendar, None);
    assert_eq!(
        count("us-steam.clock.frame"),
        (
            CountUnit::ServiceDay,
            1472,
            "frame-cleaning".into(),
            owned(&["frame-cleaning"])
        )
    );
    // 230.39(b), 230.58(a).
    for id in [
        "us-steam.clock.broken-staybolt",
        "us-steam.clock.plugged-flue",
    ] {
        let Body::Calendar(clock) = body(id) else {
            panic!("{id} is not a calendar")
        };
        assert_eq!((clock.span, clock.restarted_by.len()), (Span::Days(30), 0));
    }
}

#[test]
fn a_service_day_needs_fire_and_pressure_together_and_a_fireless_engine_pressure_alone() {
    // 230.8.
    let Body::Definition(day) = body("us-steam.service-day") else {
        panic!("not a definition")
    };
    assert_eq!(
        day.together,
        owned(&["fire-in-firebox", "pressure-above-atmosphere"])
    );
    assert_eq!(day.fireless, owned(&["pressure-above-atmosphere"]));
}

/// Orders of the items the appendix lists for one inspection, and how many more the text alone asks for.
fn own_list(inspection: &str) -> (Vec<u32>, usize) {
    let items = book().items("us-steam", inspection, DAY).expect("items");
    let mut orders = Vec::new();
    let mut unlisted = 0;
    for ruling in items {
        let Body::Item(item) = ruling.body else {
            panic!("{} is no item", ruling.rule)
        };
        if item.inspections.iter().any(|i| i == inspection) {
            if item.listed {
                orders.push(item.order);
                assert_eq!(ruling.cite.section, "App. A");
            } else {
                unlisted += 1;
                assert_eq!(ruling.cite.section, item.section);
            }
        }
    }
    (orders, unlisted)
}

#[test]
fn the_lists_of_appendix_a_are_whole() {
    // Appendix A; what the text asks for beyond it: 230.78(c), 230.71, 230.53, 230.74, 230.61(c), 230.106(a).
    let lists = [
        ("daily", 21, 1),
        ("31", 6, 0),
        ("92", 6, 1),
        ("annual", 9, 3),
        ("fifth-annual", 1, 0),
        ("1472", 4, 1),
    ];
    for (inspection, listed, beyond) in lists {
        assert_eq!(
            own_list(inspection),
            ((1..=listed).collect(), beyond),
            "{inspection}"
        );
    }
}

#[test]
fn the_starred_daily_items_are_those_of_the_appendix() {
    // Appendix A: the starred items are 2, 4, 5, 8, 9, 12 and 18.
    let items = book().items("us-steam", "daily", DAY).expect("items");
    let starred: Vec<u32> = items
        .into_iter()
        .filter_map(|r| match r.body {
            Body::Item(i) if i.listed && i.at_start_of_day => Some(i.order),
            _ => None,
        })
        .collect();
    assert_eq!(starred, [2, 4, 5, 8, 9, 12, 18]);
}

#[test]
fn a_larger_inspection_asks_for_all_that_the_smaller_ones_do() {
    let items = |inspection| -> Vec<String> {
        book()
            .items("us-steam", inspection, DAY)
            .expect("items")
            .into_iter()
            .map(|r| r.rule)
            .collect()
    };
    for pair in words::INSPECTIONS.windows(2) {
        let [(smaller, _), (larger, _)] = pair else {
            panic!("no pair")
        };
        let (few, many) = (items(smaller), items(larger));
        assert!(
            few.len() < many.len() && many.starts_with(&few),
            "{larger} after {smaller}"
        );
    }
}

#[test]
fn papers_are_due_when_the_text_says() {
    let due = |id: &str, event: Date| match body(id) {
        Body::Filing(f) => f.when.last_day(event).expect("a day"),
        other => panic!("{id} is {other:?}"),
    };
    // 230.16(b) one month; .14(c), .15(b), .16(c) ten days; .17(b), .20 thirty days; .18(b) 31 January.
    assert_eq!(
        due("us-steam.notice.annual", date(2026, 3, 31)),
        date(2026, 2, 28)
    );
    assert_eq!(
        due("us-steam.notice.annual", date(2026, 5, 2)),
        date(2026, 4, 2)
    );
    assert_eq!(
        due("us-steam.form-1.after-31", date(2026, 5, 2)),
        date(2026, 5, 12)
    );
    assert_eq!(
        due("us-steam.form-1.after-92", date(2026, 5, 2)),
        date(2026, 5, 12)
    );
    assert_eq!(
        due("us-steam.form-3.after-annual", date(2026, 5, 2)),
        date(2026, 5, 12)
    );
    assert_eq!(
        due("us-steam.form-3-and-4.after-1472", date(2026, 5, 2)),
        date(2026, 6, 1)
    );
    assert_eq!(
        due("us-steam.form-19.alteration", date(2026, 5, 2)),
        date(2026, 6, 1)
    );
    assert_eq!(
        due("us-steam.form-19.unstayed-repair", date(2026, 5, 2)),
        date(2026, 6, 1)
    );
    assert_eq!(
        due("us-steam.form-5.yearly", date(2026, 12, 31)),
        date(2027, 1, 31)
    );
}

#[test]
fn papers_are_kept_as_long_as_the_text_says_and_where_it_is_silent_it_says_so() {
    let keep = |id: &str| match body(id) {
        Body::Retention(r) => r.keep,
        other => panic!("{id} is {other:?}"),
    };
    // 230.13(c), 230.20.
    assert_eq!(keep("us-steam.keep.form-2"), Keep::Days(92));
    assert_eq!(keep("us-steam.keep.form-19"), Keep::LifeOfBoiler);
    for form in ["form-1", "form-3", "form-4", "form-5"] {
        assert_eq!(keep(&format!("us-steam.keep.{form}")), Keep::NoPeriodInText);
    }
}

#[test]
fn an_unknown_rule_is_refused_and_names_like_it_are_offered() {
    let said = book()
        .ruling("us-steam.crosshead.vertcal", DAY)
        .expect_err("unknown")
        .to_string();
    assert!(
        said.contains("did you mean us-steam.crosshead.vertical"),
        "{said}"
    );
    assert!(
        matches!(book().clocks("us-stem", DAY), Err(RulebookError::Unknown { near, .. }) if near == ["us-steam"])
    );
}

#[test]
fn the_report_counts_every_rule_once_and_hides_nothing_unread() {
    let pages = [("page", "Her crossheads: `us-steam.crosshead.vertical`.")];
    let report = lint(book(), &pages);
    assert_eq!(
        report.per_kind.values().sum::<usize>(),
        book().rules().count()
    );
    assert_eq!(report.per_mark.values().sum::<usize>(), report.versions);
    assert_eq!(report.no_page.len() + 1, book().rules().count());
    assert!(report.per_kind.contains_key(&Kind::LimitTable));
    assert!(
        report
            .unread
            .iter()
            .any(|(id, _)| id == "us-steam.notice.1472"),
        "its notice is inference"
    );
    assert!(
        !report
            .unread
            .iter()
            .any(|(id, _)| id == "us-steam.crosshead.vertical"),
        "it was read"
    );
    assert!(report.no_case.is_empty(), "{:?}", report.no_case);
    let text = report.to_string();
    for (id, mark) in &report.unread {
        assert!(text.contains(&format!("{id}: {mark}")));
    }
}
