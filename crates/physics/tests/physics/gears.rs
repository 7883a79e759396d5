//! `lathe.change_gears`: what it finds and refuses, and its errors worked again by plain rationals.

use crate::typed;
use measure::House;
use physics::law::lathe_change_gears::{Asked, search, wanting};
use physics::{Shown, run};
use proptest::prelude::*;

const ALL: &str = "20,24,25,28,30,32,35,38,40,42,44,45,46,48,50,55,57,60,63,65,70,80,100,127";

fn result(pairs: &[(&str, &str)], name: &str) -> Shown {
    let sheet = run("lathe.change_gears", &typed(pairs), House::Inch).unwrap();
    sheet.result(name).unwrap().clone()
}

fn said(pairs: &[(&str, &str)]) -> String {
    run("lathe.change_gears", &typed(pairs), House::Inch)
        .unwrap_err()
        .to_string()
}

fn asked(
    leadscrew: &'static str,
    wanted: &'static str,
    gears: &'static str,
) -> Vec<(&'static str, &'static str)> {
    vec![
        ("leadscrew", leadscrew),
        ("wanted", wanted),
        ("gears", gears),
        ("wheels", "4"),
    ]
}

#[test]
fn the_exact_trains_come_first_then_the_nearest() {
    let Shown::Table { columns, rows } = result(
        &asked("8 TPI", "27 TPI", "20,25,30,35,40,45,50,55,60,65"),
        "trains",
    ) else {
        panic!("no table");
    };
    assert_eq!(columns, ["gears", "ratio", "error_ppm", "error_per_foot"]);
    let exact = rows.iter().take_while(|row| row[2] == "exact").count();
    assert!(exact > 0 && exact < rows.len());
    let misses: Vec<f64> = rows[exact..]
        .iter()
        .map(|row| row[2].parse::<f64>().unwrap().abs())
        .collect();
    assert!(misses.is_sorted() && misses[0] > 0.0, "{misses:?}");
}

/// A metric thread on an inch screw wants a wheel of 127, and the sheet says so when there is none.
#[test]
fn a_prime_that_no_wheel_has_is_named() {
    let sheet = run(
        "lathe.change_gears",
        &typed(&asked("8 TPI", "1.5 mm", "20,30,40,50,60,65")),
        House::Inch,
    )
    .unwrap();
    assert!(
        sheet
            .notices
            .iter()
            .any(|n| n.contains("60/127 wants a wheel whose teeth are a multiple of 127")),
        "{:?}",
        sheet.notices
    );
    let best = result(&asked("8 TPI", "1.5 mm", "20,30,40,50,60,65,127"), "best");
    assert!(
        matches!(best, Shown::Text(ref text) if text.ends_with(": exact")),
        "{best:?}"
    );
    assert_eq!(wanting(&[20, 40], (60, 127)), [3, 127]);
}

/// An inch lathe told in inches of pitch, in threads or in millimetres answers alike.
#[test]
fn a_pitch_is_one_pitch_however_it_is_written() {
    let gears = "20,25,30,35,40,45,50,55,60,127";
    let one = result(&asked("8 TPI", "2 mm", gears), "best");
    assert_eq!(one, result(&asked(".125 in", "2 mm", gears), "best"));
    assert_eq!(one, result(&asked("3.175 mm", "2 mm", gears), "best"));
}

#[test]
fn what_cannot_be_is_refused_in_words() {
    assert!(
        said(&asked("8 TPI", "19 TPI", "20,30,40"))
            .contains("3 wheels were given for a train of 4")
    );
    assert!(said(&asked("8 TPI", "19 TPI", "20")).contains("2 to 40 of them, comma between"));
    assert!(said(&asked("8 TPI", "19 TPI", "20,,40,50")).contains("gears"));
    assert!(
        said(&asked("8 TPI", "19 TPI", "20,30,40,5")).contains("5 is outside the range 10 to 200")
    );
    assert!(
        said(&asked("8 TPI", "1.2345678901 mm", "20,30,40,50")).contains("more than nine figures")
    );
    let mut tight = asked("8 TPI", "19 TPI", "20,30,40,50");
    tight.push(("stud", "60"));
    assert!(said(&tight).contains("no train of these wheels clears its studs"));
    let many: Vec<String> = (20..53).map(|teeth| teeth.to_string()).collect();
    let many = many.join(",");
    let pairs = [
        ("leadscrew", "8 TPI"),
        ("wanted", "19 TPI"),
        ("gears", &many),
        ("wheels", "4"),
    ];
    assert!(said(&pairs).contains("33 sizes of wheel"));
}

