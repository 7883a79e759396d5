//! How long a way took before: hours booked on closed jobs of the same family and route.

use jiff::civil::Date;

use crate::book::{Book, Finding, HoursFrom, Job, QuarterHours};

/// Where the hours of an offer come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoursOf {
    /// The family's, and where it has them from if it says.
    Family(Option<HoursFrom>),
    /// This shop's own: smallest, median and greatest of so many closed jobs.
    Own(usize),
}

/// Smallest, median and greatest hours of the closed jobs of a family and route, with their count. A job counts only where the
/// hours of every step were booked: one left out would make the whole look shorter. The finding's own job does not count,
/// nor does one closed after the day. Of an even number the median lies between the middle two, rounded up.
pub(super) fn own(
    book: &Book,
    family: &str,
    route: &str,
    finding: Option<&Finding>,
    on: Date,
) -> Option<([QuarterHours; 3], usize)> {
    let is_like = |job: &Job| {
        let before = job.closed.as_ref().is_some_and(|(day, ..)| *day <= on);
        let of = book.findings.get(&job.plan.finding);
        let part = of.and_then(|of| book.parts.get(&of.part));
        before && job.plan.route == route && part.is_some_and(|part| part.family == family)
    };
    let all = book
        .jobs
        .iter()
        .filter(|(id, job)| finding.and_then(|finding| finding.job) != Some(**id) && is_like(job));
    spread(all.map(|(_, job)| job))
}

/// Smallest, median and greatest hours of the closed jobs whose finding is one of those meant, with their count.
pub(super) fn of_findings(
    book: &Book,
    on: Date,
    is_meant: impl Fn(&Finding) -> bool,
) -> Option<([QuarterHours; 3], usize)> {
    spread(book.jobs.values().filter(|job| {
        let before = job.closed.as_ref().is_some_and(|(day, ..)| *day <= on);
        let of = book.findings.get(&job.plan.finding);
        before && of.is_some_and(&is_meant)
    }))
}

/// Smallest, median and greatest hours of jobs; one with a step that has none is left out.
fn spread<'b>(jobs: impl Iterator<Item = &'b Job>) -> Option<([QuarterHours; 3], usize)> {
    let mut all: Vec<u32> = jobs.filter_map(booked).collect();
    all.sort_unstable();
    let (least, most) = (*all.first()?, *all.last()?);
    let (low, high) = (all.get((all.len() - 1) / 2)?, all.get(all.len() / 2)?);
    let median = (low + high).div_ceil(2);
    Some(([least, median, most].map(QuarterHours), all.len()))
}

/// The hours booked on a job; none where a step has none.
fn booked(job: &Job) -> Option<u32> {
    let steps = job.operations.iter();
    let hours = steps.map(|step| step.done.as_ref().and_then(|(_, _, hours, _)| *hours));
    let total: Option<u32> = hours.map(|hours| hours.map(|hours| hours.0)).sum();
    total.filter(|total| *total > 0)
}

/// Hours as a sheet takes them: 21.25.
pub(super) fn plain(hours: QuarterHours) -> String {
    (f64::from(hours.0) / 4.0).to_string()
}
