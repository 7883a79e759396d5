//! The start of a day: one act that opens the daily inspection if none is open, answers what was looked at, records
//! what was found, and closes it if asked to. Either all of it is stated or nothing.

use jiff::civil::Date;
use rules::Rulebook;

use crate::book::{
    Answer, Authority, Book, EntryId, FindingId, Inspection, InspectionId, ItemCondition,
    LocomotiveId, Made, Meta, Occasion, PartId, PersonId, Statement,
};
use crate::finding::NewFinding;
use crate::locomotive::with_authority;
use crate::{Class, Refusal, finding, inspection};

/// The kind of the inspection that a day begins with.
const DAILY: &str = "daily";

/// How an item was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum How {
    /// Looked at; no defect.
    Good,
    /// Below its best, but safe and within the law.
    Fair,
    /// The engine has no such fitting.
    NotFitted,
    /// A defect that is a finding already.
    Known(FindingId),
    /// A defect, now recorded as a finding on a part.
    Found {
        /// The id of the finding.
        id: FindingId,
        /// On which part.
        part: PartId,
    },
    /// Nobody said.
    NotSaid,
}

/// One item as it was answered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DayItem {
    /// The item: its number in the list, or the id of its rule.
    pub item: String,
    /// How it was found.
    pub how: How,
    /// What was seen.
    pub seen: String,
}

/// The answers of one person at the start of a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewDay {
    /// The id of the inspection, should one have to be opened.
    pub inspection: InspectionId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// What was looked at.
    pub items: Vec<DayItem>,
    /// Close and sign it.
    pub close: bool,
    /// Where and at what time of day it was made; kept with the closing.
    pub made: Option<Made>,
}

/// How the daily inspection of an engine stands on a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Daily<'b> {
    /// None of that day, and none left open.
    None,
    /// Open, and of that day.
    Open(InspectionId, &'b Inspection),
    /// One of an earlier day was left open.
    Left(InspectionId, &'b Inspection),
    /// Closed on that day.
    Closed(InspectionId, &'b Inspection),
}

/// The daily inspection of an engine on a day.
pub fn daily_of(book: &Book, engine: LocomotiveId, on: Date) -> Daily<'_> {
    let mut of_her: Vec<_> = book
        .inspections
        .iter()
        .filter(|(_, i)| i.locomotive == engine && i.kind == DAILY)
        .collect();
    of_her.sort_by_key(|(_, i)| i.number);
    let open = of_her.iter().rev().find(|(_, i)| i.is_open());
    // One that was put away is none: the day may have another.
    let held = |i: &Inspection| i.opened_on == on && i.not_completed.is_none();
    let today = of_her.iter().rev().find(|(_, i)| held(i));
    match (open, today) {
        (Some((id, i)), _) if i.opened_on == on => Daily::Open(**id, i),
        (Some((id, i)), _) => Daily::Left(**id, i),
        (None, Some((id, i))) => Daily::Closed(**id, i),
        (None, None) => Daily::None,
    }
}

/// States the answers of one person at the start of a day, in one act.
///
/// # Errors
/// Refused: the person may not inspect; the daily inspection of an earlier day is open, or that of this day is
/// closed; an item lacks its condition or what was seen, or was answered by somebody already; it is to be closed and
/// something is open. Each such item is named. Input: nothing is answered; an item, finding or part that is not there.
pub fn start_day(
    book: &Book,
    rules: &Rulebook,
    new: NewDay,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "make a daily inspection", on)?;
    if new.items.is_empty() && !new.close {
        return Err(Refusal::input(
            "No item was answered: the condition of at least one and what was seen were expected.",
        ));
    }
    if new.made.is_some() && !new.close {
        return Err(Refusal::input(
            "Where and when an inspection was made is kept when it is closed: closing it too was expected.",
        ));
    }
    let mut told = Telling {
        book: book.clone(),
        by,
        on,
        said: Vec::new(),
    };
    let id = match daily_of(book, new.locomotive, on) {
        Daily::Open(id, _) => id,
        Daily::None => {
            let id = new.inspection;
            let opened = inspection::open(book, rules, id, new.locomotive, DAILY, by, on)?;
            told.state(opened)?;
            id
        }
        Daily::Left(_, left) => {
            return Err(Refusal::refused(format!(
                "The daily inspection of {} is still open, as I-{:03}.",
                left.opened_on, left.number
            ))
            .todo("answer what is open in it and close it, or put it away as not completed: each day of use has its own"));
        }
        Daily::Closed(_, closed) => {
            return Err(Refusal::refused(format!(
                "The daily inspection of {on} is closed already, as I-{:03}; nothing can be added to it.",
                closed.number
            )));
        }
    };
    let mut wrong = Vec::new();
    let mut class = Class::Input;
    for item in &new.items {
        if let Err(no) = told.item(id, new.locomotive, item) {
            if no.class == Class::Refused {
                class = Class::Refused;
            }
            wrong.push(no.what);
            wrong.extend(no.todo);
        }
    }
    if !wrong.is_empty() {
        return Err(Refusal {
            class,
            what: "Not every item that was sent can be taken.".into(),
            todo: wrong,
        });
    }
    if new.close {
        let closed = inspection::close(&told.book, id, new.made, by, on)?;
        told.state(closed)?;
    }
    Ok(told.said)
}

