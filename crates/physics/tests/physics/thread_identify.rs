//! `thread.identify`: the cases that fool a shop, and what must hold whatever is measured.

use crate::typed;
use measure::{Angle, House, Length};
use physics::law::thread_identify::{NONE, Readings, Side, candidates};
use physics::{Sheet, Shown, run};
use proptest::prelude::*;

fn sheet(pairs: &[(&str, &str)]) -> Sheet {
    run("thread.identify", &typed(pairs), House::Inch).unwrap()
}

fn said(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Text(text)) => text.clone(),
        Some(Shown::Quantity { shown, .. }) => shown.clone(),
        other => panic!("{other:?}"),
    }
}

fn rows(sheet: &Sheet) -> Vec<Vec<String>> {
    match sheet.result("candidates") {
        Some(Shown::Table { rows, .. }) => rows.clone(),
        other => panic!("{other:?}"),
    }
}

/// 11, 11 1/2 and 12 threads per inch of one diameter: each is told apart, and where the count is
/// doubtful the sheet says over what length to count again.
#[test]
fn eleven_eleven_and_a_half_and_twelve_are_told_apart() {
    let of = |tpi: &str| {
        sheet(&[
            ("side", "external"),
            ("major", "1.306 in"),
            ("tpi", tpi),
            ("lead", "0.087 in"),
        ])
    };
    assert!(
        said(&of("11"), "best").contains("11 TPI bsp"),
        "{}",
        said(&of("11"), "best")
    );
    assert!(said(&of("11.5"), "best").contains("11 1/2 TPI npt"));
    assert!(said(&of("12"), "best").contains("12 TPI"));
    assert!(!said(&of("12"), "best").contains("npt"));
    let doubtful = sheet(&[
        ("side", "external"),
        ("major", "1.306 in"),
        ("major_far", "1.306 in"),
        ("distance", "0.5 in"),
        ("tpi", "11.75"),
        ("flank_angle", "30 deg"),
    ]);
    let listed = rows(&doubtful);
    assert!(
        listed.iter().any(|row| row[0].contains("12 TPI")),
        "{listed:?}"
    );
    assert!(said(&doubtful, "threads_per_inch") == "11.75");
}

/// A stem worn on its crests: 55 and 60 degrees share size, pitch and nearly the pitch diameter, so
/// both are listed and the angle is asked for; with the angle it is the one.
#[test]
fn a_crest_worn_stem_is_settled_by_its_angle() {
    let stem = [
        ("side", "external"),
        ("major", "0.982 in"),
        ("tpi", "8"),
        ("pitch_diameter", "0.917 in"),
        ("lead", "0.125 in"),
    ];
    let bare = sheet(&stem);
    let names: Vec<String> = rows(&bare).into_iter().map(|row| row[0].clone()).collect();
    assert!(
        names.iter().any(|name| name.contains("8 TPI whitworth")),
        "{names:?}"
    );
    assert!(
        names.iter().any(|name| name.contains("8 TPI unified")),
        "{names:?}"
    );
    assert!(
        said(&bare, "settle").contains("the angle: "),
        "{}",
        said(&bare, "settle")
    );
    for (flank, form) in [("27.3 deg", "whitworth"), ("30.2 deg", "unified")] {
        let mut told = stem.to_vec();
        told.push(("flank_angle", flank));
        let told = sheet(&told);
        assert!(
            said(&told, "best").contains(form),
            "{flank}: {}",
            said(&told, "best")
        );
        assert!(
            rows(&told)[0][3].contains("crests worn 0.0180 in"),
            "{:?}",
            rows(&told)[0]
        );
    }
}

/// V and National differ in pitch diameter alone: without it both are listed and it is asked for.
#[test]
fn v_and_national_are_settled_by_the_pitch_diameter() {
    let stay = [
        ("side", "external"),
        ("major", "0.998 in"),
        ("major_far", "0.998 in"),
        ("distance", "2 in"),
        ("tpi", "12"),
        ("flank_angle", "30 deg"),
        ("lead", "0.0833 in"),
    ];
    let bare = sheet(&stay);
    assert!(
        said(&bare, "settle").contains("pitch diameter over wires"),
        "{}",
        said(&bare, "settle")
    );
    for (wires, form) in [("0.9275 in", "sharp-v"), ("0.9455 in", "unified")] {
        let mut told = stay.to_vec();
        told.push(("pitch_diameter", wires));
        let best = said(&sheet(&told), "best");
        assert!(best.contains(form), "{wires}: {best}");
    }
}

#[test]
fn a_left_hand_thread_is_named_so() {
    let readings = [
        ("side", "external"),
        ("major", "0.498 in"),
        ("tpi", "13"),
        ("lead", "0.077 in"),
    ];
    let bare = sheet(&readings);
    assert!(bare.notices.iter().any(|n| n.contains("hand was not told")));
    let mut left = readings.to_vec();
    left.push(("hand", "left"));
    let left = sheet(&left);
    assert!(
        said(&left, "best").ends_with("left hand"),
        "{}",
        said(&left, "best")
    );
    assert!(
        left.notices
            .iter()
            .any(|n| n.contains("lathe's lead are reversed"))
    );
}

/// An Acme stem of 1 in, 5 threads and two starts, its lead counted as its pitch: 2 1/2 threads per
/// inch is in no list, two starts of 5 are; with the lead measured it is certain.
#[test]
fn two_starts_taken_for_one_are_found_out() {
    let counted = sheet(&[
        ("side", "external"),
        ("major", "0.996 in"),
        ("tpi", "2.5"),
        ("pitch_diameter", "0.896 in"),
        ("flank_angle", "14.5 deg"),
    ]);
    let best = said(&counted, "best");
    assert!(best.contains("5 TPI acme, two starts"), "{best}");
    assert_eq!(rows(&counted)[0][4], "count the ends of the thread");
    let measured = sheet(&[
        ("side", "external"),
        ("major", "0.996 in"),
        ("tpi", "5"),
        ("lead", "0.4 in"),
        ("pitch_diameter", "0.896 in"),
        ("flank_angle", "14.5 deg"),
    ]);
    assert!(said(&measured, "best").contains("two starts"));
    assert_eq!(said(&measured, "starts_measured"), "2.00");
}

