//! The driving tires of an engine together, out of the readings in the book.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use measure::State;
use shop::book::{PartId, PartKnown, Side};
use shop::locomotive::{NewPart, Taking, add_part, take_readings};
use shop::ruled::knock_on::{changed_by, moved};
use shop::ruled::tires::{TirePlan, TireSet, tire_set};

use crate::world::{ADA, BEN, FOURTEEN, TODAY, World, later, reading};

const PLACES: [&str; 3] = ["first", "second", "third"];

fn tire(axle: u32, side: Side) -> PartId {
    PartId(0x71_0000 + u128::from(axle) * 2 + u128::from(side == Side::Right))
}

/// Four axles of two tires on 50 in centers; each is read today, all but `unread` at every place.
fn set(thickness: &dyn Fn(u32, Side) -> &'static str, unread: Option<PartId>) -> World {
    let mut world = World::new();
    for axle in 1..=4 {
        for side in [Side::Left, Side::Right] {
            let id = tire(axle, side);
            let new = NewPart {
                id,
                locomotive: FOURTEEN,
                family: "driving-tire".into(),
                name: format!("{side:?} tire {axle}"),
                facts: BTreeMap::from([("center-diameter".to_string(), "50 in".to_string())]),
                features: BTreeMap::new(),
                known: PartKnown {
                    side: Some(side),
                    axle: Some(axle),
                    ..PartKnown::default()
                },
            };
            let made = add_part(&world.book, new);
            world.enter(ADA, date(2024, 1, 2), made);
            let places = if unread == Some(id) {
                &PLACES[..2]
            } else {
                &PLACES
            };
            read(
                &mut world,
                id,
                TODAY,
                State::AsFound,
                thickness(axle, side),
                places,
            );
        }
    }
    world
}

fn read(world: &mut World, part: PartId, on: Date, state: State, thick: &str, places: &[&str]) {
    let mut readings = Vec::new();
    for place in places {
        readings.push(reading("thickness", place, thick, state));
        readings.push(reading("hollow", place, "7/32 in", state));
        readings.push(reading("flange-thickness", place, "1-1/8 in", state));
    }
    let taking = Taking {
        on: Some(on),
        ..Taking::default()
    };
    let made = take_readings(&world.book, part, None, state, readings, &taking);
    world.enter(BEN, on, made);
}

fn work(world: &World, clean_up: Option<&str>, weeks: Option<u32>) -> TireSet {
    let plan = TirePlan {
        clean_up: clean_up.map(str::to_owned),
        lead_weeks: weeks,
    };
    tire_set(&world.book, world.rules, FOURTEEN, TODAY, &plan).unwrap()
}

fn usual(axle: u32, side: Side) -> &'static str {
    match (axle, side) {
        (3, Side::Left) => "1-51/64 in",
        (3, _) => "1-13/16 in",
        _ => "1-27/32 in",
    }
}

#[test]
fn one_diameter_is_the_smallest_wheels_less_the_cut() {
    let set = work(&set(&usual, None), Some("1/32 in"), None);
    assert_eq!((set.wheels.len(), set.drivers), (8, Some(8)));
    assert!(set.missing.is_empty(), "{:?}", set.missing);
    let it = set.proposal.unwrap();
    // Plain arithmetic: 50 + 2 x 1.796875 - 2 x .03125; the thinnest tire is half of what is over the center.
    assert!(it.known && (it.diameter - 53.53125).abs() < 1e-9, "{it:?}");
    assert!((it.thinnest - 1.765625).abs() < 1e-9);
    assert!((it.drop - (50.0 + 2.0 * 1.84375 - 53.53125) / 2.0).abs() < 1e-9);
    // Axle by axle, left before right.
    let names: Vec<_> = set.wheels.iter().map(|wheel| wheel.name.as_str()).collect();
    assert_eq!(names[..3], ["Left tire 1", "Right tire 1", "Left tire 2"]);
    assert_eq!(
        set.wheels[4].cut[2], "0.031",
        "the smallest loses the cut alone"
    );
    // What comes down with her, of the table of knock-ons: the axles, the frame and what the law limits under it.
    let ash_pan = it
        .moves
        .iter()
        .find(|one| one.size == "ash-pan-clearance")
        .unwrap();
    assert_eq!(
        (ash_pan.share.clone(), &ash_pan.limits[0][..]),
        (Ok(1.0), "us-steam.ash-pan.above-rail")
    );
}

