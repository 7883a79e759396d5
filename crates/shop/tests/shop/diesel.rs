//! A diesel: calendar days, the facts that choose her clocks, and the credit for days out of use.
//! Published: 49 CFR Part 229, 2015 edition, at the section named beside each test.

use jiff::civil::{Date, date};
use measure::Size;
use shop::Class::{Input, Refused};
use shop::book::{DayStated, FactStated, HeldBefore, LocomotiveId, OutOfUse, Statement};
use shop::clock::{Clock, State, attest_out_of_use, due, state_day, state_fact};
use shop::locomotive::{NewEngine, add_engine};

use crate::said::no;
use crate::world::{ADA, DOT, FOURTEEN, World, later};

const HER: LocomotiveId = LocomotiveId(803);

fn shop() -> World {
    let mut world = World::new();
    let new = NewEngine {
        id: HER,
        number: "803".into(),
        wheels: "B-B".into(),
        gauge: Size::parse("56 1/2 in").unwrap(),
        jurisdiction: "us-diesel".into(),
        mawp_psig: None,
        axle_load_lb: None,
        fittings: Default::default(),
    };
    let made = add_engine(&world.book, world.rules, new);
    world.enter(ADA, date(2024, 1, 1), made);
    world
}

fn fact(world: &mut World, fact: &str, value: &str, from: Date) {
    let told = FactStated {
        locomotive: HER,
        fact: fact.into(),
        value: value.into(),
        from,
        document: "air brake diagram".into(),
    };
    let made = state_fact(&world.book, told, from);
    world.enter(ADA, from, made);
}

fn did(world: &mut World, what: &str, day: Date) {
    let told = DayStated {
        locomotive: HER,
        what: what.into(),
        day,
        service_days_since: None,
        annuals_since: None,
        inspection: None,
        document: "the blue card".into(),
    };
    let made = state_day(&world.book, world.rules, told, day);
    world.enter(ADA, day, made);
}

fn out(world: &mut World, from: Date, days: i64) {
    let told = OutOfUse {
        locomotive: HER,
        from,
        through: later(from, days - 1),
        told: "in the back bay".into(),
    };
    let made = attest_out_of_use(&world.book, world.rules, told, ADA, later(from, days - 1));
    world.enter(ADA, later(from, days - 1), made);
}

fn clocks(world: &World, on: Date) -> Vec<Clock> {
    due(&world.book, world.rules, HER, on).unwrap()
}

fn clock(world: &World, rule: &str, on: Date) -> Clock {
    let wanted = format!("us-diesel.clock.{rule}");
    let mut named = clocks(world, on)
        .into_iter()
        .filter(|c| c.ruling.rule == wanted);
    named.next().unwrap_or_else(|| panic!("no {rule}"))
}

/// 229.29: each schedule's interval, its last day and the day after.
#[test]
fn each_brake_schedule_runs_to_its_own_day() {
    for (schedule, two, three) in [
        ("other", 368, 736),
        ("26-l", 1104, 1104),
        ("26-l-dryer", 1472, 1472),
        ("electronic", 1840, 1840),
    ] {
        for (level, days) in [("2", two), ("3", three)] {
            let mut world = shop();
            let done = date(2019, 2, 27);
            fact(&mut world, "brake-schedule", schedule, date(2018, 1, 1));
            did(&mut world, &format!("brake-level-{level}"), done);
            let rule = format!("brake-level-{level}.{schedule}");
            let last = clock(&world, &rule, later(done, days));
            assert_eq!((last.left, last.state), (Some(0), State::Runs), "{rule}");
            let late = clock(&world, &rule, later(done, days + 1));
            assert_eq!((late.left, late.state), (Some(-1), State::Stops), "{rule}");
            // No other schedule's clock binds her.
            let of_level = format!("brake-level-{level}");
            let bound = clocks(&world, later(done, 1));
            assert_eq!(bound.iter().filter(|c| c.inspection == of_level).count(), 1);
        }
    }
}

