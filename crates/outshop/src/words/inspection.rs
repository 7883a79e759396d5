//! An inspection being answered.

use jiff::civil::Date;
use shop::book::{Answer, AnswerGiven, ItemCondition};

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
