//! A taper on one lathe: the swivel of its compound as its own scale reads it, or its tailstock set over.

use measure::{Angle, Dimension, House, Length, Size, entered, math};
use physics::Sheet;

use super::{Missing, Swing, Told, degrees, inches, lacks, over_slide, reread};
use crate::Refusal;
use crate::book::{Lathe, SwivelZero};

/// The sheet whose settings are worked here.
pub const TAPER: &str = "lathe.taper";

/// The settings of one lathe for one taper.
#[derive(Debug, Clone, PartialEq)]
pub struct Taper {
    /// The compound's swivel.
    pub swivel: Told<Swivel>,
    /// The tailstock; nothing where the length between centers was not told to the sheet.
    pub set_over: Option<Told<SetOver>>,
    /// Whether the work goes between the centers; nothing where its length was not told.
    pub between: Option<Told<Between>>,
    /// Over the cross-slide.
    pub swing: Swing,
}

/// The swivel of the compound.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swivel {
    /// From where its scale counts.
    pub zero: SwivelZero,
    /// What it should read, degrees.
    pub wanted: f64,
    /// The nearest line of its scale, degrees.
    pub line: f64,
    /// By how much the diameter is off over the taper's length if it stands on that line: above zero, too much taper.
    pub off: Length,
}

/// The tailstock set over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetOver {
    /// How far it should go.
    pub wanted: Length,
    /// How far it goes.
    pub most: Size,
}

/// The work between the centers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Between {
    /// How long it is.
    pub work: Length,
    /// How long it may be.
    pub most: Size,
}

impl SetOver {
    /// Whether the tailstock goes so far.
    pub fn reaches(&self) -> bool {
        self.wanted.to_m() <= self.most.length().to_m()
    }
}

impl Between {
    /// Whether the work goes in.
    pub fn goes_in(&self) -> bool {
        self.work.to_m() <= self.most.length().to_m()
    }
}

/// Works them.
///
/// # Errors
/// Input: the sheet is not [`TAPER`], or does not read back.
pub fn taper(kept: &Lathe, sheet: &Sheet) -> Result<Taper, Refusal> {
    let read = || {
        Some((
            degrees(sheet, "compound_setting")?,
            inches(sheet, "large")?,
            inches(sheet, "length")?,
        ))
    };
    let (half, large, length) = reread(TAPER, sheet, read)?;
    let known = &kept.known;
    let over = super::result_inches(sheet, "tailstock_offset").map(|wanted| {
        let most = kept.taper.set_over.ok_or_else(|| vec![Missing::SetOver])?;
        Ok(SetOver {
            wanted: Length::inches(wanted),
            most,
        })
    });
    let between = inches(sheet, "between_centers").map(|work| {
        let most = known.centers.ok_or_else(|| vec![Missing::Centers])?;
        Ok(Between {
            work: Length::inches(work),
            most,
        })
    });
    Ok(Taper {
        swivel: swivel(kept, half, length),
        set_over: over,
        between,
        swing: over_slide(known, large),
    })
}

/// `half` is the half angle from the axis, degrees; `length` that of the taper, inches.
fn swivel(kept: &Lathe, half: f64, length: f64) -> Told<Swivel> {
    let (written, zero) = (&kept.taper.swivel_graduation, kept.taper.swivel_zero);
    let (Some(written), Some(zero)) = (written, zero) else {
        let wanting = [
            (written.is_none(), Missing::SwivelGraduation),
            (zero.is_none(), Missing::SwivelZero),
        ];
        return Err(lacks(wanting));
    };
    let read = entered(written, Dimension::Angle, House::Inch);
    let one = read.map_or(0.0, |read| Angle::radians(read.si).to_degrees());
    if one <= 0.0 {
        return Err(vec![Missing::SwivelGraduation]);
    }
    let wanted = match zero {
        SwivelZero::Bed => half,
        SwivelZero::Cross => 90.0 - half,
    };
    let line = (wanted / one).round() * one;
    let set = match zero {
        SwivelZero::Bed => line,
        SwivelZero::Cross => 90.0 - line,
    };
    let off = 2.0 * length * (math::tan_deg(set) - math::tan_deg(half));
    Ok(Swivel {
        zero,
        wanted,
        line,
        off: Length::inches(off),
    })
}