#[test]
fn a_place_that_nobody_read_leaves_only_a_bound() {
    let whole = work(&set(&usual, None), Some("1/32 in"), Some(40));
    let part = tire(2, Side::Right);
    let lacks = work(&set(&usual, Some(part)), Some("1/32 in"), Some(40));
    assert!(
        lacks.missing.iter().any(|it| it.contains("third")),
        "{:?}",
        lacks.missing
    );
    let (known, bound) = (whole.proposal.unwrap(), lacks.proposal.unwrap());
    assert!(known.known && !bound.known);
    assert!(bound.life.is_none() && lacks.order_by.is_err());
    assert!(lacks.stands != "complies" && bound.stands != "complies");
    // A tire that is no part in the book is missing too.
    let mut world = set(&usual, None);
    world.book.parts.remove(&part);
    let fewer = work(&world, Some("1/32 in"), None);
    assert!(
        fewer.missing.iter().any(|it| it.contains("1 of her 8")),
        "{:?}",
        fewer.missing
    );
    assert!(!fewer.proposal.unwrap().known);
    assert!(!fewer.stands.starts_with("complies"));
}

#[test]
fn without_the_cut_there_is_no_proposal_and_the_wheels_stand_as_they_are() {
    let set = work(&set(&usual, None), None, None);
    assert!(set.proposal.is_err());
    assert!(
        set.wheels
            .iter()
            .all(|wheel| wheel.stands.len() == 6 && wheel.cut.is_empty())
    );
}

#[test]
fn wear_is_the_fastest_over_the_fewest_days_and_the_order_comes_before_the_end() {
    let mut world = set(&usual, None);
    let turned = date(2025, 1, 1);
    read(
        &mut world,
        tire(3, Side::Left),
        turned,
        State::AsLeft,
        "2 in",
        &PLACES,
    );
    let unlogged = work(&world, Some("1/32 in"), Some(40));
    assert!(unlogged.wear.is_err() && unlogged.worn_out.is_err());
    for day in 0..100 {
        world.steamed(later(date(2025, 5, 1), day));
    }
    world.closed(date(2022, 1, 1), TODAY);
    let set = work(&world, Some("1/32 in"), Some(40));
    let wear = set.wear.clone().unwrap();
    assert_eq!(wear.days, 100);
    assert!((wear.inches - (2.0 - 1.796875)).abs() < 1e-9);
    assert_eq!(set.a_year, Ok(100));
    let it = set.proposal.clone().unwrap();
    let (life, left) = (it.life.unwrap(), it.left.unwrap());
    assert!((life - left * 100.0 / wear.inches).abs() < 0.1, "{life}");
    let (end, order) = (set.worn_out.unwrap(), set.order_by.unwrap());
    assert_eq!(later(order, 280), end, "forty weeks before");
}

#[test]
fn a_knock_on_comes_after_what_moves_it_with_its_sign() {
    let all = moved("tire-thickness", &BTreeMap::new()).unwrap();
    let at = |size: &str| all.iter().position(|it| it.size == size).unwrap();
    assert!(
        at("driving-radius") < at("axle-height") && at("axle-height") < at("ash-pan-clearance")
    );
    // A thicker tire fills the gap of the shoe, and twice the radius is the diameter.
    assert_eq!(all[at("shoe-gap")].share, Ok(-1.0));
    assert_eq!(all[at("driving-diameter")].share, Ok(2.0));
    // The travel of the brake piston hangs on the rigging's leverage, which is asked for.
    assert_eq!(all[at("piston-travel")].share, Err(vec!["leverage".into()]));
    assert!(moved("no-such-size", &BTreeMap::new()).is_err());
    let turned = changed_by("driving-tire", "turn").unwrap();
    assert_eq!((turned.len(), turned[0].up), (1, Some(false)));
    assert!(turned[0].limits().contains(&"us-steam.ash-pan.above-rail"));
    assert!(changed_by("driving-tire", "carry").unwrap().is_empty());
}

/// Every choice of the table is one that a family has, under a size that the table of knock-ons has.
#[test]
fn every_choice_of_the_table_is_one_of_a_family() {
    let world = World::new();
    for choice in physics::law::running_knock_on::choices().unwrap() {
        let family = world.book.families.get(&choice.family);
        let family = family.unwrap_or_else(|| panic!("{}", choice.family));
        let family = family.family().unwrap();
        assert!(
            family.routes.iter().any(|route| route.word == choice.route),
            "{} of {}",
            choice.route,
            choice.family
        );
    }
}

/// Every sheet and rule of the table of yearly work is on file; what has no sheet says what would settle it.
#[test]
fn the_table_of_yearly_work_names_what_is_there() {
    let world = World::new();
    let all = shop::ruled::yearly::yearly().unwrap();
    assert!(all.len() >= 30);
    for it in all {
        for sheet in &it.sheets {
            assert!(physics::find(sheet).is_ok(), "{sheet} of {}", it.work);
        }
        for rule in &it.rules {
            assert!(
                world.rules.rules().any(|known| known.id == *rule),
                "{rule} of {}",
                it.work
            );
        }
        assert!(!it.is_not_on_file() || !it.lacks.is_empty(), "{}", it.work);
    }
}
