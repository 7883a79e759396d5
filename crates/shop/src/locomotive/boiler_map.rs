//! Surveys of a boiler's sheets and maps of its staybolts, as they are entered.

use jiff::civil::Date;
use measure::{Dimension, Size, entered_with_unit};

use super::find::engine_of;
use super::people::with_authority;
use crate::Refusal;
use crate::book::{Authority, BoilerSurveyed, Book, PersonId, Statement, StaysMapped, StaysTold};

/// The most readings of one survey.
pub const MOST_READINGS: usize = 40_000;
/// The most bolts of one sheet.
const MOST_BOLTS: u32 = 4_000;

/// What a bolt can be said to be: the word, what it means, whether it counts as broken (49 CFR 230.39(c)).
pub const STAY_STATES: &[(&str, &str, bool)] = &[
    ("sound", "hammered or tested, and sound", false),
    ("broken", "broken", true),
    (
        "telltale-leaks",
        "its telltale leaks: counts as broken",
        true,
    ),
    (
        "telltale-plugged",
        "its telltale is plugged: counts as broken",
        true,
    ),
    (
        "telltale-missing",
        "it has no telltale and should have one: counts as broken",
        true,
    ),
    ("renewed", "renewed, and sound", false),
];
/// What a bolt can be.
pub const STAY_KINDS: &[(&str, &str)] = &[
    ("rigid", "rigid, with a telltale from its outer end"),
    ("hollow", "hollow, or drilled through"),
    ("flexible", "flexible, under a cap"),
    ("flexible-drilled", "flexible, drilled into its head"),
    ("radial", "radial stay"),
];

/// Enters a survey of a sheet.
///
/// # Errors
/// Input: no such component, rows that do not fit the columns, a reading that does not read. Refused: the person may not
/// inspect.
pub fn take_survey(
    book: &Book,
    told: BoilerSurveyed,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "enter a survey", on)?;
    Ok(vec![Statement::BoilerSurveyed(admit_survey(book, told)?)])
}

/// What a survey must satisfy, new or mended.
///
/// # Errors
/// As [`take_survey`].
pub fn admit_survey(book: &Book, told: BoilerSurveyed) -> Result<BoilerSurveyed, Refusal> {
    admit_survey_head(book, &told)?;
    if told.cells.len() != told.rows.len() {
        return Err(Refusal::input("The survey has rows without readings."));
    }
    for (row, cells) in told.rows.iter().zip(&told.cells) {
        if let Some(first) = row_faults(row, cells, &told.columns, &told.unit).first() {
            return Err(Refusal::input(first.clone()));
        }
    }
    let squares = told.cells.iter().flat_map(|row| row.split(' '));
    if squares.filter(|it| !matches!(*it, "-" | "x")).count() == 0 {
        return Err(Refusal::input("Not one square of the survey is read."));
    }
    Ok(BoilerSurveyed {
        component: told.component.trim().to_owned(),
        source: told.source.trim().to_owned(),
        ..told
    })
}

