//! Refusals by name, first half: the book, people, parts, the log, inspections, findings.

use jiff::civil::{Date, date};
use measure::State;
use shop::Class::{Input, Refused};
use shop::book::{
    Answer, FindingId, FireId, HeldBefore, InspectionId, LocomotiveId, Occasion, PartId, PersonId,
    RunId,
};
use shop::clock::{NewFire, close_log, log_fire, promise};
use shop::finding::{NewFinding, record};
use shop::inspection;
use shop::locomotive::{
    NewBook, NewPart, NewTooling, add_engine, add_part, add_person, add_tooling, held_before,
    new_book, take_readings,
};

use crate::flow::{self, ANNUAL, CHECK, FEEDWATER, OPENED};
use crate::said::no;
use crate::world::{
    ADA, BEN, CAL, DOT, ELI, FOURTEEN, TODAY, TWENTY_SEVEN, World, engine, found, later, person,
    words,
};

#[test]
fn a_book() {
    let new = |shop: &str, zone: &str, house: &str, officer: &str| {
        let new = NewBook {
            shop: shop.into(),
            time_zone: zone.into(),
            house: house.into(),
            officer: officer.into(),
            demonstration: None,
        };
        new_book(&new, ADA)
    };
    no(
        new(" ", "America/Denver", "inch", "Ada Quill"),
        Input,
        &["shop's name"],
    );
    no(
        new("Shop", "America/Denver", "inch", ""),
        Input,
        &["officer"],
    );
    no(
        new("Shop", "Denver", "inch", "Ada Quill"),
        Input,
        &["`Denver`", "America/Denver"],
    );
    let house = new("Shop", "America/Denver", "cubit", "Ada Quill").unwrap_err();
    assert_eq!(house.class, Input);
    assert!(house.what.contains("cubit"), "{house}");
}

#[test]
fn people_engines_and_papers() {
    let world = World::new();
    let book = &world.book;
    let add = |name: &str, by| add_person(book, person(PersonId(1), name, &[]), by, TODAY);
    no(
        add("Flo Pike", BEN),
        Refused,
        &["Ben Ostrow", "`approve`", "Ada Quill"],
    );
    no(add(" ", ADA), Input, &["name"]);
    no(add("ben ostrow", ADA), Input, &["ben ostrow"]);
    let with = |change: fn(&mut shop::locomotive::NewEngine)| {
        let mut new = engine(LocomotiveId(803), "803");
        change(&mut new);
        add_engine(book, world.rules, new)
    };
    no(with(|e| e.number = "No. ".into()), Input, &["number"]);
    no(with(|e| e.number = "No. 14".into()), Input, &["No. 14"]);
    no(
        with(|e| e.jurisdiction = "mars".into()),
        Input,
        &["`mars`", "us-steam"],
    );
    no(
        with(|e| {
            e.fittings.insert("wings".into(), true);
        }),
        Input,
        &["`wings`"],
    );
    no(with(|e| e.gauge = measure::Size::ZERO), Input, &["gauge"]);
    let held = |kind: &str, on: Date, since: Option<(u32, Date)>, document: &str| {
        let held = HeldBefore {
            locomotive: FOURTEEN,
            kind: kind.into(),
            held_on: on,
            service_days_since: since,
            annuals_since: None,
            document: document.into(),
        };
        held_before(&world.book, world.rules, held, TODAY)
    };
    let day = later(TODAY, -10);
    no(held("32", day, None, "Form 1"), Input, &["`32`"]);
    no(
        held("31", later(TODAY, 1), None, "Form 1"),
        Input,
        &["2026-05-03"],
    );
    no(held("31", day, None, " "), Input, &["document"]);
    no(
        held("31", day, Some((1, later(TODAY, 1))), "Form 1"),
        Input,
        &["between"],
    );
    no(
        held("31", day, Some((12, TODAY)), "Form 1"),
        Input,
        &["only 11 days", "12"],
    );
}

