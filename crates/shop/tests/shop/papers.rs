//! Defect clocks, and papers with their days. The figures are those of 49 CFR Part 230, 2015 edition, at the
//! section named beside each test.

use jiff::civil::{Date, date};
use shop::Class::{Input, Refused};
use shop::book::{FindingId, InspectionId, Occasion, PaperAbout, PaperSent, Statement};
use shop::clock::{Clock, Paper, PaperState, State, due, file_paper, filings, keeping, open_clock};

use crate::said::no;
use crate::world::{ADA, DOT, ELI, FOURTEEN, TODAY, World, later};

/// A finding on a crosshead, for want of a family of staybolts: the clock hangs on the finding, not on the part.
fn finding(world: &mut World, on: Date, occasion: Occasion) -> FindingId {
    let id = FindingId(0xB017);
    let part = world.part(0x57A7, "check-valve", &[]);
    let told = shop::book::FindingRecorded {
        id,
        locomotive: FOURTEEN,
        part,
        occasion,
        conditions: Vec::new(),
        told: "telltale weeps, left side, row 4".into(),
        readings: Vec::new(),
        notice: None,
        taken: None,
    };
    world.state(DOT, on, Statement::FindingRecorded(told));
    id
}

fn defect(world: &World, on: Date) -> Option<Clock> {
    let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
    clocks.into_iter().find(|c| c.finding.is_some())
}

/// 230.39(b), 230.58(a): 30 calendar days from the day it was found; the 31st stops her.
#[test]
fn a_defects_thirty_days_start_with_its_finding_and_end_with_the_work() {
    for rule in ["broken-staybolt", "plugged-flue"] {
        let mut world = World::new();
        let found = date(2026, 2, 10);
        let id = finding(&mut world, found, Occasion::WriteUp);
        assert_eq!(defect(&world, found), None);
        let opened = |by, rule: &str| open_clock(&world.book, world.rules, id, rule, by, TODAY);
        no(opened(ELI, rule), Refused, &["Eli Voss"]);
        no(
            opened(DOT, "us-steam.clock.31"),
            Input,
            &["us-steam.clock.broken-staybolt"],
        );
        let made = opened(DOT, rule);
        world.enter(DOT, found, made);
        no(
            open_clock(&world.book, world.rules, id, rule, DOT, TODAY),
            Input,
            &["already"],
        );
        let first = defect(&world, found).unwrap();
        assert_eq!(
            (first.left, &first.state),
            (Some(30), &State::Runs),
            "{rule}"
        );
        let last = defect(&world, date(2026, 3, 12)).unwrap();
        assert_eq!((last.left, &last.state), (Some(0), &State::Runs), "{rule}");
        assert_eq!(last.stops_on, Some(date(2026, 3, 13)), "{rule}");
        let late = defect(&world, date(2026, 3, 13)).unwrap();
        assert_eq!(
            (late.left, &late.state),
            (Some(-1), &State::Stops),
            "{rule}"
        );
        assert!(
            late.must().contains("of F-001 must be done"),
            "{}",
            late.must()
        );
        // Before it was found there was no clock; once it is put right there is none.
        assert_eq!(defect(&world, later(found, -1)), None);
        world.book.findings.get_mut(&id).unwrap().state = shop::book::FindingState::Closed;
        assert_eq!(defect(&world, date(2026, 4, 1)), None);
        no(
            open_clock(&world.book, world.rules, id, "plugged-flue", DOT, TODAY),
            Refused,
            &["put right"],
        );
    }
}

/// 230.39(b): a broken staybolt found at a 31 is renewed there and then; at a larger inspection too (inference).
#[test]
fn a_staybolt_found_broken_at_an_inspection_has_no_days_left() {
    for (kind, stops) in [("daily", false), ("31", true), ("annual", true)] {
        let mut world = World::new();
        let on = date(2026, 2, 10);
        let inspection = InspectionId(3);
        let made = shop::inspection::open(
            &world.book,
            world.rules,
            inspection,
            FOURTEEN,
            kind,
            DOT,
            on,
        );
        world.enter(DOT, on, made);
        let id = finding(&mut world, on, Occasion::Inspection { inspection });
        let made = open_clock(&world.book, world.rules, id, "broken-staybolt", DOT, TODAY);
        world.enter(DOT, on, made);
        let clock = defect(&world, on).unwrap();
        assert_eq!(clock.state == State::Stops, stops, "{kind}: {}", clock.why);
    }
}

