//! `thread.wires` and `screw.torque`: there and back, and what must hold whatever the numbers.

use crate::typed;
use measure::{Angle, Force, House, Length};
use physics::law::screw_torque::Screw;
use physics::law::thread_wires::Laid;
use physics::{Sheet, Shown, run};
use proptest::prelude::*;

fn sheet(id: &str, pairs: &[(&str, &str)]) -> Sheet {
    run(id, &typed(pairs), House::Inch).unwrap()
}

fn said(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Text(text)) => text.clone(),
        Some(Shown::Quantity { shown, .. }) => shown.clone(),
        other => panic!("{other:?}"),
    }
}

const STEM: [(&str, &str); 4] = [
    ("form", "29"),
    ("tpi", "5"),
    ("wire", "0.1033 in"),
    ("starts", "1"),
];

fn stem(extra: &[(&'static str, &'static str)]) -> Sheet {
    let mut pairs = STEM.to_vec();
    pairs.extend(extra);
    sheet("thread.wires", &pairs)
}

/// Without a pitch diameter or a measurement the sheet gives the wire and says what it needs.
#[test]
fn nothing_measured_is_nothing_told() {
    let bare = stem(&[]);
    assert_eq!(said(&bare, "best_wire"), "0.1033");
    for name in ["pitch_diameter", "over_wires", "lead_angle"] {
        assert!(
            said(&bare, name).starts_with("cannot tell: needs pitch_diameter"),
            "{name}"
        );
    }
    let half = stem(&[("over_one_wire", "1.011 in")]);
    assert_eq!(said(&half, "pitch_diameter"), "cannot tell: needs major");
}