#[test]
fn parts_readings_and_tooling() {
    let world = flow::shop();
    let book = &world.book;
    let part = |change: &dyn Fn(&mut NewPart)| {
        let mut new = NewPart {
            id: PartId(1),
            locomotive: FOURTEEN,
            family: "check-valve".into(),
            name: "left feed check".into(),
            facts: words(&[]),
            features: Default::default(),
            known: Default::default(),
        };
        change(&mut new);
        add_part(book, new)
    };
    let step = |text: &str| shop::book::FeatureFacts {
        step: Some(text.into()),
        ..Default::default()
    };
    no(
        part(&|p| p.family = "boat".into()),
        Input,
        &["`boat`", "check-valve"],
    );
    no(part(&|p| p.name = " ".into()), Input, &["name"]);
    no(
        part(&|p| p.name = "Right Feed Check".into()),
        Input,
        &["Right Feed Check"],
    );
    no(
        part(&|p| p.facts = words(&[("mood", "good")])),
        Input,
        &["`mood`", "seat-angle"],
    );
    let design = words(&[("seat-design", "round")]);
    no(
        part(&|p| p.facts = design.clone()),
        Input,
        &["`round`", "matched"],
    );
    no(
        part(&|p| {
            p.features.insert("nose".into(), step("1 in"));
        }),
        Input,
        &["`nose`", "seat-wall"],
    );
    no(
        part(&|p| {
            p.features.insert("seat-wall".into(), step("1"));
        }),
        Input,
        &["metal behind"],
    );
    let take = |part, readings: &[(&str, &str, &str)]| {
        take_readings(
            book,
            part,
            None,
            State::AsFound,
            found(readings),
            &Default::default(),
        )
    };
    no(take(PartId(9), &[]), Input, &["no such part"]);
    no(take(CHECK, &[]), Input, &["At least one reading"]);
    no(
        take(CHECK, &[("nose", "front", "1 in")]),
        Input,
        &["`nose`"],
    );
    no(
        take(CHECK, &[("seat-wall", "top", "1 in")]),
        Input,
        &["`top`", "front"],
    );
    no(
        take(CHECK, &[("seat-wall", "front", "1")]),
        Input,
        &["metal behind"],
    );
    let twice = [
        ("seat-wall", "front", "1 in"),
        ("seat-wall", "front", "2 in"),
    ];
    no(
        take(CHECK, &twice),
        Input,
        &["`seat-wall` at `front`", "twice"],
    );
    let tool = |what: &str, shelf: &str, feature: &str| {
        let new = NewTooling {
            id: shop::book::ToolingId(1),
            what: what.into(),
            part: CHECK,
            features: vec![feature.into()],
            drawing: None,
            shelf: shelf.into(),
            job: None,
        };
        add_tooling(&world.book, new)
    };
    no(tool("lap", "", "seat-land"), Input, &["shelf"]);
    no(tool("", "drawer 2", "seat-land"), Input, &["name"]);
    no(
        tool("lap", "drawer 2", "tread"),
        Input,
        &["`tread`", "seat-land"],
    );
}

