//! No history lets an engine run past a limit unannounced: day by day, what `due` said in the morning is held
//! against a second count that knows the truth.
//!
//! Independent: the second count asks chrono 0.4 for days and looks at every quarter of an hour, and shares no
//! code with the program. The limits are 49 CFR 230.14 to 230.17 and 230.74, 2015 edition.

use std::collections::{BTreeMap, BTreeSet};

use chrono::{Datelike, Duration, Months, NaiveDate, NaiveDateTime};
use jiff::civil::{Date, DateTime};
use proptest::prelude::*;
use shop::book::{
    Answer, FireId, FireLogged, HeldBefore, InspectionClosed, InspectionId, InspectionOpened,
    ItemAnswered, ItemAsked, Statement,
};
use shop::clock::{State, close_log, due};

use crate::world::{ADA, DOT, FOURTEEN, World};

const DAYS: i64 = 130;

/// The first day: New Year is crossed, and 29 February, and both changes of the clocks of America/Denver.
fn first() -> NaiveDate {
    NaiveDate::from_ymd_opt(2027, 12, 1).unwrap()
}

fn day(n: i64) -> NaiveDate {
    first() + Duration::days(n)
}

fn ours(day: NaiveDate) -> Date {
    let (month, of) = (
        i8::try_from(day.month()).unwrap(),
        i8::try_from(day.day()).unwrap(),
    );
    Date::new(i16::try_from(day.year()).unwrap(), month, of).unwrap()
}

fn at(quarter: i64) -> NaiveDateTime {
    first().and_hms_opt(0, 0, 0).unwrap() + Duration::minutes(15 * quarter)
}

fn ours_at(quarter: i64) -> DateTime {
    at(quarter)
        .format("%Y-%m-%dT%H:%M:%S")
        .to_string()
        .parse()
        .unwrap()
}

/// What happens on a day: a fire in quarters of an hour, how late it is entered, which times are left out.
#[derive(Debug, Clone)]
struct Fire {
    lit: i64,
    heat: i64,
    run: i64,
    cool: i64,
    fire_first: bool,
    entered_after: i64,
    left_out: u8,
}

#[derive(Debug, Clone)]
struct Held {
    kind: usize,
    opened: i64,
    took: i64,
    /// Which of its days is truly the one, and whether that day's fire came before it.
    truly: u8,
    fire_before: bool,
}

#[derive(Debug, Clone)]
struct History {
    fires: BTreeMap<i64, Fire>,
    held: Vec<Held>,
    closes: BTreeSet<i64>,
}

const KINDS: [&str; 3] = ["31", "92", "annual"];

fn histories() -> impl Strategy<Value = History> {
    let fire = (
        0..90i64,
        1..24i64,
        1..60i64,
        0..20i64,
        any::<bool>(),
        0..6i64,
        0..12u8,
    )
        .prop_map(
            |(lit, heat, run, cool, fire_first, entered_after, left_out)| Fire {
                lit,
                heat,
                run,
                cool,
                fire_first,
                entered_after,
                left_out,
            },
        );
    let held = (
        0..KINDS.len(),
        5..DAYS - 20,
        0..25i64,
        any::<u8>(),
        any::<bool>(),
    )
        .prop_map(|(kind, opened, took, truly, fire_before)| Held {
            kind,
            opened,
            took,
            truly,
            fire_before,
        });
    (
        prop::collection::btree_map(0..DAYS, fire, 20..110),
        prop::collection::vec(held, 0..4),
        prop::collection::btree_set(0..DAYS, 0..30),
    )
        .prop_map(|(fires, held, closes)| History {
            fires,
            held,
            closes,
        })
}

impl Fire {
    /// Lit, up, out, gone in quarters from the first midnight.
    fn times(&self, on: i64) -> [i64; 4] {
        let lit = on * 96 + self.lit;
        let up = lit + self.heat;
        let (out, gone) = if self.fire_first {
            (up + self.run, up + self.run + self.cool)
        } else {
            (up + self.run + self.cool, up + self.run)
        };
        [lit, up, out, gone]
    }

    /// The days truly spent, looked at quarter by quarter.
    fn days(&self, on: i64) -> BTreeSet<NaiveDate> {
        let [lit, up, out, gone] = self.times(on);
        (lit.min(up)..out.max(gone))
            .filter(|q| (lit..out).contains(q) && (up..gone).contains(q))
            .map(|q| at(q).date())
            .collect()
    }

