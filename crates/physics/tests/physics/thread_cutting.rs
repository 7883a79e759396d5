//! `thread.cutting` and `thread.mate`: what must hold whatever the thread.

use crate::typed;
use measure::{House, Length};
use physics::law::thread_cutting::{count, schedule};
use physics::law::thread_mate::lost;
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

fn number(sheet: &Sheet, name: &str) -> f64 {
    said(sheet, name).parse().unwrap()
}

const BONNET: [(&str, &str); 6] = [
    ("form", "acme"),
    ("tpi", "5"),
    ("diameter", "1 in"),
    ("material", "bronze"),
    ("starts", "2"),
    ("side", "internal"),
];

/// The helix that a tool must clear is that of the bore, in a screw that of the root: on a coarse
/// double thread it is degrees steeper than at the crest.
#[test]
fn the_leading_side_clears_the_helix_at_the_smaller_diameter() {
    let bonnet = sheet("thread.cutting", &BONNET);
    let (minor, leading) = (
        number(&bonnet, "lead_angle_minor"),
        number(&bonnet, "leading_clearance"),
    );
    // tan l = 2 x .2 / (pi x .8): the bore of 1-5 Acme is .8000.
    assert!((minor - 9.0).abs() < 0.1, "{minor}");
    assert!(leading >= minor + 2.4, "{leading}");
    assert!(
        bonnet
            .notices
            .iter()
            .any(|n| n.contains("steepest at the bore"))
    );
    assert!(bonnet.notices.iter().any(|n| n.contains("no top rake")));
    assert!(
        bonnet
            .notices
            .iter()
            .any(|n| n.contains("leans under the tool"))
    );
}

/// No run-out or no time told: no limit of speed. Twice the lead halves it.
#[test]
fn the_limit_of_speed_is_a_persons() {
    let bare = sheet("thread.cutting", &BONNET);
    assert_eq!(
        said(&bare, "rpm_limit"),
        "cannot tell: needs reaction_time, runout"
    );
    let mut told = BONNET.to_vec();
    told.extend([("runout", "1/4 in"), ("reaction_time", "0.5")]);
    let double = number(&sheet("thread.cutting", &told), "rpm_limit");
    told[4].1 = "1";
    let single = number(&sheet("thread.cutting", &told), "rpm_limit");
    assert_eq!((double, single), (75.0, 150.0));
}

#[test]
fn the_compound_angle_is_assumed_aloud_and_a_square_thread_is_plunged() {
    let mut pairs = BONNET.to_vec();
    let acme = sheet("thread.cutting", &pairs);
    assert!(acme.assumed().any(|input| input.name == "infeed_angle"));
    assert!(number(&acme, "infeed_travel") > number(&acme, "depth"));
    pairs[0].1 = "square";
    let square = sheet("thread.cutting", &pairs);
    assert_eq!(said(&square, "infeed_travel"), said(&square, "depth"));
}

/// The makers' formula (Sandvik p. 114, Widia 2017 p. 685) worked by hand to three places for 2.00 mm
/// in 14 passes: arithmetic only, no maker prints this example.
#[test]
fn the_passes_follow_the_makers_formula() {
    let by_hand = [
        0.304, 0.555, 0.785, 0.961, 1.109, 1.240, 1.359, 1.468, 1.569, 1.664, 1.754, 1.840, 1.922,
        2.000,
    ];
    let worked = schedule(2.0, 14);
    assert_eq!(worked.len(), by_hand.len());
    for (ours, theirs) in worked.iter().zip(by_hand) {
        assert!((ours - theirs).abs() <= 0.001, "{ours} {theirs}");
    }
}

