//! The log of an engine: its page, what comes in from a file, what papers count.

use jiff::civil::Date;
use shop::book::{DaySet, Stood};

/// Said under what a file would do.
pub const DRY: &str =
    "Nothing was saved: this is what each line would do. With --write it is saved.";
/// Said where every line is in the book.
pub const NOTHING_NEW: &str = "Nothing was saved: there is nothing in it that is not in the book.";
/// Over the page.
pub const LOG: &str = "Log";
/// A link to the whole log.
pub const WHOLE_LOG: &str = "The whole log, what papers count, and logs from a file";
/// Leads back to the engine.
pub const TO_HER: &str = "Her page";
/// A form, folded.
pub const LIST_DAYS: &str = "List service days without times";
/// What the form is for.
pub const LIST_MEANS: &str =
    "Each day is a statement of its own. Use it for days a paper lists and gives no hours for.";
/// A field.
pub const DAYS: &str = "Days";
/// How days are written.
pub const DAYS_SUCH_AS: &str = "such as 2026-05-02, or 2026-05-02..2026-05-04; one a line";
/// A field.
pub const TOLD: &str = "The paper they were read from, or who remembers them";
/// A field.
pub const WHAT_THEY_WERE: &str = "What they were";
/// A button.
pub const SAVE_DAYS: &str = "Save the days";
/// A form, folded.
pub const PAPER_COUNTS: &str = "What a paper counts";
/// What it is for.
pub const COUNT_MEANS: &str = "It counts nothing by itself. It is held against the log, and a difference is told until the log or this is put right.";
/// A field.
pub const SERVICE_DAYS: &str = "Service days";
/// A field.
pub const FROM: &str = "From";
/// A field.
pub const THROUGH: &str = "Through";
/// A field.
pub const DOCUMENT: &str = "The paper";
/// A button.
pub const SAVE_COUNT: &str = "Save the count";
/// Over the table of papers.
pub const PAPERS: &str = "What papers count, beside the log";
/// A column.
pub const PAPER_SAYS: &str = "Paper says";
/// A column.
pub const LOG_HOLDS: &str = "Log holds";
/// A column.
pub const HOW: &str = "Agreement";
/// A column.
pub const ENTRY: &str = "Entry";
/// Of a count.
pub const AGREES: &str = "agrees";
/// Of a count.
pub const DIFFERS: &str = "differs";
/// A column.
pub const DAY: &str = "Day";
/// A column and a field.
pub const OFFERED: &str = "Offered for use";
/// A choice.
pub const NOT_SAID: &str = "not said";
/// A choice.
pub const YES: &str = "yes";
/// A choice.
pub const NO: &str = "no";
/// What to do about a wrong line.
pub const PUT_RIGHT: &str = "A line is never changed. To put one right, use `outshop entry correct` with its entry; the old one stays readable.";
/// A year with nothing in it.
pub const EMPTY: &str = "The book holds no line of these days.";
/// Where to go among the years.
pub const YEARS: &str = "Years of the log";
/// Where notices stand.
pub const NOTICES: &str = "To be looked at";

/// The page that takes files.
pub const FROM_FILE: &str = "A log from a file";
/// What it takes.
pub const TAKES: &str = "A table as CSV in UTF-8, or an XLSX workbook, with words over its columns: engine, date, fire lit, pressure up, fire out, pressure gone, miles, offered for use, service day. What is not written is left blank.";
/// A field.
pub const FILE: &str = "The file";
/// A field.
pub const ENGINE_OF_ALL: &str = "The engine of lines that name none";
/// A field.
pub const ORDER: &str = "Days that do not begin with the year";
/// A choice.
pub const NO_ORDER: &str = "there are none";
/// A choice.
pub const DAY_MONTH: &str = "day, month, year";
/// A choice.
pub const MONTH_DAY: &str = "month, day, year";
/// A field.
pub const SHEET: &str = "The sheet, where a workbook has several";
/// A button.
pub const SHOW_FATES: &str = "Show what each line would do";
/// What the button does.
pub const CHANGES_NOTHING: &str = "This saves nothing yet.";
/// Over the lines.
pub const FATES: &str = "What each line would do";
/// A column.
pub const LINE: &str = "Line";
/// A column.
pub const ENGINE: &str = "Engine";
/// A column.
pub const FATE: &str = "Outcome";
/// A button.
pub const SAVE_IT: &str = "Save these lines";
/// A choice.
pub const LEAVE_OUT: &str = "Leave out the lines that are refused";
/// No file was chosen.
pub const NO_FILE: &str = "No file was sent. Choose one. Nothing was saved.";
/// The body was cut or too large.
pub const NOT_SENT: &str =
    "The file did not come through whole, or it is larger than 4 MB. Nothing was saved.";
/// What was shown is not at hand any more.
pub const FORGOTTEN: &str = "The file is not at hand any more: it is kept for a while only. Send it again. Nothing was saved.";
/// The book has moved on.
pub const CHANGED: &str = "The book has changed since this was shown: look again what each line would do. Nothing was saved.";
/// Over the batches.
pub const BATCHES: &str = "What came in from files and lists";
/// A field.
pub const BECAUSE: &str = "Why it is taken back";
/// A button.
pub const TAKE_BACK: &str = "Take it back";
/// Of a batch.
pub const TAKEN_BACK: &str = "taken back";
/// None.
pub const NO_BATCH: &str = "Nothing yet.";

