//! The whole boiler and the whole plate: what governs, and a survey square by square.

use crate::{Dice, answer, figure, typed};
use measure::{House, Length};
use physics::answer::Outcome;
use physics::law::boiler_governing::{Bears, Governs, governs};
use physics::law::boiler_survey::{asked_for, blocks, fitted, in_all};
use physics::run;
use proptest::prelude::*;

fn text(id: &str, pairs: &[(&str, &str)], name: &str) -> String {
    match answer(id, pairs).result(name) {
        Some(Outcome::Text(text)) => text.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

fn refused(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

const GOVERNING: &str = "boiler.governing";

#[test]
fn a_boiler_is_not_told_while_a_component_is_not() {
    let told = [
        ("bears", "227 psig, 190 psig, 215 psig"),
        ("set", "180 psig"),
    ];
    assert_eq!(text(GOVERNING, &told, "governing"), "component 2");
    assert_eq!(text(GOVERNING, &told, "complies"), "complies");
    let one_less = [("bears", "227 psig, 190 psig, ?"), ("set", "180 psig")];
    let needs = "cannot tell: needs component 3";
    for name in ["mawp", "times", "factor", "complies"] {
        assert_eq!(text(GOVERNING, &one_less, name), needs, "{name}");
    }
    // What is told already condemns, whatever the rest would say.
    let short = [("bears", "227 psig, 170 psig, ?"), ("set", "180 psig")];
    assert_eq!(text(GOVERNING, &short, "complies"), "fails");
    let bounded = [
        ("bears", "227 psig, 190 psig, ?"),
        ("bounds", "?, ?, 150 psig"),
        ("set", "180 psig"),
    ];
    assert_eq!(text(GOVERNING, &bounded, "complies"), "fails");
    let nothing = [("bears", "?, ?"), ("set", "180 psig")];
    for name in [
        "mawp",
        "not_above",
        "governing",
        "times",
        "factor",
        "complies",
    ] {
        let said = text(GOVERNING, &nothing, name);
        assert_eq!(
            said, "cannot tell: needs component 1, component 2",
            "{name}"
        );
    }
    // No set pressure is no pressure of nothing.
    assert_eq!(
        text(GOVERNING, &told[..1], "complies"),
        "cannot tell: needs set"
    );
}

#[test]
fn lists_that_do_not_go_together_are_refused() {
    let pairs = [("bears", "227 psig, 190 psig"), ("factors", "4")];
    assert!(refused(GOVERNING, &pairs).contains("1 of factors and 2 of bears"));
    let survey = |more: &[(&'static str, &'static str)]| {
        let mut all = vec![("grid", "0.5 in, 0.4 in, ?, 0.5 in"), ("columns", "2")];
        all.retain(|(name, _)| more.iter().all(|(other, _)| name != other));
        all.extend_from_slice(more);
        refused("boiler.survey", &all)
    };
    assert!(survey(&[("columns", "3")]).contains("4 readings do not fill rows of 3"));
    assert!(survey(&[("courses", "1")]).contains("do not lead to the last column"));
    assert!(survey(&[("courses", "2, 1, 2")]).contains("do not lead to the last column"));
    assert!(survey(&[("grid", "0.5 in; 0.4 in")]).contains("grid"));
}

#[test]
fn thirty_blocks_read_whole_or_no_estimate() {
    let grid = |skip: usize| {
        let cell = |at: usize| {
            if at < skip {
                "?".to_owned()
            } else {
                format!("0.{} in", 400 + at)
            }
        };
        (0..30).map(cell).collect::<Vec<_>>().join(", ")
    };
    let with = |skip, name: &str| {
        let grid = grid(skip);
        let pairs = [
            ("grid", grid.as_str()),
            ("columns", "6"),
            ("square", "4 in"),
            ("spot", "1/2 in"),
        ];
        answer("boiler.survey", &pairs).result(name).cloned()
    };
    assert!(matches!(with(0, "estimate"), Some(Outcome::Si(_))));
    let waits = Some(Outcome::Text(
        "cannot tell: needs from 30 to 400 blocks of squares that were read whole".into(),
    ));
    assert_eq!(with(1, "estimate"), waits);
    assert_eq!(
        with(30, "thinnest"),
        Some(Outcome::Text(
            "cannot tell: needs a square that was read".into()
        ))
    );
    // Thirty whole squares and nobody says how wide a spot is.
    let grid = grid(0);
    assert_eq!(
        text(
            "boiler.survey",
            &[("grid", &grid), ("columns", "6")],
            "least"
        ),
        "cannot tell: needs square, spot"
    );
}

#[test]
fn a_spot_is_no_wider_than_its_square() {
    let mut dice = Dice::new(5);
    let cells: Vec<String> = (0..30)
        .map(|_| format!("{:.3} in", 0.3 + 0.1 * dice.unit()))
        .collect();
    let grid = cells.join(", ");
    let pairs = [
        ("grid", grid.as_str()),
        ("columns", "5"),
        ("square", "1 in"),
        ("spot", "1.5 in"),
    ];
    assert!(refused("boiler.survey", &pairs).contains("wider than its square"));
}

fn component() -> impl Strategy<Value = Bears> {
    prop_oneof![
        (1.0f64..600.0).prop_map(Bears::Told),
        (1.0f64..600.0).prop_map(Bears::NotAbove),
        Just(Bears::CannotTell),
    ]
}

fn known(all: &[Bears]) -> (bool, f64) {
    match governs(all) {
        Governs::Told(_, least) => (true, least),
        Governs::NotAbove(_, least) => (false, least),
        Governs::Nothing => (false, f64::INFINITY),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// One more component, told or not, never lets a boiler bear more, and one that is no longer told is never taken
    /// for fit.
    #[test]
    fn more_parts_never_help(all in prop::collection::vec(component(), 1..12), more in component(), at in any::<prop::sample::Index>()) {
        let (told, least) = known(&all);
        let mut wider = all.clone();
        wider.push(more);
        let (told_too, least_too) = known(&wider);
        prop_assert!(least_too <= least);
        prop_assert!(!told_too || told);
        let mut forgotten = all.clone();
        let at = at.index(forgotten.len());
        forgotten[at] = Bears::CannotTell;
        prop_assert!(!known(&forgotten).0);
    }

    /// The estimate is no thicker than the thinnest reading, and a square that was not read takes nothing away from the plate.
    #[test]
    fn an_estimate_of_a_survey_never_helps(rows in 5usize..9, columns in 6usize..9, seed in any::<u64>(), spot in 0.1f64..0.9) {
        let mut dice = Dice::new(seed);
        let cells: Vec<String> = (0..rows * columns).map(|_| format!("{:.4} in", 0.25 + 0.3 * dice.unit())).collect();
        let (grid, columns, spot) = (cells.join(", "), columns.to_string(), format!("{spot:.3} in"));
        let pairs = [("grid", grid.as_str()), ("columns", &columns), ("square", "3 in"), ("spot", &spot)];
        let told = answer("boiler.survey", &pairs);
        prop_assert!(figure(&told, "least") <= figure(&told, "thinnest"));
        prop_assert!(figure(&told, "blocks") >= figure(&told, "blocks_read"));
    }

    /// Each square read stands in one block at most, whole blocks only, and the largest that still make thirty are taken.
    #[test]
    fn blocks_are_whole_and_apart(rows in 1usize..14, columns in 1usize..14, wide in 1usize..5, gap in any::<prop::sample::Index>()) {
        let mut grid: Vec<Vec<Option<f64>>> = (0..rows).map(|row| (0..columns).map(|column| Some((row * columns + column) as f64)).collect()).collect();
        let whole = (rows / wide) * (columns / wide);
        prop_assert_eq!(blocks(&grid, wide).len(), whole);
        let gap = gap.index(rows * columns);
        grid[gap / columns][gap % columns] = None;
        let after = blocks(&grid, wide).len();
        prop_assert!(whole - after <= 1);
        match fitted(&grid) {
            Some((wide, minima)) => {
                prop_assert!((30..=400).contains(&minima.len()));
                prop_assert!((wide + 1..=rows.min(columns)).all(|wider| blocks(&grid, wider).len() < 30));
            }
            None => prop_assert!(rows * columns - 1 < 30),
        }
        let all = in_all(rows * columns, wide, Length::inches(3.0), Length::inches(0.5));
        prop_assert!(asked_for(all, whole) >= whole as f64);
    }
}
