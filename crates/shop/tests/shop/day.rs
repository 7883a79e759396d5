//! The start and the end of a day, and what others find on the road: refused by name, and nothing half stated.

use jiff::civil::Date;
use shop::Class;
use shop::book::{
    Answer, FindingId, FindingState, Heat, InspectionId, NoticeGiven, Occasion, PartId, PersonId,
    ReportId, Statement, Symptom,
};
use shop::finding::{
    NewFinding, NewLifting, NewReport, answer_symptom, lift, open_symptoms, record, report,
};
use shop::locomotive::Law;
use shop::record::{Daily, DayItem, How, NewDay, daily_of, start_day};
use shop::report::{Release, stops};

use crate::world::{ADA, BEN, CAL, DOT, ELI, FOURTEEN, TODAY, World, later};

const DAILY: InspectionId = InspectionId(0xDA1);

fn said(item: &str, how: How, seen: &str) -> DayItem {
    DayItem {
        item: item.into(),
        how,
        seen: seen.into(),
    }
}

fn day(items: Vec<DayItem>, close: bool) -> NewDay {
    NewDay {
        inspection: DAILY,
        locomotive: FOURTEEN,
        items,
        close,
        made: None,
    }
}

/// What a daily inspection of No. 14 asks.
fn asked(world: &World) -> Vec<shop::book::ItemAsked> {
    let law = Law::of(&world.book, world.rules, &world.book.locomotives[&FOURTEEN]);
    shop::inspection::items(&law, "daily", TODAY).unwrap()
}

/// Every item of the daily, *good* with what was seen, *not fitted* nowhere.
fn whole(world: &World) -> Vec<DayItem> {
    let asked = asked(world);
    let asked = asked.iter().map(|item| item.rule.clone());
    asked
        .map(|rule| said(&rule, How::Good, "looked at, nothing amiss"))
        .collect()
}

/// Why she is stopped on a day, clocks left out.
fn stopped(world: &World, on: Date) -> Vec<String> {
    let all = stops(&world.book, world.rules, FOURTEEN, on).unwrap();
    let all = all.into_iter().filter(|stop| stop.what.is_some());
    all.map(|stop| stop.why).collect()
}

fn finding(id: u128, part: PartId, occasion: Occasion, notice: Option<NoticeGiven>) -> NewFinding {
    NewFinding {
        id: FindingId(id),
        locomotive: FOURTEEN,
        part,
        occasion,
        conditions: Vec::new(),
        told: "steam at the flange, hot, at 150 psi".into(),
        readings: Vec::new(),
        notice,
        taking: Default::default(),
    }
}

#[test]
fn a_day_begins_in_one_act_and_the_next_has_its_own() {
    let mut world = World::new();
    let all = whole(&world);
    // 49 CFR 230, Appendix A: 21 items stand on the daily list; 230.78(c) asks brake pipe leakage beside it.
    assert_eq!(all.len(), 22);
    let made = start_day(&world.book, world.rules, day(all, true), DOT, TODAY).unwrap();
    assert_eq!(made.len(), 24, "opened, 22 answers, closed");
    world.enter(DOT, TODAY, Ok(made));
    let Daily::Closed(id, kept) = daily_of(&world.book, FOURTEEN, TODAY) else {
        panic!("it is closed");
    };
    assert_eq!(id, DAILY);
    assert_eq!(kept.closed, Some((TODAY, DOT)));
    assert!(kept.answers.values().all(|a| a.by == DOT && a.on == TODAY));
    let again = start_day(
        &world.book,
        world.rules,
        day(whole(&world), false),
        DOT,
        TODAY,
    );
    assert!(
        again
            .unwrap_err()
            .to_string()
            .contains("is closed already, as I-001")
    );
    let next = later(TODAY, 1);
    assert_eq!(daily_of(&world.book, FOURTEEN, next), Daily::None);
    let mut new = day(whole(&world), false);
    new.inspection = InspectionId(0xDA2);
    let made = start_day(&world.book, world.rules, new, DOT, next);
    world.enter(DOT, next, made);
    // The one of yesterday was left open: it is not silently taken for that of today.
    let third = later(next, 1);
    let mut new = day(whole(&world), true);
    new.inspection = InspectionId(0xDA3);
    let no = start_day(&world.book, world.rules, new, DOT, third).unwrap_err();
    assert!(no.to_string().contains("is still open, as I-002"), "{no}");
}

