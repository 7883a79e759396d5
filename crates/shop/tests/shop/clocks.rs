//! The law's clocks in their worked meaning: 49 CFR 230.8 and 230.13 to 230.17, 2015 edition.
//!
//! The counts and spans are the text's. That the day after the last is the first too late, and that a
//! larger inspection restarts the smaller clocks, is inference and is marked so in the rulebook.

use jiff::civil::{Date, date};
use shop::Class;
use shop::book::{RunId, Statement};
use shop::clock::{Clock, State, due, promise};
use shop::locomotive::held_before;

use crate::world::{ADA, FOURTEEN, TODAY, World, later};

fn clock(world: &World, rule: &str, on: Date) -> Clock {
    let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    let wanted = format!("us-steam.clock.{rule}");
    let mut named = clocks.into_iter().filter(|c| c.ruling.rule == wanted);
    named.next().unwrap()
}

fn cannot_tell(clock: &Clock) -> bool {
    matches!(clock.state, State::CannotTell(_))
}

/// A shop whose paper counts so many service days through yesterday since an inspection long ago.
fn counted(kind: &str, days: u32) -> World {
    let mut world = World::new();
    let yesterday = later(TODAY, -1);
    let held = later(TODAY, -2000);
    world.paper(kind, held, Some((days, yesterday)));
    world.closed(TODAY, TODAY);
    world
}

trait Left {
    /// Service days left, also where the calendar of the same clock comes first.
    fn counted_left(&self) -> i64;
}

impl Left for Clock {
    fn counted_left(&self) -> i64 {
        match (self.unit, self.left) {
            ("service days", Some(left)) => left,
            _ => {
                let (_, rest) = self.why.split_once("; ").unwrap();
                rest.split_once(" left").unwrap().0.parse().unwrap()
            }
        }
    }
}

/// 230.14(a), 230.15(a), 230.17(a): after 31, 92 and 1472 service days.
#[test]
fn the_last_day_is_allowed_and_the_next_is_not() {
    for (kind, limit) in [("31", 31), ("92", 92), ("1472", 1472)] {
        // One left.
        let mut world = counted(kind, limit - 1);
        let before = clock(&world, kind, TODAY);
        assert_eq!(
            (before.counted_left(), &before.state),
            (1, &State::Runs),
            "{kind}"
        );
        // The last one is steamed: she finishes it, and stops tomorrow.
        world.steamed(TODAY);
        let last = clock(&world, kind, TODAY);
        assert_eq!((last.left, &last.state), (Some(0), &State::Runs), "{kind}");
        assert_eq!(last.stops_on, Some(later(TODAY, 1)), "{kind}");
        let after = clock(&world, kind, later(TODAY, 1));
        assert_eq!(
            (after.left, &after.state),
            (Some(0), &State::Stops),
            "{kind}"
        );
        // All used before today, and none begun today.
        let none = clock(&counted(kind, limit), kind, TODAY);
        assert_eq!(
            (none.stops_on, &none.state),
            (Some(TODAY), &State::Stops),
            "{kind}"
        );
        // One too many.
        let mut over = counted(kind, limit);
        over.steamed(TODAY);
        let over = clock(&over, kind, TODAY);
        assert_eq!(
            (over.left, &over.state),
            (Some(-1), &State::Stops),
            "{kind}"
        );
        assert!(over.why.contains("1 too many"), "{}", over.why);
    }
}

/// The same, counted fire by fire: thirty-one days of steam may follow an inspection.
#[test]
fn thirty_one_fires_may_follow_and_not_thirty_two() {
    let mut world = World::new();
    let held = date(2026, 3, 1);
    world.inspected("31", held);
    world.closed(held, later(held, 40));
    for day in 1..=31 {
        world.steamed(later(held, day));
        let on = later(held, day);
        assert_eq!(clock(&world, "31", on).state, State::Runs, "day {day}");
    }
    let next = clock(&world, "31", later(held, 32));
    assert_eq!((next.counted.least, &next.state), (31, &State::Stops));
    assert!(next.why.contains("32nd"), "{}", next.why);
}

/// 230.16(a)(1): 368 calendar days, in steam or cold.
#[test]
fn day_368_is_in_time_and_day_369_is_not() {
    let mut world = World::new();
    let held = date(2024, 12, 1);
    world.paper("annual", held, None);
    let last = clock(&world, "annual", later(held, 368));
    assert_eq!((last.left, &last.state), (Some(0), &State::Runs));
    assert_eq!(last.stops_on, Some(later(held, 369)));
    assert_eq!(last.stops_on, Some(date(2025, 12, 5)));
    let late = clock(&world, "annual", later(held, 369));
    assert_eq!((late.left, &late.state), (Some(-1), &State::Stops));
}

