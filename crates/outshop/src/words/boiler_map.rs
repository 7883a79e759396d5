//! Surveys of a boiler's sheets, and the maps of its staybolts.

use drawing::{Marked, Square, SquareMap, Stay, StayMap, StayMark};
use measure::{Rounding, show};
use shop::book::Survey;
use shop::ruled::boiler::{Bolt, BoltMap, BoltSheet, Cell, SurveyRead, Why};
use shop::verdict::Verdict;

/// Nothing was written.
pub const NOTHING_CHANGED: &str = "It reads. Nothing is changed; with --write it is entered.\n";
/// A row, for whoever typed none.
pub const A_ROW: &str = "a row of a survey, such as bottom=.571 .604 -";
/// Every bolt.
pub const ALL: &str = "all";
/// Which bolts.
pub const WHICH: &str =
    "Say which bolts: row:number, row:first-last, or all for every bolt of the sheet.";
/// The link.
pub const STAYS_LINK: &str = "Map of her staybolts";
/// Under the map in letters.
pub const LETTERS: &str = "* thinnest, ! within a tenth of what the pressure asks or under it, ? look again, - not read, x no plate";
/// Under the map of stays in letters.
pub const STAY_LETTERS: &str = "o sound, X counts as broken, R renewed, ? nobody has said";
/// A part.
pub const SURVEYS: &str = "Surveys of its sheets";
/// None.
pub const NO_SURVEYS: &str = "No survey of a sheet is in this book.";
/// A part.
pub const AS_READ: &str = "The sheet developed flat";
/// What the marks mean.
pub const MARKS: &str = "Hatched: within a tenth of what the set pressure asks, or under it. Heavy frame: the thinnest square. A corner and a \
     question mark, beside any other mark: look at this reading again; it counts all the same. Dashed: not read. Crossed out: no plate there.";
/// What it comes to.
pub const COMES_TO: &str = "What it comes to";
/// The link to the paper.
pub const PRINT_SURVEY: &str = "Print this survey";
/// The link to the paper.
pub const PRINT_MAP: &str = "Print the map of the staybolts";
/// Over the papers.
pub const OVER_SURVEY: &str = "Thickness survey";
/// Over the papers.
pub const OVER_MAP: &str = "Map of the staybolts";
/// What the marks of stays mean.
pub const STAY_MARKS: &str = "A ring: sound. Filled, with a cross over it: counts as broken. A ring in a square: renewed. Dashed, with a question \
     mark: nobody has said. F flexible, H hollow or drilled through.";
/// What governs.
pub const CAUTIONS: &[&str] = &[
    "A map knows what was said of it. Every bolt is struck or its telltale watched by somebody qualified; a bolt of which nobody \
     said anything is not known to be sound.",
    "No telltale is closed by welding, forging or riveting over.",
];
/// What governs a survey.
pub const SURVEY_CAUTIONS: &[&str] = &[
    "A survey approves no pressure and no next day: whoever is licensed and answerable for the boiler reviews every figure.",
    "Between the squares nobody looked. Ultrasound sees no crack, and over a pit or a lamination it can read too thick.",
];
/// A part.
pub const VERDICT: &str = "By the law's limits on broken bolts";
/// A part.
pub const TO_RENEW: &str = "To renew, and by when";
/// A form.
pub const TELL: &str = "Say what was found or done at bolts";
/// A field.
pub const SHEET: &str = "Sheet";
/// A field.
pub const BOLTS: &str = "Which bolts";
/// A hint.
pub const BOLTS_HINT: &str = "row:number or row:first-last, a blank between; or all";
/// A field.
pub const STATE: &str = "What they are";
/// A field.
pub const TOLD: &str = "How it was found or done";
/// A field.
pub const SIZE: &str = "Size now, if renewed";
/// A field.
pub const AT: &str = "Found at which inspection, if at one";
/// Its button.
pub const TELL_IT: &str = "Say it";
/// How a renewal goes on.
pub const NEXT_SIZE: &str = "Next size, bore and tap for a renewal: the sheet thread.staybolt";
/// A form.
pub const TAKE: &str = "Enter a survey of this sheet";
/// A field.
pub const ROWS: &str = "Rows: name=readings, a blank between";
/// A hint.
pub const ROWS_HINT: &str = "- where nothing was read, x where there is no plate";
/// A field.
pub const COLUMNS: &str = "Names of the columns, a comma between";
/// A field.
pub const UNIT: &str = "Unit of all readings: in or mm";
/// A field.
pub const SQUARE: &str = "Side of a square";
/// A field.
pub const SPOT: &str = "Width of the spot one reading sees";
/// A field.
pub const SOURCE: &str = "Where the squares begin, who read them and with what";
/// Its button.
pub const TAKE_IT: &str = "Enter the survey";

