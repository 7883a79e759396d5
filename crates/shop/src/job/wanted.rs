//! Papers of a job that are still wanted, and before what. Only what this book can know is named: which leave the work needs,
//! the local code says.

use jiff::civil::Date;

use super::window::WINDOW_SHEETS;
use super::{opens_pressure, zero_proven};
use crate::book::{Book, Job, JobPaper};
use crate::locomotive::family;

/// A paper that is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PaperWanted {
    /// What.
    pub kind: JobPaper,
    /// Before what.
    pub before: Before,
}

/// Before what a paper is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Before {
    /// Before an operation, by number.
    Operation(usize),
    /// Before more of the work it gave leave for: its last day was this one.
    More(Date),
    /// Before the close.
    Close,
}

/// What is wanted of an open job on a day, in the order of the work.
pub fn papers_wanted(book: &Book, job: &Job, on: Date) -> Vec<PaperWanted> {
    if job.closed.is_some() {
        return Vec::new();
    }
    let mut all = Vec::new();
    let undone = |at: &usize| job.operations.get(*at).is_some_and(|it| it.done.is_none());
    let opens = (0..job.operations.len())
        .filter(undone)
        .find(|at| opens_pressure(book, job, *at));
    if let (Some(at), None) = (opens, zero_proven(job, on)) {
        all.push(PaperWanted {
            kind: JobPaper::ZeroProven,
            before: Before::Operation(at + 1),
        });
    }
    if job.operations.iter().any(|it| it.done.is_none()) {
        for kind in JobPaper::ALL.into_iter().filter(|kind| kind.is_permit()) {
            let given = job.papers.iter().filter(|it| it.kept.kind == kind);
            let last = given.filter_map(|it| it.kept.until).max();
            if let Some(until) = last.filter(|until| *until < on) {
                all.push(PaperWanted {
                    kind,
                    before: Before::More(until),
                });
            }
        }
    }
    let charted = job
        .papers
        .iter()
        .any(|it| it.kept.kind == JobPaper::PressChart);
    if !charted && is_pressed(book, job) {
        all.push(PaperWanted {
            kind: JobPaper::PressChart,
            before: Before::Close,
        });
    }
    all
}

/// Whether the route stands on a sheet of a press fit.
fn is_pressed(book: &Book, job: &Job) -> bool {
    let finding = book.findings.get(&job.plan.finding);
    let part = finding.and_then(|finding| book.parts.get(&finding.part));
    let Some(family) = part.and_then(|part| family(book, &part.family).ok()) else {
        return false;
    };
    let route = family.routes.iter().find(|it| it.word == job.plan.route);
    route.is_some_and(|route| {
        let sheets = family.sheets_of(route);
        sheets.iter().any(|sheet| WINDOW_SHEETS.contains(sheet))
    })
}
