//! Clocks outside the round of inspections, and the days they run from: brake valves, frames, the first fifteen
//! years, the fifth annual, an inspection of many days.
//!
//! The figures are those of 49 CFR Part 230, 2015 edition, at the section named beside each test. That the day
//! after the last is the first too late is inference, and is marked so in the rulebook.

use jiff::civil::{Date, date};
use shop::Class::{Input, Refused};
use shop::book::{Answer, InspectionId};
use shop::clock::{Clock, State, due};

use crate::said::no;
use crate::world::{ADA, DOT, FOURTEEN, TODAY, World, later, person};

fn clock(world: &World, rule: &str, on: Date) -> Clock {
    let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    let wanted = format!("us-steam.clock.{rule}");
    let mut named = clocks.into_iter().filter(|c| c.ruling.rule == wanted);
    named.next().unwrap()
}

fn cannot_tell(clock: &Clock) -> bool {
    matches!(clock.state, State::CannotTell(_))
}

fn says(clock: &Clock, words: &[&str]) {
    for word in words {
        assert!(
            clock.why.contains(word),
            "`{word}` is not in: {}",
            clock.why
        );
    }
}

/// 230.74: at most 368 service days; 230.106(a): at most 1472, and no year arm.
#[test]
fn brake_valves_and_frames_count_service_days_of_their_own() {
    for (rule, work, limit) in [
        ("air-brake-valves", "air-brake-valves", 368),
        ("frame", "frame-cleaning", 1472),
    ] {
        let done = later(TODAY, -6000);
        let with = |days| {
            let mut world = World::new();
            world.did(work, done, Some((days, later(TODAY, -1))), Some(0));
            world.closed(TODAY, TODAY);
            world
        };
        assert!(cannot_tell(&clock(&World::new(), rule, TODAY)), "{rule}");
        let mut one_left = with(limit - 1);
        assert_eq!(clock(&one_left, rule, TODAY).left, Some(1), "{rule}");
        one_left.steamed(TODAY);
        let last = clock(&one_left, rule, TODAY);
        assert_eq!((last.left, last.state), (Some(0), State::Runs), "{rule}");
        let next = clock(&one_left, rule, later(TODAY, 1));
        assert_eq!(next.state, State::Stops, "{rule}");
        assert_eq!(
            clock(&with(limit), rule, TODAY).state,
            State::Stops,
            "{rule}"
        );
        // Sixteen years on it still runs: neither has a year arm.
        let old = clock(&with(3), rule, TODAY);
        assert_eq!(old.state, State::Runs, "{rule}");
        assert!(old.arms.iter().all(|arm| arm.unit != "calendar days"));
    }
}

/// 230.74: or the second annual, whichever is first. Every inspection that contains an annual is one (inference).
#[test]
fn brake_valves_are_due_at_the_second_annual() {
    let done = date(2024, 3, 2);
    let mut world = World::new();
    world.closed(date(2024, 1, 1), TODAY);
    world.did("air-brake-valves", done, Some((0, done)), Some(0));
    says(
        &clock(&world, "air-brake-valves", TODAY),
        &["0 annuals", "the 2nd must"],
    );
    world.paper("annual", date(2025, 2, 1), None);
    let one = clock(&world, "air-brake-valves", TODAY);
    assert_eq!(one.state, State::Runs);
    says(&one, &["the next annual must include this work"]);
    let mut two = world.clone();
    two.paper("1472", date(2026, 2, 1), None);
    let late = clock(&two, "air-brake-valves", TODAY);
    assert_eq!((late.left, &late.state), (Some(0), &State::Stops));
    says(&late, &["the 2nd should have included this work"]);
    assert_eq!(late.arms.len(), 2);
    // Done again: both arms start from there.
    two.did("air-brake-valves", date(2026, 2, 2), None, None);
    let again = clock(&two, "air-brake-valves", TODAY);
    assert_eq!(again.state, State::Runs);
    says(&again, &["0 service days since", "0 annuals since"]);
}