#[test]
fn items_are_answered_over_several_acts_by_several_people() {
    let mut world = World::new();
    let first = day(
        vec![said("2", How::Good, "both glasses blown down, water back")],
        false,
    );
    let made = start_day(&world.book, world.rules, first, DOT, TODAY);
    world.enter(DOT, TODAY, made);
    // Two phones: what another has answered is not answered over.
    let both = vec![
        said("2", How::Good, "fine"),
        said("3", How::Good, "shields whole"),
    ];
    let no = start_day(&world.book, world.rules, day(both, false), BEN, TODAY).unwrap_err();
    assert_eq!(no.class, Class::Refused);
    assert!(
        no.to_string()
            .contains("answered by Dot Marsh already: both glasses"),
        "{no}"
    );
    let made = start_day(
        &world.book,
        world.rules,
        day(vec![said("3", How::Good, "shields whole")], false),
        BEN,
        TODAY,
    );
    let made = made.unwrap();
    assert_eq!(made.len(), 1, "the inspection is open already");
    world.enter(BEN, TODAY, Ok(made));
    let Daily::Open(_, kept) = daily_of(&world.book, FOURTEEN, TODAY) else {
        panic!("it is open");
    };
    let who: Vec<PersonId> = kept.answers.values().map(|a| a.by).collect();
    assert!(who.contains(&DOT) && who.contains(&BEN));
}

#[test]
fn a_day_is_refused_by_name_and_nothing_of_it_is_stated() {
    let mut world = World::new();
    let start = |items, close, by| {
        let no = start_day(&world.book, world.rules, day(items, close), by, TODAY);
        no.unwrap_err()
    };
    // Who may not inspect.
    for (who, name) in [(ELI, "Eli Voss"), (CAL, "Cal Wren")] {
        let no = start(whole(&world), true, who);
        assert_eq!(no.class, Class::Refused);
        let words = no.to_string();
        assert!(
            words.contains(name) && words.contains("has no authority"),
            "{words}"
        );
        assert!(
            words.contains("Ada Quill, Ben Ostrow, Dot Marsh"),
            "{words}"
        );
    }
    // Nothing is sent.
    assert_eq!(start(Vec::new(), false, DOT).class, Class::Input);
    // A condition without words, words without a condition, neither: each is named.
    let half = vec![
        said("1", How::Good, "  "),
        said("2", How::NotSaid, "left glass slow"),
        said("3", How::NotSaid, ""),
        said("4", How::NotFitted, "no lamps"),
        said("5", How::Good, "both injectors prime at 150 psi"),
    ];
    let no = start(half, false, DOT);
    assert_eq!(no.class, Class::Refused);
    assert_eq!(no.todo.len(), 4, "{no}");
    for (line, words) in no.todo.iter().zip([
        "what was seen is missing",
        "the condition is missing; what was seen is there: left glass slow",
        "nothing is said of it",
        "asked of every engine",
    ]) {
        assert!(line.contains(words), "{line}");
    }
    // Closing with one item open: the item is named.
    let mut short = whole(&world);
    let left = short.pop().unwrap();
    let no = start(short, true, DOT);
    assert_eq!(no.class, Class::Refused);
    let open = asked(&world);
    let open = open.iter().find(|item| item.rule == left.item).unwrap();
    assert_eq!(no.todo.len(), 1, "{no}");
    assert!(
        no.todo[0].contains("item 22 is not answered") && no.todo[0].contains(&open.text),
        "{no}"
    );
    assert_eq!(daily_of(&world.book, FOURTEEN, TODAY), Daily::None);
    // A defect found in the same act keeps it from closing, and stands as a finding once it is saved without.
    let part = world.part(0xFC, "check-valve", &[]);
    let mut all = whole(&world);
    all[4] = said(
        "5",
        How::Found {
            id: FindingId(0xF1),
            part,
        },
        "weeps back at the right check",
    );
    let no = start_day(&world.book, world.rules, day(all.clone(), true), DOT, TODAY);
    let no = no.unwrap_err().to_string();
    assert!(
        no.contains("item 5 has the open finding F-001: weeps back"),
        "{no}"
    );
    assert!(world.book.findings.is_empty());
    let made = start_day(&world.book, world.rules, day(all, false), DOT, TODAY);
    world.enter(DOT, TODAY, made);
    let found = &world.book.findings[&FindingId(0xF1)];
    assert_eq!(found.occasion, Occasion::Inspection { inspection: DAILY });
    let kept = &world.book.inspections[&DAILY];
    let defect = Answer::Defect {
        finding: FindingId(0xF1),
    };
    assert!(kept.answers.values().any(|a| a.answer == defect));
    let why = stopped(&world, TODAY);
    assert!(why.iter().any(|why| why.contains("F-001")), "{why:?}");
}

