//! Every limit at its value and one tick to either side; the tire table against its closed form. Published: 49 CFR Part 230, annual edition of 2015.

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
            (LimitValue::Size(v), Compare::Set) => {
                let at = |ticks: i64| limit.judge(Size::from_ticks(v.ticks() + ticks));
                let by = Size::from_ticks(1);
                assert_eq!(at(0), Outcome::Passes, "{id}");
                assert_eq!(
                    [at(1), at(-1)],
                    [Outcome::Fails { by }, Outcome::Fails { by }]
                );
            }
            (LimitValue::Number(v), Compare::Set) => {
                let by = Fraction::new(1, 1000);
                assert_eq!(limit.judge_number(*v), Outcome::Passes, "{id}");
                assert_eq!(limit.judge_number(*v + by), Outcome::Fails { by }, "{id}");
                assert_eq!(limit.judge_number(*v - by), Outcome::Fails { by }, "{id}");
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
            let wild = ticks == i64::MAX && limit.compare == Compare::Min
                || ticks == i64::MIN && limit.compare == Compare::Max;
            assert!(wild || outcome != Outcome::Passes, "{id} at {ticks}");
        }
        limit.judge_number(Fraction::from_integer(i128::MAX));
        limit.judge_number(Fraction::from_integer(i128::MIN + 1));
    }
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
                LimitValue::Size(inches(1, 4 + row + column, 16)),
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
