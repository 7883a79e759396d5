//! Instruments: registered by the number on them, checked, and what follows where one is found wrong.

use jiff::civil::Date;

use crate::Refusal;
use crate::book::{
    Book, FeatureReading, Instrument, InstrumentAdded, InstrumentChecked, InstrumentId, PartId,
    ReadingSet, Statement,
};

/// Registers an instrument.
///
/// # Errors
/// Input: no number or nothing it is; a number of several words, or one the book has.
pub fn add_instrument(book: &Book, new: InstrumentAdded) -> Result<Vec<Statement>, Refusal> {
    let number = new.number.trim();
    if number.is_empty() || new.what.trim().is_empty() {
        return Err(Refusal::input(
            "An instrument needs the number on it and what it is.",
        ));
    }
    if number.contains(char::is_whitespace) || !number.contains(|c: char| c.is_ascii_digit()) {
        return Err(Refusal::input(format!(
            "`{number}` is not a number to find it by: one word with a figure in it was expected, such as M-12."
        )));
    }
    let same = |kept: &&Instrument| kept.number.eq_ignore_ascii_case(number);
    if let Some(kept) = book.instruments.values().find(same) {
        return Err(Refusal::input(format!(
            "{} is in this book already: {}.",
            kept.number, kept.what
        )));
    }
    Ok(vec![Statement::InstrumentAdded(InstrumentAdded {
        number: number.into(),
        what: new.what.trim().into(),
        ..new
    })])
}

/// States that an instrument was held against something better.
///
/// # Errors
/// Input: there is no such instrument, or nothing it was held against; found wrong without a word on the error.
pub fn check_instrument(book: &Book, check: InstrumentChecked) -> Result<Vec<Statement>, Refusal> {
    if !book.instruments.contains_key(&check.instrument) {
        return Err(Refusal::input("There is no such instrument in this book."));
    }
    if check.against.trim().is_empty() {
        return Err(Refusal::input(
            "Say what it was held against: a master, blocks, a dead weight.",
        ));
    }
    if !check.good && check.error.is_none() && check.told.is_none() {
        return Err(Refusal::input(
            "Say what is wrong with it: the error found, or what was seen.",
        ));
    }
    Ok(vec![Statement::InstrumentChecked(check)])
}

/// An instrument by the number on it.
///
/// # Errors
/// Input, naming the instruments the book has.
pub fn instrument<'b>(
    book: &'b Book,
    number: &str,
) -> Result<(InstrumentId, &'b Instrument), Refusal> {
    let wanted = number.trim();
    let found = book
        .instruments
        .iter()
        .find(|(_, kept)| kept.number.eq_ignore_ascii_case(wanted));
    found.map(|(id, kept)| (*id, kept)).ok_or_else(|| {
        let mut known: Vec<_> = book
            .instruments
            .values()
            .map(|it| it.number.as_str())
            .collect();
        known.sort_unstable();
        let known = if known.is_empty() {
            "none yet".to_string()
        } else {
            known.join(", ")
        };
        Refusal::input(format!(
            "There is no instrument `{number}` in this book; it has {known}."
        ))
    })
}

/// Since when readings of an instrument are in doubt, and the day it was found wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Doubt {
    /// The last day it was found good before; none where it never was.
    pub good: Option<Date>,
    /// The day it was found wrong.
    pub found: Date,
}

impl Doubt {
    /// Whether a reading of a day is in doubt. On the day it was last good, and on the day it was found wrong, nobody
    /// knows which came first: those are in doubt too.
    pub fn covers(&self, day: Date) -> bool {
        self.good.is_none_or(|good| day >= good) && day <= self.found
    }
}

/// Every spell in which readings of an instrument are in doubt, in order of the days. An instrument found good later
/// takes no doubt away.
pub fn doubts(kept: &Instrument) -> Vec<Doubt> {
    let mut checks: Vec<_> = kept.checks.iter().collect();
    checks.sort_by_key(|check| (check.on, check.entry));
    let mut good = None;
    let mut doubts = Vec::new();
    for check in checks {
        if check.good {
            good = Some(check.on);
        } else {
            doubts.push(Doubt {
                good,
                found: check.on,
            });
        }
    }
    doubts
}

/// The newest check of an instrument, by its day.
pub fn last_check(kept: &Instrument) -> Option<&crate::book::CheckMade> {
    kept.checks
        .iter()
        .max_by_key(|check| (check.on, check.entry))
}

/// Whether a reading names an instrument: its number stands in what it was measured with, as a word of its own.
pub fn names(reading: &FeatureReading, kept: &Instrument) -> bool {
    let words = reading.reading.instrument.as_deref().unwrap_or_default();
    words
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')'))
        .any(|word| word.eq_ignore_ascii_case(&kept.number))
}

/// A reading in doubt: its part, its set, and the reading.
pub type Doubted<'b> = (PartId, &'b ReadingSet, &'b FeatureReading);

/// Every reading here that names an instrument and falls into one of its doubts, oldest first. The book must hold the
/// readings of every part, or those that name the instrument.
pub fn doubted<'b>(book: &'b Book, kept: &Instrument) -> Vec<Doubted<'b>> {
    let doubts = doubts(kept);
    let mut all: Vec<_> = book
        .readings
        .all()
        .filter(|(_, set)| doubts.iter().any(|doubt| doubt.covers(set.on)))
        .flat_map(|(part, set)| set.readings.iter().map(move |read| (part, set, read)))
        .filter(|(_, _, read)| names(read, kept))
        .collect();
    all.sort_by_key(|(part, set, _)| (set.on, set.entry, *part));
    all
}