fn symptom(what: &str, place: &str) -> Symptom {
    Symptom {
        what: what.into(),
        place: place.into(),
        heat: Some(Heat::Hot),
        pressure: Some("140 psig".into()),
        can_wait: Some(true),
    }
}

fn crew(id: u128, symptoms: Vec<Symptom>, nothing: bool) -> NewReport {
    NewReport {
        id: ReportId(id),
        locomotive: FOURTEEN,
        symptoms,
        nothing,
        told: String::new(),
    }
}

#[test]
fn nothing_to_report_is_an_entry_and_ends_no_release() {
    let mut world = World::new();
    let before = world.book.locomotives[&FOURTEEN].unsettled;
    let made = report(&world.book, crew(1, Vec::new(), true), ELI, TODAY).unwrap();
    assert_eq!(made.len(), 1);
    assert_eq!(made[0].kind(), "crew-reported");
    world.enter(ELI, TODAY, Ok(made));
    assert_eq!(world.book.locomotives[&FOURTEEN].unsettled, before);
    let kept = &world.book.reports[&ReportId(1)];
    assert!((kept.on, kept.by) == (TODAY, ELI) && kept.symptoms.is_empty());
    assert!(stopped(&world, TODAY).is_empty());
    // Said twice by one person of one day it is one report; of another day it is another.
    let no = report(&world.book, crew(2, Vec::new(), true), ELI, TODAY).unwrap_err();
    assert!(no.to_string().contains("in the book already"), "{no}");
    assert!(report(&world.book, crew(2, Vec::new(), true), ELI, later(TODAY, 1)).is_ok());
}

#[test]
fn a_report_that_says_too_little_or_two_things_is_refused_by_name() {
    let world = World::new();
    let no = |new| report(&world.book, new, ELI, TODAY).unwrap_err();
    assert!(
        no(crew(1, Vec::new(), false))
            .to_string()
            .contains("says nothing")
    );
    let both = no(crew(1, vec![symptom("knocks", "left motion")], true));
    assert!(both.to_string().contains("one of the two"), "{both}");
    let mut bare = symptom("blows", "right cylinder");
    bare.pressure = Some("140".into());
    let many = no(crew(
        1,
        vec![symptom("", "cab"), symptom("knocks", " "), bare],
        false,
    ));
    assert_eq!(many.class, Class::Input);
    assert!(
        many.todo[0].contains("symptom 1: what was noticed is missing"),
        "{many}"
    );
    assert!(
        many.todo[1].contains("symptom 2: where is missing of `knocks`"),
        "{many}"
    );
    // A bare number is given no unit.
    assert!(
        many.todo[2].contains("symptom 3") && many.todo[2].contains("140"),
        "{many}"
    );
}