/// What a survey must satisfy before its squares are looked at: of what it is, its names, its unit, its source.
///
/// # Errors
/// As [`take_survey`].
pub fn admit_survey_head(book: &Book, told: &BoilerSurveyed) -> Result<(), Refusal> {
    engine_of(book, told.locomotive)?;
    let boiler = book.boilers.get(&told.locomotive);
    let component = told.component.trim();
    if boiler.is_none_or(|boiler| boiler.component(component).is_none()) {
        let all = boiler.map_or(Vec::new(), |boiler| {
            boiler
                .components
                .iter()
                .map(|it| it.name.as_str())
                .collect()
        });
        return Err(Refusal::input(format!(
            "Her boiler has no component `{component}` in this book; it has: {}.",
            if all.is_empty() {
                "none".to_owned()
            } else {
                all.join(", ")
            }
        )));
    }
    if !matches!(told.unit.as_str(), "in" | "mm") {
        return Err(Refusal::input(format!(
            "`{}` is no unit of a survey: in or mm was expected.",
            told.unit
        )));
    }
    for (what, names) in [("row", &told.rows), ("column", &told.columns)] {
        if names.is_empty() {
            return Err(Refusal::input(format!("The survey has no {what}.")));
        }
        if names.iter().any(|name| name.trim().is_empty()) {
            return Err(Refusal::input(format!(
                "A {what} of the survey has no name."
            )));
        }
        if let Some(twice) = names
            .iter()
            .enumerate()
            .find(|(at, name)| names.iter().take(*at).any(|it| it == *name))
        {
            return Err(Refusal::input(format!(
                "The {what} `{}` is there twice.",
                twice.1
            )));
        }
    }
    if told.rows.len().saturating_mul(told.columns.len()) > MOST_READINGS {
        return Err(Refusal::input(format!(
            "A survey holds at most {MOST_READINGS} squares: enter it in parts."
        )));
    }
    if told.source.trim().is_empty() {
        return Err(Refusal::input(
            "Say where the squares begin, who read them and with what.",
        ));
    }
    for (name, text) in [("square", &told.square), ("spot", &told.spot)] {
        if let Some(text) = text {
            entered_with_unit(text, Dimension::Length)
                .map_err(|why| Refusal::input(format!("{name}: {why}")))?;
        }
    }
    Ok(())
}

/// All that is wrong with the squares of one row, a sentence each; nothing where it reads.
pub fn row_faults(row: &str, cells: &str, columns: &[String], unit: &str) -> Vec<String> {
    let tokens: Vec<&str> = cells.split(' ').collect();
    if tokens.len() != columns.len() {
        return vec![format!(
            "Row `{row}` has {} squares and the survey {} columns.",
            tokens.len(),
            columns.len()
        )];
    }
    let named = tokens.iter().zip(columns);
    let wrong = named.filter(|(token, _)| !is_square(token, unit));
    wrong
        .map(|(token, column)| {
            format!(
                "`{token}` in row `{row}`, column `{column}` is no reading: a decimal was expected, - where nothing was read, \
                 x where there is no plate."
            )
        })
        .collect()
}

/// Whether a square reads: a decimal above nothing, or one of the two marks.
pub fn is_square(token: &str, unit: &str) -> bool {
    if matches!(token, "-" | "x") {
        return true;
    }
    let plain = token.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let size = Size::parse(&format!("{token} {unit}")).ok();
    plain && size.is_some_and(|size| size > Size::ZERO)
}

/// Enters where the bolts of a sheet are.
///
/// # Errors
/// Input: no rows, a row twice, a distance that does not read. Refused: the person may not inspect.
pub fn map_stays(
    book: &Book,
    told: StaysMapped,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "map the staybolts", on)?;
    Ok(vec![Statement::StaysMapped(admit_map(book, told)?)])
}

/// What a map must satisfy, new or mended.
///
/// # Errors
/// As [`map_stays`].
pub fn admit_map(book: &Book, told: StaysMapped) -> Result<StaysMapped, Refusal> {
    engine_of(book, told.locomotive)?;
    if told.sheet.trim().is_empty() || told.rows.is_empty() {
        return Err(Refusal::input(
            "The map names no sheet, or has no row: name=bolts@height+first was expected.",
        ));
    }
    if told.source.trim().is_empty() {
        return Err(Refusal::input(
            "Say what the map stands on: the drawing, or who measured it.",
        ));
    }
    kind_of_stay(&told.kind)?;
    let mut bolts: u32 = 0;
    let length = |what: &str, text: &str| {
        let read = entered_with_unit(text, Dimension::Length);
        read.map(drop)
            .map_err(|why| Refusal::input(format!("{what}: {why}")))
    };
    length("pitch", &told.pitch)?;
    for (at, row) in told.rows.iter().enumerate() {
        if told.rows.iter().take(at).any(|it| it.row == row.row) {
            return Err(Refusal::input(format!(
                "The row `{}` is there twice.",
                row.row
            )));
        }
        length(&format!("height of row {}", row.row), &row.height)?;
        length(&format!("first bolt of row {}", row.row), &row.first)?;
        bolts = bolts.saturating_add(row.count);
        if row.count == 0 || bolts > MOST_BOLTS {
            return Err(Refusal::input(format!(
                "A sheet has from 1 to {MOST_BOLTS} bolts, and each row at least one."
            )));
        }
    }
    Ok(StaysMapped {
        sheet: told.sheet.trim().to_owned(),
        source: told.source.trim().to_owned(),
        ..told
    })
}

