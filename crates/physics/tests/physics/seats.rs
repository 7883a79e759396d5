//! The sheets of seats, lift and stock: what they refuse and advise, and what must be true of them.

use crate::typed;
use measure::{Angle, House, Length};
use physics::law::lathe_stock::cylinder_weight;
use physics::law::seat_contact::{ring_area, width_wanted};
use physics::law::seat_lap::suits;
use physics::law::valve_lift::{curtain, lift};
use physics::{Sheet, Shown, run};
use proptest::prelude::*;

fn worked(id: &str, pairs: &[(&str, &str)]) -> Sheet {
    run(id, &typed(pairs), House::Inch).unwrap()
}

fn words(sheet: &Sheet, name: &str) -> String {
    match sheet.result(name) {
        Some(Shown::Quantity { shown, .. } | Shown::Text(shown)) => shown.clone(),
        Some(Shown::Table { rows, .. }) => rows
            .iter()
            .map(|row| row.join(" | "))
            .collect::<Vec<_>>()
            .join("\n"),
        None => panic!("no {name}"),
    }
}

const LAP: [(&str, &str); 3] = [
    ("body_material", "cast-iron"),
    ("disc_material", "bronze"),
    ("lap_material", "mild-steel"),
];

fn lapped(stock: &str) -> Sheet {
    let mut pairs = LAP.to_vec();
    pairs.push(("stock", stock));
    worked("seat.lap", &pairs)
}

/// Little is ground in, more is lapped, much is machined first; the ladder is entered where it must be
/// and never turns back to a coarser grade.
#[test]
fn the_ladder_is_entered_where_the_work_asks() {
    let grind = words(&lapped(".0004 in"), "stages");
    let lap = words(&lapped(".0015 in"), "stages");
    let machine = words(&lapped(".006 in"), "stages");
    assert!(
        grind.starts_with("prove each face") && !grind.contains("coarse"),
        "{grind}"
    );
    assert!(lap.starts_with("lap each face, coarse"), "{lap}");
    assert!(machine.starts_with("machine |"), "{machine}");
    assert!(machine.ends_with(&lap) && lap.ends_with(&grind));
    assert_eq!(words(&lapped(".006 in"), "machine_first"), "0.0040");
    assert_eq!(
        words(&lapped(".006 in"), "disc_sinks"),
        "cannot tell: needs half_angle"
    );
}

/// The disc's metal as the lap is told apart from the disc; the softer lap is preferred.
#[test]
fn which_lap_suits_which_face_is_said() {
    assert!(suits("copper", "cast-iron").starts_with("softer"));
    assert!(suits("cast-iron", "bronze").starts_with("harder"));
    assert!(suits("cast-iron", "cast-iron").starts_with("about as hard"));
    assert!(suits("hardened-steel", "cast-iron").contains("the grit rolls"));
    let sheet = worked(
        "seat.lap",
        &[
            ("body_material", "bronze"),
            ("disc_material", "bronze"),
            ("lap_material", "bronze"),
            ("stock", ".001 in"),
        ],
    );
    assert!(
        sheet
            .notices
            .iter()
            .any(|n| n.contains("not the disc of this valve")),
        "{:?}",
        sheet.notices
    );
    assert!(
        sheet
            .cautions
            .iter()
            .any(|c| c.contains("Never use the disc as a lap"))
    );
}

/// The first worked case of the notes, by us: 2.1 in, 3/32 in, 45 degrees, 200 psi.
#[test]
fn the_first_worked_contact_stands() {
    let pairs = [
        ("mean_diameter", "2.1 in"),
        ("ring_width", "3/32 in"),
        ("half_angle", "45deg"),
        ("pressure", "200 psig"),
    ];
    let sheet = worked("seat.contact", &pairs);
    assert_eq!(words(&sheet, "closing_force"), "693");
    assert_eq!(words(&sheet, "seat_stress"), "1584");
    assert_eq!(words(&sheet, "ring_target"), "0.1250");
    assert_eq!(
        words(&sheet, "stress_with_seating"),
        "cannot tell: needs seating"
    );
    let wide = [
        ("mean_diameter", "7 in"),
        ("ring_width", "3/32 in"),
        ("half_angle", "45deg"),
        ("pressure", "200 psig"),
    ];
    assert!(
        words(&worked("seat.contact", &wide), "ring_target")
            .starts_with("cannot tell: needs a width")
    );
    assert_eq!(width_wanted(Length::inches(0.2)), None);
    assert_eq!(width_wanted(Length::inches(6.01)), None);
}

