//! The standard series of threads, read from `tables/thread/series.csv`.

use crate::csv::{self, Table};
use crate::error::SheetError;
use measure::{Dimension, House, Length, Size, entered};

const SERIES: &str = include_str!("../../../../tables/thread/series.csv");
const HEADING: [&str; 7] = ["series", "form", "from", "to", "step", "pitch", "grade"];

/// One size of one standard series.
#[derive(Debug, Clone, PartialEq)]
pub struct Standard {
    /// The series by its usual name: `UNC`, `BSF`.
    pub series: String,
    /// The form of its thread, by the word the sheets use: `unified`, `whitworth`.
    pub form: String,
    /// The size as it is named: `3/4 in`.
    pub size: String,
    /// The nominal diameter; of a pipe, the diameter of the thread.
    pub diameter: Length,
    /// The pitch as it is named: `10 TPI`, `2.5 mm`.
    pub named_pitch: String,
    /// The pitch.
    pub pitch: Length,
    /// Whether the row was read in a source or is from memory.
    pub grade: String,
}

/// Every size of every series, each row with a step written out.
///
/// # Errors
/// [`SheetError::OwnFault`] when our own table cannot be read.
pub fn standards(sheet: &'static str) -> Result<&'static [Standard], SheetError> {
    STANDARDS.rows(sheet)
}

/// The names of the series that have this `diameter` with this `pitch`.
///
/// # Errors
/// As [`standards`].
pub fn series_of(
    sheet: &'static str,
    form: &str,
    diameter: Length,
    pitch: Length,
) -> Result<Vec<&'static str>, SheetError> {
    let near = |a: Length, b: Length| (a.to_m() - b.to_m()).abs() < 1e-9;
    let all = standards(sheet)?.iter();
    let fits = all
        .filter(|one| one.form == form && near(one.diameter, diameter) && near(one.pitch, pitch));
    Ok(fits.map(|one| one.series.as_str()).collect())
}

static STANDARDS: Table<Standard> = Table::new("table of thread series", || {
    let written_out = csv::each(SERIES, &HEADING, sizes)?;
    Ok(written_out.into_iter().flatten().collect())
});

/// The sizes of one row: one, or every step from the first to the last.
fn sizes(row: [String; 7]) -> Result<Vec<Standard>, String> {
    let [series, form, from, to, step, named_pitch, grade] = row;
    let size = |text: &str| Size::parse(text).map_err(|why| why.to_string());
    let pitch =
        entered(&named_pitch, Dimension::Pitch, House::Inch).map_err(|why| why.to_string())?;
    let (first, last) = (size(&from)?, size(&to)?);
    let step = csv::unless_empty(&step, size)?.filter(|step| *step > Size::ZERO);
    let house = measure::show::written_in(&from).unwrap_or(House::Inch);
    let steps = std::iter::successors(Some(first), |at| at.checked_add(step?));
    let one = |at: Size| Standard {
        series: series.clone(),
        form: form.clone(),
        size: if from == to {
            from.clone()
        } else {
            measure::show::size(at, house)
        },
        diameter: at.length(),
        named_pitch: named_pitch.clone(),
        pitch: Length::m(pitch.si),
        grade: grade.clone(),
    };
    Ok(steps.take_while(|at| *at <= last).map(one).collect())
}
