//! A table as a sheet of a workbook (Office Open XML, ECMA-376).
//!
//! A file may be made to swell, so it is first unpacked into nothing and counted; and cells are taken one by one,
//! because a sheet with a single cell in its last corner is small in the file and vast as a table.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};

use calamine::{DataRef, Reader, SheetType, SheetVisible, Xlsx};

use super::{Cell, LONGEST, MOST_COLUMNS, MOST_LINES, Row};

/// The most a workbook may unpack to, in bytes.
const MOST_UNPACKED: u64 = 64 * 1024 * 1024;
/// The most files a workbook may be made of.
const MOST_FILES: usize = 1_000;
/// The most merged regions that are looked at.
const MOST_MERGED: usize = 20_000;

/// The rows of a sheet: the one named, or the only one.
///
/// # Errors
/// Why there are none, as the rest of a sentence after the file's name.
pub fn rows(bytes: &[u8], sheet: Option<&str>) -> Result<Vec<Row>, String> {
    // A reader that loses its footing in a damaged file must not take the program with it.
    let read = std::panic::catch_unwind(|| {
        unpacks(bytes)?;
        read(bytes, sheet)
    });
    read.unwrap_or_else(|_| Err(damaged("its inside does not read")))
}

fn damaged(why: impl std::fmt::Display) -> String {
    format!("is cut short, damaged or no workbook: {why}.")
}

/// Sees that it unpacks to a workbook of a size that can be read.
fn unpacks(bytes: &[u8]) -> Result<(), String> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).map_err(damaged)?;
    let names: Vec<String> = archive
        .file_names()
        .map(|name| name.map(std::borrow::Cow::into_owned))
        .collect::<Result<_, _>>()
        .map_err(damaged)?;
    let has = |name: &str| names.iter().any(|n| n == name);
    if !has("xl/workbook.xml") {
        return Err(if has("xl/workbook.bin") || has("content.xml") {
            "is a workbook of another kind: save it as XLSX or as CSV.".into()
        } else {
            "is an archive and no workbook: a table as CSV or XLSX was expected.".into()
        });
    }
    if names.len() > MOST_FILES {
        return Err(format!(
            "is made of {} files: {MOST_FILES} are the most for a workbook.",
            names.len()
        ));
    }
    let mut left = MOST_UNPACKED;
    for at in 0..archive.len() {
        let file = archive.by_index(at).map_err(damaged)?;
        let size =
            std::io::copy(&mut file.take(left + 1), &mut std::io::sink()).map_err(damaged)?;
        left = left.checked_sub(size).ok_or_else(|| {
            format!("unpacks to more than {MOST_UNPACKED} bytes: save the sheet alone, or as CSV.")
        })?;
    }
    Ok(())
}

fn read(bytes: &[u8], sheet: Option<&str>) -> Result<Vec<Row>, String> {
    let mut book = Xlsx::new(Cursor::new(bytes)).map_err(damaged)?;
    let name = choose(&book, sheet)?;
    let since_1904 = book.has_1904_epoch();
    let merged = book.merge_cells_by_sheet_name(&name).map_err(damaged)?;
    let mut rows: BTreeMap<u32, Vec<Cell>> = BTreeMap::new();
    let mut cells = book.worksheet_cells_reader(&name).map_err(damaged)?;
    while let Some(read) = cells.next_cell().map_err(damaged)? {
        let (row, column) = read.get_position();
        let cell = cell(read.get_value(), since_1904);
        if cell == Cell::Empty {
            continue;
        }
        let column = usize::try_from(column).unwrap_or(usize::MAX);
        if column >= MOST_COLUMNS {
            return Err(format!(
                "has a value in column {} of line {}, and {MOST_COLUMNS} columns are the most.",
                column.saturating_add(1),
                row + 1
            ));
        }
        let cells = rows.entry(row).or_default();
        if cells.len() <= column {
            cells.resize(column + 1, Cell::Empty);
        }
        if let Some(slot) = cells.get_mut(column) {
            *slot = cell;
        }
        if rows.len() > MOST_LINES {
            return Err(format!(
                "has more than {MOST_LINES} lines. Bring it in in pieces, a year at a time."
            ));
        }
    }
    if rows.is_empty() {
        return Err(format!("holds nothing in the sheet `{name}`."));
    }
    if merged.len() > MOST_MERGED {
        return Err(format!(
            "has {} groups of merged cells: {MOST_MERGED} are the most.",
            merged.len()
        ));
    }
    for group in merged {
        mark(&mut rows, group.start, group.end);
    }
    Ok(rows
        .into_iter()
        .map(|(row, cells)| Row {
            place: row.saturating_add(1),
            cells,
            wrong: None,
        })
        .collect())
}

