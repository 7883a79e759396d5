//! Every limit at its value and one tick to either side; the tire table against its closed form; the figures of
//! the law, each with its section. Published: 49 CFR Part 230, annual edition of 2015.

use jiff::civil::date;
use measure::{Fraction, Size};
use rules::{AtValue, Body, Compare, Limit, LimitTable, LimitValue, Outcome, Rulebook};

fn body(id: &str) -> Body {
    let book = Rulebook::built_in().expect("the rulebook loads");
    book.ruling(id, date(2026, 5, 2)).expect("a ruling").body
}

fn limit(id: &str) -> Limit {
    match body(id) {
        Body::Limit(limit) => limit,
        other => panic!("{id} is {other:?}"),
    }
}

fn every_limit() -> Vec<(String, Limit)> {
    let book = Rulebook::built_in().expect("the rulebook loads");
    book.rules()
        .flat_map(|rule| rule.versions.iter().map(move |v| (rule, v)))
        .filter_map(|(rule, version)| match &version.body {
            Body::Limit(limit) => Some((rule.id.clone(), limit.clone())),
            _ => None,
        })
        .collect()
}

fn inches(whole: i128, above: i128, below: i128) -> Size {
    Size::from_inches(Fraction::from_integer(whole) + Fraction::new(above, below)).expect("a size")
}

/// One tick past the value fails by one tick; one tick inside passes; at the value, the limit's own word.
fn edge(id: &str, limit: &Limit, value: Size, outward: i64) {
    let at = |ticks: i64| limit.judge(Size::from_ticks(value.ticks() + ticks));
    assert_eq!(
        at(outward),
        Outcome::Fails {
            by: Size::from_ticks(1)
        },
        "{id}, one tick outside"
    );
    assert_eq!(at(-outward), Outcome::Passes, "{id}, one tick inside");
    let expected = match limit.at_value {
        AtValue::Passes => Outcome::Passes,
        AtValue::Fails => Outcome::Fails { by: Size::ZERO },
    };
    assert_eq!(at(0), expected, "{id}, at the value");
}

/// The same for numbers, in steps of a thousandth.
fn number_edge(id: &str, limit: &Limit, value: Fraction, outward: i128) {
    let step = Fraction::new(1, 1000);
    let at = |n: i128| limit.judge_number(value + step * Fraction::from_integer(n));
    assert_eq!(
        at(outward),
        Outcome::Fails { by: step },
        "{id}, just outside"
    );
    assert_eq!(at(-outward), Outcome::Passes, "{id}, just inside");
    let expected = match limit.at_value {
        AtValue::Passes => Outcome::Passes,
        AtValue::Fails => Outcome::Fails {
            by: Fraction::from_integer(0),
        },
    };
    assert_eq!(at(0), expected, "{id}, at the value");
}

#[test]
fn every_limit_turns_exactly_at_its_value() {
    let limits = every_limit();
    assert!(limits.len() > 40, "only {} limits on file", limits.len());
    for (id, limit) in &limits {
        match (&limit.value, limit.compare) {
            (LimitValue::Size(v), Compare::Max) => edge(id, limit, *v, 1),
            (LimitValue::Size(v), Compare::Min) => edge(id, limit, *v, -1),
            (LimitValue::SizeRange(least, most), Compare::Range) => {
                edge(id, limit, *least, -1);
                edge(id, limit, *most, 1);
            }
            (LimitValue::Number(v), Compare::Max) => number_edge(id, limit, *v, 1),
            (LimitValue::Number(v), Compare::Min) => number_edge(id, limit, *v, -1),
            (LimitValue::NumberRange(least, most), Compare::Range) => {
                number_edge(id, limit, *least, -1);
                number_edge(id, limit, *most, 1);
            }
            (LimitValue::CountNone, Compare::Max) => {
                let found = |n| limit.judge_number(Fraction::from_integer(n));
                assert_eq!(found(0), Outcome::Passes, "{id}");
                assert_eq!(
                    found(1),
                    Outcome::Fails {
                        by: Fraction::from_integer(1)
                    },
                    "{id}"
                );
            }
            (value, compare) => panic!("{id}: {compare:?} does not go with {value:?}"),
        }
    }
}

#[test]
fn a_reading_of_the_wrong_sort_is_never_passed() {
    for (id, limit) in every_limit() {
        let wrong = match limit.value {
            LimitValue::Size(_) | LimitValue::SizeRange(..) => {
                matches!(
                    limit.judge_number(Fraction::from_integer(0)),
                    Outcome::CannotTell { .. }
                )
            }
            _ => matches!(limit.judge(Size::ZERO), Outcome::CannotTell { .. }),
        };
        assert!(wrong, "{id}");
    }
}

