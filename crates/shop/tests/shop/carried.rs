//! A finding whose family says that what it shows starts a clock: nobody has to say so, and nobody carries it past its end.
//! 49 CFR 230.39(b), 2015 edition: a broken staybolt found between inspections is renewed within 30 calendar days; one
//! found at a 31 service day inspection is renewed there and then. 230.38(c): a telltale that leaks counts as broken.

use jiff::civil::Date;
use shop::Class::{Input, Refused};
use shop::book::{FindingId, InspectionId, Occasion, Statement};
use shop::clock::{Clock, due, may_start, open_clock, runs_out};
use shop::decision::{Wish, decide};
use shop::finding::{NewFinding, record};

use crate::refusals::finding;
use crate::said::{Said, no};
use crate::world::{ADA, DOT, FOURTEEN, TODAY, World, found, later};

const RULE: &str = "us-steam.clock.broken-staybolt";
const ID: FindingId = FindingId(1);

/// One bolt, alone, with every other one hammered and sound.
fn bolt(shows: &[&str], occasion: impl Fn(&mut World) -> Occasion) -> World {
    let mut world = World::new();
    let part = world.part(1, "staybolt", &[("other-broken-bolts", "none")]);
    let new = NewFinding {
        part,
        occasion: occasion(&mut world),
        conditions: shows.iter().map(|word| (*word).to_string()).collect(),
        readings: found(&[
            ("sound-around", "inside the firebox", "30 in"),
            ("telltale", "outer end", "1 3/8 in"),
        ]),
        ..finding()
    };
    let made = record(&world.book, new, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world
}

fn write_up(_: &mut World) -> Occasion {
    Occasion::WriteUp
}

fn carry(world: &World, recheck: Date, on: Date) -> Said<Vec<Statement>> {
    let wish = Wish {
        finding: ID,
        route: "carry".into(),
        because: "one bolt, alone".into(),
        recheck: Some(recheck),
    };
    decide(&world.book, world.rules, wish, ADA, on)
}

/// The finding's own clocks among those of her engine.
fn of_it(world: &World, on: Date) -> Vec<Clock> {
    let mut clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    clocks.retain(|clock| clock.finding == Some(1));
    clocks
}

#[test]
fn what_counts_as_broken_starts_its_thirty_days_by_itself() {
    for shows in ["sounds-broken", "telltale-weeps", "telltale-closed"] {
        let world = bolt(&[shows], write_up);
        let clocks = of_it(&world, later(TODAY, 4));
        assert_eq!(clocks.len(), 1, "{shows}: {clocks:?}");
        assert_eq!(clocks[0].ruling.rule, RULE);
        assert!(clocks[0].why.contains("26 left"), "{}", clocks[0].why);
        // It is carried through its last day, and not a day longer.
        let last = later(TODAY, 30);
        assert_eq!(
            runs_out(&world.book, world.rules, &world.book.findings[&ID])
                .unwrap()
                .iter()
                .map(|(ruling, last)| (ruling.rule.as_str(), *last))
                .collect::<Vec<_>>(),
            [(RULE, last)]
        );
        assert!(carry(&world, last, later(TODAY, 1)).is_ok());
        no(
            carry(&world, later(last, 1), later(TODAY, 1)),
            Refused,
            &["F-001", "2026-06-01", "230.39(b)"],
        );
        // Carried and not put right in time, it is carried no further.
        let mut late = world.clone();
        let made = carry(&late, last, later(TODAY, 1));
        late.enter(ADA, later(TODAY, 1), made);
        no(
            carry(&late, later(last, 9), later(last, 1)),
            Refused,
            &["`carry` cannot be taken", "no day is left", "230.39(b)"],
        );
        // What started by itself is not started again, and not offered to be.
        let again = open_clock(&world.book, world.rules, ID, RULE, DOT, TODAY);
        no(again, Input, &["has started", RULE]);
        let kept = &world.book.findings[&ID];
        assert!(
            may_start(&world.book, world.rules, kept)
                .unwrap()
                .is_empty()
        );
    }
}

#[test]
fn what_is_not_broken_starts_none_until_somebody_says_so() {
    let mut world = bolt(&[], write_up);
    assert!(of_it(&world, TODAY).is_empty());
    assert!(carry(&world, later(TODAY, 200), TODAY).is_ok());
    let kept = &world.book.findings[&ID];
    let may = may_start(&world.book, world.rules, kept).unwrap();
    let may: Vec<_> = may.iter().map(|ruling| ruling.rule.as_str()).collect();
    assert_eq!(may, [RULE]);
    let made = open_clock(&world.book, world.rules, ID, RULE, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    assert_eq!(of_it(&world, TODAY).len(), 1);
    no(
        carry(&world, later(TODAY, 31), TODAY),
        Refused,
        &["230.39(b)"],
    );
}

#[test]
fn found_at_a_31_it_is_put_right_there_and_then() {
    let at_31 = |world: &mut World| {
        let inspection = InspectionId(0x31);
        let made = shop::inspection::open(
            &world.book,
            world.rules,
            inspection,
            FOURTEEN,
            "31",
            DOT,
            TODAY,
        );
        world.enter(DOT, TODAY, made);
        Occasion::Inspection { inspection }
    };
    let world = bolt(&["sounds-broken"], at_31);
    no(
        carry(&world, later(TODAY, 1), TODAY),
        Refused,
        &["`carry` cannot be taken", "no day is left", "230.39(b)"],
    );
    assert!(of_it(&world, TODAY)[0].why.contains("at once"));
}