/// The sheet that is meant.
fn choose<R: Read + std::io::Seek>(book: &Xlsx<R>, sheet: Option<&str>) -> Result<String, String> {
    let tables = || {
        let sheets = book.sheets_metadata().iter();
        sheets.filter(|sheet| sheet.typ == SheetType::WorkSheet)
    };
    let names = || {
        let names: Vec<_> = tables().map(|s| format!("`{}`", s.name)).collect();
        names.join(", ")
    };
    if let Some(wanted) = sheet {
        let found = tables().find(|sheet| sheet.name.trim() == wanted.trim());
        return found
            .map(|sheet| sheet.name.clone())
            .ok_or_else(|| format!("has no sheet `{}`: it has {}.", wanted.trim(), names()));
    }
    let mut shown = tables().filter(|sheet| sheet.visible == SheetVisible::Visible);
    match (shown.next(), shown.next()) {
        (Some(only), None) => Ok(only.name.clone()),
        (None, _) => Err("has no sheet that is shown.".into()),
        _ => Err(format!("has several sheets, {}: say which.", names())),
    }
}

fn cell(value: &DataRef<'_>, since_1904: bool) -> Cell {
    let text = |text: &str| {
        let text = text.trim();
        if text.is_empty() {
            Cell::Empty
        } else if text.chars().count() > LONGEST {
            Cell::Wrong("is longer than any value of a log".into())
        } else {
            Cell::Text(text.into())
        }
    };
    match value {
        DataRef::Empty => Cell::Empty,
        #[allow(clippy::cast_precision_loss, reason = "a cell holds a double")]
        DataRef::Int(number) => Cell::Number(*number as f64),
        DataRef::Float(number) => Cell::Number(*number),
        DataRef::String(it) => text(it),
        DataRef::SharedString(it) => text(it),
        DataRef::Bool(yes) => Cell::YesNo(*yes),
        DataRef::DateTime(at) => Cell::Serial {
            value: at.as_f64(),
            since_1904,
            length: at.is_duration(),
        },
        DataRef::DateTimeIso(it) => text(it),
        DataRef::DurationIso(it) => Cell::Wrong(format!("holds the length of time {it}")),
        DataRef::Error(fault) => Cell::Wrong(format!("holds the fault {fault}")),
    }
}

/// Marks the cells that lie under a merged one: what stands in it is meant for them too, or is not, and nobody
/// can tell.
fn mark(rows: &mut BTreeMap<u32, Vec<Cell>>, start: (u32, u32), end: (u32, u32)) {
    let at = |column: u32| usize::try_from(column).unwrap_or(usize::MAX);
    let holds = rows
        .get(&start.0)
        .and_then(|cells| cells.get(at(start.1)))
        .is_some_and(|cell| *cell != Cell::Empty);
    if !holds || end.0 < start.0 {
        return;
    }
    for (row, cells) in rows.range_mut(start.0..=end.0) {
        for column in at(start.1)..=at(end.1).min(MOST_COLUMNS - 1) {
            if (*row, column) == (start.0, at(start.1)) {
                continue;
            }
            if cells.len() <= column {
                cells.resize(column + 1, Cell::Empty);
            }
            if let Some(cell) = cells.get_mut(column) {
                *cell = Cell::Wrong(
                    "is merged with another cell, so that one value stands for several: write it in each".into(),
                );
            }
        }
    }
}
