//! `thread.acme`: what it says of itself, and what must be true of it whatever the size.

use crate::typed;
use measure::{House, Length};
use physics::law::thread_acme::{Class, acme};
use physics::tables::acme_allowance;
use physics::{Grade, Sheet, Shown, evidence, evidence_matrix, run};
use proptest::prelude::*;

fn sheet(class: &str, extra: &[(&str, &str)]) -> Sheet {
    let mut pairs = vec![("diameter", "1 in"), ("tpi", "5"), ("class", class)];
    pairs.extend(extra);
    run("thread.acme", &typed(&pairs), House::Inch).unwrap()
}

#[test]
fn starts_not_given_are_assumed_aloud() {
    let bare = sheet("2G", &[]);
    assert_eq!(
        bare.assumed().map(|i| i.name).collect::<Vec<_>>(),
        ["starts"]
    );
    assert!(
        bare.to_text()
            .contains("\nASSUMED, NOT GIVEN\n  - starts = 1. ASSUMED: ")
    );
    let told = sheet("2G", &[("starts", "1")]);
    assert_eq!(told.assumed().count(), 0);
    assert_eq!(bare.result("lead_angle"), told.result("lead_angle"));
    let double = sheet("2G", &[("starts", "2")]);
    assert!(
        double
            .notices
            .iter()
            .any(|n| n.starts_with("More than one start"))
    );
}

/// What is proved and what is not is told on the sheet, by class.
#[test]
fn the_sheet_says_what_is_unproven() {
    let notices = sheet("4G", &[]).notices.join("\n");
    for word in [
        "unproven for 4G",
        "external_pitch_max",
        "allowance",
        "from memory",
    ] {
        assert!(notices.contains(word), "{word}: {notices}");
    }
    let notices = sheet("2G", &[]).notices.join("\n");
    assert!(!notices.contains("external_pitch_max"), "{notices}");
    let matrix = evidence_matrix("thread.acme").unwrap();
    for result in [
        "external_major_min",
        "external_pitch_max",
        "external_pitch_min",
        "external_minor_max",
    ] {
        assert_eq!(matrix[&(result, "2G")], Some(Grade::Published), "{result}");
        assert_eq!(matrix[&(result, "4G")], None, "{result}");
    }
    for class in ["2G", "3G", "4G"] {
        for result in [
            "external_minor_min",
            "stress_area",
            "internal_minor_max",
            "depth",
            "lead_angle",
        ] {
            assert_eq!(
                matrix[&(result, class)],
                Some(Grade::Published),
                "{result} {class}"
            );
        }
    }
    assert_eq!(
        matrix[&("shear_area_per_inch", "3G")],
        Some(Grade::Published)
    );
}

/// Every limit printed for the seven sizes at their own pitch is met, all six limits of each: no
/// row of theirs is a stated disagreement.
#[test]
fn every_published_limit_of_the_standard_sizes_is_met() {
    let sizes = [
        "3/8-12", "1/2-10", "5/8-8", "3/4-6", "7/8-6", "1-5", "1 1/8-5",
    ];
    let rows = evidence().unwrap();
    for size in sizes {
        let of_size: Vec<_> = rows
            .iter()
            .filter(|r| r.locator.ends_with(&format!("row {size} 2G")))
            .collect();
        assert_eq!(of_size.len(), 6, "{size}");
        for row in of_size {
            assert!(
                !row.is_disagreement() && row.check().unwrap().within,
                "{size} {}",
                row.result
            );
        }
    }
}

#[test]
fn a_thread_without_a_core_is_refused() {
    let pairs = [("diameter", "1/4 in"), ("tpi", "2"), ("class", "2G")];
    let said = run("thread.acme", &typed(&pairs), House::Inch)
        .unwrap_err()
        .to_string();
    assert!(said.contains("leaves no core"), "{said}");
}

#[test]
fn the_metric_house_gets_millimetres_out_of_the_inch_standard() {
    let pairs = [("diameter", "1 in"), ("tpi", "5"), ("class", "2G")];
    let sheet = run("thread.acme", &typed(&pairs), House::Metric).unwrap();
    let Some(Shown::Quantity { value, unit, .. }) = sheet.result("external_pitch_max") else {
        panic!("no quantity")
    };
    assert_eq!(*unit, "mm");
    assert!((value - 0.8920 * 25.4).abs() < 1e-9);
    assert!(sheet.steps.iter().any(|step| step.unit == "in"));
}

proptest! {
    /// Least is below most; screw clears nut at every diameter; a closer class is never looser; the
    /// core carries less than the body.
    #[test]
    fn screw_and_nut_go_together(d in 0.25f64..5.0, tpi in 1u32..16) {
        let tpi = f64::from(tpi);
        prop_assume!(1.0 / tpi <= d / 2.0);
        let of = |class: Class| {
            let diameter = Length::inches(d);
            let allowance = acme_allowance("test", class.word(), diameter).unwrap().allowance;
            acme(diameter, tpi, class, allowance, 1.0)
        };
        let classes = [Class::C2G, Class::C3G, Class::C4G].map(of);
        for t in classes {
            for (least, most) in [
                t.limits.external_major, t.limits.external_pitch,
                (t.external_minor_min, t.limits.external_minor_max),
                (t.limits.internal_major_min, t.internal_major_max),
                t.limits.internal_pitch, t.limits.internal_minor,
            ] {
                prop_assert!(least.to_m() < most.to_m());
            }
            prop_assert!(t.limits.external_major.1.to_m() < t.limits.internal_major_min.to_m());
            prop_assert!(t.limits.external_pitch.1.to_m() < t.limits.internal_pitch.0.to_m());
            prop_assert!(t.limits.external_minor_max.to_m() < t.limits.internal_minor.0.to_m());
            prop_assert!(t.stress_diameter.to_inches() < d);
            prop_assert!(t.stress_area.to_sq_in() > 0.0);
        }
        for pair in classes.windows(2) {
            let (loose, close) = (pair[0].limits, pair[1].limits);
            prop_assert!(close.allowance.to_m() < loose.allowance.to_m());
            prop_assert!(close.external_pitch.0.to_m() > loose.external_pitch.0.to_m());
            prop_assert!(close.internal_pitch.1.to_m() < loose.internal_pitch.1.to_m());
        }
    }
}
