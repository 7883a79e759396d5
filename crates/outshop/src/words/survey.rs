//! A survey as it is entered: from a file, square by square at the bench.

use jiff::civil::Date;

/// A remark, for whoever typed none.
pub const A_REMARK: &str = "a word on a square, such as 6,4=pitted";
/// A line of a file that names no row.
pub const NO_NAME: &str = "The line does not name its row: its first value was expected to.";
/// Under the lines of a file that cannot be entered.
pub const NOT_AS_IT_STANDS: &str =
    "It cannot be entered as it stands: put the lines right. Nothing is changed.\n";
/// A survey that the book has.
pub const AGAIN: &str =
    "This survey is in the book already: the same day, the same squares. Nothing was saved.";

/// The title of the page, and the way there.
pub const FROM_FILE: &str = "A survey from a file";
/// What it takes.
pub const FILE_TAKES: &str = "A table as CSV in UTF-8, or an XLSX workbook: the first line names the columns, the first value of each line its row. A reading is \
a decimal in the unit said; - or an empty cell was not read, x has no plate there. Every line is shown before anything is kept, and one that does not read \
holds back all.";
/// A field.
pub const OF_ENGINE: &str = "Engine";
/// No choice yet.
pub const CHOOSE: &str = "choose";
/// A field.
pub const DAY_READ: &str = "The day it was read";
/// The day is missing.
pub const DAY_NEEDED: &str = "Say on which day the squares were read. Nothing was saved.";
/// A choice.
pub const UNIT: &str = "Unit of all readings";
/// The choices.
pub const UNITS: [(&str, &str); 2] = [("in", "inches"), ("mm", "millimeters")];
/// A hint.
pub const SOURCE_HINT: &str = "rows by the clock from the left seam; A. Quill";
/// A field.
pub const INSTRUMENT: &str = "The gauge";
/// A hint.
pub const INSTRUMENT_HINT: &str = "if it is not said above";
/// A field.
pub const CHECKED: &str = "Checked on what, before and after, and what it showed";
/// A hint.
pub const CHECKED_HINT: &str = "block of the same steel, 0.500 in: .500 and .501";
/// A field.
pub const TEMPERATURE: &str = "How warm the plate was";
/// A hint.
pub const TEMPERATURE_HINT: &str = "62 degF";
/// A column.
pub const ROW: &str = "Row";
/// Of a file with refused lines, or one that the book has.
pub const NOTHING_TO_ENTER: &str = "Nothing of it can be entered as it stands.";
/// A part.
pub const WOULD_COME_TO: &str = "What it would come to";
/// Over a map.
pub const THIS_SURVEY: &str = "This survey";
/// Over a map.
pub const LAST_SURVEY: &str = "The survey before";
/// None.
pub const NO_LAST: &str = "No survey of it by that day is in the book.";
/// An example.
pub const EXAMPLE_COLUMNS: [&str; 4] = ["", "1", "2", "3"];
/// Its lines.
pub const EXAMPLE_LINES: [[&str; 4]; 2] =
    [["12", ".682", ".681", ".681"], ["6", ".646", ".634", "-"]];

/// Over the map of the survey before.
pub fn last_survey(on: Date) -> String {
    format!("{LAST_SURVEY}, {}", super::day(on))
}

/// The day it was read.
pub fn day(on: Date) -> String {
    format!("Read on {}.", super::day(on))
}

/// Where the squares begin, and all else that is told of how they were read.
pub fn source(
    from: &str,
    instrument: Option<&str>,
    checked: Option<&str>,
    temperature: Option<&str>,
    remarks: &[(String, String, String)],
) -> String {
    let mut all = vec![from.to_owned()];
    all.extend(instrument.map(|it| format!("read with {it}")));
    all.extend(checked.map(|it| format!("checked: {it}")));
    all.extend(temperature.map(|it| format!("plate at {it}")));
    let each = remarks
        .iter()
        .map(|(row, column, words)| format!("row {row}, column {column}: {words}"));
    all.extend(each);
    all.join("; ")
}

/// A remark on no square of the survey.
pub fn no_square(typed: &str) -> String {
    format!("`{typed}` names no square of this survey: row,column=words was expected.")
}

/// What is on a line.
pub fn counts([read, not_read, no_plate]: [usize; 3]) -> String {
    let mut said = vec![format!("{read} read")];
    if not_read > 0 {
        said.push(format!("{not_read} not read"));
    }
    if no_plate > 0 {
        said.push(format!("{no_plate} without plate"));
    }
    said.join(", ")
}

/// What a file holds.
pub fn sum(shown: &str, counts_of: [usize; 3], refused: usize) -> String {
    let read = counts(counts_of);
    if refused == 0 {
        return format!("{shown}; {read}.");
    }
    let lines = super::count(refused, "line is", "lines are");
    format!("{shown}; {read}; {lines} refused.")
}

