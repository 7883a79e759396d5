//! The yearly report of service days, and the report of work on a boiler.

use jiff::civil::Date;

/// Over the yearly report.
pub const YEAR: &str = "Report of a year";
/// A fact.
pub const OF_YEAR: &str = "Year";
/// A part.
pub const DAYS: &str = "Day by day, as the log has it";
/// Columns.
pub const DAY_HEADS: &[&str] = &["Month", "Service days", "Which days"];
/// What a service day is.
pub const A_SERVICE_DAY: &str = "A service day is a calendar day on any part of which fire and pressure above the \
                                 atmosphere stood together (49 CFR 230.8). A day that nobody closed in the log is not a \
                                 cold day.";
/// A part.
pub const SINCE: &str = "Service days since the last inspections";
/// Columns.
pub const SINCE_HEADS: &[&str] = &["Since the last", "Service days", "How it was counted"];
/// A field.
pub const NUMBER: &str = "Number and initials of the engine";
/// A field.
pub const OWNERS: &str = "Owner and operator";
/// A field.
pub const OTHERS: &str = "The other fields of the form as printed";
/// A month without one.
pub const NONE: &str = "none";
/// A month that has not begun.
pub const TO_COME: &str = "to come";
/// Nothing is missing.
pub const NOTHING_MISSING: &str =
    "Every day of the year is settled in the log, and what the shop says of itself is stated.";
/// Who signs.
pub const SIGNERS: &[&[&str]] = &[&["for the owner or operator, by hand", "day"]];
/// What is told of who signs.
pub const NO_SIGNER: &str = "The text names who files this report and nobody who signs it.";
/// Over the report of boiler work.
pub const WORK: &str = "Report of work on the boiler";
/// A fact.
pub const BOILER: &str = "Boiler number";
/// A fact.
pub const COMPLETED: &str = "Completed";
/// A fact.
pub const IT_WAS: &str = "Reported as";
/// A fact.
pub const WORKED_TO: &str = "Worked to";
/// Not completed.
pub const NOT_COMPLETED: &str = "not completed: the job is open";
/// Nothing is missing.
pub const NOTHING_MISSING_OF_WORK: &str =
    "The job is closed, its day is stated; the empty boxes are what this book does not hold.";
/// A part.
pub const DESCRIBED: &str = "The work, described";
/// A part.
pub const DONE: &str = "What was done, in its order";
/// Columns.
pub const DONE_HEADS: &[&str] = &["Step", "Done", "What was said of it"];
/// Nobody has done it.
pub const NOT_DONE: &str = "not done";
/// A part.
pub const READINGS: &str = "Read before and after";
/// Columns.
pub const READING_HEADS: &[&str] = &["What", "Where", "As found", "As left"];
/// A part.
pub const PROOFS: &str = "Proofs";
/// Columns.
pub const PROOF_HEADS: &[&str] = &["Proof", "Answer", "What was seen, by whom"];
/// No answer.
pub const NO_PROOF: &str = "not made";
/// A part.
pub const BY_HAND: &str = "What this book does not hold";
/// Boxes.
pub const HAND_BOXES: &[&[&str]] = &[
    &["place on the boiler, and drawing or sketch attached"],
    &["material of plate and parts, heat number, proof attached"],
    &["standard or practice followed", "welding procedure"],
    &["welder or riveter", "qualified on, by whom"],
    &["what changes on the specification card (Form 4)"],
];
/// A part.
pub const BEFOREHAND: &str = "Approvals asked before such work";
/// What to make of the list.
pub const BEFOREHAND_NOTE: &str = "Whether this work is of one of these kinds, a person who is qualified says; this \
                                   program does not know where on the boiler it was, nor the carbon of the plate.";
/// Columns.
pub const BEFOREHAND_HEADS: &[&str] = &["Approval", "When it is asked", "Section", "Got on, by"];
/// A part.
pub const IN_BOOK: &str = "Signed";

/// Which work it is said to be.
pub fn said_to_be(kind: &str) -> String {
    format!("{}, as whoever printed this says", kind.replace('-', " "))
}

