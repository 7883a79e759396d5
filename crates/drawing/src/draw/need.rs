//! Refuses, in words, sizes from which nothing can be drawn.

use crate::error::DrawingError;
use crate::label::{Kept, Tolerance};
use measure::{Angle, House, Length, Rounding, show};

/// A size as a sentence has it.
pub(super) fn shown(length: Length, house: House) -> String {
    show::length(length, house, 4, Rounding::Nearest)
}

/// The size in inches, if it is above nothing.
pub(super) fn size(name: &'static str, length: Length, house: House) -> Result<f64, DrawingError> {
    more(name, length, Length::m(0.0), "a size above nothing", house)
}

/// The size in inches, if it is more than another; `expected` says in words what that is.
pub(super) fn more(
    name: &'static str,
    length: Length,
    than: Length,
    expected: &str,
    house: House,
) -> Result<f64, DrawingError> {
    if length.to_m().is_finite() && length.to_m() > than.to_m() {
        return Ok(length.to_inches());
    }
    let expected = if than.to_m() > 0.0 {
        format!("{expected} ({})", shown(than, house))
    } else {
        expected.to_owned()
    };
    Err(DrawingError::Size {
        name,
        given: shown(length, house),
        expected,
    })
}

/// The size in inches, if it is above nothing and its tolerance is one that it keeps itself.
pub(super) fn kept(name: &'static str, kept: Kept, house: House) -> Result<f64, DrawingError> {
    let inches = size(name, kept.size, house)?;
    let span = match kept.within {
        None | Some(Tolerance::Reference) => return Ok(inches),
        Some(Tolerance::Either(by)) => (-by.to_inches(), by.to_inches()),
        Some(Tolerance::OverUnder(over, under)) => (-under.to_inches(), over.to_inches()),
        Some(Tolerance::Limits(least, most)) => {
            (least.to_inches() - inches, most.to_inches() - inches)
        }
    };
    // A hair is the dust of arithmetic.
    let (least, most) = (span.0 - 1e-9, span.1 + 1e-9);
    if least <= 0.0 && most >= 0.0 && inches + span.0 > 0.0 && span.1.is_finite() {
        return Ok(inches);
    }
    Err(DrawingError::Size {
        name,
        given: shown(kept.size, house),
        expected: "a size within its own limits, and limits above nothing".to_owned(),
    })
}

/// The half angle in radians, if it is one of a cone: from 1 to 89 degrees.
pub(super) fn half_angle(name: &'static str, angle: Angle) -> Result<f64, DrawingError> {
    if (1.0..=89.0).contains(&angle.to_degrees()) {
        return Ok(angle.to_radians());
    }
    Err(DrawingError::Size {
        name,
        given: show::degrees(angle, 2, Rounding::Nearest),
        expected: "a half angle from the axis of 1° to 89°".to_owned(),
    })
}
