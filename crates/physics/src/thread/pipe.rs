//! The sizes of pipe threads, read from `tables/thread/pipe.csv`.

use crate::csv;
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

/// The row of `standard` (`npt` or `bsp`) for `size`.
///
/// # Errors
/// [`SheetError::OwnFault`] when our own table cannot be read or lacks the size.
pub fn pipe(sheet: &'static str, standard: &str, size: &str) -> Result<Pipe, SheetError> {
    let fault = |detail: String| SheetError::OwnFault {
        sheet,
        what: "table of pipe threads",
        detail,
    };
    for (line, row) in csv::rows(PIPE, &HEADING).map_err(fault)? {
        let said = |what: &str| fault(format!("line {line}: {what}"));
        let [of, named, diameter, tpi, hand_tight, effective, _] =
            <[String; 7]>::try_from(row).map_err(|_| said("fields"))?;
        if of != standard || named != size {
            continue;
        }
        let length = |text: &str| {
            let read = Size::parse(text).map_err(|e| said(&e.to_string()))?;
            Ok::<Length, SheetError>(read.length())
        };
        return Ok(Pipe {
            diameter: length(&diameter)?,
            tpi: tpi.parse().map_err(|_| said("tpi"))?,
            hand_tight: length(&hand_tight)?,
            effective: if effective.is_empty() {
                None
            } else {
                Some(length(&effective)?)
            },
        });
    }
    Err(fault(format!("no row for {standard} {size}")))
}
