//! Refusals by name, second half: decisions, jobs, proofs, signatures, the release, and corrections.

use jiff::civil::Date;
use shop::Class::{Input, Refused};
use shop::book::{Authority, BookOpened, FindingId, JobId, LocomotiveId, PersonId, Statement};
use shop::decision::{Wish, decide};
use shop::design::propose;
use shop::finding::{NewFinding, record};
use shop::job;
use shop::proof::prove;
use shop::record::{
    ANOTHER_CERTIFIES, Mend, close_job, knock_on, put_right, release, sign, state_shop_rule,
};

use crate::flow::{self, JOB, OPENED, WEEPS, wish};
use crate::refusals::finding;
use crate::said::no;
use crate::world::{ADA, BEN, CAL, DOT, ELI, FOURTEEN, TODAY, TWENTY_SEVEN, World, found, later};

#[test]
fn a_decision() {
    let world = flow::written_up();
    let say = |world: &World, by, change: &dyn Fn(&mut Wish)| {
        let mut new = wish("re-cut");
        change(&mut new);
        decide(&world.book, world.rules, new, by, OPENED)
    };
    no(
        say(&world, ADA, &|w| w.finding = FindingId(9)),
        Input,
        &["no such finding"],
    );
    no(
        say(&world, BEN, &|_| ()),
        Refused,
        &["Ben Ostrow", "`approve`"],
    );
    no(
        say(&world, ADA, &|w| w.because = " ".into()),
        Input,
        &["reason"],
    );
    no(
        say(&world, ADA, &|w| w.route = "pray".into()),
        Input,
        &["`pray`", "F-001", "re-cut"],
    );
    no(
        say(&world, ADA, &|w| w.route = "grind-in".into()),
        Refused,
        &["`grind-in`", "moves"],
    );
    no(
        say(&world, ADA, &|w| w.route = "carry".into()),
        Refused,
        &["fails a rule", "230.57(b)"],
    );
    let again = flow::ordered();
    no(
        say(&again, ADA, &|_| ()),
        Refused,
        &["F-001 has been decided"],
    );
    // What cannot be told is not carried and not cut.
    let mut bare = flow::shop();
    let made = record(&bare.book, finding(), ELI, TODAY);
    bare.enter(ELI, OPENED, made);
    let on = |w: &mut Wish| w.finding = FindingId(1);
    no(
        say(&bare, ADA, &on),
        Refused,
        &["Nobody can tell", "half angle of the seat"],
    );
    let carry = |w: &mut Wish| (w.finding, w.route) = (FindingId(1), "carry".into());
    no(
        say(&bare, ADA, &carry),
        Refused,
        &["Nobody can tell", "no limit on file"],
    );
    // A crosshead inside its limits may be carried, with a day ahead to look again.
    let mut good = World::new();
    let part = good.part(1, "crosshead-and-guide", &[]);
    let places = ["front", "middle", "back"];
    let mut readings = Vec::new();
    for place in places {
        readings.extend(found(&[
            ("vertical", place, "1/8 in"),
            ("lateral", place, "1/8 in"),
        ]));
    }
    let new = NewFinding {
        part,
        readings,
        ..finding()
    };
    let made = record(&good.book, new, ELI, TODAY);
    good.enter(ELI, OPENED, made);
    no(
        say(&good, ADA, &carry),
        Refused,
        &["day it is looked at again"],
    );
    let past = |w: &mut Wish| {
        carry(w);
        w.recheck = Some(OPENED);
    };
    no(say(&good, ADA, &past), Input, &["2026-01-31", "not ahead"]);
    let ahead = |w: &mut Wish| {
        carry(w);
        w.recheck = Some(later(OPENED, 1));
    };
    assert!(say(&good, ADA, &ahead).is_ok());
}

