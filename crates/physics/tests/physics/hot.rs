//! `fit.hot_clearance`: which way the fit goes, and what must be true of it whatever the numbers.

use crate::typed;
use measure::{House, Length, TemperatureRise};
use physics::law::fit_hot_clearance::growth;
use physics::{Shown, run};
use proptest::prelude::*;

fn shown(materials: &str, name: &str) -> (String, Vec<String>) {
    let pairs = [
        ("diameter", "3 in"),
        ("materials", materials),
        ("rise", "310 F"),
    ];
    let sheet = run("fit.hot_clearance", &typed(&pairs), House::Inch).unwrap();
    match sheet.result(name) {
        Some(Shown::Quantity { shown, .. }) => (shown.clone(), sheet.notices),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_fit_that_opens_wants_no_more_and_says_so() {
    let (clearance, notices) = shown("bronze,steel", "needed_clearance");
    assert_eq!(clearance, "0.0000");
    assert!(
        notices
            .iter()
            .any(|n| n.contains("heat opens this fit by 0.0034 in")),
        "{notices:?}"
    );
    let (clearance, notices) = shown("cast-iron,bronze", "needed_clearance");
    assert_eq!(clearance, "0.0039");
    assert!(!notices.iter().any(|n| n.contains("opens")), "{notices:?}");
}

#[test]
fn which_steel_and_which_bronze_is_said() {
    let (_, notices) = shown("steel,bronze", "growth_inner");
    assert!(notices.iter().any(|n| n.contains("soft rolled")));
    assert!(notices.iter().any(|n| n.contains("C92200")));
}

#[test]
fn materials_are_two_known_words() {
    for (text, part) in [
        ("bronze", "expected outer,inner out of cast-iron, steel"),
        ("bronze,steel,brass", "expected outer,inner"),
        ("bronze,tin", "read 'bronze,tin'"),
    ] {
        let pairs = [("diameter", "3 in"), ("materials", text), ("rise", "310 F")];
        let said = run("fit.hot_clearance", &typed(&pairs), House::Inch)
            .unwrap_err()
            .to_string();
        assert!(said.contains(part), "{said}");
    }
}

/// The table's own numbers, worked twice: 310 Fahrenheit degrees are 172.2 Celsius degrees.
#[test]
fn a_rise_in_either_scale_is_one_rise() {
    let at = |rise| {
        growth(Length::inches(3.0), 0.000589, 0.001, rise)
            .needed
            .to_inches()
    };
    let (f, c) = (
        TemperatureRise::f_degrees(310.0),
        TemperatureRise::c_degrees(310.0 / 1.8),
    );
    assert!((at(f) - at(c)).abs() < 1e-12);
}

proptest! {
    /// Twice the diameter or the rise, twice the growth; what one pair needs its reverse does not.
    #[test]
    fn growth_is_in_proportion(
        d in 0.1f64..100.0, outer in 0.0005f64..0.0011, inner in 0.0005f64..0.0011, rise in 1.0f64..250.0,
    ) {
        let at = |d: f64, o: f64, i: f64, t: f64| {
            growth(Length::inches(d), o, i, TemperatureRise::f_degrees(t))
        };
        let one = at(d, outer, inner, rise);
        let near = |a: Length, b: f64| (a.to_inches() - b).abs() < 1e-12 * d.max(1.0);
        prop_assert!(near(at(2.0 * d, outer, inner, rise).outer, 2.0 * one.outer.to_inches()));
        prop_assert!(near(at(d, outer, inner, 2.0 * rise).inner, 2.0 * one.inner.to_inches()));
        let back = at(d, inner, outer, rise).needed.to_inches();
        prop_assert!(one.needed.to_inches() >= 0.0 && back >= 0.0);
        prop_assert!(one.needed.to_inches() == 0.0 || back == 0.0);
        prop_assert!(near(one.inner, one.outer.to_inches() + one.needed.to_inches() - back));
    }
}