/// The work done in the course of an annual is not followed by that annual.
#[test]
fn brake_valves_done_within_an_annual_do_not_count_it() {
    let mut world = World::new();
    world.closed(date(2026, 1, 1), TODAY);
    let id = long_annual(&mut world, date(2026, 2, 1), date(2026, 3, 20));
    let of = |within| {
        let mut world = world.clone();
        let told = shop::book::DayStated {
            locomotive: FOURTEEN,
            what: "air-brake-valves".into(),
            day: date(2026, 2, 10),
            service_days_since: None,
            annuals_since: None,
            inspection: within,
            document: "the cab card".into(),
        };
        let made = shop::clock::state_day(&world.book, world.rules, told, TODAY);
        world.enter(ADA, TODAY, made);
        let clock = clock(&world, "air-brake-valves", TODAY);
        let annuals = clock
            .arms
            .into_iter()
            .find(|a| a.unit == "annual inspections");
        annuals.unwrap().counted
    };
    assert_eq!(of(Some(id)).most, Some(0));
    // Unsaid, the annual may have been held after it: it counts in the most.
    assert_eq!((of(None).least, of(None).most), (0, Some(1)));
}

/// 230.106(a): the frame cleaned at a 1472 keeps the day of its own item.
#[test]
fn the_frame_item_of_a_1472_restarts_the_frame_on_its_own_day() {
    let mut world = World::new();
    world.closed(date(2026, 1, 1), TODAY);
    let id = InspectionId(77);
    let made = shop::inspection::open(
        &world.book,
        world.rules,
        id,
        FOURTEEN,
        "1472",
        DOT,
        date(2026, 1, 5),
    );
    world.enter(DOT, date(2026, 1, 5), made);
    assert!(cannot_tell(&clock(&world, "frame", TODAY)));
    let item = "us-steam.1472.frame";
    let made = shop::inspection::answer(
        &world.book,
        id,
        item,
        (Answer::Good, None),
        "clean",
        DOT,
        TODAY,
    );
    world.enter(DOT, date(2026, 2, 14), made);
    let frame = clock(&world, "frame", TODAY);
    assert_eq!(frame.anchor.unwrap().on, date(2026, 2, 14));
}

/// 230.17(a): the first 15 years run from the day she enters service or 365 days after the first flue,
/// whichever is first; and a 1472 of an engine in service runs from its own day.
#[test]
fn the_first_fifteen_years_have_a_start_of_their_own() {
    let held = date(2012, 6, 1);
    let started = |days: &[(&str, Date)]| {
        let mut world = World::opened();
        let new = crate::world::engine(FOURTEEN, "14");
        let made = shop::locomotive::add_engine(&world.book, world.rules, new);
        world.enter(ADA, date(2024, 1, 1), made);
        world.enter(ADA, date(2024, 1, 1), {
            shop::locomotive::add_person(&world.book, person(DOT, "Dot Marsh", &[]), ADA, TODAY)
        });
        world.paper("1472", held, Some((10, date(2012, 12, 31))));
        world.closed(date(2013, 1, 1), date(2026, 5, 1));
        for (what, day) in days {
            world.did(what, *day, None, None);
        }
        let big = clock(&world, "1472", TODAY);
        let dated = big.arms.iter().find(|a| a.unit == "calendar days").unwrap();
        let from = dated.anchor.as_ref().unwrap().on;
        (big.state.clone(), from, dated.state.clone())
    };
    let service = "enters-service";
    let flue = "first-flue-installed";
    let tells = |days: &[(&str, Date)], from: Date| {
        let (state, started, _) = started(days);
        assert_eq!((state, started), (State::Runs, from), "{days:?}");
    };
    // In service before it: her own day.
    tells(&[(service, date(1951, 6, 1))], held);
    // New: service came first.
    tells(
        &[(service, date(2012, 7, 4)), (flue, date(2011, 9, 1))],
        date(2012, 7, 4),
    );
    // New: the 365th day after the first flue came first; 2012 had a 29 February.
    tells(
        &[(service, date(2012, 9, 30)), (flue, date(2011, 9, 1))],
        date(2012, 8, 31),
    );
    // The same day.
    tells(
        &[(service, date(2012, 8, 31)), (flue, date(2011, 9, 1))],
        date(2012, 8, 31),
    );
    // Long overhaul: the flue's day lies before the inspection itself.
    tells(
        &[(service, date(2012, 7, 4)), (flue, date(2010, 7, 1))],
        date(2011, 7, 1),
    );
    // Service not stated: it cannot have been before the inspection.
    tells(&[(flue, date(2011, 9, 1))], held);
    // Nothing stated, or service after it and no flue: cannot tell, never clear.
    for days in [&[][..], &[(service, date(2012, 7, 4))]] {
        let (state, _, arm) = started(days);
        assert!(matches!(state, State::CannotTell(_)), "{days:?}");
        assert!(matches!(arm, State::CannotTell(_)), "{days:?}");
    }
}

