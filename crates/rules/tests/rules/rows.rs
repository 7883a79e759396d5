//! The law's figures a second time: every row of `rulebook/us-steam/limits.csv` is met by its rule, and every limit is
//! met by a row. The rows and the rules were written apart. Published: 49 CFR Part 230, annual edition of 2015.

use std::collections::BTreeSet;
use std::path::Path;

use jiff::civil::{Date, date};
use rules::{Body, Keep, Near, Row, Rulebook, coverage, read_rows};

const DAY: Date = date(2026, 5, 2);

fn book() -> &'static Rulebook {
    Rulebook::built_in().expect("the rulebook loads")
}

fn rulebook_file(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rulebook");
    std::fs::read_to_string(folder.join(name)).expect("a text")
}

fn rows() -> Vec<Row> {
    read_rows("limits.csv", &rulebook_file("us-steam/limits.csv")).expect("the rows read")
}

#[test]
fn every_row_is_met_by_its_rule_at_the_value_and_a_step_to_either_side() {
    let rows = rows();
    let found = coverage(book(), &rows, DAY);
    assert!(found.wrong.is_empty(), "{found}");
    // The whole of the figures our notes hold of Part 230, and the two that bound its reach.
    assert_eq!(
        (found.rows(), found.covered.len(), found.listed.len()),
        (287, 285, 2)
    );
}

#[test]
fn a_row_that_waits_for_a_clock_waits_no_longer_than_the_clock() {
    let waits = "its clock is not on file yet";
    let rows = rows();
    let waiting: Vec<&Row> = rows.iter().filter(|r| r.part == waits).collect();
    for rule in book().in_jurisdiction("us-steam") {
        let clock = matches!(
            rule.kind,
            rules::Kind::Count | rules::Kind::Calendar | rules::Kind::WhicheverFirst
        );
        for version in rule.versions.iter().filter(|_| clock) {
            let came = waiting
                .iter()
                .find(|r| r.section.starts_with(&version.cite.section));
            // Then the row names the clock: its part is `count` where the clock has several arms.
            assert!(
                came.is_none_or(|row| row.section != version.cite.section),
                "{} is on file; row {} still waits for it",
                rule.id,
                came.map_or(0, |row| row.row)
            );
        }
    }
}

#[test]
fn every_limit_is_met_by_a_row_or_has_no_figure() {
    let rows = rows();
    let met: BTreeSet<&str> = rows.iter().map(|r| r.rule.as_str()).collect();
    let unmet: Vec<&str> = book()
        .in_jurisdiction("us-steam")
        .filter(|r| r.versions.iter().any(|v| v.body.measures().is_some()))
        .map(|r| r.id.as_str())
        .filter(|id| !met.contains(id))
        .collect();
    // 230.57(b): feed gear free of leaks; no figure is printed.
    assert_eq!(unmet, ["us-steam.feed.leaks"]);
}

/// Counts what the coverage says after one word of a row is changed.
fn wrong_after(change: impl Fn(&mut Row)) -> usize {
    let mut rows = rows();
    rows.iter_mut().for_each(change);
    coverage(book(), &rows, DAY).wrong.len()
}

#[test]
fn a_row_that_differs_from_its_rule_in_anything_is_found() {
    let at = |row: &mut Row, rule: &str, change: &dyn Fn(&mut Row)| {
        if row.rule == rule {
            change(row);
        }
    };
    type Change = &'static dyn Fn(&mut Row);
    let changes: [(&str, Change); 13] = [
        ("us-steam.crosshead.vertical", &|r| r.value = "5/16".into()),
        ("us-steam.crosshead.vertical", &|r| {
            r.at_value = "fails".into()
        }),
        ("us-steam.crosshead.vertical", &|r| r.side = "min".into()),
        ("us-steam.crosshead.vertical", &|r| r.mark = "2015".into()),
        ("us-steam.crosshead.vertical", &|r| {
            r.section = "230.95".into()
        }),
        ("us-steam.crosshead.vertical", &|r| r.unit = "ft".into()),
        ("us-steam.crosshead.vertical", &|r| {
            r.rule = "us-steam.nothing".into()
        }),
        ("us-steam.brace.stress", &|r| r.value = "9001".into()),
        ("us-steam.clock.31", &|r| r.value = "32".into()),
        ("us-steam.form-19.alteration", &|r| r.value = "31".into()),
        ("us-steam.safety-valve.any-set", &|r| {
            r.value = "working_pressure + 5".into()
        }),
        ("us-steam.pilot.above-rail", &|r| r.value = "3 to 5".into()),
        ("us-steam.plate.tensile-unknown-iron", &|r| {
            r.value = "50000".into()
        }),
    ];
    for (rule, change) in changes {
        assert_eq!(wrong_after(|row| at(row, rule, change)), 1, "{rule}");
    }
    // Each of the 49 tire cells a sixteenth off, each of the 15 axle cells, each of the 21 compressor cells.
    for (rule, cells) in [
        ("us-steam.tire.thickness", 49),
        ("us-steam.tender-axle.diameter", 15),
        ("us-steam.compressor.speed", 7),
        ("us-steam.compressor.orifice", 7),
        ("us-steam.compressor.pressure", 7),
    ] {
        let spoiled = wrong_after(|row| at(row, rule, &|r| r.value = format!("{}1", r.value)));
        assert_eq!(spoiled, cells, "{rule}");
    }
}

