//! Lines that come in many at once, days without times, what papers count, and the edges of days and years.
//!
//! All logs here are invented. That a service day is a calendar day is 49 CFR 230.8 (2015 edition); the nights on which
//! clocks change are those of 15 U.S.C. 260a: the second Sunday of March and the first of November (from memory).

use jiff::civil::{Date, date};
use shop::book::{DayLogged, FireId, LocomotiveId, PaperCounted, Statement, Stood, days_of_fire};
use shop::clock::{
    Agreement, Fate, LogLine, Unread, Weighed, count_paper, log_day, own_service_days,
    paper_checks, service_days, weigh,
};

use crate::world::{ADA, ELI, FOURTEEN, World, later};

const MAY: Date = date(2026, 5, 1);

fn line(place: u32, day: Date, hours: Option<(i8, i8, i8, i8)>) -> LogLine {
    let at = |hour: i8| day.at(hour, 0, 0, 0);
    LogLine {
        place,
        engine: "14".into(),
        day: Some(day),
        lit: hours.map(|h| at(h.0)),
        up: hours.map(|h| at(h.1)),
        out: hours.map(|h| at(h.2)),
        gone: hours.map(|h| at(h.3)),
        told: "the wall calendar".into(),
        ..LogLine::default()
    }
}

fn weighed(world: &World, lines: &[LogLine]) -> Vec<Fate> {
    let lines: Vec<Result<LogLine, Unread>> = lines.iter().cloned().map(Ok).collect();
    let on = later(MAY, 20);
    let all = weigh(&world.book, world.rules, &lines, FireId(0x1_0000), on);
    all.into_iter().map(|Weighed { fate, .. }| fate).collect()
}

fn enter(world: &mut World, fates: &[Fate]) {
    for fate in fates {
        if let Fate::Taken { statements, .. } = fate {
            for statement in statements {
                world.state(ELI, later(MAY, 20), statement.clone());
            }
        }
    }
}

fn why(fate: &Fate) -> &str {
    match fate {
        Fate::Refused(why) | Fate::Nothing(why) | Fate::Again(why) => why,
        Fate::Taken { .. } => panic!("taken: {fate:?}"),
    }
}

fn counted(world: &World, from: Date, on: Date) -> (usize, usize) {
    let days = service_days(&world.book, FOURTEEN, from, on);
    assert!(days.least.without(&days.most).is_empty(), "{days:?}");
    (days.least.len(), days.most.len())
}

#[test]
fn the_same_lines_again_add_nothing() {
    let mut world = World::new();
    let lines = [
        line(2, MAY, Some((5, 8, 17, 21))),
        LogLine {
            stood: Some(Stood::ServiceDay),
            ..line(3, later(MAY, 1), None)
        },
        LogLine {
            miles: Some(12),
            ..line(4, later(MAY, 2), None)
        },
        line(5, MAY, Some((5, 8, 17, 21))),
    ];
    let first = weighed(&world, &lines);
    assert!(matches!(
        &first[..3],
        [Fate::Taken { .. }, Fate::Taken { .. }, Fate::Taken { .. }]
    ));
    assert_eq!(first[3], Fate::Again("line 2".into()));
    enter(&mut world, &first);
    for fate in weighed(&world, &lines) {
        assert!(
            matches!(&fate, Fate::Again(at) if at.starts_with("entry ")),
            "{fate:?}"
        );
    }
    world.closed(MAY, later(MAY, 19));
    assert_eq!(counted(&world, MAY, later(MAY, 20)), (2, 3));
}

#[test]
fn a_line_that_cannot_be_true_beside_another_is_refused() {
    let mut world = World::new();
    world.steamed(MAY);
    let of = |it: LogLine| weighed(&world, &[it]).pop().unwrap();
    let fate = of(line(2, MAY, Some((6, 9, 16, 21))));
    assert!(
        why(&fate).contains("begins at 2026-05-01 06:00 too, with other times"),
        "{fate:?}"
    );
    let fate = of(line(2, MAY, Some((10, 12, 20, 22))));
    assert!(why(&fate).contains("two fires at a time"), "{fate:?}");
    let no = |day| LogLine {
        stood: Some(Stood::NoServiceDay),
        ..line(2, day, None)
    };
    assert!(why(&of(no(MAY))).contains("2026-05-01 was one"));
    let said = LogLine {
        stood: Some(Stood::NoServiceDay),
        ..line(2, later(MAY, 3), Some((5, 8, 17, 21)))
    };
    assert!(why(&of(said)).contains("by its times 2026-05-04 was one"));
    let said = LogLine {
        stood: Some(Stood::ServiceDay),
        ..line(2, later(MAY, 3), Some((5, 9, 8, 10)))
    };
    assert!(why(&of(said)).contains("never stood together"));
    let stranger = LogLine {
        engine: "99".into(),
        ..line(2, MAY, Some((5, 8, 17, 21)))
    };
    assert!(why(&of(stranger)).contains("no engine `99`"));
    assert!(why(&of(line(2, later(MAY, 40), Some((5, 8, 17, 21))))).contains("lies after today"));
    // A day with nothing told stays blank, and no time at all says nothing of when.
    let blank = of(line(2, later(MAY, 3), None));
    assert!(matches!(blank, Fate::Nothing(_)));
    let nowhere = LogLine {
        day: None,
        miles: Some(3),
        ..line(2, MAY, None)
    };
    assert!(why(&of(nowhere)).contains("neither a day nor a time"));
    // Two days told otherwise.
    let yes = |place, stood| LogLine {
        stood: Some(stood),
        ..line(place, later(MAY, 5), None)
    };
    let both = weighed(
        &world,
        &[yes(2, Stood::ServiceDay), yes(3, Stood::CannotTell)],
    );
    assert!(
        why(&both[1]).contains("line 2 says `service-day`"),
        "{both:?}"
    );
}