/// What is carried is looked at again on its day, and carried further or put right: it would hold her for ever else.
#[test]
fn what_is_carried_is_decided_on_again_and_tells_how_often() {
    let mut world = World::new();
    let part = world.part(1, "crosshead-and-guide", &[]);
    let places = ["front", "middle", "back"];
    let readings = places
        .iter()
        .flat_map(|place| found(&[("vertical", place, "1/8 in"), ("lateral", place, "1/8 in")]));
    let new = NewFinding {
        part,
        readings: readings.collect(),
        ..finding()
    };
    let made = record(&world.book, new, ELI, TODAY);
    world.enter(ELI, OPENED, made);
    let id = FindingId(1);
    let wish = |route: &str, recheck| Wish {
        finding: id,
        route: route.into(),
        because: "inside its limits, looked at".into(),
        recheck,
    };
    let days = [OPENED, later(OPENED, 30), later(OPENED, 60)];
    for two in days.windows(2) {
        let made = decide(
            &world.book,
            world.rules,
            wish("carry", Some(two[1])),
            ADA,
            two[0],
        );
        world.enter(ADA, two[0], made);
    }
    let stops = |world: &World, on| {
        let all = shop::report::stops(&world.book, world.rules, FOURTEEN, on).unwrap();
        all.into_iter().any(|stop| stop.why.contains("F-001"))
    };
    let kept = &world.book.findings[&id];
    let carried: Vec<_> = kept
        .carried
        .iter()
        .map(|it| (it.on, it.by, it.recheck))
        .collect();
    assert_eq!(
        carried,
        [(days[0], ADA, Some(days[1])), (days[1], ADA, Some(days[2]))]
    );
    assert_eq!(
        kept.decision.as_ref().and_then(|it| it.recheck),
        Some(days[2])
    );
    assert!(!stops(&world, days[2]));
    assert!(
        stops(&world, later(days[2], 1)),
        "its day to look again is past"
    );
    // Past that day somebody decides again, here to put it right; after that nobody carries it.
    let routes = shop::route::routes(
        &world.book,
        world.rules,
        kept,
        days[2],
        measure::House::Inch,
    )
    .unwrap();
    let other = routes
        .offers
        .iter()
        .find(|offer| !offer.route.carries && offer.feasible == shop::route::Feasible::Yes);
    let other = other.unwrap().route.word.clone();
    let made = decide(
        &world.book,
        world.rules,
        wish(&other, None),
        ADA,
        later(days[2], 1),
    );
    world.enter(ADA, later(days[2], 1), made);
    assert_eq!(world.book.findings[&id].carried.len(), 2);
    no(
        decide(
            &world.book,
            world.rules,
            wish("carry", Some(later(days[2], 9))),
            ADA,
            later(days[2], 1),
        ),
        Refused,
        &["F-001 has been decided"],
    );
}

/// Oldest first, and together where one way in is a piece of the other.
#[test]
fn open_things_stand_together_where_they_are_reached_together() {
    let mut world = World::new();
    let mut at = 0;
    let mut open = |world: &mut World, reach: &[&str], on| {
        at += 1;
        let part = world.part(at, "crosshead-and-guide", &[]);
        if !reach.is_empty() {
            let told = shop::book::PartTold {
                part,
                known: shop::book::PartKnown {
                    reach: reach.iter().map(|word| (*word).to_string()).collect(),
                    ..shop::book::PartKnown::default()
                },
                facts: std::collections::BTreeMap::new(),
                features: std::collections::BTreeMap::new(),
                document: None,
            };
            world.state(ADA, on, Statement::PartTold(told));
        }
        let new = NewFinding {
            id: FindingId(at),
            part,
            readings: Vec::new(),
            ..finding()
        };
        let made = record(&world.book, new, ELI, TODAY);
        world.enter(ELI, on, made);
    };
    open(
        &mut world,
        &["main rod", "back cylinder head"],
        later(OPENED, 3),
    );
    open(&mut world, &[], OPENED);
    open(&mut world, &["jacket"], later(OPENED, 1));
    open(&mut world, &["side rod"], later(OPENED, 2));
    open(&mut world, &["side rod", "main rod"], later(OPENED, 4));
    let groups = shop::report::open_things(&world.book, FOURTEEN);
    let told: Vec<(Vec<&str>, Vec<Date>)> = groups
        .iter()
        .map(|group| {
            let apart = group.apart.iter().map(String::as_str).collect();
            (apart, group.open.iter().map(|open| open.since).collect())
        })
        .collect();
    let day = |n| later(OPENED, n);
    assert_eq!(
        told,
        [
            (vec!["jacket"], vec![day(1)]),
            (
                vec!["side rod", "main rod", "back cylinder head"],
                vec![day(2), day(3), day(4)]
            ),
            (vec![], vec![OPENED]),
        ]
    );
}