/// The title.
pub fn survey_title(number: &str, component: &str) -> String {
    format!("Survey of the {component}, No. {}", number.trim())
}

/// The title.
pub fn map_title(number: &str) -> String {
    format!("Staybolts of No. {}", number.trim())
}

/// A survey as entered.
pub fn taken(number: &str, component: &str, rows: usize, columns: usize) -> String {
    format!(
        "Survey of the {component} of No. {}: {rows} rows of {columns} squares",
        number.trim()
    )
}

/// A map as entered.
pub fn mapped(number: &str, sheet: &str, bolts: u64) -> String {
    format!("{sheet} of No. {}: {bolts} bolts mapped", number.trim())
}

/// What was said of bolts.
pub fn told(number: &str, sheet: &str, state: &str) -> String {
    format!("{sheet} of No. {}: {state}", number.trim())
}

/// No such row.
pub fn no_row(typed: &str) -> String {
    format!(
        "`{typed}` is not a row of bolts: name=bolts@height+first was expected, such as 3=18@14in+5in."
    )
}

/// No such bolt.
pub fn no_bolt(typed: &str) -> String {
    format!(
        "`{typed}` names no bolt: row:number or row:first-last was expected, such as 3:10 or 3:9-12."
    )
}

/// No survey.
pub fn no_survey(number: &str, component: &str) -> String {
    format!(
        "No survey of `{}` of No. {} is in this book.",
        component.trim(),
        number.trim()
    )
}

/// An empty file.
pub fn empty_file(file: &str) -> String {
    format!("{file} holds nothing: a first line with the names of the columns was expected.")
}

/// A line that does not read.
pub fn wrong_line(file: &str, line: u32, why: &str) -> String {
    format!("{file}:{line}: {why}")
}

fn inch(inches: f64, rounding: Rounding) -> String {
    format!("{} in", show::number(inches, 3, rounding))
}

/// Why a reading is to be looked at again.
pub fn why(why: Why) -> &'static str {
    match why {
        Why::OverAsBuilt => "thicker than the sheet as built",
        Why::FarFromNeighbors => "far from the readings round it",
        Why::Grown => "thicker than at the survey before",
    }
}

fn place(survey: &Survey, row: usize, column: usize) -> String {
    let name = |names: &[String], at: usize| names.get(at).cloned().unwrap_or_default();
    format!(
        "row {}, column {}",
        name(&survey.rows, row),
        name(&survey.columns, column)
    )
}