/// 229.23, .27, .29(b), .29(d), .31: the others.
#[test]
fn the_other_tests_run_to_their_own_days() {
    for (rule, work, days, of) in [
        ("annual-tests", "annual-tests", 368, None),
        ("brake-level-1", "brake-level-1", 368, None),
        (
            "air-flow-meter",
            "air-flow-meter",
            92,
            Some(("air-flow-meter", "yes")),
        ),
        (
            "main-reservoirs",
            "main-reservoir-test",
            736,
            Some(("main-reservoirs", "tested")),
        ),
    ] {
        let mut world = shop();
        let done = date(2023, 12, 30);
        if let Some((word, value)) = of {
            fact(&mut world, word, value, date(2020, 1, 1));
        }
        did(&mut world, work, done);
        assert_eq!(
            clock(&world, rule, later(done, days)).state,
            State::Runs,
            "{rule}"
        );
        assert_eq!(
            clock(&world, rule, later(done, days + 1)).state,
            State::Stops,
            "{rule}"
        );
    }
    for (monitored, rule, days) in [("no", "periodic", 92), ("yes", "periodic-monitored", 184)] {
        let mut world = shop();
        let held_on = date(2024, 12, 1);
        fact(
            &mut world,
            "condition-monitoring",
            monitored,
            date(2020, 1, 1),
        );
        let held = HeldBefore {
            locomotive: HER,
            kind: "periodic".into(),
            held_on,
            service_days_since: None,
            annuals_since: None,
            document: "the blue card".into(),
        };
        world.state(ADA, held_on, Statement::HeldBefore(held));
        assert_eq!(clock(&world, rule, later(held_on, days)).state, State::Runs);
        assert_eq!(
            clock(&world, rule, later(held_on, days + 1)).state,
            State::Stops
        );
    }
}

/// A fact nobody stated: cannot tell, one line a work, with the shortest of its clocks; and what is excused.
#[test]
fn an_unstated_fact_is_never_clear() {
    let mut world = shop();
    let on = date(2026, 5, 2);
    did(&mut world, "brake-level-2", date(2026, 5, 1));
    let all = clocks(&world, on);
    let level: Vec<_> = all
        .iter()
        .filter(|c| c.inspection == "brake-level-2")
        .collect();
    assert_eq!(level.len(), 1);
    assert!(
        matches!(&level[0].state, State::CannotTell(needs) if needs[0].contains("brake-schedule"))
    );
    assert_eq!(level[0].limit, 368);
    for work in ["periodic", "air-flow-meter", "main-reservoir-test"] {
        let of = all.iter().filter(|c| c.inspection == work);
        assert!(
            of.clone().count() == 1 && of.clone().all(|c| matches!(c.state, State::CannotTell(_)))
        );
    }
    fact(&mut world, "main-reservoirs", "drilled", on);
    fact(&mut world, "air-flow-meter", "no", on);
    let all = clocks(&world, on);
    assert!(
        all.iter()
            .all(|c| c.inspection != "main-reservoir-test" && c.inspection != "air-flow-meter")
    );
    // The fact holds from its day on, not before it.
    let eve = clocks(&world, later(on, -1));
    assert!(eve.iter().any(|c| c.inspection == "air-flow-meter"));
    no(
        state_fact(
            &world.book,
            FactStated {
                locomotive: HER,
                fact: "brake-schedule".into(),
                value: "24-rl".into(),
                from: on,
                document: "plate".into(),
            },
            on,
        ),
        Input,
        &["24-rl", "26-l-dryer"],
    );
}