    /// What is entered of it.
    fn told(&self, on: i64) -> FireLogged {
        let [lit, up, out, gone] = self.times(on).map(|q| Some(ours_at(q)));
        let keep = |bit: u8, at: Option<DateTime>| at.filter(|_| self.left_out != bit);
        FireLogged {
            id: FireId(u128::try_from(on).unwrap() + 1),
            locomotive: FOURTEEN,
            lit: keep(1, lit),
            up: keep(2, up),
            out: keep(3, out),
            gone: keep(4, gone),
            miles: None,
            offered: None,
        }
    }
}

/// The truth of a clock: from which day it counts, and what was counted before that.
struct Truth {
    rule: &'static str,
    limit: u32,
    restarted_by: &'static [&'static str],
    since: NaiveDate,
    before: u32,
}

fn world() -> World {
    let mut world = World::new();
    let eve = ours(day(-1));
    let ago = |days: i64| ours(day(-days));
    let mut paper = |kind: &str, held_on: Date, count: u32| {
        let held = HeldBefore {
            locomotive: FOURTEEN,
            kind: kind.into(),
            held_on,
            service_days_since: Some((count, eve)),
            annuals_since: (kind == "fifth-annual").then_some(0),
            document: "a form".into(),
        };
        world.state(ADA, eve, Statement::HeldBefore(held));
    };
    paper("31", ago(60), 11);
    paper("92", ago(200), 61);
    paper("annual", ago(290), 61);
    paper("fifth-annual", ago(290), 61);
    // Fifteen years end on the hundredth day.
    let fifteen = day(100).checked_sub_months(Months::new(180)).unwrap();
    paper("1472", ours(fifteen), 1440);
    world.did("air-brake-valves", ago(700), Some((330, eve)), Some(0));
    world.did("frame-cleaning", ago(4000), Some((1450, eve)), Some(0));
    world
}

fn truths() -> Vec<Truth> {
    let truth = |rule, limit, restarted_by, before| Truth {
        rule,
        limit,
        restarted_by,
        since: day(0),
        before,
    };
    vec![
        truth("31", 31, &["31", "92", "annual"][..], 11),
        truth("92", 92, &["92", "annual"], 61),
        truth("1472", 1472, &[], 1440),
        truth("air-brake-valves", 368, &[], 330),
        truth("frame", 1472, &[], 1450),
    ]
}

/// The items of an inspection of these tests.
fn opened(world: &mut World, id: InspectionId, kind: &str, on: Date) {
    let item = ItemAsked {
        rule: "invented.item".into(),
        version: 1,
        text: "Look".into(),
        section: "invented".into(),
        fitting: None,
    };
    let open = InspectionOpened {
        id,
        locomotive: FOURTEEN,
        kind: kind.into(),
        items: vec![item],
    };
    world.state(DOT, on, Statement::InspectionOpened(open));
    let answer = ItemAnswered {
        inspection: id,
        rule: "invented.item".into(),
        answer: Answer::Good,
        seen: "tight".into(),
        condition: None,
    };
    world.state(DOT, on, Statement::ItemAnswered(answer));
}