#[test]
fn the_log() {
    let mut world = World::new();
    let at = |hour: i8| Some(TODAY.at(hour, 0, 0, 0));
    let blank = NewFire {
        id: FireId(1),
        locomotive: FOURTEEN,
        lit: None,
        up: None,
        out: None,
        gone: None,
        miles: None,
        offered: None,
    };
    let fire = |lit: Option<_>, up, out, gone| {
        log_fire(
            NewFire {
                lit,
                up,
                out,
                gone,
                ..blank
            },
            TODAY,
        )
    };
    no(
        fire(None, None, at(9), at(9)),
        Input,
        &["at least one beginning"],
    );
    no(
        fire(at(9), None, at(8), None),
        Input,
        &["out before it is lit", "2026-05-02 09:00"],
    );
    no(
        fire(None, at(9), None, at(8)),
        Input,
        &["gone before it is up"],
    );
    no(
        fire(at(9), at(8), None, None),
        Input,
        &["up before the fire is lit"],
    );
    no(
        fire(at(9), None, None, at(8)),
        Input,
        &["gone before the fire is lit"],
    );
    no(
        fire(at(9), None, at(9), None),
        Input,
        &["lit and out at one time"],
    );
    no(
        fire(None, at(9), None, at(9)),
        Input,
        &["up and gone at one time"],
    );
    let tomorrow = Some(later(TODAY, 1).at(0, 0, 0, 0));
    no(
        fire(at(9), None, tomorrow, None),
        Input,
        &["2026-05-03 00:00", "after today"],
    );
    no(
        promise(RunId(1), FOURTEEN, TODAY, " "),
        Input,
        &["what was promised"],
    );
    let close =
        |world: &World, from, through| close_log(&world.book, FOURTEEN, from, through, TODAY);
    let days = |n| later(TODAY, n);
    no(
        close_log(&world.book, LocomotiveId(9), None, TODAY, TODAY),
        Input,
        &["no such engine"],
    );
    no(
        close(&world, Some(days(-3)), days(1)),
        Input,
        &["2026-05-03 has not happened"],
    );
    no(
        close(&world, None, TODAY),
        Input,
        &["from which day", "--from"],
    );
    no(
        close(&world, Some(TODAY), days(-1)),
        Input,
        &["Nothing to close"],
    );
    world.closed(days(-20), days(-10));
    no(
        close(&world, Some(days(-8)), TODAY),
        Input,
        &["closed through 2026-04-22", "leave out days"],
    );
    no(
        close(&world, Some(days(-40)), days(-22)),
        Input,
        &["closed from 2026-04-12", "leave out days"],
    );
    assert!(close(&world, Some(days(-40)), days(-21)).is_ok());
    assert!(close(&world, None, TODAY).is_ok());
    let burning = log_fire(
        NewFire {
            lit: at(6),
            up: at(9),
            ..blank
        },
        TODAY,
    );
    world.enter(ELI, TODAY, burning);
    no(
        close(&world, None, TODAY),
        Refused,
        &["fire of 2026-05-02", "no end written"],
    );
}

#[test]
fn an_inspection() {
    let mut world = flow::written_up();
    let open = |world: &World, engine, kind: &str, by| {
        inspection::open(
            &world.book,
            world.rules,
            InspectionId(1),
            engine,
            kind,
            by,
            OPENED,
        )
    };
    no(
        open(&world, FOURTEEN, "31", CAL),
        Refused,
        &["Cal Wren", "`inspect`", "Dot Marsh"],
    );
    no(
        open(&world, LocomotiveId(9), "31", DOT),
        Input,
        &["no such engine"],
    );
    no(open(&world, FOURTEEN, "32", DOT), Input, &["`32`", "31"]);
    no(
        open(&world, FOURTEEN, "annual", DOT),
        Refused,
        &["No. 14", "I-001"],
    );
    let early = date(1999, 1, 1);
    let early = inspection::open(
        &world.book,
        world.rules,
        InspectionId(1),
        FOURTEEN,
        "31",
        DOT,
        early,
    );
    no(early, Input, &["1999-01-01"]);
    let answer = |world: &World, id, item: &str, answer, seen: &str, by| {
        inspection::answer(&world.book, id, item, (answer, None), seen, by, TODAY)
    };
    let good = |item: &str, seen: &str, by| answer(&world, ANNUAL, item, Answer::Good, seen, by);
    no(
        answer(&world, InspectionId(9), "1", Answer::Good, "ok", DOT),
        Input,
        &["no such inspection"],
    );
    no(good("1", "dry", CAL), Refused, &["Cal Wren", "`inspect`"]);
    no(
        good("us-steam.nothing", "dry", DOT),
        Input,
        &["`us-steam.nothing`", "I-001"],
    );
    no(good("0", "dry", DOT), Input, &["`0`"]);
    no(good("1", " ", DOT), Refused, &["what was seen"]);
    // FEEDWATER speaks of checks: the next one to open them plans by how much scale there was.
    for seen in ["cleaned", "Cleaned out, all good"] {
        no(
            good(FEEDWATER, seen, DOT),
            Refused,
            &["How much scale", seen],
        );
    }
    assert!(good(FEEDWATER, "cleaned, 1/32 in of soft scale", DOT).is_ok());
    assert!(
        good("1", "cleaned", DOT).is_ok(),
        "a lifting pressure does not scale up"
    );
    let not_fitted = |item| answer(&world, ANNUAL, item, Answer::NotFitted, "none", DOT);
    no(
        not_fitted(FEEDWATER),
        Refused,
        &["every engine", "not fitted"],
    );
    let glasses = "us-steam.92.tubular-glasses";
    no(
        not_fitted(glasses),
        Refused,
        &["tubular-glasses", "correct the engine"],
    );
    let strange = Answer::Defect {
        finding: FindingId(9),
    };
    no(
        answer(&world, ANNUAL, "1", strange, "leaks", DOT),
        Input,
        &["not of this engine"],
    );
    no(
        inspection::close(&world.book, InspectionId(9), None, DOT, TODAY),
        Input,
        &["no such inspection"],
    );
    no(
        inspection::close(&world.book, ANNUAL, None, CAL, TODAY),
        Refused,
        &["Cal Wren"],
    );
    let missing = [
        "I-001 cannot be closed",
        "open finding F-001",
        "not answered",
    ];
    no(
        inspection::close(&world.book, ANNUAL, None, DOT, TODAY),
        Refused,
        &missing,
    );
    world.answer_all(ANNUAL, OPENED);
    no(
        inspection::close(&world.book, ANNUAL, None, DOT, TODAY),
        Refused,
        &["F-001"],
    );
    world.inspected("31", OPENED);
    let done = *world
        .book
        .inspections
        .keys()
        .find(|id| **id != ANNUAL)
        .unwrap();
    no(
        answer(&world, done, "1", Answer::Good, "dry", DOT),
        Refused,
        &["I-002 was closed"],
    );
    no(
        inspection::close(&world.book, done, None, DOT, TODAY),
        Refused,
        &["I-002 was closed"],
    );
}