#[test]
fn a_design_and_a_job() {
    let open = flow::written_up();
    let design = |world: &World, id| propose(&world.book, world.rules, id, OPENED);
    no(design(&open, FindingId(9)), Input, &["no such finding"]);
    no(
        design(&open, WEEPS),
        Refused,
        &["Nobody has decided on F-001"],
    );
    no(
        design(&flow::ordered(), WEEPS),
        Refused,
        &["F-001 has its job"],
    );
    let mut decided = flow::written_up();
    let made = decide(&decided.book, decided.rules, wish("re-cut"), ADA, OPENED);
    decided.enter(ADA, OPENED, made);
    let plan = design(&decided, WEEPS).unwrap();
    let make = |promised, by| job::make(&decided.book, JobId(2), &plan, promised, by, OPENED);
    no(make(None, BEN), Refused, &["Ben Ostrow", "order a job"]);
    no(
        make(Some(later(OPENED, -1)), ADA),
        Input,
        &["2026-01-30", "past"],
    );
}

#[test]
fn operations_and_hold_points() {
    let mut world = flow::ordered();
    let done =
        |world: &World, job, at, by| job::done(&world.book, job, at, None, "done", by, TODAY);
    let clear =
        |world: &World, at, seen: &str, by| job::clear(&world.book, JOB, at, seen, None, by, TODAY);
    no(done(&world, JobId(9), 1, CAL), Input, &["no such job"]);
    no(
        done(&world, JOB, 1, DOT),
        Refused,
        &["Dot Marsh", "`repair`"],
    );
    no(done(&world, JOB, 0, CAL), Input, &["1 to 6", "0"]);
    no(done(&world, JOB, 7, CAL), Input, &["1 to 6", "7"]);
    no(
        done(&world, JOB, 2, CAL),
        Refused,
        &["operation 1 comes first"],
    );
    no(
        clear(&world, 1, "good", ADA),
        Refused,
        &["no hold point after operation 1"],
    );
    no(clear(&world, 9, "good", ADA), Input, &["9 is none of them"]);
    no(
        clear(&world, 2, "good", BEN),
        Refused,
        &["operation 2 is not done"],
    );
    for at in [1, 2] {
        let made = done(&world, JOB, at, CAL);
        world.enter(CAL, OPENED, made);
    }
    no(
        done(&world, JOB, 1, CAL),
        Refused,
        &["operation 1 was done on 2026-01-31"],
    );
    no(
        done(&world, JOB, 3, CAL),
        Refused,
        &["hold point after operation 2", "sine bar"],
    );
    no(
        clear(&world, 2, "good", DOT),
        Refused,
        &["Dot Marsh", "`repair`"],
    );
    no(
        clear(&world, 2, "good", CAL),
        Refused,
        &["second pair of eyes"],
    );
    no(clear(&world, 2, " ", BEN), Refused, &["Say what was seen"]);
    let shut = flow::closed();
    no(done(&shut, JOB, 1, CAL), Refused, &["J-001 was closed"]);
    no(clear(&shut, 2, "good", BEN), Refused, &["J-001 was closed"]);
}

