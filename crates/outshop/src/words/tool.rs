//! Tooling.

use jiff::civil::Date;
use shop::book::{TakenOut, Tooling};
use shop::locomotive::last_tool_check;

use super::day;

/// What it is, what it serves, where it lies, its last check.
pub fn line(kept: &Tooling, serves: &[String], on: Date) -> String {
    let mut told = vec![kept.what.clone(), format!("serves {}", serves.join(", "))];
    if !kept.features.is_empty() {
        told.push(kept.features.join(", "));
    }
    told.extend(kept.drawing.as_ref().map(|it| format!("drawing {it}")));
    told.push(match &kept.out {
        None => kept.shelf.clone(),
        Some(out) => format!("TAKEN OUT {}: {}", day(out.on), out.because),
    });
    told.push(checked(kept, on));
    told.join("; ")
}

/// Its last check.
pub fn checked(kept: &Tooling, on: Date) -> String {
    match last_tool_check(kept, on) {
        None => super::instrument::NEVER_CHECKED.to_string(),
        Some(check) if check.good => format!("found good {}", day(check.on)),
        Some(check) => format!("FOUND WRONG {}", day(check.on)),
    }
}

/// Where it lies now.
pub fn lies(shelf: &str) -> String {
    format!("lies in {shelf} from now on")
}

/// It was taken out.
pub const TAKEN_OUT: &str = "is taken out; it stays in the list as that";
/// More was told.
pub const TOLD: &str = "has it in the book";

/// A check.
pub fn found(good: bool) -> &'static str {
    if good {
        "was found good"
    } else {
        "was found wrong"
    }
}

/// When and why it was taken out.
pub fn out(out: &TakenOut, by: &str) -> String {
    format!("taken out {} by {by}: {}", day(out.on), out.because)
}

/// The job it was made for.
pub fn made_for(job: &str) -> String {
    format!("made for {job}")
}

/// Neither or both.
pub const GOOD_OR_WRONG: &str = "Say how it was found: good or wrong was expected.";
/// Half of a place.
pub const BOTH: &str = "Another part it serves is named with its engine: both were expected.";
/// Over tools of which nobody said what feature they serve.
pub const NO_FEATURE: &str = "feature not told";
/// None.
pub const NONE: &str = "No tool is in this book yet.";
/// The page.
pub const TITLE: &str = "Tooling";
/// Under its title.
pub const LEAD: &str = "Laps, mandrels, plug gauges, reamers and masters: what each serves, where it lies, when it was last checked.";
/// The way the list lies.
pub const BY_NUMBER: &str = "by number";
/// The other way.
pub const BY_FEATURE: &str = "by feature";
/// A column.
pub const NUMBER: &str = "Number";
/// A column.
pub const WHAT_COLUMN: &str = "Tool";
/// A column.
pub const SERVES: &str = "Serves";
/// A column.
pub const SHELF_COLUMN: &str = "Shelf";
/// A column.
pub const CHECKED: &str = "Last checked";
/// Below the list.
pub const OUT: &str = "Taken out";
/// Of the tools below.
pub const FEATURES: &str = "Features";
/// A line.
pub const DRAWING: &str = "Drawing";
/// A line.
pub const MADE_FOR: &str = "Made for";
/// A form.
pub const ADD: &str = "Register a tool";
/// Its button.
pub const ADD_IT: &str = "Register it";
/// A field.
pub const WHAT: &str = "What it is";
/// What it tells.
pub const WHAT_TELLS: &str = "with the size it was made to";
/// A field.
pub const ENGINE: &str = "Engine";
/// A field.
pub const PART: &str = "Part it serves";
/// What it tells.
pub const PART_TELLS: &str = "its name, as on the engine's page";
/// A field.
pub const FEATURE: &str = "Feature it serves";
/// What it tells.
pub const FEATURE_TELLS: &str = "such as seat-land";
/// A field.
pub const SHELF: &str = "Where it lies";
/// What it tells.
pub const SHELF_TELLS: &str = "a shelf, a drawer";
/// A field.
pub const JOB: &str = "The job it was made for";
/// A form.
pub const TELL: &str = "Say more of it";
/// Its button.
pub const KEEP: &str = "Keep it";
/// A form.
pub const MOVE: &str = "It lies somewhere else";
/// Its button.
pub const MOVE_IT: &str = "It lies there now";
/// A form.
pub const BACK: &str = "It is back in use";
/// A form.
pub const TAKE_OUT: &str = "Take it out";
/// Its button.
pub const TAKE_OUT_IT: &str = "It is taken out";
/// A field.
pub const BECAUSE: &str = "Why";
/// What it tells.
pub const BECAUSE_TELLS: &str = "worn past its size, broken, lost";
/// What it was held against.
pub const AGAINST_TELLS: &str = "a master, blocks, a sine bar";
/// What an error looks like.
pub const ERROR_TELLS: &str = "as written, such as 6 minutes steep";
/// Another part.
pub const ANOTHER_PART: &str = "Another part it serves";
/// The way to its tag.
pub const PRINT_TAG: &str = "Its tag, to print (3 by 1-1/2 in)";
/// The title of a tag.
pub const TAG: &str = "Tool tag";

/// A tag of what is not to be used.
pub fn no_tag(number: &str) -> String {
    format!("{number} was taken out: no tag is printed for what is not to be used.")
}

/// The number of its drawing.
pub fn drawing(number: &str) -> String {
    format!("drawing {number}")
}
