//! The first hour of a book, and what is known of an engine from paper.

use jiff::civil::Date;

use super::day as read;

/// The title, and the way there.
pub const TITLE: &str = "The first hour";
/// Why.
pub const WHY: &str = "An empty book tells nobody anything. These steps make it useful, in the order in which they help; each can be left and taken \
up again. What nobody knows is left blank: the book then says \"cannot tell\" and what it needs.";
/// A mark.
pub const DONE: &str = "done";
/// A mark.
pub const TO_DO: &str = "to do";
/// A step.
pub const PASSPHRASE: &str = "A passphrase of your own";
/// Its reason.
pub const PASSPHRASE_WHY: &str =
    "The link that let you in works once. With a passphrase you come in again, and sign with it.";
/// A way.
pub const HER_PAGE: &str = "Her page";
/// A choice not made yet.
pub const CHOOSE: &str = "choose";
/// A step.
pub const ENGINE: &str = "An engine";
/// Its reason.
pub const ENGINE_WHY: &str = "Her number, wheels, gauge and the rules that bind her; of the rest what is on her specification card.";
/// A step.
pub const PEOPLE: &str = "The people";
/// Its reason.
pub const PEOPLE_WHY: &str = "Who inspects, who repairs, who approves, by which document and until when. Each signs as themselves.";
/// A step.
pub const PAPER: &str = "What her papers say";
/// Its reason.
pub const PAPER_WHY: &str = "Inspections held before this book, with day and document, and what the papers count since. These are assertions of \
whoever enters them; the clocks run from them. One that is not on paper is left: its clock says \"cannot tell\".";
/// A step.
pub const LOG: &str = "Her log";
/// Its reason.
pub const LOG_WHY: &str = "Days in steam since then, by hand or from a spreadsheet; then say through which day the log is complete.";
/// A way.
pub const IMPORT: &str = "Take a log over from a spreadsheet, looked at before it is saved";
/// A step.
pub const LINEUP: &str = "The first lineup";
/// Its reason.
pub const LINEUP_WHY: &str =
    "Which clock stops her first, and on which day; promise a run and see what stands in its way.";
/// A step.
pub const PARTS: &str = "A part";
/// Its reason.
pub const PARTS_WHY: &str = "Begin with what is apart today: its name and its family. No size is asked; a size comes by measuring.";
/// A way.
pub const IMPORT_PARTS: &str =
    "Take a list of parts over from a spreadsheet, looked at before it is kept";
/// A step.
pub const LEFT: &str = "The first as-left";
/// Its reason.
pub const LEFT_WHY: &str =
    "Measure it as it goes back. From now on nobody takes that joint apart to find out.";
