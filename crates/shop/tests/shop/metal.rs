//! Metal left is of the newest day it was read, whenever that was entered.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use measure::{Size, State};
use shop::book::{FeatureFacts, PartId, Statement};
use shop::locomotive::{NewPart, Taking, add_part, take_readings};
use shop::route::metal_left;

use crate::world::{ADA, BEN, FOURTEEN, TODAY, World, reading};

fn left(world: &World, part: PartId) -> Option<(Size, Date)> {
    let kept = &world.book.parts[&part];
    let family = world.book.families[&kept.family].family().unwrap();
    let sets = world.book.readings.newest_first(part).unwrap();
    let all = metal_left(family, kept, &sets);
    all.first().map(|metal| (metal.left, metal.on))
}

fn walls(world: &mut World, part: PartId, on: Date, size: &str, places: &[&str]) {
    let readings = places
        .iter()
        .map(|place| reading("seat-wall", place, size, State::AsFound))
        .collect();
    let made: Result<Vec<Statement>, _> = take_readings(
        &world.book,
        part,
        None,
        State::AsFound,
        readings,
        &Taking {
            on: Some(on),
            ..Taking::default()
        },
    );
    world.enter(BEN, on, made);
}

#[test]
fn an_old_notebook_copied_in_late_gives_no_metal_back() {
    let mut world = World::new();
    let part = PartId(0x5EA7);
    let limit = FeatureFacts {
        shop_limit: Some(".250 in".into()),
        ..FeatureFacts::default()
    };
    let new = NewPart {
        id: part,
        locomotive: FOURTEEN,
        family: "check-valve".into(),
        name: "right feed check".into(),
        facts: BTreeMap::new(),
        features: BTreeMap::from([("seat-wall".to_string(), limit)]),
        known: Default::default(),
    };
    let made = add_part(&world.book, new);
    world.enter(ADA, TODAY, made);
    let all = ["front", "right", "back", "left"];
    walls(&mut world, part, date(2026, 1, 31), ".409 in", &all);
    let now = (Size::parse(".159 in").unwrap(), date(2026, 1, 31));
    assert_eq!(left(&world, part), Some(now));
    walls(&mut world, part, date(2013, 3, 9), ".484 in", &all);
    assert_eq!(left(&world, part), Some(now));
    // Of one day, what was entered last counts; a place not read gives none.
    walls(&mut world, part, date(2026, 1, 31), ".399 in", &all);
    assert_eq!(
        left(&world, part).unwrap().0,
        Size::parse(".149 in").unwrap()
    );
    walls(&mut world, part, date(2026, 2, 1), ".399 in", &all[1..]);
    assert_eq!(left(&world, part), None);
}
