//! What the book tells of wear: openings across re-cuts, service days that are all accounted for, and what is named where not.

use std::collections::BTreeMap;

use jiff::civil::{Date, date};
use measure::{House, Size, State};
use shop::book::{FeatureTold, PaperCounted, PartId, Side};
use shop::locomotive::{NewPart, Taking, add_part, take_readings};
use shop::route::{Wear, quantity, wear};

use crate::world::{ADA, BEN, FOURTEEN, TODAY, World, reading};

const RIGHT: PartId = PartId(0x516);
const LEFT: PartId = PartId(0x1EF);

fn bushing(world: &mut World, id: PartId, side: Side, pin: &str) {
    let limit = FeatureTold {
        shop_limit: Some(".09375 in".into()),
        ..FeatureTold::default()
    };
    let mut new = NewPart {
        id,
        locomotive: FOURTEEN,
        family: "rod-bushing".into(),
        name: format!("{} side-rod bushing", side.word()),
        facts: BTreeMap::from([("pin".to_string(), pin.to_string())]),
        features: BTreeMap::new(),
        known: Default::default(),
    };
    new.known.side = Some(side);
    let made = add_part(&world.book, new);
    world.enter(ADA, TODAY, made);
    let part = world.book.parts.get_mut(&id).unwrap();
    part.features.insert("bore-over-pin".into(), limit);
}

/// A whole set: the bore alike at each place, the pin too.
fn read(world: &mut World, id: PartId, on: Date, state: State, bore: &str, pin: &str) {
    let places = ["inner end", "middle", "outer end"];
    let all = places
        .iter()
        .flat_map(|place| {
            [
                reading("bore", place, bore, state),
                reading("pin", place, pin, state),
            ]
        })
        .collect();
    let taking = Taking {
        on: Some(on),
        insist: (state == State::AsLeft).then(|| "a new bushing".into()),
        ..Taking::default()
    };
    let made = take_readings(&world.book, id, None, state, all, &taking);
    world.enter(BEN, on, made);
}

fn counted(world: &mut World, from: Date, through: Date, days: u32) {
    let told = PaperCounted {
        locomotive: FOURTEEN,
        from,
        through,
        service_days: days,
        document: "Form 5".into(),
    };
    let made = shop::clock::count_paper(&world.book, told, TODAY);
    world.enter(ADA, TODAY, made);
}

fn told(world: &World, id: PartId) -> Wear {
    wear(&world.book, world.rules, id, TODAY, House::Inch, Some(40)).unwrap()
}

/// Left .012 over, found .052 after 100 service days; rebushed and left .012, found .072 after 100 more.
fn worn() -> World {
    let mut world = World::new();
    bushing(&mut world, RIGHT, Side::Right, "side-other-pin");
    let left = State::AsLeft;
    let found = State::AsFound;
    read(
        &mut world,
        RIGHT,
        date(2018, 3, 1),
        left,
        "6.012 in",
        "6 in",
    );
    read(
        &mut world,
        RIGHT,
        date(2021, 2, 1),
        found,
        "6.052 in",
        "6 in",
    );
    read(
        &mut world,
        RIGHT,
        date(2021, 3, 1),
        left,
        "6.012 in",
        "6 in",
    );
    read(
        &mut world,
        RIGHT,
        date(2026, 4, 1),
        found,
        "6.072 in",
        "6 in",
    );
    counted(&mut world, date(2018, 3, 1), date(2021, 1, 31), 100);
    counted(&mut world, date(2021, 2, 1), date(2026, 3, 31), 100);
    world
}

#[test]
fn a_rate_goes_from_each_as_left_to_the_next_as_found_and_a_re_cut_is_no_wear() {
    let world = worn();
    let wear = told(&world, RIGHT);
    let it = wear
        .forecasts
        .iter()
        .find(|it| it.name == "bore-over-pin")
        .unwrap();
    let days: Vec<_> = it.openings.iter().map(|opening| opening.days).collect();
    assert_eq!(days, [Some(100), Some(100)]);
    let inches = |name: &str| quantity(&it.sheet, name).unwrap() / 0.0254;
    // By hand: .0004 and .0006 in a service day.
    assert!((inches("rate") - 0.0005).abs() < 1e-9);
    // By hand: 12.7062 * .000141421 * sqrt(1.5) (t of one degree of freedom, 0.975: 12.7062, any table of Student's t).
    assert!((inches("interval") - 0.002_200_8).abs() < 1e-6);
    // (.1875 - .072) / .0005 = 231 by the law on this pin; our own .09375 comes first.
    assert!((quantity(&it.sheet, "days_to_rule_limit").unwrap() - 231.0).abs() < 1e-6);
    assert!((quantity(&it.sheet, "days_to_shop_limit").unwrap() - 43.5).abs() < 1e-6);
}

