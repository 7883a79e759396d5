//! The sheets of fits: what they refuse, the tables against the rules they were made by, and what must
//! be true of pressed cylinders whatever the sizes.

use crate::{answer, typed};
use measure::{House, Length, Stress, math};
use physics::cylinder::{Member, interference, pressed};
use physics::fit::{iso_deviation, iso_grade};
use physics::law::fit_shrink::rise;
use physics::{Shown, run};
use proptest::prelude::*;

fn said(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

fn value(id: &str, pairs: &[(&str, &str)], name: &str) -> f64 {
    match run(id, &typed(pairs), House::Inch).unwrap().result(name) {
        Some(Shown::Quantity { value, .. }) => *value,
        other => panic!("{name}: {other:?}"),
    }
}

/// Narayana, Machine Drawing, page 222, table 15.4: the formulas the standard's tables were rounded
/// from. A range's middle is the geometric mean of its ends. The standard rounded by hand: the tables
/// differ from the rule by up to a tenth, and never by more than that and a micrometre.
#[test]
fn the_iso_tables_keep_to_the_rules_they_were_made_by() {
    let ranges = [
        (3.0, 6.0),
        (6.0, 10.0),
        (10.0, 18.0),
        (18.0, 30.0),
        (30.0, 50.0),
        (50.0, 80.0),
        (80.0, 120.0),
        (120.0, 180.0),
        (180.0, 250.0),
        (250.0, 315.0),
        (315.0, 400.0),
        (400.0, 500.0),
    ];
    for (over, to) in ranges {
        let middle: f64 = math::sqrt(over * to);
        let unit = 0.45 * math::cbrt(middle) + 0.001 * middle;
        for (grade, times) in [
            (5, 7.0),
            (6, 10.0),
            (7, 16.0),
            (8, 25.0),
            (9, 40.0),
            (10, 64.0),
            (11, 100.0),
        ] {
            let table = iso_grade("test", grade, to).unwrap();
            let rule: f64 = times * unit;
            assert!(
                (table - rule).abs() <= 0.06 * rule + 1.0,
                "IT{grade} to {to}: {table}, rule {rule}"
            );
        }
        let rules = [
            ("d", -16.0 * math::pow(middle, 0.44)),
            ("e", -11.0 * math::pow(middle, 0.41)),
            ("f", -5.5 * math::pow(middle, 0.41)),
            ("g", -2.5 * math::pow(middle, 0.34)),
            ("n", 5.0 * math::pow(middle, 0.34)),
        ];
        for (letter, rule) in rules {
            let (table, _) = iso_deviation("test", letter, to).unwrap();
            assert!(
                (table - rule).abs() <= 0.05 * rule.abs() + 1.0,
                "{letter} to {to}: {table}, rule {rule}"
            );
        }
        let seventh = iso_grade("test", 7, to).unwrap();
        let sixth = iso_grade("test", 6, to).unwrap();
        let (m, _) = iso_deviation("test", "m", to).unwrap();
        assert!((m - (seventh - sixth)).abs() <= 3.0, "m to {to}");
        let (p, _) = iso_deviation("test", "p", to).unwrap();
        assert!((0.0..=5.0).contains(&(p - seventh)), "p to {to}");
    }
    // s, u and x go by finer ranges: IT7 and .4, 1 and 1.6 of the middle.
    let fine = [
        (50.0, 65.0),
        (65.0, 80.0),
        (80.0, 100.0),
        (100.0, 120.0),
        (120.0, 140.0),
        (140.0, 160.0),
        (160.0, 180.0),
        (180.0, 200.0),
        (200.0, 225.0),
        (225.0, 250.0),
        (250.0, 280.0),
        (280.0, 315.0),
        (315.0, 355.0),
        (355.0, 400.0),
        (400.0, 450.0),
        (450.0, 500.0),
    ];
    for (over, to) in fine {
        let middle: f64 = math::sqrt(over * to);
        let seventh = iso_grade("test", 7, to).unwrap();
        let deviation = |letter| iso_deviation("test", letter, to).unwrap().0;
        for (letter, share) in [("s", 0.4), ("u", 1.0), ("x", 1.6)] {
            let rule = seventh + share * middle;
            assert!(
                (deviation(letter) - rule).abs() <= 0.03 * rule,
                "{letter} to {to}: {rule}"
            );
        }
        let between = math::sqrt(deviation("p") * deviation("s"));
        assert!(
            (deviation("r") - between).abs() <= 1.5,
            "r to {to}: {between}"
        );
    }
}

#[test]
fn a_fit_is_a_hole_and_a_shaft() {
    assert!(
        said("fit.iso", &[("size", "25 mm"), ("fit", "g6/H7")])
            .contains("is not a hole and a shaft")
    );
    assert!(said("fit.iso", &[("size", "25 mm"), ("fit", "H7")]).contains("expected hole,shaft"));
    assert!(
        said("fit.iso", &[("size", "600 mm"), ("fit", "H7/g6")])
            .contains("outside the range 1 mm to 500 mm")
    );
    let comma = value(
        "fit.iso",
        &[("size", "25 mm"), ("fit", "H7,g6")],
        "clearance_max",
    );
    assert_eq!(
        comma,
        value(
            "fit.iso",
            &[("size", "25 mm"), ("fit", "H7/g6")],
            "clearance_max"
        )
    );
}

/// A table that was not read is said to be so; nothing is put in its place.
#[test]
fn what_was_not_read_is_not_on_file() {
    for (size, class) in [
        ("1 in", "LC1"),
        ("4 in", "FN2"),
        ("2 in", "LC7"),
        ("15 in", "RC5"),
        ("5 in", "LT3"),
    ] {
        assert!(
            said("fit.inch_class", &[("size", size), ("fit", class)]).contains("is not on file"),
            "{class} {size}"
        );
    }
}

/// Every row of the inch table: the shaft is no wider than the hole's tolerance and a half, and the
/// limits of a class grow, or stand, from range to range.
#[test]
fn the_inch_table_grows_with_size() {
    let text = include_str!("../../../../tables/fit/inch-classes.csv");
    let mut last: Option<(String, f64, f64)> = None;
    let mut rows = 0;
    for line in text.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<f64>().unwrap();
        let (hole, low, high) = (number(3), number(4), number(5));
        assert!(low < high && high - low <= 1.5 * hole, "{line}");
        if let Some((class, to, tolerance)) = &last
            && class == cells[0]
        {
            assert!(*to <= number(1) && *tolerance <= hole, "{line}");
        }
        last = Some((cells[0].to_owned(), number(2), hole));
        rows += 1;
    }
    assert_eq!(rows, 310);
}