#[test]
fn a_rule_taken_away_is_missed() {
    let rows = rows();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rulebook");
    let mut files = vec![("sources.toml".to_owned(), rulebook_file("sources.toml"))];
    for part in std::fs::read_dir(folder.join("us-steam"))
        .expect("a folder")
        .flatten()
    {
        for file in std::fs::read_dir(part.path())
            .into_iter()
            .flatten()
            .flatten()
        {
            let path = file.path();
            let name = path
                .strip_prefix(&folder)
                .expect("inside")
                .display()
                .to_string();
            files.push((name, std::fs::read_to_string(&path).expect("a text")));
        }
    }
    let named: BTreeSet<&str> = rows.iter().map(|r| r.rule.as_str()).collect();
    let mut tried = 0;
    for lost in named.iter().filter(|id| **id != "-") {
        let kept: Vec<(&str, &str)> = files
            .iter()
            .filter(|(name, _)| !name.ends_with(&format!("/{lost}.toml")))
            .map(|(name, text)| (name.as_str(), text.as_str()))
            .collect();
        assert_eq!(kept.len() + 1, files.len(), "{lost}");
        // Either the rulebook itself is refused (another rule names the lost one), or a row is left without its rule.
        let missed = Rulebook::from_files(&kept)
            .map_or(true, |book| !coverage(&book, &rows, DAY).wrong.is_empty());
        assert!(missed, "nobody misses {lost}");
        tried += 1;
    }
    assert!(tried > 180, "only {tried} rules are named by rows");
}

#[test]
fn the_table_of_rows_is_read_whole_or_refused() {
    let good = rulebook_file("us-steam/limits.csv");
    let line = |n: usize| good.lines().nth(n).expect("a line").to_owned();
    let lost = good.replacen(&format!("{}\n", line(7)), "", 1);
    assert!(read_rows("limits.csv", &lost).is_err_and(|e| {
        e.to_string()
            .contains("row 8 stands where row 7 was expected")
    }));
    let short = good.replacen(&line(7), "7,230.14(c)", 1);
    assert!(read_rows("limits.csv", &short).is_err());
}

#[test]
fn the_cases_of_a_limit_say_what_the_row_says() {
    // The rows give the word at the value; the cases are worked from the rule.
    let rows = rows();
    let mut shown = 0;
    for row in rows.iter().filter(|r| r.rule != "-" && r.part.is_empty()) {
        let rule = book().rule(&row.rule).expect("a rule");
        let version = rule.versions.last().expect("a version");
        if !matches!(version.body, Body::Limit(_) | Body::LimitFormula(_)) {
            assert!(version.cases().is_empty(), "{}", rule.id);
            continue;
        }
        let cases = version.cases();
        let of = |near| cases.iter().find(|c| c.near == near).map(|c| c.complies);
        let at = row.at_value != "fails";
        let expected = match row.side.as_str() {
            "max" => (Some(true), Some(at), Some(false)),
            "set" => (Some(false), Some(at), Some(false)),
            "min" | "range" => (Some(false), Some(at), Some(true)),
            other => panic!("{}: {other}", rule.id),
        };
        // None found is the least that can be found.
        let expected = if row.value == "0" {
            (None, expected.1, expected.2)
        } else {
            expected
        };
        assert_eq!(
            (of(Near::Below), of(Near::At), of(Near::Above)),
            expected,
            "{}",
            rule.id
        );
        shown += 1;
    }
    assert!(shown > 120, "only {shown} limits show cases");
    let tire = book().rule("us-steam.tire.thickness").expect("the tires");
    assert_eq!(
        tire.versions.last().expect("a version").cases().len(),
        3 * 49
    );
}