/// A line that is refused, with all that is wrong with it.
pub fn refused(faults: &[String]) -> String {
    format!("refused: {}", faults.join(" "))
}

/// A row that is there before.
pub fn row_twice(name: &str) -> String {
    format!("The row `{name}` is there twice.")
}

/// A reading without a column.
pub fn beyond(columns: usize, said: &str) -> String {
    format!("`{said}` stands after the last of the {columns} named columns.")
}

/// A cell with more than one word.
pub fn no_reading(column: &str, said: &str) -> String {
    format!(
        "`{said}` in column `{column}` is no reading: a decimal was expected, - where nothing was read, x where there is no plate."
    )
}

/// A cell of a workbook that is no number and no words.
pub fn no_value(column: &str) -> String {
    format!("What stands in column `{column}` is no number and no words: a decimal was expected.")
}

/// Too many lines.
pub fn too_long(file: &str, most: usize) -> String {
    format!("{file} has more lines than a survey has squares at most, {most}: enter it in parts.")
}

/// Why nothing was entered.
pub fn held_back(refused: usize) -> String {
    format!(
        "{} refused, so nothing was saved: put the file right. A survey without one of its rows would be another survey.",
        super::count(refused, "line is", "lines are")
    )
}

/// A way from other pages.
pub const AT_BENCH: &str = "Thickness surveys";
/// A way from the page of a survey.
pub const READ_AT_BENCH: &str = "Read this sheet at the bench";
/// The way back.
pub const ITS_SURVEYS: &str = "What its surveys come to";
/// Whoever may not.
pub const MAY_NOT: &str =
    "A survey is entered by somebody who may inspect; you are not authorised to on this day.";
/// Over the first form.
pub const HOW: &str = "What is read, and how";
/// A field.
pub const ROWS: &str = "Names of the rows";
/// A field.
pub const COLUMNS: &str = "Names of the columns";
/// A hint.
pub const NAMES_HINT: &str = "a comma between; 1..12 for all from 1 to 12";
/// A choice.
pub const DIRECTION: &str = "In which order";
/// The choices.
pub const DIRECTIONS: [(&str, &str); 2] =
    [("along", "row after row"), ("down", "column after column")];
/// No choice was made.
pub const NO_DIRECTION: &str = "Say in which order the squares are read: row after row, or column after column. Nothing was kept.";
/// Its button.
pub const BEGIN: &str = "Begin to read";
/// Nothing is there.
pub const NOTHING_BEGUN: &str =
    "Nothing was begun on this page, or it was entered already. Begin again; nothing was saved.";
/// A line that is none.
pub const NO_LINE: &str = "The survey has no such line. Nothing was kept.";
/// Not sure.
pub const NOT_SURE: &str =
    "It was not said that this is meant. What was read so far is still here.";
/// Over the ways to the lines.
pub const LINES: &str = "Line by line";
/// How squares are written.
pub const SQUARES_HINT: &str = "A decimal; - where nothing was read, x where there is no plate. What is left empty is not read.";
/// A field.
pub const WORD: &str = "A word on this square";
/// A hint.
pub const WORD_HINT: &str = "pitted, scale, grooved along the seam";
/// A button.
pub const KEEP_LINE: &str = "Keep this line, go to the next";
/// The end.
pub const ALL_READ: &str = "When all is read";
/// A form and its button.
pub const DROP: &str = "Throw away what was read";
/// A choice.
pub const SURE: &str = "Yes: all of it is then nowhere";
/// Never.
pub const NEVER: &str = "no survey read it before";
/// Keys: what they show, what is read out.
pub const PREVIOUS: &str = "\u{2190}";
/// A key.
pub const PREVIOUS_READ: &str = "the square before";
/// A key.
pub const NEXT: &str = "\u{2192}";
/// A key.
pub const NEXT_READ: &str = "the square after";
/// A key.
pub const SKIP: &str = "not read";
/// A key.
pub const SKIP_READ: &str = "this square is not read";
/// A key.
pub const NO_PLATE: &str = "no plate";
/// A key.
pub const NO_PLATE_READ: &str = "there is no plate here";
/// A summary.
pub const WHOLE_LINE: &str = "A whole line in one go";
/// A button.
pub const WRITE_LINE: &str = "Write this line down";

