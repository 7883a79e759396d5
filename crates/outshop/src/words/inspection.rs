//! An inspection being answered.

use jiff::civil::Date;
use shop::book::{Answer, AnswerGiven, Book, Inspection, ItemCondition};

/// A section.
pub const ITEMS: &str = "Items";
/// A section.
pub const CLOSE: &str = "Close and sign";
/// Nothing is missing.
pub const ALL_ANSWERED: &str = "Every item is answered.";
/// A form.
pub const CLOSE_IT: &str = "Close it";
/// Of an item.
pub const NOT_ANSWERED: &str = "not answered";
/// A link and a button.
pub const ANSWER_IT: &str = "Answer it";
/// An answer.
pub const GOOD: &str = "good";
/// An answer.
pub const FAIR: &str = "fair";
/// An answer.
pub const NOT_FITTED: &str = "not fitted";
/// An answer.
pub const DEFECT: &str = "defect";
/// An answer in a word.
pub fn answer(given: &AnswerGiven) -> &'static str {
    match (&given.answer, given.condition) {
        (Answer::Good, Some(ItemCondition::Fair)) => FAIR,
        (Answer::Good, None) => GOOD,
        (Answer::NotFitted, _) => NOT_FITTED,
        (Answer::Defect { .. }, _) => DEFECT,
    }
}

/// Over the choice.
pub const IT_IS: &str = "It is";
/// A choice.
pub const GOOD_MEANS: &str = "good: looked at, no defect";
/// A choice.
pub const FAIR_MEANS: &str = "fair: below its best, but safe and within the law";
/// A choice.
pub const NOT_FITTED_MEANS: &str = "not fitted on this engine";
/// A field.
pub const OR_DEFECT: &str = "or a defect, recorded as";
/// No choice.
pub const NO_DEFECT: &str = "no defect";
/// A field.
pub const SEEN: &str = "What was seen";
/// A form that is folded away.
pub const PUT_AWAY: &str = "It was not completed, and will not be";
/// Its field.
pub const BECAUSE: &str = "Why it was not completed";
/// Its button.
pub const SIGN_NOT_COMPLETED: &str = "Sign as not completed";
/// What it does.
pub const PUT_AWAY_MEANS: &str = "It stays in the record as not completed, starts no clock and is never taken for one that was held. Its findings stand.";
/// A field.
pub const MADE_AT: &str = "Time of day it was made";
/// A field.
pub const MADE_WHERE: &str = "Place";

/// The head of the page.
pub fn head(tag: &str, kind: &str, engine: &str) -> String {
    format!("{tag}: the {kind} of No. {engine}")
}

/// By whom it was opened.
pub fn opened(on: Date, by: &str) -> String {
    format!("Opened {} by {by}. ", super::day(on))
}

/// By whom it was closed.
pub fn closed(on: Date, by: &str) -> String {
    format!("Closed {} and signed by {by}.", super::day(on))
}

/// That it was put away; empty where it was not.
pub fn not_completed(book: &Book, kept: &Inspection) -> String {
    let Some(it) = &kept.not_completed else {
        return String::new();
    };
    let who = book.persons.get(&it.by).map_or("?", |p| p.name.as_str());
    format!(
        "{}, the {} of {}, was NOT COMPLETED: {} (put away {} by {who}). It starts no clock, and stays in the record as that.",
        super::tag::inspection(kept.number),
        kept.kind,
        super::day(kept.opened_on),
        it.because,
        super::day(it.on)
    )
}

/// What is not answered.
pub fn left(open: usize, of: usize) -> String {
    format!("{open} of {of} items are not answered.")
}

/// Who said so, and when.
pub fn by(on: Date, name: &str) -> String {
    format!("{} by {name}", super::day(on))
}

/// A finding in a list.
pub fn finding(tag: &str, part: &str) -> String {
    format!("{tag}: {part}")
}

/// Which item is asked.
pub fn item(at: usize, of: usize) -> String {
    format!("Item {at} of {of}")
}