#[test]
fn the_words_of_a_case_can_be_read_aloud() {
    let cases = |id: &str| {
        let rule = book().rule(id).expect("a rule");
        let version = rule.versions.last().expect("a version");
        version
            .cases()
            .into_iter()
            .map(|c| format!("{}: {}: {}", c.of, c.reading, c.verdict()))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        cases("us-steam.wheel.flange-thickness"),
        [
            "15/16 in: one tick (2.5 nm) below 15/16 in: fails",
            "15/16 in: 15/16 in: fails",
            "15/16 in: one tick (2.5 nm) above 15/16 in: complies"
        ]
    );
    assert_eq!(
        cases("us-steam.staybolt.broken-count"),
        [
            "4 bolts: 1 below 4 bolts: complies",
            "4 bolts: 4 bolts: complies",
            "4 bolts: 1 above 4 bolts: fails"
        ]
    );
    assert_eq!(
        cases("us-steam.wheel.cracks"),
        [
            "0 cracks or breaks: 0 cracks or breaks: complies",
            "0 cracks or breaks: 1 above 0 cracks or breaks: fails"
        ]
    );
    assert_eq!(
        cases("us-steam.side-bearing.rear-wider")[1],
        "spread of the side bearings, over 50 in 60 in: 0.4500 in: 0.4500 in: complies"
    );
}

/// What `rulebook/us-steam/items.csv` says of one item.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct ItemRow {
    section: String,
    item: String,
    asked_at: String,
    on_list: String,
    reading: String,
    rule: String,
}

#[test]
fn every_item_of_the_list_is_on_file_and_every_item_on_file_is_in_the_list() {
    let text = rulebook_file("us-steam/items.csv");
    let mut listed = BTreeSet::new();
    for row in csv::Reader::from_reader(text.as_bytes()).deserialize() {
        let row: ItemRow = row.expect("a row");
        let ruling = book().ruling(&row.rule, DAY).expect("its rule");
        let Body::Item(item) = &ruling.body else {
            panic!("{} is no item", row.rule)
        };
        let asked_at = item
            .occasion
            .clone()
            .unwrap_or_else(|| item.inspections.join("|"));
        let on_list = if item.listed {
            item.order.to_string()
        } else {
            "text only".to_owned()
        };
        let reading = if item.needs_reading() { "yes" } else { "no" };
        assert_eq!(
            (row.asked_at, row.on_list, row.reading.as_str()),
            (asked_at, on_list, reading),
            "{}",
            row.rule
        );
        assert_eq!(item.section, row.section, "{}", row.rule);
        assert!(!row.item.is_empty());
        assert!(listed.insert(row.rule.clone()), "{} stands twice", row.rule);
    }
    let on_file: BTreeSet<String> = book()
        .in_jurisdiction("us-steam")
        .filter(|r| matches!(r.kind, rules::Kind::Item))
        .map(|r| r.id.clone())
        .collect();
    assert_eq!(listed, on_file);
}