/// What a survey comes to, a sentence each.
pub fn survey(survey: &Survey, read: &SurveyRead) -> Vec<String> {
    let [taken, not, none] = read.counts;
    let mut all = vec![format!(
        "Read on {}: {}. {taken} squares read, {not} not read, {none} without plate.",
        super::day(survey.on),
        survey.source
    )];
    if let Some((inches, row, column)) = read.thinnest {
        all.push(format!(
            "Thinnest: {}, {}.",
            inch(inches, Rounding::Down),
            place(survey, row, column)
        ));
    }
    all.push(match read.required {
        Some(required) => format!(
            "The set pressure asks {} here, by the boiler card.",
            inch(required, Rounding::Up)
        ),
        None => {
            "What the set pressure asks here: cannot tell; the boiler card says what is missing."
                .into()
        }
    });
    match &read.paired {
        Err(why) => all.push(format!("Loss and life: cannot tell: needs {why}.")),
        Ok(paired) => {
            all.push(format!(
                "Since the survey of {} ({} squares in both): most lost {} ({}), usual {}.",
                super::day(paired.before),
                paired.squares,
                inch(paired.worst.0, Rounding::Up),
                place(survey, paired.worst.1, paired.worst.2),
                inch(paired.usual, Rounding::Nearest)
            ));
            all.push(match paired.first {
                Some((row, column, rate, left)) => format!(
                    "First to come to what the pressure asks: {}, losing {} a year: {} years from this survey, if it goes on so.",
                    place(survey, row, column),
                    format_args!("{} in", show::number(rate, 4, Rounding::Up)),
                    show::number(left, 1, Rounding::Down)
                ),
                None => "Life: cannot tell; no square lost metal between the two, or what the pressure asks is not known.".into(),
            });
        }
    }
    all.push(match &read.next {
        Ok(day) => format!("Survey again by {} at the latest: half the life, and never later than the law's own day.", super::day(*day)),
        Err(why) => format!("The day of the next survey: cannot tell: needs {why}."),
    });
    all.push(match &read.unread {
        Ok((inches, blocks, of)) => format!(
            "Thinnest place that nobody read, by the extreme values of {blocks} blocks, of {} in all: {}. It says where to look, and raises no pressure.",
            show::number(*of, 0, Rounding::Nearest),
            inch(*inches, Rounding::Down)
        ),
        Err(why) => format!("The thinnest place that nobody read: cannot tell: needs {why}."),
    });
    // A square is named once, whatever is strange of it.
    let mut strange: Vec<((usize, usize), Vec<&str>)> = Vec::new();
    for it in &read.doubtful {
        let at = (it.row, it.column);
        match strange.iter_mut().find(|(known, _)| *known == at) {
            Some((_, all)) => all.push(why(it.why)),
            None => strange.push((at, vec![why(it.why)])),
        }
    }
    let mut alike: Vec<(Vec<&str>, Vec<String>)> = Vec::new();
    for ((row, column), why) in strange {
        let at = place(survey, row, column);
        match alike.iter_mut().find(|(known, _)| *known == why) {
            Some((_, places)) => places.push(at),
            None => alike.push((why, vec![at])),
        }
    }
    for (why, places) in alike {
        all.push(format!(
            "Look again, {}: {}. Each counts as read.",
            why.join(" and "),
            places.join("; ")
        ));
    }
    all
}

/// The squares, row by row, marked.
pub fn marked(survey: &Survey, read: &SurveyRead) -> Vec<(String, Vec<Marked>)> {
    let thin = read.required.map(|required| required * 1.1);
    let rows = survey
        .rows
        .iter()
        .zip(survey.cells.iter().zip(&read.squares.rows))
        .enumerate();
    rows.map(|(row, (name, (texts, cells)))| {
        let each = texts
            .split(' ')
            .zip(cells)
            .enumerate()
            .map(|(column, (text, cell))| {
                let thinnest = read
                    .thinnest
                    .is_some_and(|(_, r, c)| (r, c) == (row, column));
                let again = read
                    .doubtful
                    .iter()
                    .any(|it| (it.row, it.column) == (row, column));
                let mark = match cell {
                    Cell::NotRead => Square::NotRead,
                    Cell::NoPlate => Square::NoPlate,
                    Cell::Read(_) if thinnest => Square::Thinnest,
                    Cell::Read(inches) if thin.is_some_and(|thin| *inches <= thin) => Square::Thin,
                    Cell::Read(_) => Square::Plain,
                };
                let said = match cell {
                    Cell::Read(_) => text.to_owned(),
                    Cell::NotRead | Cell::NoPlate => String::new(),
                };
                Marked { said, mark, again }
            });
        (name.clone(), each.collect())
    })
    .collect()
}