/// A crew's write-up of the right feed check.
pub fn finding() -> NewFinding {
    NewFinding {
        id: FindingId(1),
        locomotive: FOURTEEN,
        part: CHECK,
        occasion: Occasion::WriteUp,
        conditions: Vec::new(),
        told: "weeps".into(),
        readings: Vec::new(),
        notice: None,
        taking: Default::default(),
    }
}

#[test]
fn a_finding() {
    let mut world = flow::written_up();
    world.inspected("31", OPENED);
    let done = *world
        .book
        .inspections
        .keys()
        .find(|id| **id != ANNUAL)
        .unwrap();
    let with = |by, change: &dyn Fn(&mut NewFinding)| {
        let mut new = finding();
        change(&mut new);
        record(&world.book, new, by, TODAY)
    };
    let at = |inspection| Occasion::Inspection { inspection };
    no(with(ELI, &|f| f.part = PartId(9)), Input, &["no such part"]);
    no(
        with(ELI, &|f| f.locomotive = TWENTY_SEVEN),
        Input,
        &["right feed check", "not this engine's"],
    );
    no(
        with(ELI, &|f| f.told = " ".into()),
        Input,
        &["what was seen"],
    );
    no(
        with(ELI, &|f| f.conditions = vec!["sings".into()]),
        Input,
        &["`sings`", "weeps-back"],
    );
    no(
        with(ELI, &|f| f.readings = found(&[("nose", "front", "1 in")])),
        Input,
        &["`nose`"],
    );
    no(
        with(ELI, &|f| f.occasion = at(ANNUAL)),
        Refused,
        &["Eli Voss", "`inspect`"],
    );
    no(
        with(DOT, &|f| f.occasion = at(InspectionId(9))),
        Input,
        &["no such inspection"],
    );
    no(
        with(DOT, &|f| f.occasion = at(done)),
        Refused,
        &["I-002 was closed", "write-up"],
    );
    let mut other = world.clone();
    let id = InspectionId(27);
    let made = inspection::open(
        &other.book,
        other.rules,
        id,
        TWENTY_SEVEN,
        "31",
        DOT,
        OPENED,
    );
    other.enter(DOT, OPENED, made);
    let mut new = finding();
    new.occasion = at(id);
    no(
        record(&other.book, new, DOT, TODAY),
        Input,
        &["I-003", "another engine's"],
    );
}
