//! Who is authorised for what, by whom, until when.

use jiff::civil::Date;
use shop::book::{Authority, AuthorityKept, Book, Person, PersonId, Standing};

use super::day;

/// How somebody stands to an authority on a day, in words.
pub fn standing(book: &Book, person: &Person, authority: Authority, on: Date) -> String {
    let name = |id: PersonId| book.persons.get(&id).map_or("?", |p| p.name.as_str());
    match person.standing(authority, on) {
        Standing::Added => format!(
            "held without an end since {} added them on {}; no document is on file",
            name(person.added_by),
            day(person.added_on)
        ),
        Standing::Held(kept) => format!("held {}", of(kept, name(kept.by))),
        Standing::Expired(kept) => format!("EXPIRED: was held {}", of(kept, name(kept.by))),
        Standing::Withdrawn(kept) => format!(
            "TAKEN BACK from {} by {}: {}",
            day(kept.from),
            name(kept.by),
            kept.document
        ),
        Standing::NotYet(kept) => format!("not yet: {}", of(kept, name(kept.by))),
        Standing::Never => "not held".into(),
    }
}

fn of(kept: &AuthorityKept, by: &str) -> String {
    let until = kept.through.map_or("without an end".into(), |last| {
        format!("through {}", day(last))
    });
    let within = kept.within.as_deref();
    let within = within.map_or(String::new(), |within| format!(", for this only: {within}"));
    format!(
        "from {} {until}, by {by} ({}){within}",
        day(kept.from),
        kept.document
    )
}

/// One statement of an authority, as a line of a history.
pub fn stated(kept: &AuthorityKept, by: &str) -> String {
    let word = kept.authority.word();
    if kept.given {
        format!("`{word}` given {}", of(kept, by))
    } else {
        format!(
            "`{word}` taken back from {} by {by}: {}",
            day(kept.from),
            kept.document
        )
    }
}

/// The title of the page.
pub const TITLE: &str = "People";
/// Why there is one.
pub const WHY: &str = "Who is authorised for what, by whom, until when. What the law calls a competent person is the shop's to name; this is where \
it does. An authority that has ended is refused by name.";
/// A word and a mark.
pub const HELD: &str = "Yes.";
/// A summary.
pub const HISTORY: &str = "All that was stated";
/// Who may change it.
pub const OFFICER_SAYS: &str = "One who may approve says who else may do what.";
/// Heads a form.
pub const ADD: &str = "Add a person";
/// A button.
pub const ADD_IT: &str = "Add them";
/// A field.
pub const NAME: &str = "Name they sign with";
/// A field.
pub const TRADE: &str = "Trade";
/// Such as.
pub const TRADE_SUCH_AS: &str =
    "such as machinist, boilersmith, fireman, apprentice; it gives no authority";
/// A field.
pub const MAY: &str = "What they may do, from today and without an end";
/// What that is.
pub const ADD_WHY: &str =
    "Leave all of it blank where a document gives the authority or ends it: then state that below.";
/// Heads a form.
pub const GIVE: &str = "Give an authority, by a document";
/// A button.
pub const GIVE_IT: &str = "State it";
/// What follows.
pub const GIVE_WHY: &str = "It stands in the place of all that was stated of this person and authority before, from its first day on.";
/// Heads a form.
pub const TAKE: &str = "Take an authority back";
/// A button.
pub const TAKE_IT: &str = "Take it back";
/// A field.
pub const AUTHORITY: &str = "Authority";
/// A field.
pub const DOCUMENT: &str = "Document";
/// Such as.
pub const DOCUMENT_SUCH_AS: &str = "a letter, a certificate, a minute of a meeting";
/// A field.
pub const FROM: &str = "From (today if left blank)";
/// A field.
pub const UNTIL: &str = "Last day (without an end if left blank)";
/// A field.
pub const WITHIN: &str = "For this only";
/// Such as.
pub const WITHIN_SUCH_AS: &str =
    "in the words of the document; the program cannot judge it, it shows it";
/// A field.
pub const BECAUSE: &str = "Why, or by which document";

/// What an authority is, in a line.
pub fn means(authority: Authority) -> &'static str {
    match authority {
        Authority::Inspect => "inspect: looks, answers items, signs as inspector",
        Authority::Repair => "repair: does the work, signs as repairer",
        Authority::Approve => {
            "approve: the officer; decides, clears hold points, releases, says who may do what"
        }
    }
}

/// Where it stands in the book.
pub fn entry(number: u64) -> String {
    format!("entry {number}")
}
