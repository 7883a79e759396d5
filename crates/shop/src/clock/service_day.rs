//! Service days of a log: every calendar day on any part of which fire and pressure stand together.
//!
//! A day is a civil day of the book's one time zone, from midnight to midnight by the clock on the wall. The
//! times of the log are such clock times too, so the day on which the clocks change is one day like any other,
//! whether it has 23 hours or 25, and what an hour counted twice leaves open never moves a day.

use jiff::civil::{Date, date};

use crate::book::{Book, Days, LocomotiveId, days_of_fire};

/// The service days of an engine, looking back from `on` to and including `since`.
///
/// Those of the log ([`own_service_days`]), and in the most also as many days as a paper counts beyond them: which
/// days those were nobody knows, so the latest of the paper's span that may be are taken, which is the harder
/// reading for a clock that runs to today.
pub fn service_days(book: &Book, engine: LocomotiveId, since: Date, on: Date) -> Days {
    let mut days = own_service_days(book, engine, since, on);
    let counts = book
        .locomotives
        .get(&engine)
        .map_or(&[][..], |kept| &kept.paper_counts);
    if !counts.is_empty() {
        days.most
            .add(&super::paper_count::beyond(book, engine, counts).within(since, on));
    }
    days
}

/// The service days that the log itself holds, looking back from `on` to and including `since`.
///
/// A day inside the closed log with no fire in it was cold. A day outside it, before `on`, may have
/// been a service day: a blank is not a cold day.
pub fn own_service_days(book: &Book, engine: LocomotiveId, since: Date, on: Date) -> Days {
    let mut days = Days::default();
    if since > on {
        return days;
    }
    if let Some(log) = book.logs.get(&engine) {
        days.least = log.least.within(since, on);
        days.most = log.most.within(since, on);
        for fire in log.unended.values() {
            let of_fire = days_of_fire(fire, on);
            days.least.add(&of_fire.least.within(since, on));
            days.most.add(&of_fire.most.within(since, on));
        }
    }
    let Ok(yesterday) = on.yesterday() else {
        return days;
    };
    let mut blank = since;
    let closed = book
        .locomotives
        .get(&engine)
        .map_or(&[][..], |kept| &kept.log_closed);
    for (from, through) in closed {
        if let Ok(before) = from.yesterday() {
            days.most.add_span(blank, before.min(yesterday));
        }
        blank = blank.max(through.tomorrow().unwrap_or(*through));
    }
    days.most.add_span(blank, yesterday);
    days
}

/// How service days are counted: [`service_days`], or [`own_service_days`] by the log alone.
pub type Count = fn(&Book, LocomotiveId, Date, Date) -> Days;

/// The service days of a calendar year as known on a day.
///
/// Of a year that is over it is asked the day after, so that a last day which nobody closed is in doubt like any other.
pub fn of_year(book: &Book, engine: LocomotiveId, year: i16, on: Date, count: Count) -> Days {
    let (start, end) = (date(year, 1, 1), date(year, 12, 31));
    let after = end.tomorrow().unwrap_or(end);
    let days = count(book, engine, start, on.min(after));
    Days {
        least: days.least.within(start, end),
        most: days.most.within(start, end),
    }
}
