//! `gauge.cone_two_balls`: what it refuses, and what must be true of it whatever the balls.

use crate::typed;
use measure::{House, Length};
use physics::law::gauge_cone_two_balls::cone;
use physics::{Shown, run};
use proptest::prelude::*;

fn shown(pairs: &[(&str, &str)], name: &str) -> String {
    match run("gauge.cone_two_balls", &typed(pairs), House::Inch)
        .unwrap()
        .result(name)
    {
        Some(Shown::Quantity { shown, .. }) => shown.clone(),
        Some(Shown::Text(text)) => text.clone(),
        other => panic!("{other:?}"),
    }
}

/// Radii .5 and .375, centres 1.225 apart, so the tops 1.35: 5.857 degrees. Worked by us from the
/// formula for the first notes of this law, so it guards arithmetic, not truth.
#[test]
fn the_first_worked_case_stands() {
    let case = [
        ("large_ball", "1 in"),
        ("small_ball", "3/4 in"),
        ("top_difference", "1.35 in"),
    ];
    assert_eq!(shown(&case, "half_angle"), "5.857");
    assert_eq!(
        shown(&case, "uncertainty"),
        "cannot tell: needs depth_error"
    );
}

#[test]
fn balls_that_cannot_be_so_are_refused_in_words() {
    let said = |large, small, depth, error| {
        let pairs = [
            ("large_ball", large),
            ("small_ball", small),
            ("top_difference", depth),
            ("depth_error", error),
        ];
        run("gauge.cone_two_balls", &typed(&pairs), House::Inch)
            .unwrap_err()
            .to_string()
    };
    assert!(said("1/2 in", "1/2 in", "1 in", "0 in").contains("not smaller than the large one"));
    assert!(said("1/2 in", "3/4 in", "1 in", "0 in").contains("not smaller than the large one"));
    assert!(
        said("1 in", "1/2 in", "1/2 in", "0 in").contains("no further apart than the radii differ")
    );
    assert!(said("1 in", "1/2 in", ".51 in", ".02 in").contains("depth error is as great"));
}

#[test]
fn balls_that_would_foul_are_told_of() {
    let near = [
        ("large_ball", "12 mm"),
        ("small_ball", "8 mm"),
        ("top_difference", "10 mm"),
    ];
    let sheet = run("gauge.cone_two_balls", &typed(&near), House::Inch).unwrap();
    assert!(sheet.notices.iter().any(|n| n.contains("foul each other")));
}

proptest! {
    /// A deeper small ball means a finer cone; the touching circles stand on one cone of the angle
    /// found; a thousandfold scale changes no angle; the doubt is wider above than below.
    #[test]
    fn a_cone_is_a_cone(
        large in 0.1f64..4.0, part in 0.1f64..0.95, spare in 0.05f64..5.0, error in 0.0001f64..0.02,
    ) {
        let small = large * part;
        let depth = (large - small) + spare;
        let at = |depth: f64, scale: f64| {
            let inches = |x: f64| Length::inches(x * scale);
            cone(inches(large), inches(small), inches(depth)).unwrap()
        };
        let found = at(depth, 1.0);
        let angle = found.half_angle.to_radians();
        prop_assert!(at(depth + 0.01, 1.0).half_angle.to_radians() < angle);
        prop_assert!((at(depth, 0.001).half_angle.to_radians() - angle).abs() < 1e-12);
        let across = (found.contact_large.to_inches() - found.contact_small.to_inches()) / 2.0;
        let centres = depth + (small - large) / 2.0;
        let along = centres - (large - small) / 2.0 * measure::math::sin(angle);
        prop_assert!((across / along - measure::math::tan(angle)).abs() < 1e-9);
        let low = angle - at(depth + error, 1.0).half_angle.to_radians();
        let high = at(depth - error, 1.0).half_angle.to_radians() - angle;
        prop_assert!(high > low && low > 0.0);
    }
}
