//! `thread.bore` and `thread.strength`: what must be true of them whatever the numbers.

use crate::{answer, figure, typed};
use measure::{House, Length, Stress};
use physics::answer::Answer;
use physics::law::thread_bore::{bore, full};
use physics::law::thread_strength::{Sizes, strength};
use physics::{Shown, run};
use proptest::prelude::*;

fn text(id: &str, pairs: &[(&str, &str)], name: &str) -> String {
    match run(id, &typed(pairs), House::Inch).unwrap().result(name) {
        Some(Shown::Text(text)) => text.clone(),
        Some(Shown::Quantity { shown, .. }) => shown.clone(),
        other => panic!("{other:?}"),
    }
}

/// One size and pitch, six forms, and the same percentage: no two of V, National, Whitworth and the
/// 29 degree forms share a bore.
#[test]
fn every_form_has_its_own_bore() {
    let of = |form: &str| {
        let pairs = [
            ("form", form),
            ("diameter", "1 in"),
            ("tpi", "8"),
            ("percent", "75%"),
        ];
        text("thread.bore", &pairs, "bore")
    };
    let bores = ["unified", "sharp-v", "whitworth", "acme", "stub-acme"].map(of);
    for (at, one) in bores.iter().enumerate() {
        assert!(!bores[..at].contains(one), "{bores:?}");
    }
    assert_eq!(of("acme"), of("square"));
}

/// 75, 75% and 3/4 are one percentage; 7.5 and 150 are none.
#[test]
fn a_percentage_may_be_written_three_ways() {
    let with = |percent: &'static str| {
        typed(&[
            ("form", "unified"),
            ("diameter", "1 in"),
            ("tpi", "8"),
            ("percent", percent),
        ])
    };
    let bore = |percent| {
        let sheet = run("thread.bore", &with(percent), House::Inch).unwrap();
        sheet.result("bore").cloned()
    };
    assert_eq!(bore("75"), bore("75%"));
    assert_eq!(bore("75"), bore("3/4"));
    for percent in ["7.5", "150", "0.2"] {
        let said = run("thread.bore", &with(percent), House::Inch)
            .unwrap_err()
            .to_string();
        assert!(said.contains("30 to 100"), "{said}");
    }
}

/// A screw in soft metal strips the metal; given length enough it breaks first.
#[test]
fn the_weaker_member_is_named() {
    let of = |length: &str, nut: &str| {
        let pairs = [
            ("form", "unified"),
            ("diameter", "1 in"),
            ("tpi", "8"),
            ("engagement", length),
            ("strength_external", "60000 psi"),
            ("strength_internal", nut),
        ];
        text("thread.strength", &pairs, "weakest")
    };
    assert!(of("1/2 in", "30000 psi").starts_with("the internal thread strips"));
    assert!(of("1/2 in", "60000 psi").starts_with("the external thread strips"));
    assert!(of("2 in", "30000 psi").starts_with("the screw breaks"));
}

/// What breaks and what strips is the area told times the strength given, the shear at half of it; and each of what the sheet
/// must say is said where it holds and not elsewhere.
#[test]
fn loads_are_areas_times_strengths() {
    let work = |form: &'static str, engaged: &'static str, screw: &'static str| {
        let pairs = [
            ("form", form),
            ("diameter", "1 in"),
            ("tpi", if form == "acme" { "5" } else { "8" }),
            ("engagement", engaged),
            ("strength_external", screw),
            ("strength_internal", "36000 psi"),
        ];
        answer("thread.strength", &pairs)
    };
    let (screw, nut) = (
        Stress::psi(60e3).to_pascals(),
        Stress::psi(36e3).to_pascals(),
    );
    for form in ["unified", "whitworth", "acme"] {
        let found = work(form, "3/4 in", "60000 psi");
        for (load, area, stress) in [
            ("load_breaks", "stress_area", screw),
            ("load_strips_external", "shear_external", 0.5 * screw),
            ("load_strips_internal", "shear_internal", 0.5 * nut),
        ] {
            let expected = figure(&found, area) * stress;
            assert!(
                (figure(&found, load) / expected - 1.0).abs() < 1e-12,
                "{form} {load}"
            );
        }
        let notices = |answer: &Answer| answer.notices.join("\n");
        assert!(notices(&found).contains("These loads break the joint"));
        assert_eq!(
            notices(&found).contains("rest on memory"),
            form == "whitworth"
        );
        assert!(notices(&work(form, "1/4 in", "60000 psi")).contains("Engaged less than full"));
        assert!(!notices(&work(form, "4 in", "60000 psi")).contains("Engaged less than full"));
    }
    // FED-STD-H28/2B: over 100,000 psi the least pitch diameter tells; at it the nominal one still does.
    assert_eq!(work("unified", "1 in", "100000 psi").branch, "unified");
    assert_eq!(
        work("unified", "1 in", "100001 psi").branch,
        "unified-strong"
    );
}

proptest! {
    /// More thread is a smaller bore, never under the full one.
    #[test]
    fn more_thread_is_a_smaller_bore(d in 0.25f64..6.0, tpi in 4.0f64..40.0, share in 0.3f64..0.99) {
        for form in ["unified", "sharp-v", "whitworth", "acme", "stub-acme", "square"] {
            let (whole, _) = full(form).unwrap();
            let at = |share: f64| bore(Length::inches(d), tpi, share, whole).to_m();
            prop_assert!(at(share) > at(share + 0.01));
            prop_assert!(at(share) >= at(1.0));
        }
    }

    /// At the full engagement neither thread strips before the screw breaks; just short of it one does.
    #[test]
    fn full_engagement_is_where_the_screw_breaks_first(
        d in 0.25f64..3.0, tpi in 4.0f64..20.0, screw in 20e3f64..100e3, nut in 10e3f64..100e3,
    ) {
        let pitch = 1.0 / tpi;
        prop_assume!(pitch < d / 4.0);
        let sizes = Sizes {
            start: d,
            off: 0.9743,
            bore: d - 1.0 * pitch,
            screw_pitch: d - 0.66 * pitch,
            screw_major: d - 0.05 * pitch,
            nut_pitch: d - 0.62 * pitch,
            flank: 0.577_35,
        };
        let (screw, nut) = (Stress::psi(screw), Stress::psi(nut));
        let at = |inches: f64| strength(&sizes, tpi, Length::inches(inches), screw, nut);
        let full = at(1.0).full_engagement.to_inches();
        let whole = at(full);
        let holds = whole.breaks.to_lbf() * (1.0 - 1e-9);
        prop_assert!(whole.strips_external.to_lbf() >= holds);
        prop_assert!(whole.strips_internal.to_lbf() >= holds);
        let short = at(full * 0.99);
        let weakest = short.strips_external.to_lbf().min(short.strips_internal.to_lbf());
        prop_assert!(weakest < short.breaks.to_lbf());
        // The full engagement does not depend on the length that was asked about.
        prop_assert!((short.full_engagement.to_inches() - full).abs() < 1e-9);
    }
}