proptest! {
    /// Passes go deeper each time and end at the depth; no cut but the second is heavier than the one
    /// before; coarser threads and harder metals never take fewer.
    #[test]
    fn passes_go_on_to_the_depth(depth in 0.01f64..0.5, passes in 2u32..60, tpi in 2.0f64..40.0) {
        let all = schedule(depth, passes);
        prop_assert_eq!(all.len(), passes as usize);
        prop_assert!(all.windows(2).all(|pair| pair[0] < pair[1]));
        prop_assert!((all[all.len() - 1] - depth).abs() < 1e-12);
        let cuts: Vec<f64> = std::iter::once(all[0]).chain(all.windows(2).map(|p| p[1] - p[0])).collect();
        for pair in cuts[1..].windows(2).skip(1) {
            prop_assert!(pair[1] <= pair[0] + 1e-12);
        }
        for form in ["unified", "acme", "stub-acme"] {
            prop_assert!(count(tpi * 0.5, form, "steel") >= count(tpi, form, "steel"));
            prop_assert!(count(tpi, form, "stainless") >= count(tpi, form, "steel"));
            prop_assert!(count(tpi, form, "bronze") <= count(tpi, form, "steel"));
        }
    }

    /// A new nut is never smaller than the old screw by any reading, a new screw never larger; hot, the
    /// clearance wanted is still there, and what is made for heat is never tighter cold.
    #[test]
    fn a_mate_always_clears(
        pitch_diameter in 0.5f64..3.0, clearance in 0.001f64..0.05, tolerance in 0.001f64..0.02,
        external in any::<bool>(), bronze_new in any::<bool>(), rise in 0.0f64..600.0,
    ) {
        let size = |value: f64| format!("{value:.4} in");
        let (old, gap, room) = (size(pitch_diameter), size(clearance), size(tolerance));
        let rise = format!("{rise:.0} F");
        let pairs = [
            ("form", "acme"),
            ("tpi", "8"),
            ("side", if external { "external" } else { "internal" }),
            ("pitch_diameter", old.as_str()),
            ("clearance", gap.as_str()),
            ("tolerance", room.as_str()),
            ("materials", if bronze_new { "bronze,steel" } else { "steel,bronze" }),
            ("rise", rise.as_str()),
        ];
        let sheet = sheet("thread.mate", &pairs);
        let value = |name: &str| match sheet.result(name) {
            Some(Shown::Quantity { value, .. }) => *value,
            other => panic!("{name}: {other:?}"),
        };
        let old: f64 = old.trim_end_matches(" in").parse().unwrap();
        let gap: f64 = gap.trim_end_matches(" in").parse().unwrap();
        prop_assert!(value("pitch_min") <= value("pitch_max"));
        prop_assert!(value("clearance_when_hot") >= gap - 1e-9);
        if external {
            prop_assert!(value("pitch_min") >= old + gap - 1e-9);
            prop_assert!(value("pitch_min_hot") >= value("pitch_min") - 1e-9);
        } else {
            prop_assert!(value("pitch_max") <= old - gap + 1e-9);
            prop_assert!(value("pitch_max_hot") <= value("pitch_max") + 1e-9);
        }
    }

    /// Metals exchanged, the loss turns its sign; at no rise there is none.
    #[test]
    fn what_one_metal_loses_the_other_gains(d in 0.1f64..5.0, a in 0.0005f64..0.0012, b in 0.0005f64..0.0012, rise in 0.0f64..800.0) {
        let at = |inner, outer, rise| lost(Length::inches(d), inner, outer, rise).to_inches();
        prop_assert!((at(a, b, rise) + at(b, a, rise)).abs() < 1e-12);
        prop_assert!(at(a, b, 0.0).abs() < 1e-15);
    }
}

/// Without the two metals the sheet speaks of cold only.
#[test]
fn cold_only_is_said() {
    let pairs = [
        ("form", "acme"),
        ("tpi", "5"),
        ("side", "external"),
        ("pitch_diameter", "0.885 in"),
        ("clearance", "0.010 in"),
        ("tolerance", "0.005 in"),
        ("major", "0.940 in"),
    ];
    let cold = sheet("thread.mate", &pairs);
    assert_eq!(said(&cold, "pitch_min"), "0.8950");
    assert_eq!(
        said(&cold, "pitch_min_hot"),
        "cannot tell: needs materials, rise"
    );
    assert!(cold.notices.iter().any(|n| n.starts_with("Cold only")));
    assert!(cold.notices.iter().any(|n| n.contains("Identify it first")));
}
