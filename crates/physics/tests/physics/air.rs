//! Air: the seam of a reservoir, a brake that holds, and what leaks.

use crate::running::told;
use crate::typed;
use measure::{House, Length, Stress};
use physics::law::air_leakage::rate;
use physics::law::air_reservoir::wall;
use physics::run;
use proptest::prelude::*;

const RESERVOIR: [(&str, &str); 6] = [
    ("pressure", "140 psig"),
    ("radius", "12 in"),
    ("strength", "known"),
    ("tensile", "55000 psi"),
    ("share", "1/5"),
    ("wall", "0.22 in, 0.19 in, 0.25 in"),
];

fn with_seam(seam: &'static str) -> Vec<(&'static str, &'static str)> {
    let mut pairs = RESERVOIR.to_vec();
    pairs.push(("seam", seam));
    pairs
}

/// 49 CFR 230.72(c) and (d), 2015 edition: the same reading, once without and once with a lap seam.
#[test]
fn the_same_reading_passes_without_and_fails_with_a_lap_seam() {
    let word = |seam| told("air.reservoir", &with_seam(seam), "complies");
    assert_eq!(word("none"), "complies");
    assert_eq!(word("lap"), "fails: wall");
    // 140 x 12 / (11,000 - 84) and 140 x 12 / (5,500 - 84), by hand.
    let least = |seam| told("air.reservoir", &with_seam(seam), "minimum_wall");
    assert_eq!(least("none"), "0.1540 in");
    assert_eq!(least("lap"), "0.3102 in");
}

/// Where .6 of the pressure is all that the plate is allowed there is no wall that would do.
#[test]
fn no_wall_carries_what_its_plate_cannot() {
    let radius = Length::inches(12.0);
    assert!(wall(1000.0, radius, 600.0, 1.0).is_none());
    assert!(wall(1000.0, radius, 1200.0, 0.5).is_none());
    assert!(wall(1000.0, radius, 601.0, 1.0).is_some());
}

