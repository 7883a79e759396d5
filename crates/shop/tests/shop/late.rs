//! An entry made late that would have stopped days already run: it is taken, and says which.

use jiff::civil::Date;
use shop::book::{FindingId, Occasion, Statement};
use shop::finding::{NewFinding, record};
use shop::report::{Ran, ran_against, reaches_back};

use crate::flow::{self, CHECK};
use crate::world::{ELI, FOURTEEN, World, later};

const FIRST: Date = jiff::civil::date(2026, 3, 1);

/// What entering this on a day shows of the days before `today`.
fn shows(world: &World, statement: &Statement, done_on: Date, today: Date) -> Vec<Ran> {
    let (engine, from) = reaches_back(statement, done_on).unwrap();
    let mut after = world.clone();
    after.state(ELI, done_on, statement.clone());
    ran_against(&world.book, &after.book, world.rules, engine, from, today).unwrap()
}

fn fire(day: Date) -> Statement {
    Statement::FireLogged(shop::book::FireLogged {
        id: shop::book::FireId(0xFEED),
        locomotive: FOURTEEN,
        lit: Some(day.at(6, 0, 0, 0)),
        up: Some(day.at(8, 0, 0, 0)),
        out: Some(day.at(17, 0, 0, 0)),
        gone: Some(day.at(20, 0, 0, 0)),
        miles: None,
        offered: None,
    })
}

/// Her annual is of 31 January; since then she was in steam so many days, each of them logged.
fn steamed(days: i64) -> World {
    let mut world = flow::shop();
    world.paper("annual", flow::OPENED, None);
    world.did("air-brake-valves", flow::OPENED, None, None);
    world.did("frame-cleaning", flow::OPENED, None, None);
    for n in 0..days {
        world.steamed(later(FIRST, n));
    }
    world.closed(flow::OPENED, later(FIRST, days));
    world
}

/// 49 CFR 230.14: the 31 service day inspection. A fire of February that nobody had logged makes the day that was
/// her 31st the 32nd.
#[test]
fn a_fire_logged_late_makes_the_last_day_one_too_many() {
    let world = steamed(31);
    let today = later(FIRST, 40);
    let forgotten = fire(later(FIRST, -5));
    let shown = shows(&world, &forgotten, today, today);
    assert_eq!(shown.len(), 1, "{shown:?}");
    assert_eq!(shown[0].day, later(FIRST, 30));
    assert_eq!(shown[0].against, ["31 service day inspection"]);
    // With room left it changes nothing that was run.
    assert_eq!(shows(&steamed(30), &forgotten, today, today), []);
    // Entered as it happens, nothing lies behind it.
    assert_eq!(shows(&steamed(3), &fire(today), today, today), []);
}

#[test]
fn a_finding_dated_back_stands_against_the_days_run_since() {
    let world = steamed(5);
    let found_on = later(FIRST, 2);
    let new = NewFinding {
        id: FindingId(0xF9),
        locomotive: FOURTEEN,
        part: CHECK,
        occasion: Occasion::WriteUp,
        conditions: Vec::new(),
        told: "wept at the flange".into(),
        readings: Vec::new(),
        notice: None,
        taking: Default::default(),
    };
    let made = record(&world.book, new, ELI, found_on).unwrap();
    let shown = shows(&world, &made[0], found_on, later(FIRST, 9));
    let days: Vec<Date> = shown.iter().map(|ran| ran.day).collect();
    // Not the day it was found on: she was lit before.
    assert_eq!(days, [later(FIRST, 3), later(FIRST, 4)]);
    assert!(
        shown.iter().all(|ran| ran.against == ["finding F-001"]),
        "{shown:?}"
    );
    assert_eq!(
        shows(&world, &made[0], later(FIRST, 9), later(FIRST, 9)),
        []
    );
}
