//! Deviation and tolerances of ISO metric threads, read from `tables/thread/metric.csv`.

use crate::csv::{self, Span, Table};
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

struct Row {
    diameters: Span,
    /// The pitch as the table writes it.
    named: String,
    figures: Grade6,
}

static TOLERANCES: Table<Row> = Table::new("table of metric tolerances", || {
    let micrometres = |cell: &str| Ok::<Length, String>(Length::mm(csv::number(cell)? / 1000.0));
    csv::each(
        METRIC,
        &HEADING,
        |[over, to, named, deviation, major, screw, nut, bore]| {
            Ok(Row {
                diameters: Span::read(&over, &to)?,
                figures: Grade6 {
                    pitch: Length::mm(csv::number(&named)?),
                    deviation: micrometres(&deviation)?,
                    major: micrometres(&major)?,
                    screw: micrometres(&screw)?,
                    nut: micrometres(&nut)?,
                    bore: micrometres(&bore)?,
                },
                named,
            })
        },
    )
});

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
    let mut rows = TOLERANCES.rows(sheet)?.iter();
    let row = rows.find(|row| row.named == pitch && row.diameters.holds(diameter.to_mm()));
    Ok(row.map(|row| row.figures))
}