/// The link to the report of a year.
pub fn print_year(year: i16) -> String {
    format!("Print the report of {year}")
}

/// The link to the report of boiler work, of one kind.
pub fn print_work(kind: &str) -> String {
    format!("as {}", kind.replace('-', " "))
}

/// Before those links.
pub const PRINT_WORK: &str = "Was it work on the boiler? Print its report:";

/// Title of the yearly report.
pub fn year_title(number: &str, year: i16) -> String {
    format!("Service days of No. {number} in {year}")
}

/// Title of the report of boiler work.
pub fn work_title(tag: &str, kind: &str) -> String {
    format!("{tag}: {}", kind.replace('-', " "))
}

/// No report of a year is asked of her.
pub fn no_year(number: &str) -> String {
    format!(
        "The rules that bind No. {number} ask for no report of a year's service days. Nothing was printed."
    )
}

/// A year that has not come, or is no year.
pub fn no_such_year(typed: &str, this: i16) -> String {
    format!(
        "`{typed}` is no year that can be reported: one through {this} was expected, such as {}. Nothing was printed.",
        this - 1
    )
}

/// A kind of work that the law asks no report of.
pub fn no_such_work(typed: &str, known: &[String]) -> String {
    let known = match known {
        [] => "the rules that bind her ask for no report of such work".to_owned(),
        known => format!("{} was expected", known.join(" or ")),
    };
    format!("`{typed}` is no work that is reported: {known}. Nothing was printed.")
}

/// The year runs.
pub fn runs(on: Date) -> String {
    format!(
        "The year is not over: the days are counted through {}.",
        super::day(on)
    )
}

/// Days nobody has settled.
pub fn unsettled(days: usize, which: &str, log: Option<Date>) -> String {
    let log = log.map_or("was never closed".to_owned(), |day| {
        format!("is closed through {}", super::day(day))
    });
    format!(
        "{} of the year may have been service days and nobody has settled it: {which}. The log {log}.",
        super::count(days, "day", "days")
    )
}

/// Days here and there in a span.
pub fn between(first: Date, last: Date) -> String {
    format!(
        "all of them between {} and {}",
        super::day(first),
        super::day(last)
    )
}

/// A count that may be one of several.
pub fn how_many(least: usize, most: usize) -> String {
    if least == most {
        return super::count(least, "service day", "service days");
    }
    format!("cannot tell: {least} to {most} service days; the log settles it")
}

/// A month, by any of its days.
pub fn month(day: Date) -> String {
    day.strftime("%B").to_string()
}

/// The days of a month, and those that may have been.
pub fn days_of_month(sure: &str, perhaps: &str) -> String {
    match (sure, perhaps) {
        ("", "") => String::new(),
        (sure, "") => sure.to_owned(),
        ("", perhaps) => format!("perhaps {perhaps}"),
        (sure, perhaps) => format!("{sure}; perhaps {perhaps}"),
    }
}

/// Counted since something.
pub fn since(counted: &str, on: Option<Date>) -> String {
    let since = on.map_or("no day is known".into(), super::day);
    format!("{counted} (since {since})")
}

/// Nobody has stated the day of completion, so that no deadline stands among the dates.
pub fn not_stated(word: &str, engine: &str, job: &str, on: Option<Date>) -> String {
    let day = on.map_or("DAY".to_owned(), |on| on.to_string());
    format!(
        "The day of completion is not stated in this book, so its deadline stands on no list. It is stated by: outshop \
         locomotive day {engine} {word} {day} --document {job}"
    )
}

/// The last day by the day the job was closed.
pub fn by_the_job(what: &str, to: &str, by: Date, closed: Date) -> String {
    format!(
        "{what} to {to}: by {}, counted from the day the job was closed, {}.",
        super::day(by),
        super::day(closed)
    )
}

/// A paper that is kept and not sent, or whose day cannot be told.
pub fn goes(what: &str, to: &str) -> String {
    format!("{what}: {to}.")
}
