//! The move of an engine that does not comply, and the desk's forms for what others find on the road.

use jiff::civil::Date;
use shop::book::{MoveEnd, MoveUnder, MovedHow, Movement};

/// What a move stands on: the word, nothing else, what it means.
pub const UNDER: &[(&str, (), &str)] = &[
    ("to-repair", (), "to a place of repair"),
    ("in-yard", (), "within a yard, only for repair"),
    (
        "on-from-road",
        (),
        "on from the road with a fault found there",
    ),
    ("special-notice", (), "as a special notice allows"),
];

/// How she is moved.
pub const HOW: &[(&str, MovedHow, &str)] = &[
    ("lite", MovedHow::Lite, "lite, by her own power"),
    ("in-tow", MovedHow::InTow, "dead, in tow"),
    ("with-train", MovedHow::WithTrain, "with her train"),
];

/// How a move ends.
pub const END: &[(&str, MoveEnd, &str)] = &[
    ("arrived", MoveEnd::Arrived, "she arrived"),
    (
        "put-right",
        MoveEnd::PutRight,
        "she was put right on the way",
    ),
    (
        "broken-off",
        MoveEnd::BrokenOff,
        "it was broken off, or never begun",
    ),
];

/// The word of what a move stands on.
pub fn under_word(under: &MoveUnder) -> &'static str {
    match under {
        MoveUnder::ToRepair => "to-repair",
        MoveUnder::InYard => "in-yard",
        MoveUnder::OnFromRoad => "on-from-road",
        MoveUnder::SpecialNotice { .. } => "special-notice",
    }
}

/// What a move stands on, in words.
pub fn under(under: &MoveUnder) -> &'static str {
    means(UNDER, under_word(under))
}

/// The word of how she is moved.
pub fn how_word(how: MovedHow) -> &'static str {
    let known = HOW.iter().find(|(_, it, _)| *it == how);
    known.map_or("", |(word, ..)| *word)
}

/// How she is moved, in words.
pub fn how(how: MovedHow) -> &'static str {
    means(HOW, how_word(how))
}

/// The word of how a move ended.
pub fn end_word(end: MoveEnd) -> &'static str {
    let known = END.iter().find(|(_, it, _)| *it == end);
    known.map_or("", |(word, ..)| *word)
}