#[test]
fn proofs_and_knock_ons() {
    let (early, world, shut) = (flow::ordered(), flow::worked(), flow::closed());
    let say = |world: &World, job, proof: &str, told: &str, by| {
        prove(&world.book, job, proof, true, told, by, TODAY)
    };
    no(
        say(&world, JobId(9), "blue", "dry", DOT),
        Input,
        &["no such job"],
    );
    no(
        say(&shut, JOB, "blue", "dry", DOT),
        Refused,
        &["J-001 was closed"],
    );
    no(
        say(&world, JOB, "blue", "dry", CAL),
        Refused,
        &["Cal Wren", "`inspect`"],
    );
    no(
        say(&world, JOB, "red", "dry", DOT),
        Input,
        &["`red`", "cold-water"],
    );
    no(
        say(&early, JOB, "blue", "dry", DOT),
        Refused,
        &["operation 1 is not done"],
    );
    no(
        say(&world, JOB, "blue", " ", DOT),
        Refused,
        &["what was seen"],
    );
    let look = |world: &World, job, word: &str, seen: &str, by| {
        knock_on(&world.book, job, word, seen, by, TODAY)
    };
    no(
        look(&world, JobId(9), "disc-lift", "same", BEN),
        Input,
        &["no such job"],
    );
    no(
        look(&shut, JOB, "disc-lift", "same", BEN),
        Refused,
        &["J-001 was closed"],
    );
    no(
        look(&world, JOB, "disc-lift", "same", ELI),
        Refused,
        &["Eli Voss", "look at a knock-on"],
    );
    no(
        look(&world, JOB, "whistle", "same", BEN),
        Input,
        &["`whistle`", "disc-lift"],
    );
    no(
        look(&world, JOB, "disc-lift", " ", BEN),
        Refused,
        &["what was found"],
    );
}

#[test]
fn signatures_and_the_close() {
    let (world, ready, shut) = (flow::worked(), flow::proved(), flow::closed());
    let put = |world: &World, job, capacity, by| {
        sign(&world.book, world.rules, job, capacity, by, OPENED)
    };
    no(
        put(&ready, JobId(9), Authority::Repair, CAL),
        Input,
        &["no such job"],
    );
    no(
        put(&shut, JOB, Authority::Repair, CAL),
        Refused,
        &["J-001 was closed"],
    );
    no(
        put(&ready, JOB, Authority::Inspect, CAL),
        Refused,
        &["sign as inspector", "`inspect`"],
    );
    no(
        put(&ready, JOB, Authority::Repair, DOT),
        Refused,
        &["sign as repairer", "`repair`"],
    );
    no(
        put(&ready, JOB, Authority::Approve, BEN),
        Refused,
        &["sign as approver", "Ada Quill"],
    );
    let missing = [
        "proof `blue` is not made",
        "no as-left reading",
        "knock-on `disc-lift`",
    ];
    no(put(&world, JOB, Authority::Repair, CAL), Refused, &missing);
    let steps = ["operation 1 is not done"];
    no(
        put(&flow::ordered(), JOB, Authority::Repair, CAL),
        Refused,
        &steps,
    );
    let close = |world: &World, by| close_job(&world.book, world.rules, JOB, by, OPENED);
    no(close(&ready, BEN), Refused, &["Ben Ostrow", "`approve`"]);
    no(
        close(&ready, ADA),
        Refused,
        &["J-001 cannot be closed", "not signed by the inspector"],
    );
    no(close(&shut, ADA), Refused, &["J-001 was closed"]);
}