/// A wheel owned once is never used twice; owned twice, it may be.
#[test]
fn no_wheel_is_used_more_often_than_it_is_owned() {
    let ask = Asked {
        ratio: (4, 9),
        pairs: 2,
        stud: 15,
        span: 0,
        show: 50,
    };
    let once = search(&[20, 40, 60, 90], &ask);
    assert!(once.trains.iter().all(|t| t.pairs != [(40, 60), (40, 60)]));
    let twice = search(&[40, 40, 60, 60], &ask);
    assert_eq!(twice.trains[0].pairs, [(40, 60), (40, 60)]);
    assert_eq!(twice.exact, 1);
}

/// The arm that is too short for its span is passed over.
#[test]
fn a_train_must_reach_the_leadscrew() {
    let at = |span| {
        search(
            &[20, 25, 40, 50],
            &Asked {
                ratio: (1, 4),
                pairs: 2,
                stud: 15,
                span,
                show: 9,
            },
        )
        .trains
    };
    assert!(!at(0).is_empty());
    assert_eq!(at(135), at(0));
    assert!(at(136).is_empty());
}

/// All the sets of twenty-four wheels, each counted once, in the time a person does not notice.
#[test]
fn twenty_four_wheels_are_all_tried() {
    let wheels: Vec<u32> = ALL.split(',').map(|teeth| teeth.parse().unwrap()).collect();
    let ask = |pairs| Asked {
        ratio: (8, 19),
        pairs,
        stud: 15,
        span: 0,
        show: 24,
    };
    assert_eq!(search(&wheels, &ask(2)).examined, 63_756);
    assert_eq!(search(&wheels, &ask(3)).examined, 2_691_920);
}

proptest! {
    /// Every train listed is made of wheels that are owned, misses by what plain rationals say it
    /// misses, clears its studs, and no set that was passed over misses by less.
    #[test]
    fn what_is_found_is_the_best_by_plain_rationals(
        wheels in proptest::collection::vec(16u32..90, 4..9), p in 1i64..60, q in 1i64..60,
    ) {
        let ask = Asked { ratio: (p, q), pairs: 2, stud: 15, span: 0, show: 6 };
        let found = search(&wheels, &ask);
        let miss = |d: i64, e: i64| {
            use measure::Fraction;
            let ratio = Fraction::new(i128::from(d), i128::from(e)) / Fraction::new(i128::from(p), i128::from(q));
            let off = ratio - Fraction::from_integer(1);
            if off < Fraction::from_integer(0) { -off } else { off }
        };
        // The plain way: every ordered four, each fouling rule written out.
        let mut best = None;
        let n = wheels.len();
        for a in 0..n { for b in 0..n { for c in 0..n { for d in 0..n {
            if a == b || a == c || a == d || b == c || b == d || c == d { continue; }
            let [a, b, c, d] = [a, b, c, d].map(|at| i64::from(wheels[at]));
            if a + b < c + 15 || c + d < b + 15 { continue; }
            let off = miss(a * c, b * d);
            if best.is_none_or(|known| off < known) { best = Some(off); }
        }}}}
        prop_assert_eq!(best, found.trains.first().map(|t| miss(t.drivers(), t.driven())));
        for train in &found.trains {
            let (over, under) = train.error((p, q));
            let ours = measure::Fraction::new(i128::from(over.abs()), i128::from(under));
            prop_assert_eq!(ours, miss(train.drivers(), train.driven()));
        }
    }
}
