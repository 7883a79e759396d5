//! Results in words: what a sheet says of its own figures agrees with them.

use crate::{answer, figure, valid};
use measure::House;
use physics::answer::{Answer, Outcome};
use physics::find;

/// A result in words.
fn text(answer: &Answer, name: &str) -> String {
    match answer.result(name) {
        Some(Outcome::Text(text)) => text.clone(),
        other => panic!("{name}: {other:?}"),
    }
}

/// ISO 286-1, definitions: a clearance fit never interferes, an interference fit never clears, a transition fit may do either.
#[test]
fn the_kind_of_a_fit_is_what_its_limits_make_it() {
    for id in ["fit.iso", "fit.inch_class"] {
        for (_, worked) in valid(find(id).unwrap(), 400, House::Inch) {
            let (least, most) = (
                figure(&worked.answer, "hole_min") - figure(&worked.answer, "shaft_max"),
                figure(&worked.answer, "hole_max") - figure(&worked.answer, "shaft_min"),
            );
            // Limits are kept to a hundredth of a micrometre: closer than that is the same size.
            let expected = match (least >= -1e-8, most <= 1e-8) {
                (true, _) => "clearance",
                (_, true) => "interference",
                _ => "transition",
            };
            let kind = text(&worked.answer, "kind");
            assert!(kind.contains(expected), "{id} {kind}: {least} {most}");
            assert!(
                (figure(&worked.answer, "clearance_min") - least).abs() < 1e-9,
                "{id}"
            );
            assert!(
                (figure(&worked.answer, "clearance_max") - most).abs() < 1e-9,
                "{id}"
            );
        }
    }
}

/// A short ton is 2000 lb and a long one 2240 lb: 224,000 lb are 112 of the one and 100 of the other.
#[test]
fn both_kinds_of_ton_are_told() {
    for id in ["fit.press", "fit.bushing"] {
        for (_, worked) in valid(find(id).unwrap(), 50, House::Inch) {
            let pounds = figure(&worked.answer, "force") / 4.448_221_615_260_5;
            let said = text(&worked.answer, "tons");
            let (short, long) = said.split_once(" tons of 2000 lb, ").unwrap();
            let long = long.strip_suffix(" tons of 2240 lb").unwrap();
            let near = |told: &str, tons: f64| (told.parse::<f64>().unwrap() - tons).abs() < 0.0501;
            assert!(
                near(short, pounds / 2000.0) && near(long, pounds / 2240.0),
                "{said}: {pounds} lb"
            );
        }
    }
}

/// US Navy manual 14265, page 131: a valve up to 2 in has a seat 3/32 in (.09375) wide. Half and one and a quarter of it are
/// still about right, by common practice; a hair beyond is said.
#[test]
fn a_ring_is_judged_by_the_width_of_the_list() {
    for (width, said) in [
        ("0.046874 in", "narrower"),
        ("0.046876 in", "about"),
        ("0.117187 in", "about"),
        ("0.117189 in", "wider"),
    ] {
        let pairs = [
            ("mean_diameter", "2 in"),
            ("ring_width", width),
            ("half_angle", "45 deg"),
            ("pressure", "200 psi"),
        ];
        let told = text(&answer("seat.contact", &pairs), "judged");
        assert!(told.starts_with(said), "{width}: {told}");
    }
}

/// Master Mechanics' table: .066 in for a center of 62 in. Five thousandths off are within it, a
/// hair more is said, and to which side.
#[test]
fn a_shrinkage_is_judged_by_the_table() {
    for (given, said) in [
        ("0.0609 in", "less than"),
        ("0.0611 in", "within"),
        ("0.0709 in", "within"),
        ("0.0711 in", "more than"),
    ] {
        let pairs = [
            ("diameter", "62 in"),
            ("interference", given),
            ("clearance", ".02 in"),
            ("material", "steel"),
        ];
        let told = text(&answer("fit.tire", &pairs), "judged");
        assert!(told.contains(said), "{given}: {told}");
    }
}
