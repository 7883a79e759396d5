//! Deviation and tolerances of ISO metric threads, read from `tables/thread/metric.csv`.

use crate::csv;
use crate::error::SheetError;
use measure::Length;

const METRIC: &str = include_str!("../../../../tables/thread/metric.csv");
const HEADING: [&str; 8] = ["over", "to", "pitch", "es_g", "Td", "Td2", "TD2", "TD1"];

/// The figures of one pitch in one range of diameters, grade 6.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grade6 {
    /// The pitch.
    pub pitch: Length,
    /// How far a screw of deviation g stands under the basic size.
    pub deviation: Length,
    /// Tolerance on the screw's major diameter.
    pub major: Length,
    /// Tolerance on the screw's pitch diameter.
    pub screw: Length,
    /// Tolerance on the nut's pitch diameter.
    pub nut: Length,
    /// Tolerance on the nut's bore.
    pub bore: Length,
}

/// The figures for `diameter` with the pitch written `pitch` in millimetres; none where the standard
/// lists no such pair.
///
/// # Errors
/// [`SheetError::OwnFault`] when our own table cannot be read.
pub fn grade_6(
    sheet: &'static str,
    diameter: Length,
    pitch: &str,
) -> Result<Option<Grade6>, SheetError> {
    let fault = |detail: String| SheetError::OwnFault {
        sheet,
        what: "table of metric tolerances",
        detail,
    };
    for (line, row) in csv::rows(METRIC, &HEADING).map_err(fault)? {
        let number = |at: usize| {
            let cell = row.get(at).and_then(|cell| cell.parse::<f64>().ok());
            cell.ok_or_else(|| fault(format!("line {line}")))
        };
        let (over, to) = (number(0)?, number(1)?);
        let inside = diameter.to_mm() > over + 1e-9 && diameter.to_mm() <= to + 1e-9;
        if !inside || row.get(2).is_none_or(|named| named != pitch) {
            continue;
        }
        let micrometres = |at: usize| Ok::<Length, SheetError>(Length::mm(number(at)? / 1000.0));
        return Ok(Some(Grade6 {
            pitch: Length::mm(number(2)?),
            deviation: micrometres(3)?,
            major: micrometres(4)?,
            screw: micrometres(5)?,
            nut: micrometres(6)?,
            bore: micrometres(7)?,
        }));
    }
    Ok(None)
}
