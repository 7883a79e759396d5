//! The start and the end of a day of an engine, and what a crew wrote up.

use jiff::civil::Date;
use shop::book::Symptom;

/// Leads to the page.
pub const HER_DAY: &str = "Start and end of her day";
/// Over what stops her, in the head.
pub const STOPS: &str = "What stops her now";
/// A section.
pub const BEFORE: &str = "Before the day of use: the daily inspection";
/// What the form asks of each item.
pub const EACH_ITEM: &str = "Each item needs how it is and what you saw; fair is below its best, but safe and within the law. What you leave blank stays open; what you save is saved whole or not at all.";
/// An item that the law's list marks so.
pub const AT_START: &str = "at the start of the day";
/// A field.
pub const SEEN: &str = "What you saw";
/// Beside it, where the item asks for a reading.
pub const WITH_FIGURE: &str = "with the figure you read";
/// A choice.
pub const GOOD: &str = "good";
/// A choice.
pub const FAIR: &str = "fair";
/// A choice.
pub const NOT_FITTED: &str = "not fitted";
/// A choice.
pub const DEFECT: &str = "defect";
/// A field that is folded away.
pub const DEFECT_ON: &str = "Of a defect: what it is on";
/// No choice.
pub const NOT_CHOSEN: &str = "not chosen";
/// A group of choices.
pub const FINDINGS: &str = "A finding in the book";
/// A group of choices.
pub const PARTS: &str = "A new finding on a part";
/// Where her part is not among them.
pub const NO_SUCH_PART: &str = "If the part is not in the book, leave the item open and write it up below: that stops her too.";
/// A button.
pub const SAVE: &str = "Save what is answered";
/// A button.
pub const SAVE_AND_CLOSE: &str = "Save, close and sign";
/// A button when nothing is left to answer.
pub const CLOSE: &str = "Close and sign";
/// Over what has been answered.
pub const ANSWERED: &str = "Answered";
/// A section.
pub const AFTER: &str = "After the run";
/// A form.
pub const THE_FIRE: &str = "The fire";
/// Its button.
pub const LOG_FIRE: &str = "Log the fire";
/// A form.
pub const CREW: &str = "The crew's report";
/// Its button.
pub const FILE: &str = "File the report";
/// A choice.
pub const NOTHING: &str = "nothing to report";
/// A field.
pub const WHAT: &str = "What it does";
/// A field.
pub const WHERE: &str = "Where on the engine";
/// A field.
pub const HEAT: &str = "Hot or cold";
/// A choice.
pub const HOT: &str = "hot";
/// A choice.
pub const COLD: &str = "cold";
/// A field.
pub const PRESSURE: &str = "At what pressure";
/// Beside it.
pub const PRESSURE_SUCH_AS: &str = "with its unit, such as 140 psig";
/// A field.
pub const WAIT: &str = "Can it wait?";
/// A choice.
pub const CAN_WAIT: &str = "it can wait";
/// A choice.
pub const CANNOT_WAIT: &str = "it cannot wait";
/// A choice.
pub const NOT_SAID: &str = "not said";
/// A field.
pub const ELSE: &str = "What else there is to say";
/// What a report does.
pub const REPORT_MEANS: &str = "Filed even when there is nothing to report. Each thing written up stops her until somebody who may inspect has looked at it; that it can wait is told, and lifts nothing.";
/// Of a report.
pub const CLEAN: &str = "nothing to report";
/// Of a write-up.
pub const LOOKED_AT: &str = "looked at";
/// Of a write-up.
pub const NOT_LOOKED_AT: &str = "not looked at";
/// None of them.
pub const NO_WRITE_UP: &str = "Nothing has been written up.";
/// A section of open work.
pub const OPEN_WRITE_UPS: &str = "Written up by crews, and nobody has looked";
/// A form.
pub const ANSWER: &str = "What came of it";
/// Its button.
pub const ANSWER_IT: &str = "Answer it";
/// A choice.
pub const NO_DEFECT: &str = "looked at: no defect";
/// A field.
pub const OR_FINDING: &str = "or it is the finding";
/// Where a finding comes from.
pub const RECORD_FIRST: &str =
    "A defect is recorded on its part first, and then named here as its finding.";
/// A link.
pub const HER_PARTS: &str = "Her parts";
/// A section.
pub const NOTICE: &str = "The special notice";
/// A form.
pub const LIFT: &str = "Enter its lifting";
/// Its button.
pub const LIFT_IT: &str = "Enter it";
/// A field.
pub const LIFT_NAME: &str = "Who lifted it, by name";
/// A field.
pub const LIFT_OFFICE: &str = "For which office";
/// A field.
pub const LIFT_DAY: &str = "On which day";
/// A field.
pub const LIFT_PAPER: &str = "The paper that says so";
/// What lifts it.
pub const LIFT_MEANS: &str = "It is lifted by the word of the authority that gave it and of nobody else. Until then she moves only as the notice allows.";

