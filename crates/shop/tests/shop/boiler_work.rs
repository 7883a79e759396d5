//! Welding and riveting on a boiler, held against 49 CFR 230.20, 230.33, 230.34, 230.36, 230.37 and 230.40 as our notes of the
//! 2015 and 2023 texts have them (the sections stand beside each check).

use std::collections::{BTreeMap, BTreeSet};

use measure::{Fraction, House, Size};
use proptest::prelude::*;
use rules::Rulebook;
use shop::boiler_work::{Answer, Before, Question, Stage, Steel, Told, ask};
use shop::book::{Area, Change, Joining};

use crate::world::TODAY;

fn rulebook() -> &'static Rulebook {
    Rulebook::built_in().unwrap()
}

fn asked(told: &Told) -> Answer {
    ask(rulebook(), told, TODAY).unwrap()
}

fn size(text: &str) -> Option<Size> {
    Some(Size::parse(text).unwrap())
}

fn hundredths(n: i128) -> Option<Fraction> {
    Some(Fraction::new(n, 100))
}

/// A build-up on an unstayed carbon steel course that asks no approval.
fn small() -> Told {
    Told {
        joining: Some(Joining::Weld),
        area: Some(Area::Unstayed),
        change: Some(Change::Repair),
        steel: Some(Steel::Carbon),
        carbon: hundredths(25),
        flush_patch: Some(false),
        build_up: Some(true),
        wasted: Some(Fraction::from_integer(100)),
        depth: size("1/8 in"),
        required: size("1/2 in"),
        left: size("3/8 in"),
    }
}

fn rules_of(answer: &Answer, stage: Stage) -> Vec<(&str, bool)> {
    let of_it = answer.duties.iter().filter(|duty| duty.stage == stage);
    of_it
        .map(|duty| {
            (
                duty.ruling.rule.strip_prefix("us-steam.").unwrap(),
                duty.open.is_empty(),
            )
        })
        .collect()
}

/// 230.33(c): at the figures themselves no approval is asked; one step past any of them it is.
#[test]
fn a_build_up_is_approved_first_past_its_figures() {
    assert_eq!(asked(&small()).before(), Before::NoApproval);
    for (past, rule) in [
        (
            Told {
                wasted: hundredths(10_001),
                ..small()
            },
            "approval.weld-buildup",
        ),
        (
            Told {
                depth: size("0.1251 in"),
                ..small()
            },
            "approval.weld-buildup",
        ),
        // A quarter of three inches is more than the half inch, which then holds.
        (
            Told {
                required: size("3 in"),
                left: size("2.5 in"),
                depth: size("0.5001 in"),
                ..small()
            },
            "approval.weld-buildup",
        ),
        // 230.33(a).
        (
            Told {
                carbon: hundredths(26),
                ..small()
            },
            "approval.unstayed-weld",
        ),
        (
            Told {
                steel: Some(Steel::Alloy),
                carbon: None,
                ..small()
            },
            "approval.unstayed-weld",
        ),
        // 230.33(d): of any size.
        (
            Told {
                flush_patch: Some(true),
                ..small()
            },
            "approval.flush-patch",
        ),
    ] {
        let answer = asked(&past);
        assert_eq!(answer.before(), Before::Approval, "{past:?}");
        assert_eq!(rules_of(&answer, Stage::Approval), [(rule, true)]);
    }
    let thick = Told {
        required: size("3 in"),
        left: size("2.5 in"),
        depth: size("1/2 in"),
        ..small()
    };
    assert_eq!(asked(&thick).before(), Before::NoApproval);
}

/// 230.33(c): with less than 60 percent of the least wall left nothing is built up.
#[test]
fn a_wall_too_thin_is_not_built_up() {
    let at = Told {
        left: size("0.3 in"),
        ..small()
    };
    assert_eq!(asked(&at).before(), Before::NoApproval);
    let under = Told {
        left: size("0.2999 in"),
        ..small()
    };
    let answer = asked(&under);
    assert_eq!(answer.before(), Before::Forbidden);
    assert_eq!(
        rules_of(&answer, Stage::Never),
        [("repair.buildup-remaining", true)]
    );
}

/// 230.33(e), 230.34(c), 230.20(c): stayed areas ask no approval; the report is kept and not sent.
#[test]
fn a_stayed_repair_is_reported_to_the_drawer() {
    for joining in [Joining::Weld, Joining::Rivet] {
        let told = Told {
            joining: Some(joining),
            area: Some(Area::Stayed),
            change: Some(Change::Repair),
            ..Told::default()
        };
        let answer = asked(&told);
        assert_eq!(answer.before(), Before::NoApproval);
        assert!(answer.open().is_empty(), "{:?}", answer.open());
        assert_eq!(
            rules_of(&answer, Stage::Report),
            [("form-19.stayed-repair", true)]
        );
        // 230.37: a steam test after any repair, and no water test by 230.36(a).
        assert_eq!(
            rules_of(&answer, Stage::Test),
            [("after-repair.steam-test", true)]
        );
    }
}