#[test]
fn a_reading_beyond_all_reckoning_is_not_a_crash() {
    for (id, limit) in every_limit() {
        for ticks in [i64::MIN, i64::MAX] {
            let outcome = limit.judge(Size::from_ticks(ticks));
            let wild = (ticks == i64::MAX) == (limit.compare == Compare::Min);
            assert!(wild || outcome != Outcome::Passes, "{id} at {ticks}");
        }
        limit.judge_number(Fraction::from_integer(i128::MAX));
        limit.judge_number(Fraction::from_integer(i128::MIN + 1));
    }
}

/// The figures as printed in 2015: id, section, words.
const PRINTED: &[(&str, &str, &str)] = &[
    ("us-steam.crosshead.vertical", "230.94", "at most 1/4 in"),
    ("us-steam.crosshead.lateral", "230.94", "at most 5/16 in"),
    ("us-steam.rod.side-motion", "230.96(d)", "at most 1/4 in"),
    (
        "us-steam.rod.main.bore-over-pin",
        "230.96(f)",
        "at most 3/32 in",
    ),
    (
        "us-steam.rod.main.lost-motion",
        "230.96(f)",
        "at most 5/32 in",
    ),
    (
        "us-steam.rod.side.bore-over-main-pin",
        "230.96(g)",
        "at most 5/32 in",
    ),
    (
        "us-steam.rod.side.bore-over-other-pin",
        "230.96(g)",
        "at most 3/16 in",
    ),
    (
        "us-steam.wheel.same-axle-diameter",
        "230.112(a)",
        "at most 3/32 in",
    ),
    (
        "us-steam.wheel.gauge-standard",
        "230.112(b)",
        "53 in to 53 3/8 in",
    ),
    (
        "us-steam.wheel.gauge-narrow",
        "230.112(b)",
        "3 1/8 in to 3 1/2 in",
    ),
    (
        "us-steam.wheel.back-to-back",
        "230.112(c)",
        "at most 1/4 in",
    ),
    (
        "us-steam.tire.retaining-ring-thickness",
        "230.112(d)",
        "at least 1 1/8 in",
    ),
    (
        "us-steam.tire.width-flanged-standard",
        "230.112(e)",
        "at least 5 1/2 in",
    ),
    (
        "us-steam.tire.width-flanged-narrow",
        "230.112(e)",
        "at least 5 in",
    ),
    (
        "us-steam.tire.width-plain-standard",
        "230.112(e)",
        "at least 6 in",
    ),
    (
        "us-steam.tire.width-plain-narrow",
        "230.112(e)",
        "at least 5 1/2 in",
    ),
    ("us-steam.wheel.cracks", "230.113(a)", "no cracks or breaks"),
    ("us-steam.wheel.flat-spot", "230.113(b)", "under 2 1/2 in"),
    (
        "us-steam.wheel.flat-spots-adjoining",
        "230.113(b)",
        "under 2 in",
    ),
    (
        "us-steam.wheel.flange-chip-length",
        "230.113(c)",
        "at most 1 1/2 in",
    ),
    (
        "us-steam.wheel.flange-chip-width",
        "230.113(c)",
        "at most 1/2 in",
    ),
    (
        "us-steam.wheel.broken-rim-tread",
        "230.113(d)",
        "at least 3 3/4 in",
    ),
    (
        "us-steam.wheel.shelled-spot",
        "230.113(e)",
        "under 2 1/2 in",
    ),
    (
        "us-steam.wheel.shelled-spots-adjoining",
        "230.113(e)",
        "under 2 in",
    ),
    (
        "us-steam.wheel.seam-from-flange",
        "230.113(f)",
        "over 3 3/4 in",
    ),
    (
        "us-steam.wheel.flange-thickness",
        "230.113(g)",
        "over 15/16 in",
    ),
    ("us-steam.wheel.tread-hollow", "230.113(h)", "under 5/16 in"),
    (
        "us-steam.wheel.flange-height",
        "230.113(i)",
        "1 in to 1 1/2 in",
    ),
    (
        "us-steam.wheel.rim-thickness",
        "230.113(j)",
        "at least 1 in",
    ),
    (
        "us-steam.wheel.diameters-all-turned",
        "230.113(k)",
        "at most 3/32 in",
    ),
    (
        "us-steam.wheel.diameter-single-tire",
        "230.113(k)",
        "at most 3/32 in",
    ),
    (
        "us-steam.wheel.diameter-single-pair",
        "230.113(k)",
        "at most 3/32 in",
    ),
    ("us-steam.feed.leaks", "230.57(b)", "no leaks"),
    (
        "us-steam.steam-test.pressure",
        "230.37",
        "95 to 100 percent of MAWP",
    ),
    (
        "us-steam.staybolt.broken-count",
        "230.39(a)",
        "at most 4 bolts",
    ),
    (
        "us-steam.staybolt.broken-spacing",
        "230.39(a)",
        "over 24 in",
    ),
    (
        "us-steam.hydrostatic.metal-temperature",
        "230.36(b)",
        "70 to 120 degrees F",
    ),
    ("us-steam.axle.journal-wear", "230.98(a)(6)", "under 1/2 in"),
    (
        "us-steam.axle.journal-wear-other-driver",
        "230.98(a)(7)",
        "under 3/4 in",
    ),
    (
        "us-steam.lateral.engine-truck-swing",
        "230.105(a)",
        "at most 1 in",
    ),
    (
        "us-steam.lateral.engine-truck-rigid",
        "230.105(a)",
        "at most 1 1/2 in",
    ),
    (
        "us-steam.lateral.trailing-truck",
        "230.105(a)",
        "at most 1 in",
    ),
    ("us-steam.lateral.driver", "230.105(a)", "at most 3/4 in"),
    (
        "us-steam.piston-travel.driver-cam",
        "230.76(b)",
        "at most 3 1/2 in",
    ),
    (
        "us-steam.piston-travel.driver-other",
        "230.76(b)",
        "at most 6 in",
    ),
    (
        "us-steam.piston-travel.engine-truck",
        "230.76(b)",
        "at most 8 in",
    ),
    ("us-steam.piston-travel.tender", "230.76(b)", "at most 9 in"),
    (
        "us-steam.drawbar.lost-motion",
        "230.90(d)",
        "at most 1/2 in",
    ),
    (
        "us-steam.drawbar.buffer-compression",
        "230.90(e)",
        "at least 3/4 in",
    ),
];