#[test]
fn parts_that_do_not_nest_are_refused() {
    let press = |outside, bore| {
        said(
            "fit.press",
            &[
                ("diameter", "2 in"),
                ("hub_outside", outside),
                ("shaft_bore", bore),
                ("interference", ".002 in"),
                ("length", "2 in"),
                ("materials", "steel,steel"),
                ("friction", ".1"),
            ],
        )
    };
    assert!(press("1.9 in", "0 in").contains("do not stand inside one another"));
    assert!(press("4 in", "2 in").contains("do not stand inside one another"));
    let bushing = said(
        "fit.bushing",
        &[
            ("eye", "3 in"),
            ("eye_outside", "5 in"),
            ("length", "4 in"),
            ("pin_largest", "3 in"),
            ("running_clearance", ".01 in"),
            ("interference", ".003 in"),
            ("bore", "2.5 in"),
            ("materials", "steel,bronze"),
        ],
    );
    assert!(bushing.contains("leaves no bushing"), "{bushing}");
}

/// A skin of less than a thousandth of the diameter is no cylinder: at the thousandth it is refused, beyond it is worked.
#[test]
fn a_skin_is_no_hub() {
    let pairs = |diameter| {
        [
            ("diameter", diameter),
            ("hub_outside", "1 in"),
            ("interference", ".0001 in"),
            ("length", "1 in"),
            ("materials", "steel,steel"),
            ("friction", ".1"),
        ]
    };
    assert!(said("fit.press", &pairs(".999 in")).contains("do not stand inside one another"));
    assert!(run("fit.press", &typed(&pairs(".9989 in")), House::Inch).is_ok());
}