#[test]
fn a_metal_without_a_steam_table_is_warned_of() {
    let bar = |material| {
        worked(
            "lathe.stock",
            &[
                ("material", material),
                ("diameter", "2 in"),
                ("length", "3 in"),
                ("bore", "0 in"),
                ("parts", "1"),
                ("on_diameter", ".125 in"),
                ("facing", ".0625 in"),
                ("parting", ".125 in"),
                ("holding", "1 in"),
                ("cored", "0 in"),
            ],
        )
    };
    let leaded = bar("c93200");
    assert!(words(&leaded, "steam").starts_with("no limit on file"));
    assert!(
        leaded.notices.iter().any(|n| n.contains("Ask the code")),
        "{:?}",
        leaded.notices
    );
    assert!(
        bar("c92200")
            .notices
            .iter()
            .all(|n| !n.contains("Ask the code"))
    );
    assert!(words(&bar("c83600"), "steam").contains("from memory"));
    let hollow = typed(&[
        ("material", "c92200"),
        ("diameter", "2 in"),
        ("length", "3 in"),
        ("bore", "1 in"),
        ("parts", "1"),
        ("on_diameter", "0 in"),
        ("facing", "0 in"),
        ("parting", "0 in"),
        ("holding", "0 in"),
        ("cored", "1.5 in"),
    ]);
    let said = run("lathe.stock", &hollow, House::Inch)
        .unwrap_err()
        .to_string();
    assert!(said.contains("makes no part"), "{said}");
}

#[test]
fn the_table_of_metals_agrees_with_its_card() {
    let card: toml::Table = include_str!("../../../../tables/material/shop.toml")
        .parse()
        .unwrap();
    let csv = include_str!("../../../../tables/material/shop.csv");
    let rows: Vec<Vec<&str>> = csv
        .lines()
        .filter(|l| !l.starts_with('#'))
        .skip(1)
        .map(|l| l.split(',').collect())
        .collect();
    let tensile: i64 = rows.iter().map(|row| row[1].parse::<i64>().unwrap()).sum();
    assert_eq!(tensile, card["checksum"].as_integer().unwrap());
    assert_eq!(rows.len() as i64, card["rows"].as_integer().unwrap());
    for row in rows {
        // Gray iron has no yield; every other metal yields before it breaks.
        let yields = row[2].parse::<i64>().unwrap_or(0);
        assert!(yields < row[1].parse().unwrap(), "{}", row[0]);
        let weight: f64 = row[6].parse().unwrap();
        assert!((0.25..0.33).contains(&weight), "{}", row[0]);
    }
}

proptest! {
    /// At the lift found the gap is as large as the port. A flatter cone needs less lift, up to the
    /// nearly flat ones, whose frustum still widens a little: they need least.
    #[test]
    fn the_gap_equals_the_port(d in 0.1f64..19.0, degrees in 15.0f64..89.0) {
        let (port, half) = (Length::inches(d), Angle::degrees(degrees));
        let high = lift(port, half);
        let area = std::f64::consts::PI * d * d / 4.0;
        prop_assert!((curtain(port, half, high).to_sq_in() / area - 1.0).abs() < 1e-12);
        let flatter = lift(port, Angle::degrees(degrees + 1.0)).to_inches();
        prop_assert!(degrees > 75.0 || flatter < high.to_inches());
        prop_assert!((lift(port, Angle::degrees(90.0)).to_inches() / d - 0.25).abs() < 1e-12);
    }

    /// The ring's area is that of two circles less each other; a steeper cone offers less.
    #[test]
    fn a_ring_is_two_circles(d in 1.0f64..10.0, w in 0.01f64..0.5, degrees in 10.0f64..89.0) {
        let half = Angle::degrees(degrees);
        let area = ring_area(Length::inches(d), Length::inches(w), half).to_sq_in();
        let across = w * measure::math::sin(degrees.to_radians());
        let circles = std::f64::consts::PI / 4.0 * ((d + across) * (d + across) - (d - across) * (d - across));
        prop_assert!((area / circles - 1.0).abs() < 1e-9);
        prop_assert!(ring_area(Length::inches(d), Length::inches(w), Angle::degrees(degrees + 1.0)).to_sq_in() > area);
    }

    /// A tube and the bar that fills it weigh as much as the whole bar.
    #[test]
    fn weights_add_up(d in 0.5f64..20.0, part in 0.1f64..0.9, l in 0.1f64..50.0) {
        let tube = cylinder_weight(d, d * part, l, 0.3);
        let core = cylinder_weight(d * part, 0.0, l, 0.3);
        prop_assert!(((tube + core) / cylinder_weight(d, 0.0, l, 0.3) - 1.0).abs() < 1e-12);
    }
}