#[test]
fn nothing_is_said_before_the_seam() {
    let said = run("air.reservoir", &typed(&RESERVOIR), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(
        said.contains("needs seam") && said.contains("nobody can tell by the reading"),
        "{said}"
    );
}

#[test]
fn a_strength_that_no_paper_tells_is_not_guessed() {
    let mut pairs = vec![
        ("pressure", "140 psig"),
        ("radius", "12 in"),
        ("seam", "none"),
        ("strength", "unknown"),
        ("wall", "1 in"),
    ];
    for result in ["minimum_wall", "left", "complies"] {
        assert_eq!(
            told("air.reservoir", &pairs, result),
            "cannot tell: needs allowed_stress"
        );
    }
    // A strength that is told but not vouched for helps nobody.
    pairs.push(("tensile", "60000 psi"));
    pairs.push(("share", "1/5"));
    assert_eq!(
        told("air.reservoir", &pairs, "complies"),
        "cannot tell: needs allowed_stress"
    );
}

/// 49 CFR 230.78: what is tested how; the figures are typed here.
#[test]
fn leakage_is_an_average_over_the_time_asked() {
    let word = |end, minutes| {
        let pairs = [
            ("kind", "main-reservoir"),
            ("start", "78 psig"),
            ("end", end),
            ("minutes", minutes),
            ("limit", "3 psi"),
            ("least_minutes", "3"),
        ];
        told("air.leakage", &pairs, "complies")
    };
    assert_eq!(word("69 psig", "3"), "complies");
    assert_eq!(word("68.9 psig", "3"), "fails: fall of pressure");
    assert_eq!(word("75.1 psig", "1"), "cannot tell: needs a longer test");
}

#[test]
fn a_brake_must_still_be_on_when_its_time_is_up() {
    let word = |end, minutes| {
        let pairs = [
            ("kind", "brake-cylinder"),
            ("start", "50 psig"),
            ("end", end),
            ("minutes", minutes),
            ("least_minutes", "5"),
        ];
        told("air.leakage", &pairs, "complies")
    };
    assert_eq!(word("1 psig", "5"), "complies");
    assert_eq!(word("30 psig", "4"), "cannot tell: needs a longer test");
    assert_eq!(word("0 psig", "5"), "fails: time held");
    assert_eq!(word("0 psig", "6"), "complies");
}

/// Air Brakes, an up-to-date treatise on the Westinghouse air brake, page 101 (read in a picture of the page): 4,500 lb at one
/// pin, a lever of 1 to 3 makes 1,500 of it, one of 4 to 1 makes 6,000 of that at the beam; four beams of two shoes are
/// 24,000 lb in all, 3,000 a shoe.
#[test]
fn force_is_carried_lever_by_lever() {
    // A piston of a hundred square inches, so that 45 psi push 4,500 lb.
    let bore = format!("{:.9} in", (4.0 / std::f64::consts::PI).sqrt() * 10.0);
    let pairs = [
        ("cylinder", bore.as_str()),
        ("cylinders", "1"),
        ("pressure", "45 psig"),
        ("levers", "1/3, 4"),
        ("shoes", "2"),
        ("efficiency", "1"),
    ];
    assert_eq!(
        told("air.brake_rigging", &pairs, "piston_force"),
        "4500 lbf"
    );
    assert_eq!(told("air.brake_rigging", &pairs, "total_force"), "6000 lbf");
    assert_eq!(told("air.brake_rigging", &pairs, "shoe_force"), "3000 lbf");
    assert_eq!(
        told("air.brake_rigging", &pairs, "braking_ratio"),
        "cannot tell: needs weight"
    );
}

/// 49 CFR 230.71(b), 2015 edition: a listed compressor by strokes and pressure, another by its rating.
#[test]
fn a_compressor_is_held_to_its_own_kind_of_figure() {
    let word = |compressor, strokes, share| {
        let pairs = [
            ("compressor", compressor),
            ("altitude", "800 ft"),
            ("strokes", strokes),
            ("held", "60 psig"),
            ("most_strokes", "100"),
            ("least_pressure", "60 psig"),
            ("delivered", share),
            ("rated", "100"),
            ("least_share", "80%"),
        ];
        told("air.orifice", &pairs, "complies")
    };
    assert_eq!(word("westinghouse-11", "100", "10"), "complies");
    assert_eq!(word("westinghouse-11", "101", "100"), "fails: strokes");
    assert_eq!(word("unlisted", "300", "80"), "complies");
    assert_eq!(word("unlisted", "90", "79.9"), "fails: share of the rating");
}

proptest! {
    /// Less strength, a weaker seam, more pressure or a larger reservoir never want a thinner wall.
    #[test]
    fn less_strength_never_wants_less_wall(
        p in 20.0f64..300.0, r in 3.0f64..24.0, s in 4000.0f64..20000.0, k in 0.4f64..1.0, less in 0.5f64..1.0,
    ) {
        let of = |p: f64, r: f64, s: f64, k: f64| {
            wall(Stress::psi(p).to_pascals(), Length::inches(r), Stress::psi(s).to_pascals(), k).map(Length::to_inches)
        };
        let least = of(p, r, s, k).unwrap();
        // None is worse than any wall: no plate will do.
        let no_less = |other: Option<f64>| other.is_none_or(|other| other >= least);
        prop_assert!(no_less(of(p, r, s * less, k)));
        prop_assert!(no_less(of(p, r, s, k * less)));
        prop_assert!(no_less(of(p / less, r, s, k)));
        prop_assert!(no_less(of(p, r / less, s, k)));
    }

    #[test]
    fn a_fall_in_less_time_is_faster(start in 10.0f64..150.0, lost in 0.0f64..10.0, minutes in 0.5f64..30.0) {
        let of = |lost: f64, minutes: f64| rate(start, start - lost, minutes).to_pascals();
        prop_assert!(of(lost, minutes / 2.0) >= of(lost, minutes));
        prop_assert!(of(lost + 1.0, minutes) > of(lost, minutes));
    }
}
