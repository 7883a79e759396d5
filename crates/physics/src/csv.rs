//! Reads the small comma-separated files that carry our evidence and our tables.
//!
//! The files are our own and are compiled in: a heading row, fields quoted with `"` where they hold
//! a comma, lines that begin with `#` for people only.

use crate::error::SheetError;
use std::sync::OnceLock;

/// A table of ours, read the first time it is asked for.
pub struct Table<T> {
    /// What it is called where it is at fault: `table of expansion`.
    what: &'static str,
    read: fn() -> Result<Vec<T>, String>,
    rows: OnceLock<Result<Vec<T>, String>>,
}

impl<T> Table<T> {
    /// The table called `what`, whose rows `read` gives.
    pub const fn new(what: &'static str, read: fn() -> Result<Vec<T>, String>) -> Table<T> {
        let rows = OnceLock::new();
        Table { what, read, rows }
    }

    /// Its rows, for `sheet`.
    ///
    /// # Errors
    /// [`SheetError::OwnFault`] when the table cannot be read.
    pub fn rows(&self, sheet: &'static str) -> Result<&[T], SheetError> {
        let read = self.rows.get_or_init(self.read).as_deref();
        read.map_err(|detail| self.fault(sheet, detail.clone()))
    }

    /// The first row that `is` the one looked for.
    ///
    /// # Errors
    /// [`SheetError::OwnFault`] when the table cannot be read or has no such row; `named` says which.
    pub fn row(
        &self,
        sheet: &'static str,
        named: &str,
        is: impl Fn(&T) -> bool,
    ) -> Result<&T, SheetError> {
        let row = self.rows(sheet)?.iter().find(|row| is(row));
        row.ok_or_else(|| self.fault(sheet, format!("no row for {named}")))
    }

    /// That this table is at fault.
    pub fn fault(&self, sheet: &'static str, detail: String) -> SheetError {
        SheetError::OwnFault {
            sheet,
            what: self.what,
            detail,
        }
    }
}

/// A range of sizes that a row of a table is for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    over: f64,
    to: f64,
}

impl Span {
    /// The range over one size and up to another.
    ///
    /// # Errors
    /// An end that is no number.
    pub fn read(over: &str, to: &str) -> Result<Span, String> {
        let (over, to) = (number(over)?, number(to)?);
        Ok(Span { over, to })
    }

    /// Whether `size` is in it.
    pub fn holds(self, size: f64) -> bool {
        // The dust of converting units must not push a size over the end of its range.
        self.over + 1e-9 < size && size <= self.to + 1e-9
    }
}

/// The number a cell holds.
///
/// # Errors
/// A cell that is no number.
pub fn number(cell: &str) -> Result<f64, String> {
    cell.parse().map_err(|_| format!("'{cell}' is no number"))
}

/// What `of` reads out of a cell; none where the cell is empty.
///
/// # Errors
/// What `of` says.
pub fn unless_empty<T>(
    cell: &str,
    of: impl Fn(&str) -> Result<T, String>,
) -> Result<Option<T>, String> {
    (!cell.is_empty()).then(|| of(cell)).transpose()
}

/// What `of` makes of each row after the heading.
///
/// # Errors
/// A sentence naming the line whose fields do not match the heading, or of which `of` makes nothing.
pub fn each<T, const N: usize>(
    text: &str,
    heading: &[&str; N],
    of: impl Fn([String; N]) -> Result<T, String>,
) -> Result<Vec<T>, String> {
    rows(text, heading)?
        .into_iter()
        .map(|(line, row)| of(row).map_err(|why| format!("line {line}: {why}")))
        .collect()
}

/// The rows after the heading, each as long as the heading, with the line number each began on.
///
/// # Errors
/// A sentence naming the line whose fields do not match the heading.
pub fn rows<const N: usize>(
    text: &str,
    heading: &[&str; N],
) -> Result<Vec<(usize, [String; N])>, String> {
    let mut lines = text
        .lines()
        .enumerate()
        .map(|(at, line)| (at + 1, line))
        .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'));
    let (at, first) = lines.next().ok_or_else(|| "the file is empty".to_owned())?;
    let read = fields(first);
    if read != heading {
        return Err(format!(
            "line {at}: the heading is {read:?}, expected {heading:?}"
        ));
    }
    lines
        .map(|(at, line)| {
            let row = <[String; N]>::try_from(fields(line))
                .map_err(|read| format!("line {at}: {} fields, expected {N}", read.len()))?;
            Ok((at, row))
        })
        .collect()
}

/// One line's fields. A quote inside a quoted field is written twice.
fn fields(line: &str) -> Vec<String> {
    let mut fields = vec![String::new()];
    let mut quoted = false;
    let mut characters = line.chars().peekable();
    while let Some(c) = characters.next() {
        match c {
            '"' if quoted && characters.peek() == Some(&'"') => {
                characters.next();
                push(&mut fields, '"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(String::new()),
            c => push(&mut fields, c),
        }
    }
    fields.iter().map(|field| field.trim().to_owned()).collect()
}

fn push(fields: &mut [String], c: char) {
    if let Some(last) = fields.last_mut() {
        last.push(c);
    }
}