fn paper(world: &World, rule: &str, on: Date) -> Vec<Paper> {
    let all = filings(&world.book, world.rules, on).unwrap();
    let wanted = format!("us-steam.{rule}");
    let hers = all.into_iter().filter(|p| p.engine == FOURTEEN);
    hers.filter(|p| p.ruling.rule == wanted).collect()
}

fn sent(world: &mut World, rule: &str, about: PaperAbout, on: Date) {
    let told = PaperSent {
        locomotive: FOURTEEN,
        rule: format!("us-steam.{rule}"),
        about,
        sent_on: on,
        told: "mailed, receipt in the binder".into(),
    };
    let made = file_paper(&world.book, world.rules, told, on);
    world.enter(ADA, on, made);
}

/// 230.14(c), .15(b), .16(c): 10 days; .17(b): 30 days. The last day is in time.
#[test]
fn a_report_is_due_so_many_days_after_its_inspection() {
    let day = date(2026, 2, 20);
    for (kind, rule, last) in [
        ("31", "form-1.after-31", date(2026, 3, 2)),
        ("92", "form-1.after-92", date(2026, 3, 2)),
        ("annual", "form-3.after-annual", date(2026, 3, 2)),
        ("fifth-annual", "form-3.after-annual", date(2026, 3, 2)),
        ("1472", "form-3-and-4.after-1472", date(2026, 3, 22)),
    ] {
        let mut world = World::new();
        world.inspected(kind, day);
        let one = |on| {
            let all = paper(&world, rule, on);
            assert_eq!(all.len(), 1, "{rule}");
            (all[0].by, all[0].state)
        };
        assert_eq!(one(last), (Some(last), PaperState::Open), "{rule}");
        assert_eq!(
            one(later(last, 1)),
            (Some(last), PaperState::Overdue),
            "{rule}"
        );
        let (id, _) = world.book.inspections.iter().next().unwrap();
        let about = PaperAbout::Inspection { inspection: *id };
        let mut late = world.clone();
        sent(&mut world, rule, about.clone(), last);
        sent(&mut late, rule, about, later(last, 1));
        let done = |world: &World| paper(world, rule, TODAY).remove(0).done.unwrap().late;
        assert!(!done(&world) && done(&late), "{rule}");
        // As it stood before it went.
        assert_eq!(
            paper(&world, rule, later(last, -1))[0].state,
            PaperState::Open
        );
    }
}

