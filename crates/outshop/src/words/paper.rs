//! The papers of an inspection: the sheet to write on, the report, the tag.

use jiff::civil::Date;

/// What governs.
pub const GOVERNS: &str = "The official form and the text of the law in force govern; this paper is a help to them \
                           and takes the place of neither.";
/// Over the cautions.
pub const CAUTIONS: &str = "Before anybody reaches in";
/// What can hurt at any inspection. Usual practice of the trade.
pub const AT_WORK: &[&str] = &[
    "Boiler, pipe or reservoir: no plug, stud, gland or union is loosened, tightened or struck under pressure. Prove \
     that there is none, and let it cool.",
    "Firebox, smoke box, barrel, tank: go in only by the shop's entry permit, with the air tested, the steam and the \
     engine's movement locked out, and somebody outside.",
    "Wheels are chocked and the track protected before anybody goes under or between.",
    "Local codes, the shop's own rules and licensed people come before this sheet.",
];
/// Over the sheet.
pub const SHEET: &str = "Sheet to write on";
/// Over the report.
pub const REPORT: &str = "Report of an inspection";
/// Over the tag.
pub const TAG: &str = "Tag";
/// The link to a sheet.
pub const PRINT_SHEET: &str = "Print the sheet to write on";
/// The link to a report.
pub const PRINT_REPORT: &str = "Print the report";
/// The link to a tag.
pub const PRINT_TAG: &str = "Print the tag for moving her as she is";
/// Before the links to sheets.
pub const SHEETS: &str = "Print a sheet to write on:";
/// A fact.
pub const ENGINE: &str = "Engine";
/// A fact.
pub const KIND: &str = "Inspection";
/// A fact.
pub const LAW: &str = "Law, as read";
/// A fact.
pub const MAWP: &str = "MAWP";
/// A fact.
pub const LOG: &str = "Log closed through";
/// A fact.
pub const OPENED: &str = "Opened";
/// A fact.
pub const CLOSED: &str = "Closed";
/// A fact.
pub const CLOCKS_FROM: &str = "Clocks after it";
/// A fact the book lacks.
pub const NOT_STATED: &str = "not stated in this book";
/// A log nobody closed.
pub const NEVER_CLOSED: &str = "never closed";
/// Of an engine whose rules count no service days.
pub const NO_LOG: &str = "none is kept: her clocks count days of the calendar";
/// An inspection that is open.
pub const OPEN: &str = "not closed: nobody has signed it";

/// A part.
pub const FILLED_IN: &str = "How it is filled in";
/// How a sheet is filled in.
pub const HOW: &[&str] = &[
    "What was seen is written with its figures, item by item. No word answers them all.",
    "An item nobody looked at stays empty.",
    "A defect is written as it was found, then recorded as a finding; its number, such as F-001, goes beside it.",
    "What each person saw, that person enters or signs.",
];
/// A part.
pub const WHEN_WHERE: &str = "When and where";
/// Boxes.
pub const WHEN_BOXES: &[&[&str]] = &[
    &["day begun", "day finished", "hour"],
    &["place", "initials and owner or operator"],
    &[
        "state she was in: cold, in steam, pressure",
        "read at the gauge, with what",
    ],
];
/// A part.
pub const CLOCKS: &str = "Her clocks on this day";
/// Columns.
pub const CLOCK_HEADS: &[&str] = &["Clock", "It", "Why", "Section"];
/// Of a clock.
pub const STOPS: &str = "stops her";
/// Of a clock.
pub const RUNS: &str = "runs";
/// Of a clock.
pub const EACH_DAY: &str = "each day";
/// Of a clock.
pub const CANNOT_TELL: &str = "cannot tell";
/// The words of the boxes of an item.
pub const ITEM_BOXES: [&str; 4] = ["condition", "what was seen", "who looked", "day"];
/// Of an item that is starred in the appendix.
pub const START_OF_DAY: &str = "Looked at at the start of each day of use.";
/// Of an item that only the text asks for.
pub const TEXT_ONLY: &str =
    "The text of the section asks for it; it is on no list of the appendix.";
/// A part.
pub const DEFECTS_FOUND: &str = "Defects found";
/// Boxes.
pub const DEFECT_BOXES: &[&str] = &["item and what is wrong", "finding", "put right by, how"];
/// A part.
pub const SIGNED: &str = "Signed";
/// Boxes.
pub const SHEET_SIGNERS: &[&[&str]] = &[
    &["inspector", "day"],
    &["entered in the book by, as inspection I-", "day"],
];