#[test]
fn a_release() {
    let world = flow::closed();
    let day = later(OPENED, 50);
    let hand = |world: &World, engine, by| release(&world.book, world.rules, engine, by, day);
    no(
        hand(&world, FOURTEEN, BEN),
        Refused,
        &["Ben Ostrow", "release an engine"],
    );
    no(
        hand(&world, LocomotiveId(9), ADA),
        Input,
        &["no such engine"],
    );
    no(
        hand(&world, FOURTEEN, ADA),
        Refused,
        &["No. 14", "annual inspection I-001 is open"],
    );
    no(
        hand(&World::new(), FOURTEEN, ADA),
        Refused,
        &["cannot tell: needs when the last 31"],
    );
    no(
        hand(&flow::ordered(), FOURTEEN, ADA),
        Refused,
        &["F-001", "in work"],
    );
    // Inspected this very day, so that no clock minds, but with a log nobody ever closed.
    let mut blank = World::new();
    for kind in ["1472", "annual"] {
        blank.inspected(kind, day);
    }
    blank.did("air-brake-valves", day, Some((0, day)), Some(0));
    no(
        hand(&blank, FOURTEEN, ADA),
        Refused,
        &["No. 14", "log has never been closed"],
    );
}

#[test]
fn what_may_be_put_right() {
    let world = flow::worked();
    let mend = |was: &Statement, instead: &Statement, stated_by, by| {
        let mend = Mend {
            was,
            stated_by,
            instead,
            by,
            on: TODAY,
        };
        put_right(&world.book, world.rules, mend)
    };
    let signed = Statement::Signed(shop::book::Signed {
        job: JOB,
        capacity: Authority::Approve,
        stated: None,
    });
    no(
        mend(&signed, &signed, ADA, ADA),
        Refused,
        &["`signed`", "act"],
    );
    let done = |told: &str| {
        Statement::OperationDone(shop::book::OperationDone {
            job: JOB,
            operation: 1,
            hours: None,
            told: told.into(),
        })
    };
    no(
        mend(&done("a"), &done("b"), CAL, BEN),
        Refused,
        &["Only Cal Wren"],
    );
    assert!(mend(&done("a"), &done("b"), CAL, CAL).is_ok());
    let opened = |shop: &str| {
        Statement::BookOpened(BookOpened {
            shop: shop.into(),
            time_zone: "America/Denver".into(),
            house: "inch".into(),
            demonstration: None,
        })
    };
    no(
        mend(&opened("a"), &opened("b"), ADA, BEN),
        Refused,
        &["Ben Ostrow", "`approve`"],
    );
    no(
        mend(&opened("a"), &opened(" "), ADA, ADA),
        Input,
        &["shop's name"],
    );
    no(
        mend(&opened("a"), &done("a"), ADA, ADA),
        Refused,
        &["never what it was said of"],
    );
    let log = |engine, through| {
        Statement::LogClosed(shop::book::LogClosed {
            locomotive: engine,
            from: OPENED,
            through,
        })
    };
    let was = log(FOURTEEN, TODAY);
    no(
        mend(&was, &log(TWENTY_SEVEN, TODAY), ADA, ADA),
        Refused,
        &["never what"],
    );
    no(
        mend(&was, &log(FOURTEEN, later(TODAY, 1)), ADA, ADA),
        Input,
        &["at most"],
    );
}

/// What a person asks for by name or number and the book does not have.
#[test]
fn names_the_book_does_not_know() {
    let world = flow::ordered();
    let book = &world.book;
    no(
        shop::locomotive::engine(book, "803"),
        Input,
        &["`803`", "No. 14, No. 27"],
    );
    no(
        shop::locomotive::person(book, "Nobody"),
        Input,
        &["`Nobody`", "Ada Quill"],
    );
    no(
        shop::locomotive::part(book, FOURTEEN, "whistle"),
        Input,
        &["`whistle`", "right feed check"],
    );
    no(
        shop::locomotive::part(book, TWENTY_SEVEN, "whistle"),
        Input,
        &["it has none"],
    );
    no(
        shop::locomotive::job(book, "J-002"),
        Input,
        &["J-002", "it has 1"],
    );
    no(
        shop::locomotive::job(book, "the check"),
        Input,
        &["`the check`", "J-001"],
    );
    no(
        shop::locomotive::finding(book, "J-001"),
        Input,
        &["F-001 was expected"],
    );
    no(shop::locomotive::inspection(book, "I-9"), Input, &["I-009"]);
    no(
        shop::locomotive::tooling(book, "T-001"),
        Input,
        &["it has 0"],
    );
    assert!(shop::locomotive::engine(book, "No. 14").is_ok());
    assert!(shop::locomotive::job(book, "j1").is_ok());
}

