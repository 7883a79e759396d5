//! Letters.

use shop::book::{Answered, Letter, Promised, Way};
use shop::locomotive::LetterStanding;

use super::day;

/// When, with whom, what.
pub fn head(kept: &Letter) -> String {
    let way = match kept.logged.way {
        Way::From => "from",
        Way::To => "to",
    };
    let it = &kept.logged;
    format!("{} {way} {}: {}", day(kept.on), it.with, it.what)
}

/// What is promised and how that stands.
pub fn promise(it: &Promised, stands: LetterStanding, answered: Option<String>) -> String {
    let who = if it.ours { "we owe" } else { "they owe" };
    let until = it
        .until
        .map_or(String::new(), |d| format!(" by {}", day(d)));
    let told = match (stands, answered) {
        (LetterStanding::Answered, Some(answered)) => answered,
        (LetterStanding::Overdue, _) => "OVERDUE".into(),
        _ => "open".into(),
    };
    format!("{who} {}{until}: {told}", it.what)
}

/// What came of it.
pub fn answered(it: &Answered, letter: Option<String>, by: &str) -> String {
    let letter = letter.map_or(String::new(), |letter| format!(" by {letter}"));
    format!("answered {}{letter}: {} ({by})", day(it.on), it.told)
}

/// How a promise stands, as a word.
pub fn state(stands: LetterStanding) -> &'static str {
    match stands {
        LetterStanding::Overdue => "overdue",
        LetterStanding::Open | LetterStanding::NoDay => "open",
        LetterStanding::Answered => "answered",
        LetterStanding::Nothing => "promises nothing",
    }
}

/// Who entered it.
pub fn entered(by: &str) -> String {
    format!("entered by {by}")
}

/// A scan of it.
pub fn scan(tag: &str, told: &str) -> String {
    format!("scan {tag}: {told}")
}

/// What a scan shows that shows no part.
pub const A_LETTER: &str = "a letter";

/// A way that is none.
pub fn no_way(word: &str) -> String {
    format!("`{word}` is no way for a letter to go: to or from was expected.")
}

/// A day without a promise.
pub const UNTIL_WHAT: &str = "Say what is promised by that day, and whether we owe it or they do.";
/// Two promises.
pub const ONE_PROMISE: &str =
    "A letter holds one promise here, ours or theirs: log the other as a letter of its own.";
/// None.
pub const NONE: &str = "No such letter is in this book.";
/// None at all.
pub const NONE_YET: &str = "No letter is in this book yet.";
/// The page.
pub const TITLE: &str = "Letters";
/// Under its title.
pub const LEAD: &str = "To and from authorities, suppliers and hired inspectors. What is promised and not answered stands first.";
/// A column.
pub const NUMBER: &str = "Letter";
/// A column.
pub const DAY: &str = "Day";
/// A column.
pub const SAYS: &str = "Says";
/// A column.
pub const ABOUT: &str = "About";
/// A column.
pub const PROMISED: &str = "Promised";
/// A form.
pub const LOG: &str = "Log a letter";
/// Its button.
pub const LOG_IT: &str = "Log it";
/// A field.
pub const WAY: &str = "Which way it went";
/// A choice.
pub const CAME: &str = "it came from them";
/// A choice.
pub const WENT: &str = "it went to them";
/// A field.
pub const WITH: &str = "With whom";
/// What it tells.
pub const WITH_TELLS: &str = "an authority, a supplier, a hired inspector";
/// A field.
pub const WHAT: &str = "What it says";
/// A field.
pub const DATED: &str = "The day it was written or came; today if left empty";
/// A field.
pub const ENGINE: &str = "Engine";
/// A field.
pub const FINDING: &str = "Finding";
/// A field.
pub const JOB: &str = "Job";
/// A field.
pub const WE_PROMISE: &str = "We promise, or are asked for";
/// A field.
pub const THEY_PROMISE: &str = "They promise, or are asked for";
/// A field.
pub const UNTIL: &str = "By the day";
/// A form.
pub const ANSWER: &str = "Say what came of it";
/// Its button.
pub const ANSWER_IT: &str = "It is answered";
/// A field.
pub const TOLD: &str = "What came of it";
/// A field.
pub const BY_LETTER: &str = "The letter that answers it";
/// What it tells.
pub const BY_LETTER_TELLS: &str = "such as L-004, if one does";
/// A section.
pub const SCANS: &str = "Scans";
/// None.
pub const NO_SCAN: &str = "No scan of it is in this book.";
/// On the page of deadlines.
pub const DUE: &str = "Promised in letters";
/// A column.
pub const OWED: &str = "Owed by";

/// Who owes it.
pub fn owed(it: &Promised) -> &'static str {
    if it.ours { "us" } else { "them" }
}

/// The last day of a promise.
pub fn until(it: &Promised) -> String {
    it.until.map_or("no day said".into(), day)
}
