//! Turning on one lathe: which of its speeds, and how much of its dial a cut is.

use physics::Sheet;

use super::{Infeed, Missing, Swing, Told, cross_infeed, inches, number, over_slide, reread};
use crate::Refusal;
use crate::book::{DialReads, LatheKnown};

/// The sheet whose settings are worked here.
pub const TURNING: &str = "lathe.turning";

/// The settings of one lathe for turning one diameter.
#[derive(Debug, Clone, PartialEq)]
pub struct Turning {
    /// The spindle.
    pub speed: Told<TurningSpeed>,
    /// One cut by the cross-slide, and what its dial reads.
    pub cut: Told<(Infeed, DialReads)>,
    /// Over the cross-slide.
    pub swing: Swing,
}

/// The spindle's speeds, turns a minute.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TurningSpeed {
    /// What the sheet begins with.
    pub begin: u32,
    /// What the sheet has at most.
    pub most: u32,
    /// The highest it has that is no more than the sheet begins with.
    pub set: Option<u32>,
    /// The highest it has that is no more than the sheet's most, where that is another.
    pub later: Option<u32>,
    /// The slowest it has.
    pub slowest: u32,
}

/// Works them.
///
/// # Errors
/// Input: the sheet is not [`TURNING`], or does not read back.
pub fn turning(known: &LatheKnown, sheet: &Sheet) -> Result<Turning, Refusal> {
    let read = || {
        let turns = |name| number(sheet, name).map(|turns| turns as u32);
        Some((
            turns("rpm")?,
            turns("rpm_high")?,
            inches(sheet, "depth")?,
            inches(sheet, "diameter")?,
        ))
    };
    let (begin, most, depth, diameter) = reread(TURNING, sheet, read)?;
    let speeds = known.speeds.as_deref().unwrap_or_default();
    let slowest = speeds.iter().min().copied();
    let highest = |limit: u32| speeds.iter().filter(|it| **it <= limit).max().copied();
    let speed = slowest
        .ok_or_else(|| vec![Missing::Speeds])
        .map(|slowest| TurningSpeed {
            begin,
            most,
            set: highest(begin),
            later: highest(most).filter(|it| Some(*it) != highest(begin)),
            slowest,
        });
    Ok(Turning {
        speed,
        cut: cross_infeed(known, &[depth]),
        swing: over_slide(known, diameter),
    })
}