/// 230.16(b): at least one month before, in the calendar's months; 31 March less a month is 28 February.
#[test]
fn notice_of_an_annual_goes_a_month_before() {
    let mut world = World::new();
    world.paper("annual", date(2025, 3, 28), None);
    // 368 days on is 31 March 2026.
    let coming = paper(&world, "notice.annual", date(2026, 2, 1)).remove(0);
    assert_eq!(
        (coming.by, coming.state),
        (Some(date(2026, 2, 28)), PaperState::Open)
    );
    let late = paper(&world, "notice.annual", date(2026, 3, 1)).remove(0);
    assert_eq!(late.state, PaperState::Overdue);
    // Given for a day somebody planned.
    let mut planned = world.clone();
    let day = date(2026, 3, 20);
    sent(
        &mut planned,
        "notice.annual",
        PaperAbout::Day { day },
        date(2026, 2, 20),
    );
    let told = paper(&planned, "notice.annual", date(2026, 3, 1)).remove(0);
    assert_eq!(
        (told.by, told.state),
        (Some(date(2026, 2, 20)), PaperState::Done)
    );
    assert!(!told.done.unwrap().late);
    // It is held on that day: the notice is that inspection's, and the next annual has its own.
    planned.inspected("annual", day);
    let all = paper(&planned, "notice.annual", date(2026, 4, 1));
    let held = all
        .iter()
        .find(|p| matches!(p.about, Some(PaperAbout::Inspection { .. })));
    assert_eq!(held.unwrap().state, PaperState::Done);
    let next = all.iter().find(|p| p.state == PaperState::Open).unwrap();
    // 20 March 2026 and 368 days is 23 March 2027.
    assert_eq!(next.by, Some(date(2027, 2, 23)));
    // A day later than a month before: late.
    sent(
        &mut world,
        "notice.annual",
        PaperAbout::Day { day },
        date(2026, 2, 21),
    );
    let late = paper(&world, "notice.annual", date(2026, 3, 1)).remove(0);
    assert!(late.done.unwrap().late);
    // Her last day is past: whenever it will be held, its notice goes a month before that day.
    let lapsed = paper(&world, "notice.annual", date(2026, 4, 1));
    assert!(
        lapsed
            .iter()
            .any(|p| (p.by, p.state) == (None, PaperState::CannotTell)),
        "{lapsed:?}"
    );
    // No annual known: the day cannot be told.
    let blank = paper(&World::new(), "notice.annual", TODAY).remove(0);
    assert_eq!((blank.by, blank.state), (None, PaperState::CannotTell));
}

/// 230.18(b): by 31 January, for every year, one without a service day too.
#[test]
fn the_yearly_report_is_due_for_a_year_without_steam_too() {
    let mut world = World::new();
    world.steamed(date(2024, 6, 1));
    world.closed(date(2024, 1, 1), date(2025, 12, 31));
    let of = |world: &World, year: i16, on| {
        let about = Some(PaperAbout::Day {
            day: date(year, 12, 31),
        });
        let all = paper(world, "form-5.yearly", on);
        all.into_iter().find(|p| p.about == about).unwrap()
    };
    let cold = of(&world, 2025, date(2026, 1, 31));
    assert_eq!(
        (cold.by, cold.state),
        (Some(date(2026, 1, 31)), PaperState::Open)
    );
    assert!(
        cold.why
            .contains("service days of the year by this book: 0"),
        "{}",
        cold.why
    );
    assert!(of(&world, 2024, TODAY).why.contains("by this book: 1"));
    assert_eq!(
        of(&world, 2025, date(2026, 2, 1)).state,
        PaperState::Overdue
    );
    let day = date(2025, 12, 31);
    sent(
        &mut world,
        "form-5.yearly",
        PaperAbout::Day { day },
        date(2026, 1, 15),
    );
    assert_eq!(of(&world, 2025, date(2026, 2, 1)).state, PaperState::Done);
    assert_eq!(
        of(&world, 2026, date(2026, 2, 1)).by,
        Some(date(2027, 1, 31))
    );
}

/// 230.14(c), 230.16(c): in the cab before she goes into service.
#[test]
fn the_form_stands_in_the_cab_before_she_is_used() {
    let mut world = World::new();
    world.inspected("annual", date(2026, 3, 1));
    let form = |world: &World, on| paper(world, "posted.form-3", on).remove(0).state;
    assert_eq!(form(&world, date(2026, 4, 1)), PaperState::Open);
    world.steamed(date(2026, 4, 4));
    assert_eq!(form(&world, date(2026, 4, 4)), PaperState::Open);
    assert_eq!(form(&world, date(2026, 4, 5)), PaperState::Overdue);
    let (id, _) = world.book.inspections.iter().next().unwrap();
    let about = PaperAbout::Inspection { inspection: *id };
    sent(&mut world, "posted.form-3", about, date(2026, 4, 4));
    assert_eq!(form(&world, date(2026, 4, 5)), PaperState::Done);
}

