//! Sheets of the yearly work that are not of the running gear: blowing down, rolled tubes, drawn tapers, white metal, joints.

use crate::{answer, figure, typed};
use measure::{House, Length, Stress};
use physics::law::boiler_tube_rolling::{thinning, touches_at};
use physics::law::cast_babbitt::between;
use physics::law::fit_taper_draw::{draw, interference};
use physics::law::joint_bolts::Seat;
use physics::law::steam_blowdown::{of_feed, of_steam};
use physics::{Shown, run};
use proptest::prelude::*;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

fn said(sheet: &str, pairs: &[(&str, &str)], result: &str) -> String {
    match run(sheet, &typed(pairs), House::Inch)
        .unwrap()
        .result(result)
    {
        Some(Shown::Text(text)) => text.clone(),
        other => panic!("{other:?}"),
    }
}

proptest! {
    /// What is dissolved comes in with the feed and goes out with the blowdown, by either share.
    #[test]
    fn nothing_dissolved_is_lost_or_made(feed in 1.0..900.0_f64, more in 1.0..9000.0_f64, steam in 1.0..50_000.0_f64) {
        let limit = feed + more;
        let blown = steam * of_steam(feed, limit);
        let fed = steam + blown;
        prop_assert!(near(fed * feed, blown * limit));
        prop_assert!(near(fed * of_feed(feed, limit), blown));
        prop_assert!(of_steam(feed, limit) > of_feed(feed, limit));
        prop_assert!(of_steam(feed, limit + 1.0) < of_steam(feed, limit));
    }

    /// Draw and interference are each other's way back, and a steeper taper is drawn less.
    #[test]
    fn a_draw_and_its_interference_come_back(taper in 0.01..6.0_f64, i in 0.0001..0.1_f64) {
        let wanted = Length::inches(i);
        let drawn = draw(taper, wanted);
        prop_assert!(near(interference(taper, drawn).to_m(), wanted.to_m()));
        prop_assert!(draw(taper * 1.1, wanted).to_m() < drawn.to_m());
    }

    /// A tube rolled just to its hole has lost nothing; rolled further it loses more.
    #[test]
    fn a_tube_thins_only_beyond_its_hole(outside in 1.0..6.0_f64, wall in 0.05..0.2_f64, play in 0.0..0.06_f64) {
        let inches = Length::inches;
        let (hole, outer, inner) = (inches(outside + play), inches(outside), inches(outside - 2.0 * wall));
        let touches = touches_at(hole, outer, inner);
        let at = |more: f64| thinning(hole, outer, inner, inches(touches.to_inches() + more));
        prop_assert!(at(0.0).abs() < 1e-9);
        prop_assert!(near(at(0.2 * wall), 0.1));
        prop_assert!(at(0.01) < at(0.02));
    }

    /// A lining in two steps weighs as much as in one.
    #[test]
    fn white_metal_adds_up(pin in 1.0..20.0_f64, a in 0.01..1.0_f64, b in 0.01..1.0_f64, long in 0.5..30.0_f64) {
        let inches = Length::inches;
        let of = |outside: f64, inside: f64| between(inches(outside), inches(inside), inches(long), 0.264).to_lb();
        prop_assert!((of(pin + a + b, pin) - of(pin + a + b, pin + a) - of(pin + a, pin)).abs() < 1e-6);
    }

    /// Wider contact and more pressure never ask less of the bolts; the effective width is never more than half the contact,
    /// and the rule has no step at a quarter inch.
    #[test]
    fn a_wider_gasket_never_asks_less(outside in 3.0..60.0_f64, wide in 0.05..1.2_f64, psi in 10.0..500.0_f64) {
        let inches = Length::inches;
        let of = |width: f64| Seat::flat(inches(outside), inches(outside - 2.0 * width));
        let (seat, wider) = (of(wide), of(wide + 0.01));
        prop_assert!(seat.width.to_inches() <= wide / 2.0 + 1e-12);
        prop_assert!(wider.width.to_inches() >= seat.width.to_inches());
        let pressure = Stress::psi(psi);
        prop_assert!(seat.operating(Stress::psi(psi + 1.0), 3.0).to_lbf() > seat.operating(pressure, 3.0).to_lbf());
        prop_assert!(near(seat.operating(pressure, 0.0).to_lbf() / psi, (seat.diameter.to_inches() / 2.0) * (seat.diameter.to_inches() / 2.0) * std::f64::consts::PI));
        let (under, over) = (of(0.5 - 1e-9), of(0.5 + 1e-9));
        prop_assert!((under.width.to_inches() - over.width.to_inches()).abs() < 1e-8);
        prop_assert!((of(0.5).width.to_inches() - 0.25).abs() < 1e-12);
    }
}

