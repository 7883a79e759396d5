//! Looking ahead along promised runs, the last good day, and what a supposed day changes.
//!
//! Limits are those of 49 CFR 230.14 to 230.17, 230.39 and 230.16(b), 2015 edition. The counts of the random
//! tests are made a second time here, by adding up days of chrono 0.4, and share no code with the program.

use std::collections::BTreeSet;

use chrono::{Duration, Months, NaiveDate};
use jiff::civil::{Date, date};
use proptest::prelude::*;
use shop::Class::Input;
use shop::book::{FindingId, Occasion, PaperAbout, PaperSent, RunId, Statement};
use shop::clock::{file_paper, open_clock, promise};
use shop::report::{
    Course, DateOf, Look, Reach, Standing, Suppose, ahead, changes, courses, deadlines, look,
};

use crate::said::no;
use crate::world::{ADA, DOT, FOURTEEN, TODAY, World, later};

/// A shop that knows where every clock of No. 14 stands: `days` service days since the last 31 through yesterday.
pub fn known(days: u32) -> World {
    let mut world = World::new();
    let yesterday = later(TODAY, -1);
    world.paper("31", later(TODAY, -60), Some((days, yesterday)));
    world.paper("92", later(TODAY, -70), Some((days, yesterday)));
    world.paper("annual", later(TODAY, -100), Some((days, yesterday)));
    world.paper("fifth-annual", later(TODAY, -100), Some((days, yesterday)));
    world.paper("1472", later(TODAY, -2000), Some((200, yesterday)));
    world.did(
        "air-brake-valves",
        later(TODAY, -100),
        Some((days, yesterday)),
        Some(0),
    );
    world.did(
        "frame-cleaning",
        later(TODAY, -2000),
        Some((200, yesterday)),
        Some(0),
    );
    world.closed(later(TODAY, -110), yesterday);
    world
}

fn promised(world: &mut World, days: &[i64]) {
    for (at, day) in days.iter().enumerate() {
        let made = promise(RunId(at as u128 + 1), FOURTEEN, later(TODAY, *day), "train");
        world.enter(ADA, TODAY, made);
    }
}

fn looked(world: &World, supposed: &[Suppose]) -> Look {
    look(&world.book, world.rules, FOURTEEN, TODAY, supposed).unwrap()
}

fn held(what: &str, day: Date) -> Suppose {
    Suppose::Held {
        what: what.into(),
        on: day,
    }
}

fn of<'l>(look: &'l Look, inspection: &str) -> &'l Course {
    let mut all = look.courses.iter();
    all.find(|c| c.clock.inspection == inspection).unwrap()
}

fn standings(look: &Look) -> Vec<Standing> {
    look.trains.iter().map(|t| t.standing).collect()
}

use Standing::{CannotTell, Clear, Falls};

/// 230.14(a): 28 days counted, 31 allowed. Three runs may be kept and the fourth is the 32nd day.
#[test]
fn the_fourth_run_falls_and_the_day_before_it_is_the_last_good_one() {
    let mut world = known(28);
    promised(&mut world, &[7, 8, 14, 15, 21]);
    let plain = looked(&world, &[]);
    assert_eq!(standings(&plain), [Clear, Clear, Clear, Falls, Falls]);
    let course = of(&plain, "31");
    let stopped = course.stopped.as_ref().unwrap();
    assert_eq!((stopped.from, stopped.certain), (later(TODAY, 15), true));
    assert_eq!(stopped.surely, Some(later(TODAY, 15)));
    // The day before the fourth run has a run of its own: the last day to hold it lies before both.
    let good = course.good.as_ref().unwrap();
    assert_eq!(
        (good.hold.as_str(), good.last),
        ("31", Some(later(TODAY, 13)))
    );
    assert_eq!(good.at_the_utmost, None);
    assert_eq!(good.run.as_ref().unwrap().0, later(TODAY, 15));
    // The clock of the 92 is far off: no promised run is in question.
    assert_eq!(of(&plain, "92").stopped, None);

    let kept = looked(&world, &[held("31", later(TODAY, 13))]);
    assert_eq!(standings(&kept), [Clear; 5]);
    let changed = changes(&plain, &kept);
    let runs: Vec<_> = changed.iter().filter(|c| c.is_run).collect();
    assert_eq!(runs.len(), 2, "{changed:?}");
    assert!(runs[0].before.contains("the 31 must be held first"));
    assert!(runs[0].after.contains("nothing in this book stops her"));

    // One day later she is in the shop on a day that is promised.
    let late = looked(&world, &[held("31", later(TODAY, 14))]);
    assert_eq!(standings(&late), [Clear, Clear, CannotTell, Clear, Clear]);
    // A larger one contains it.
    let larger = looked(&world, &[held("92", later(TODAY, 10))]);
    assert_eq!(standings(&larger), [Clear; 5]);
    // Too early: the 31 held on the first day counts only the runs after it, and still carries all five.
    let early = looked(&world, &[held("31", TODAY)]);
    assert_eq!(standings(&early), [Clear; 5]);
}

