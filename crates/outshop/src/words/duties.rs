//! Every paper that the law asks of one engine, on one page.

use jiff::civil::Date;
use shop::book::{Book, Locomotive};
use shop::clock::{Duty, DutyOf, Paper};

/// The link to the page.
pub const HER_PAPERS: &str = "Papers the law asks of her";
/// Over the paper.
pub const OVER: &str = "What must stand on her, what goes where, what is kept";
/// Columns.
pub const HEADS: &[&str] = &[
    "Paper",
    "Where",
    "By when, or how long",
    "As this book stands",
    "Section",
];
/// Nothing.
pub const NOTHING_CALLS: &str = "nothing in this book has called for it";
/// Something that stands on her, and no entry speaks of it.
pub const ON_HER: &str = "look on her: the book does not hold whether it is there";
/// A paper that is kept.
pub const KEPT: &str = "look where it lies: the book does not hold it";
/// Nothing under a head.
pub const NONE: &str = "Her rules in this book ask for none.";
/// What is not known.
pub const NOT_KNOWN: &str = "What this book does not hold";
/// A fact nobody stated.
pub const REPORT_PLACE: &str =
    "The place where daily reports are filed and kept is not stated in this book.";
/// A fact nobody stated.
pub const REGION: &str =
    "The regional office that reports are filed with is not stated in this book.";
/// Nothing is missing.
pub const ALL_STATED: &str = "What the list needs of the shop is stated.";
/// The link to the paper.
pub const PRINT: &str = "Print this page for the cab or the office";
/// The link to another paper.
pub const PRINT_HYDRO: &str = "Print the sheet for her hydrostatic and steam test";
/// How to record one.
pub const TO_RECORD: &str = "A paper that went is recorded by `outshop inspect filed`; nothing is done because a day is past.";

/// More days than these are counted and not named.
const MOST_DAYS: usize = 8;

/// What the list needs of the shop and nobody has stated on a day, or that all of it is; and the days in steam without
/// a daily inspection.
pub fn missing(book: &Book, engine: &Locomotive, no_daily: &[Date], on: Date) -> Vec<String> {
    let mut all = vec![("report-place", REPORT_PLACE), ("region", REGION)];
    all.retain(|(what, _)| book.particular(engine, what, on).is_none());
    let mut said: Vec<String> = all.into_iter().map(|(_, why)| why.to_owned()).collect();
    if said.is_empty() {
        said.push(ALL_STATED.into());
    }
    if !no_daily.is_empty() {
        let newest = no_daily.iter().rev().take(MOST_DAYS);
        let newest: Vec<_> = newest.map(|day| super::day(*day)).collect();
        let more = match no_daily.len().saturating_sub(MOST_DAYS) {
            0 => String::new(),
            more => format!(" and {more} before them"),
        };
        said.push(format!(
            "The log has her in steam and this book holds no daily inspection, of days whose report must still be \
             there: {}{more}. Look for them on paper.",
            newest.join(", ")
        ));
    }
    said
}

/// Title of page and paper.
pub fn title(number: &str) -> String {
    format!("Papers the law asks of No. {number}")
}

/// One of the three questions.
pub fn of(of: DutyOf) -> &'static str {
    match of {
        DutyOf::OnHer => "What must stand in her cab or on herself",
        DutyOf::Goes => "What goes where, by when",
        DutyOf::Kept => "What is kept, and how long",
    }
}

/// Where it goes.
pub fn places(all: &[String]) -> String {
    all.join("; ")
}

/// How it stands: the newest that is not done, else the newest.
pub fn stands(duty: &Duty) -> String {
    let said = |paper: &Paper| super::sentence(&paper.why);
    let open: Vec<_> = duty.stands.iter().filter(|it| it.done.is_none()).collect();
    match (open.as_slice(), duty.stands.last()) {
        ([], Some(last)) => said(last),
        ([], None) if duty.of == DutyOf::Kept => KEPT.into(),
        ([], None) if duty.of == DutyOf::OnHer => ON_HER.into(),
        ([], None) => NOTHING_CALLS.into(),
        (open, _) => {
            let all: Vec<_> = open.iter().map(|paper| said(paper)).collect();
            all.join("\n")
        }
    }
}
