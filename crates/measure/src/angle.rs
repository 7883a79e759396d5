//! Angle, and the taper of a cone as a half angle.

use crate::math;
use std::f64::consts::PI;

/// An angle, held in radians. The angle of a cone in this house is always its *half* angle, from the axis.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Angle(f64);

impl Angle {
    /// From `value` in radians.
    pub const fn radians(value: f64) -> Angle {
        Angle(value)
    }

    /// From `value` in degrees.
    pub const fn degrees(value: f64) -> Angle {
        Angle(value * PI / 180.0)
    }

    /// The value in radians.
    pub const fn to_radians(self) -> f64 {
        self.0
    }

    /// The value in degrees.
    pub const fn to_degrees(self) -> f64 {
        self.0 * 180.0 / PI
    }

    /// The half angle of a cone from its taper.
    ///
    /// `taper`: change of *diameter*, inches, over one foot along the axis. The radius changes half as much, so
    /// tan h = taper / 24.
    pub fn from_taper_per_foot(taper: f64) -> Angle {
        Angle(math::atan2(taper, 24.0))
    }

    /// The taper on diameter, inches a foot, of a cone with this half angle; meaningful within ±90°.
    pub fn to_taper_per_foot(self) -> f64 {
        24.0 * math::tan(self.0)
    }

    /// The half angle of a cone whose diameter changes by 1 in `n` along the axis: tan h = 1 / (2 n).
    ///
    /// `n`: a pure ratio above zero.
    pub fn from_one_in(n: f64) -> Angle {
        Angle(math::atan2(1.0, 2.0 * n))
    }

    /// The `n` of "1 in n on diameter" of a cone with this half angle; infinite for a cylinder.
    pub fn to_one_in(self) -> f64 {
        1.0 / (2.0 * math::tan(self.0))
    }
}
