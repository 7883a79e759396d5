//! Reads a log kept in a table (CSV or XLSX) into lines as a shop would write them; what they mean is for the shop.
//!
//! The words over the columns, how days and times are written, and what is refused is told in
//! `docs/log-files.md`, whose examples a test reads.

mod columns;
mod csv;
mod moment;
mod xlsx;

use shop::clock::{LogLine, Unread};

use crate::Failure;
use columns::Columns;
pub(crate) use columns::plain;
pub use moment::Order;

/// The largest file taken, in bytes: some thirty thousand lines.
pub const MOST_BYTES: usize = 4 * 1024 * 1024;
/// The most lines taken at once: fifty years of an engine that steams every day.
pub(crate) const MOST_LINES: usize = 20_000;
/// The most columns a table may have.
const MOST_COLUMNS: usize = 200;
/// The longest cell that is looked at, in letters.
const LONGEST: usize = 2_000;
/// The words over the columns stand in one of so many first lines.
pub(crate) const HEADING_WITHIN: usize = 10;

/// What the person says of the file.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Told {
    /// The engine, for lines that name none.
    pub engine: Option<String>,
    /// In which order day, month and year stand in a date that does not begin with the year.
    pub order: Option<Order>,
    /// Which sheet of a workbook; needed where it has more than one.
    pub sheet: Option<String>,
}

/// A file as read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Logbook {
    /// Its lines, in order; blank ones are passed over.
    pub lines: Vec<Result<LogLine, Unread>>,
    /// Words over columns that are not read.
    pub not_read: Vec<String>,
    /// Lines passed over: blank ones, and the heading where it is repeated.
    pub passed_over: usize,
}

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Cell {
    Empty,
    Text(String),
    Number(f64),
    YesNo(bool),
    /// Days since the workbook's own day 0, and the part of a day; whether it is a length of time.
    Serial {
        value: f64,
        since_1904: bool,
        length: bool,
    },
    /// Something that cannot be read as a value; why, as the rest of a sentence after the cell's name.
    Wrong(String),
}

impl Cell {
    /// What stands in it, as text. A workbook keeps whole numbers as 3.0; a size is text there, with its unit.
    pub(crate) fn written(&self) -> String {
        match self {
            Cell::Text(text) => text.trim().to_string(),
            Cell::Number(number) => number.to_string(),
            _ => String::new(),
        }
    }
}

/// A row of a table: its line from 1, and its cells.
pub(crate) struct Row {
    pub(crate) place: u32,
    pub(crate) cells: Vec<Cell>,
    /// Why the row as a whole does not read.
    pub(crate) wrong: Option<String>,
}

/// Reads a file.
///
/// # Errors
/// Input: it is no CSV or XLSX, it is too large, cut or damaged, or no words of the trade stand over its columns.
pub fn read(name: &str, bytes: &[u8], told: &Told) -> Result<Logbook, Failure> {
    let no = |why: String| Failure::Input(format!("{name} {why}"));
    let rows = rows(name, bytes, told.sheet.as_deref())?;
    table(name, rows, told).map_err(no)
}

/// The rows of a table, whatever it is about.
///
/// # Errors
/// Input: it is no CSV or XLSX, it is too large, cut or damaged, or the sheet named is not in it.
pub(crate) fn rows(name: &str, bytes: &[u8], sheet: Option<&str>) -> Result<Vec<Row>, Failure> {
    let no = |why: String| Failure::Input(format!("{name} {why}"));
    if bytes.is_empty() {
        return Err(no("is empty.".into()));
    }
    if bytes.len() > MOST_BYTES {
        return Err(no(format!(
            "is too large: {} bytes, and {MOST_BYTES} are the most. Bring it in in pieces, a year at a time.",
            bytes.len()
        )));
    }
    if bytes.starts_with(b"PK\x03\x04") {
        return xlsx::rows(bytes, sheet).map_err(no);
    }
    if sheet.is_some() {
        return Err(no("is no workbook, so no sheet of it can be named.".into()));
    }
    csv::rows(bytes).map_err(no)
}

/// Whether nothing stands in a row.
pub(crate) fn blank(row: &Row) -> bool {
    row.wrong.is_none()
        && row.cells.iter().all(|cell| match cell {
            Cell::Empty => true,
            Cell::Text(text) => text.trim().is_empty(),
            _ => false,
        })
}

fn table(name: &str, rows: Vec<Row>, told: &Told) -> Result<Logbook, String> {
    if rows.len() > MOST_LINES {
        return Err(format!(
            "has {} lines, and {MOST_LINES} are the most. Bring it in in pieces, a year at a time.",
            rows.len()
        ));
    }
    let mut passed_over = 0;
    let mut rows = rows.into_iter();
    let mut columns = None;
    let mut looked_at = 0;
    for row in rows.by_ref() {
        if blank(&row) {
            passed_over += 1;
            continue;
        }
        looked_at += 1;
        columns = Columns::of(&row)?;
        if columns.is_some() || looked_at == HEADING_WITHIN {
            break;
        }
    }
    let Some(columns) = columns else {
        return Err(format!(
            "has no heading that is understood: in one of its first {HEADING_WITHIN} lines words such as {} were expected.",
            columns::SUCH_AS
        ));
    };
    columns.enough()?;
    let mut lines = Vec::new();
    for row in rows {
        if blank(&row) || columns.repeated(&row) {
            passed_over += 1;
            continue;
        }
        lines.push(columns.line(name, &row, told));
    }
    if lines.is_empty() {
        return Err("has a heading and no line under it.".into());
    }
    Ok(Logbook {
        lines,
        not_read: columns.not_read(),
        passed_over,
    })
}

#[cfg(test)]
mod tests;