/// 230.17(a): or 15 years, whichever is first. The rule's file names the last day of February for a 29th.
#[test]
fn fifteen_years_end_on_the_anniversary() {
    for (held, last) in [
        (date(2010, 6, 15), date(2025, 6, 15)),
        (date(2008, 2, 29), date(2023, 2, 28)),
        (date(2009, 2, 28), date(2024, 2, 28)),
    ] {
        let mut world = World::new();
        world.paper("1472", held, Some((10, later(held, 100))));
        world.closed(later(held, 101), later(last, 1));
        let on_it = clock(&world, "1472", last);
        assert_eq!(on_it.state, State::Runs, "{held}");
        assert_eq!(on_it.stops_on, Some(later(last, 1)), "{held}");
        assert_eq!(
            clock(&world, "1472", later(last, 1)).state,
            State::Stops,
            "{held}"
        );
    }
}

/// 230.17(a): the count comes first where it is the sooner, and what is not known of it stops her.
#[test]
fn whichever_comes_first_stops_her() {
    let mut world = World::new();
    let held = date(2020, 1, 1);
    world.paper("1472", held, Some((1472, later(TODAY, -1))));
    assert_eq!(clock(&world, "1472", TODAY).state, State::Stops);
    let mut blank = World::new();
    blank.paper("1472", held, None);
    assert!(cannot_tell(&clock(&blank, "1472", TODAY)));
    assert!(cannot_tell(&clock(&World::new(), "1472", TODAY)));
}

/// 230.14 to 230.17: each inspection contains the smaller ones; that it restarts their clocks is inference.
#[test]
fn a_larger_inspection_restarts_the_smaller_and_never_the_other_way() {
    const SIZES: [&str; 5] = ["31", "92", "annual", "fifth-annual", "1472"];
    let before = date(2025, 1, 1);
    let day = date(2026, 4, 1);
    for (size, kind) in SIZES.into_iter().enumerate() {
        let mut world = World::new();
        for older in SIZES {
            world.paper(older, before, Some((20, date(2026, 3, 31))));
        }
        world.closed(day, TODAY);
        world.inspected(kind, day);
        for (other, rule) in SIZES.into_iter().enumerate() {
            let restarted = clock(&world, rule, TODAY).anchor.unwrap();
            // An annual does not restart the fifth annual: it is counted by it.
            let expected = if other <= size { day } else { before };
            assert_eq!(
                restarted.on, expected,
                "a {kind} and the clock of the {rule}"
            );
        }
    }
}

/// 230.16(a)(2): each fifth annual inspection, a count of annuals and not of days.
#[test]
fn the_fifth_annual_is_the_fifth() {
    let mut world = World::new();
    let first = date(2020, 6, 1);
    world.inspected("fifth-annual", first);
    for year in 1..=5 {
        let day = later(first, 365 * year);
        world.inspected("annual", day);
        let count = clock(&world, "fifth-annual", day);
        assert_eq!(count.counted.most, u32::try_from(year).ok());
        match year {
            ..=3 => assert_eq!(count.state, State::Runs),
            4 => assert!(
                count.why.contains("the next annual must be a fifth"),
                "{}",
                count.why
            ),
            _ => assert_eq!(count.state, State::Stops),
        }
    }
    // Held as it should be, it starts anew.
    let day = later(first, 365 * 5 + 1);
    world.inspected("fifth-annual", day);
    assert_eq!(clock(&world, "fifth-annual", day).counted.most, Some(0));
}

/// A paper that does not say how many annuals followed leaves the count open; annuals on papers of
/// their own count.
#[test]
fn a_fifth_annual_on_paper_must_say_what_followed() {
    let held = |since, kind: &str, day| shop::book::HeldBefore {
        locomotive: FOURTEEN,
        kind: kind.into(),
        held_on: day,
        service_days_since: None,
        annuals_since: since,
        document: "Form 3".into(),
    };
    let mut world = World::new();
    let day = date(2021, 6, 1);
    world.enter(
        ADA,
        TODAY,
        held_before(
            &world.book,
            world.rules,
            held(None, "fifth-annual", day),
            TODAY,
        ),
    );
    assert!(cannot_tell(&clock(&world, "fifth-annual", TODAY)));
    let mut world = World::new();
    world.enter(
        ADA,
        TODAY,
        held_before(
            &world.book,
            world.rules,
            held(Some(0), "fifth-annual", day),
            TODAY,
        ),
    );
    for year in 1..=5 {
        let annual = held(None, "annual", later(day, 350 * year));
        let made = held_before(&world.book, world.rules, annual, TODAY);
        world.enter(ADA, TODAY, made);
    }
    let count = clock(&world, "fifth-annual", TODAY);
    assert_eq!((count.counted.most, count.state), (Some(5), State::Stops));
}

/// Whether the fire of the inspection's own day came before or after it, the book does not know.
#[test]
fn the_day_of_the_inspection_counts_in_the_most_alone() {
    let mut world = World::new();
    let day = date(2026, 4, 1);
    world.steamed(day);
    world.inspected("31", day);
    world.closed(day, later(TODAY, -1));
    let counted = clock(&world, "31", TODAY).counted;
    assert_eq!((counted.least, counted.most), (0, Some(1)));
}

