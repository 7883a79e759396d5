//! What a finding asks for is read later and comes to it: while nobody has decided, at the places it did not read; once it
//! is carried, at any.

use measure::House;
use shop::Class::{Input, Refused};
use shop::book::{FeatureReading, FindingId, Statement};
use shop::decision::{Wish, decide};
use shop::finding::{NewFinding, measure, record};
use shop::locomotive::Taking;
use shop::route::routes;

use crate::refusals::finding;
use crate::said::{Said, no};
use crate::world::{ADA, DOT, TODAY, World, found, later};

const ID: FindingId = FindingId(1);

/// A crosshead read at the front only.
fn half() -> World {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let new = NewFinding {
        part,
        readings: found(&[
            ("vertical", "front", "1/8 in"),
            ("lateral", "front", "1/8 in"),
        ]),
        ..finding()
    };
    let made = record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world
}

fn at(place: &'static str, vertical: &'static str) -> Vec<FeatureReading> {
    found(&[("vertical", place, vertical), ("lateral", place, "1/8 in")])
}

fn read(world: &World, readings: Vec<FeatureReading>) -> Said<Vec<Statement>> {
    measure(&world.book, ID, readings, &Taking::default())
}

fn verdict(world: &World) -> String {
    let kept = &world.book.findings[&ID];
    let choice = routes(&world.book, world.rules, kept, TODAY, House::Inch).unwrap();
    choice.judgement.verdict.words()
}

#[test]
fn a_finding_gets_the_readings_its_verdict_needs() {
    let mut world = half();
    assert!(verdict(&world).contains("at middle"), "{}", verdict(&world));
    let made = read(&world, at("middle", "1/8 in"));
    world.enter(DOT, TODAY, made);
    // One place is still missing, and it may be the worst.
    assert!(
        verdict(&world).starts_with("cannot tell"),
        "{}",
        verdict(&world)
    );
    let mut worn = world.clone();
    // 49 CFR 230.94: 1/4 in up and down.
    let made = read(&worn, at("back", "17/64 in"));
    worn.enter(DOT, TODAY, made);
    assert_eq!(verdict(&worn), "fails");
    let made = read(&world, at("back", "1/8 in"));
    world.enter(DOT, TODAY, made);
    assert_eq!(verdict(&world), "complies");
    // They are readings of the part too, each with its finding.
    let part = world.book.findings[&ID].part;
    let sets = world.book.readings.newest_first(part).unwrap();
    assert_eq!(sets.len(), 3);
    assert!(sets.iter().all(|set| set.finding == Some(ID)));
}

#[test]
fn what_it_was_found_at_is_not_read_a_second_time_and_what_is_decided_stands() {
    let mut world = half();
    no(
        read(&world, at("front", "1/16 in")),
        Input,
        &["F-001", "`vertical` at front", "as it was found", "entry"],
    );
    no(read(&world, Vec::new()), Input, &["At least one reading"]);
    for place in ["middle", "back"] {
        let made = read(&world, at(place, "1/8 in"));
        world.enter(DOT, TODAY, made);
    }
    let wish = |route: &str| Wish {
        finding: ID,
        route: route.into(),
        because: "inside its limits".into(),
        recheck: Some(later(TODAY, 60)),
    };
    let mut ordered = world.clone();
    let made = decide(&ordered.book, ordered.rules, wish("shim"), ADA, TODAY);
    ordered.enter(ADA, TODAY, made);
    no(
        read(&ordered, at("front", "1/8 in")),
        Refused,
        &["F-001 has been decided on", "in the job"],
    );
    // Carried, it is looked at again at every place, and that is what is decided on next.
    let made = decide(&world.book, world.rules, wish("carry"), ADA, TODAY);
    world.enter(ADA, TODAY, made);
    let made = read(&world, at("middle", "17/64 in"));
    world.enter(DOT, TODAY, made);
    assert_eq!(verdict(&world), "fails");
    no(
        decide(
            &world.book,
            world.rules,
            wish("carry"),
            ADA,
            later(TODAY, 1),
        ),
        Refused,
        &["`carry` cannot be taken", "230.94"],
    );
}
