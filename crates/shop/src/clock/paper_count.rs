//! What papers count over spans of a log, held against the days the log itself holds.
//!
//! A paper's count proves no day. Where it and the log cannot both be true, that is told until one of them is
//! put right; and where the paper counts more, the clocks count more too, because missing never helps.

use jiff::civil::Date;

use super::service_day::own_service_days;
use crate::Refusal;
use crate::book::{Book, DaySet, LocomotiveId, PaperCount, PaperCounted, Statement};
use crate::locomotive::engine_of;

/// How a paper and the log agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agreement {
    /// The log proves exactly as many.
    Agrees,
    /// The log allows as many, and fewer or more too: days in it are in doubt.
    CannotTell,
    /// The paper counts more than the log allows.
    PaperHasMore,
    /// The paper counts fewer than the log proves.
    PaperHasFewer,
}

/// A paper's count beside the log's own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaperCheck {
    /// What the paper says.
    pub count: PaperCount,
    /// The fewest service days of the span by the log.
    pub least: u32,
    /// The most.
    pub most: u32,
    /// How the two agree.
    pub agreement: Agreement,
}

impl PaperCheck {
    /// Whether somebody must look: the two cannot both be true.
    pub fn differs(&self) -> bool {
        matches!(
            self.agreement,
            Agreement::PaperHasMore | Agreement::PaperHasFewer
        )
    }

    /// The difference, or what is in doubt, in a sentence; nothing where they agree.
    pub fn told(&self) -> Option<String> {
        let PaperCounted {
            from,
            through,
            service_days: says,
            document,
            ..
        } = &self.count.told;
        let entry = self.count.entry;
        let ours = if self.least == self.most {
            format!("{}", self.least)
        } else {
            format!("{} to {}", self.least, self.most)
        };
        let span = format!("from {from} through {through} ({document}, entry {entry})");
        match self.agreement {
            Agreement::Agrees => None,
            // A log that says nothing of the span, as one begun later, does not disagree with it.
            Agreement::CannotTell if self.least == 0 && self.most == length(*from, *through) => {
                None
            }
            Agreement::CannotTell => Some(format!(
                "cannot tell whether the log agrees with a paper that counts {says} service days {span}: the log holds {ours}"
            )),
            Agreement::PaperHasMore => Some(format!(
                "a paper counts {says} service days {span} and the log holds {ours}: {} more may have been, and the clocks count \
                 them until the log or the entry of the paper is put right",
                says.saturating_sub(self.most)
            )),
            Agreement::PaperHasFewer => Some(format!(
                "a paper counts {says} service days {span} and the log holds {ours}: the clocks go by the log until the log or \
                 the entry of the paper is put right"
            )),
        }
    }
}

/// States what a paper counts.
///
/// # Errors
/// Input: no such engine, a span that runs backward or is not past, more days than the span has, or no paper.
pub fn count_paper(book: &Book, told: PaperCounted, on: Date) -> Result<Vec<Statement>, Refusal> {
    engine_of(book, told.locomotive)?;
    if told.from > told.through || told.through > on {
        return Err(Refusal::input(format!(
            "A paper counts from a day through a later one, {on} at most: {} through {} is no such span.",
            told.from, told.through
        )));
    }
    let there_are = length(told.from, told.through);
    if told.service_days > there_are {
        return Err(Refusal::input(format!(
            "There are only {there_are} days from {} through {}; {} cannot have been service days.",
            told.from, told.through, told.service_days
        )));
    }
    if told.document.trim().is_empty() {
        return Err(Refusal::input("Say which paper counts them."));
    }
    Ok(vec![Statement::PaperCounted(told)])
}

/// The days of a span, both ends counted; none if it runs backward.
fn length(from: Date, through: Date) -> u32 {
    let days = from.until(through).map_or(-1, |span| span.get_days()) + 1;
    u32::try_from(days).unwrap_or(0)
}

/// Every paper's count of an engine beside the log's own, as known on a day, in the order of their spans.
pub fn paper_checks(book: &Book, engine: LocomotiveId, on: Date) -> Vec<PaperCheck> {
    let Some(kept) = book.locomotives.get(&engine) else {
        return Vec::new();
    };
    let mut checks: Vec<_> = kept
        .paper_counts
        .iter()
        .filter(|count| count.told.through <= on)
        .map(|count| check(book, engine, count))
        .collect();
    checks.sort_by_key(|check| {
        let told = &check.count.told;
        (told.from, told.through, check.count.entry)
    });
    checks
}

/// The days of a span that the log proves, and those it does not rule out.
fn of_span(book: &Book, engine: LocomotiveId, count: &PaperCount) -> (DaySet, DaySet) {
    let (from, through) = (count.told.from, count.told.through);
    // Asked from the day after, because the paper speaks of its last day whole.
    let after = through.tomorrow().unwrap_or(through);
    let days = own_service_days(book, engine, from, after);
    (
        days.least.within(from, through),
        days.most.within(from, through),
    )
}

fn check(book: &Book, engine: LocomotiveId, count: &PaperCount) -> PaperCheck {
    let (least, most) = of_span(book, engine, count);
    let number = |days: &DaySet| u32::try_from(days.len()).unwrap_or(u32::MAX);
    let (least, most) = (number(&least), number(&most));
    let says = count.told.service_days;
    PaperCheck {
        count: count.clone(),
        least,
        most,
        agreement: match says {
            _ if says > most => Agreement::PaperHasMore,
            _ if says < least => Agreement::PaperHasFewer,
            _ if least == most => Agreement::Agrees,
            _ => Agreement::CannotTell,
        },
    }
}

/// Days that papers count beyond the log: of each span as many of its latest days as are missing, days that an
/// earlier span already brought in among them.
pub(super) fn beyond(book: &Book, engine: LocomotiveId, counts: &[PaperCount]) -> DaySet {
    let mut in_order: Vec<_> = counts.iter().collect();
    in_order.sort_by_key(|count| (count.told.through, count.told.from));
    let mut brought_in = DaySet::default();
    for count in in_order {
        let (from, through) = (count.told.from, count.told.through);
        let (_, mut most) = of_span(book, engine, count);
        most.add(&brought_in.within(from, through));
        let missing = usize::try_from(count.told.service_days)
            .unwrap_or(usize::MAX)
            .saturating_sub(most.len());
        if missing > 0 {
            let free: Vec<Date> = DaySet::span(from, through).without(&most).iter().collect();
            for day in free.iter().rev().take(missing) {
                brought_in.insert(*day);
            }
        }
    }
    brought_in
}
