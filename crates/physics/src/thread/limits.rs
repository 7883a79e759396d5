//! The limits of a thread and its mate, as every class of fit gives them.

use crate::answer::Answer;
use crate::formula::to_places;
use measure::Length;

/// Limits of a screw and its nut. A pair is least and most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Screw, over the crests.
    pub external_major: (Length, Length),
    /// Screw, pitch diameter.
    pub external_pitch: (Length, Length),
    /// Screw, at the root: the most.
    pub external_minor_max: Length,
    /// Nut, at the root: the least.
    pub internal_major_min: Length,
    /// Nut, pitch diameter.
    pub internal_pitch: (Length, Length),
    /// Nut, the bore.
    pub internal_minor: (Length, Length),
    /// How far the screw's greatest pitch diameter stands under the basic one.
    pub allowance: Length,
}

impl Answer {
    /// Adds the limits under the names that every sheet of limits uses.
    #[must_use]
    pub fn with_limits(self, limits: &Limits) -> Answer {
        self.with("external_major_max", limits.external_major.1)
            .with("external_major_min", limits.external_major.0)
            .with("external_pitch_max", limits.external_pitch.1)
            .with("external_pitch_min", limits.external_pitch.0)
            .with("external_minor_max", limits.external_minor_max)
            .with("internal_major_min", limits.internal_major_min)
            .with("internal_pitch_min", limits.internal_pitch.0)
            .with("internal_pitch_max", limits.internal_pitch.1)
            .with("internal_minor_min", limits.internal_minor.0)
            .with("internal_minor_max", limits.internal_minor.1)
            .with("allowance", limits.allowance)
    }
}

/// `inches` to `places` decimal places, halves upward, as a printed table is made.
pub fn rounded(inches: f64, places: u32) -> f64 {
    to_places(inches, f64::from(places))
}