#[test]
fn two_measurements_at_once_are_refused() {
    let mut pairs = STEM.to_vec();
    pairs.extend([("over_wires", "1.022 in"), ("pitch_diameter", "0.892 in")]);
    let refused = run("thread.wires", &typed(&pairs), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(
        refused.contains("pitch_diameter and over_wires together"),
        "{refused}"
    );
}

/// Three wires, one wire and the thread micrometer come to one pitch diameter.
#[test]
fn every_way_of_measuring_comes_to_one_pitch_diameter() {
    let wanted = stem(&[("pitch_diameter", "0.8920 in"), ("major", "0.9960 in")]);
    assert_eq!(said(&wanted, "over_wires"), "1.0222");
    assert_eq!(said(&wanted, "over_one_wire"), "1.0091");
    let back = stem(&[("over_one_wire", "1.00909 in"), ("major", "0.9960 in")]);
    assert_eq!(said(&back, "pitch_diameter"), "0.8920");
    let read = stem(&[("micrometer", "0.8920 in")]);
    assert_eq!(said(&read, "pitch_diameter"), "0.8920");
    assert!(read.notices.iter().any(|n| n.contains("anvils")));
    assert!(
        back.to_text().contains("found: by trial"),
        "{}",
        back.to_text()
    );
}

/// The wires of 60 degrees span 0.56 to 0.90 of the pitch (neme-s.org, 3WIRE page); outside that the
/// sheet speaks, at the best wire it does not.
#[test]
fn wires_that_do_not_fit_are_spoken_of() {
    let of = |wire: &str| {
        let pairs = [
            ("form", "60"),
            ("tpi", "10"),
            ("starts", "1"),
            ("wire", wire),
            ("pitch_diameter", "0.6850 in"),
        ];
        sheet("thread.wires", &pairs).notices.join(" ")
    };
    assert!(of("0.048 in").contains("do not stand above"));
    assert!(of("0.125 in").contains("beyond their straight part"));
    assert!(!of("0.0577 in").contains("wires"));
    assert!(of("0.070 in").contains("Not the best size"));
}

/// Over 5 degrees, and for more starts than one, the sheet says how far off it may be.
#[test]
fn a_steep_thread_is_warned_of() {
    let steep = |starts: &str, at: &str| {
        let pairs = [
            ("form", "29"),
            ("tpi", "5"),
            ("starts", starts),
            ("wire", "0.1033 in"),
            ("pitch_diameter", at),
        ];
        sheet("thread.wires", &pairs).notices.join(" ")
    };
    assert!(steep("2", "0.8920 in").contains("More than one start"));
    assert!(steep("1", "0.7000 in").contains("Over 5 degrees"));
    assert!(!steep("1", "0.8920 in").contains("Over 5 degrees"));
}

/// A collar half told leaves the torque untold; one not named is left out aloud.
#[test]
fn a_collar_is_told_whole_or_not_at_all() {
    let screw = [
        ("load", "1000 lb"),
        ("pitch_diameter", "1 in"),
        ("lead", "0.2 in"),
        ("half_angle", "14.5 deg"),
        ("friction", "0.15"),
    ];
    let bare = sheet("screw.torque", &screw);
    assert_eq!(bare.assumed().count(), 2);
    let mut half = screw.to_vec();
    half.push(("collar_friction", "0.1"));
    let half = sheet("screw.torque", &half);
    assert_eq!(
        said(&half, "torque_raise"),
        "cannot tell: needs collar_diameter"
    );
    assert!(said(&half, "self_locking").starts_with("yes"));
}

proptest! {
    /// Out over wires and back gives the pitch diameter; larger wires stand higher; a start more rides higher.
    #[test]
    fn wires_there_and_back(
        half in prop::sample::select(vec![14.5f64, 27.5, 30.0]), tpi in 3.0f64..40.0,
        turns in 3.0f64..40.0, share in 0.9f64..1.3, starts in 1u32..4,
    ) {
        let pitch = Length::inches(1.0 / tpi);
        let at = Length::inches(turns / tpi);
        let mut laid = Laid { flank: Angle::degrees(half), pitch, starts: f64::from(starts), wire: pitch };
        laid.wire = Length::m(laid.best_wire().to_m() * share);
        prop_assume!(laid.lead_angle(at).to_degrees() < 20.0);
        let over = laid.over_wires(at);
        let back = laid.pitch_diameter(over).unwrap();
        prop_assert!((back.to_m() - at.to_m()).abs() < 1e-12);
        let larger = Laid { wire: Length::m(laid.wire.to_m() * 1.01), ..laid };
        prop_assert!(larger.over_wires(at).to_m() > over.to_m());
        let more = Laid { starts: laid.starts + 1.0, ..laid };
        prop_assert!(more.correction(at).to_m() > laid.correction(at).to_m());
    }

    /// A screw that holds is never half efficient; the friction that just holds lowers at no torque;
    /// more friction is never less torque.
    #[test]
    fn what_holds_is_not_efficient(
        d in 0.3f64..6.0, slope in 0.01f64..0.5, half in 0.0f64..30.0, friction in 0.02f64..0.4,
    ) {
        let screw = Screw {
            load: Force::lbf(1000.0),
            pitch_diameter: Length::inches(d),
            lead: Length::inches(slope * std::f64::consts::PI * d),
            half_angle: Angle::degrees(half),
            friction,
        };
        let raise = screw.raise().unwrap();
        let work = 1000.0 * screw.lead.to_inches() / (2.0 * std::f64::consts::PI * raise.to_lbf_in());
        if friction >= screw.friction_to_hold() {
            prop_assert!(work <= 0.5 + 1e-12);
            prop_assert!(screw.lower().to_lbf_in() >= -1e-9);
        } else {
            prop_assert!(screw.lower().to_lbf_in() < 0.0);
        }
        let just = Screw { friction: screw.friction_to_hold(), ..screw };
        prop_assert!(just.lower().to_lbf_in().abs() < 1e-9);
        let rougher = Screw { friction: friction + 0.01, ..screw };
        if let Some(more) = rougher.raise() {
            prop_assert!(more.to_lbf_in() > raise.to_lbf_in());
        }
    }
}
