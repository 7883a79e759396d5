//! The days ahead are walked in a copy of one engine's part of the book: whatever of it stops her today stops her
//! there, and every rule set that binds her binds her there.
//!
//! 230.14(a): 31 service days. The figures of the shop and of the province of Hallow are invented.

use jiff::civil::date;
use shop::book::{HeldBefore, LocomotiveId, ReportId, RunId, Symptom};
use shop::clock::promise;
use shop::finding::{NewReport, report};
use shop::locomotive::held_before;
use shop::report::{Standing, Suppose, ahead, deadlines, look};

use crate::ahead::known;
use crate::local_rules::{BOUND, OWN, in_hallow};
use crate::world::{ADA, ELI, FOURTEEN, TODAY, World, later};

fn promised(world: &mut World, engine: LocomotiveId, days: i64) {
    let made = promise(RunId(1), engine, later(TODAY, days), "train");
    world.enter(ADA, TODAY, made);
}

/// A run that the first page says is stopped is never clear when she is looked at ahead.
#[test]
fn what_a_crew_wrote_up_stops_the_runs_ahead_too() {
    let mut world = known(10);
    promised(&mut world, FOURTEEN, 7);
    let before = look(&world.book, world.rules, FOURTEEN, TODAY, &[]).unwrap();
    assert_eq!(before.trains[0].standing, Standing::Clear);
    let symptom = Symptom {
        what: "knocks".into(),
        place: "left motion".into(),
        heat: None,
        pressure: None,
        can_wait: Some(true),
    };
    let new = NewReport {
        id: ReportId(1),
        locomotive: FOURTEEN,
        symptoms: vec![symptom],
        nothing: false,
        told: String::new(),
    };
    let made = report(&world.book, new, ELI, TODAY);
    world.enter(ELI, TODAY, made);
    let page = ahead(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    let here = look(&world.book, world.rules, FOURTEEN, TODAY, &[]).unwrap();
    assert_eq!(page.runs[0].in_the_way, ["write-up W-001 is not settled"]);
    assert_eq!(here.trains[0].in_the_way, page.runs[0].in_the_way);
    assert_eq!(here.trains[0].standing, Standing::Falls);
}

#[test]
fn a_set_of_the_shops_own_binds_in_the_days_ahead() {
    let mut world = known(20);
    world.adopted(OWN, BOUND);
    world.bound("juniper-fork", BOUND, None);
    for (at, day) in [7, 8, 14, 15, 21, 22].into_iter().enumerate() {
        let made = promise(RunId(at as u128 + 1), FOURTEEN, later(TODAY, day), "train");
        world.enter(ADA, TODAY, made);
    }
    let look = look(&world.book, world.rules, FOURTEEN, TODAY, &[]).unwrap();
    let stopped = |rule: &str| {
        let mut courses = look.courses.iter();
        let course = courses.find(|c| c.clock.ruling.rule == rule).unwrap();
        course.stopped.as_ref().map(|s| s.from)
    };
    // 24 allowed by the shop, 20 held: four runs are kept and the fifth falls. By the law alone none would.
    assert_eq!(stopped("juniper-fork.clock.31"), Some(later(TODAY, 21)));
    assert_eq!(stopped("us-steam.clock.31"), None);
    let falls = look.trains.iter().map(|t| t.standing == Standing::Falls);
    assert_eq!(
        falls.collect::<Vec<_>>(),
        [false, false, false, false, true, true]
    );
    let all = deadlines(&world.book, world.rules, TODAY, None).unwrap();
    let own = all.iter().filter_map(|d| d.ruling.as_ref());
    assert!(own.clone().any(|r| r.rule == "juniper-fork.clock.31"));
    // One engine's deadlines are those of all that are hers.
    let hers = deadlines(&world.book, world.rules, TODAY, Some(FOURTEEN)).unwrap();
    let theirs: Vec<_> = all.into_iter().filter(|d| d.engine == FOURTEEN).collect();
    assert_eq!(hers, theirs);
}

/// An inspection that a set declares is supposed held as an inspection, and its clock starts anew from there.
#[test]
fn an_inspection_of_another_jurisdiction_is_supposed_held() {
    let mut world = in_hallow();
    let her = LocomotiveId(33);
    let held = HeldBefore {
        locomotive: her,
        kind: "half-yearly".into(),
        held_on: date(2026, 1, 31),
        service_days_since: None,
        annuals_since: None,
        document: "a form".into(),
    };
    let made = held_before(&world.book, world.rules, held, TODAY);
    world.enter(ADA, TODAY, made);
    let supposed = Suppose::Held {
        what: "half-yearly".into(),
        on: date(2026, 6, 1),
    };
    assert_eq!(supposed.what(), "the half-yearly");
    let look = look(&world.book, world.rules, her, TODAY, &[supposed]).unwrap();
    let mut courses = look.courses.iter();
    let course = courses
        .find(|c| c.clock.inspection == "half-yearly")
        .unwrap();
    // Six months from 1 June: 1 December is the last day in time.
    let stopped = course.stopped.as_ref().map(|s| s.from);
    assert_eq!(stopped, Some(date(2026, 12, 2)));
    assert!(
        look.assumed
            .iter()
            .any(|line| line.starts_with("the half-yearly begins and closes on 2026-06-01")),
        "{:?}",
        look.assumed
    );
    let all = deadlines(&world.book, world.rules, TODAY, Some(her)).unwrap();
    assert!(all.iter().any(|d| d.what == "half-yearly inspection"));
}