fn walk(history: &History) -> Result<(), TestCaseError> {
    let mut world = world();
    let mut truths = truths();
    let mut annual_from = day(-290);
    let mut spent: BTreeSet<NaiveDate> = BTreeSet::new();
    let mut entered: BTreeSet<i64> = BTreeSet::new();
    for today in 0..DAYS {
        let on = ours(day(today));
        // What the book said in the morning, before anybody lit anything.
        let clocks = due(&world.book, world.rules, FOURTEEN, on).unwrap();
        let says = |rule: &str| {
            let wanted = format!("us-steam.clock.{rule}");
            let clock = clocks.iter().find(|c| c.ruling.rule == wanted).unwrap();
            (
                matches!(clock.state, State::Stops | State::CannotTell(_)),
                clock.why.clone(),
            )
        };
        if let Some(fire) = history.fires.get(&today) {
            spent.extend(fire.days(today));
        }
        if spent.contains(&day(today)) {
            for truth in &truths {
                let since = spent.range(truth.since..=day(today)).count();
                let count = truth.before + u32::try_from(since).unwrap();
                let (announced, why) = says(truth.rule);
                // One that burns over midnight had begun yesterday: that day is said the evening before.
                prop_assert!(
                    count <= truth.limit || announced,
                    "{} on {on}: {count} days, and it said: {why}",
                    truth.rule
                );
            }
            let (announced, why) = says("annual");
            let days = (day(today) - annual_from).num_days();
            prop_assert!(
                days <= 368 || announced,
                "annual on {on}: day {days}: {why}"
            );
            let (announced, why) = says("1472");
            let fifteen = day(today) > day(100);
            prop_assert!(!fifteen || announced, "fifteen years on {on}: {why}");
        }
        // The evening: fires are entered, some of them days late, some with a time left out.
        for (lit, fire) in &history.fires {
            let last = fire.times(*lit).into_iter().max().unwrap() / 96;
            if !entered.contains(lit) && today >= last.max(lit + fire.entered_after) {
                entered.insert(*lit);
                world.state(ADA, on, Statement::FireLogged(fire.told(*lit)));
            }
        }
        for (n, held) in history.held.iter().enumerate() {
            let id = InspectionId(0xABC0 + u128::try_from(n).unwrap());
            let kind = KINDS[held.kind];
            if held.opened == today {
                opened(&mut world, id, kind, on);
            }
            if held.opened + held.took == today {
                let close = InspectionClosed {
                    inspection: id,
                    made: None,
                };
                world.state(DOT, on, Statement::InspectionClosed(close));
                let truly = held.opened + i64::from(held.truly) % (held.took + 1);
                for truth in &mut truths {
                    let from = day(truly + i64::from(held.fire_before));
                    if truth.restarted_by.contains(&kind) && truth.since <= from {
                        (truth.since, truth.before) = (from, 0);
                    }
                }
                if kind == "annual" {
                    annual_from = annual_from.max(day(truly));
                }
            }
        }
        // The log is closed only as far as every fire is entered, as an honest shop closes it.
        if history.closes.contains(&today) {
            let open = history
                .fires
                .iter()
                .find(|(lit, _)| **lit <= today && !entered.contains(lit));
            let through = open.map_or(today, |(lit, _)| lit - 1);
            if through >= 0 {
                let made = close_log(
                    &world.book,
                    FOURTEEN,
                    Some(ours(day(0))),
                    ours(day(through)),
                    on,
                );
                if let Ok(made) = made {
                    world.enter(ADA, on, Ok(made));
                }
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_history_runs_past_a_limit_unannounced(history in histories()) {
        walk(&history)?;
    }

    /// Calendar days against chrono 0.4, over leap years and year ends.
    #[test]
    fn spans_land_where_chrono_says(start in 0..20_000i64, days in 1..2_000u32, years in 1..20u32) {
        let from = NaiveDate::from_ymd_opt(2000, 1, 1).unwrap() + Duration::days(start);
        let there = from + Duration::days(i64::from(days));
        prop_assert_eq!(rules::Span::Days(days).after(ours(from)).unwrap(), ours(there));
        prop_assert_eq!(rules::Span::Days(days).before(ours(there)).unwrap(), ours(from));
        // chrono takes the last day of a month that is too short, as the rules that say so do.
        let years_on = from.checked_add_months(Months::new(12 * years)).unwrap();
        let span = rules::Span::Years(years, rules::MonthEnd::LastDay);
        prop_assert_eq!(span.after(ours(from)).unwrap(), ours(years_on));
        let month_before = from.checked_sub_months(Months::new(1)).unwrap();
        let span = rules::Span::Months(1, rules::MonthEnd::LastDay);
        prop_assert_eq!(span.before(ours(from)).unwrap(), ours(month_before));
    }
}

/// The walk can fail: the same shop, with a book that forgets to count, would be caught.
#[test]
fn the_truth_is_really_reached() {
    let fire = Fire {
        lit: 30,
        heat: 8,
        run: 30,
        cool: 4,
        fire_first: true,
        entered_after: 0,
        left_out: 0,
    };
    let fires: BTreeMap<i64, Fire> = (0..DAYS).map(|n| (n, fire.clone())).collect();
    let history = History {
        fires,
        held: Vec::new(),
        closes: (0..DAYS).collect(),
    };
    walk(&history).unwrap();
    let mut spent = 0;
    for (on, fire) in &history.fires {
        spent += fire.days(*on).len();
    }
    // Enough to pass each limit: 31 less 11, 92 less 61, 1472 less 1440 and 1450, 368 less 330.
    assert!(spent > 40, "{spent}");
}
