//! The sheets of turning, tapers and gauges: what they refuse, and what must be true of them.

use crate::typed;
use measure::{Angle, Fraction, House, Length, math};
use physics::law::gauge_cone_one_ball::seat;
use physics::law::gauge_cone_two_balls::cone;
use physics::law::gauge_sine_bar::height;
use physics::law::gauge_taper_two_rollers::taper;
use physics::law::lathe_taper::half_angle;
use physics::law::lathe_thread_dial::step;
use physics::law::lathe_turning::turns;
use physics::{Shown, run};
use proptest::prelude::*;

fn said(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

fn shown(id: &str, pairs: &[(&str, &str)], name: &str) -> String {
    match run(id, &typed(pairs), House::Inch).unwrap().result(name) {
        Some(Shown::Quantity { shown, .. } | Shown::Text(shown)) => shown.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

#[test]
fn what_cannot_be_turned_or_measured_is_refused() {
    let cut = [
        ("material", "brass"),
        ("tool", "hss"),
        ("diameter", "1 in"),
        ("length", "2 in"),
        ("depth", ".6 in"),
        ("feed", ".01 in"),
    ];
    assert!(said("lathe.turning", &cut).contains("goes through the middle"));
    assert!(
        said(
            "lathe.taper",
            &[("large", "1 in"), ("small", "1 in"), ("length", "4 in")]
        )
        .contains("no larger than the small end")
    );
    assert!(
        said(
            "lathe.taper",
            &[
                ("large", "2 in"),
                ("small", "1 in"),
                ("length", "4 in"),
                ("between_centers", "3 in")
            ]
        )
        .contains("shorter than its taper")
    );
    assert!(
        said(
            "gauge.sine_bar",
            &[("length", "5 in"), ("angle", "30deg"), ("found", "6 in")]
        )
        .contains("higher than the bar is long")
    );
    assert!(
        said(
            "gauge.cone_one_ball",
            &[("ball", "1 in"), ("top", "1 in"), ("half_angle", "30deg")]
        )
        .contains("lies on the edge")
    );
    let rollers = |low, high| {
        [
            ("roller", ".25 in"),
            ("over_low", low),
            ("over_high", high),
            ("height", "1 in"),
        ]
    };
    assert!(said("gauge.taper_two_rollers", &rollers("2 in", "1.9 in")).contains("make no taper"));
    assert!(
        said("gauge.taper_two_rollers", &rollers(".3 in", ".4 in"))
            .contains("would meet under the taper")
    );
}

/// The first worked case of the notes of this law, by us: it guards arithmetic, not truth.
#[test]
fn the_first_worked_cases_stand() {
    let rollers = [
        ("roller", ".25 in"),
        ("over_low", "1.5 in"),
        ("over_high", "1.625 in"),
        ("height", "1.5 in"),
    ];
    assert_eq!(
        shown("gauge.taper_two_rollers", &rollers, "half_angle"),
        "2.3859"
    );
    assert_eq!(
        shown("gauge.taper_two_rollers", &rollers, "taper_per_foot"),
        "1.0000"
    );
    assert_eq!(
        shown("gauge.taper_two_rollers", &rollers, "uncertainty"),
        "cannot tell: needs width_error"
    );
    let ball = [("ball", "1 in"), ("top", ".4 in"), ("half_angle", "45deg")];
    assert_eq!(
        shown("gauge.cone_one_ball", &ball, "face_diameter"),
        "1.6142"
    );
    assert_eq!(shown("gauge.cone_one_ball", &ball, "contact"), "0.7071");
}

/// A metal without a unit power says so, and gets no figure of another's.
#[test]
fn a_power_that_is_not_on_file_is_not_guessed() {
    let cut = [
        ("material", "copper"),
        ("tool", "hss"),
        ("diameter", "1 in"),
        ("length", "2 in"),
        ("depth", ".1 in"),
        ("feed", ".01 in"),
    ];
    assert!(shown("lathe.turning", &cut, "power").starts_with("cannot tell: needs a unit power"));
    assert_eq!(shown("lathe.turning", &cut, "rpm"), "381");
}

/// A gauge below the point reads high, a gauge above it low: with the error they are taken off once each.
#[test]
fn errors_are_taken_off_and_not_added() {
    let pairs = [
        ("reading", "180 psig"),
        ("gauge_error", "3 psi"),
        ("head", "8 ft"),
        ("second_reading", "175 psig"),
    ];
    assert_eq!(shown("gauge.pressure", &pairs, "true_pressure"), "173.5");
    assert_eq!(shown("gauge.pressure", &pairs, "difference"), "1.5");
    let above = [
        ("reading", "180 psig"),
        ("gauge_error", "-3 psi"),
        ("head", "-8 ft"),
    ];
    assert_eq!(shown("gauge.pressure", &above, "true_pressure"), "186.5");
}

#[test]
fn the_table_of_speeds_agrees_with_its_card() {
    let card: toml::Table = include_str!("../../../../tables/material/cutting.toml")
        .parse()
        .unwrap();
    let csv = include_str!("../../../../tables/material/cutting.csv");
    let rows: Vec<Vec<&str>> = csv
        .lines()
        .filter(|l| !l.starts_with('#'))
        .skip(1)
        .map(|l| l.split(',').collect())
        .collect();
    let sum: i64 = rows
        .iter()
        .flat_map(|r| [r[1], r[2]])
        .map(|c| c.parse::<i64>().unwrap())
        .sum();
    assert_eq!(sum, card["checksum"].as_integer().unwrap());
    assert_eq!(rows.len() as i64, card["rows"].as_integer().unwrap());
}

proptest! {
    /// Surface speed back from turns; larger work turns slower.
    #[test]
    fn turns_and_speed_are_one(speed in 10.0f64..1000.0, d in 0.1f64..90.0) {
        let rpm = turns(speed, d);
        prop_assert!((rpm * std::f64::consts::PI * d / 12.0 / speed - 1.0).abs() < 1e-12);
        prop_assert!(turns(speed, 2.0 * d) < rpm);
    }

    /// A taper made from an angle gives the angle back, by diameters and over rollers alike, and rollers
    /// of another size find the same taper.
    #[test]
    fn a_taper_is_one_taper(small in 0.2f64..5.0, degrees in 0.1f64..40.0, length in 0.5f64..20.0, w in 0.05f64..1.0, other in 0.05f64..1.0) {
        let t = math::tan(degrees.to_radians());
        let i = Length::inches;
        let found = half_angle(i(small + 2.0 * length * t), i(small), i(length)).to_degrees();
        prop_assert!((found - degrees).abs() < 1e-9);
        let over = |w: f64, up: f64| {
            // Where the side is at the height of the center, and from there square to it by half a roller.
            let side = small / 2.0 + (up + w / 2.0) * t;
            i(2.0 * (side + w / 2.0 / math::cos(degrees.to_radians())) + w)
        };
        for w in [w, other] {
            let (angle, at_plate) = taper(i(w), over(w, 0.0), over(w, length), i(length));
            prop_assert!((angle.to_degrees() - degrees).abs() < 1e-9);
            prop_assert!((at_plate.to_inches() - small).abs() < 1e-9);
        }
    }

    /// One ball and two balls speak of one cone: the second ball, dropped where the first says the cone
    /// is, gives the angle back.
    #[test]
    fn one_ball_and_two_agree(degrees in 3.0f64..60.0, large in 0.5f64..3.0, part in 0.3f64..0.9, face in 3.5f64..6.0) {
        let (angle, small) = (Angle::degrees(degrees), large * part);
        let (sine, tangent) = (math::sin(degrees.to_radians()), math::tan(degrees.to_radians()));
        // The point of the cone stands face / 2 / tan below the face; a ball's top above its point.
        let top = |d: f64| d / 2.0 / sine + d / 2.0 - face / 2.0 / tangent;
        for d in [large, small] {
            let (found, contact, _) = seat(Length::inches(d), Length::inches(top(d)), angle);
            prop_assert!((found.to_inches() - face).abs() < 1e-8);
            prop_assert!((contact.to_inches() - d * math::cos(degrees.to_radians())).abs() < 1e-12);
        }
        let i = Length::inches;
        let two = cone(i(large), i(small), i(top(large) - top(small))).unwrap();
        prop_assert!((two.half_angle.to_degrees() - degrees).abs() < 1e-7);
    }

    /// The sine bar rises with the angle and its square and the base's square make the bar's.
    #[test]
    fn a_sine_bar_is_a_right_triangle(l in 1.0f64..20.0, degrees in 0.0f64..60.0) {
        let h = height(Length::inches(l), Angle::degrees(degrees)).to_inches();
        let base = l * math::cos(degrees.to_radians());
        prop_assert!((h * h + base * base - l * l).abs() < 1e-9);
        prop_assert!(height(Length::inches(l), Angle::degrees(degrees + 0.1)).to_inches() > h);
    }
}

#[test]
fn half_nuts_are_closed_where_the_dial_says() {
    let engage = |wanted: &str| {
        shown(
            "lathe.thread_dial",
            &[
                ("leadscrew", "8 TPI"),
                ("wanted", wanted),
                ("wheel", "16"),
                ("lines", "8"),
            ],
            "engage",
        )
    };
    assert_eq!(
        engage("10 TPI"),
        "at the line begun on, and 2, 4, 6 lines on from it"
    );
    assert_eq!(engage("20 TPI"), "at any line");
    // One thread of a screw with two starts, 10 threads in the inch: its lead is that of 5.
    assert_eq!(engage("5 TPI"), "at the line begun on and the one opposite");
    assert!(engage("2 3/4 TPI").contains("stay shut"));
    assert!(engage("2 mm").contains("stay shut"));
}

proptest! {
    /// The dial is turned on by any number of lines, as often round as anybody likes: the tool is in its groove at the
    /// lines that are told and at no other.
    #[test]
    fn a_line_is_told_when_the_tool_is_in_its_groove(
        (screw, lead) in (1_i128..40, 1_i128..60),
        (over, under) in (1_i128..13, 1_i128..5),
        teeth in 4_u32..60,
        lines in 1_u32..24,
        turns in 0_i128..9,
    ) {
        let screw = Fraction::new(1, screw);
        let lead = Fraction::new(over, under * lead);
        let turn = screw * Fraction::from_integer(teeth.into());
        let travel = turn / Fraction::from_integer(lines.into());
        let told = step(travel, lead, lines);
        for line in 0..lines {
            let here = travel * Fraction::from_integer(line.into()) / lead;
            let later = here + turn * Fraction::from_integer(turns) / lead;
            match told {
                Some(step) => {
                    prop_assert_eq!(later.is_integer(), line % step == 0);
                    prop_assert_eq!(lines % step, 0);
                }
                // Whatever is in its groove now is out of it the next time round.
                None => prop_assert!(!(here.is_integer() && (here + turn / lead).is_integer())),
            }
        }
    }
}