/// 230.34(a), (b), 230.36(a), (c), 230.40(a), 230.20(a), (b).
#[test]
fn riveting_an_unstayed_area_drags_in_the_water_test_and_what_follows_it() {
    let repair = Told {
        joining: Some(Joining::Rivet),
        area: Some(Area::Unstayed),
        change: Some(Change::Repair),
        flush_patch: Some(false),
        ..Told::default()
    };
    let answer = asked(&repair);
    assert_eq!(answer.before(), Before::NoApproval);
    assert_eq!(
        rules_of(&answer, Stage::Test),
        [
            ("boiler-work.hydrostatic", true),
            ("hydrostatic.exterior", true),
            ("hydrostatic.hammer-test", true),
            ("hydrostatic.interior", true),
            ("after-repair.steam-test", true)
        ]
    );
    assert_eq!(
        rules_of(&answer, Stage::Report),
        [("form-19.unstayed-repair", true)]
    );
    let alteration = Told {
        change: Some(Change::Alteration),
        ..repair
    };
    let answer = asked(&alteration);
    assert_eq!(answer.before(), Before::Approval);
    assert_eq!(
        rules_of(&answer, Stage::Approval),
        [("approval.unstayed-rivet-alteration", true)]
    );
    assert_eq!(
        rules_of(&answer, Stage::Report),
        [("form-19.alteration", true)]
    );
}

#[test]
fn what_is_not_told_is_named() {
    let answer = asked(&Told {
        carbon: None,
        ..small()
    });
    assert_eq!(answer.before(), Before::CannotTell(vec![Question::Carbon]));
    assert!(
        answer
            .stop_points()
            .iter()
            .any(|line| line.contains("carbon of the plate"))
    );
    // Wrought iron: the section speaks of steel.
    let iron = asked(&Told {
        steel: Some(Steel::Other),
        ..small()
    });
    assert_eq!(iron.before(), Before::CannotTell(vec![Question::Steel]));
    let nothing = asked(&Told::default());
    assert!(matches!(nothing.before(), Before::CannotTell(_)));
    // All that can be owed is told, each with its question, but for the two that always hold.
    assert_eq!(nothing.duties.len(), 17);
    let sure = nothing.duties.iter().filter(|duty| duty.open.is_empty());
    assert_eq!(sure.count(), 2);
}

fn any_told() -> impl Strategy<Value = Told> {
    let yes_no = || prop::option::of(any::<bool>());
    let one = |all: Vec<_>| prop::option::of(prop::sample::select(all));
    (
        (
            one(vec![0, 1]),
            one(vec![0, 1]),
            one(vec![0, 1]),
            prop::option::of(prop::sample::select(vec![
                Steel::Carbon,
                Steel::Alloy,
                Steel::Other,
            ])),
            prop::option::of(20..31_i128),
        ),
        (
            yes_no(),
            yes_no(),
            prop::option::of(9_000..11_000_i128),
            prop::option::of(500_000..6_000_000_i64),
            prop::option::of(0..30_000_000_i64),
            prop::option::of(0..30_000_000_i64),
        ),
    )
        .prop_map(
            |(
                (joining, area, change, steel, carbon),
                (patch, build_up, wasted, depth, required, left),
            )| Told {
                joining: joining.map(|n| {
                    if n == 0 {
                        Joining::Weld
                    } else {
                        Joining::Rivet
                    }
                }),
                area: area.map(|n| if n == 0 { Area::Stayed } else { Area::Unstayed }),
                change: change.map(|n| {
                    if n == 0 {
                        Change::Repair
                    } else {
                        Change::Alteration
                    }
                }),
                steel,
                carbon: carbon.map(|n| Fraction::new(n, 100)),
                flush_patch: patch,
                build_up,
                wasted: wasted.map(|n| Fraction::new(n, 100)),
                depth: depth.map(Size::from_ticks),
                required: required.map(Size::from_ticks),
                left: left.map(Size::from_ticks),
            },
        )
}

fn without(told: &Told, at: usize) -> Told {
    let mut less = told.clone();
    match at {
        0 => less.joining = None,
        1 => less.area = None,
        2 => less.change = None,
        3 => less.steel = None,
        4 => less.carbon = None,
        5 => less.flush_patch = None,
        6 => less.build_up = None,
        7 => less.wasted = None,
        8 => less.depth = None,
        9 => less.required = None,
        _ => less.left = None,
    }
    less
}

proptest! {
    /// An answer left out never takes a duty away, never makes an open one sure, and never opens the way to the work.
    #[test]
    fn missing_never_helps(told in any_told(), at in 0..11_usize) {
        let (full, less) = (asked(&told), asked(&without(&told, at)));
        let duties = |answer: &Answer| -> BTreeSet<String> {
            answer.duties.iter().map(|duty| duty.ruling.rule.clone()).collect()
        };
        prop_assert!(duties(&full).is_subset(&duties(&less)));
        for duty in less.duties.iter().filter(|duty| duty.open.is_empty()) {
            let same = full.duties.iter().find(|it| it.ruling.rule == duty.ruling.rule);
            prop_assert!(same.is_some_and(|it| it.open.is_empty()), "{}", duty.ruling.rule);
        }
        if less.before() == Before::NoApproval {
            prop_assert_eq!(full.before(), Before::NoApproval);
        }
    }
}

/// What a page offers to choose from is what is understood, and an answer in other words is refused with the right ones.
#[test]
fn every_choice_is_understood() {
    for question in Question::ALL {
        let mut told = Told::default();
        for choice in question.choices() {
            told.answer(question.word(), choice, House::Inch).unwrap();
            let no = told
                .answer(question.word(), "perhaps", House::Inch)
                .unwrap_err()
                .to_string();
            assert!(no.contains(&format!("`{choice}`")), "{no}");
        }
    }
}

/// A bare length in a fact of the part is in the shop's own unit.
#[test]
fn a_bare_wall_is_in_the_shops_unit() {
    let facts = BTreeMap::from([("required-wall".to_string(), "12".to_string())]);
    let told = |house| Told::default().and_part(&facts, house).required;
    assert_eq!(told(House::Metric), size("12 mm"));
    assert_eq!(told(House::Inch), size("12 in"));
}
