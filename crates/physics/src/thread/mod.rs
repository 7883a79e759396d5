//! What the thread laws share: the standard series, the limits that a class of fit gives, and what
//! must be true of any thread before it is worked.

pub mod card;
pub mod limits;
pub mod metric;
pub mod pipe;
pub mod series;

use crate::answer::Assumption;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Length, math};
use std::f64::consts::PI;

/// Refuses a pitch so coarse that no core would be left.
///
/// # Errors
/// [`SheetError::Impossible`] when the pitch is more than half the diameter.
pub fn has_core(sheet: &'static str, diameter: Length, pitch: Length) -> Result<(), SheetError> {
    if pitch.to_m() <= 0.5 * diameter.to_m() {
        return Ok(());
    }
    Err(SheetError::impossible(
        sheet,
        format!(
            "a pitch of {:.4} in on {:.4} in leaves no core",
            pitch.to_inches(),
            diameter.to_inches()
        ),
        "a pitch of not more than half the diameter",
    ))
}

/// The lead angle of a thread that goes on by `lead` in one turn, where it is `at` across; both in the
/// same unit.
///
/// Source: plane geometry, the thread unrolled.
pub fn lead_angle(lead: f64, at: f64) -> Angle {
    Angle::radians(math::atan(lead / (PI * at)))
}

/// The number of starts given, or one, said aloud.
pub fn starts(inputs: &Inputs, assumptions: &mut Vec<Assumption>) -> f64 {
    inputs.si("starts").unwrap_or_else(|| {
        assumptions.push(Assumption {
            argument: "starts",
            text: "1",
            si: 1.0,
            why: "a thread named without its starts is single; count the ends to be sure",
        });
        1.0
    })
}