/// The head of the page.
pub fn head(number: &str, on: Date) -> String {
    format!("No. {number}, {}", super::day(on))
}

/// Clocks in one line: kind and what is left.
pub fn clocks(left: &[(&str, i64, &str)]) -> String {
    let told: Vec<_> = left
        .iter()
        .map(|(kind, left, unit)| format!("{kind}: {left} {unit} left"))
        .collect();
    if told.is_empty() {
        "No clock of hers runs.".into()
    } else {
        format!("Clocks: {}.", told.join("; "))
    }
}

/// Who may not inspect, and who may.
pub fn may_not(name: &str, who: &[&str]) -> String {
    if who.is_empty() {
        format!("{name} may not inspect, and nobody in this book may.")
    } else {
        format!("{name} may not inspect; {} may.", who.join(", "))
    }
}

/// Where the daily inspection stands.
pub fn stands(number: &str, open: usize, of: usize) -> String {
    format!("{number} is open: {open} of {of} items are not answered.")
}

/// Before one is opened.
pub fn to_open(items: usize) -> String {
    let items = super::count(items, "item", "items");
    format!("None is open; saving opens it. {items}.")
}

/// One of an earlier day.
pub fn left_open(number: &str, on: Date) -> String {
    format!(
        "The daily of {} is still open, as {number}: answer what is open in it and close it, or sign that it was not completed. Then today has its own.",
        super::day(on)
    )
}

/// It is done.
pub fn is_closed(number: &str, by: &str) -> String {
    format!("{number} is closed and signed by {by}.")
}

/// A choice: good, with words that were used of it before.
pub fn good_again(said: &str) -> String {
    format!("good: {said}")
}

/// A time that does not read.
pub fn no_time(text: &str) -> String {
    format!("`{text}` is no time of day: hours and minutes such as 07:40 were expected.")
}

/// An item in the list.
pub fn item(at: usize, text: &str) -> String {
    format!("{at}. {text}")
}

/// Which thing noticed.
pub fn nth(at: usize) -> String {
    format!("Thing noticed, {at}")
}

/// A report in a list.
pub fn report(by: &str, what: &str) -> String {
    format!("{by}: {what}")
}

/// A symptom in a sentence.
pub fn symptom(told: &Symptom) -> String {
    let mut said = format!("{}, {}", told.what, told.place);
    if let Some(heat) = told.heat {
        said.push_str(&format!(", {}", heat.word()));
    }
    if let Some(pressure) = &told.pressure {
        said.push_str(&format!(", at {pressure}"));
    }
    match told.can_wait {
        Some(true) => said.push_str("; it can wait, the crew says"),
        Some(false) => said.push_str("; it cannot wait, the crew says"),
        None => {}
    }
    said
}

/// The head of a write-up.
pub fn write_up(tag: &str, engine: &str) -> String {
    format!("{tag}: No. {engine}")
}

/// When and by whom.
pub fn written(on: Date, by: &str) -> String {
    format!("Written up {} by {by}.", super::day(on))
}

/// What came of it.
pub fn came_of_it(on: Date, by: &str, seen: &str) -> String {
    format!("Looked at {} by {by}: {seen}", super::day(on))
}

/// What the verb says.
pub fn closed(tag: &str, number: &str, on: Date) -> String {
    format!(
        "{tag}: the daily of No. {number} of {} is closed and signed.",
        super::day(on)
    )
}

/// What the verb says.
pub fn saved(tag: &str, number: &str, open: usize, of: usize) -> String {
    format!("{tag}: the daily of No. {number} is saved; {open} of {of} still open.")
}

/// What the verb says.
pub fn reported(number: &str, on: Date, made: &[String]) -> String {
    if made.is_empty() {
        format!(
            "No. {number}, {}: nothing to report, and that is filed.",
            super::day(on)
        )
    } else {
        format!(
            "No. {number}, {}: written up as {}; she is stopped until somebody has looked.",
            super::day(on),
            made.join(", ")
        )
    }
}

/// What the verb says.
pub fn looked(tag: &str, finding: Option<&str>, open: usize) -> String {
    let what = finding.map_or("no defect".into(), |f| format!("finding {}", f.trim()));
    format!("{tag} is answered: {what}. {open} written up and not looked at.")
}

/// Who gave a notice.
pub fn given(name: &str, office: &str, document: &str) -> String {
    format!("Given by {name}, {office} ({document}).")
}

/// Who lifted it.
pub fn lifted(name: &str, office: &str, day: Date, document: &str) -> String {
    format!(
        "Lifted {} by {name}, {office} ({document}).",
        super::day(day)
    )
}