#[test]
fn what_the_appendix_leaves_out_and_the_text_asks_for_is_asked() {
    // 230.71, 230.74, 230.78(c), 230.53, 230.61(c), 230.37, 230.93(a), 230.106(a), 230.18(b), 230.113(k), 230.98(b).
    for (section, id) in [
        ("230.71", "us-steam.92.orifice-test"),
        ("230.74", "us-steam.annual.air-brake-valves"),
        ("230.78", "us-steam.daily.brake-pipe-leakage"),
        ("230.53", "us-steam.annual.water-column-passages"),
        ("230.61(c)", "us-steam.annual.circulator-thickness"),
        ("230.37", "us-steam.after-repair.steam-test"),
        ("230.93(a)", "us-steam.piston-rod.crack-check"),
        ("230.106", "us-steam.1472.frame"),
        ("230.18(b)", "us-steam.year-end.form-5"),
        ("230.113(k)", "us-steam.tires-turned.diameters"),
        ("230.98(b)", "us-steam.axle-fitted.journal-stamp"),
    ] {
        match book().ruling(id, DAY).expect("a ruling").body {
            Body::Item(item) => assert_eq!((item.section.as_str(), item.listed), (section, false)),
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn every_limit_of_the_engine_is_asked_for_by_an_item() {
    let mut asked = BTreeSet::new();
    for ruling in book().in_force("us-steam", DAY).expect("rulings") {
        if let Body::Item(item) = ruling.body {
            asked.extend(item.limits);
        }
    }
    let unasked: Vec<&str> = book()
        .in_jurisdiction("us-steam")
        .filter(|r| r.versions.iter().any(|v| v.body.measures().is_some()))
        .map(|r| r.id.as_str())
        .filter(|id| !asked.contains(*id))
        .collect();
    assert_eq!(unasked, UNASKED);
}

/// Limits that bind without an item asking for them: what is fitted once, what governs a repair, how she is run.
const UNASKED: &[&str] = &[
    "us-steam.cab-pipe.schedule",
    "us-steam.cab-pipe.size-exempt",
    "us-steam.lateral.curvature",
    "us-steam.repair.buildup-area",
    "us-steam.repair.buildup-depth",
    "us-steam.repair.buildup-remaining",
    "us-steam.repair.weld-carbon",
    "us-steam.reverse-gear.reservoir",
    "us-steam.speed.without-indicator",
];

#[test]
fn an_occasion_gives_its_own_items_in_order_and_no_inspection_gives_them() {
    let on = |occasion| -> Vec<String> {
        let items = book().items_on("us-steam", occasion, DAY).expect("items");
        items.into_iter().map(|r| r.rule).collect()
    };
    // 230.36(c), 230.32(b)(3), 230.40(a)(1).
    assert_eq!(
        on("hydrostatic-over-mawp"),
        [
            "us-steam.hydrostatic.interior",
            "us-steam.hydrostatic.exterior",
            "us-steam.hydrostatic.hammer-test"
        ]
    );
    let all = book().items("us-steam", "1472", DAY).expect("items");
    for (occasion, _) in rules::words::OCCASIONS {
        let own = on(occasion);
        assert!(!own.is_empty(), "no item is asked on {occasion}");
        assert!(all.iter().all(|r| !own.contains(&r.rule)), "{occasion}");
    }
}

#[test]
fn every_word_of_the_closed_lists_of_items_and_papers_is_used() {
    let mut used = BTreeSet::new();
    let both = ["us-steam", "us-diesel"].map(|j| book().in_force(j, DAY).expect("rulings"));
    for ruling in both.into_iter().flatten() {
        match ruling.body {
            Body::Item(it) => used.extend(it.occasion),
            Body::Retention(it) => used.extend(it.at),
            _ => {}
        }
    }
    for (word, _) in rules::words::OCCASIONS.iter().chain(rules::words::KEPT_AT) {
        assert!(used.contains(*word), "no rule uses `{word}`");
    }
}

#[test]
fn the_papers_say_what_the_text_says_they_hold() {
    let filing = |id: &str| match book().ruling(id, DAY).expect("a ruling").body {
        Body::Filing(it) => it,
        other => panic!("{other:?}"),
    };
    // 230.13: three signers, the only ones the text names on any form.
    assert_eq!(filing("us-steam.form-2.daily").signed_by.len(), 3);
    assert_eq!(filing("us-steam.form-2.daily").contents.len(), 5);
    let signed: Vec<String> = book()
        .in_force("us-steam", DAY)
        .expect("rulings")
        .into_iter()
        .filter(|r| matches!(&r.body, Body::Filing(f) if !f.signed_by.is_empty()))
        .map(|r| r.rule)
        .collect();
    assert_eq!(signed, ["us-steam.form-2.daily", "us-steam.move.tag"]);
    // 230.12(b): the words, number, who inspected, place and date, defect, limits, destination.
    assert_eq!(filing("us-steam.move.tag").contents.len(), 7);
    // 230.12(d): no tag. 230.22: what, how many, where, where to be seen; by telephone and by mail.
    assert!(filing("us-steam.move.road-notice").signed_by.is_empty());
    assert_eq!(filing("us-steam.accident.telephone").contents.len(), 4);
    assert_eq!(filing("us-steam.accident.telephone").when.span, None);
    assert_eq!(
        filing("us-steam.accident.letter").to,
        ["associate-administrator"]
    );
    // 230.20(c): a stayed-area repair is filled in and kept, not sent.
    assert_eq!(
        filing("us-steam.form-19.stayed-repair").to,
        ["kept-not-sent"]
    );
    // 230.33(a),(c),(d), 230.34(a), 230.96(b): approvals come before the work.
    let approvals = book()
        .in_force("us-steam", DAY)
        .expect("rulings")
        .into_iter()
        .filter(|r| r.rule.starts_with("us-steam.approval."))
        .filter(|r| matches!(&r.body, Body::Filing(f) if f.when.span.is_none()));
    assert_eq!(approvals.count(), 5);
    for (id, at) in [
        ("us-steam.keep.form-2", "named-place"),
        ("us-steam.keep.form-19", "with-form-4"),
        ("us-steam.post.badge-plate", "backhead"),
    ] {
        match book().ruling(id, DAY).expect("a ruling").body {
            Body::Retention(it) => assert_eq!(it.at, [at], "{id}"),
            other => panic!("{other:?}"),
        }
    }
    assert!(matches!(
        book().ruling("us-steam.record.service-day-count", DAY).expect("a ruling").body,
        Body::Retention(it) if it.keep == Keep::WhileCurrent
    ));
}
