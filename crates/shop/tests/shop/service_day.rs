//! Service days, exhaustively over small cases, against a reference that looks at every minute.

use jiff::civil::{Date, date};
use shop::book::{DaySet, FireId, FireLogged, LocomotiveId, Statement, days_of_fire};
use shop::clock::{NewFire, log_fire, service_days};

use crate::world::{ELI, FOURTEEN, World, later};

/// The first day of the grid; the log is looked at on the fourth.
const FIRST: Date = date(2026, 5, 1);
/// Hours a bound may stand at: every quarter of three days, midnights included.
const GRID: [i64; 13] = [0, 6, 12, 18, 24, 30, 36, 42, 48, 54, 60, 66, 72];
/// Where a missing end may truly lie: as late as the end of the day asked about.
const ENDS: [i64; 14] = [0, 6, 12, 18, 24, 30, 36, 42, 48, 54, 60, 66, 72, 96];
const MINUTES_A_DAY: i64 = 24 * 60;

/// Lit, up, out, gone, in hours from the first midnight.
type Bounds = [Option<i64>; 4];

fn logged(bounds: Bounds) -> Option<shop::book::Fire> {
    let at = |hours: Option<i64>| {
        let hours = hours?;
        let hour = i8::try_from(hours % 24).unwrap();
        Some(later(FIRST, hours / 24).at(hour, 0, 0, 0))
    };
    let [lit, up, out, gone] = bounds.map(at);
    let new = NewFire {
        id: FireId(1),
        locomotive: LocomotiveId(1),
        lit,
        up,
        out,
        gone,
        miles: None,
        offered: None,
    };
    log_fire(new, later(FIRST, 3)).ok()?;
    Some(shop::book::Fire {
        locomotive: new.locomotive,
        lit,
        up,
        out,
        gone,
        miles: None,
        offered: None,
        day: None,
        entry: 1,
    })
}

/// Days as bits, day 0 the lowest.
fn bits(days: &DaySet) -> u8 {
    days.iter().fold(0, |bits, day| {
        bits | 1 << FIRST.until(day).unwrap().get_days()
    })
}

/// Looks at every minute: a day counts once fire and pressure stand together in one of its minutes.
fn by_minutes([lit, up, out, gone]: [i64; 4]) -> u8 {
    let mut days = 0;
    for minute in 0..4 * MINUTES_A_DAY {
        let fire = lit * 60 <= minute && minute < out * 60;
        let pressure = up * 60 <= minute && minute < gone * 60;
        if fire && pressure {
            days |= 1 << (minute / MINUTES_A_DAY);
        }
    }
    days
}

/// The days of every way the missing bounds may truly have been: in all of them, and in any of them.
/// Pressure may be left from an earlier fire, so a beginning not written may lie on either side of the
/// other. What stood at all stood for some time, and a fire whose end is not written is taken to have
/// raised the pressure written beside it.
fn every_way(bounds: Bounds, reference: &[u8]) -> (u8, u8) {
    let starts = |bound: Option<i64>| bound.map_or(GRID.to_vec(), |hour| vec![hour]);
    let ends = |bound: Option<i64>| bound.map_or(ENDS.to_vec(), |hour| vec![hour]);
    let [lit, up, out, gone] = bounds;
    let known = |a: Option<i64>, b: Option<i64>| a.is_some() && b.is_some();
    let (mut all, mut any) = (u8::MAX, 0);
    for l in starts(lit) {
        for u in starts(up) {
            for o in ends(out).into_iter().filter(|o| l < *o || known(lit, out)) {
                if out.is_none() && o <= u {
                    continue;
                }
                for g in ends(gone).into_iter().filter(|g| u < *g || known(up, gone)) {
                    let days = reference[index([l, u, o, g])];
                    all &= days;
                    any |= days;
                }
            }
        }
    }
    (all, any)
}

fn index(hours: [i64; 4]) -> usize {
    hours.iter().fold(0, |index, hour| {
        index * ENDS.len() + ENDS.iter().position(|h| h == hour).unwrap()
    })
}

fn reference() -> Vec<u8> {
    let mut days = vec![0; ENDS.len().pow(4)];
    for lit in GRID {
        for up in GRID {
            for out in ENDS {
                for gone in ENDS {
                    days[index([lit, up, out, gone])] = by_minutes([lit, up, out, gone]);
                }
            }
        }
    }
    days
}

fn given_or_missing() -> impl Iterator<Item = Option<i64>> + Clone {
    GRID.into_iter().map(Some).chain([None])
}

