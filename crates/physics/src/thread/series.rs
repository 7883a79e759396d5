//! The standard series of threads, read from `tables/thread/series.csv`.

use crate::csv;
use crate::error::SheetError;
use measure::{Dimension, House, Length, Size, entered};
use std::sync::OnceLock;

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
    static READ: OnceLock<Result<Vec<Standard>, String>> = OnceLock::new();
    match READ.get_or_init(read) {
        Ok(all) => Ok(all),
        Err(detail) => Err(SheetError::OwnFault {
            sheet,
            what: "table of thread series",
            detail: detail.clone(),
        }),
    }
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

fn read() -> Result<Vec<Standard>, String> {
    let mut all = Vec::new();
    for (line, row) in csv::rows(SERIES, &HEADING)? {
        let said = |what: &str| format!("line {line}: {what}");
        let [series, form, from, to, step, named_pitch, grade] =
            <[String; 7]>::try_from(row).map_err(|_| said("fields"))?;
        let size = |text: &str| Size::parse(text).map_err(|e| said(&e.to_string()));
        let pitch = entered(&named_pitch, Dimension::Pitch, House::Inch)
            .map_err(|e| said(&e.to_string()))?;
        let (mut at, last) = (size(&from)?, size(&to)?);
        let step = if step.is_empty() {
            None
        } else {
            Some(size(&step)?)
        };
        let house = measure::show::written_in(&from).unwrap_or(House::Inch);
        while at <= last {
            let named = if at == last && from == to {
                from.clone()
            } else {
                measure::show::size(at, house)
            };
            all.push(Standard {
                series: series.clone(),
                form: form.clone(),
                size: named,
                diameter: at.length(),
                named_pitch: named_pitch.clone(),
                pitch: Length::m(pitch.si),
                grade: grade.clone(),
            });
            match step.and_then(|step| at.checked_add(step)) {
                Some(next) if step.is_some_and(|step| step > Size::ZERO) => at = next,
                _ => break,
            }
        }
    }
    Ok(all)
}
