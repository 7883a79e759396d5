//! The sheet of the hydrostatic and the steam test, held against the rulebook, and against its page.

use ::paper::{Block, Form};

use super::hydro;
use super::shop_test::{Shop, has_room, rows, said};
use crate::verb::test_day::{Line, TestDay, test_day};

const HER: &[&str] = &[
    "locomotive",
    "add",
    "27",
    "--wheels",
    "2-6-2",
    "--gauge",
    "36 in",
    "--rules",
    "us-steam",
    "--mawp",
    "160psig",
];

/// Each row of a part, its words joined.
fn joined(form: &Form, title: &str) -> Vec<String> {
    let row = |row: &&Vec<Option<String>>| row.iter().flatten().cloned().collect::<Vec<_>>();
    let all = rows(form, title);
    all.iter().map(|it| row(it).join(" | ")).collect()
}

/// 49 CFR 230.36(b): 25 percent above MAWP, metal between 70 and 120 degrees F; 230.37: 95 to 100 percent in steam.
#[test]
fn the_pressures_of_the_day_are_those_of_the_law() {
    let mut shop = Shop::new("hydro");
    shop.says(HER);
    let form = hydro::paper(&mut shop.context, "27").unwrap();
    let part = form
        .parts
        .iter()
        .find(|it| it.title == "Pressures of the day");
    let large = part.and_then(|it| it.blocks.first());
    let Some(Block::Large { all }) = large else {
        panic!("{large:?}");
    };
    let worked: Vec<_> = all
        .iter()
        .map(|it| format!("{}: {}", it.word, it.said))
        .collect();
    for (what, section, pressure) in [
        ("hydrostatic test at the top", "(230.36(b))", "200.0 psi"),
        ("least the steam test", "(230.37)", "152.0 psi"),
        ("most it is made at", "(230.37)", "160.0 psi"),
    ] {
        let holds =
            |row: &&String| row.contains(what) && row.contains(section) && row.contains(pressure);
        assert!(worked.iter().any(|row| holds(&row)), "{what}: {worked:?}");
    }
    // 230.35, 230.36(b), 230.36(c), 230.32(b)(3), 230.39(a), 230.40(a)(1) and (b), 230.37: each with two words to ring.
    let judged = joined(&form, "What complies or fails, with its rule");
    for (what, section) in [
        ("at least 70 degrees F", "230.35"),
        ("70 to 120 degrees F", "230.36(b)"),
        ("Hydrostatic test pressure: 200.0 psi", "230.36(b)"),
        ("the whole outside", "230.32(b)(3)"),
        ("every staybolt", "230.40(a)(1)"),
        ("at most 4 bolts", "230.39(a)"),
        ("over 24 in", "230.39(a)"),
        ("at least 95 percent of MAWP", "230.40(b)"),
        ("inside of the boiler", "230.36(c)"),
        ("95 to 100 percent of MAWP", "230.37"),
    ] {
        let row = judged.iter().find(|row| row.contains(what));
        let row = row.unwrap_or_else(|| panic!("{what}: {judged:?}"));
        assert!(
            row.contains(&format!("| {section} | complies · fails")),
            "{row}"
        );
    }
    let text = said(&form);
    assert!(
        text.contains("counts as broken (49 CFR 230.39(c))"),
        "{text}"
    );
    // 230.16(c): Form 3 within 10 days of an annual inspection.
    assert!(
        text.contains("Form 3, within 10 calendar days of the annual (230.16(c))"),
        "{text}"
    );
    // Nobody entered her boiler: the places of any boiler, each with a line, and lines for others.
    let leaks = joined(&form, "Leaks, by place");
    assert!(
        leaks.iter().any(|it| it == "Staybolts and their telltales"),
        "{leaks:?}"
    );
    assert!(
        leaks.iter().filter(|it| it.is_empty()).count() >= 2,
        "{leaks:?}"
    );
    assert!(text.contains("Her boiler is not entered"));
    has_room(&form);
    let printed = form.print().unwrap();
    assert!(printed.oddities.is_empty());
    assert!(printed.pages <= 2, "one sheet of paper: {}", printed.pages);
}

#[test]
fn without_an_allowed_pressure_none_of_the_day_is_told() {
    let mut shop = Shop::new("hydro-unstated");
    let form = hydro::paper(&mut shop.context, "14").unwrap();
    let text = said(&form);
    assert!(
        text.contains("cannot tell the pressures of the day"),
        "{text}"
    );
    assert!(!text.contains("psig"), "{text}");
    let refused = hydro::paper(&mut shop.context, "803")
        .unwrap_err()
        .to_string();
    assert!(
        refused.contains("ask for no hydrostatic test of a boiler"),
        "{refused}"
    );
}

