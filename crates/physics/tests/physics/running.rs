//! Running gear: which reading governs, what stands at the figure itself, and one diameter for a set of tires.

use crate::{typed, valid};
use measure::{House, Length};
use physics::law::running_clearance::clearance;
use physics::law::running_equalizer::chain;
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

/// Every place of a tender's axle has its say: one that nobody read leaves the axle open, one that fails is named whatever
/// else is missing.
#[test]
fn a_tender_axle_half_read_is_not_said_to_comply() {
    let all = [
        ("journal", "5 in"),
        ("wheel_seat", "6.5 in"),
        ("center", "5.5 in"),
        ("ends", "collar"),
        ("collar", "3/8 in"),
        ("gouge", "0 in"),
        ("least_journal", "4 1/2 in"),
        ("least_seat", "6 1/4 in"),
        ("least_center", "5 5/16 in"),
        ("collar_out", "1/4 in"),
        ("most_gouge", "1/8 in"),
    ];
    let sheet = "running.tender_axle";
    assert_eq!(told(sheet, &all, "complies"), "complies");
    for gone in [
        "wheel_seat",
        "center",
        "collar",
        "gouge",
        "least_seat",
        "collar_out",
    ] {
        let fewer: Vec<_> = all.into_iter().filter(|(name, _)| *name != gone).collect();
        let needs = format!("cannot tell: needs {gone}");
        assert_eq!(told(sheet, &fewer, "complies"), needs);
        let mut thin = fewer.clone();
        thin.retain(|(name, _)| *name != "journal");
        thin.push(("journal", "4.9 in, 4.4999 in"));
        assert_eq!(told(sheet, &thin, "complies"), "fails: journal", "{gone}");
    }
}

proptest! {
    /// Clearance on either side is enough, and the more of it the less is left.
    #[test]
    fn side_bearings_touch_on_both_sides_or_do_not(a in 0u32..400, b in 0u32..400) {
        let mils = |n: u32| format!("0.{n:04} in");
        let (left, right, more) = (mils(a), mils(b), mils(a + 1));
        let of = |left: &str, result| {
            let pairs = [
                ("bearings", "rear"),
                ("kind", "friction"),
                ("left_side", left),
                ("right_side", right.as_str()),
                ("limit", "3/8 in"),
            ];
            told("running.side_bearing", &pairs, result)
        };
        let touch = a == 0 && b == 0;
        prop_assert_eq!(of(&left, "contact") == "both sides", touch);
        prop_assert_eq!(of(&left, "complies") == "complies", !touch);
        let left_over = |text: String| text.trim_end_matches(" in").parse::<f64>().unwrap();
        prop_assert!(left_over(of(&more, "left")) <= left_over(of(&left, "left")));
    }
}

proptest! {
    /// A chain worked from its far end, arms the other way about, comes back to what went in; every pivot bears both its
    /// hangers, and twice the load is twice of everything.
    #[test]
    fn a_chain_of_levers_reads_the_same_from_either_end(
        arms in proptest::collection::vec((1.0..120.0_f64, 1.0..120.0_f64), 1..9),
        load in 1.0..50_000.0_f64,
    ) {
        let of = |arms: &[(f64, f64)]| -> Vec<(Length, Length)> {
            arms.iter().map(|(a, b)| (Length::inches(*a), Length::inches(*b))).collect()
        };
        let there = chain(&of(&arms), load);
        let back: Vec<(f64, f64)> = arms.iter().rev().map(|(a, b)| (*b, *a)).collect();
        let back = chain(&of(&back), there.last().unwrap().far);
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
        for (one, other) in there.iter().zip(back.iter().rev()) {
            prop_assert!(near(one.near, other.far) && near(one.far, other.near) && near(one.pivot, other.pivot));
            prop_assert!(near(one.pivot, one.near + one.far));
        }
        for ((lever, (near_arm, far_arm)), double) in there.iter().zip(&arms).zip(chain(&of(&arms), 2.0 * load)) {
            prop_assert!(near(lever.near * near_arm, lever.far * far_arm));
            prop_assert!(near(double.pivot, 2.0 * lever.pivot));
        }
    }
}

/// A shim over every box lifts the frame by its own thickness: each lifts it by its box's share.
#[test]
fn the_rises_of_all_boxes_add_up_to_the_shim() {
    let rise = |at: &str| {
        let pairs = [
            (
                "arms",
                "18 in, 18 in, 20 in, 25 in, 18 in, 20 in, 22 in, 17 in, 19 in, 19 in",
            ),
            ("boxes", "odd-levers"),
            ("load", "5000 lb"),
            ("load_at", "0"),
            ("shim", "1 in"),
            ("shim_at", at),
        ];
        crate::figure(&crate::answer("running.equalizer", &pairs), "rise")
    };
    let all = rise("1") + rise("3") + rise("5");
    assert!((all - 0.0254).abs() < 1e-12, "{all}");
    let arms = [
        ("arms", "18 in, 18 in"),
        ("boxes", "even-levers"),
        ("load", "10 lb"),
        ("load_at", "0"),
    ];
    let said = run("running.equalizer", &typed(&arms), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(said.contains("rests on a box"), "{said}");
}

proptest! {
    /// More of any section never weakens either side; with the drawbar's own sections the share is one.
    #[test]
    fn a_safety_connection_like_its_drawbar_has_all_of_its_strength(
        bar in 1u32..190, pin in 1u32..190, tensile in 20u32..120, shear in 20u32..120,
    ) {
        let (bar, pin) = (format!("{bar} sq in"), format!("{pin} sq in"));
        let (tensile, shear) = (format!("{tensile}000 psi"), format!("{shear}000 psi"));
        let of = |bars: &str| {
            let pairs = [
                ("drawbar_area", bar.as_str()),
                ("drawbar_strength", tensile.as_str()),
                ("drawbar_pins", pin.as_str()),
                ("drawbar_shear", shear.as_str()),
                ("bars_area", bars),
                ("bars_strength", tensile.as_str()),
                ("bars_pins", pin.as_str()),
                ("bars_shear", shear.as_str()),
            ];
            crate::figure(&crate::answer("running.safety_connection", &pairs), "share")
        };
        prop_assert!((of(&bar) - 1.0).abs() < 1e-12);
        let half = bar.replace(" sq in", "/2 sq in");
        prop_assert!(of(&half) <= of(&bar));
    }
}