/// A part.
pub const ANSWERS: &str = "What was looked at";
/// Columns.
pub const ANSWER_HEADS: &[&str] = &["Item", "Section", "Answer", "What was seen, by whom"];
/// No answer.
pub const UNANSWERED: &str = "not answered";
/// A part.
pub const DEFECTS: &str = "Defects, and what became of them";
/// None.
pub const NO_DEFECTS: &str = "No finding in this book hangs on this inspection.";
/// A part.
pub const MISSING: &str = "What is missing";
/// None.
pub const NOTHING_MISSING: &str = "Every item is answered and the inspection is signed; below, empty boxes are what this book does not hold.";
/// Columns.
pub const FIELD_HEADS: &[&str] = &["Asked", "Section", "This book says, or room to write"];
/// Where the form as printed was not read.
pub const NOT_READ: &str = "not read: see the official form";
/// A part.
pub const DEADLINES: &str = "Where it goes, and by when";
/// Columns.
pub const DEADLINE_HEADS: &[&str] = &["Paper", "To", "How it stands", "Section"];
/// A part.
pub const KEPT: &str = "How long it is kept";

/// Words tied to an engine that does not comply, as 49 CFR 230.12(b) asks.
pub const NON_COMPLYING: &str = "NON-COMPLYING LOCOMOTIVE";
/// A fact of the tag.
pub const FOUND_BY: &str = "Found by";
/// A part of the tag.
pub const INSPECTED: &str = "Who inspected her, where and when";
/// Boxes of the tag.
pub const INSPECTED_BOXES: &[&[&str]] = &[&[
    "inspecting entity",
    "place of the inspection",
    "day of the inspection",
]];
/// A part of the tag.
pub const DEFECT: &str = "The defect";
/// Nothing in the book.
pub const NO_STOP: &str = "This book holds no finding and no clock that stops her on this day. What is wrong is written below.";
/// Boxes of the tag.
pub const MORE_DEFECTS: &[&[&str]] = &[&["more, or otherwise"]];
/// A part of the tag.
pub const LIMITS: &str = "Limits of the move, and where she goes";
/// Boxes of the tag.
pub const LIMIT_BOXES: &[&[&str]] = &[
    &["top speed", "lite or in tow", "destination, for repair"],
    &["other limits"],
];
/// A part of the tag.
pub const DECIDED: &str = "Decided that the move is safe";
/// Boxes of the tag.
pub const DECIDED_BOXES: &[&[&str]] = &[&["signature of the person who decided", "day and hour"]];
/// Who decides.
pub const DECIDED_NOTE: &str = "A person decides and signs by hand; this program decides nothing.";
/// A part of the tag.
pub const BEFORE: &str = "Before she moves";
/// A part of the tag.
pub const DEFECT_ON: &str = "The defects, all of them";
/// A part of the tag.
pub const NOT_FILLED: &str = "Not filled in";
/// Nothing was decided.
pub const NO_MOVE: &str = "No decision on a move of hers is open in this book: the boxes for the inspection, the limits and the destination are for a pen.";
/// No inspection was named.
pub const NO_INSPECTION: &str =
    "The decision names no inspection: who inspected her, where and when is for a pen.";
/// A fact of the tag.
pub const INSPECTED_SHORT: &str = "Inspected by";
/// A fact of the tag.
pub const THE_MOVE: &str = "The move";
/// A fact of the tag.
pub const TOP_SPEED: &str = "Top speed";
/// A fact of the tag.
pub const DECIDED_BY: &str = "Decided in this book";

/// A speed.
pub fn mph(top: u32) -> String {
    format!("{top} mph")
}

/// More defects than the first page holds.
pub fn overleaf(more: usize, all: usize) -> String {
    format!(
        "And {} overleaf, where all {all} stand.",
        super::count(more, "more", "more")
    )
}

/// Boxes of a report.
pub const REPORT_SIGNERS: &[&[&str]] = &[
    &["inspector, by hand", "day"],
    &["for the owner or operator, by hand", "day"],
];

/// Who signed in the book.
pub fn in_book(signature: &str) -> String {
    format!("In this book: {signature}.")
}

/// Title of a sheet.
pub fn sheet_title(kind: &str) -> String {
    format!("The {kind} inspection")
}

/// Title of a report.
pub fn report_title(tag: &str, kind: &str) -> String {
    format!("{tag}: the {kind} inspection")
}