/// What the file says of each gauge, what it needs, and nothing taken for true.
#[test]
fn a_gauge_is_corrected_by_its_own_calibration_or_says_what_it_needs() {
    let mut shop = Shop::new("hydro-gauges");
    shop.says(HER);
    let gauge = |shop: &mut Shop, number: &str, check: &[&str]| {
        let range = "0 to 300 psi";
        shop.says(&[
            "instrument",
            "add",
            number,
            "--what",
            "test gauge",
            "--range",
            range,
        ]);
        if !check.is_empty() {
            let words = ["instrument", "check", number, "--against", "dead weights"];
            shop.says(&[&words[..], check].concat());
        }
    };
    shop.says(&[
        "instrument",
        "add",
        "M-3",
        "--what",
        "bore gauge",
        "--range",
        "0 to 3 in",
    ]);
    gauge(
        &mut shop,
        "G-1",
        &["--good", "--error", "+1 psi at 160 psi, -2 psi at 200 psi"],
    );
    gauge(
        &mut shop,
        "G-2",
        &["--good", "--error", "+1 psi at 160 psi"],
    );
    gauge(&mut shop, "G-3", &["--wrong", "--error", "+9 psi"]);
    gauge(&mut shop, "G-4", &["--good"]);
    gauge(&mut shop, "G-5", &[]);
    // Which way it is off is not said: no figure to work with.
    gauge(&mut shop, "G-6", &["--good", "--error", "2 psi"]);
    let day = day(&mut shop);
    let of = |number: &str| {
        let found = day.gauges.iter().find(|it| it.what.starts_with(number));
        found.unwrap_or_else(|| panic!("{number}: {:?}", day.gauges))
    };
    assert_eq!(of("G-1").error, Ok("-2 psi".into()));
    for number in ["G-2", "G-3", "G-4", "G-5", "G-6"] {
        let needs = of(number).error.clone().unwrap_err();
        assert!(needs.contains("needs"), "{number}: {needs}");
        assert!(
            of(number)
                .shows
                .clone()
                .unwrap_err()
                .starts_with("cannot tell: needs ")
        );
    }
    assert!(
        of("G-2")
            .error
            .clone()
            .unwrap_err()
            .contains("on file +1 psi at 160 psi")
    );
    assert!(of("G-3").error.clone().unwrap_err().contains("found wrong"));
    assert!(of("G-5").tried.contains("none is on file"));
    assert_eq!(day.gauges.len(), 6, "a bore gauge shows no pressure");
    // 62.4 lb in a cubic foot of cold water, over 144: .433 psi a foot. Six feet: 2.6 psi; 200 + 2.6 - 2 = 200.6.
    let (book, rules, on) = (
        shop.context.book().unwrap(),
        shop.context.rules().unwrap(),
        shop.context.on().unwrap(),
    );
    let (_, kept) = ::shop::locomotive::engine(&book, "27").unwrap();
    let told = crate::verb::test_day::must_show(&book, rules, kept, on, "6ft", "-2psi").unwrap();
    assert!(told.contains("200.6 psig"), "{told}");
}

fn day(shop: &mut Shop) -> TestDay {
    let (book, rules, on) = (
        shop.context.book().unwrap(),
        shop.context.rules().unwrap(),
        shop.context.on().unwrap(),
    );
    let (id, kept) = ::shop::locomotive::engine(&book, "27").unwrap();
    test_day(&book, rules, id, kept, on, measure::House::Inch)
        .unwrap()
        .unwrap()
}

/// Paper and page are filled by one function; what it gathered stands on the paper whole.
#[test]
fn the_paper_holds_all_that_was_gathered() {
    let mut shop = Shop::new("hydro-whole");
    shop.says(HER);
    let day = day(&mut shop);
    let form = hydro::paper(&mut shop.context, "27").unwrap();
    let text = said(&form);
    let lines = [&day.why, &day.pressures, &day.judged, &day.papers];
    let lines: Vec<&Line> = lines.into_iter().flatten().collect();
    assert!(lines.len() > 12, "{}", lines.len());
    for line in lines {
        for part in [Some(&line.what), line.value.as_ref(), Some(&line.section)] {
            let part = serde_json::to_string(&part.map_or("", String::as_str)).unwrap();
            assert!(text.contains(part.trim_matches('"')), "{part}: {text}");
        }
    }
    assert!(text.contains(day.ladder.as_ref().unwrap().as_str()));
}