#[test]
fn which_pin_it_is_decides_how_many_days_are_left() {
    let mut world = worn();
    let part = world.book.parts.get_mut(&RIGHT).unwrap();
    part.facts.insert("pin".into(), "side-main-pin".into());
    let wear = told(&world, RIGHT);
    let it = &wear.forecasts[0];
    assert_eq!(it.name, "bore-over-pin");
    let (limit, ruling) = it.rule_limit.as_ref().unwrap();
    assert_eq!(*limit, Size::parse("5/32 in").unwrap());
    assert_eq!(ruling.rule, "us-steam.rod.side.bore-over-main-pin");
    assert!((quantity(&it.sheet, "days_to_rule_limit").unwrap() - 168.5).abs() < 1e-6);
    // Nobody said which: then no figure of law goes in.
    let part = world.book.parts.get_mut(&RIGHT).unwrap();
    part.facts.clear();
    let wear = told(&world, RIGHT);
    assert!(wear.forecasts[0].rule_limit.is_none());
    assert_eq!(
        quantity(&wear.forecasts[0].sheet, "days_to_rule_limit"),
        None
    );
}

#[test]
fn without_an_as_left_or_with_a_day_that_nobody_counted_there_is_no_rate_and_it_is_named() {
    let mut world = World::new();
    bushing(&mut world, RIGHT, Side::Right, "side-other-pin");
    read(
        &mut world,
        RIGHT,
        date(2021, 2, 1),
        State::AsFound,
        "6.052 in",
        "6 in",
    );
    let wear = told(&world, RIGHT);
    let opening = &wear.forecasts[0].openings[0];
    assert_eq!((opening.left, opening.days), (None, None));
    assert_eq!(
        opening.told,
        ["how it was left before it was found on 2021-02-01: nobody wrote it down"]
    );
    // A paper that stops a day short counts nothing: more days would make the wear look slower.
    read(
        &mut world,
        RIGHT,
        date(2021, 3, 1),
        State::AsLeft,
        "6.012 in",
        "6 in",
    );
    read(
        &mut world,
        RIGHT,
        date(2026, 4, 1),
        State::AsFound,
        "6.072 in",
        "6 in",
    );
    counted(&mut world, date(2021, 3, 1), date(2026, 3, 30), 100);
    let wear = told(&world, RIGHT);
    let opening = &wear.forecasts[0].openings[1];
    assert_eq!(opening.days, None);
    assert_eq!(
        opening.told,
        [
            "the service days from 2026-03-31 through 2026-03-31: no closed log and no paper counts them alone"
        ]
    );
    assert_eq!(quantity(&wear.forecasts[0].sheet, "rate"), None);
}

#[test]
fn one_that_wears_four_times_its_mirror_is_told() {
    let mut world = worn();
    bushing(&mut world, LEFT, Side::Left, "side-other-pin");
    read(
        &mut world,
        LEFT,
        date(2018, 3, 1),
        State::AsLeft,
        "6.012 in",
        "6 in",
    );
    read(
        &mut world,
        LEFT,
        date(2021, 2, 1),
        State::AsFound,
        "6.0245 in",
        "6 in",
    );
    let wear = told(&world, RIGHT);
    let said = wear.forecasts[0].sheet.result("mirror").unwrap();
    let physics::Shown::Text(said) = said else {
        panic!("{said:?}")
    };
    // .0005 against .000125 in a service day.
    assert_eq!(
        said,
        "wears 4.0 times its mirror: look at tram, quarter, lubrication"
    );
}

