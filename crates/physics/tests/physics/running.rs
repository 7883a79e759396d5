//! Running gear: which reading governs, what stands at the figure itself, and one diameter for a set of tires.

use crate::{typed, valid};
use measure::{House, Length};
use physics::law::running_clearance::clearance;
use physics::law::running_tire_set::{Wheel, one_diameter};
use physics::limit::Bound;
use physics::{Given, Shown, catalogue, run};
use proptest::prelude::*;

/// A result of a sheet as it is printed.
pub fn told(sheet: &str, pairs: &[(&str, &str)], result: &str) -> String {
    let sheet = run(sheet, &typed(pairs), House::Inch).unwrap();
    match sheet.result(result) {
        Some(Shown::Quantity { shown, unit, .. }) => format!("{shown} {unit}").trim().to_owned(),
        Some(Shown::Text(text)) => text.clone(),
        other => panic!("{other:?}"),
    }
}

/// The cells of one column of a table.
fn column(sheet: &str, pairs: &[(&str, &str)], table: &str, heading: &str) -> Vec<String> {
    let sheet = run(sheet, &typed(pairs), House::Inch).unwrap();
    let Some(Shown::Table { columns, rows }) = sheet.result(table) else {
        panic!("{table} is no table");
    };
    let at = columns.iter().position(|known| known == heading).unwrap();
    rows.iter().map(|row| row[at].clone()).collect()
}

/// The figures are those of 49 CFR 230.94 and 230.96 (2015 edition); here they are typed, as anybody's would be.
#[test]
fn a_tick_to_either_side_of_the_figure_tells() {
    for (pair, limit, at, past) in [
        ("main-pin", "3/32 in", "6.09375 in", "6.0937525 in"),
        ("side-main-pin", "5/32 in", "6.15625 in", "6.1562525 in"),
        ("side-other-pin", "3/16 in", "6.1875 in", "6.1875025 in"),
    ] {
        let word = |bore| {
            let pairs = [
                ("pair", pair),
                ("bore", bore),
                ("pin", "6 in"),
                ("limit", limit),
            ];
            told("running.clearance", &pairs, "complies")
        };
        assert_eq!(word(at), "complies", "{pair}");
        assert_eq!(word(past), "fails: clearance", "{pair}");
    }
}

#[test]
fn the_worst_reading_governs_and_the_fullest_sizes_the_new_fit() {
    let pairs = [
        ("pair", "main-pin"),
        ("bore", "6.078 in, 6.081 in, 6.0775 in"),
        ("pin", "6.001 in, 5.9985 in, 6.000 in"),
    ];
    assert_eq!(told("running.clearance", &pairs, "clearance"), "0.0825 in");
    assert_eq!(
        told("running.clearance", &pairs, "complies"),
        "cannot tell: needs limit"
    );
    let notices = run("running.clearance", &typed(&pairs), House::Inch)
        .unwrap()
        .notices;
    assert!(
        notices
            .iter()
            .any(|n| n.contains("sized on the largest, 6.001 in")),
        "{notices:?}"
    );
    assert!(
        notices.iter().any(|n| n.contains("this sheet knows none")),
        "{notices:?}"
    );
}

