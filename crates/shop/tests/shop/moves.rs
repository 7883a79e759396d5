//! An inspection that was not completed, the move of an engine that does not comply, what the shop says of itself, and
//! every paper of an engine on one list.

use std::collections::BTreeSet;

use rules::Body;
use shop::Class;
use shop::book::{
    FindingId, InspectedBy, InspectionId, ItemCondition, MoveDecided, MoveEnd, MoveId, MoveUnder,
    MovedHow, NoticeGiven, Occasion, PersonId, Statement,
};
use shop::clock::{DutyOf, due, duties};
use shop::finding::{NewFinding, NewLifting, lift, record};
use shop::locomotive::Law;
use shop::record::{
    Daily, DayItem, How, NewDay, PARTICULARS, daily_of, decide_move, end_move, start_day,
    state_particular,
};
use shop::report::{Release, release, stops};

use crate::world::{ADA, CAL, DOT, ELI, FOURTEEN, TODAY, TWENTY_SEVEN, World, later};

const DAILY: InspectionId = InspectionId(0xDA1);
const FOUND: FindingId = FindingId(0xF1);

fn looked_at(item: &str, how: How, seen: &str) -> NewDay {
    NewDay {
        inspection: DAILY,
        locomotive: FOURTEEN,
        items: vec![DayItem {
            item: item.into(),
            how,
            seen: seen.into(),
        }],
        close: false,
        made: None,
    }
}

/// What the clock of the daily says on a day.
fn daily_clock(world: &World, on: jiff::civil::Date) -> String {
    let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    clocks
        .into_iter()
        .find(|c| c.inspection == "daily")
        .unwrap()
        .why
}