#[test]
fn the_coming_openings_are_in_service_days_and_one_is_enough_for_each() {
    let mut world = World::new();
    world.paper("annual", date(2026, 2, 1), None);
    let wear = {
        bushing(&mut world, RIGHT, Side::Right, "side-other-pin");
        told(&world, RIGHT)
    };
    let annual = wear.coming.ahead.iter().find(|it| it.what == "annual");
    let annual = annual.unwrap();
    // 368 days from 2026-02-01 leave 278 on 2 May; of 40 service days a year that is 31 of them, rounded up.
    assert_eq!(annual.days, 31, "{}", annual.why);
}

/// A season of two fires with 30 miles each between an as-left and an as-found, in a closed log.
fn a_logged_season() -> World {
    let mut world = World::new();
    bushing(&mut world, RIGHT, Side::Right, "side-other-pin");
    let (left, found) = (date(2026, 3, 1), date(2026, 4, 20));
    read(&mut world, RIGHT, left, State::AsLeft, "6.012 in", "6 in");
    for (day, miles) in [
        // The day before it was left is in no rate.
        (date(2026, 2, 28), Some(500)),
        (date(2026, 3, 7), Some(30)),
        (date(2026, 4, 18), Some(30)),
    ] {
        world.steamed_for(day, miles);
    }
    world.closed(date(2026, 2, 1), date(2026, 4, 30));
    read(&mut world, RIGHT, found, State::AsFound, "6.018 in", "6 in");
    world
}

fn over_pin(wear: Wear) -> shop::route::Forecast {
    let mut all = wear.forecasts.into_iter();
    all.find(|it| it.name == "bore-over-pin").unwrap()
}

#[test]
fn by_miles_stands_beside_by_days_where_every_day_has_its_miles() {
    let world = a_logged_season();
    let it = over_pin(told(&world, RIGHT));
    assert_eq!(it.openings[0].days, Some(2));
    assert_eq!(it.openings[0].miles, Some(Ok(60)));
    let sheet = it.by_miles.unwrap();
    // By hand: .006 in 60 miles is .1 in a thousand; (.1875 - .018) at that is 1695 miles by the law, (.09375 - .018) 757.5 by us.
    assert!((quantity(&sheet, "rate").unwrap() / 0.0254 - 0.1).abs() < 1e-9);
    assert!((quantity(&sheet, "miles_to_rule_limit").unwrap() - 1695.0).abs() < 1e-6);
    assert!((quantity(&sheet, "miles_to_shop_limit").unwrap() - 757.5).abs() < 1e-6);
    // The log holds no whole year, so miles are not turned into days.
    assert_eq!(quantity(&sheet, "days_to_shop_limit"), None);
}

#[test]
fn a_year_of_the_log_turns_miles_into_service_days() {
    let mut world = a_logged_season();
    world.closed(date(2025, 5, 1), date(2026, 1, 31));
    let sheet = over_pin(told(&world, RIGHT)).by_miles.unwrap();
    // By hand: 560 miles in 3 service days, rounded up, 186.67 a day; 757.5 miles are 4.058 of those.
    let days = quantity(&sheet, "days_to_shop_limit").unwrap();
    assert!((days - 757.5 / 186.67).abs() < 1e-6, "{days}");
}

#[test]
fn a_day_whose_miles_nobody_logged_takes_the_rate_by_miles_away_and_is_named() {
    let mut world = a_logged_season();
    world.steamed_for(date(2026, 4, 4), None);
    let it = over_pin(told(&world, RIGHT));
    assert_eq!(it.openings[0].days, Some(3));
    let needs = "the miles of 2026-04-04".to_string();
    assert_eq!(it.openings[0].miles, Some(Err(needs)));
    assert_eq!(quantity(&it.by_miles.unwrap(), "rate"), None);
    // A paper counts service days and no miles.
    let it = over_pin(told(&worn(), RIGHT));
    let needs = "the miles from 2018-03-01 through 2021-01-31, where no log is closed".to_string();
    assert_eq!(it.openings[0].miles, Some(Err(needs)));
    assert_eq!(it.openings[0].days, Some(100));
    // Where her fires were not read, nothing is said of miles at all.
    let mut unread = a_logged_season();
    unread.book.fires = shop::book::Fires::none_asked();
    let it = over_pin(told(&unread, RIGHT));
    assert_eq!(it.openings[0].miles, None);
    assert!(it.by_miles.is_none());
}