/// What the scripts of this page say, as [`super::pocket::SAID`].
pub const SAID: &[(&str, &str)] = &[
    ("square", "Row {row}, column {column}"),
    ("line-row", "Row {name}"),
    ("line-column", "Column {name}"),
    ("line-state", "{name}: {n} of {all}"),
    (
        "total",
        "{n} read, {marked} not read or without plate, {open} of {all} still open.",
    ),
    ("was-read", "Last read {was} {unit}, {on}"),
    ("not-before", "No survey read it before."),
    ("is-not-read", "not read"),
    ("is-no-plate", "no plate"),
    ("next-square", "Next open square"),
    (
        "survey-all",
        "Nothing is open any more: keep the survey below.",
    ),
    ("survey-keep", "Keep this survey: {n} read, {open} not read"),
    (
        "survey-state",
        "Look again, {why}. It is kept all the same.",
    ),
    ("thicker", "thicker than the sheet as built"),
    (
        "no-decimal",
        "{value} is no reading: a decimal was expected.",
    ),
    (
        "not-so-many",
        "{n} squares stand there and the line has {all}. Nothing of it was written down.",
    ),
    ("line-written", "{name} is written down."),
    ("nothing-read", "Not one square is read yet."),
    (
        "odd-names",
        "Each row and each column needs a name of its own, without =.",
    ),
    (
        "survey-pocketed",
        "The survey of the {what} is in this pocket. Nothing is lost.",
    ),
    ("survey-landed", "The survey of the {what} is in the book."),
    (
        "survey-asked",
        "The book does not take it as it stands: see below. Nothing is lost.",
    ),
    (
        "survey-waits",
        "{what}: {n} squares read by {who}, written {when}",
    ),
    (
        "survey-back",
        "The book does not take it as it stands. Nothing of it is lost:",
    ),
    (
        "survey-back-head",
        "Came back: {what}, by {who}, written {when}",
    ),
    ("survey-sure", "Sure? All of it is then nowhere"),
];

/// The names come from the survey before.
pub fn names_of(on: Date) -> String {
    format!(
        "The names are those of the survey of {}: with the same squares the two can be laid beside each other.",
        super::day(on)
    )
}

/// A name that cannot be one.
pub fn no_name(name: &str) -> String {
    format!("`{name}` cannot name a row or a column: a name without = was expected.")
}

/// A line as text with another number of squares.
pub fn not_so_many(found: usize, all: usize) -> String {
    format!(
        "{} stand there and the line has {all}: each square was expected, - where nothing was read, x where there is no plate. \
         Nothing of it was kept.",
        super::count(found, "square", "squares")
    )
}

/// A square that does not read.
pub fn wrong_square(token: &str, row: &str, column: &str) -> String {
    format!("`{token}` in row `{row}`, column `{column}` is no reading")
}

/// A line that holds such.
pub fn line_refused(wrong: &[String]) -> String {
    format!(
        "{}: a decimal was expected, - where nothing was read, x where there is no plate. The line was not kept.",
        wrong.join("; ")
    )
}

/// How far it has come.
pub fn so_far(read: usize, marked: usize, all: usize, on: Date) -> String {
    format!(
        "Begun on {}: {read} of {all} squares read, {marked} not read or without plate, {} still open. It is kept beside the book; \
         nothing of it is entered yet.",
        super::day(on),
        all.saturating_sub(read + marked)
    )
}

fn kind(down: bool) -> &'static str {
    if down { "Column" } else { "Row" }
}

/// A line.
pub fn line(down: bool, name: &str) -> String {
    format!("{} {name}", kind(down))
}

/// A line with how far it is.
pub fn line_so_far(down: bool, name: &str, said: usize, all: usize) -> String {
    format!("{} {name}: {said} of {all}", kind(down))
}

/// A square of a line.
pub fn square(down: bool, name: &str) -> String {
    format!("{} {name}", kind(!down))
}

/// A field, read out.
pub fn word_on(square: &str) -> String {
    match square.split_once(',') {
        Some((row, column)) => format!("A word on row {row}, column {column}"),
        None => WORD.into(),
    }
}

/// What the survey before read.
pub fn was(written: &str, unit: &str) -> String {
    format!("last {written} {unit}")
}

/// A reading to look at again.
pub fn again(why: &[&str]) -> String {
    format!(
        "Look again, {}. It is kept all the same.",
        why.join(" and ")
    )
}

/// The summary of a line as text.
pub fn as_text(down: bool) -> String {
    format!("This {} in one go, as text", kind(down).to_lowercase())
}

/// A hint.
pub fn text_hint(all: usize) -> String {
    format!(
        "{} with a blank between, such as .571 .604 - x",
        super::count(all, "square", "squares")
    )
}

/// What entering it means.
pub fn enter_means(read: usize, all: usize) -> String {
    let left = all.saturating_sub(read);
    let left = match left {
        0 => String::new(),
        left => format!(
            " {left} are not read or without plate; a square that nobody read leaves the pressure of this sheet a bound and no more."
        ),
    };
    format!("One entry under your name: {read} squares read.{left}")
}
