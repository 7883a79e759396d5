//! The sizes of pipe threads, read from `tables/thread/pipe.csv`.

use crate::csv::{self, Table};
use crate::error::SheetError;
use measure::{Length, Size};

const PIPE: &str = include_str!("../../../../tables/thread/pipe.csv");
const HEADING: [&str; 7] = [
    "standard",
    "size",
    "diameter",
    "tpi",
    "hand_tight",
    "effective",
    "grade",
];

/// One size of one standard.
#[derive(Debug, Clone, PartialEq)]
pub struct Pipe {
    /// Outside of the pipe (NPT) or major diameter at the gauge plane (BSP).
    pub diameter: Length,
    /// Threads per inch.
    pub tpi: f64,
    /// Length screwed in by hand.
    pub hand_tight: Length,
    /// Length of good thread, where the standard lists it.
    pub effective: Option<Length>,
}

struct Row {
    standard: String,
    size: String,
    pipe: Pipe,
}

static PIPES: Table<Row> = Table::new("table of pipe threads", || {
    let length = |cell: &str| {
        let read = Size::parse(cell).map_err(|why| why.to_string())?;
        Ok(read.length())
    };
    csv::each(
        PIPE,
        &HEADING,
        |[standard, size, diameter, tpi, hand_tight, effective, _]| {
            Ok(Row {
                standard,
                size,
                pipe: Pipe {
                    diameter: length(&diameter)?,
                    tpi: csv::number(&tpi)?,
                    hand_tight: length(&hand_tight)?,
                    effective: csv::unless_empty(&effective, length)?,
                },
            })
        },
    )
});

/// The row of `standard` (`npt` or `bsp`) for `size`.
///
/// # Errors
/// [`SheetError::OwnFault`] when our own table cannot be read or lacks the size.
pub fn pipe(sheet: &'static str, standard: &str, size: &str) -> Result<&'static Pipe, SheetError> {
    let named = format!("{standard} {size}");
    let row = PIPES.row(sheet, &named, |row| {
        row.standard == standard && row.size == size
    })?;
    Ok(&row.pipe)
}