// 49 CFR 230.8 (2015 edition): a service day is a calendar day on which the boiler is above atmospheric
// pressure with fire in the firebox. That an end at midnight does not touch the next day, and what a
// missing time leaves open, is our reading.
#[test]
fn least_and_most_hold_whatever_the_missing_times_were() {
    let (reference, on) = (reference(), later(FIRST, 3));
    let counted = |bounds: Bounds| {
        let days = days_of_fire(&logged(bounds)?, on);
        Some((bits(&days.least), bits(&days.most)))
    };
    let (mut fires, mut whole) = (0, 0);
    for lit in given_or_missing() {
        for up in given_or_missing() {
            for out in given_or_missing() {
                for gone in given_or_missing() {
                    let bounds = [lit, up, out, gone];
                    let Some((least, most)) = counted(bounds) else {
                        continue;
                    };
                    fires += 1;
                    let (in_all, in_any) = every_way(bounds, &reference);
                    assert_eq!(least & !most, 0, "{bounds:?}: least outside most");
                    assert_eq!(least & !in_all, 0, "{bounds:?}: least is not certain");
                    assert_eq!(in_any & !most, 0, "{bounds:?}: most leaves out a day");
                    if bounds.iter().all(Option::is_some) {
                        whole += 1;
                        assert_eq!((least, most), (in_all, in_any), "{bounds:?}");
                    }
                    // A fire drawn before pressure was up made no service day; without the hour it was
                    // drawn it is taken to have raised it. That raises the least, and helps nobody.
                    let drawn = matches!((up, out), (Some(up), Some(out)) if out <= up);
                    for taken in (0..4).filter(|taken| *taken != 2 || !drawn) {
                        let mut fewer = bounds;
                        fewer[taken] = None;
                        let Some((least_then, most_then)) = counted(fewer) else {
                            continue;
                        };
                        assert_eq!(least_then & !least, 0, "{bounds:?} without {taken}");
                        assert_eq!(most & !most_then, 0, "{bounds:?} without {taken}");
                    }
                }
            }
        }
    }
    // Enough of the grid was admitted for the above to mean something.
    assert!(
        fires > 6_000 && whole > 3_000,
        "{fires} fires, {whole} whole"
    );
}

/// The most is exact. So is the least where three of the four times are written; with fewer it may leave
/// out a day that is certain, which helps nobody.
#[test]
fn with_three_times_written_the_bounds_are_exact() {
    let (reference, on) = (reference(), later(FIRST, 3));
    for lit in given_or_missing() {
        for up in given_or_missing() {
            for out in given_or_missing() {
                for gone in given_or_missing() {
                    let bounds = [lit, up, out, gone];
                    let Some(fire) = logged(bounds) else { continue };
                    let days = days_of_fire(&fire, on);
                    let (in_all, in_any) = every_way(bounds, &reference);
                    // No way at all: on this grid the missing time has nowhere to lie.
                    if in_all & !in_any != 0 {
                        continue;
                    }
                    assert_eq!(bits(&days.most), in_any, "{bounds:?}");
                    if bounds.iter().flatten().count() >= 3 {
                        assert_eq!(bits(&days.least), in_all, "{bounds:?}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_blank_day_is_not_a_cold_day() {
    let mut world = World::new();
    let on = later(FIRST, 9);
    let count = |world: &World| {
        let days = service_days(&world.book, FOURTEEN, FIRST, on);
        assert!(days.least.without(&days.most).is_empty());
        (days.least.len(), days.most.len())
    };
    // Nothing known: every day before the day asked about may have been one.
    assert_eq!(count(&world), (0, 9));
    world.steamed(later(FIRST, 2));
    assert_eq!(count(&world), (1, 9));
    world.closed(FIRST, later(FIRST, 4));
    assert_eq!(count(&world), (1, 5));
    world.closed(later(FIRST, 5), later(FIRST, 8));
    assert_eq!(count(&world), (1, 1));
    // The day asked about counts when there is a fire on it.
    world.steamed(on);
    assert_eq!(count(&world), (2, 2));
    // Another engine's fires are another engine's.
    let other = service_days(&world.book, crate::world::TWENTY_SEVEN, FIRST, on);
    assert_eq!((other.least.len(), other.most.len()), (0, 9));
}

#[test]
fn two_fires_on_one_day_are_one_service_day() {
    let mut world = World::new();
    let morning = [(4, 6, 10, 11), (13, 14, 20, 22)];
    for (at, (lit, up, out, gone)) in morning.into_iter().enumerate() {
        let fire = FireLogged {
            id: FireId(at as u128),
            locomotive: FOURTEEN,
            lit: Some(FIRST.at(lit, 0, 0, 0)),
            up: Some(FIRST.at(up, 0, 0, 0)),
            out: Some(FIRST.at(out, 0, 0, 0)),
            gone: Some(FIRST.at(gone, 0, 0, 0)),
            miles: None,
            offered: None,
        };
        world.state(ELI, FIRST, Statement::FireLogged(fire));
    }
    let days = service_days(&world.book, FOURTEEN, FIRST, FIRST);
    assert_eq!((days.least.len(), days.most.len()), (1, 1));
}

/// Days between two closings were vouched for by nobody, however the closings came to lie so.
#[test]
fn a_gap_between_two_closings_stays_blank() {
    let mut world = World::new();
    world.closed(later(FIRST, 10), later(FIRST, 14));
    world.closed(FIRST, later(FIRST, 2));
    let on = later(FIRST, 15);
    let days = service_days(&world.book, FOURTEEN, FIRST, on);
    let blank: Vec<Date> = (3..10).map(|n| later(FIRST, n)).collect();
    assert_eq!(days.most.iter().collect::<Vec<_>>(), blank);
    assert_eq!(
        world.book.locomotives[&FOURTEEN].log_through,
        Some(later(FIRST, 2))
    );
    // Closing the gap joins them.
    world.closed(later(FIRST, 3), later(FIRST, 9));
    let kept = &world.book.locomotives[&FOURTEEN];
    assert_eq!(kept.log_closed, [(FIRST, later(FIRST, 14))]);
    assert_eq!(
        (kept.log_from, kept.log_through),
        (Some(FIRST), Some(later(FIRST, 14)))
    );
}
