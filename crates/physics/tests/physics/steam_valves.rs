//! Safety valves, engines and tests of evaporation: what must be true of their sheets whatever the numbers.

use crate::typed;
use measure::{AbsolutePressure, Flow, Heat, House, TemperatureRise};
use physics::law::steam_calorimeter::moisture;
use physics::law::steam_evaporation::factor;
use physics::law::steam_valve_setting::{Verdict, verdict};
use physics::law::steam_valve_stamp::coefficient_area;
use physics::{Sheet, Shown, run};
use proptest::prelude::*;

fn sheet(id: &str, pairs: &[(&str, &str)]) -> Sheet {
    run(id, &typed(pairs), House::Inch).unwrap()
}

fn said(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

fn shown(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Quantity { shown, .. }) => shown.clone(),
        Some(Shown::Text(text)) => text.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

const SETTING: [(&str, &str); 4] = [
    ("mawp", "200 psig"),
    ("set_pressures", "200 psig, 203 psig, 206 psig"),
    ("reseats", "196 psig, 198 psig, 199.5 psig"),
    ("set_above", "6 psi"),
];

fn without(name: &str) -> Vec<(&'static str, &'static str)> {
    SETTING
        .into_iter()
        .filter(|(known, _)| *known != name)
        .collect()
}

#[test]
fn a_setting_is_compared_valve_by_valve() {
    let whole = sheet("steam.valve_setting", &SETTING);
    assert_eq!(shown(&whole, "complies"), "complies");
    assert_eq!(shown(&whole, "blowdown"), "6.5");
    let Some(Shown::Table { rows, .. }) = whole.result("valves") else {
        panic!("no table");
    };
    assert_eq!(rows[2], ["3", "206.0", "6.0", "6.5", "complies"]);
}

/// Taking a fact away turns an answer into *cannot tell*; it never makes one kinder.
#[test]
fn what_a_setting_lacks_is_named() {
    let lawless = sheet("steam.valve_setting", &without("set_above"));
    for name in ["complies", "highest_allowed"] {
        assert_eq!(shown(&lawless, name), "cannot tell: needs set_above");
    }
    let Some(Shown::Table { rows, .. }) = lawless.result("valves") else {
        panic!("no table");
    };
    assert_eq!(rows[0][4], "complies");
    assert_eq!(rows[1][4], "cannot tell: needs set_above");
    let unseen = sheet("steam.valve_setting", &without("reseats"));
    assert_eq!(shown(&unseen, "blowdown"), "cannot tell: needs reseats");
    assert_eq!(shown(&unseen, "complies"), "complies");
    // No valve at or under the allowed pressure fails under any rule.
    let mut high = without("set_above");
    high[1].1 = "201 psig, 203 psig, 206 psig";
    assert!(shown(&sheet("steam.valve_setting", &high), "complies").starts_with("fails: no valve"));
    assert!(said("steam.valve_setting", &without("mawp")).contains("needs mawp"));
}

#[test]
fn valves_that_cannot_be_are_refused() {
    let mut pairs = SETTING;
    pairs[2].1 = "196 psig, 198 psig";
    assert!(said("steam.valve_setting", &pairs).contains("3 of set_pressures and 2 of reseats"));
    pairs[2].1 = "196 psig, 203 psig, 199 psig";
    assert!(
        said("steam.valve_setting", &pairs).contains("opens at 203.0 psi cannot close at 203.0")
    );
}

const LADDER: [(&str, &str); 6] = [
    ("mawp", "200 psig"),
    ("set_pressure", "203 psig, 200 psig"),
    ("capacity", "9000 lb/h, 8000 lb/h"),
    ("evaporation", "16500 lb/h"),
    ("set_above", "6 psi"),
    ("accumulation", "6%"),
];

#[test]
fn the_ladder_is_in_the_order_of_opening() {
    let whole = sheet("steam.safety_valve", &LADDER);
    let Some(Shown::Table { rows, .. }) = whole.result("ladder") else {
        panic!("no table");
    };
    assert_eq!(rows[0], ["2", "200.0", "0.0", "8000 lb/h", "8000 lb/h"]);
    assert_eq!(rows[1], ["1", "203.0", "3.0", "9000 lb/h", "17000 lb/h"]);
    assert_eq!(shown(&whole, "margin"), "500");
    assert_eq!(shown(&whole, "pressure_limit"), "212.0");
    assert!(shown(&whole, "enough").starts_with("complies: the valves pass 17000 lb/h"));
    let fewer: Vec<_> = LADDER.into_iter().take(4).collect();
    let lawless = sheet("steam.safety_valve", &fewer);
    assert_eq!(
        shown(&lawless, "pressure_limit"),
        "cannot tell: needs accumulation"
    );
    assert_eq!(shown(&lawless, "room"), "cannot tell: needs accumulation");
    assert_eq!(
        shown(&lawless, "highest_set"),
        "cannot tell: needs set_above"
    );
    let fewer: Vec<_> = LADDER
        .into_iter()
        .filter(|(name, _)| *name != "evaporation")
        .collect();
    assert!(said("steam.safety_valve", &fewer).contains("needs evaporation"));
}

/// A valve set beyond the pressure the boiler may reach, and a single valve, are each said.
#[test]
fn a_ladder_with_a_rung_missing_is_said() {
    let mut pairs = LADDER;
    pairs[1].1 = "200 psig, 213 psig";
    assert!(
        sheet("steam.safety_valve", &pairs)
            .notices
            .iter()
            .any(|n| n.contains("counts for nothing"))
    );
    pairs[1].1 = "200 psig";
    pairs[2].1 = "17000 lb/h";
    assert!(
        sheet("steam.safety_valve", &pairs)
            .notices
            .iter()
            .any(|n| n.contains("One valve only"))
    );
}

/// What was not said of an engine is assumed aloud, never silently.
#[test]
fn a_rating_says_what_it_takes_for_granted() {
    let pairs = [
        ("pressure", "300 psig"),
        ("bore", "25 in"),
        ("stroke", "32 in"),
        ("driver_diameter", "80 in"),
    ];
    let rated = sheet("steam.tractive_effort", &pairs);
    let assumed: Vec<&str> = rated.assumed().map(|input| input.name).collect();
    assert_eq!(assumed, ["cylinders", "share"]);
    assert_eq!(shown(&rated, "tractive_effort"), "63750");
    assert_eq!(
        shown(&rated, "adhesion"),
        "cannot tell: needs adhesive_weight"
    );
    // Rounded so that a load is never called smaller than it is: 147,262.16 lb.
    assert_eq!(shown(&rated, "piston_thrust"), "147263");
    let slippery = [pairs.as_slice(), &[("adhesive_weight", "240000 lb")]].concat();
    assert!(
        sheet("steam.tractive_effort", &slippery)
            .notices
            .iter()
            .any(|n| n.contains("slips easily"))
    );
}

/// The heats of 12 NYCRR 14-9.4, and that a fuel or a heat is asked for and one only.
#[test]
fn the_most_a_fire_makes_wants_its_fuel() {
    let heats: Vec<f64> = physics::law::steam_fuel::FUELS
        .iter()
        .map(|(_, btu)| *btu)
        .collect();
    assert_eq!(
        heats,
        [
            14500.0, 13700.0, 12500.0, 13500.0, 7700.0, 6200.0, 10000.0, 20000.0, 20700.0, 18500.0
        ]
    );
    let burned = ("burned", "2150 lb/h");
    assert_eq!(
        shown(&sheet("steam.fuel", &[burned]), "evaporation"),
        "cannot tell: needs fuel or heat"
    );
    // 26,015,000 Btu give 17,737.5 lb: rounded against the valves.
    let told = sheet("steam.fuel", &[burned, ("heat", "12100 Btu/lb")]);
    assert_eq!(shown(&told, "evaporation"), "17738");
    assert!(
        said(
            "steam.fuel",
            &[burned, ("heat", "12100 Btu/lb"), ("fuel", "coke")]
        )
        .contains("one of them")
    );
}

#[test]
fn a_reading_above_the_normal_one_is_refused() {
    let pairs = [
        ("reading", "305 F"),
        ("normal", "303 F"),
        ("latent", "845 Btu/lb"),
    ];
    assert!(said("steam.calorimeter", &pairs).contains("no wet steam exceeds"));
}

proptest! {
    /// A higher set pressure, a lower allowed one or a lesser rule never makes a verdict kinder; a rule not told never
    /// makes it kinder than the rule did.
    #[test]
    fn a_verdict_never_grows_kinder(set in 50.0f64..300.0, mawp in 50.0f64..300.0, above in 0.0f64..20.0, more in 0.0f64..10.0) {
        let worse = |v: Verdict| match v { Verdict::Complies => 0, Verdict::CannotTell => 1, Verdict::Fails => 2 };
        let at = worse(verdict(set, mawp, Some(above)));
        prop_assert!(worse(verdict(set + more, mawp, Some(above))) >= at);
        prop_assert!(worse(verdict(set, mawp - more, Some(above))) >= at);
        prop_assert!(worse(verdict(set, mawp, Some((above - more).max(0.0)))) >= at);
        let untold = verdict(set, mawp, None);
        prop_assert!(untold != Verdict::Complies || at == 0);
        prop_assert!(untold != Verdict::Fails);
        // At the limit itself a valve complies.
        prop_assert_eq!(verdict(mawp + above, mawp, Some(above)), Verdict::Complies);
    }

    /// A smaller capacity or a greater evaporation never widens the margin, and the rounding is against the valves.
    #[test]
    fn less_capacity_never_helps(a in 100u32..20000, b in 100u32..20000, made in 100u32..30000, less in 0u32..90) {
        let margin = |a: u32, b: u32, made: u32| {
            let (capacity, made) = (format!("{a} lb/h, {b} lb/h"), format!("{made} lb/h"));
            let pairs = [("mawp", "180 psig"), ("set_pressure", "180 psig, 183 psig"), ("capacity", &capacity), ("evaporation", &made)];
            match sheet("steam.safety_valve", &pairs).result("margin") {
                Some(Shown::Quantity { value, shown, .. }) => (*value, shown.parse::<f64>().unwrap()),
                other => panic!("{other:?}"),
            }
        };
        let (whole, printed) = margin(a, b, made);
        prop_assert!((whole - (f64::from(a) + f64::from(b) - f64::from(made))).abs() < 1e-6);
        prop_assert!(printed <= whole + 1e-6);
        prop_assert!(margin(a - less, b, made).0 <= whole + 1e-6);
        prop_assert!(margin(a, b, made + less).0 <= whole + 1e-6);
    }

    /// Capacity goes in proportion to the absolute pressure; hotter feed is less work; a lower reading is wetter steam.
    #[test]
    fn small_rules_go_the_right_way(flow in 100.0f64..50000.0, p in 20.0f64..600.0, feed in 0.0f64..300.0, more in 0.1f64..50.0, lack in 0.0f64..60.0) {
        let area = |w: f64, p: f64| coefficient_area(Flow::lb_per_h(w), AbsolutePressure::psi(p)).to_sq_in();
        prop_assert!(area(flow + more, p) > area(flow, p) && area(flow, p + more) < area(flow, p));
        let steam = Heat::btu_per_lb(1198.0);
        prop_assert!(factor(steam, Heat::btu_per_lb(feed + more)) < factor(steam, Heat::btu_per_lb(feed)));
        let wet = |lack: f64| moisture(TemperatureRise::f_degrees(lack), Heat::btu_per_lb(845.0));
        prop_assert!(wet(lack + more) > wet(lack));
    }
}
