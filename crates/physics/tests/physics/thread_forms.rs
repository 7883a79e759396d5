//! The other thread sheets: square, V, Stub Acme, pipe, plug, metric, staybolt.

use crate::thread_limits::never_foul;
use crate::typed;
use measure::{House, Length};
use physics::law::thread_acme::Class;
use physics::law::thread_metric::metric;
use physics::law::thread_plug::Taper;
use physics::law::thread_staybolt::next_size;
use physics::law::thread_stub_acme::stub;
use physics::tables::acme_allowance;
use physics::thread::metric::grade_6;
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

fn refused(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

const PLUG: [(&str, &str); 4] = [
    ("small_diameter", "1.500 in"),
    ("large_diameter", "1.655 in"),
    ("distance", "1.5 in"),
    ("tpi", "12"),
];

/// A taper is never assumed: it is that of the readings, and a known one is named only as far as the
/// readings can tell it apart.
#[test]
fn a_taper_is_fitted_and_never_assumed() {
    let bare = sheet("thread.plug", &PLUG);
    assert_eq!(said(&bare, "taper_per_foot"), "1.240");
    assert_eq!(
        said(&bare, "known_tapers"),
        "cannot tell: needs diameter_error"
    );
    let with = |error: &'static str| {
        let mut pairs = PLUG.to_vec();
        pairs.push(("diameter_error", error));
        said(&sheet("thread.plug", &pairs), "known_tapers")
    };
    assert!(
        with(".0002 in").starts_with("none of those"),
        "{}",
        with(".0002 in")
    );
    assert!(with(".001 in").starts_with("may be 1 1/4 in per ft"));
    assert!(with(".040 in").starts_with("more than one is possible"));
    let mut turned = PLUG.to_vec();
    turned[0].1 = "1.700 in";
    assert!(refused("thread.plug", &turned).contains("no taper"));
    turned[0].1 = "1.654 in";
    assert!(refused("thread.plug", &turned).contains("is wear"));
}

/// A plug re-tapped to the next size gains exactly the step at each place.
#[test]
fn the_next_sizes_are_of_the_same_cone() {
    let Some(Shown::Table { rows, .. }) = sheet("thread.plug", &PLUG).result("next_sizes").cloned()
    else {
        panic!("no table")
    };
    assert_eq!(rows.len(), 4);
    assert_eq!(rows[0], ["1/32", "1.5313", "1.6863", "0.302", "3.63"]);
}

/// Without a form or a percentage there is no bore; the rest of a stay is told all the same.
#[test]
fn a_stay_without_its_form_has_no_bore() {
    let stay = [
        ("present_diameter", "0.994 in"),
        ("tpi", "12"),
        ("sheet_thicknesses", "3/8 in,1/2 in"),
        ("length", "4 in"),
    ];
    let bare = sheet("thread.staybolt", &stay);
    assert_eq!(said(&bare, "bore"), "cannot tell: needs form, percent");
    assert_eq!(said(&bare, "next_diameter"), "1.0000");
    assert!(said(&bare, "lead_in_step").starts_with("0.500 of a turn"));
    let mut thin = stay.to_vec();
    thin[2].1 = "1/4 in,1/2 in";
    let thin = sheet("thread.staybolt", &thin);
    assert!(
        thin.notices
            .iter()
            .any(|n| n.contains("fewer than four threads"))
    );
    let mut one = stay.to_vec();
    one[2].1 = "3/8 in";
    assert!(refused("thread.staybolt", &one).len() > 30);
}

/// A square nut without a clearance has no bore told; the screw has all its sizes.
#[test]
fn a_square_nut_wants_its_clearance() {
    let bare = sheet("thread.square", &[("diameter", "1 in"), ("tpi", "4")]);
    assert_eq!(
        said(&bare, "internal_minor"),
        "cannot tell: needs clearance"
    );
    assert_eq!(said(&bare, "external_minor"), "0.7500");
    assert_eq!(bare.assumed().count(), 2);
}

#[test]
fn a_metric_pair_that_no_list_has_is_refused() {
    let pairs = [("diameter", "20 mm"), ("pitch", "4"), ("class", "6g")];
    assert!(refused("thread.metric", &pairs).contains("lists for the diameter"));
}

/// NPT and BSP of one name: the half and the three quarters have one pitch, and are two threads.
#[test]
fn pipe_threads_of_one_name_are_two_threads() {
    for size in ["1/2", "3/4"] {
        let npt = sheet("thread.npt", &[("size", size)]);
        let bsp = sheet("thread.bsp", &[("size", size)]);
        assert_eq!(
            said(&npt, "taper_half_angle"),
            said(&bsp, "taper_half_angle")
        );
        assert_ne!(
            said(&npt, "pitch_at_small_end"),
            said(&bsp, "pitch_at_small_end")
        );
    }
}

proptest! {
    #[test]
    fn stub_screw_and_nut_go_together(d in 0.25f64..5.0, tpi in 1u32..16) {
        let tpi = f64::from(tpi);
        prop_assume!(1.0 / tpi <= d / 2.0);
        for class in [Class::C2G, Class::C3G, Class::C4G] {
            let diameter = Length::inches(d);
            let allowance = acme_allowance("test", class.word(), diameter).unwrap().allowance;
            let thread = stub(diameter, tpi, class, allowance, 1.0);
            never_foul(&thread.limits)?;
            prop_assert!(thread.external_minor_min.to_m() < thread.limits.external_minor_max.to_m());
            prop_assert!(thread.internal_major_max.to_m() > thread.limits.internal_major_min.to_m());
            prop_assert!(thread.root_flat.to_m() <= thread.crest_flat.to_m());
        }
    }

    #[test]
    fn metric_screw_and_nut_go_together(d in 6.0f64..80.0, which in 0usize..6, close in any::<bool>()) {
        let pitch = ["1", "1.5", "2", "3", "4", "5.5"][which];
        let diameter = Length::mm(d);
        if let Some(figures) = grade_6("test", diameter, pitch).unwrap() {
            let under = if close { Length::mm(0.0) } else { figures.deviation };
            never_foul(&metric(diameter, &figures, under))?;
        }
    }

    /// The taper fitted to two diameters gives the second from the first, and turns screw it there.
    #[test]
    fn a_taper_goes_back_to_its_readings(small in 0.5f64..4.0, taper in 0.1f64..3.0, distance in 0.25f64..6.0) {
        let grown = taper * distance / 12.0;
        let fitted = Taper::fitted(
            Length::inches(small), Length::inches(small + grown), Length::inches(distance),
        ).unwrap();
        prop_assert!((fitted.per_length * 12.0 - taper).abs() < 1e-9);
        let depth = fitted.depth_for(Length::inches(grown)).to_inches();
        prop_assert!((depth - distance).abs() < 1e-9);
    }

    /// The next size of a stay is larger than the hole, by a thirty-second at most.
    #[test]
    fn the_next_stay_cleans_the_hole(present in 0.5f64..2.5) {
        let next = next_size(Length::inches(present)).to_inches();
        prop_assert!(next > present && next - present <= 1.0 / 32.0 + 1e-9);
        prop_assert!((next * 32.0 - (next * 32.0).round()).abs() < 1e-12);
    }
}
