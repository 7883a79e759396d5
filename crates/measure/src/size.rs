//! A reading or a limit: whole ticks of 2.5 nm, so that the two meet as integers.

use crate::dimension::Dimension;
use crate::fraction::{self, Fraction};
use crate::house::House;
use crate::length::Length;
use crate::show::Rounding;
use crate::text::{entered, entered_with_unit};
use crate::text_error::TextError;
use num_traits::{CheckedMul, Zero};
use serde::{Deserialize, Serialize};

/// An exact size. One tick is 2.5 nm: 1/128 in, 0.0001 in and 1 µm are all whole numbers of ticks, so every
/// size a shop measures in either system is held exactly and compared without rounding. In JSON it is its ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Size(i64);

impl Size {
    /// Ticks in an inch.
    pub const TICKS_PER_INCH: i64 = 10_160_000;
    /// Ticks in a millimetre.
    pub const TICKS_PER_MM: i64 = 400_000;
    /// Nothing.
    pub const ZERO: Size = Size(0);

    /// The size of `ticks`, each 2.5 nm.
    pub const fn from_ticks(ticks: i64) -> Size {
        Size(ticks)
    }

    /// The size in ticks.
    pub const fn ticks(self) -> i64 {
        self.0
    }

    /// From exact inches.
    ///
    /// # Errors
    /// [`SizeError::NotWhole`] when it is no whole number of ticks, [`SizeError::TooLarge`] beyond 23 million km.
    pub fn from_inches(inches: Fraction) -> Result<Size, SizeError> {
        from_unit(inches, Size::TICKS_PER_INCH, 10_000, "in")
    }

    /// From exact millimetres.
    ///
    /// # Errors
    /// As [`Size::from_inches`].
    pub fn from_mm(millimetres: Fraction) -> Result<Size, SizeError> {
        from_unit(millimetres, Size::TICKS_PER_MM, 1_000, "mm")
    }

    /// The size nearest to a length that came out of a law; None when the length is no finite number or too
    /// large. What a person measured never takes this road: it is parsed, and refused when it is not exact.
    pub fn nearest_to(length: Length) -> Option<Size> {
        let ticks = (length.to_mm() * Size::TICKS_PER_MM as f64).round();
        // Below 2^63 in magnitude the cast is exact; NaN fails the comparison.
        (ticks.abs() < 9.2e18).then_some(Size(ticks as i64))
    }

    /// The size in exact inches.
    pub fn inches(self) -> Fraction {
        Fraction::new(i128::from(self.0), i128::from(Size::TICKS_PER_INCH))
    }

    /// The size in exact millimetres.
    pub fn mm(self) -> Fraction {
        Fraction::new(i128::from(self.0), i128::from(Size::TICKS_PER_MM))
    }

    /// The size as a floating length, for use inside a law.
    pub fn length(self) -> Length {
        Length::m(self.0 as f64 / (1_000.0 * Size::TICKS_PER_MM as f64))
    }

    /// The sum, or None when it is too large to hold.
    pub const fn checked_add(self, other: Size) -> Option<Size> {
        match self.0.checked_add(other.0) {
            Some(ticks) => Some(Size(ticks)),
            None => None,
        }
    }

    /// The difference, or None when it is too large to hold.
    pub const fn checked_sub(self, other: Size) -> Option<Size> {
        match self.0.checked_sub(other.0) {
            Some(ticks) => Some(Size(ticks)),
            None => None,
        }
    }

    /// The size with its sign turned, or None for the one that has no opposite (`i64::MIN` ticks).
    pub const fn checked_neg(self) -> Option<Size> {
        match self.0.checked_neg() {
            Some(ticks) => Some(Size(ticks)),
            None => None,
        }
    }

    /// The size without its sign; `i64::MIN` ticks, which no shop can hold, gives the largest size there is.
    pub const fn abs(self) -> Size {
        Size(self.0.saturating_abs())
    }

    /// `times` of this size end to end, or None when that is too large to hold.
    pub const fn checked_times(self, times: i64) -> Option<Size> {
        match self.0.checked_mul(times) {
            Some(ticks) => Some(Size(ticks)),
            None => None,
        }
    }

    /// Reads a size that carries its unit: `1 1/4 in`, `.0049"`, `31.75 mm`.
    ///
    /// # Errors
    /// [`TextError`]: unreadable, no unit, another dimension, or no whole number of ticks.
    pub fn parse(text: &str) -> Result<Size, TextError> {
        entered_with_unit(text, Dimension::Length)?.size()
    }

    /// Reads a size; a bare number takes the house unit.
    ///
    /// # Errors
    /// As [`Size::parse`], but for the missing unit.
    pub fn parse_in(text: &str, house: House) -> Result<Size, TextError> {
        entered(text, Dimension::Length, house)?.size()
    }
}

/// `value` of a unit that holds `ticks`; `grid` is the fineness offered when it does not fit.
fn from_unit(
    value: Fraction,
    ticks: i64,
    grid: i128,
    unit: &'static str,
) -> Result<Size, SizeError> {
    let too_large = SizeError::TooLarge;
    let Some(exact) = value.checked_mul(&Fraction::from_integer(i128::from(ticks))) else {
        return Err(too_large);
    };
    if !exact.is_integer() {
        let nearest = fraction::nearest(value, grid).unwrap_or_else(Fraction::zero);
        let places = if grid == 10_000 { 4 } else { 3 };
        return Err(SizeError::NotWhole {
            nearest: fraction::decimal(nearest, places, Rounding::Nearest),
            unit,
        });
    }
    i64::try_from(exact.to_integer())
        .map(Size)
        .map_err(|_| too_large)
}

/// Why a number cannot be held as a size.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SizeError {
    /// It falls between two ticks.
    #[error(
        "that is not a size the shop can write exactly (128ths and ten-thousandths of an inch and thousandths of a millimetre are); the nearest is {nearest} {unit}"
    )]
    NotWhole {
        /// The nearest size on the shop's own grid.
        nearest: String,
        /// The unit it was given in.
        unit: &'static str,
    },
    /// It is beyond 23 million kilometres.
    #[error(
        "that is larger than any size this program can hold; one below 23 million km was expected"
    )]
    TooLarge,
}