/// Jones, Turning and Boring (1914): forced fits had 1 to 2.5 thousandths for each inch. At 2.5 nothing is said, over it is;
/// the share is of the diameter, in either house.
#[test]
fn a_heavy_interference_is_said() {
    let notices = |diameter: &str, hub: &str, interference: &str| {
        let pairs = [
            ("diameter", diameter),
            ("hub_outside", hub),
            ("interference", interference),
            ("length", "1 in"),
            ("materials", "steel,steel"),
            ("friction", ".1"),
        ];
        let sheet = run("fit.press", &typed(&pairs), House::Inch).unwrap();
        sheet.notices.join("\n")
    };
    // A meter takes 2.5 mm, exactly.
    assert!(!notices("1000 mm", "2000 mm", "2.5 mm").contains("thousandths"));
    assert!(notices("1000 mm", "2000 mm", "2.52 mm").contains("2.52 thousandths for each inch"));
    assert!(notices("4 in", "8 in", ".012 in").contains("3.00 thousandths for each inch"));
    assert!(!notices("4 in", "8 in", ".004 in").contains("thousandths"));
}

/// A shaft is solid where no bore was said, or none is there; told of the two, the case is the same.
#[test]
fn a_bore_of_nothing_is_a_solid_shaft() {
    let case = |bore: &'static str| {
        let mut pairs = vec![
            ("diameter", "2 in"),
            ("hub_outside", "4 in"),
            ("interference", ".002 in"),
            ("length", "2 in"),
            ("materials", "steel,steel"),
            ("friction", ".1"),
        ];
        pairs.extend((!bore.is_empty()).then_some(("shaft_bore", bore)));
        answer("fit.press", &pairs).branch
    };
    assert_eq!(case(""), "solid shaft");
    assert_eq!(case("0 in"), "solid shaft");
    assert_eq!(case("1 in"), "bored shaft");
}

/// A bushing already bored too large is told before it is pressed.
#[test]
fn a_bushing_too_large_for_its_pin_is_said() {
    let pairs = [
        ("eye", "3 in"),
        ("eye_outside", "5 in"),
        ("length", "4 in"),
        ("pin_largest", "2.45 in"),
        ("running_clearance", ".005 in"),
        ("interference", ".003 in"),
        ("bore", "2.5 in"),
        ("materials", "steel,bronze"),
    ];
    let sheet = run("fit.bushing", &typed(&pairs), House::Inch).unwrap();
    assert!(
        sheet
            .notices
            .iter()
            .any(|n| n.contains("too large for this pin")),
        "{:?}",
        sheet.notices
    );
    assert!(sheet.assumed().any(|input| input.name == "friction"));
    assert!(sheet.assumed().any(|input| input.name == "inner_modulus"));
}