/// The last day of the first fifteen years, and the day after.
#[test]
fn the_first_fifteen_years_end_on_their_own_anniversary() {
    let mut world = World::new();
    let held = date(2010, 3, 1);
    world.paper("1472", held, Some((1, held)));
    world.closed(date(2010, 3, 2), date(2025, 12, 31));
    // Back from retirement: in service again 2 April 2010; first flue 1 January 2009, and 365 days after it.
    world.did("enters-service", date(2010, 4, 2), None, None);
    world.did("first-flue-installed", date(2009, 1, 1), None, None);
    let on = |day| clock(&world, "1472", day).state;
    assert_eq!(on(date(2024, 12, 31)), State::Runs);
    assert_eq!(on(date(2025, 1, 1)), State::Runs);
    assert_eq!(on(date(2025, 1, 2)), State::Stops);
}

/// 230.16(a)(2): a count of annuals; five times 368 days stand beside it, are not the law and stop nothing.
#[test]
fn the_fifth_annual_shows_a_cautious_day_that_stops_nothing() {
    let mut world = World::new();
    world.paper("fifth-annual", date(2020, 2, 1), None);
    // 1840 days after 1 February 2020 is 14 February 2025: 2020 and 2024 are leap years.
    for (on, past) in [
        (date(2025, 2, 14), false),
        (date(2025, 2, 15), true),
        (date(2026, 2, 14), true),
    ] {
        let fifth = clock(&world, "fifth-annual", on);
        assert_eq!(fifth.state, State::Runs, "{on}");
        assert_eq!(fifth.beside.as_ref().unwrap().last, date(2025, 2, 14));
        assert_eq!(fifth.why.contains("and is past"), past, "{on}");
        says(&fifth, &["Beside it, not the law"]);
    }
}

/// An annual from one day to another: one item each day in between.
fn long_annual(world: &mut World, from: Date, through: Date) -> InspectionId {
    let id = InspectionId(world.fresh());
    let made = shop::inspection::open(&world.book, world.rules, id, FOURTEEN, "annual", DOT, from);
    world.enter(DOT, from, made);
    let first = world.book.inspections[&id].items[0].rule.clone();
    let made = shop::inspection::answer(
        &world.book,
        id,
        &first,
        (Answer::Good, None),
        "tight",
        DOT,
        TODAY,
    );
    world.enter(DOT, from, made);
    world.answer_all(id, through);
    let made = shop::inspection::close(&world.book, id, None, DOT, TODAY);
    world.enter(DOT, through, made);
    id
}

/// Which day starts the next clocks is not in the sections read: until it is stated both are shown, and each
/// clock counts by the worse.
#[test]
fn an_annual_of_many_days_counts_by_its_worst_until_its_day_is_stated() {
    let mut world = World::new();
    let (first, last) = (date(2025, 11, 10), date(2026, 4, 11));
    world.closed(date(2025, 11, 1), date(2026, 12, 31));
    // A fire between the first item and the closing: a service day like any other.
    world.steamed(date(2026, 2, 3));
    let id = long_annual(&mut world, first, last);
    world.steamed(date(2026, 4, 18));
    let annual = clock(&world, "annual", TODAY);
    let anchor = annual.anchor.clone().unwrap();
    assert_eq!((anchor.earliest, anchor.on), (first, last));
    // 368 days after the first item is 13 November 2026.
    assert_eq!(annual.stops_on, Some(date(2026, 11, 14)));
    let small = clock(&world, "31", TODAY);
    assert_eq!((small.counted.least, small.counted.most), (1, Some(2)));
    assert!(
        small
            .would_change
            .iter()
            .any(|l| l.contains("starts the clocks after it"))
    );
    // In between the two last days nobody can tell.
    let between = clock(&world, "annual", date(2026, 12, 1));
    assert!(cannot_tell(&between), "{}", between.why);
    says(&between, &["which day of I-001"]);
    // 368 days after the closing is 14 April 2027; the day after it stops her whichever it was.
    assert!(cannot_tell(&clock(&world, "annual", date(2027, 4, 14))));
    assert_eq!(
        clock(&world, "annual", date(2027, 4, 15)).state,
        State::Stops
    );

    let anchored = |world: &World, day, why, by| {
        shop::inspection::anchor(&world.book, id, day, why, by, TODAY)
    };
    no(
        anchored(&world, last, "read so", DOT),
        Refused,
        &["Dot Marsh", "approve"],
    );
    no(
        anchored(&world, last, " ", ADA),
        Refused,
        &["how the rule was read"],
    );
    no(
        anchored(&world, later(last, 1), "read so", ADA),
        Input,
        &["no day of I-001"],
    );
    no(
        anchored(&world, later(first, -1), "read so", ADA),
        Input,
        &["no day of I-001"],
    );
    let made = anchored(
        &world,
        last,
        "the inspection is held when its last item is",
        ADA,
    );
    world.enter(ADA, TODAY, made);
    let told = clock(&world, "annual", TODAY);
    assert_eq!(told.stops_on, Some(date(2027, 4, 15)));
    assert_eq!(
        told.anchor.unwrap().reading.as_deref(),
        Some("the inspection is held when its last item is")
    );
    let small = clock(&world, "31", TODAY);
    assert_eq!((small.counted.least, small.counted.most), (1, Some(1)));
}