/// One diameter of a taper thread looks like a worn parallel one; two tell.
#[test]
fn a_taper_is_not_wear() {
    let once = [
        ("side", "external"),
        ("major", "1.290 in"),
        ("tpi", "11.5"),
        ("lead", "0.087 in"),
    ];
    let once = sheet(&once);
    assert!(
        once.notices
            .iter()
            .any(|n| n.contains("looks like a worn parallel one"))
    );
    let twice = |far: &'static str| {
        sheet(&[
            ("side", "external"),
            ("major", "1.290 in"),
            ("major_far", far),
            ("distance", "0.4 in"),
            ("tpi", "11.5"),
            ("lead", "0.087 in"),
        ])
    };
    let taper = twice("1.315 in");
    assert!(
        said(&taper, "best").contains("npt"),
        "{}",
        said(&taper, "best")
    );
    assert!(taper.notices.iter().any(|n| n.contains("thread.plug")));
    let straight = twice("1.290 in");
    assert!(
        !said(&straight, "best").contains("npt"),
        "{}",
        said(&straight, "best")
    );
}

/// A maker's own thread is in no list, and the sheet says so and says how far the nearest is off.
#[test]
fn none_of_these_is_an_answer() {
    let odd = sheet(&[
        ("side", "external"),
        ("major", "0.9700 in"),
        ("tpi", "9.4"),
        ("pitch_diameter", "0.8600 in"),
        ("flank_angle", "24 deg"),
        ("lead", "0.1064 in"),
    ]);
    assert_eq!(said(&odd, "best"), "none of these");
    assert_eq!(rows(&odd).len(), 1);
    assert!(said(&odd, "settle").contains("measure again"));
    assert!(!said(&odd, "nearest").is_empty());
}

/// Wear takes metal off: a screw larger than its list is not explained by it, and a nut's goes the other way.
#[test]
fn wear_never_adds_metal() {
    let fat = sheet(&[
        ("side", "external"),
        ("major", "1.006 in"),
        ("tpi", "8"),
        ("lead", "0.125 in"),
    ]);
    let first = &rows(&fat)[0];
    assert!(first[3].contains("no wear adds 0.0060 in"), "{first:?}");
    let hole = sheet(&[
        ("side", "internal"),
        ("major", "1.006 in"),
        ("tpi", "8"),
        ("lead", "0.125 in"),
    ]);
    assert!(
        rows(&hole)[0][3].contains("crests worn 0.0060 in"),
        "{:?}",
        rows(&hole)[0]
    );
}

#[test]
fn what_is_not_measured_is_asked_for() {
    assert_eq!(
        said(&sheet(&[("side", "external")]), "best"),
        "cannot tell: needs tpi or pitch, and major or minor"
    );
    let both = typed(&[
        ("side", "external"),
        ("major", "1 in"),
        ("tpi", "8"),
        ("pitch", "0.125 in"),
    ]);
    let refused = run("thread.identify", &both, House::Inch)
        .unwrap_err()
        .to_string();
    assert!(refused.contains("tpi and pitch together"), "{refused}");
    let metric = sheet(&[
        ("side", "external"),
        ("major", "19.9 mm"),
        ("pitch", "2.5 mm"),
        ("lead", "2.5 mm"),
    ]);
    assert!(
        said(&metric, "best").contains("2.5 mm metric"),
        "{}",
        said(&metric, "best")
    );
}

proptest! {
    /// The list is in order, and each further step off weighs more: a reading moved further from the
    /// list in one direction never makes that thread likelier.
    #[test]
    fn further_off_is_never_likelier(off in 0.0f64..0.05, more in 0.001f64..0.02, up in any::<bool>()) {
        let sign = if up { 1.0 } else { -1.0 };
        let at = |off: f64| Readings {
            side: Side::External,
            pitch: Length::inches(0.125),
            lead: Some(Length::inches(0.125)),
            major: Some(Length::inches(1.0 + sign * off)),
            minor: None,
            pitch_diameter: None,
            flank: Some(Angle::degrees(30.0)),
            taper: Some(0.0),
        };
        let weight = |off: f64| {
            let all = candidates("test", &at(off)).unwrap();
            prop_assert!(all.windows(2).all(|pair| pair[0].weight <= pair[1].weight));
            let unc = all.iter().find(|one| one.name.contains("1 in - 8 TPI unified") && one.starts == 1);
            Ok(unc.unwrap().weight)
        };
        prop_assert!(weight(off + more)? > weight(off)?);
    }

    /// Every thread of the lists, measured as new, is among what is offered for it.
    #[test]
    fn a_new_thread_is_offered_itself(which in 0usize..300) {
        let all = physics::thread::series::standards("test").unwrap();
        let one = &all[which % all.len()];
        prop_assume!(one.form != "npt");
        let readings = Readings {
            side: Side::External,
            pitch: one.pitch,
            lead: Some(one.pitch),
            major: Some(one.diameter),
            minor: None,
            pitch_diameter: None,
            flank: None,
            taper: Some(0.0),
        };
        let found = candidates("test", &readings).unwrap();
        let own = found.iter().find(|known| known.name.contains(&one.series) && known.name.contains(&one.named_pitch));
        prop_assert!(own.is_some_and(|own| own.weight < NONE), "{one:?}");
    }
}
