//! Finding a thing by what people call it: a number, a name, J-031.

use crate::Refusal;
use crate::book::{
    Book, Card, CardId, Finding, FindingId, Inspection, InspectionId, Job, JobId, Lathe, LatheId,
    Letter, LetterId, Locomotive, LocomotiveId, Part, PartId, Person, PersonId, Photo, PhotoId,
    Spare, SpareId, Tooling, ToolingId,
};

/// An engine's number as it stands in the book, however people write it: `14`, `No. 14`.
pub fn plain_number(number: &str) -> &str {
    let number = number.trim();
    number
        .trim_start_matches("No.")
        .trim_start_matches("no.")
        .trim()
}

/// An engine by her number (`14`, `No. 14`).
///
/// # Errors
/// Input, naming the engines the book has.
pub fn engine<'b>(book: &'b Book, number: &str) -> Result<(LocomotiveId, &'b Locomotive), Refusal> {
    let wanted = plain_number(number);
    book.locomotives
        .iter()
        .find(|(_, e)| e.number == wanted)
        .map(|(id, e)| (*id, e))
        .ok_or_else(|| {
            let known: Vec<_> = engines(book)
                .into_iter()
                .map(|(_, e)| format!("No. {}", e.number))
                .collect();
            let known = if known.is_empty() {
                "no engine yet".to_string()
            } else {
                known.join(", ")
            };
            Refusal::input(format!(
                "There is no engine `{number}` in this book; it has {known}."
            ))
        })
}

/// An engine by her id.
///
/// # Errors
/// Input: the book has none of that id.
pub fn engine_of(book: &Book, id: LocomotiveId) -> Result<&Locomotive, Refusal> {
    book.locomotives
        .get(&id)
        .ok_or_else(|| Refusal::input("There is no such engine in this book."))
}

/// A part by its id.
///
/// # Errors
/// Input: the book has none of that id.
pub fn part_of(book: &Book, id: PartId) -> Result<&Part, Refusal> {
    book.parts
        .get(&id)
        .ok_or_else(|| Refusal::input("There is no such part in this book."))
}

/// A finding by its id.
///
/// # Errors
/// Input: the book has none of that id.
pub fn finding_of(book: &Book, id: FindingId) -> Result<&Finding, Refusal> {
    book.findings
        .get(&id)
        .ok_or_else(|| Refusal::input("There is no such finding in this book."))
}

/// Every engine, by number as people count.
pub fn engines(book: &Book) -> Vec<(LocomotiveId, &Locomotive)> {
    let mut all: Vec<_> = book.locomotives.iter().map(|(id, e)| (*id, e)).collect();
    all.sort_by(|a, b| (a.1.number.len(), &a.1.number).cmp(&(b.1.number.len(), &b.1.number)));
    all
}

/// A person by name.
///
/// # Errors
/// Input, naming the people the book has.
pub fn person<'b>(book: &'b Book, name: &str) -> Result<(PersonId, &'b Person), Refusal> {
    let wanted = name.trim();
    book.persons
        .iter()
        .find(|(_, p)| p.name.eq_ignore_ascii_case(wanted))
        .map(|(id, p)| (*id, p))
        .ok_or_else(|| {
            let mut known: Vec<_> = book.persons.values().map(|p| p.name.as_str()).collect();
            known.sort_unstable();
            Refusal::input(format!(
                "Nobody in this book is called `{name}`; it knows {}.",
                known.join(", ")
            ))
        })
}

/// A part of an engine by name.
///
/// # Errors
/// Input, naming the engine's parts.
pub fn part<'b>(
    book: &'b Book,
    engine: LocomotiveId,
    name: &str,
) -> Result<(PartId, &'b Part), Refusal> {
    let wanted = name.trim();
    let mut of_her = book.parts.iter().filter(|(_, p)| p.locomotive == engine);
    of_her
        .find(|(_, p)| p.name.eq_ignore_ascii_case(wanted))
        .map(|(id, p)| (*id, p))
        .ok_or_else(|| {
            let mut known: Vec<_> = book
                .parts
                .values()
                .filter(|p| p.locomotive == engine)
                .map(|p| p.name.as_str())
                .collect();
            known.sort_unstable();
            let number = book
                .locomotives
                .get(&engine)
                .map_or("?", |e| e.number.as_str());
            let known = if known.is_empty() {
                "none".into()
            } else {
                known.join(", ")
            };
            Refusal::input(format!(
                "No. {number} has no part called `{name}` in this book; it has {known}."
            ))
        })
}

fn numbered(text: &str, letters: &str) -> Option<u32> {
    let (before, rest) = text.trim().split_at_checked(letters.len())?;
    before.eq_ignore_ascii_case(letters).then_some(())?;
    rest.trim_start_matches('-').parse().ok()
}

macro_rules! by_number {
    ($(#[$doc:meta])* $name:ident, $list:ident, $letter:literal, $what:literal, $id:ty, $thing:ty) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// Input if the book has none of that number.
        pub fn $name<'b>(book: &'b Book, number: &str) -> Result<($id, &'b $thing), Refusal> {
            let wanted = numbered(number, $letter).ok_or_else(|| {
                Refusal::input(format!("`{number}` is not the number of {}: {}-001 was expected.", $what, $letter))
            })?;
            book.$list.iter().find(|(_, it)| it.number == wanted).map(|(id, it)| (*id, it)).ok_or_else(|| {
                Refusal::input(format!("There is no {} {}-{wanted:03} in this book; it has {}.", $what, $letter, book.$list.len()))
            })
        }
    };
}

by_number!(
    /// An inspection by number, I-001.
    inspection, inspections, "I", "inspection", InspectionId, Inspection
);
by_number!(
    /// A finding by number, F-001.
    finding, findings, "F", "finding", FindingId, Finding
);
by_number!(
    /// A job by number, J-001.
    job, jobs, "J", "job", JobId, Job
);
by_number!(
    /// Tooling by number, T-001.
    tooling, tooling, "T", "tooling", ToolingId, Tooling
);
by_number!(
    /// A spare by number, S-001.
    spare, spares, "S", "spare", SpareId, Spare
);
by_number!(
    /// A lathe by number, LA-001.
    lathe, lathes, "LA", "lathe", LatheId, Lathe
);
by_number!(
    /// A lathe card by number, C-001.
    card, cards, "C", "card", CardId, Card
);
by_number!(
    /// A letter by number, L-001.
    letter, letters, "L", "letter", LetterId, Letter
);
by_number!(
    /// A photograph by number, P-001.
    photo, photos, "P", "photograph", PhotoId, Photo
);