#[test]
fn half_a_measurement_tells_nothing() {
    let pin_only = [("pair", "main-pin"), ("pin", "6 in"), ("limit", "3/32 in")];
    assert_eq!(
        told("running.clearance", &pin_only, "left"),
        "cannot tell: needs bore"
    );
    let both = [("pair", "main-pin"), ("pin", "6 in"), ("gap", "0.1 in")];
    let said = run("running.clearance", &typed(&both), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(said.contains("or the gap alone"), "{said}");
}

/// 49 CFR 230.98: an axle is out at half an inch below its original diameter, not past it.
#[test]
fn an_axle_at_the_figure_is_out() {
    let word = |present| {
        let pairs = [
            ("position", "main-driver"),
            ("original", "9 in"),
            ("present", present),
            ("limit", "1/2 in"),
        ];
        told("running.axle", &pairs, "complies")
    };
    assert_eq!(word("8.5000025 in"), "complies");
    assert_eq!(word("8.5 in"), "fails: wear of the journal");
    assert_eq!(word("8.9 in, 8.5 in"), "fails: wear of the journal");
}

/// Centers that differ want tires that differ: one thickness would be the wrong proposal.
#[test]
fn a_set_is_turned_to_one_diameter_and_not_to_one_thickness() {
    let pairs = [
        ("center", "56 in, 56 in, 55.75 in, 55.75 in"),
        ("thickness", "2.5 in, 2.5 in, 2.5 in, 2.5 in"),
        ("clean_up", "1/16 in"),
        ("state", "running"),
        ("least_thickness", "1 1/2 in"),
    ];
    let sheet = "running.tire_set";
    assert_eq!(told(sheet, &pairs, "proposal"), "60.625 in");
    assert_eq!(
        column(sheet, &pairs, "spent", "turned to in"),
        ["60.625"; 4]
    );
    assert_eq!(
        column(sheet, &pairs, "spent", "tire in"),
        ["2.313", "2.313", "2.438", "2.438"]
    );
    // The axle of the large centers comes down by half of what its wheels lose on the diameter.
    assert_eq!(told(sheet, &pairs, "height_drop"), "0.188 in");
    assert_eq!(
        told(sheet, &pairs, "life"),
        "cannot tell: needs wear, wear_days"
    );
}

/// 49 CFR 230.113(g) and (h): a flange of 15/16 in and a hollow of 5/16 in are condemned at the figure.
#[test]
fn each_wheel_is_told_by_itself() {
    let pairs = [
        ("center", "56 in"),
        ("thickness", "2.5 in, 2.4 in"),
        ("hollow", "0.3125 in, 0.3124 in"),
        ("flange", "0.9376 in, 0.9375 in"),
        ("clean_up", "1/16 in"),
        ("state", "running"),
        ("least_thickness", "1 1/2 in"),
        ("axle_difference", "3/32 in"),
        ("hollow_limit", "5/16 in"),
        ("least_flange", "15/16 in"),
    ];
    assert_eq!(
        column("running.tire_set", &pairs, "legal", "as it stands"),
        [
            "fails: difference to its mate, hollow",
            "fails: difference to its mate, flange"
        ]
    );
    let fewer: Vec<_> = pairs
        .iter()
        .copied()
        .filter(|(name, _)| *name != "flange")
        .collect();
    let word = told("running.tire_set", &fewer, "complies");
    assert!(word.starts_with("fails: 1 left difference"), "{word}");
}

#[test]
fn a_narrow_gauge_goes_by_its_track() {
    let mut pairs = vec![
        ("gauge", "narrow"),
        ("inside", "32 5/8 in, 32 3/4 in, 32 7/8 in"),
        ("least", "3 1/8 in"),
        ("most", "3 1/2 in"),
        ("variation_limit", "1/4 in"),
    ];
    assert_eq!(
        told("running.wheel_gauge", &pairs, "complies"),
        "cannot tell: needs track_gauge"
    );
    pairs.push(("track_gauge", "36 in"));
    assert_eq!(told("running.wheel_gauge", &pairs, "complies"), "complies");
    pairs[1] = ("inside", "32 5/8 in, 32 3/4 in");
    assert_eq!(
        told("running.wheel_gauge", &pairs, "complies"),
        "cannot tell: needs three places round the axle"
    );
}

/// The chart of the 1890s and Clark's rule agree on one spring to a tenth: 11,700 lb and 10,704 lb.
#[test]
fn two_rules_of_the_trade_stand_beside_each_other() {
    let pairs = [
        ("leaves", "15"),
        ("width", "4 in"),
        ("thickness", "3/8 in"),
        ("span", "40 in"),
        ("load", "11700 lb"),
    ];
    let sheet = "running.leaf_spring";
    assert_eq!(told(sheet, &pairs, "per_leaf_inch"), "195.0");
    assert_eq!(told(sheet, &pairs, "clark_load"), "10704 lbf");
    assert_eq!(told(sheet, &pairs, "stress"), "83200 psi");
}

/// 49 CFR 230.90: with a spring buffer its compression counts, without one the lost motion; at the figure both pass.
#[test]
fn the_buffer_decides_what_counts() {
    let pairs = |buffer, fitted| {
        [
            ("buffer", buffer),
            ("pulled", "24.6 in"),
            ("pushed", "24 in"),
            ("limit", "1/2 in"),
            ("free_length", "12 in"),
            ("fitted_length", fitted),
            ("least_compression", "3/4 in"),
        ]
    };
    let word = |buffer, fitted| told("running.drawbar", &pairs(buffer, fitted), "complies");
    assert_eq!(word("spring", "11 1/4 in"), "complies");
    assert_eq!(
        word("spring", "11.2500025 in"),
        "fails: compression of the buffer"
    );
    assert_eq!(word("none", "11 1/4 in"), "fails: lost motion");
}

/// An engine whose axles are all out alike runs; one axle out alone does not.
#[test]
fn axles_are_compared_with_each_other() {
    let word = |offsets| {
        let pairs = [
            ("stroke", "24 in"),
            ("offsets", offsets),
            ("limit", "1/64 in"),
        ];
        told("running.quarter", &pairs, "complies")
    };
    assert_eq!(word("0.05 in, 0.05 in, 0.05 in"), "complies");
    assert_eq!(
        word("0 in, 0.02 in, 0 in"),
        "fails: difference of the axles"
    );
    assert_eq!(word("-0.01 in, 0.01 in"), "fails: difference of the axles");
}

/// What the engine loses in height at her tires is what the ash pan loses above the rail.
#[test]
fn a_height_is_held_as_it_is_and_as_it_will_be() {
    let pairs = [
        ("place", "ash-pan"),
        ("readings", "2.6 in, 2.7 in"),
        ("comes_down", "0.1 in"),
        ("least", "2 1/2 in"),
        ("figures", "least-alone"),
    ];
    assert_eq!(
        told("running.heights", &pairs, "complies_after"),
        "complies"
    );
    let mut lower = pairs;
    lower[2] = ("comes_down", "0.1001 in");
    assert_eq!(told("running.heights", &lower, "complies"), "complies");
    assert_eq!(
        told("running.heights", &lower, "complies_after"),
        "fails: lowest"
    );
}

/// A fact that may be left out never turns an answer into *complies* by being left out, on any sheet that says the word.
#[test]
fn a_missing_fact_never_makes_it_comply() {
    let mut tried = 0;
    for entry in catalogue() {
        let words = |given: &[Given]| -> Vec<String> {
            let sheet = run(entry.card.id, given, House::Inch).unwrap();
            let said = sheet
                .results
                .iter()
                .filter_map(|result| match &result.value {
                    Shown::Text(text) if result.name.starts_with("complies") => Some(text.clone()),
                    _ => None,
                });
            said.collect()
        };
        if !entry.card.results.iter().any(|r| r.name == "complies") {
            continue;
        }
        for (given, _) in valid(entry, 120, House::Inch) {
            let whole = words(&given);
            for optional in entry.card.arguments.iter().filter(|a| !a.required) {
                let fewer: Vec<Given> = given
                    .iter()
                    .filter(|one| one.name != optional.name)
                    .cloned()
                    .collect();
                for (with, without) in whole.iter().zip(words(&fewer)) {
                    tried += 1;
                    assert!(
                        without != "complies" || with == "complies",
                        "{}: without {} '{with}' becomes '{without}'",
                        entry.card.id,
                        optional.name
                    );
                }
            }
        }
    }
    assert!(tried > 1000);
}

proptest! {
    /// A bore that grows, or a pin that wears, never makes a clearance smaller.
    #[test]
    fn clearance_never_falls_with_wear(bore in 1.0f64..20.0, pin in 0.5f64..20.0, worn in 0.0f64..0.5) {
        let of = |bore: f64, pin: f64| clearance(Length::inches(bore), Length::inches(pin)).to_inches();
        prop_assert!(of(bore + worn, pin) >= of(bore, pin));
        prop_assert!(of(bore, pin - worn) >= of(bore, pin));
    }

    /// No wheel of a proposal is larger than it is, all are one diameter, and the smallest wheel loses just the cut.
    #[test]
    fn one_diameter_for_all(
        wheels in prop::collection::vec((50.0f64..50.5, 1.5f64..3.5), 2..12), cut in 0.0f64..0.4, more in 0.0f64..0.3,
    ) {
        let wheels: Vec<Wheel> = wheels
            .into_iter()
            .map(|(center, thickness)| Wheel { center, thickness })
            .collect();
        if let Some(diameter) = one_diameter(&wheels, cut) {
            let least = wheels.iter().map(|wheel| wheel.diameter()).fold(f64::INFINITY, f64::min);
            prop_assert!((least - diameter - 2.0 * cut).abs() < 1e-12);
            for wheel in &wheels {
                prop_assert!(diameter <= wheel.diameter() + 1e-12);
                let turned = Wheel { thickness: wheel.thickness_at(diameter), ..*wheel };
                prop_assert!((turned.diameter() - diameter).abs() < 1e-12);
                prop_assert!(wheel.thickness - turned.thickness >= cut - 1e-12);
            }
            // A deeper cut, or one more worn wheel, never leaves a larger engine.
            if let Some(deeper) = one_diameter(&wheels, cut + more) {
                prop_assert!(deeper <= diameter);
            }
        }
    }

    /// What keeps below a figure keeps to it, and more wear never turns a failure into keeping.
    #[test]
    fn bounds_are_one_way(value in 0.0f64..10.0, figure in 0.001f64..10.0, more in 0.0f64..1.0) {
        prop_assert!(!Bound::Below.holds(value, figure) || Bound::AtMost.holds(value, figure));
        prop_assert!(!Bound::Above.holds(value, figure) || Bound::AtLeast.holds(value, figure));
        prop_assert!(!Bound::AtMost.holds(value + more, figure) || Bound::AtMost.holds(value, figure));
        prop_assert!(!Bound::AtLeast.holds(value, figure) || Bound::AtLeast.holds(value + more, figure));
        prop_assert!(Bound::AtMost.holds(figure, figure) && Bound::AtLeast.holds(figure, figure));
        prop_assert!(!Bound::Below.holds(figure, figure) && !Bound::Above.holds(figure, figure));
    }
}