#[test]
fn the_figures_are_those_printed() {
    let book = Rulebook::built_in().expect("the rulebook loads");
    for (id, section, printed) in PRINTED {
        let ruling = book.ruling(id, date(2026, 5, 2)).expect("a ruling");
        assert_eq!(&ruling.cite.section, section, "{id}");
        assert_eq!(&limit(id).words(), printed, "{id}");
    }
    assert_eq!(
        PRINTED.len(),
        every_limit().len(),
        "a limit on file is not in the list of printed figures"
    );
}

fn tires() -> LimitTable {
    match body("us-steam.tire.thickness") {
        Body::LimitTable(table) => table,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_forty_nine_tire_cells_follow_one_rule() {
    // 230.112(d). The closed form, 1 1/4 + (row + column)/16, is our observation of the printed table.
    let table = tires();
    let mut cells = 0;
    for (row, line) in (0..).zip(&table.cells) {
        for (column, (written, size)) in (0..).zip(line) {
            assert_eq!(
                *size,
                inches(1, 4 + row + column, 16),
                "row {row}, column {column}: {written}"
            );
            cells += 1;
        }
    }
    assert_eq!(cells, 49);
}

#[test]
fn an_edge_of_the_tire_table_belongs_to_the_lower_band() {
    let n = Fraction::from_integer;
    let at = |load: Fraction, center: Fraction| match tires()
        .limit_at(load, center)
        .expect("a limit")
        .value
    {
        LimitValue::Size(size) => size,
        other => panic!("{other:?}"),
    };
    // 230.112(d): "30,000 and under", "over 30,000 to 35,000"; "44 and under", "over 44 to 50".
    assert_eq!(at(n(30_000), n(44)), inches(1, 1, 4));
    assert_eq!(at(n(30_001), n(44)), inches(1, 5, 16));
    assert_eq!(
        at(n(30_000), Fraction::new(44 * 64 + 1, 64)),
        inches(1, 5, 16)
    );
    assert_eq!(at(n(55_000), n(74)), inches(1, 7, 8));
    assert_eq!(at(n(55_001), n(74)), inches(1, 15, 16));
    assert_eq!(at(n(90_000), n(80)), inches(2, 0, 1));
    assert_eq!(at(n(1), n(1)), inches(1, 1, 4));
    let limit = tires().limit_at(n(47_000), n(63)).expect("a limit");
    assert_eq!(limit.judge(inches(1, 3, 4)), Outcome::Passes);
    assert_eq!(
        limit.judge(inches(1, 11, 16)),
        Outcome::Fails {
            by: inches(0, 1, 16)
        }
    );
}

#[test]
fn the_tire_table_refuses_an_engine_without_weight_or_wheels() {
    for (load, center) in [(0, 44), (30_000, 0), (-1, 44)] {
        let said = tires().limit_at(Fraction::from_integer(load), Fraction::from_integer(center));
        assert!(said.is_err_and(|e| e.to_string().contains("the table needs it above zero")));
    }
}

#[test]
fn a_chip_condemns_only_by_length_and_width_together() {
    let (length, width) = (
        "us-steam.wheel.flange-chip-length",
        "us-steam.wheel.flange-chip-width",
    );
    assert_eq!(limit(length).together_with.as_deref(), Some(width));
    assert_eq!(limit(width).together_with.as_deref(), Some(length));
}
