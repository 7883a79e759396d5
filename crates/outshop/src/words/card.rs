//! Lathe cards with a number, and whether what hangs on the wall still stands.

use jiff::civil::Date;
use measure::House;
use shop::book::Revision;

use super::day;

/// The page.
pub const TITLE: &str = "Lathe cards";
/// Under its title.
pub const LEAD: &str = "Cards that the book keeps under a number. What hangs at the machine says its revision; read its bars here, and the page says whether it still stands.";
/// None.
pub const NONE: &str = "No card is kept in this book yet. Work a sheet and keep it as a card.";
/// A card that should be there.
pub const NOT_THERE: &str = "The card that was kept is not there.";
/// A column.
pub const CARD: &str = "Card";
/// A column.
pub const SHEET: &str = "Sheet";
/// A column.
pub const REVISION: &str = "Revision";
/// A column.
pub const KEPT: &str = "Kept";
/// A section.
pub const STANDS: &str = "Does it stand?";
/// A section.
pub const REVISIONS: &str = "Revisions";
/// A section.
pub const CHANGED: &str = "What is different now";
/// A section.
pub const AS_PRINTED: &str = "As printed";
/// A column.
pub const WAS: &str = "on the card";
/// A column.
pub const IS: &str = "now";
/// A link.
pub const WORK: &str = "Work it again with these figures, to keep a new revision";
/// A link.
pub const PRINT: &str = "Print this card";
/// A form.
pub const KEEP: &str = "Keep it as a card with a number";
/// What that does.
pub const KEEP_TELLS: &str = "A card that is kept has a number and a revision in its bars. Whoever reads them later is told whether it still stands.";
/// A field.
pub const REVISES: &str = "Card that it takes the place of";
/// What it tells.
pub const REVISES_TELLS: &str = "its number, such as C-001; left empty, it is a card of its own";
/// A field.
pub const BECAUSE: &str = "Why it is revised";
/// A button.
pub const KEEP_IT: &str = "Keep the card";
/// A field.
pub const READ: &str = "What the bars on a card say";
/// What it tells.
pub const READ_TELLS: &str =
    "read by a hand reader, or typed from under the bars: C-001 R1, J-001 E412";
/// A button.
pub const READ_IT: &str = "Does it stand?";
/// A card that no book keeps.
pub const NOT_KEPT: &str = "not kept under a number: nobody can tell later whether it still stands";

/// The units of a card, as they are kept.
pub fn house(house: House) -> &'static str {
    match house {
        House::Inch => "inch",
        House::Metric => "metric",
    }
}

/// One card.
pub fn line(number: &str, revision: usize, sheet: &str, given: &str) -> String {
    format!("{number} revision {revision}: {sheet} {given}")
}

/// One revision.
pub fn revision(at: usize, it: &Revision, by: &str) -> String {
    let because = it.because.as_deref();
    let because = because.map_or(String::new(), |why| format!(", because {why}"));
    format!(
        "revision {at}, {}, {by}{because}: {}",
        day(it.on),
        it.given.join(" ")
    )
}

/// The same on the card itself.
pub fn revision_on_card(at: usize, it: &Revision, by: &str) -> String {
    let because = it.because.as_deref();
    let because = because.map_or(String::new(), |why| format!(", because {why}"));
    format!(
        "Revision {at}, kept on {} by {by}{because}. Before it is worked to, read the bars at the desk: they tell whether it still stands.",
        day(it.on)
    )
}

/// A code that names no card.
pub fn no_code(code: &str) -> String {
    format!("`{code}` is not what the bars of a card say: C-001 R1 or J-001 E412 was expected.")
}

/// A revision that there is not.
pub fn no_revision(number: &str, at: usize, all: usize) -> String {
    format!("{number} has no revision {at}: it has {all}.")
}

/// The newest one, as before.
pub fn stands(number: &str, at: usize, on: Date) -> String {
    format!(
        "{number} revision {at} of {} is the newest, and worked again today it reads the same.",
        day(on)
    )
}

/// The newest one, worked again.
pub fn reads_otherwise(number: &str, at: usize, figures_alike: bool) -> String {
    if figures_alike {
        return format!(
            "{number} revision {at} is the newest. Worked again today its figures are the same; its notes are worded otherwise."
        );
    }
    format!(
        "{number} revision {at} is the newest, but DO NOT WORK TO IT: worked again with what the book holds today it reads otherwise. Keep a new revision."
    )
}

/// It can no longer be worked.
pub fn cannot_be_worked(number: &str, at: usize, why: &str) -> String {
    format!(
        "{number} revision {at} is the newest, and whether it stands cannot be told: it can no longer be worked. {why}"
    )
}

/// Another took its place.
pub fn superseded(
    number: &str,
    at: usize,
    newest: usize,
    by: &str,
    on: Date,
    because: Option<&str>,
) -> String {
    let because = because.map_or(String::new(), |why| format!(", because {why}"));
    format!(
        "SUPERSEDED: {number} revision {at} was superseded by revision {newest} on {}, by {by}{because}. Take it off the wall.",
        day(on)
    )
}

/// What the bars of a job's card say.
pub fn of_job(number: &str, last: u64) -> String {
    format!("{number} E{last}")
}

/// A job's card.
pub fn job_stands(number: &str, entry: u64) -> String {
    format!(
        "The card of {number} as of entry {entry} stands: nothing was entered of the job since."
    )
}

/// A job's card, and the job went on.
pub fn job_moved(number: &str, entry: u64, last: u64) -> String {
    format!(
        "SUPERSEDED: the card of {number} shows the job as of entry {entry}; it was last changed in entry {last}. Print it anew."
    )
}

/// A job that is closed.
pub fn job_closed(number: &str, on: Date) -> String {
    format!("{number} was closed on {}.", day(on))
}

/// What was entered of a job since its card was printed.
pub fn entered(entry: u64, kind: &str, on: &str, by: &str) -> String {
    format!("entry {entry}, {on}, {by}: {kind}")
}

/// One difference.
pub fn change(was: &str, is: &str) -> String {
    match (was.is_empty(), is.is_empty()) {
        (true, _) => format!("now also: {is}"),
        (_, true) => format!("no more: {was}"),
        _ => format!("was {was}; is {is}"),
    }
}