#[test]
fn an_end_without_a_beginning_leaves_its_day_in_doubt() {
    let mut world = World::new();
    let fates = weighed(
        &world,
        &[LogLine {
            out: Some(MAY.at(17, 0, 0, 0)),
            ..line(2, MAY, None)
        }],
    );
    let Fate::Taken { statements, days } = &fates[0] else {
        panic!("{fates:?}");
    };
    assert_eq!((days.least.len(), days.most.len()), (0, 1));
    let Statement::DayLogged(told) = &statements[0] else {
        panic!("{statements:?}");
    };
    assert_eq!(told.told, "the wall calendar; fire out 2026-05-01 17:00");
    enter(&mut world, &fates);
    world.closed(MAY, later(MAY, 5));
    assert_eq!(counted(&world, MAY, later(MAY, 6)), (0, 1));
    // Times that leave the day open, and a line that says what it was: both are kept, and it is one.
    let both = weighed(
        &world,
        &[LogLine {
            up: None,
            stood: Some(Stood::ServiceDay),
            ..line(3, later(MAY, 2), Some((5, 8, 17, 21)))
        }],
    );
    let Fate::Taken { statements, days } = &both[0] else {
        panic!("{both:?}");
    };
    assert_eq!((statements.len(), days.least.len()), (2, 1));
}

#[test]
fn a_day_without_times_needs_its_paper_and_has_come() {
    let told = |day, told: &str| DayLogged {
        id: FireId(1),
        locomotive: FOURTEEN,
        day,
        stood: Stood::ServiceDay,
        miles: None,
        offered: None,
        told: told.into(),
    };
    let no = |it| log_day(it, MAY).unwrap_err().to_string();
    assert!(no(told(later(MAY, 1), "calendar")).contains("lies after today"));
    assert!(no(told(MAY, " ")).contains("which paper"));
    assert!(log_day(told(MAY, "calendar"), MAY).is_ok());
}

fn paper(world: &mut World, from: Date, through: Date, service_days: u32) {
    let told = PaperCounted {
        locomotive: FOURTEEN,
        from,
        through,
        service_days,
        document: "the cab notebook".into(),
    };
    let made = count_paper(&world.book, told, later(MAY, 20));
    world.enter(ADA, later(MAY, 20), made);
}

#[test]
fn a_paper_is_held_against_the_least_and_the_most() {
    let mut world = World::new();
    world.steamed(MAY);
    world.steamed(later(MAY, 3));
    world.closed(MAY, later(MAY, 9));
    let on = later(MAY, 10);
    let agreement = |service_days| {
        let mut world = world.clone();
        paper(&mut world, MAY, later(MAY, 9), service_days);
        let checks = paper_checks(&world.book, FOURTEEN, on);
        let check = checks.first().unwrap();
        assert_eq!((check.least, check.most), (2, 2));
        (check.agreement, counted(&world, MAY, on))
    };
    assert_eq!(agreement(2), (Agreement::Agrees, (2, 2)));
    assert_eq!(agreement(1), (Agreement::PaperHasFewer, (2, 2)));
    // What the paper has too many goes into the most: missing never helps.
    assert_eq!(agreement(5), (Agreement::PaperHasMore, (2, 5)));
    // Over days nobody closed the log for, nobody can tell.
    let mut open = world.clone();
    paper(&mut open, MAY, later(MAY, 14), 6);
    let checks = paper_checks(&open.book, FOURTEEN, later(MAY, 15));
    assert_eq!(checks[0].agreement, Agreement::CannotTell);
    assert_eq!((checks[0].least, checks[0].most), (2, 7));
    assert!(checks[0].told().unwrap().starts_with("cannot tell"));
    assert_eq!(counted(&open, MAY, later(MAY, 15)), (2, 7));
}

#[test]
fn papers_over_the_same_days_bring_in_no_day_twice() {
    let mut world = World::new();
    world.steamed(MAY);
    world.closed(MAY, later(MAY, 19));
    paper(&mut world, MAY, later(MAY, 4), 3);
    paper(&mut world, MAY, later(MAY, 9), 4);
    // The first brings in two of its days, and the second one more.
    assert_eq!(counted(&world, MAY, later(MAY, 20)), (1, 4));
    // A clock that began later is not charged with days before it.
    assert_eq!(counted(&world, later(MAY, 5), later(MAY, 20)), (0, 1));
    let own = own_service_days(&world.book, FOURTEEN, MAY, later(MAY, 20));
    assert_eq!((own.least.len(), own.most.len()), (1, 1));
}