#[test]
fn a_symptom_stops_her_until_somebody_who_may_inspect_has_looked() {
    let mut world = World::new();
    let before = world.book.locomotives[&FOURTEEN].unsettled;
    let two = vec![
        symptom("knocks on the quarters", "left motion"),
        symptom("gland blows", "cab, throttle"),
    ];
    let made = report(&world.book, crew(1, two, false), ELI, TODAY);
    world.enter(ELI, TODAY, made);
    assert!(
        world.book.locomotives[&FOURTEEN].unsettled > before,
        "a release has ended"
    );
    let why = stopped(&world, TODAY);
    assert_eq!(why.len(), 2, "{why:?}");
    // That the crew says it can wait lifts nothing.
    assert!(
        why[0].starts_with("write-up W-001, left motion: knocks") && why[0].contains("can wait")
    );
    let answer = |world: &World, number: &str, finding, seen: &str, by| {
        answer_symptom(&world.book, number, finding, seen, by, TODAY)
    };
    for who in [ELI, CAL] {
        let no = answer(&world, "W-001", None, "no play", who).unwrap_err();
        assert!(
            no.to_string()
                .contains("has no authority to answer a write-up"),
            "{no}"
        );
    }
    assert!(
        answer(&world, "W-009", None, "x", DOT)
            .unwrap_err()
            .to_string()
            .contains("no write-up W-009")
    );
    assert!(
        answer(&world, "W-001", None, " ", DOT)
            .unwrap_err()
            .to_string()
            .contains("W-001 needs what was seen")
    );
    let made = answer(
        &world,
        "w-1",
        None,
        "knock gone with the wedge up; 1/64 in at the pin",
        DOT,
    );
    world.enter(DOT, TODAY, made);
    let no = answer(&world, "W-001", None, "x", BEN).unwrap_err();
    assert!(
        no.to_string()
            .contains("W-001 was answered on 2026-05-02 by Dot Marsh"),
        "{no}"
    );
    assert_eq!(open_symptoms(&world.book, FOURTEEN).len(), 1);
    // The other one turns out to be a finding, which then stops her in its place.
    let part = world.part(0x61, "check-valve", &[]);
    let made = record(
        &world.book,
        finding(0xF1, part, Occasion::WriteUp, None),
        DOT,
        TODAY,
    );
    world.enter(DOT, TODAY, made);
    let made = answer(&world, "W-002", Some(FindingId(0xF1)), "packing worn", DOT);
    world.enter(DOT, TODAY, made);
    let why = stopped(&world, TODAY);
    assert_eq!(why.len(), 1, "{why:?}");
    assert!(why[0].contains("F-001"));
}

fn notice() -> NoticeGiven {
    // The office is invented.
    NoticeGiven {
        name: "Inez Hale".into(),
        office: "Region Nine".into(),
        document: "notice of 2 May".into(),
    }
}