/// 229.33: whole spells of 30 days or more lengthen each test by their days since it was last done.
#[test]
fn days_out_of_use_lengthen_a_test_and_no_steam_clock() {
    let last = |spells: &[(Date, i64)]| {
        let mut world = shop();
        did(&mut world, "annual-tests", date(2024, 1, 1));
        for (from, days) in spells {
            out(&mut world, *from, *days);
        }
        let annual = clock(&world, "annual-tests", date(2025, 6, 30));
        later(annual.stops_on.unwrap(), -1)
    };
    let june = date(2024, 6, 1);
    // 368 days after 1 January 2024, a leap year, is 3 January 2025.
    let plain = date(2025, 1, 3);
    assert_eq!(last(&[]), plain);
    assert_eq!(last(&[(june, 47)]), later(plain, 47));
    assert_eq!(last(&[(june, 29)]), plain);
    assert_eq!(last(&[(june, 29), (date(2024, 9, 1), 29)]), plain);
    assert_eq!(
        last(&[(june, 30), (date(2024, 9, 1), 29)]),
        later(plain, 30)
    );
    // Partly before the test: only the days after it, and they must be 30 themselves (inference).
    assert_eq!(last(&[(date(2023, 12, 1), 62)]), later(plain, 30));
    assert_eq!(last(&[(date(2023, 12, 1), 61)]), plain);
    // The level 1 done later in the same spell has its own, smaller credit.
    let mut world = shop();
    did(&mut world, "annual-tests", date(2024, 1, 1));
    did(&mut world, "brake-level-1", date(2024, 6, 20));
    out(&mut world, june, 60);
    let on = date(2024, 12, 1);
    let of = |rule| clock(&world, rule, on);
    assert!(
        of("annual-tests")
            .why
            .contains("lengthened by 60 days out of use (229.33)")
    );
    assert!(of("brake-level-1").why.contains("lengthened by 40 days"));

    let spell = |engine, from, through, by| {
        let told = OutOfUse {
            locomotive: engine,
            from,
            through,
            told: "cold".into(),
        };
        attest_out_of_use(&world.book, world.rules, told, by, on)
    };
    no(
        spell(HER, june, later(june, 3), DOT),
        Refused,
        &["Dot Marsh"],
    );
    no(
        spell(FOURTEEN, june, later(june, 90), ADA),
        Refused,
        &["us-steam", "no credit"],
    );
    no(
        spell(HER, june, later(june, -1), ADA),
        Input,
        &["later one"],
    );
    no(spell(HER, june, later(on, 1), ADA), Input, &["at most"]);
}

/// What is known of a spell only on a later day lengthens nothing before it.
#[test]
fn a_spell_counts_as_it_passes() {
    let mut world = shop();
    did(&mut world, "annual-tests", date(2024, 1, 1));
    out(&mut world, date(2024, 12, 20), 60);
    // On day 368 the spell is 15 days old; on the thirtieth day it begins to count.
    assert_eq!(
        clock(&world, "annual-tests", date(2025, 1, 4)).state,
        State::Stops
    );
    assert_eq!(
        clock(&world, "annual-tests", date(2025, 1, 17)).state,
        State::Stops
    );
    assert_eq!(
        clock(&world, "annual-tests", date(2025, 1, 18)).state,
        State::Runs
    );
}

#[test]
fn a_diesel_has_no_log_of_fires_and_no_steam_inspection() {
    let world = shop();
    let her = &world.book.locomotives[&HER];
    no(
        shop::clock::has_a_log(&world.book, world.rules, her),
        Input,
        &["No. 803", "no service days"],
    );
    assert!(
        shop::clock::has_a_log(&world.book, world.rules, &world.book.locomotives[&FOURTEEN])
            .is_ok()
    );
    let open = |kind| {
        let id = shop::book::InspectionId(9);
        let on = date(2026, 5, 2);
        shop::inspection::open(&world.book, world.rules, id, HER, kind, DOT, on)
    };
    assert!(open("periodic").is_ok() && open("daily").is_ok());
    no(open("31"), Input, &["31", "periodic"]);
}

/// 229.3: the part reaches standard gauge railroads, so a narrow gauge diesel is outside it.
#[test]
fn a_narrow_gauge_diesel_is_outside_the_part() {
    let world = shop();
    let at = |gauge: &str, jurisdiction: &str| {
        let new = NewEngine {
            id: LocomotiveId(4),
            number: "4".into(),
            wheels: "B-B".into(),
            gauge: Size::parse(gauge).unwrap(),
            jurisdiction: jurisdiction.into(),
            mawp_psig: None,
            axle_load_lb: None,
            fittings: Default::default(),
        };
        add_engine(&world.book, world.rules, new)
    };
    no(
        at("36 in", "us-diesel"),
        Input,
        &["does not reach", "56 1/2 in"],
    );
    assert!(at("56 1/2 in", "us-diesel").is_ok());
    // Part 230 takes steam locomotives of narrower gauge.
    assert!(at("36 in", "us-steam").is_ok());
}
