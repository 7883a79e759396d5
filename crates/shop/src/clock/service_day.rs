//! Service days of a log: every calendar day on any part of which fire and pressure stand together.

use jiff::civil::Date;

use crate::book::{Book, Days, LocomotiveId, days_of_fire};

/// The service days of an engine, looking back from `on` to and including `since`.
///
/// A day inside the closed log with no fire in it was cold. A day outside it, before `on`, may have
/// been a service day: a blank is not a cold day.
pub fn service_days(book: &Book, engine: LocomotiveId, since: Date, on: Date) -> Days {
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