/// The letters of a square's marks, for a terminal.
pub fn letters(cell: &Marked) -> String {
    let mark = match cell.mark {
        Square::Plain => "",
        Square::Thin => "!",
        Square::Thinnest => "*",
        Square::NotRead => "-",
        Square::NoPlate => "x",
    };
    format!("{mark}{}", if cell.again { "?" } else { "" })
}

/// How many columns one picture takes: more of them stand below one another.
const COLUMNS_AT_ONCE: usize = 12;

/// The pictures of a survey, some columns each.
pub fn pictures(survey: &Survey, read: &SurveyRead) -> Vec<SquareMap> {
    let rows = marked(survey, read);
    let starts = (0..survey.columns.len()).step_by(COLUMNS_AT_ONCE);
    starts
        .map(|from| {
            let columns: Vec<String> = survey
                .columns
                .iter()
                .skip(from)
                .take(COLUMNS_AT_ONCE)
                .cloned()
                .collect();
            let told = format!(
                "Thicknesses of the {}, columns {} to {}",
                survey.component,
                columns.first().map_or("", String::as_str),
                columns.last().map_or("", String::as_str)
            );
            SquareMap {
                told,
                columns,
                rows: rows
                    .iter()
                    .map(|(name, cells)| {
                        (
                            name.clone(),
                            cells
                                .iter()
                                .skip(from)
                                .take(COLUMNS_AT_ONCE)
                                .cloned()
                                .collect(),
                        )
                    })
                    .collect(),
            }
        })
        .collect()
}

/// What the map of the staybolts comes to, a sentence each.
pub fn map(map: &BoltMap) -> Vec<String> {
    let all: usize = map.sheets.iter().map(|sheet| sheet.bolts.len()).sum();
    let mut lines = vec![format!(
        "{}: {all} bolts mapped, {} count as broken, of {} nobody has said anything.",
        super::sentence(match &map.verdict {
            Verdict::Complies => super::page::COMPLIES,
            Verdict::Fails(_) => super::page::FAILS,
            Verdict::CannotTell(_) => super::page::CANNOT_TELL,
        }),
        map.broken,
        map.unknown
    )];
    match &map.verdict {
        Verdict::Complies => {}
        Verdict::Fails(why) => lines.extend(why.iter().cloned()),
        Verdict::CannotTell(needs) => lines.extend(
            needs
                .iter()
                .map(|need| format!("It cannot be told without {need}.")),
        ),
    }
    if let Some(pair) = &map.nearest {
        lines.push(format!(
            "Nearest two that count as broken: {}, {} and {}, {} in apart in a straight line.",
            pair.sheet,
            pair.one,
            pair.other,
            show::number(pair.apart, 2, Rounding::Down)
        ));
    }
    for it in &map.limits {
        let limit = it.limit.as_deref().unwrap_or(super::page::CANNOT_TELL);
        lines.push(format!(
            "{}: {limit} ({}, {}).",
            super::sentence(&it.subject),
            it.ruling.rule,
            it.ruling.cite.section
        ));
    }
    lines
}

/// What is to be renewed, a sentence each.
pub fn renew(map: &BoltMap) -> Vec<String> {
    let each = map.renew.iter().map(|it| match &it.at_once {
        Some(why) => format!(
            "{}, {}: found {}; {why} ({}).",
            it.sheet,
            it.bolt,
            super::day(it.found),
            it.rule
        ),
        None => format!(
            "{}, {}: found {}; its last day is {} ({}).",
            it.sheet,
            it.bolt,
            super::day(it.found),
            super::day(it.by),
            it.rule
        ),
    });
    each.collect()
}

fn mark(bolt: &Bolt) -> StayMark {
    if bolt.counts_as_broken() {
        StayMark::Broken
    } else if !bolt.is_known() {
        StayMark::Unknown
    } else if bolt.renewed.is_some() {
        StayMark::Renewed
    } else {
        StayMark::Sound
    }
}