/// What is stated so far, and the book as it would stand.
struct Telling {
    book: Book,
    by: PersonId,
    on: Date,
    said: Vec<Statement>,
}

impl Telling {
    fn item(
        &mut self,
        id: InspectionId,
        engine: LocomotiveId,
        item: &DayItem,
    ) -> Result<(), Refusal> {
        let kept = self.book.inspections.get(&id);
        let kept = kept.ok_or_else(|| Refusal::input("There is no such inspection."))?;
        let asked = inspection::find_item(kept, &item.item)?.clone();
        let at = kept.items.iter().position(|i| i.rule == asked.rule);
        let text = asked.text.trim_end_matches('.');
        let name = format!("item {}, {text}", at.map_or(0, |at| at + 1));
        if let Some(given) = kept.answers.get(&asked.rule) {
            let who = self.book.persons.get(&given.by);
            return Err(Refusal::refused(format!(
                "{name} was answered by {} already: {}",
                who.map_or("?", |p| p.name.as_str()),
                given.seen
            )));
        }
        let no_words = item.seen.trim().is_empty();
        let answer = match item.how {
            How::NotSaid if no_words => {
                return Err(Refusal::refused(format!("{name}: nothing is said of it")));
            }
            How::NotSaid => {
                return Err(Refusal::refused(format!(
                    "{name}: the condition is missing; what was seen is there: {}",
                    item.seen.trim()
                )));
            }
            _ if no_words => {
                return Err(Refusal::refused(format!(
                    "{name}: what was seen is missing, not only that it is well"
                )));
            }
            How::Good => (Answer::Good, None),
            How::Fair => (Answer::Good, Some(ItemCondition::Fair)),
            How::NotFitted => (Answer::NotFitted, None),
            How::Known(finding) => (Answer::Defect { finding }, None),
            How::Found { id: finding, part } => {
                let found = NewFinding {
                    id: finding,
                    locomotive: engine,
                    part,
                    occasion: Occasion::Inspection { inspection: id },
                    conditions: Vec::new(),
                    told: item.seen.clone(),
                    readings: Vec::new(),
                    notice: None,
                    taking: Default::default(),
                };
                let found = finding::record(&self.book, found, self.by, self.on)?;
                self.state(found)?;
                (Answer::Defect { finding }, None)
            }
        };
        let said = inspection::answer(
            &self.book,
            id,
            &asked.rule,
            answer,
            &item.seen,
            self.by,
            self.on,
        )?;
        self.state(said)
    }

    fn state(&mut self, made: Vec<Statement>) -> Result<(), Refusal> {
        for statement in made {
            // The numbers of the entries are given when the book commits; here only their order counts.
            let meta = Meta {
                seq: u64::MAX - 10_000 + self.said.len() as u64,
                id: EntryId(0),
                batch: None,
                person: self.by,
                done_on: self.on,
            };
            self.book
                .apply(meta, &statement)
                .map_err(|e| Refusal::refused(format!("The book cannot take this: {e}.")))?;
            self.said.push(statement);
        }
        Ok(())
    }
}
