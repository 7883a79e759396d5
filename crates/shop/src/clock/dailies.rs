//! Days in steam for which this book holds no daily inspection, of those whose report must still be there.

use jiff::civil::Date;
use rules::{Body, Keep, Rulebook, Span};

use super::service_day::own_service_days;
use crate::Refusal;
use crate::book::{Book, LocomotiveId};
use crate::locomotive::{Law, engine_of};

/// What such a report is called in the rule that says how long it is kept.
const REPORT: &str = "daily report";

/// Days that the log proves her in steam and on which no inspection of hers was under way, as known on a day: oldest
/// first, back to the oldest day whose daily report must still be there. A larger inspection holds the daily one; one
/// that was put away holds nothing.
///
/// Nothing where her rules keep no daily report for a number of days, or count no service days.
///
/// # Errors
/// Input: the day lies before a rulebook's coverage.
pub fn days_without_daily(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Date>, Refusal> {
    let law = Law::of(book, rules, engine_of(book, engine)?);
    if !law.counts_service_days() {
        return Ok(Vec::new());
    }
    let kept = law.in_force(on)?.into_iter().find_map(|ruling| {
        let Body::Retention(it) = &ruling.body else {
            return None;
        };
        match it.keep {
            Keep::Days(days) if it.what.contains(REPORT) => Some(days),
            _ => None,
        }
    });
    let Some(days) = kept else {
        return Ok(Vec::new());
    };
    let steamed = own_service_days(book, engine, Span::Days(days).before(on)?, on).least;
    let hers = book.inspections.values();
    let hers: Vec<_> = hers
        .filter(|it| it.locomotive == engine && it.not_completed.is_none())
        .collect();
    let looked = |day: &Date| {
        let mut all = hers.iter();
        all.any(|it| it.opened_on <= *day && it.ended_on().unwrap_or(on) >= *day)
    };
    Ok(steamed.iter().filter(|day| !looked(day)).collect())
}