/// 230.20: Form 19 within 30 days of an alteration. 230.13(c): Form 2 at least 92 days.
#[test]
fn an_alteration_is_reported_and_daily_reports_are_kept() {
    let mut world = World::new();
    world.did("alteration-completed", date(2026, 3, 1), None, None);
    let one = paper(&world, "form-19.alteration", TODAY).remove(0);
    assert_eq!(
        (one.by, one.state),
        (Some(date(2026, 3, 31)), PaperState::Overdue)
    );
    assert!(
        one.told.contains("the alteration of 2026-03-01"),
        "{}",
        one.told
    );
    let kept = keeping(&world.book, world.rules, date(2026, 5, 2)).unwrap();
    let of = |rule: &str| {
        let wanted = format!("us-steam.keep.{rule}");
        let mut named = kept
            .iter()
            .filter(|k| k.engine == FOURTEEN && k.ruling.rule == wanted);
        named.next().unwrap()
    };
    assert_eq!(of("form-2").from, Some(date(2026, 1, 30)));
    assert_eq!(of("form-19").from, None);
    assert!(of("form-1").why.contains("names no period"));
}

#[test]
fn a_paper_nobody_asks_for_is_refused_in_words() {
    let mut world = World::new();
    world.inspected("31", date(2026, 3, 1));
    let (id, _) = world.book.inspections.iter().next().unwrap();
    let held = PaperAbout::Inspection { inspection: *id };
    let day = PaperAbout::Day {
        day: date(2026, 3, 1),
    };
    let told = |rule: &str, about: &PaperAbout, sent_on, told: &str| {
        let sent = PaperSent {
            locomotive: FOURTEEN,
            rule: rule.into(),
            about: about.clone(),
            sent_on,
            told: told.into(),
        };
        file_paper(&world.book, world.rules, sent, TODAY)
    };
    no(
        told("us-steam.form-9", &held, TODAY, "mailed"),
        Input,
        &["us-steam.form-1.after-31"],
    );
    no(
        told("us-steam.form-3.after-annual", &held, TODAY, "mailed"),
        Input,
        &["not about a 31"],
    );
    no(
        told("us-steam.form-1.after-31", &day, TODAY, "mailed"),
        Input,
        &["I-003"],
    );
    no(
        told("us-steam.form-5.yearly", &day, TODAY, "mailed"),
        Input,
        &["31 December"],
    );
    no(
        told("us-steam.form-19.alteration", &day, TODAY, "mailed"),
        Input,
        &["locomotive day 14"],
    );
    no(
        told("us-steam.form-1.after-31", &held, later(TODAY, 1), "mailed"),
        Input,
        &["not come yet"],
    );
    no(
        told("us-steam.form-1.after-31", &held, TODAY, ""),
        Input,
        &["how it went"],
    );
}

/// 230.13(c): a report for each day of use, kept at least 92 days. A 31 holds the daily list; what was put away holds
/// nothing; a day before those 92 asks for nothing any more.
#[test]
fn a_day_in_steam_without_a_daily_is_named_for_as_long_as_its_report_must_be_there() {
    let mut world = World::new();
    let days: Vec<Date> = (0..4).map(|n| later(date(2026, 4, 4), 7 * n)).collect();
    for day in &days {
        world.steamed(*day);
    }
    world.inspected("daily", days[0]);
    world.inspected("31", days[1]);
    let missing = |world: &World, on| {
        shop::clock::days_without_daily(&world.book, world.rules, FOURTEEN, on).unwrap()
    };
    assert_eq!(missing(&world, days[3]), days[2..]);
    // Put away, it leaves the day without one.
    let id = InspectionId(0xDA11);
    let made = shop::inspection::open(
        &world.book,
        world.rules,
        id,
        FOURTEEN,
        "daily",
        DOT,
        days[2],
    );
    world.enter(DOT, days[2], made);
    assert_eq!(missing(&world, days[2]), Vec::<Date>::new());
    let made = shop::inspection::put_away(&world.book, id, "rained off", DOT, days[2]);
    world.enter(DOT, days[2], made);
    assert_eq!(missing(&world, days[3]), days[2..]);
    // The 92nd day after the first of them is the last on which its report must be there.
    assert_eq!(missing(&world, later(days[2], 92)), days[2..]);
    assert_eq!(missing(&world, later(days[2], 93)), days[3..]);
}