#[test]
fn a_paper_that_cannot_be_is_refused() {
    let world = World::new();
    let told = |from: Date, through: Date, service_days, document: &str| PaperCounted {
        locomotive: FOURTEEN,
        from,
        through,
        service_days,
        document: document.into(),
    };
    let no = |it| {
        count_paper(&world.book, it, later(MAY, 9))
            .unwrap_err()
            .to_string()
    };
    assert!(no(told(later(MAY, 1), MAY, 0, "x")).contains("no such span"));
    assert!(no(told(MAY, later(MAY, 10), 2, "x")).contains("no such span"));
    assert!(no(told(MAY, later(MAY, 1), 3, "x")).contains("only 2 days"));
    assert!(no(told(MAY, later(MAY, 1), 2, " ")).contains("which paper"));
    let stranger = PaperCounted {
        locomotive: LocomotiveId(9),
        ..told(MAY, MAY, 1, "x")
    };
    assert!(no(stranger).contains("no such engine"));
}

/// The most never falls and the least never rises when a paper is taken away, whatever it says.
#[test]
fn a_paper_taken_away_never_lengthens_a_count() {
    for says in 0..=10 {
        for closed in [None, Some(4), Some(9)] {
            let mut world = World::new();
            world.steamed(later(MAY, 2));
            if let Some(through) = closed {
                world.closed(MAY, later(MAY, through));
            }
            let without = counted(&world, MAY, later(MAY, 12));
            paper(&mut world, MAY, later(MAY, 9), says);
            let with = counted(&world, MAY, later(MAY, 12));
            assert_eq!(with.0, without.0);
            assert!(with.1 >= without.1, "{says}: {with:?} {without:?}");
            // And where the log was closed over its days, the paper's number is not passed over.
            if closed == Some(9) {
                assert!(with.1 >= usize::try_from(says).unwrap());
            }
        }
    }
}

/// A fire over each edge of the calendar touches the days on either side of it, once each.
#[test]
fn edges_of_days_and_years() {
    let of = |first: Date, hours: i64| {
        let lit = first.at(20, 0, 0, 0);
        let out = lit
            .checked_add(jiff::Span::new().try_hours(hours).unwrap())
            .unwrap();
        let fire = shop::book::Fire {
            locomotive: FOURTEEN,
            lit: Some(lit),
            up: Some(lit),
            out: Some(out),
            gone: Some(out),
            miles: None,
            offered: None,
            day: None,
            entry: 1,
        };
        let days = days_of_fire(&fire, later(first, 9));
        assert_eq!(days.least, days.most);
        days.least.iter().collect::<Vec<_>>()
    };
    for (first, second) in [
        // Year's end.
        (date(2025, 12, 31), date(2026, 1, 1)),
        // Leap day: before it, on it, and the years that have none.
        (date(2028, 2, 28), date(2028, 2, 29)),
        (date(2028, 2, 29), date(2028, 3, 1)),
        (date(2026, 2, 28), date(2026, 3, 1)),
        (date(2100, 2, 28), date(2100, 3, 1)),
        (date(2000, 2, 28), date(2000, 2, 29)),
        // The nights on which the clocks go forward and back in 2026.
        (date(2026, 3, 7), date(2026, 3, 8)),
        (date(2026, 10, 31), date(2026, 11, 1)),
    ] {
        assert_eq!(of(first, 4), [first], "{first}: out at midnight exactly");
        assert_eq!(of(first, 5), [first, second], "{first}");
        // The whole of the second day, whether it has 23, 24 or 25 hours, is one day.
        assert_eq!(of(first, 4 + 24), [first, second], "{first}");
        assert_eq!(of(first, 5 + 24).len(), 3, "{first}");
    }
}

/// An hour that the clock shows twice, or never, is a time like any other: no day hangs on it.
#[test]
fn an_hour_that_comes_twice_or_not_at_all_moves_no_day() {
    let mut world = World::new();
    // 02:30 does not come on 8 March 2026, and 01:30 came twice on 2 November 2025.
    let nights = [(2, date(2026, 3, 8)), (3, date(2025, 11, 2))].map(|(place, day)| LogLine {
        lit: Some(day.at(1, 30, 0, 0)),
        up: Some(day.at(2, 30, 0, 0)),
        ..line(place, day, Some((1, 2, 9, 12)))
    });
    let fates = weighed(&world, &nights);
    for (fate, night) in fates.iter().zip(&nights) {
        let Fate::Taken { days, .. } = fate else {
            panic!("{fate:?}");
        };
        assert_eq!(days.least.iter().next(), night.day);
        assert_eq!((days.least.len(), days.most.len()), (1, 1));
    }
    enter(&mut world, &fates);
    assert_eq!(world.book.logs[&FOURTEEN].least.len(), 2);
}
