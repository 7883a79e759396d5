//! Figures that a worked sheet has stated: a drawing repeats them, after seeing that they are its own.

use crate::error::DrawingError;
use crate::label::Label;
use measure::{House, Length, Rounding, show};

/// The label of a computed size: the sheet's own figure where there is one, else the size rounded this way.
///
/// # Errors
/// [`DrawingError::Stated`] when the figure is no number, or differs from the size by more than one in its last place.
pub(super) fn label(
    name: &'static str,
    stated: Option<&str>,
    length: Length,
    house: House,
    rounding: Rounding,
) -> Result<Label, DrawingError> {
    let Some(text) = stated else {
        return Ok(Label::rounded(length, house, rounding));
    };
    let value = match house {
        House::Inch => length.to_inches(),
        House::Metric => length.to_m() * 1000.0,
    };
    let places = text.split_once('.').map_or(0, |(_, after)| after.len());
    let last = (0..places).fold(1.0, |unit, _| unit / 10.0);
    match text.parse::<f64>() {
        Ok(figure) if (figure - value).abs() <= last * 1.001 => Ok(Label::stated(text, house)),
        _ => Err(DrawingError::Stated {
            name,
            stated: text.to_owned(),
            drawn: show::length(length, house, 6, Rounding::Nearest),
        }),
    }
}
