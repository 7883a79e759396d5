//! Papers: what they say that no screen says, and what the verb that prints them answers.

use std::path::Path;

use jiff::civil::Date;

/// The link on a page.
pub const CARD: &str = "Print the card";
/// The link on a worked sheet: what is made at a machine has a card to hang over it.
pub fn of_sheet(id: &str) -> &'static str {
    const MADE: [&str; 7] = ["fit", "gauge", "lathe", "screw", "seat", "thread", "valve"];
    let subject = id.split('.').next().unwrap_or(id);
    if MADE.contains(&subject) {
        "Print the lathe card"
    } else {
        "Print this sheet"
    }
}
/// A fact of a job.
pub const ENGINE: &str = "Engine";
/// A fact of a job.
pub const PART: &str = "Part";
/// A fact of a job.
pub const ORDERED: &str = "Ordered";
/// A fact of a job.
pub const PROMISED: &str = "Promised";
/// A fact of a finding.
pub const FINDING: &str = "Finding";
/// A fact of a finding.
pub const IT: &str = "It";
/// A fact of a finding.
pub const TOLD: &str = "Told";
/// A fact of a decision.
pub const ROUTE: &str = "Route";
/// A fact of a decision.
pub const SIGNED: &str = "Signed";
/// A fact of a decision.
pub const BECAUSE: &str = "Because";
/// A fact of a decision.
pub const LOOK_AGAIN: &str = "Look again";
/// Nothing stands between a job and its close.
pub const NOTHING_MISSING: &str = "Nothing is missing; it waits to be closed.";
/// What a rule's version says is not in this program.
pub const NOT_ON_FILE: &str = "this version is not in the rulebook of this program";
/// How a rule was read, and what this shop's people made of it.
pub fn mark(mark: &str, checked: &str) -> String {
    format!("{mark}; {checked}")
}

/// A sheet worked without a book.
pub const NO_BOOK: &str = "no book; what was typed is all there is";

/// What of the book a paper shows.
pub fn shows(entry: u64, hash: &str) -> String {
    format!("the book through entry {entry}, hash {hash}")
}

/// The title of a job card.
pub fn job(tag: &str, engine: &str, part: &str, title: &str) -> String {
    format!("{tag}: No. {engine}, {part}: {title}")
}

/// The title of the lathe card of a job's sheet.
pub fn lathe(tag: &str, engine: &str, part: &str, sheet: &str) -> String {
    format!("{tag}: No. {engine}, {part}: {sheet}")
}

/// The link to the lathe card of a sheet that a job keeps.
pub fn kept(sheet: &str) -> String {
    format!("Print the lathe card of {sheet}")
}

/// A job that keeps no sheet of that name.
pub fn keeps_no_sheet(tag: &str, id: &str, known: &[&str]) -> String {
    let known = match known {
        [] => "it keeps none".to_owned(),
        known => format!("{} was expected", known.join(" or ")),
    };
    format!("{tag} keeps no sheet `{id}`: {known}. Nothing was printed.")
}

/// A job that keeps more than one sheet of that name.
pub fn keeps_several(tag: &str, id: &str, many: usize) -> String {
    format!(
        "{tag} keeps {many} sheets `{id}`: one was expected. Its job card shows them all. Nothing was printed."
    )
}

/// A kept sheet of a form that this program does not lay out.
pub fn kept_unread(tag: &str, id: &str) -> String {
    format!(
        "The sheet {id} that {tag} keeps was printed in a form that this program does not read. The job card shows \
         it as it was printed. Nothing was printed here."
    )
}

/// Values beside a job that has them already.
pub const KEPT_TAKES_NOTHING: &str = "A sheet that a job keeps has its values already: either --job or values were \
                                      expected, not both. Nothing was printed.";

/// Who did something, and when.
pub fn when_by(on: Date, by: &str) -> String {
    format!("{} by {by}", super::day(on))
}

/// A finding, when it was found, by whom, on what occasion.
pub fn found(tag: &str, on: Date, by: &str, occasion: &str) -> String {
    format!("{tag}, found {} by {by} {occasion}", super::day(on))
}

/// The least and the most hours.
pub fn range(low: &str, high: &str) -> String {
    format!("{low} to {high}")
}

/// What readings were taken with and by whom.
pub fn taken(instruments: &str, by: &str) -> String {
    match (instruments, by) {
        ("", by) => format!("read by {by}; the instrument was not written"),
        (instruments, by) => format!("read with {instruments} by {by}"),
    }
}

/// A rule and its version.
pub fn rule(id: &str, version: u32) -> String {
    format!("{id}, version {version}")
}

/// What was written.
pub fn wrote(path: &Path, pages: Option<usize>, sha256: &str) -> String {
    let pages = pages.map_or(String::new(), |n| {
        format!(" {};", super::count(n, "page", "pages"))
    });
    format!("Wrote {}:{pages} sha256 {sha256}.\n", path.display())
}

/// A file stands where one would be written.
pub fn stands_there(path: &Path) -> String {
    format!(
        "{} stands there already: give another name with --out, or say --over to write over it.",
        path.display()
    )
}

/// The machine would not write.
pub fn cannot_write(path: &Path, why: &std::io::Error) -> String {
    format!("{} cannot be written: {why}.", path.display())
}

/// An ending that says no form of drawing.
pub fn no_such_form(path: &Path) -> String {
    format!(
        "{} is no name for a drawing: one that ends in .pdf, .svg or .dxf was expected.",
        path.display()
    )
}

/// An ending that says no form of card.
pub fn only_pdf(path: &Path) -> String {
    format!(
        "{} is no name for a card: one that ends in .pdf was expected.",
        path.display()
    )
}

/// An ending that says no calendar.
pub fn only_ics(path: &Path) -> String {
    format!(
        "{} is no name for a calendar: one that ends in .ics was expected.",
        path.display()
    )
}

/// A drawing that nobody draws.
pub fn no_such_drawing(what: &str, known: &str) -> String {
    format!("There is no drawing `{what}`: {known} were expected.")
}

/// An argument that a drawing does not take.
pub fn no_such_argument(drawing: &str, name: &str, known: &str) -> String {
    format!("The drawing {drawing} takes no `{name}`: {known} were expected.")
}

/// A size that a drawing needs.
pub fn needs(drawing: &str, name: &str, meaning: &str) -> String {
    format!("The drawing {drawing} needs {name}: {meaning}.")
}

/// A size given twice.
pub fn twice(name: &str) -> String {
    format!("`{name}` was given twice: once was expected.")
}