/// A way.
pub const MEASURE: &str = "Enter the readings";
/// A step.
pub const COPY: &str = "A copy somewhere else";
/// Its reason.
pub const COPY_WHY: &str = "Before the day is over: the whole record is one file.";
/// Heads a form.
pub const ADD_ENGINE: &str = "Add an engine";
/// A button.
pub const ADD_HER: &str = "Add her";
/// A field.
pub const NUMBER: &str = "Number on her cab";
/// A field.
pub const WHEELS: &str = "Wheel arrangement";
/// Such as.
pub const WHEELS_SUCH_AS: &str = "such as 2-8-0; of a diesel B-B";
/// A field.
pub const GAUGE: &str = "Track gauge";
/// Such as.
pub const GAUGE_SUCH_AS: &str = "such as 56 1/2 in, 36 in, 1000 mm";
/// A field.
pub const RULES: &str = "Rules that bind her";
/// A field.
pub const MAWP: &str = "Allowed working pressure";
/// Such as.
pub const MAWP_SUCH_AS: &str = "from her specification card, such as 180psig; blank if not known";
/// A field.
pub const AXLE: &str = "Weight on drivers by driving axles, lb";
/// Such as.
pub const IF_KNOWN: &str = "blank if not known";
/// A summary.
pub const FITTINGS: &str = "Fittings she has or has not";
/// Why.
pub const FITTINGS_WHY: &str = "Some rules speak of a fitting only. What is not answered stays not known, and the rule is asked of her until it is.";
/// An answer.
pub const NOT_KNOWN: &str = "not known";
/// An answer.
pub const HAS: &str = "she has it";
/// An answer.
pub const HAS_NOT: &str = "she has none";
/// Why this page.
pub const KNOWN_WHY: &str = "Each line is somebody's statement, with its document. What no paper says is left out: \"cannot tell\" is an answer.";
/// Heads a list.
pub const HELD: &str = "Inspections held before this book";
/// None.
pub const NONE_HELD: &str = "None is stated: their clocks cannot tell.";
/// Heads a form.
pub const STATE_HELD: &str = "State an inspection held before";
/// A button.
pub const STATE_IT: &str = "State it";
/// A field.
pub const HELD_ON: &str = "Completed on";
/// A field.
pub const DOCUMENT: &str = "Document that shows it";
/// Such as.
pub const DOCUMENT_SUCH_AS: &str = "such as Form 1 in the green binder, page 40";
/// A field.
pub const SERVICE_DAYS: &str = "Service days since, as the paper counts them";
/// When.
pub const IF_PAPER: &str = "only if a paper says so";
/// A field.
pub const THROUGH: &str = "Counted through";
/// A field.
pub const ANNUALS: &str = "Annuals since (of a fifth annual)";
/// Heads a list.
pub const DAYS: &str = "Days that clocks run from";
/// None.
pub const NONE_STATED: &str = "None is stated.";
/// Heads a form.
pub const STATE_DAY: &str = "State a day";
/// A field.
pub const WHAT_DAY: &str = "Of what";
/// A field.
pub const DAY: &str = "The day";
/// Heads a list.
pub const FACTS: &str = "Facts that decide which clocks bind her";
/// Why.
pub const FACTS_WHY: &str = "Open the one that a paper answers. What is not stated is not known.";
/// Heads a list.
pub const SPELLS: &str = "Out of use";
/// Heads a form.
pub const STATE_SPELL: &str = "Attest a spell out of use";
/// A field.
pub const SPELL_FROM: &str = "First whole day";
/// A field.
pub const SPELL_THROUGH: &str = "Last whole day";
/// A field.
pub const SPELL_TOLD: &str = "Why, and where she stood";
/// Heads a way.
pub const COUNTS: &str = "What papers count";
/// Why.
pub const COUNTS_WHY: &str =
    "A count of service days on paper is entered with her log, and held against it:";
/// Heads a list.
pub const PARTS_OF_HER: &str = "Her parts";
/// None.
pub const NO_PARTS: &str = "None yet.";
/// Heads a form.
pub const ADD_PART: &str = "Add a part";
/// A button.
pub const ADD_IT: &str = "Add it";
/// A field.
pub const PART_NAME: &str = "What the shop calls it";
/// Such as.
pub const PART_SUCH_AS: &str = "such as right feed check";
/// A field.
pub const FAMILY: &str = "Its family";
/// What a family is.
pub const PART_WHY: &str = "The family knows where such a part is measured and how it is put right. It knows no size of yours.";

/// The title of what is known of an engine.
pub fn known(number: &str) -> String {
    format!("What is known of No. {number} from paper")
}

/// An inspection held before.
pub fn held(kind: &str, on: Date, since: Option<(u32, Date)>, document: &str) -> String {
    let since = since.map_or(String::new(), |(days, through)| {
        format!(
            "; {} since, through {}",
            super::count(days as usize, "service day", "service days"),
            read(through)
        )
    });
    format!("{kind}: completed {}{since} ({document})", read(on))
}

/// A day that was stated.
pub fn day(what: &str, on: Date, document: &str) -> String {
    format!("{what}: {} ({document})", read(on))
}

/// A fact that was stated.
pub fn fact(fact: &str, value: &str, from: Date, document: &str) -> String {
    format!("{fact}: {value}, from {} ({document})", read(from))
}

/// A set of rules, with what it is of.
pub fn rules(set: &str) -> String {
    match set {
        "us-steam" => "us-steam: a steam locomotive, 49 CFR Part 230".into(),
        "us-diesel" => "us-diesel: a diesel locomotive, 49 CFR Part 229".into(),
        other => other.into(),
    }
}