#[test]
fn a_certifier_who_is_the_fixer_where_the_shop_forbids_it() {
    let mut world = flow::proved();
    let sign_as =
        |world: &World, capacity, by| sign(&world.book, world.rules, JOB, capacity, by, OPENED);
    let state = |world: &World, word: &str, holds, because: &str, by| {
        state_shop_rule(&world.book, word, holds, because, by, OPENED)
    };
    // The officer may certify, and did nothing here; Ben may both repair and inspect.
    let made = sign_as(&world, Authority::Repair, BEN);
    world.enter(BEN, OPENED, made);
    assert!(sign_as(&world, Authority::Inspect, BEN).is_ok());
    no(
        state(&world, ANOTHER_CERTIFIES, true, "minute 4", BEN),
        Refused,
        &["Ben Ostrow", "`approve`"],
    );
    no(
        state(&world, ANOTHER_CERTIFIES, true, " ", ADA),
        Input,
        &["Say why"],
    );
    no(
        state(&world, "no-such", true, "x", ADA),
        Input,
        &["`no-such`", ANOTHER_CERTIFIES],
    );
    no(
        state(&world, ANOTHER_CERTIFIES, false, "x", ADA),
        Refused,
        &["does not hold in this shop"],
    );
    let made = state(
        &world,
        ANOTHER_CERTIFIES,
        true,
        "board minute 4 of 2026",
        ADA,
    );
    world.enter(ADA, OPENED, made);
    no(
        state(&world, ANOTHER_CERTIFIES, true, "again", ADA),
        Refused,
        &["holds already", "board minute 4"],
    );
    no(
        sign_as(&world, Authority::Inspect, BEN),
        Refused,
        &[
            "Ben Ostrow signed as repairer in J-001",
            "inspector",
            "board minute 4 of 2026",
        ],
    );
    // Who did an operation is as much the fixer, whatever he signs.
    let made = shop::locomotive::add_person(
        &world.book,
        crate::world::person(PersonId(0xF10), "Flo Pike", &Authority::ALL),
        ADA,
        OPENED,
    );
    world.enter(ADA, OPENED, made);
    let flo = PersonId(0xF10);
    let done = shop::book::OperationDone {
        job: JOB,
        operation: 2,
        hours: None,
        told: "done over".into(),
    };
    world.state(flo, OPENED, shop::book::Statement::OperationDone(done));
    no(
        sign_as(&world, Authority::Approve, flo),
        Refused,
        &["Flo Pike did operation 2", "approver"],
    );
    let made = sign_as(&world, Authority::Inspect, DOT);
    world.enter(DOT, OPENED, made);
    // And the other way round.
    let made = sign_as(&world, Authority::Approve, ADA);
    world.enter(ADA, OPENED, made);
    no(
        sign_as(&world, Authority::Repair, ADA),
        Refused,
        &["Ada Quill signed as approver", "repairer"],
    );
    // It binds from its day: what was signed the day before was signed by another rule.
    assert!(
        sign(
            &world.book,
            world.rules,
            JOB,
            Authority::Inspect,
            BEN,
            later(OPENED, -1)
        )
        .is_ok()
    );
    let made = state(
        &world,
        ANOTHER_CERTIFIES,
        false,
        "board minute 9 of 2026",
        ADA,
    );
    world.enter(ADA, OPENED, made);
    assert!(sign_as(&world, Authority::Inspect, BEN).is_ok());
}
