//! `seat.correct`: its sheet, its words, and what must be true of it whatever the numbers.

use crate::typed;
use measure::{Angle, House, Length};
use physics::law::seat_correct::{correct, method};
use physics::{Sheet, Shown, run};
use proptest::prelude::*;

fn sheet(extra: &[(&str, &str)]) -> Sheet {
    let mut pairs = vec![
        ("found_half_angle", "44deg"),
        ("wanted_half_angle", "45deg"),
        ("land", "1/8 in"),
        ("port", "2 in"),
    ];
    pairs.extend(extra);
    run("seat.correct", &typed(&pairs), House::Inch).unwrap()
}

fn text(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Text(text)) => text.clone(),
        Some(Shown::Quantity { shown, unit, .. }) => format!("{shown} {unit}"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_is_missing_is_said_and_never_filled_in() {
    let bare = sheet(&[]);
    assert_eq!(text(&bare, "metal_left"), "cannot tell: needs wall");
    assert!(
        bare.notices
            .iter()
            .any(|n| n.contains("ask before cutting"))
    );
    let told = sheet(&[("wall", "1/4 in"), ("design", "matched")]);
    assert_eq!(text(&told, "metal_left"), "0.2469 in");
    assert!(
        !told
            .notices
            .iter()
            .any(|n| n.contains("ask before cutting"))
    );
}

/// Metal that goes is shown up, metal that stays is shown down.
#[test]
fn rounding_never_flatters() {
    let told = sheet(&[("wall", "1/4 in")]);
    assert_eq!(text(&told, "wedge"), "0.0022 in");
    assert_eq!(text(&told, "axial_sink"), "0.0031 in");
    assert_eq!(text(&told, "metal_left"), "0.2469 in");
}

#[test]
fn a_differential_seat_is_not_corrected_away() {
    let sheet = sheet(&[("design", "differential")]);
    assert!(text(&sheet, "method").starts_with("do not correct the angle away"));
    assert!(sheet.notices.iter().any(|n| n.contains("may be right")));
}

#[test]
fn a_cut_through_the_wall_is_stopped() {
    let sheet = sheet(&[("wall", ".003 in")]);
    assert!(text(&sheet, "metal_left").starts_with("-0.0001"));
    assert!(sheet.notices.iter().any(|n| n.contains("Do not cut")));
}

/// Each figure belongs to the gentler method; the next hair belongs to the harsher one.
#[test]
fn the_ladder_changes_at_its_figures() {
    for (at, gentle, harsh) in [
        (0.0005, "spot with blue", "lap with its own lap"),
        (0.002, "lap with its own lap", "machine first if"),
        (0.006, "machine first if", "machine, then lap"),
    ] {
        assert!(method(Length::inches(at)).starts_with(gentle), "{at}");
        assert!(
            method(Length::inches(at + 0.000_001)).starts_with(harsh),
            "{at}"
        );
    }
}

/// The published rule of thumb for a cone: metal `t` off, square to the face, drops the disc
/// t / sin(half angle); 45 deg 1.414 t, 30 deg 2.000 t, 60 deg 1.155 t, 15 deg 3.864 t. Worked from
/// the geometry, to the four figures given; graded as arithmetic, not as a publication.
#[test]
fn the_sink_is_the_wedge_over_the_sine() {
    for (half, ratio) in [(45.0, 1.414), (30.0, 2.000), (60.0, 1.155), (15.0, 3.864)] {
        let cost = correct(
            Angle::degrees(half - 1.0),
            Angle::degrees(half),
            Length::inches(0.125),
            Length::inches(2.0),
            None,
        );
        let found = cost.axial_sink.to_m() / cost.wedge.to_m();
        assert!((found - ratio).abs() <= 0.0005, "{half}: {found}");
    }
}

proptest! {
    /// More error never costs less metal; a longer land never costs less; twice the size costs twice.
    #[test]
    fn more_error_costs_more_metal(
        wanted in 10.0f64..80.0, swing in -25.0f64..25.0, more in 0.01f64..5.0,
        land in 0.01f64..1.0, port in 0.5f64..10.0, scale in 0.1f64..10.0,
    ) {
        let further = swing + more * swing.signum();
        prop_assume!((10.0..=80.0).contains(&(wanted + further)));
        let at = |swing: f64, land: f64, port: f64| correct(
            Angle::degrees(wanted + swing), Angle::degrees(wanted),
            Length::inches(land), Length::inches(port), Some(Length::inches(1.0)),
        );
        let here = at(swing, land, port);
        prop_assert!(at(further, land, port).wedge.to_m() > here.wedge.to_m());
        prop_assert!(at(swing, land * 1.1, port).axial_sink.to_m() >= here.axial_sink.to_m());
        let scaled = at(swing, land * scale, port * scale);
        prop_assert!((scaled.wedge.to_m() - here.wedge.to_m() * scale).abs() < 1e-12);
        prop_assert!((scaled.outside.to_m() - here.outside.to_m() * scale).abs() < 1e-12);
        prop_assert!(here.metal_left.unwrap().to_m() <= Length::inches(1.0).to_m());
        // A sink is never less than its wedge, and both vanish only with the error.
        prop_assert!(here.axial_sink.to_m() >= here.wedge.to_m());
        let none = at(0.0, land, port);
        prop_assert!(none.wedge.to_m().abs() < 1e-15);
        prop_assert!((none.new_land.to_m() - Length::inches(land).to_m()).abs() < 1e-12);
    }
}
