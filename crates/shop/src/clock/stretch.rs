//! Service days of one stretch between two openings, where the whole of it is accounted for.
//!
//! A clock takes the most that may have been. A rate of wear must not: more days make the wear look slower. So a stretch
//! counts only where each of its days lies in the closed log or in the span of a paper that counts it, and of days in
//! doubt the fewest are taken.

use jiff::civil::Date;

use super::line::small;
use super::service_day::own_service_days;
use crate::book::{Book, LocomotiveId, days_of_fire};

/// How many days without miles are named.
const NAMED: usize = 6;

/// What a stretch came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stretch {
    /// Service days.
    pub days: u32,
    /// Where they were counted, a line each.
    pub by: Vec<String>,
}

/// The miles an engine ran from one day through another, where every fire of them has its miles; nothing where her fires were
/// not read. A paper that counts service days tells no miles. Fewer miles make the wear look faster and more make it look slower,
/// so none is guessed.
///
/// # Errors
/// In words, the days whose miles are wanting.
pub fn miles(
    book: &Book,
    engine: LocomotiveId,
    from: Date,
    through: Date,
) -> Option<Result<u32, String>> {
    let kept = book.locomotives.get(&engine)?;
    let fires = book.fires.of(engine)?;
    let mut at = from;
    while at <= through {
        let closed = kept.log_closed.iter();
        let holding = closed.filter(|(first, last)| (*first..=*last).contains(&at));
        let Some(last) = holding.map(|(_, last)| *last).max() else {
            let closed = kept.log_closed.iter().map(|(first, _)| *first);
            let next = closed.filter(|first| *first > at).min();
            let last = next.and_then(|day| day.yesterday().ok());
            let last = last.map_or(through, |day| day.min(through));
            return Some(Err(format!(
                "the miles from {at} through {last}, where no log is closed"
            )));
        };
        match last.tomorrow() {
            Ok(next) => at = next,
            Err(_) => break,
        }
    }
    let mut sum = 0_u32;
    let mut wanting: Vec<Date> = Vec::new();
    for (_, fire) in fires {
        let begins = fire.begins();
        let at = begins.or_else(|| fire.out.into_iter().chain(fire.gone).min());
        let Some(day) = at.map(|at| at.date()) else {
            continue;
        };
        if !(from..=through).contains(&day) {
            continue;
        }
        match fire.miles {
            Some(miles) => sum = sum.saturating_add(miles),
            // A day told to be none of service ran no miles.
            None if days_of_fire(fire, day).most.is_empty() => {}
            None => wanting.push(day),
        }
    }
    if wanting.is_empty() {
        return Some(Ok(sum));
    }
    wanting.sort();
    wanting.dedup();
    let named: Vec<String> = wanting.iter().take(NAMED).map(Date::to_string).collect();
    let more = match wanting.len().saturating_sub(NAMED) {
        0 => String::new(),
        n => format!(" and of {n} more days"),
    };
    Some(Err(format!("the miles of {}{more}", named.join(", "))))
}

/// The service days of an engine from one day through another.
///
/// # Errors
/// In words, which days are neither in the closed log nor counted by a paper that covers them and none besides.
pub fn stretch(
    book: &Book,
    engine: LocomotiveId,
    from: Date,
    through: Date,
) -> Result<Stretch, String> {
    let mut come = Stretch {
        days: 0,
        by: Vec::new(),
    };
    let Some(kept) = book.locomotives.get(&engine) else {
        return Err("the engine".into());
    };
    let mut at = from;
    while at <= through {
        let paper = kept.paper_counts.iter().find(|paper| {
            paper.told.from == at && paper.told.through <= through && !kept.log_holds(at)
        });
        let (end, days, by) = if let Some(paper) = paper {
            let told = &paper.told;
            let by = format!(
                "{} from {} through {} by paper: {}",
                told.service_days, told.from, told.through, told.document
            );
            (told.through, told.service_days, by)
        } else {
            let closed = kept.log_closed.iter();
            let closed = closed.filter(|(first, last)| (*first..=*last).contains(&at));
            let Some((_, last)) = closed.max_by_key(|(_, last)| *last) else {
                // Named up to the next day that is accounted for, so that it can be looked for.
                let logs = kept.log_closed.iter().map(|(first, _)| *first);
                let papers = kept.paper_counts.iter().map(|paper| paper.told.from);
                let next = logs.chain(papers).filter(|day| *day > at).min();
                let last = next.and_then(|day| day.yesterday().ok());
                let last = last.map_or(through, |day| day.min(through));
                return Err(format!(
                    "the service days from {at} through {last}: no closed log and no paper counts them alone"
                ));
            };
            let end = (*last).min(through);
            // A log that closed today is still open for today's fire.
            let days = own_service_days(book, engine, at, end);
            let (least, most) = (small(days.least.len()), small(days.most.len()));
            let by = match most > least {
                true => format!(
                    "{least} to {most} from {at} through {end} by the log; {least} taken, which makes the wear faster"
                ),
                false => format!("{least} from {at} through {end} by the log"),
            };
            (end, least, by)
        };
        come.days = come.days.saturating_add(days);
        come.by.push(by);
        match end.tomorrow() {
            Ok(next) => at = next,
            Err(_) => break,
        }
    }
    Ok(come)
}
