//! Finding things by their words.

use jiff::civil::Date;
use shop::book::RowKind;

use super::{day, engine};

/// A kind of thing, in the plural.
pub fn kind(kind: RowKind) -> &'static str {
    match kind {
        RowKind::Locomotive => "Engines",
        RowKind::Part => "Parts",
        RowKind::Readings => "Readings",
        RowKind::Tooling => "Tooling",
        RowKind::Instrument => "Instruments",
        RowKind::Spare => "Spares",
        RowKind::Lathe => "Lathes",
        RowKind::Card => "Lathe cards",
        RowKind::Letter => "Letters",
        RowKind::Boiler => "Boilers",
        RowKind::Photo => "Photographs and scans",
        RowKind::Inspection => "Inspections",
        RowKind::Report => "Write-ups",
        RowKind::Finding => "Findings and decisions",
        RowKind::Job => "Jobs and their sheets",
        RowKind::Person => "People",
        RowKind::RuleHeld => "Rules held against the law's text",
        RowKind::Shop | RowKind::Family | RowKind::RuleSet | RowKind::Fire | RowKind::Log => {
            "Others"
        }
    }
}

/// Over the things of one kind.
pub fn head(title: &str, count: usize) -> String {
    format!("{title} ({count})")
}

/// Where it stands, and what stands there; a long text is cut where it can be.
pub fn stands(field: &str, said: &str) -> String {
    const MOST: usize = 220;
    let field = field.replace('_', " ");
    let short: String = said.chars().take(MOST).collect();
    let cut = if said.chars().count() > MOST {
        " ..."
    } else {
        ""
    };
    let short = short.split_whitespace().collect::<Vec<_>>().join(" ");
    format!("{field}: {short}{cut}")
}

/// Those that are not shown.
pub fn more(count: usize) -> String {
    format!("and {count} more: another word would part them")
}

/// Nothing says it.
pub fn nothing(asked: &str) -> String {
    format!("Nothing in this book says all of `{asked}`. Fewer words find more.")
}

/// No word.
pub const NO_WORD: &str = "Say what is to be found: a word, a number, a size.";
/// A set of readings.
pub fn readings(number: &str, part: &str, on: Date, state: &str) -> String {
    format!("{} {part}, {} {state}", engine(number), day(on))
}

/// A crew's report.
pub fn report(number: &str, on: Date, first: Option<&str>) -> String {
    let first = first.map_or(String::new(), |first| format!("{first}, "));
    format!("{first}{} on {}", engine(number), day(on))
}

/// A group.
pub const RULES: &str = "Rules";
/// A group.
pub const SHEETS: &str = "Worked sheets";
/// Where a rule says it.
pub const RULE: &str = "rule";
/// Where a sheet says it.
pub const SHEET: &str = "sheet";
/// The page, and the box in the head of every page.
pub const TITLE: &str = "Find";
/// What the box asks for.
pub const WORDS: &str = "Find words, numbers, sizes";
/// Under the title of the page.
pub const LEAD: &str = "Everything that was ever said here: parts, readings, findings, jobs, tools, spares, letters, people, rules. A size is found however it was written, 10/64 as 5/32.";