/// The title of an engine's log.
pub fn title(number: &str) -> String {
    format!("Log of No. {number}")
}

/// Days listed in a line.
fn list(days: &DaySet) -> String {
    let days: Vec<_> = days.iter().map(super::day).collect();
    match days.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first, second] => format!("{first} and {second}"),
        [first, .., last] => format!("{} days, {first} through {last}", days.len()),
    }
}

/// A line that is taken: the days it makes.
pub fn taken(least: &DaySet, most: &DaySet) -> String {
    let doubt = most.without(least);
    match (least.is_empty(), doubt.is_empty()) {
        (true, true) => "taken: no service day".into(),
        (false, true) => format!("taken: {}", list(least)),
        (true, false) => format!("taken, cannot tell: {} may have been", list(&doubt)),
        (false, false) => format!(
            "taken: {}; cannot tell: {} may have been too",
            list(least),
            list(&doubt)
        ),
    }
}

/// A line that says the same as the book.
pub fn again(at: &str) -> String {
    format!("in the book already: {at}")
}

/// A line that is refused.
pub fn refused(why: &str) -> String {
    format!("refused: {why}")
}

/// The sum of the lines.
pub fn sum([taken, again, nothing, refused]: [usize; 4], passed_over: usize) -> String {
    let mut said = vec![
        format!("{} taken", super::count(taken, "line", "lines")),
        format!("{again} in the book already"),
    ];
    if nothing > 0 {
        said.push(format!("{nothing} that say nothing"));
    }
    said.push(format!("{refused} refused"));
    if passed_over > 0 {
        said.push(format!("{passed_over} blank or repeated headings"));
    }
    format!("{}.", said.join(", "))
}

/// What the taken lines add to a log.
pub fn adds(number: &str, days: usize, doubt: usize) -> String {
    let days = super::count(days, "service day", "service days");
    if doubt == 0 {
        format!("No. {number}: {days} more.")
    } else {
        format!("No. {number}: {days} more, and {doubt} that cannot be told.")
    }
}

/// Columns that nobody reads.
pub fn not_read(words: &[String]) -> String {
    format!("Columns not read: {}.", words.join(", "))
}

/// Why nothing was saved.
pub fn held_back<'w>(refused: usize, lines: impl Iterator<Item = (u32, &'w str)>) -> String {
    const SHOWN: usize = 8;
    let mut said = format!(
        "{} refused, and all are held back: put them right, or leave them out.",
        super::count(refused, "line is", "lines are")
    );
    for (place, why) in lines.take(SHOWN) {
        said.push_str(&format!("\n  - line {place}: {why}"));
    }
    if refused > SHOWN {
        said.push_str(&format!("\n  - and {} more", refused - SHOWN));
    }
    said
}

/// That a file came in.
pub fn came_in(batch: &str) -> String {
    format!("Saved as batch {batch}; `outshop entry withdraw` takes it back whole.")
}

/// That days were listed.
pub fn days_listed(number: &str, taken: usize, again: usize, stood: Stood) -> String {
    let taken = match stood {
        Stood::ServiceDay => super::count(taken, "service day", "service days"),
        Stood::CannotTell => super::count(
            taken,
            "day that may have been a service day",
            "days that may have been service days",
        ),
        Stood::NoServiceDay => super::count(
            taken,
            "day that was no service day",
            "days that were no service days",
        ),
    };
    let already = if again > 0 {
        let days = super::count(again, "day was", "days were");
        format!("; {days} in the book already")
    } else {
        String::new()
    };
    format!("No. {number}: {taken} listed{already}.")
}

/// What a day told without times was.
pub fn stood(stood: Stood) -> &'static str {
    match stood {
        Stood::ServiceDay => "a service day",
        Stood::CannotTell => "cannot tell",
        Stood::NoServiceDay => "no service day",
    }
}

/// A day told without times, in the log.
pub fn told_day(what: Stood, told: &str) -> String {
    format!("{}, no hours written ({told})", stood(what))
}

/// The span of a paper.
pub fn span(from: Date, through: Date) -> String {
    format!("{} through {}", super::day(from), super::day(through))
}

/// Least and most.
pub fn range(least: u32, most: u32) -> String {
    if least == most {
        least.to_string()
    } else {
        format!("{least} to {most}")
    }
}

/// How many service days a year of the log holds.
pub fn year(year: i16, least: usize, most: usize) -> String {
    let days = if least == most {
        super::count(least, "service day", "service days")
    } else {
        format!("{least} to {most} service days")
    };
    format!("{year}: {days}")
}

/// A batch as a line.
pub fn batch(number: &str, entries: u64, first: u64, last: u64, on: &str, by: &str) -> String {
    match entries {
        1 => format!("{number}: entry {first}, entered {on} by {by}"),
        _ => format!("{number}: {entries} entries, {first} to {last}, entered {on} by {by}"),
    }
}

/// That it was saved.
pub fn saved(lines: usize, batch: &str) -> String {
    format!(
        "{} saved as batch {batch}.",
        super::count(lines, "line", "lines")
    )
}
