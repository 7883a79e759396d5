//! The pitch of a thread: a fraction, because 1/12 in is no whole number of ticks.

use crate::fraction::{self, Fraction};
use crate::length::Length;
use num_traits::{CheckedMul, Zero};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

/// The axial distance from one thread to the next, in exact inches, above zero. In JSON it is a fraction in a
/// string, `"1/12"`, of inches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pitch(Fraction);

impl Pitch {
    /// From threads per inch, above zero.
    ///
    /// # Errors
    /// [`PitchError`] when it is not above zero.
    pub fn from_tpi(tpi: Fraction) -> Result<Pitch, PitchError> {
        above_zero(tpi).map(|tpi| Pitch(tpi.recip()))
    }

    /// From the pitch in inches, above zero.
    ///
    /// # Errors
    /// [`PitchError`] when it is not above zero.
    pub fn from_inches(inches: Fraction) -> Result<Pitch, PitchError> {
        above_zero(inches).map(Pitch)
    }

    /// From the pitch in millimetres, above zero.
    ///
    /// # Errors
    /// [`PitchError`] when it is not above zero, or too long a fraction to hold.
    pub fn from_mm(millimetres: Fraction) -> Result<Pitch, PitchError> {
        let inches = millimetres
            .checked_mul(&Fraction::new(5, 127))
            .ok_or(PitchError::TooLong)?;
        above_zero(inches).map(Pitch)
    }

    /// Threads per inch.
    pub fn tpi(self) -> Fraction {
        self.0.recip()
    }

    /// The pitch in inches.
    pub const fn inches(self) -> Fraction {
        self.0
    }

    /// The pitch in millimetres, or None when the fraction is too long to turn.
    pub fn mm(self) -> Option<Fraction> {
        self.0.checked_mul(&Fraction::new(127, 5))
    }

    /// The pitch as a floating length, for use inside a law.
    pub fn length(self) -> Length {
        Length::inches(fraction::to_f64(self.0))
    }
}

fn above_zero(value: Fraction) -> Result<Fraction, PitchError> {
    if value > Fraction::zero() {
        Ok(value)
    } else {
        Err(PitchError::NotAboveZero {
            given: fraction::mixed(value),
        })
    }
}

/// Why a number cannot be a pitch.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PitchError {
    /// It is zero or below.
    #[error(
        "a pitch or a number of threads per inch of {given} was given; a number above zero was expected"
    )]
    NotAboveZero {
        /// What was given.
        given: String,
    },
    /// The fraction has too many figures.
    #[error("the pitch given has more figures than this program can hold")]
    TooLong,
}

impl Serialize for Pitch {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Pitch {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Pitch, D::Error> {
        let text = String::deserialize(deserializer)?;
        let (over, under) = text.split_once('/').unwrap_or((&text, "1"));
        let whole = |part: &str| part.parse::<i128>().ok().filter(|&n| n > 0);
        let (Some(over), Some(under)) = (whole(over), whole(under)) else {
            return Err(D::Error::custom(format!(
                "a pitch was read as `{text}`; a fraction of an inch above zero, such as 1/12, was expected"
            )));
        };
        let inches = Fraction::new(over, under);
        Pitch::from_inches(inches).map_err(D::Error::custom)
    }
}
