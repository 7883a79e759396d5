//! The sheets of thread limits: what every class promises whatever the size, and the series behind them.

use crate::typed;
use measure::{House, Length};
use physics::law::thread_unified::{self, Class, unified};
use physics::law::thread_whitworth::{self, whitworth};
use physics::thread::limits::Limits;
use physics::thread::series::{series_of, standards};
use physics::{Sheet, run};
use proptest::prelude::*;

fn sheet(id: &str, pairs: &[(&str, &str)]) -> Sheet {
    run(id, &typed(pairs), House::Inch).unwrap()
}

/// Least is under most, and no screw in limits is larger anywhere than its nut in limits.
pub fn never_foul(limits: &Limits) -> Result<(), TestCaseError> {
    for (least, most) in [
        limits.external_major,
        limits.external_pitch,
        limits.internal_pitch,
        limits.internal_minor,
    ] {
        prop_assert!(least.to_m() < most.to_m());
    }
    let clear = |screw: Length, nut: Length| screw.to_m() <= nut.to_m() + 1e-12;
    prop_assert!(clear(limits.external_major.1, limits.internal_major_min));
    prop_assert!(clear(limits.external_pitch.1, limits.internal_pitch.0));
    // The bore is printed to three places and may stand half a thou under the basic one.
    let half = Length::inches(0.0005).to_m();
    prop_assert!(limits.external_minor_max.to_m() <= limits.internal_minor.0.to_m() + half + 1e-12);
    Ok(())
}

proptest! {
    #[test]
    fn unified_screw_and_nut_go_together(d in 0.25f64..6.0, tpi in 2u32..40, more in 1.0f64..3.0) {
        let tpi = f64::from(tpi);
        prop_assume!(1.0 / tpi <= d / 2.0);
        let (diameter, engagement) = (Length::inches(d), Length::inches(d));
        let of = |class| unified(diameter, tpi, class, engagement);
        let classes = [Class::C1, Class::C2, Class::C3].map(of);
        for thread in &classes {
            never_foul(&thread.limits)?;
            prop_assert!(thread.external_minor_max_unr.to_m() < thread.limits.external_minor_max.to_m());
        }
        prop_assert_eq!(classes[2].limits.allowance.to_m(), 0.0);
        for pair in classes.windows(2) {
            let (loose, close) = (pair[0].limits, pair[1].limits);
            let width = |pair: (Length, Length)| pair.1.to_m() - pair.0.to_m();
            prop_assert!(width(close.external_pitch) < width(loose.external_pitch));
            prop_assert!(width(close.internal_pitch) < width(loose.internal_pitch));
            prop_assert!(close.allowance.to_m() <= loose.allowance.to_m());
        }
        // A longer nut is allowed more, never less.
        let longer = unified(diameter, tpi, Class::C2, Length::inches(d * more));
        let usual = classes[1].limits.internal_pitch.1;
        prop_assert!(longer.limits.internal_pitch.1.to_m() >= usual.to_m());
    }
}

proptest! {
    #[test]
    fn whitworth_screw_and_nut_go_together(d in 0.1875f64..6.0, tpi in 2u32..40) {
        let tpi = f64::from(tpi);
        prop_assume!(1.0 / tpi <= d / 2.0);
        use thread_whitworth::Class::{Close, Free, Medium};
        let diameter = Length::inches(d);
        let [close, medium, free] =
            [Close, Medium, Free].map(|class| whitworth(diameter, tpi, class, diameter));
        let width = |pair: (Length, Length)| pair.1.to_m() - pair.0.to_m();
        for limits in [&close, &medium, &free] {
            never_foul(limits)?;
        }
        prop_assert!(width(close.external_pitch) < width(medium.external_pitch));
        prop_assert!(width(medium.external_pitch) < width(free.external_pitch));
        prop_assert!(width(medium.internal_pitch) < width(free.internal_pitch));
    }
}

/// What no table was read for is told on the sheet itself.
#[test]
fn the_whitworth_sheet_says_what_rests_on_memory() {
    let pairs = [("diameter", "1/2 in"), ("tpi", "12"), ("class", "medium")];
    let said = sheet("thread.whitworth", &pairs).notices.join("\n");
    for word in [
        "unproven for medium",
        "external_pitch_min",
        "BSW",
        "plating",
    ] {
        assert!(said.contains(word), "{word}: {said}");
    }
}

/// The engagement of the tables is taken aloud: the diameter for coarse and fine, nine pitches else.
#[test]
fn the_length_engaged_is_assumed_aloud() {
    for (diameter, tpi, text) in [
        ("1/2 in", "13", "the diameter"),
        ("1/2 in", "20", "the diameter"),
        ("1/2 in", "28", "nine pitches"),
        ("15/16 in", "12", "nine pitches"),
    ] {
        let pairs = [("diameter", diameter), ("tpi", tpi), ("class", "2")];
        let bare = sheet("thread.unified", &pairs);
        let assumed: Vec<_> = bare.assumed().collect();
        assert_eq!(assumed.len(), 1, "{diameter}-{tpi}");
        assert_eq!(assumed[0].entered, text, "{diameter}-{tpi}");
    }
    let odd = [("diameter", "1.03 in"), ("tpi", "12"), ("class", "2")];
    let said = sheet("thread.unified", &odd).notices.join("\n");
    assert!(said.contains("Of no standard series"), "{said}");
    assert!(said.contains("American National"), "{said}");
}

#[test]
fn a_thread_without_a_core_is_refused() {
    let pairs = [("diameter", "1/4 in"), ("tpi", "2"), ("class", "2")];
    let said = run("thread.unified", &typed(&pairs), House::Inch).unwrap_err();
    assert!(said.to_string().contains("leaves no core"), "{said}");
    assert_eq!(thread_unified::ENTRY.card.id, "thread.unified");
}

/// Sizes that every list has, each with its pitch.
#[test]
fn the_series_hold_what_a_shop_knows_by_heart() {
    let names = |form: &str, inches: f64, tpi: f64| {
        let pitch = Length::inches(1.0 / tpi);
        series_of("test", form, Length::inches(inches), pitch).unwrap()
    };
    assert!(names("unified", 0.5, 13.0).contains(&"UNC"));
    assert!(names("whitworth", 0.5, 12.0).contains(&"BSW"));
    assert!(names("whitworth", 1.0, 10.0).contains(&"BSF"));
    assert!(names("acme", 1.0, 5.0).contains(&"Acme"));
    assert!(names("unified", 1.0625, 12.0).contains(&"12UN"));
    assert!(names("unified", 0.5, 12.0).contains(&"National 12"));
    assert!(names("unified", 0.5, 11.0).is_empty());
    assert!(standards("test").unwrap().len() > 300);
}