/// Title of a tag.
pub fn tag_title(number: &str) -> String {
    format!("No. {number} does not comply")
}

/// A kind and what it means.
pub fn kind(word: &str, meaning: &str) -> String {
    format!("{word}: {meaning}")
}

/// The number of an engine and her wheels.
pub fn engine(number: &str, wheels: &str) -> String {
    format!("No. {number}, {wheels}")
}

/// A pressure.
pub fn psi(mawp: u32) -> String {
    format!("{mawp} psi gauge")
}

/// Part and editions of the law.
pub fn law(part: &str, editions: &str) -> String {
    format!("{part}, edition {editions}")
}

/// A list of items; of a set that is not the law inside this program, whose it is.
pub fn list(word: &str, meaning: &str, whose: &str) -> String {
    let whose = match whose {
        "" => String::new(),
        whose => format!(", by {whose}"),
    };
    format!("Asked at the {word}{whose}: {meaning}")
}

/// The words of condition of a federal form.
pub fn conditions(words: &[(&str, &str)]) -> String {
    let all: Vec<_> = words
        .iter()
        .map(|(word, means)| format!("{word}, {means}"))
        .collect();
    format!("Words of condition on Form 1: {}.", all.join("; "))
}

/// When an item may be left out.
pub fn except(told: &str) -> String {
    format!("May be left out: {told}.")
}

/// A limit.
pub fn limit(said: &str, section: &str) -> String {
    format!("{said} ({section})")
}

/// The limits of an item.
pub fn held_against(limits: &[String]) -> Option<String> {
    (!limits.is_empty()).then(|| format!("Limits: {}.", limits.join("; ")))
}

/// More limits than the sheet has room for.
pub fn limits(n: usize, rule: &str) -> String {
    format!("{n} limits of the rulebook are held against it; outshop rule {rule} names them.")
}

/// A fitting known to be there.
pub fn fitted(meaning: &str, who: &str) -> String {
    format!("Fitted, {who}: {meaning}")
}

/// A fitting known not to be there.
pub fn absent(meaning: &str, who: &str) -> String {
    format!("Not fitted, {who}: {meaning}. If she has one, put her entry right first.")
}

/// A fitting nobody has spoken of.
pub fn not_said(meaning: &str) -> String {
    format!("Not said whether fitted: {meaning}. Until somebody says so, the item stands.")
}

/// Who stated something, when and in which entry.
pub fn says(name: &str, on: Date, entry: u64) -> String {
    format!("as {name} stated on {} (entry {entry})", super::day(on))
}

/// A statement whose entry does not read.
pub const SAYS_THE_BOOK: &str = "as her entry says";

/// By whom and when.
pub fn by(on: Date, name: &str) -> String {
    format!("{} by {name}", super::day(on))
}

/// What was seen, by whom, when.
pub fn seen(told: &str, name: &str, on: Date) -> String {
    format!("{told}\n{name}, {}", super::day(on))
}

/// An answer that names a finding.
pub fn defect(tag: &str) -> String {
    format!("defect {tag}")
}

/// Items by number with their answers.
pub fn item(at: usize, answer: &str) -> String {
    format!("item {at}: {answer}")
}

/// The day the clocks run from.
pub fn run_from(day: Date, reading: &str, by: &str) -> String {
    format!("run from {}: {reading} ({by})", super::day(day))
}

/// The one day of an inspection.
pub fn run_from_its_day(day: Date) -> String {
    format!("run from {}", super::day(day))
}

/// Nobody has stated the day.
pub fn no_anchor(first: Date, last: Date) -> String {
    format!(
        "nobody has stated which day, {} to {}, starts the clocks after it: they count by the worst of them",
        super::day(first),
        super::day(last)
    )
}

/// What is missing of a closed inspection, as a sentence.
pub fn still_open(tag: &str) -> String {
    format!("{tag} is not closed and not signed.")
}

/// A finding: its part and its finder.
pub fn found(part: &str, on: Date, by: &str) -> String {
    format!("{part}, found {} by {by}", super::day(on))
}

/// A decision.
pub fn decided(route: &str, on: Date, by: &str, because: &str) -> String {
    format!(
        "Decided {} by {by}: {route}, because {because}",
        super::day(on)
    )
}

/// A job.
pub fn job(tag: &str, title: &str) -> String {
    format!("{tag}: {title}")
}

/// A job closed.
pub fn job_closed(on: Date, by: &str) -> String {
    format!("Closed {} by {by}.", super::day(on))
}