/// The rows of a sheet in letters, from the top.
pub fn rows(sheet: &BoltSheet) -> Vec<(String, String)> {
    let mut all: Vec<(String, String)> = Vec::new();
    for bolt in &sheet.bolts {
        let letter = match mark(bolt) {
            StayMark::Sound => 'o',
            StayMark::Broken => 'X',
            StayMark::Renewed => 'R',
            StayMark::Unknown => '?',
        };
        match all.last_mut().filter(|(row, _)| *row == bolt.row) {
            Some((_, letters)) => letters.push(letter),
            None => all.push((bolt.row.clone(), letter.to_string())),
        }
    }
    all.reverse();
    all
}

/// The picture of a sheet of stays.
pub fn stay_picture(sheet: &BoltSheet) -> StayMap {
    let mut rows: Vec<(String, f64)> = Vec::new();
    let mut numbers: Vec<(String, f64)> = Vec::new();
    for bolt in &sheet.bolts {
        if !rows.iter().any(|(row, _)| *row == bolt.row) {
            rows.push((bolt.row.clone(), bolt.y));
        }
        // Numbers stand over the first row that has them all; every fifth is enough to count by.
        let five = bolt.number == 1 || bolt.number.is_multiple_of(5);
        if five
            && !numbers
                .iter()
                .any(|(number, _)| *number == bolt.number.to_string())
        {
            numbers.push((bolt.number.to_string(), bolt.x));
        }
    }
    let stays = sheet.bolts.iter().map(|bolt| Stay {
        x: bolt.x,
        y: bolt.y,
        mark: mark(bolt),
        letter: match bolt.kind.as_str() {
            "flexible" | "flexible-drilled" => "F",
            "hollow" => "H",
            _ => "",
        }
        .to_owned(),
        told: bolt_told(bolt),
    });
    StayMap {
        told: format!("Staybolts of the {}", sheet.sheet),
        rows,
        numbers,
        stays: stays.collect(),
    }
}

/// A bolt in words.
pub fn bolt_told(bolt: &Bolt) -> String {
    format!("{}, {}", bolt.name(), bolt_said(bolt))
}

/// What a bolt is, without its place.
fn bolt_said(bolt: &Bolt) -> String {
    let said = match &bolt.said {
        Some(said) => format!("{} on {}: {}", said.state, super::day(said.on), said.told),
        None => "nobody has said".into(),
    };
    format!("{}, {}: {said}", bolt.kind, bolt.size)
}

/// Bolts of a sheet of which there is more to say than that they are sound: those alike together.
pub fn remarkable(sheet: &BoltSheet) -> Vec<String> {
    let mut alike: Vec<(String, Vec<&Bolt>)> = Vec::new();
    let of_note = |bolt: &&Bolt| bolt.counts_as_broken() || bolt.renewed.is_some();
    for bolt in sheet.bolts.iter().filter(of_note) {
        let said = bolt_said(bolt);
        match alike.iter_mut().find(|(known, _)| *known == said) {
            Some((_, all)) => all.push(bolt),
            None => alike.push((said, vec![bolt])),
        }
    }
    let each = alike
        .into_iter()
        .map(|(said, bolts)| format!("{}, {said}", super::sentence(&named(&bolts))));
    each.collect()
}

/// Bolts by row and number, runs of numbers as runs.
fn named(bolts: &[&Bolt]) -> String {
    let mut runs: Vec<(&str, u32, u32)> = Vec::new();
    for bolt in bolts {
        match runs.last_mut() {
            Some((row, _, last)) if *row == bolt.row && *last + 1 == bolt.number => {
                *last = bolt.number;
            }
            _ => runs.push((&bolt.row, bolt.number, bolt.number)),
        }
    }
    let each: Vec<String> = runs
        .into_iter()
        .map(|(row, first, last)| match last - first {
            0 => format!("row {row}, number {first}"),
            _ => format!("row {row}, numbers {first} to {last}"),
        })
        .collect();
    each.join("; ")
}