fn means<T>(list: &'static [(&'static str, T, &'static str)], word: &str) -> &'static str {
    let known = list.iter().find(|(known, ..)| *known == word);
    known.map_or("", |(_, _, means)| *means)
}

/// The link to the page, and its head.
pub const HER_MOVES: &str = "Moved while she does not comply";
/// The link to the page of notices and failures.
pub const FROM_OUTSIDE: &str = "A special notice, a failure on the road";
/// What a move is not.
pub const MEANS: &str = "A move lifts nothing that stops her, lets no clock run on and is no release. A breach of any of its conditions ends the shelter for it. A person decides; this program decides nothing.";
/// A form.
pub const DECIDE: &str = "Decide that she can be moved safely";
/// Its button.
pub const SIGN: &str = "Sign the decision";
/// Who may not.
pub const MAY_NOT: &str = "Only somebody who may approve decides on a move.";
/// A field.
pub const STANDS_ON: &str = "The move is";
/// A field.
pub const NOTICE: &str = "Of a special notice: which";
/// A field.
pub const ALLOWS: &str = "What that notice allows";
/// A field.
pub const FROM: &str = "From where";
/// A field.
pub const TO: &str = "To where";
/// A field.
pub const HOW_SHE_GOES: &str = "She goes";
/// A field.
pub const MPH: &str = "Top speed, miles an hour";
/// A field.
pub const LIMITS: &str = "What else limits it";
/// Beside it.
pub const LIMITS_HINT: &str = "or, in so many words, that nothing does";
/// A field.
pub const TOLD: &str = "Who was told in writing";
/// Beside it.
pub const TOLD_HINT: &str = "engineers, and everybody in the cabs";
/// A group of fields.
pub const FOR_TAG: &str = "For the tag: the inspection";
/// A field.
pub const INSPECTED_BY: &str = "Who inspected her";
/// A field.
pub const INSPECTED_AT: &str = "Where";
/// A field.
pub const INSPECTED_ON: &str = "On which day";
/// A form.
pub const END_IT: &str = "How it ended";
/// A field.
pub const END_TOLD: &str = "Where she stands, and what there is to say";
/// Its button.
pub const ENTER_END: &str = "Enter how it ended";
/// Of a move.
pub const NOT_ENDED: &str = "It has not ended.";
/// None.
pub const NONE: &str = "No such move is in this book.";
/// Nothing is wrong with her.
pub const NOTHING_WRONG: &str = "Nothing in this book says that she does not comply: no such move is decided without what is wrong with her.";
/// What stops her, in the head.
pub const DEFECTS: &str = "She does not comply";

/// A form of the page of notices and failures.
pub const NOTICE_FORM: &str = "An inspector's special notice";
/// What it does.
pub const NOTICE_MEANS: &str = "It stops her until the same office has lifted it, whatever the shop does about the finding. Until then she moves only as the notice allows.";
/// Its button.
pub const RECORD_NOTICE: &str = "Record the notice";
/// A field.
pub const ON_PART: &str = "The part it speaks of";
/// A field.
pub const SAYS: &str = "What it says is wrong";
/// A field.
pub const GIVEN_BY: &str = "Given by, by name";
/// A field.
pub const OFFICE: &str = "For which office";
/// A field.
pub const PAPER: &str = "The paper: its number, its day, where it lies";
/// A form.
pub const FAILURE_FORM: &str = "A failure on the road";
/// What it does.
pub const FAILURE_MEANS: &str = "She stays where she is until somebody decides on the finding, or decides how she may be moved.";
/// Its button.
pub const RECORD_FAILURE: &str = "Record the failure";
/// A field.
pub const FAILED_PART: &str = "The part that failed";
/// A field.
pub const WHAT_HAPPENED: &str = "What happened";
/// Beside it.
pub const WHAT_HAPPENED_HINT: &str = "where on the line, hot or cold, at what pressure";
/// Where her part is not among them.
pub const NO_PARTS: &str = "No part of her is in this book, and a finding is on a part. Add the part first, or write it up on her day: that stops her too.";
/// Over what stands.
pub const STANDING_NOTICES: &str = "Special notices, and failures on the road";

/// A decision in a sentence.
pub fn decided(number: &str, made: &Movement, by: &str) -> String {
    let it = &made.decided;
    format!(
        "No. {number} may be moved from {} to {}, {}, {}, at {} mph at most, decided by {by} on {}. Limits: {}",
        it.from,
        it.to,
        under(&it.under),
        how(it.how),
        it.top_mph,
        super::day(made.on),
        it.limits
    )
}

/// How a move ended, as the verb says it.
pub fn ended(number: &str, end: MoveEnd, told: &str) -> String {
    format!(
        "The move of No. {number} ended: {}; {told}. What stopped her stops her still.",
        means(END, end_word(end))
    )
}

/// How a move ended.
pub fn end(end: MoveEnd, told: &str, on: Date, by: &str) -> String {
    format!(
        "Ended {}: {}; {told} ({by}).",
        super::day(on),
        means(END, end_word(end))
    )
}

/// Title of the page.
pub fn head(number: &str) -> String {
    format!("No. {number}: moved as she is")
}

/// Title of the page of notices and failures.
pub fn outside(number: &str) -> String {
    format!("No. {number}: what others find")
}

/// Who inspected her, for the tag.
pub fn inspected(who: &str, place: &str, on: Date) -> String {
    format!("{who}, at {place}, {}", super::day(on))
}

/// What a notice allows.
pub fn allows(tag: &str, allows: &str) -> String {
    format!("the special notice of {tag} allows: {allows}")
}
