//! Letters: to and from an authority, a supplier, a hired inspector; what was promised by when, and what came of it.

use jiff::civil::Date;

use super::{filled, finding_of};
use crate::Refusal;
use crate::book::{Book, Letter, LetterAnswered, LetterLogged, LocomotiveId, Promised, Statement};

/// Puts a letter in the log.
///
/// # Errors
/// Input: nothing says with whom or what it says; an engine, finding or job the book does not have, or that are not
/// of one engine; a last day before the letter.
pub fn log_letter(book: &Book, new: LetterLogged, on: Date) -> Result<Vec<Statement>, Refusal> {
    if new.with.trim().is_empty() || new.what.trim().is_empty() {
        return Err(Refusal::input(
            "A letter is with somebody and says something: both were expected.",
        ));
    }
    let none = |what: &str| Refusal::input(format!("There is no such {what} in this book."));
    let mut about: Vec<LocomotiveId> = new.locomotive.into_iter().collect();
    if let Some(finding) = new.finding {
        about.push(finding_of(book, finding)?.locomotive);
    }
    if let Some(job) = new.job {
        about.push(book.jobs.get(&job).ok_or_else(|| none("job"))?.locomotive);
    }
    if about.iter().any(|id| !book.locomotives.contains_key(id)) {
        return Err(none("engine"));
    }
    if about.windows(2).any(|two| two.first() != two.last()) {
        return Err(Refusal::input(
            "What it is about is not of one engine: one of them was expected, or a letter each.",
        ));
    }
    let promised = new.promised.map(|it| Promised {
        what: it.what.trim().into(),
        ..it
    });
    if let Some(promised) = &promised {
        if promised.what.is_empty() {
            return Err(Refusal::input("Say what is promised by that day."));
        }
        if let Some(until) = promised.until.filter(|until| *until < on) {
            return Err(Refusal::input(format!(
                "{until} lies before the letter itself, {on}."
            )));
        }
    }
    Ok(vec![Statement::LetterLogged(LetterLogged {
        with: new.with.trim().into(),
        what: new.what.trim().into(),
        promised,
        ..new
    })])
}

/// States what came of what a letter promised.
///
/// # Errors
/// Input: there is no such letter, it answers itself, or nothing is told. Refused: it promises nothing, or was
/// answered.
pub fn answer_letter(book: &Book, it: LetterAnswered) -> Result<Vec<Statement>, Refusal> {
    let kept = book.letters.get(&it.letter);
    let kept = kept.ok_or_else(|| Refusal::input("There is no such letter in this book."))?;
    let told = filled(Some(it.told));
    let told = told.ok_or_else(|| Refusal::input("Say what came of it."))?;
    if it.by == Some(it.letter) {
        return Err(Refusal::input("A letter does not answer itself."));
    }
    let number = kept.number;
    if kept.logged.promised.is_none() {
        return Err(Refusal::refused(format!("L-{number:03} promises nothing.")));
    }
    if let Some(answered) = &kept.answered {
        return Err(Refusal::refused(format!(
            "L-{number:03} was answered on {}: {}.",
            answered.on, answered.told
        )));
    }
    Ok(vec![Statement::LetterAnswered(LetterAnswered {
        told,
        ..it
    })])
}

/// How a letter's promise stands on a day. In the order in which it is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Its last day is past.
    Overdue,
    /// It is to come by a day.
    Open,
    /// It is to come, and no day is said.
    NoDay,
    /// It was answered.
    Answered,
    /// It promises nothing.
    Nothing,
}

/// How a letter's promise stands on a day.
pub fn letter_stands(kept: &Letter, on: Date) -> Standing {
    let Some(promised) = &kept.logged.promised else {
        return Standing::Nothing;
    };
    match (&kept.answered, promised.until) {
        (Some(answered), _) if answered.on <= on => Standing::Answered,
        (_, Some(until)) if until < on => Standing::Overdue,
        (_, Some(_)) => Standing::Open,
        (_, None) => Standing::NoDay,
    }
}

/// Every letter whose promise is open on a day, of every engine and of none, or of one: what is overdue first, then
/// by its last day.
pub fn open_letters(book: &Book, on: Date, only: Option<LocomotiveId>) -> Vec<(&Letter, Standing)> {
    let hers = |it: &&Letter| only.is_none_or(|only| it.engine == Some(only));
    let all = book.letters.values().filter(hers).filter(|it| it.on <= on);
    let mut open: Vec<_> = all
        .map(|it| (it, letter_stands(it, on)))
        .filter(|(_, stands)| *stands <= Standing::NoDay)
        .collect();
    open.sort_by_key(|(it, stands)| {
        let until = it.logged.promised.as_ref().and_then(|it| it.until);
        (*stands, until, it.number)
    });
    open
}
