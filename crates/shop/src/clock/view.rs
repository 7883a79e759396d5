//! One engine on one day, and every day from which a clock of hers may run.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use jiff::civil::Date;

use super::line::{Anchor, Arm, Counted, State};
use super::service_day::service_days;
use crate::book::{Answer, Book, Days, Inspection, InspectionId, Locomotive, LocomotiveId};

/// One engine on one day.
pub(super) struct View<'b> {
    pub(super) book: &'b Book,
    pub(super) kept: &'b Locomotive,
    pub(super) engine: LocomotiveId,
    pub(super) on: Date,
    /// Service days since a day, worked once: several clocks run from the same inspection.
    counted: RefCell<BTreeMap<Date, Rc<Days>>>,
}

/// A day a clock may run from, with what a paper counted since.
#[derive(Debug, Clone)]
pub(super) struct Start {
    pub(super) anchor: Anchor,
    /// Service days a paper counted since.
    pub(super) counted: u32,
    /// Whether a paper told that count.
    pub(super) by_paper: bool,
    /// Annuals a paper counted since.
    pub(super) annuals: Option<u32>,
    /// The inspection it is, or in the course of which it was done.
    pub(super) within: Option<InspectionId>,
    /// First day that certainly belongs to the count.
    pub(super) from_least: Date,
    /// First day that may belong to it.
    pub(super) from_most: Date,
}

/// The days of an inspection of which one starts the clocks after it: the first and the last that may.
///
/// It is the day somebody stated; else any from the day its first item was answered to the day it closed.
pub fn span_of(inspection: &Inspection) -> Option<(Date, Date)> {
    let (closed, _) = inspection.closed?;
    if let Some(stated) = &inspection.anchor {
        return Some((stated.day, stated.day));
    }
    let first = inspection.answers.values().map(|given| given.on).min();
    Some((first.unwrap_or(closed).min(closed), closed))
}

impl<'b> View<'b> {
    pub(super) fn of(
        book: &'b Book,
        kept: &'b Locomotive,
        engine: LocomotiveId,
        on: Date,
    ) -> View<'b> {
        View {
            book,
            kept,
            engine,
            on,
            counted: RefCell::default(),
        }
    }

    /// The service days from a day through the day asked about.
    pub(super) fn days(&self, from: Date) -> Rc<Days> {
        let mut counted = self.counted.borrow_mut();
        let days = counted
            .entry(from)
            .or_insert_with(|| Rc::new(service_days(self.book, self.engine, from, self.on)));
        Rc::clone(days)
    }

    /// Her inspections in this book that were closed by the day asked about.
    pub(super) fn closed(&self) -> impl Iterator<Item = (InspectionId, &'b Inspection)> {
        let of_her = self.book.inspections.iter();
        of_her
            .filter(|(_, i)| {
                i.locomotive == self.engine && i.closed.is_some_and(|(day, _)| day <= self.on)
            })
            .map(|(id, i)| (*id, i))
    }

    /// Every day by the day asked about from which a clock restarted by these may run.
    pub(super) fn starts(&self, kinds: &[String], items: &[String]) -> Vec<Start> {
        let mut starts = Vec::new();
        for (id, held) in self.closed().filter(|(_, i)| kinds.contains(&i.kind)) {
            if let Some((earliest, on)) = span_of(held) {
                starts.push(Start::without_count(
                    Anchor {
                        kind: held.kind.clone(),
                        on,
                        earliest,
                        document: None,
                        inspection: Some(held.number),
                        reading: held.anchor.as_ref().map(|a| a.reading.clone()),
                    },
                    Some(id),
                ));
            }
        }
        if !items.is_empty() {
            self.answered_items(items, &mut starts);
        }
        let papers = self.kept.held_before.iter();
        for held in papers.filter(|h| kinds.contains(&h.kind) && h.held_on <= self.on) {
            let anchor = by_document(&held.kind, held.held_on, &held.document);
            starts.push(Start::by_paper(
                anchor,
                None,
                held.service_days_since,
                held.annuals_since,
            ));
        }
        for told in self.kept.days.iter().filter(|d| d.day <= self.on) {
            if kinds.contains(&told.what) || items.contains(&told.what) {
                let anchor = by_document(&told.what, told.day, &told.document);
                starts.push(Start::by_paper(
                    anchor,
                    told.inspection,
                    told.service_days_since,
                    told.annuals_since,
                ));
            }
        }
        starts
    }

    /// Items answered *good*: each keeps its own day, whenever its inspection closes.
    fn answered_items(&self, items: &[String], starts: &mut Vec<Start>) {
        // What was put away unfinished starts nothing; work that was done all the same is stated as a day of its own.
        let of_her = self.book.inspections.iter();
        let of_her =
            of_her.filter(|(_, i)| i.locomotive == self.engine && i.not_completed.is_none());
        for (id, held) in of_her {
            for rule in items {
                let good = held
                    .answers
                    .get(rule)
                    .filter(|given| given.answer == Answer::Good && given.on <= self.on);
                if let Some(given) = good {
                    let anchor = Anchor {
                        kind: format!("item of I-{:03}", held.number),
                        on: given.on,
                        earliest: given.on,
                        document: None,
                        inspection: Some(held.number),
                        reading: None,
                    };
                    starts.push(Start::without_count(anchor, Some(*id)));
                }
            }
        }
    }

    /// An arm with nothing to run from.
    pub(super) fn no_anchor(&self, needs: Vec<String>, limit: u32, unit: &'static str) -> Arm {
        Arm {
            anchor: None,
            counted: Counted {
                least: 0,
                most: None,
            },
            limit,
            unit,
            left: None,
            stops_on: Some(self.on),
            why: format!("cannot tell: needs {}", needs.join("; ")),
            would_change: needs.iter().map(|n| format!("stating {n}")).collect(),
            state: State::CannotTell(needs),
            days: Vec::new(),
        }
    }
}