proptest! {
    /// Pressure and interference invert each other; twice the interference is twice everything; a
    /// stiffer hub presses harder; the bore closes by less than the interference, and closing and
    /// growth of the two common faces make up the interference.
    #[test]
    fn pressed_cylinders_keep_to_their_laws(
        d in 0.5f64..20.0, out in 1.1f64..5.0, bore in 0.05f64..0.9, delta in 0.0001f64..0.05,
        e_o in 10.0f64..31.0, e_i in 10.0f64..31.0, n_o in 0.2f64..0.36, n_i in 0.2f64..0.36,
    ) {
        let (fit, delta) = (Length::inches(d), Length::inches(delta));
        let outer = Member { free: Length::inches(d * out), modulus: Stress::ksi(1000.0 * e_o), poisson: n_o };
        let inner = Member { free: Length::inches(d * bore), modulus: Stress::ksi(1000.0 * e_i), poisson: n_i };
        let one = pressed(fit, delta, outer, inner);
        let back = interference(fit, one.pressure, outer, inner);
        prop_assert!((back.to_inches() / delta.to_inches() - 1.0).abs() < 1e-12);
        let twice = pressed(fit, Length::inches(2.0 * delta.to_inches()), outer, inner);
        prop_assert!((twice.outer_hoop.to_psi() / one.outer_hoop.to_psi() - 2.0).abs() < 1e-12);
        prop_assert!((twice.close_in.to_inches() / one.close_in.to_inches() - 2.0).abs() < 1e-12);
        let thicker = Member { free: Length::inches(d * out * 1.2), ..outer };
        prop_assert!(pressed(fit, delta, thicker, inner).pressure.to_psi() > one.pressure.to_psi());
        // Strain of a face is (hoop + nu pressure) over the modulus.
        let p = one.pressure.to_psi();
        let opens = d * (one.outer_hoop.to_psi() + n_o * p) / (1e6 * e_o);
        let closes = d * (-one.inner_hoop.to_psi() - n_i * p) / (1e6 * e_i);
        prop_assert!(((opens + closes) / delta.to_inches() - 1.0).abs() < 1e-12);
        prop_assert!(one.close_in.to_inches() < 1.6 * delta.to_inches() && one.close_in.to_inches() > 0.0);
        prop_assert!(one.growth.to_inches() > 0.0);
    }

    /// What the ring grows by in the rise found is what was asked of it.
    #[test]
    fn the_heat_found_makes_the_growth(d in 0.3f64..100.0, growth in 0.001f64..0.2, e in 0.0005f64..0.0012) {
        let heat = rise(Length::inches(d), Length::inches(growth), e);
        let grown = physics::law::fit_hot_clearance::growth(Length::inches(d), e, e, heat);
        prop_assert!((grown.outer.to_inches() / growth - 1.0).abs() < 1e-12);
    }
}

/// Each table beside its card: the count of rows, the sum of its figures, and a source.
#[test]
fn each_table_of_fits_agrees_with_its_card() {
    macro_rules! table {
        ($path:literal) => {
            (
                include_str!(concat!("../../../../tables/", $path, ".csv")),
                include_str!(concat!("../../../../tables/", $path, ".toml")),
            )
        };
    }
    let tables: [((&str, &str), &[usize], f64); 5] = [
        (table!("fit/iso-grades"), &[2, 3, 4, 5, 6, 7, 8], 1.0),
        (table!("fit/iso-deviations"), &[3], 1.0),
        (table!("fit/inch-classes"), &[3, 4, 5], 100.0),
        (table!("fit/tire-shrinkage"), &[1], 1000.0),
        (table!("material/elastic"), &[1], 10.0),
    ];
    for ((csv, card), columns, scale) in tables {
        let card: toml::Table = card.parse().unwrap();
        let lines = csv.lines().filter(|line| !line.starts_with('#')).skip(1);
        let rows: Vec<Vec<&str>> = lines.map(|line| line.split(',').collect()).collect();
        let says = |key: &str| card[key].as_integer().unwrap();
        let sum: f64 = rows
            .iter()
            .flat_map(|row| {
                columns
                    .iter()
                    .map(|at| row[*at].parse::<f64>().unwrap().abs())
            })
            .sum();
        assert_eq!(
            (sum * scale).round() as i64,
            says("checksum"),
            "{}",
            card["title"]
        );
        assert_eq!(rows.len() as i64, says("rows"), "{}", card["title"]);
        for key in ["source", "locator", "units", "range"] {
            assert!(
                card[key].as_str().is_some_and(|text| text.len() > 5),
                "{key}"
            );
        }
    }
}