#[test]
fn a_fair_item_is_fair_in_the_act_that_begins_a_day() {
    let mut world = World::new();
    let day = looked_at("2", How::Fair, "left glass slow, but it comes back");
    let made = start_day(&world.book, world.rules, day, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    let kept = &world.book.inspections[&DAILY];
    let given = kept.answers.values().next().unwrap();
    assert_eq!(given.condition, Some(ItemCondition::Fair));
}

/// 49 CFR 230.13: a daily on each day she is offered for use. One that was left open is not one that was held.
#[test]
fn a_daily_that_was_not_completed_is_put_away_as_that_and_the_next_day_has_its_own() {
    let mut world = World::new();
    let day = looked_at("2", How::Good, "both glasses blown down, water back");
    let made = start_day(&world.book, world.rules, day, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    let next = later(TODAY, 1);
    let away = |world: &World, because: &str, by| {
        shop::inspection::put_away(&world.book, DAILY, because, by, TODAY)
    };
    assert_eq!(
        away(&world, "rained off", ELI).unwrap_err().class,
        Class::Refused
    );
    assert_eq!(away(&world, "  ", DOT).unwrap_err().class, Class::Input);
    let made = away(&world, "rained off", DOT);
    world.enter(DOT, next, made);
    let kept = &world.book.inspections[&DAILY];
    assert!(!kept.is_open() && kept.closed.is_none());
    assert_eq!(kept.answers.len(), 1, "what was answered stays readable");
    assert_eq!(daily_of(&world.book, FOURTEEN, TODAY), Daily::None);
    assert_eq!(daily_of(&world.book, FOURTEEN, next), Daily::None);
    let all = stops(&world.book, world.rules, FOURTEEN, next).unwrap();
    assert!(all.iter().all(|stop| !stop.is_inspection()), "{all:?}");
    // It stays against what the law asks: the clock of the daily names it, and never as held.
    let why = daily_clock(&world, next);
    assert!(
        why.contains("none is in this book")
            && why.contains("not completed: I-001 of 2026-05-02")
            && why.contains("rained off"),
        "{why}"
    );
    // Nothing more is said in it.
    for no in [
        away(&world, "twice", DOT).unwrap_err(),
        shop::inspection::close(&world.book, DAILY, None, DOT, TODAY).unwrap_err(),
        shop::inspection::answer(
            &world.book,
            DAILY,
            "3",
            (shop::book::Answer::Good, None),
            "whole",
            DOT,
            TODAY,
        )
        .unwrap_err(),
    ] {
        assert!(
            no.to_string()
                .contains("put away as not completed on 2026-05-03"),
            "{no}"
        );
    }
    let mut day = looked_at("3", How::Good, "shields whole");
    day.inspection = InspectionId(0xDA2);
    let made = start_day(&world.book, world.rules, day, DOT, next).unwrap();
    assert!(matches!(made[0], Statement::InspectionOpened(_)));
}

#[test]
fn a_daily_put_away_of_a_day_in_steam_says_so() {
    let mut world = World::new();
    let day = looked_at("2", How::Good, "both glasses blown down, water back");
    let made = start_day(&world.book, world.rules, day, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    world.steamed(TODAY);
    let made = shop::inspection::put_away(&world.book, DAILY, "nobody came back to it", DOT, TODAY);
    world.enter(DOT, TODAY, made);
    assert!(daily_clock(&world, TODAY).contains("a day she was in steam by the log"));
}

#[test]
fn an_inspection_with_nothing_open_is_closed_and_not_put_away() {
    let mut world = World::new();
    let law = Law::of(&world.book, world.rules, &world.book.locomotives[&FOURTEEN]);
    let all = shop::inspection::items(&law, "daily", TODAY).unwrap();
    let items = all.iter().map(|item| DayItem {
        item: item.rule.clone(),
        how: How::Good,
        seen: "looked at, nothing amiss".into(),
    });
    let day = NewDay {
        items: items.collect(),
        ..looked_at("1", How::Good, "")
    };
    let made = start_day(&world.book, world.rules, day, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    let no = shop::inspection::put_away(&world.book, DAILY, "no time", DOT, TODAY).unwrap_err();
    assert!(no.to_string().contains("Nothing is open in I-001"), "{no}");
}

fn failed(world: &mut World, occasion: Occasion) {
    let part = world.part(0xFC, "check-valve", &[]);
    let notice = (occasion == Occasion::SpecialNotice).then(|| NoticeGiven {
        name: "Inez Hale".into(),
        office: "the invented region".into(),
        document: "notice 7".into(),
    });
    let new = NewFinding {
        id: FOUND,
        locomotive: FOURTEEN,
        part,
        occasion,
        conditions: Vec::new(),
        told: "the check stuck open at milepost 31".into(),
        readings: Vec::new(),
        notice,
        taking: Default::default(),
    };
    let made = record(&world.book, new, ADA, TODAY);
    world.enter(ADA, TODAY, made);
}

fn to_repair() -> MoveDecided {
    MoveDecided {
        id: MoveId(1),
        locomotive: FOURTEEN,
        under: MoveUnder::ToRepair,
        defects: Vec::new(),
        from: "the water tank".into(),
        to: "the shop".into(),
        how: MovedHow::InTow,
        top_mph: 10,
        limits: "by daylight".into(),
        told: Some("both engineers and the cab crew, by note".into()),
        inspected: Some(InspectedBy {
            who: "Dot Marsh".into(),
            place: "the water tank".into(),
            on: TODAY,
        }),
        rulings: Vec::new(),
    }
}

/// 49 CFR 230.12(a) to (d), as read in the 2015 text.
#[test]
fn a_move_is_decided_by_one_who_may_and_lifts_nothing() {
    let mut world = World::new();
    let decide = |world: &World, new: MoveDecided, by: PersonId| {
        decide_move(&world.book, world.rules, new, by, TODAY)
    };
    failed(&mut world, Occasion::RoadFailure);
    let before = stops(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    // Who may not; what is not said; how it may not be.
    assert_eq!(
        decide(&world, to_repair(), DOT).unwrap_err().class,
        Class::Refused
    );
    let bare = MoveDecided {
        from: " ".into(),
        to: String::new(),
        limits: String::new(),
        top_mph: 0,
        told: None,
        inspected: None,
        ..to_repair()
    };
    let no = decide(&world, bare, ADA).unwrap_err();
    assert_eq!((no.class, no.todo.len()), (Class::Input, 6), "{no}");
    let train = MoveDecided {
        how: MovedHow::WithTrain,
        ..to_repair()
    };
    assert!(
        decide(&world, train, ADA)
            .unwrap_err()
            .to_string()
            .contains("lite or in tow")
    );
    let yard = MoveDecided {
        under: MoveUnder::InYard,
        told: None,
        inspected: None,
        top_mph: 11,
        ..to_repair()
    };
    let no = decide(&world, yard.clone(), ADA).unwrap_err();
    assert!(
        no.to_string().contains("10 mph at most") && no.to_string().contains("230.12(c)"),
        "{no}"
    );
    assert!(
        decide(
            &world,
            MoveDecided {
                top_mph: 10,
                ..yard
            },
            ADA
        )
        .is_ok()
    );
    // Going on from the road she may have her train; no tag is asked for again.
    let on = MoveDecided {
        under: MoveUnder::OnFromRoad,
        how: MovedHow::WithTrain,
        inspected: None,
        ..to_repair()
    };
    assert!(decide(&world, on, ADA).is_ok());
    let made = decide(&world, to_repair(), ADA);
    world.enter(ADA, TODAY, made);
    let kept = &world.book.locomotives[&FOURTEEN];
    let open = kept.on_the_move().unwrap();
    assert_eq!((open.by, open.on), (ADA, TODAY));
    assert!(
        open.decided
            .defects
            .iter()
            .any(|d| d.contains("milepost 31"))
    );
    let rules: Vec<&str> = open
        .decided
        .rulings
        .iter()
        .map(|r| r.rule.as_str())
        .collect();
    assert_eq!(rules, ["us-steam.move.decision", "us-steam.move.notice"]);
    // It stops her as it did, releases nothing, and her clocks are where they were.
    let after = stops(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    assert_eq!(after.len(), before.len());
    assert!(after.iter().any(|s| {
        s.why
            .contains("from the water tank to the shop was decided")
    }));
    let released = release(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    assert!(matches!(released, Release::None(_)));
    // One at a time; and it ends in words.
    let again = decide(
        &world,
        MoveDecided {
            id: MoveId(2),
            ..to_repair()
        },
        ADA,
    )
    .unwrap_err();
    assert!(again.to_string().contains("has not ended"), "{again}");
    assert_eq!(
        end_move(&world.book, FOURTEEN, MoveEnd::Arrived, " ")
            .unwrap_err()
            .class,
        Class::Input
    );
    let made = end_move(&world.book, FOURTEEN, MoveEnd::Arrived, "track 2, chocked");
    world.enter(ELI, TODAY, made);
    assert!(world.book.locomotives[&FOURTEEN].on_the_move().is_none());
    assert!(end_move(&world.book, FOURTEEN, MoveEnd::Arrived, "again").is_err());
    let after = stops(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    assert_eq!(after.len(), before.len(), "arriving puts nothing right");
}

/// 49 CFR 230.12(e): under a special notice she moves only as it allows.
#[test]
fn under_a_special_notice_she_moves_only_as_it_allows() {
    let mut world = World::new();
    failed(&mut world, Occasion::SpecialNotice);
    let no = decide_move(&world.book, world.rules, to_repair(), ADA, TODAY).unwrap_err();
    assert!(
        no.to_string().contains("only as that notice allows"),
        "{no}"
    );
    let under = |allows: &str| MoveDecided {
        under: MoveUnder::SpecialNotice {
            finding: FOUND,
            allows: allows.into(),
        },
        ..to_repair()
    };
    let silent = decide_move(&world.book, world.rules, under(" "), ADA, TODAY).unwrap_err();
    assert_eq!(silent.class, Class::Input);
    let made = decide_move(
        &world.book,
        world.rules,
        under("dead, to the shop"),
        ADA,
        TODAY,
    )
    .unwrap();
    let Statement::MoveDecided(it) = &made[0] else {
        panic!("{made:?}")
    };
    assert_eq!(it.rulings[1].rule, "us-steam.move.special-notice");
    // Once that office has lifted it, no move stands on it.
    let lifting = NewLifting {
        finding: FOUND,
        name: "Inez Hale".into(),
        office: "the invented region".into(),
        day: TODAY,
        document: "letter".into(),
    };
    let made = lift(&world.book, lifting, ADA, TODAY);
    world.enter(ADA, TODAY, made);
    assert!(decide_move(&world.book, world.rules, under("dead"), ADA, TODAY).is_err());
    assert!(decide_move(&world.book, world.rules, to_repair(), ADA, TODAY).is_ok());
}

#[test]
fn what_nobody_stated_is_missing_and_a_later_word_takes_its_place() {
    let mut world = World::new();
    let say = |world: &World, of, what: &str, says: &str, by| {
        state_particular(&world.book, of, what, says, by, TODAY)
    };
    assert_eq!(
        say(&world, None, "owner", "the society", CAL)
            .unwrap_err()
            .class,
        Class::Refused
    );
    for (of, what, says) in [
        (None, "colour", "black"),
        (None, "owner", " "),
        (None, "boiler-number", "3"),
    ] {
        assert_eq!(
            say(&world, of, what, says, ADA).unwrap_err().class,
            Class::Input,
            "{what}"
        );
    }
    let hers = |world: &World, id, what: &str, on| {
        let kept = &world.book.locomotives[&id];
        world
            .book
            .particular(kept, what, on)
            .map(|it| it.says.clone())
    };
    assert_eq!(hers(&world, FOURTEEN, "owner", TODAY), None);
    for (of, says, day) in [
        (None, "the society", TODAY),
        (Some(FOURTEEN), "the county, on loan", TODAY),
        (None, "the trust", later(TODAY, 9)),
    ] {
        let made = say(&world, of, "owner", says, ADA);
        world.enter(ADA, day, made);
    }
    let told = |id, day| hers(&world, id, "owner", day);
    assert_eq!(told(TWENTY_SEVEN, later(TODAY, -1)), None);
    assert_eq!(told(TWENTY_SEVEN, TODAY).as_deref(), Some("the society"));
    assert_eq!(
        told(TWENTY_SEVEN, later(TODAY, 9)).as_deref(),
        Some("the trust")
    );
    assert_eq!(
        told(FOURTEEN, later(TODAY, 9)).as_deref(),
        Some("the county, on loan")
    );
    let words: BTreeSet<&str> = PARTICULARS.iter().map(|(word, ..)| *word).collect();
    assert_eq!(words.len(), PARTICULARS.len());
}

/// Nothing forgotten: every filing and every retention that binds her stands on the list, once, where it belongs.
#[test]
fn every_paper_her_rules_ask_for_is_on_her_list_once() {
    let world = World::new();
    let kept = &world.book.locomotives[&FOURTEEN];
    let law = Law::of(&world.book, world.rules, kept);
    let asked: Vec<String> = law
        .in_force(TODAY)
        .unwrap()
        .into_iter()
        .filter(|r| matches!(r.body, Body::Filing(_) | Body::Retention(_)))
        .map(|r| r.rule)
        .collect();
    let all = duties(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    let listed: BTreeSet<&str> = all.iter().map(|duty| duty.ruling.rule.as_str()).collect();
    assert!(asked.len() > 30, "{}", asked.len());
    assert_eq!(listed.len(), all.len());
    assert_eq!(listed, asked.iter().map(String::as_str).collect());
    for duty in &all {
        assert!(
            !duty.what.is_empty() && !duty.when.is_empty() && !duty.places.is_empty(),
            "{duty:?}"
        );
    }
    let of = |id: &str| {
        all.iter()
            .find(|d| d.ruling.rule == format!("us-steam.{id}"))
            .unwrap()
            .of
    };
    // 49 CFR 230.14(c), .16(c), .46, .49(d), .75: in the cab or on herself. 230.20(a), 230.18(b): filed. 230.13(c): kept.
    for id in [
        "posted.form-1",
        "posted.form-3",
        "post.badge-plate",
        "post.lowest-set-pressure",
        "mark.air-tests",
        "move.tag",
    ] {
        assert_eq!(of(id), DutyOf::OnHer, "{id}");
    }
    for id in [
        "form-19.alteration",
        "form-5.yearly",
        "form-3.after-annual",
        "notice.annual",
    ] {
        assert_eq!(of(id), DutyOf::Goes, "{id}");
    }
    for id in ["keep.form-2", "keep.form-19"] {
        assert_eq!(of(id), DutyOf::Kept, "{id}");
    }
}
