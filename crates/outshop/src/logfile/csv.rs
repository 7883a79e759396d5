//! A table as comma-separated values (RFC 4180), also with semicolons or tabs between them.

use super::{Cell, LONGEST, MOST_COLUMNS, MOST_LINES, Row};

/// What may stand between two values.
const BETWEEN: [u8; 3] = [b',', b';', b'\t'];

/// The rows of a text file.
///
/// # Errors
/// Why it is none, as the rest of a sentence after its name.
pub fn rows(bytes: &[u8]) -> Result<Vec<Row>, String> {
    let text = text(bytes)?;
    let between = between(text)?;
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(between)
        .from_reader(text.as_bytes());
    let mut rows: Vec<Row> = Vec::new();
    let mut width = None;
    for record in reader.records() {
        let record = record.map_err(|why| format!("does not read as a table: {why}."))?;
        let place = record.position().map_or(0, csv::Position::line);
        let place = u32::try_from(place).unwrap_or(u32::MAX);
        if record.len() > MOST_COLUMNS {
            return Err(format!(
                "has {} columns in line {place}, and {MOST_COLUMNS} are the most.",
                record.len()
            ));
        }
        if rows.len() > MOST_LINES {
            return Err(format!(
                "has more than {MOST_LINES} lines. Bring it in in pieces, a year at a time."
            ));
        }
        let cells: Vec<Cell> = record.iter().map(cell).collect();
        let full = cells.iter().filter(|cell| **cell != Cell::Empty).count();
        // The first line that holds more than a title says how wide the table is.
        if width.is_none() && full > 1 {
            width = Some(cells.len());
        }
        let wrong = width.filter(|width| cells.len() != *width && full > 0).map(|width| {
            format!(
                "The line has {} values and the table {width}: it may be cut, or a value with a separator in it may lack its \
                 quotation marks.",
                cells.len()
            )
        });
        rows.push(Row {
            place,
            cells,
            wrong,
        });
    }
    Ok(rows)
}

fn cell(value: &str) -> Cell {
    let value = value.trim();
    if value.is_empty() {
        Cell::Empty
    } else if value.chars().count() > LONGEST {
        Cell::Wrong("is longer than any value of a log".into())
    } else {
        Cell::Text(value.into())
    }
}

/// The bytes as text: UTF-8, or nothing.
fn text(bytes: &[u8]) -> Result<&str, String> {
    const KINDS: [(&[u8], &str); 6] = [
        (
            &[0xD0, 0xCF, 0x11, 0xE0],
            "is a workbook of the old binary kind, or one with a password: save it as XLSX without a password, or as CSV.",
        ),
        (b"%PDF", "is a PDF: a table as CSV or XLSX was expected."),
        (
            b"{\\rtf",
            "is a text document: a table as CSV or XLSX was expected.",
        ),
        (
            b"<",
            "is a page or XML: a table as CSV or XLSX was expected.",
        ),
        (&[0xFF, 0xFE], "is text in UTF-16: save it as CSV in UTF-8."),
        (&[0xFE, 0xFF], "is text in UTF-16: save it as CSV in UTF-8."),
    ];
    if let Some((_, why)) = KINDS.iter().find(|(begins, _)| bytes.starts_with(begins)) {
        return Err((*why).to_string());
    }
    let line = |at: usize| bytes.iter().take(at).filter(|b| **b == b'\n').count() + 1;
    if let Some(at) = bytes.iter().position(|b| *b == 0) {
        return Err(format!(
            "is not text: line {} holds a zero byte. A table as CSV or XLSX was expected.",
            line(at)
        ));
    }
    let text = std::str::from_utf8(bytes).map_err(|why| {
        format!(
            "is not text in UTF-8: line {} does not read. Save it as CSV in UTF-8.",
            line(why.valid_up_to())
        )
    })?;
    let text = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err("holds nothing but blanks.".into());
    }
    // Every mark of RFC 4180 has its fellow, those doubled inside a value too.
    if text.bytes().filter(|b| *b == b'"').count() % 2 == 1 {
        return Err(
            "opens a quotation mark and never closes it: it may be cut short. Nothing after it can be told apart."
                .into(),
        );
    }
    Ok(text)
}

/// What stands between the values: of comma, semicolon and tab the one that the first line with any has most of.
fn between(text: &str) -> Result<u8, String> {
    let count = |line: &str, of: u8| line.bytes().filter(|b| *b == of).count();
    for line in text.lines() {
        let found: Vec<(u8, usize)> = BETWEEN
            .iter()
            .map(|of| (*of, count(line, *of)))
            .filter(|(_, n)| *n > 0)
            .collect();
        match found.as_slice() {
            [] => {}
            [(of, _)] => return Ok(*of),
            several => {
                // A heading that holds two of them, such as `remarks, if any;`: the words over columns decide.
                let read = |of: u8| {
                    line.split(char::from(of))
                        .filter(|word| super::columns::is_known(word.trim_matches(['"', ' '])))
                        .count()
                };
                let mut best: Vec<(usize, u8)> =
                    several.iter().map(|(of, _)| (read(*of), *of)).collect();
                best.sort_unstable();
                if let [.., (second, _), (first, of)] = best.as_slice()
                    && first > second
                {
                    return Ok(*of);
                }
            }
        }
    }
    // One column: any of them will do.
    Ok(b',')
}