/// Work done by somebody.
pub fn worked(names: &[&str]) -> String {
    format!("Worked on by {}.", names.join(", "))
}

/// A signature.
pub fn signature(capacity: &str, name: &str, on: Date) -> String {
    format!("{capacity}: {name}, {}", super::day(on))
}

/// Words over the columns of defects.
pub const FINDING_HEADS: &[&str] = &["Finding", "What was found", "What became of it"];

/// A signature nobody has given.
pub fn no_signature(capacity: &str) -> String {
    format!("{capacity}: nobody has signed")
}

/// No item of this inspection answers a field.
pub const NOT_ASKED: &str = "no item of this inspection asks it";

/// The last inspection of a kind before this one.
pub fn last(kind: &str, on: Date) -> String {
    format!("the {kind} of {}", super::day(on))
}

/// An engine's number and her initials, or room for them.
pub fn number_and_initials(number: &str, initials: Option<&str>) -> String {
    format!("No. {number}; initials: {}", initials.unwrap_or_default())
        .trim_end()
        .into()
}

/// Over a report of an inspection that was put away.
pub const NOT_COMPLETED: &str = "NOT COMPLETED";
/// A fact that is asked of an inspection.
pub const TIME_OF_DAY: &str = "the time of day";

/// Place, days and time of day; what nobody said is room for a pen.
pub fn made(place: Option<&str>, days: &str, at: Option<&str>) -> String {
    let said = |text: Option<&str>| text.unwrap_or(NOT_STATED).to_string();
    format!("place: {}\n{days}\ntime: {}", said(place), said(at))
}

/// One thing the shop says of itself on its papers.
pub fn stated(means: &str, says: Option<&str>) -> String {
    format!("{means}: {}", says.unwrap_or(NOT_STATED))
}

/// What nobody stated.
pub fn unstated(all: &[&str]) -> String {
    format!(
        "Asked by the papers and not stated in this book: {}.",
        all.join("; ")
    )
}

/// A rulebook without a tag.
pub fn no_tag(number: &str, rulebook: &str) -> String {
    format!(
        "The rules of No. {number}, {rulebook}, hold none of a tag for moving her: an engine under us-steam was \
         expected. Nothing was printed."
    )
}

/// A lapsed clock or a finding on a tag.
pub fn stop(why: &str, since: Date) -> String {
    format!("{} (since {})", super::sentence(why), super::day(since))
}

/// Beside a signature.
pub const SIGNED_ON: &str = "day and hour";

/// How a rule was read, where, and how well it is known.
pub fn read_as(reading: &str, section: &str, mark: &str) -> String {
    format!(
        "{reading} Section {section}; {mark}. An empty box is for a pen: this book does not hold it."
    )
}

/// How a rule was read, with its section.
pub fn reading(reading: &str, section: &str) -> String {
    format!("{reading} ({section})")
}

/// The days of an inspection.
pub fn dates(first: Date, closed: Option<Date>) -> String {
    match closed {
        Some(day) if day == first => super::day(day),
        Some(day) => format!("{} to {}", super::day(first), super::day(day)),
        None => format!("begun {}; not closed", super::day(first)),
    }
}

/// A finding in the finder's words, and how far it has come.
pub fn told(tag: &str, told: &str, state: &str) -> String {
    format!("{tag}: {told}. {state}")
}

/// A symptom that nobody has looked at.
pub const NOT_LOOKED_AT: &str = "nobody has looked yet";

/// What a crew wrote up.
pub fn written_up(number: u32, place: &str, what: &str, looked: &str) -> String {
    format!(
        "Write-up {}, {place}: {what}; {looked}",
        super::tag::write_up(number)
    )
}

/// No finding.
pub const NONE_IN_BOOK: &str = "none in this book";

/// No paper has a day.
pub const NO_DEADLINE: &str =
    "No paper about this inspection has a day of its own yet; the rules above say what is asked.";

/// How long a paper is kept.
pub fn kept(why: &str, section: &str) -> String {
    format!("{} ({section})", super::sentence(why))
}

/// What is left on a clock that runs.
pub fn left(left: i64, unit: &str) -> String {
    format!("{left} {unit} left")
}

/// A paper of a smaller inspection within a larger one.
pub fn contained(kind: &str, note: &str) -> String {
    format!(
        "The {kind} contains this work, so its fields stand here; whether this paper is wanted beside its own, the \
         section says. {note}"
    )
}