fn by_document(kind: &str, on: Date, document: &str) -> Anchor {
    Anchor {
        kind: kind.into(),
        on,
        earliest: on,
        document: Some(document.into()),
        inspection: None,
        reading: None,
    }
}

impl Start {
    fn without_count(anchor: Anchor, within: Option<InspectionId>) -> Start {
        Start {
            counted: 0,
            by_paper: false,
            annuals: None,
            within,
            from_least: anchor.on.tomorrow().unwrap_or(anchor.on),
            from_most: anchor.earliest,
            anchor,
        }
    }

    fn by_paper(
        anchor: Anchor,
        within: Option<InspectionId>,
        since: Option<(u32, Date)>,
        annuals: Option<u32>,
    ) -> Start {
        let mut start = Start::without_count(anchor, within);
        start.annuals = annuals;
        if let Some((counted, through)) = since {
            let next = through.tomorrow().unwrap_or(through);
            start.counted = counted;
            start.by_paper = true;
            start.from_least = next;
            start.from_most = next;
        }
        start
    }
}

/// The newest of several starts: what a clock is said to run from.
pub(super) fn newest(starts: &[Start]) -> Option<&Start> {
    starts
        .iter()
        .max_by_key(|start| (start.anchor.on, start.anchor.earliest))
}

/// What is missing where no day is known to run from.
pub(super) fn when_last(inspection: &str, kinds: &[String]) -> String {
    if let Some(work) = rules::words::meaning(rules::words::OWN_WORK, inspection) {
        return format!("the day it was last done: {work}");
    }
    let larger = if kinds.len() > 1 {
        ", or a larger one,"
    } else {
        ""
    };
    format!("when the last {inspection} inspection{larger} was held")
}

/// How an anchor is spoken of: `since the annual of 2026-04-11`.
pub(super) fn since(anchor: &Anchor) -> String {
    // An inspection keeps its word, a shop's own too; work and happenings are spoken of in plain words.
    let plain = |word: &str| {
        word.contains([' ', '.'])
            || rules::words::is_work(word)
            || rules::words::HAPPENINGS.contains(&word)
    };
    let kind = if !plain(&anchor.kind) {
        anchor.kind.clone()
    } else {
        anchor.kind.replace('-', " ")
    };
    format!("since the {kind} of {}", anchor.on)
}

/// What to state where an inspection took several days.
pub(super) fn which_day(anchor: &Anchor) -> String {
    let number = anchor.inspection.unwrap_or_default();
    format!(
        "which day of I-{number:03}, from {} to {}, starts the clocks after it",
        anchor.earliest, anchor.on
    )
}