/// The joint's turning force is that of the sheet on screws for the same load, thread and face.
#[test]
fn a_joint_and_a_screw_turn_alike() {
    let pairs = [
        ("pressure", "200 psig"),
        ("gasket_outside", "24 in"),
        ("gasket_inside", "22 in"),
        ("gasket", "flat-copper"),
        ("bolts", "24"),
        ("pitch_diameter", "0.8028 in"),
        ("lead", "1/9 in"),
        ("half_angle", "30 deg"),
        ("friction", "0.15"),
        ("nut_diameter", "1.2 in"),
        ("nut_friction", "0.12"),
    ];
    let joint = answer("joint.bolts", &pairs);
    let each = format!("{} N", figure(&joint, "each"));
    let screw = [
        ("load", each.as_str()),
        ("pitch_diameter", "0.8028 in"),
        ("lead", "1/9 in"),
        ("half_angle", "30 deg"),
        ("friction", "0.15"),
        ("collar_diameter", "1.2 in"),
        ("collar_friction", "0.12"),
    ];
    let screw = answer("screw.torque", &screw);
    assert!(near(
        figure(&joint, "torque"),
        figure(&screw, "torque_raise")
    ));
}

/// What nobody said stays open, and two answers to one question are refused.
#[test]
fn a_gasket_is_told_once_or_the_loads_stay_open() {
    let ring = [
        ("pressure", "200 psig"),
        ("gasket_outside", "24 in"),
        ("gasket_inside", "22 in"),
        ("bolts", "24"),
    ];
    assert_eq!(
        said("joint.bolts", &ring, "load"),
        "cannot tell: needs gasket, or gasket_m and gasket_y"
    );
    let both: Vec<_> = ring
        .into_iter()
        .chain([("gasket", "flat-iron"), ("gasket_m", "3")])
        .collect();
    let refused = run("joint.bolts", &typed(&both), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(refused.contains("one of them"), "{refused}");
}

/// The limit on dissolved solids is asked for, never taken: without it no share is told.
#[test]
fn blowing_down_waits_for_its_limit() {
    let pairs = [("feed", "120"), ("now", "2600"), ("steam", "6000 lb/h")];
    for result in ["of_feed", "of_steam", "blowdown", "complies"] {
        assert_eq!(
            said("steam.blowdown", &pairs, result),
            "cannot tell: needs limit",
            "{result}"
        );
    }
    let salty = [("feed", "3000"), ("limit", "3000")];
    let refused = run("steam.blowdown", &typed(&salty), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(refused.contains("no blowing down is enough"), "{refused}");
}

/// A mandrel as large as the finished bore leaves nothing to bore, and the sheet says so.
#[test]
fn a_mandrel_too_large_is_said() {
    let pairs = [
        ("bore", "9 in"),
        ("pin", "8 in"),
        ("length", "10 in"),
        ("alloy", "astm-2"),
        ("mandrel", "8.02 in"),
        ("running_clearance", "0.010 in"),
    ];
    let notices = run("cast.babbitt", &typed(&pairs), House::Inch)
        .unwrap()
        .notices;
    assert!(
        notices
            .iter()
            .any(|told| told.contains("nothing is left to bore")),
        "{notices:?}"
    );
}