/// The days ahead without anything supposed say what the first page says.
#[test]
fn it_agrees_with_the_first_page() {
    for days in 24..=31 {
        let mut world = known(days);
        promised(&mut world, &[0, 2, 3, 9, 10, 16, 17]);
        let page = ahead(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
        let here = looked(&world, &[]);
        let pages: Vec<_> = page.runs.iter().map(|r| r.in_the_way.is_empty()).collect();
        let ours: Vec<_> = here.trains.iter().map(|t| t.standing == Clear).collect();
        assert_eq!(pages, ours, "{days}");
        for clock in page.clocks.iter().filter(|c| c.inspection == "31") {
            let stopped = of(&here, "31").stopped.as_ref().map(|s| s.from);
            assert_eq!(clock.stops_on, stopped, "{days}");
        }
    }
}

/// Days nobody vouched for count in the most and not in the least: both days are shown, and what would settle it.
#[test]
fn an_open_log_gives_two_days() {
    let mut world = known(28);
    // A paper through five days ago; nobody vouched for the four days since.
    let mut open = World::new();
    let through = later(TODAY, -5);
    for kind in ["31", "92", "annual", "fifth-annual"] {
        open.paper(kind, later(TODAY, -100), Some((28, through)));
    }
    open.paper("1472", later(TODAY, -2000), Some((200, through)));
    open.did(
        "air-brake-valves",
        later(TODAY, -100),
        Some((28, through)),
        Some(0),
    );
    open.did(
        "frame-cleaning",
        later(TODAY, -2000),
        Some((200, through)),
        Some(0),
    );
    open.closed(later(TODAY, -110), later(TODAY, -3));
    for world in [&mut world, &mut open] {
        promised(world, &[7, 8, 14, 15, 21]);
    }
    let sure = looked(&world, &[]);
    let unsure = looked(&open, &[]);
    assert_eq!(standings(&sure), [Clear, Clear, Clear, Falls, Falls]);
    // Two days unknown: at most 30 counted before the first run.
    assert_eq!(
        standings(&unsure),
        [Clear, CannotTell, CannotTell, Falls, Falls]
    );
    let stopped = of(&unsure, "31").stopped.clone().unwrap();
    assert_eq!((stopped.from, stopped.certain), (later(TODAY, 8), false));
    assert_eq!(stopped.surely, Some(later(TODAY, 15)));
    assert!(
        stopped
            .why
            .contains("at least 29 and at most 31 service days"),
        "{}",
        stopped.why
    );
    assert!(
        stopped.why.contains("closing the log through"),
        "{}",
        stopped.why
    );
    let good = of(&unsure, "31").good.clone().unwrap();
    assert_eq!(good.last, Some(later(TODAY, 6)));
    assert_eq!(good.at_the_utmost, Some(later(TODAY, 13)));
}

/// 230.16(a)(1): 368 calendar days; (b): the notice one month before. 230.16(c): Form 3 within 10 days.
#[test]
fn an_annual_and_its_papers() {
    let mut world = known(3);
    promised(&mut world, &[250, 280]);
    let plain = looked(&world, &[]);
    // Held 100 days ago: her last day is in 268 days.
    let stopped = of(&plain, "annual").stopped.clone().unwrap();
    assert_eq!((stopped.from, stopped.certain), (later(TODAY, 269), true));
    assert_eq!(standings(&plain), [Clear, Falls]);
    let good = of(&plain, "annual").good.clone().unwrap();
    // No run stands between: the day before the run that falls.
    assert_eq!(good.last, Some(later(TODAY, 279)));

    let day = later(TODAY, 260);
    let kept = looked(&world, &[held("annual", day)]);
    assert_eq!(standings(&kept), [Clear, Clear]);
    let chrono = NaiveDate::parse_from_str(&day.to_string(), "%Y-%m-%d").unwrap();
    let month_before = chrono
        .checked_sub_months(Months::new(1))
        .unwrap()
        .to_string();
    let by = |rule: &str| {
        let mut papers = kept.papers.iter().filter(|p| p.rule.contains(rule));
        let found = papers
            .next()
            .map(|p| (p.by.map(|d| d.to_string()), p.too_late, p.done));
        found.unwrap_or_else(|| panic!("{:?}", kept.papers))
    };
    assert_eq!(by("notice.annual"), (Some(month_before), false, false));
    let ten = (chrono + Duration::days(10)).to_string();
    assert_eq!(by("form-3"), (Some(ten), false, false));
    // Held within the month, the notice can no longer be given in time, and that is said.
    let soon = looked(&world, &[held("annual", later(TODAY, 10))]);
    let notice = soon
        .papers
        .iter()
        .find(|p| p.rule.contains("notice.annual"))
        .unwrap();
    assert!(notice.too_late && !notice.done);
    // Once it was given for that day, it is done.
    let sent = PaperSent {
        locomotive: FOURTEEN,
        rule: "us-steam.notice.annual".into(),
        about: PaperAbout::Day {
            day: later(TODAY, 10),
        },
        sent_on: later(TODAY, -30),
        told: "letter, copy in the drawer".into(),
    };
    let made = file_paper(&world.book, world.rules, sent, TODAY);
    world.enter(ADA, TODAY, made);
    let soon = looked(&world, &[held("annual", later(TODAY, 10))]);
    let notice = soon
        .papers
        .iter()
        .find(|p| p.rule.contains("notice.annual"))
        .unwrap();
    assert!(notice.done && !notice.too_late);
}

/// 230.16(a)(2): where the next annual is the fifth, an annual alone would not do.
#[test]
fn where_a_larger_one_must_be_held_it_is_named() {
    let mut world = World::new();
    let yesterday = later(TODAY, -1);
    let since = Some((3, yesterday));
    world.paper("fifth-annual", date(2021, 11, 1), since);
    for year in 2022..=2025 {
        world.paper("annual", date(year, 11, 1), since);
    }
    world.paper("1472", later(TODAY, -3000), Some((200, yesterday)));
    world.did("air-brake-valves", date(2025, 11, 2), since, Some(0));
    world.did(
        "frame-cleaning",
        later(TODAY, -3000),
        Some((200, yesterday)),
        Some(0),
    );
    world.closed(date(2021, 10, 1), yesterday);
    promised(&mut world, &[200]);
    let plain = looked(&world, &[]);
    let good = of(&plain, "annual").good.clone().unwrap();
    assert_eq!(good.hold, "fifth-annual", "{good:?}");
    assert!(good.why.contains("fifth"), "{}", good.why);
    let alone = looked(&world, &[held("annual", later(TODAY, 150))]);
    assert_eq!(standings(&alone), [Falls]);
    let lapsed = looked(&world, &[held("fifth-annual", later(TODAY, 199))]);
    let course = of(&lapsed, "annual");
    let last = later(date(2025, 11, 1), 368);
    assert_eq!(course.stopped.as_ref().unwrap().from, later(last, 1));
    let (freed, next) = course.freed.as_ref().unwrap();
    assert_eq!(*freed, later(TODAY, 199));
    assert_eq!(next.as_ref().unwrap().from, later(TODAY, 199 + 369));
    assert_eq!(course.good, None);
    let whole = looked(&world, &[held("fifth-annual", later(TODAY, 150))]);
    assert_eq!(standings(&whole), [Clear]);
}

/// 230.39(b): a broken staybolt's thirty days, and a finding put right in time.
#[test]
fn a_finding_supposed_put_right_frees_the_runs_after_it() {
    let mut world = known(3);
    let id = FindingId(0xB017);
    let part = world.part(0x57A7, "check-valve", &[]);
    let told = shop::book::FindingRecorded {
        id,
        locomotive: FOURTEEN,
        part,
        occasion: Occasion::WriteUp,
        conditions: Vec::new(),
        told: "telltale weeps, left side, row 4".into(),
        readings: Vec::new(),
        notice: None,
        taken: None,
    };
    world.state(DOT, TODAY, Statement::FindingRecorded(told));
    let made = open_clock(&world.book, world.rules, id, "broken-staybolt", DOT, TODAY);
    world.enter(DOT, TODAY, made);
    promised(&mut world, &[20, 40]);
    assert_eq!(standings(&looked(&world, &[])), [Falls, Falls]);
    let right = |day: i64| Suppose::PutRight {
        finding: 1,
        on: later(TODAY, day),
    };
    assert_eq!(standings(&looked(&world, &[right(10)])), [Clear, Clear]);
    assert_eq!(standings(&looked(&world, &[right(25)])), [Falls, Clear]);
    // A clock that has run out lets her go on the supposed day, and what comes after is told apart.
    let late = looked(&world, &[right(35)]);
    let defect = late
        .courses
        .iter()
        .find(|c| c.clock.finding == Some(1))
        .unwrap();
    assert_eq!(defect.stopped.as_ref().unwrap().from, later(TODAY, 31));
    // The deadline of the defect stands in the list with its finding.
    let all = deadlines(&world.book, world.rules, TODAY, None).unwrap();
    let defect = all.iter().find(|d| d.finding == Some(1)).unwrap();
    assert_eq!(
        (defect.last, defect.reach),
        (Some(later(TODAY, 30)), Reach::Ahead)
    );
}

#[test]
fn a_supposed_run_counts_like_a_promised_one() {
    let mut world = known(30);
    promised(&mut world, &[7]);
    assert_eq!(standings(&looked(&world, &[])), [Clear]);
    let more = Suppose::Run {
        on: later(TODAY, 3),
        what: "charter".into(),
    };
    assert_eq!(standings(&looked(&world, &[more])), [Clear, Falls]);
}

#[test]
fn what_cannot_be_supposed_is_said() {
    let world = known(3);
    let asked = |one: Suppose| look(&world.book, world.rules, FOURTEEN, TODAY, &[one]);
    no(
        asked(held("31", later(TODAY, -1))),
        Input,
        &["2026-05-01", "before 2026-05-02"],
    );
    no(
        asked(held("periodic", TODAY)),
        Input,
        &["`periodic`", "31, 92", "F-004"],
    );
    let none = Suppose::PutRight {
        finding: 9,
        on: TODAY,
    };
    no(
        asked(none),
        Input,
        &["F-009 is not a finding of this engine"],
    );
}

/// What nobody stated stays *cannot tell*, whatever is supposed beside it.
#[test]
fn cannot_tell_stays_cannot_tell() {
    let mut world = World::new();
    promised(&mut world, &[7, 8]);
    let plain = looked(&world, &[]);
    assert_eq!(standings(&plain), [CannotTell, CannotTell]);
    let some = looked(&world, &[held("31", later(TODAY, 5))]);
    assert_eq!(standings(&some), [CannotTell, CannotTell]);
    assert!(
        of(&plain, "31")
            .stopped
            .as_ref()
            .unwrap()
            .why
            .contains("cannot tell: needs")
    );
    let all = deadlines(&world.book, world.rules, TODAY, None).unwrap();
    assert_eq!(all[0].reach, Reach::CannotTell);
    let order: Vec<_> = all.iter().map(|d| d.reach).collect();
    assert!(order.is_sorted(), "{order:?}");
}

/// Every clock but the daily, every paper that has not gone, and nothing twice.
#[test]
fn the_list_of_deadlines_is_whole() {
    let mut world = known(28);
    promised(&mut world, &[7, 8, 14, 15]);
    let all = deadlines(&world.book, world.rules, TODAY, Some(FOURTEEN)).unwrap();
    let clocks = all
        .iter()
        .filter(|d| matches!(d.of, DateOf::Clock(_)))
        .count();
    let due = shop::clock::due(&world.book, world.rules, FOURTEEN, TODAY).unwrap();
    let counted = due
        .iter()
        .filter(|c| c.state != shop::clock::State::EachDay)
        .count();
    assert_eq!(clocks, counted);
    let keys: BTreeSet<_> = all.iter().map(|d| d.key.as_str()).collect();
    assert_eq!(keys.len(), all.len());
    let thirty_one = all.iter().find(|d| d.what == "31 inspection").unwrap();
    assert_eq!(
        (thirty_one.last, thirty_one.reach),
        (Some(later(TODAY, 14)), Reach::Ahead)
    );
    assert!(all.iter().any(|d| matches!(d.of, DateOf::Paper)));
}

/// The days of a random shop.
#[derive(Debug, Clone)]
struct Days {
    counted: u32,
    runs: BTreeSet<i64>,
    hold: i64,
}

fn days() -> impl Strategy<Value = Days> {
    let runs = prop::collection::btree_set(0..60i64, 1..30);
    (15..32u32, runs, 0..60i64).prop_map(|(counted, runs, hold)| Days {
        counted,
        runs,
        hold,
    })
}

fn shop_of(days: &Days) -> World {
    let mut world = known(days.counted);
    let runs: Vec<i64> = days.runs.iter().copied().collect();
    promised(&mut world, &runs);
    world
}

/// How many of the runs before a day are kept, and whether each is, by plain addition: `after` is the day of a 31.
fn second_count(days: &Days, after: Option<i64>) -> Vec<Standing> {
    let (mut least, mut most) = (days.counted, days.counted);
    let mut standings = Vec::new();
    let mut begun = false;
    for run in &days.runs {
        if after.is_some_and(|after| !begun && *run >= after) {
            (least, most, begun) = (0, 0, true);
        }
        // A run on the day of the inspection: the book does not know which came first.
        let same = after == Some(*run);
        let standing = match (least + 1 > 31, most + 1 > 31) {
            (true, _) => Falls,
            (false, true) => CannotTell,
            _ if same => CannotTell,
            _ => Clear,
        };
        match standing {
            Clear => (least, most) = (least + 1, most + 1),
            CannotTell => most += 1,
            Falls => {}
        }
        standings.push(standing);
    }
    standings
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Runs stand as a plain count says, with an inspection supposed and without.
    #[test]
    fn the_runs_stand_as_a_second_count_says(days in days()) {
        let world = shop_of(&days);
        let plain = courses(&world.book, world.rules, FOURTEEN, TODAY, &[]).unwrap();
        prop_assert_eq!(standings(&plain), second_count(&days, None));
        let one = held("31", later(TODAY, days.hold));
        let with = courses(&world.book, world.rules, FOURTEEN, TODAY, &[one]).unwrap();
        prop_assert_eq!(standings(&with), second_count(&days, Some(days.hold)));
    }

    /// On the last good day nothing falls through the run in question; a day later something does.
    #[test]
    fn a_day_after_the_last_good_day_something_falls(days in days()) {
        let world = shop_of(&days);
        let plain = looked(&world, &[]);
        let Some(good) = of(&plain, "31").good.clone() else { return Ok(()) };
        let (Some(last), Some((run, _))) = (good.last, good.run) else { return Ok(()) };
        let through = |look: &Look| {
            let mut early = look.trains.iter().filter(|t| t.day <= run);
            early.all(|t| t.standing == Clear)
        };
        let on = courses(&world.book, world.rules, FOURTEEN, TODAY, &[held("31", last)]).unwrap();
        prop_assert!(through(&on), "{:?}", on.trains);
        let after = [held("31", later(last, 1))];
        let after = courses(&world.book, world.rules, FOURTEEN, TODAY, &after).unwrap();
        prop_assert!(!through(&after), "{:?}", after.trains);
    }

    /// Supposing changes nothing before its day, frees every run the clock alone had stopped from then on until
    /// its own days are spent, and leaves the book as it was.
    #[test]
    fn a_supposed_day_works_only_forward(days in days()) {
        let world = shop_of(&days);
        let before = world.book.clone();
        let plain = looked(&world, &[]);
        let day = later(TODAY, days.hold);
        let with = looked(&world, &[held("31", day)]);
        prop_assert_eq!(&before, &world.book);
        for (was, is) in plain.trains.iter().zip(&with.trains) {
            prop_assert_eq!(was.day, is.day);
            if was.day < day {
                prop_assert_eq!(was, is);
            } else if was.day > day && was.standing == Clear {
                prop_assert_eq!(is.standing, Clear);
            }
        }
    }

    /// A day nobody vouched for never moves a stop or a last good day later, and never frees a run.
    #[test]
    fn missing_days_never_help(days in days(), open in 1..6i64) {
        let sure = shop_of(&days);
        let mut unsure = sure.clone();
        let kept = unsure.book.locomotives.get_mut(&FOURTEEN).unwrap();
        // The paper's count reaches so many days less far, and nobody vouched for those days.
        let through = later(TODAY, -1 - open);
        for held in &mut kept.held_before {
            held.service_days_since = held.service_days_since.map(|(n, _)| (n, through));
        }
        kept.log_closed = vec![(later(TODAY, -110), through)];
        kept.log_through = Some(through);
        let (sure, unsure) = (looked(&sure, &[]), looked(&unsure, &[]));
        for (known, open) in sure.trains.iter().zip(&unsure.trains) {
            prop_assert!(open.standing >= known.standing || known.standing == Falls && open.standing == CannotTell);
        }
        let from = |look: &Look| of(look, "31").stopped.as_ref().map_or(Date::MAX, |s| s.from);
        prop_assert!(from(&unsure) <= from(&sure));
        let last = |look: &Look| of(look, "31").good.as_ref().map_or(Date::MAX, |g| g.last.unwrap_or(Date::MIN));
        prop_assert!(last(&unsure) <= last(&sure));
    }
}