#[test]
fn a_log_that_is_not_closed_cannot_tell() {
    let mut world = World::new();
    let day = date(2026, 3, 1);
    world.inspected("31", day);
    for n in 1..=5 {
        world.steamed(later(day, n));
    }
    // Its own day and 29 blank ones leave one; a day later none is sure.
    assert_eq!(clock(&world, "31", later(day, 30)).state, State::Runs);
    assert!(cannot_tell(&clock(&world, "31", later(day, 31))));
    let open = clock(&world, "31", later(day, 40));
    let State::CannotTell(needs) = &open.state else {
        panic!("{:?}", open.state)
    };
    assert!(
        needs[0].contains("the log closed through 2026-04-09"),
        "{needs:?}"
    );
    assert_eq!((open.counted.least, open.counted.most), (5, Some(40)));
    assert_eq!(open.stops_on, Some(later(day, 40)));
    world.closed(day, later(day, 39));
    let closed = clock(&world, "31", later(day, 40));
    assert_eq!((closed.left, closed.state), (Some(26), State::Runs));
}

#[test]
fn a_paper_with_its_count_and_one_without() {
    let (held, through) = (date(2026, 1, 1), date(2026, 3, 31));
    let mut with = World::new();
    with.paper("92", held, Some((12, through)));
    with.closed(later(through, 1), later(TODAY, -1));
    with.steamed(date(2026, 4, 4));
    let told = clock(&with, "92", TODAY);
    assert_eq!((told.counted.least, told.counted.most), (13, Some(13)));
    let mut without = World::new();
    without.paper("92", held, None);
    without.closed(later(through, 1), later(TODAY, -1));
    without.steamed(date(2026, 4, 4));
    let open = clock(&without, "92", TODAY);
    // 90 days from 1 January through 31 March 2026, and the one in the log.
    assert_eq!((open.counted.least, open.counted.most), (1, Some(91)));
}

/// A later paper without a count cannot hold more days than an earlier one that counted.
#[test]
fn an_earlier_count_bounds_a_later_paper() {
    let (through, mut world) = (later(TODAY, -1), World::new());
    world.paper("annual", later(TODAY, -200), Some((6, through)));
    world.paper("31", later(TODAY, -100), None);
    let bounded = clock(&world, "31", TODAY);
    assert_eq!(bounded.anchor.unwrap().kind, "31");
    assert_eq!((bounded.counted.least, bounded.counted.most), (0, Some(6)));
}

#[test]
fn a_promised_run_past_the_last_day_names_the_day() {
    let mut world = counted("31", 29);
    let runs = [0, 7, 8, 14].map(|n| later(TODAY, n));
    for (at, day) in runs.into_iter().enumerate() {
        let made = promise(RunId(at as u128), FOURTEEN, day, "Saturday train");
        world.enter(ADA, TODAY, made);
    }
    // Two left: the third promised run is one too many.
    assert_eq!(clock(&world, "31", TODAY).stops_on, Some(runs[2]));
    // Once today is in the log it is counted and not promised any more: the answer stays.
    world.steamed(TODAY);
    let steamed = clock(&world, "31", TODAY);
    assert_eq!((steamed.left, steamed.stops_on), (Some(1), Some(runs[2])));
    // Without promises ahead no day is named.
    assert_eq!(clock(&counted("31", 29), "31", TODAY).stops_on, None);
}

#[test]
fn the_daily_stops_nothing_ahead() {
    let mut world = World::new();
    assert_eq!(clock(&world, "daily", TODAY).state, State::EachDay);
    world.inspected("daily", TODAY);
    let daily = clock(&world, "daily", TODAY);
    assert_eq!(
        (daily.state, daily.anchor.unwrap().on),
        (State::EachDay, TODAY)
    );
}

#[test]
fn a_day_before_the_rulebook_is_refused() {
    let world = World::new();
    let said = due(&world.book, world.rules, FOURTEEN, date(1999, 12, 31)).unwrap_err();
    assert_eq!(said.class, Class::Input);
    assert!(said.what.contains("1999-12-31"), "{said}");
}

/// An inspection closed after the day asked about does not help that day.
#[test]
fn what_came_later_does_not_help_an_earlier_day() {
    let mut world = World::new();
    world.paper("annual", date(2025, 1, 1), None);
    world.inspected("annual", date(2026, 4, 1));
    let then = clock(&world, "annual", date(2026, 2, 1));
    assert_eq!(
        (then.state, then.anchor.unwrap().on),
        (State::Stops, date(2025, 1, 1))
    );
    assert_eq!(clock(&world, "annual", TODAY).state, State::Runs);
}

/// An opened inspection restarts nothing until it is closed.
#[test]
fn an_open_inspection_restarts_nothing() {
    let mut world = World::new();
    let id = shop::book::InspectionId(9);
    let opened =
        shop::inspection::open(&world.book, world.rules, id, FOURTEEN, "annual", ADA, TODAY);
    world.enter(ADA, TODAY, opened);
    assert!(cannot_tell(&clock(&world, "annual", TODAY)));
    world.answer_all(id, TODAY);
    assert!(cannot_tell(&clock(&world, "annual", TODAY)));
    let close = Statement::InspectionClosed(shop::book::InspectionClosed {
        inspection: id,
        made: None,
    });
    world.state(ADA, TODAY, close);
    assert_eq!(clock(&world, "annual", TODAY).state, State::Runs);
}