#[test]
fn a_special_notice_is_lifted_only_by_the_authority_that_gave_it() {
    let mut world = World::new();
    let part = world.part(0xFC, "check-valve", &[]);
    let nobody = record(
        &world.book,
        finding(0xF1, part, Occasion::SpecialNotice, None),
        ADA,
        TODAY,
    );
    assert!(
        nobody
            .unwrap_err()
            .to_string()
            .contains("needs who gave it")
    );
    let other = finding(0xF1, part, Occasion::WriteUp, Some(notice()));
    assert_eq!(
        record(&world.book, other, ADA, TODAY).unwrap_err().class,
        Class::Input
    );
    let made = record(
        &world.book,
        finding(0xF1, part, Occasion::SpecialNotice, Some(notice())),
        ADA,
        TODAY,
    );
    world.enter(ADA, TODAY, made);
    let made = record(
        &world.book,
        finding(0xF2, part, Occasion::WriteUp, None),
        ELI,
        TODAY,
    );
    world.enter(ELI, TODAY, made);
    let next = later(TODAY, 3);
    let lifting = |name: &str, office: &str, day| NewLifting {
        finding: FindingId(0xF1),
        name: name.into(),
        office: office.into(),
        day,
        document: "letter of 4 May".into(),
    };
    let no = |new: NewLifting, by| lift(&world.book, new, by, next).unwrap_err();
    let right = || lifting("Omar Reyes", "region nine", later(TODAY, 2));
    // Who may enter it, whose word it is, of which office, of which day, on which paper.
    assert!(
        no(right(), DOT)
            .to_string()
            .contains("Dot Marsh has no authority")
    );
    let own = no(lifting("Ada Quill", "Region Nine", next), ADA).to_string();
    assert!(own.contains("Ada Quill is of this shop"), "{own}");
    let wrong = no(lifting("Omar Reyes", "Region Two", next), ADA).to_string();
    assert!(wrong.contains("given by Inez Hale, Region Nine"), "{wrong}");
    for day in [later(TODAY, -1), later(next, 1)] {
        assert_eq!(
            no(lifting("Omar Reyes", "Region Nine", day), ADA).class,
            Class::Input
        );
    }
    assert!(
        no(lifting(" ", "Region Nine", next), ADA)
            .to_string()
            .contains("who lifted the notice")
    );
    let mut no_paper = right();
    no_paper.document = String::new();
    assert!(no(no_paper, ADA).to_string().contains("paper"));
    let mut another = right();
    another.finding = FindingId(0xF2);
    assert!(
        no(another, ADA)
            .to_string()
            .contains("F-002 hangs on no special notice")
    );
    // However far the shop's own work has come, the notice stands.
    for state in [FindingState::Open, FindingState::Closed] {
        world.book.findings.get_mut(&FindingId(0xF1)).unwrap().state = state;
        let why = stopped(&world, next);
        assert!(
            why.iter().any(|w| w.contains("F-001") && w.contains("Inez Hale, Region Nine, is not lifted")),
            "{why:?}"
        );
    }
    let made = lift(&world.book, right(), ADA, next);
    world.enter(ADA, next, made);
    assert!(
        stopped(&world, next)
            .iter()
            .all(|why| !why.contains("F-001"))
    );
    // On the day before it was lifted it still stood.
    assert!(
        stopped(&world, later(TODAY, 1))
            .iter()
            .any(|why| why.contains("F-001"))
    );
    let twice = lift(&world.book, right(), ADA, next)
        .unwrap_err()
        .to_string();
    assert!(
        twice.contains("was lifted on 2026-05-04 by Omar Reyes"),
        "{twice}"
    );
    // Lifted but not put right, it stops her as any finding does.
    world.book.findings.get_mut(&FindingId(0xF1)).unwrap().state = FindingState::Open;
    assert!(
        stopped(&world, next)
            .iter()
            .any(|w| w.contains("F-001") && w.contains("nobody has decided"))
    );
}

#[test]
fn a_failure_on_the_road_stops_her_where_she_is_and_ends_her_release() {
    let mut world = World::new();
    let part = world.part(0xFC, "check-valve", &[("seat-design", "matched")]);
    let released = shop::book::Released {
        locomotive: FOURTEEN,
        log_through: TODAY,
    };
    world.state(ADA, TODAY, Statement::Released(released));
    // Anybody may write up what failed.
    let made = record(
        &world.book,
        finding(0xF1, part, Occasion::RoadFailure, None),
        ELI,
        TODAY,
    );
    world.enter(ELI, TODAY, made);
    let why = stopped(&world, TODAY);
    assert_eq!(why.len(), 1, "{why:?}");
    assert!(
        why[0].contains("failed on the road, and she stays where she is until somebody decides")
    );
    let stands = shop::report::release(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    assert!(matches!(stands, Release::None(why) if why.contains("ended the release")));
    // Once somebody has decided, she is stopped for the work and no longer for want of a decision.
    world.book.findings.get_mut(&FindingId(0xF1)).unwrap().state = FindingState::Decided;
    let why = stopped(&world, TODAY);
    assert!(
        why[0].contains("decided, and no job is made") && !why[0].contains("stays where she is")
    );
}