/// Says what was found or done at bolts.
///
/// # Errors
/// Input: no such sheet, row, number or state; nothing told; a renewal without a size. Refused: the person may not inspect.
pub fn tell_stays(
    book: &Book,
    told: StaysTold,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(
        book,
        by,
        Authority::Inspect,
        "say what the staybolts are",
        on,
    )?;
    Ok(vec![Statement::StaysTold(admit_told(book, told)?)])
}

/// What must be so of what is said of bolts, new or mended.
///
/// # Errors
/// As [`tell_stays`].
pub fn admit_told(book: &Book, told: StaysTold) -> Result<StaysTold, Refusal> {
    engine_of(book, told.locomotive)?;
    let sheet = told.sheet.trim();
    let boiler = book.boilers.get(&told.locomotive);
    let Some(kept) = boiler.and_then(|boiler| boiler.stay_sheet(sheet)) else {
        let all = boiler.map_or(Vec::new(), |boiler| {
            boiler
                .stays
                .iter()
                .map(|it| it.map.sheet.as_str())
                .collect()
        });
        return Err(Refusal::input(format!(
            "No bolts are mapped of a sheet `{sheet}`; mapped are: {}.",
            if all.is_empty() {
                "none".to_owned()
            } else {
                all.join(", ")
            }
        )));
    };
    if !STAY_STATES.iter().any(|(word, ..)| *word == told.state) {
        let all: Vec<_> = STAY_STATES.iter().map(|(word, ..)| *word).collect();
        return Err(Refusal::input(format!(
            "`{}` is not what a bolt can be: {} were expected.",
            told.state,
            all.join(", ")
        )));
    }
    for (row, first, last) in &told.which {
        let Some(known) = kept.map.rows.iter().find(|it| it.row == *row) else {
            let all: Vec<_> = kept.map.rows.iter().map(|it| it.row.as_str()).collect();
            return Err(Refusal::input(format!(
                "The {sheet} has no row `{row}`: {} were expected.",
                all.join(", ")
            )));
        };
        if *first == 0 || first > last || *last > known.count {
            return Err(Refusal::input(format!(
                "Row {row} has bolts 1 to {}; {first} to {last} was asked for.",
                known.count
            )));
        }
    }
    if let Some(kind) = &told.kind {
        kind_of_stay(kind)?;
    }
    if told.told.trim().is_empty() {
        return Err(Refusal::input(
            "Say how it was found or done: the hammer, the telltale, the water.",
        ));
    }
    if told.state == "renewed" && told.size.is_none() {
        return Err(Refusal::input(
            "A renewed bolt has a size: `1-1/32 in, 12 threads` was expected, or such.",
        ));
    }
    Ok(StaysTold {
        sheet: sheet.to_owned(),
        told: told.told.trim().to_owned(),
        ..told
    })
}

fn kind_of_stay(word: &str) -> Result<(), Refusal> {
    if STAY_KINDS.iter().any(|(known, _)| *known == word) {
        return Ok(());
    }
    let all: Vec<_> = STAY_KINDS.iter().map(|(word, _)| *word).collect();
    Err(Refusal::input(format!(
        "`{word}` is no kind of bolt: {} were expected.",
        all.join(", ")
    )))
}