/// What would change a line is said: the log to close, the time nobody wrote, the inspection to hold.
#[test]
fn every_clock_says_what_would_change_it() {
    let mut world = World::new();
    world.paper("31", date(2026, 4, 1), Some((3, date(2026, 4, 20))));
    let all = clock(&world, "31", TODAY).would_change;
    assert!(
        all.iter()
            .any(|l| l.starts_with("closing the log from 2026-04-21 through 2026-05-01")),
        "{all:?}"
    );
    assert!(all.contains(&"holding the 31".to_string()), "{all:?}");
    world.closed(date(2026, 4, 21), date(2026, 4, 28));
    let all = clock(&world, "31", TODAY).would_change;
    assert!(
        all.contains(&"closing the log through 2026-05-01".to_string()),
        "{all:?}"
    );
    let fire = shop::book::FireLogged {
        id: shop::book::FireId(5),
        locomotive: FOURTEEN,
        lit: Some(date(2026, 4, 25).at(6, 0, 0, 0)),
        up: Some(date(2026, 4, 25).at(9, 0, 0, 0)),
        out: Some(date(2026, 4, 26).at(2, 0, 0, 0)),
        gone: None,
        miles: None,
        offered: None,
    };
    world.state(ADA, TODAY, shop::book::Statement::FireLogged(fire));
    let all = clock(&world, "31", TODAY).would_change;
    assert!(
        all.contains(&"the time pressure was gone in the fire of 2026-04-25".to_string()),
        "{all:?}"
    );
    for clock in due(&world.book, world.rules, FOURTEEN, TODAY).unwrap() {
        assert!(!clock.would_change.is_empty(), "{}", clock.ruling.rule);
        assert!(!clock.ruling.reading.is_empty());
        assert!(!clock.arms.is_empty());
    }
}

/// The days that can be stated, and what is refused.
#[test]
fn a_day_that_is_none_is_refused_in_words() {
    let world = World::new();
    let told = |what: &str, day: Date, since, document: &str| {
        let told = shop::book::DayStated {
            locomotive: FOURTEEN,
            what: what.into(),
            day,
            service_days_since: since,
            annuals_since: None,
            inspection: None,
            document: document.into(),
        };
        shop::clock::state_day(&world.book, world.rules, told, TODAY)
    };
    let day = date(2026, 4, 1);
    assert!(told("air-brake-valves", day, None, "card").is_ok());
    assert!(told("us-steam.31.wash", day, None, "wash book").is_ok());
    no(
        told("air-brakes", day, None, "card"),
        Input,
        &["air-brakes", "air-brake-valves"],
    );
    no(
        told("us-diesel.periodic.wheels", day, None, "card"),
        Input,
        &["nothing whose day"],
    );
    no(
        told("frame-cleaning", later(TODAY, 1), None, "card"),
        Input,
        &["not happened"],
    );
    no(told("frame-cleaning", day, None, " "), Input, &["document"]);
    no(
        told("frame-cleaning", day, Some((2, later(day, -1))), "card"),
        Input,
        &["between that day and today"],
    );
    no(
        told("frame-cleaning", day, Some((3, later(day, 1))), "card"),
        Input,
        &["only 2 days"],
    );
}
