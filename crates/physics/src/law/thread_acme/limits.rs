//! The plain function: every limit of an Acme thread, worked in the inches of the standard.

use crate::thread::lead_angle;
use crate::thread::limits::{Limits, rounded};
use measure::{Angle, Area, Length, math};
use std::f64::consts::PI;

/// The finest pitch that still has the large clearance.
pub const COARSE_TPI: f64 = 10.0;

/// A class of general purpose Acme thread; the larger number fits closer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// 2G, the usual one.
    C2G,
    /// 3G, closer.
    C3G,
    /// 4G, closest.
    C4G,
}

impl Class {
    /// The class a word names.
    pub fn from_word(word: &str) -> Option<Class> {
        [Class::C2G, Class::C3G, Class::C4G]
            .into_iter()
            .find(|class| class.word() == word)
    }

    /// The word that names the class.
    pub fn word(self) -> &'static str {
        match self {
            Class::C2G => "2G",
            Class::C3G => "3G",
            Class::C4G => "4G",
        }
    }

    /// The two parts of the tolerance on the pitch diameter, in inches: how much for the square root
    /// of the diameter, and how much for the square root of the pitch. From memory; the published
    /// limits in 2G and the screws' least minor diameters in 3G and 4G bear it out.
    pub fn tolerance(self) -> (f64, f64) {
        match self {
            Class::C2G => (0.006, 0.030),
            Class::C3G => (0.0028, 0.014),
            Class::C4G => (0.002, 0.010),
        }
    }

    /// The tolerance on the pitch diameter of a thread of this diameter and pitch, all in inches.
    pub(in crate::law) fn on_pitch(self, diameter: f64, pitch: f64) -> f64 {
        let (by_size, by_pitch) = self.tolerance();
        by_size * math::sqrt(diameter) + by_pitch * math::sqrt(pitch)
    }
}

/// The tolerance on the screw's major and the nut's minor diameter for a pitch, both in inches. From
/// memory; published limits bear it out.
pub(in crate::law) fn on_crest(pitch: f64) -> f64 {
    (0.05 * pitch).max(0.005)
}

/// The clearance at the major and the minor diameter, on the diameter.
///
/// Source: Machinery's Handbook, 27th edition, page 1828 (ASME B1.5): .020 in for 10 threads per
/// inch and coarser, .010 in for finer.
pub fn clearance(tpi: f64) -> Length {
    Length::inches(if tpi <= COARSE_TPI { 0.020 } else { 0.010 })
}

/// Every limit of one Acme thread. A pair is least and most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acme {
    /// The limits under the names every sheet uses.
    pub limits: Limits,
    /// Screw, at the root: the least.
    pub external_minor_min: Length,
    /// Nut, at the root: the most.
    pub internal_major_max: Length,
    /// Depth of the screw's thread, its clearance included.
    pub depth: Length,
    /// Flat at the crest of the screw.
    pub crest_flat: Length,
    /// Flat at the root of the screw: the width of the tool's end.
    pub root_flat: Length,
    /// Lead angle at the basic pitch diameter.
    pub lead_angle: Angle,
    /// Diameter of the plain pin that is as strong in tension as the least screw.
    pub stress_diameter: Length,
    /// Area of that pin.
    pub stress_area: Area,
    /// Area of the screw's threads in shear, for one inch of engagement in the widest nut.
    pub shear_area_per_inch: Area,
}

/// The thread of nominal `diameter`, `tpi` threads per inch and `class`, with the pitch-diameter
/// `allowance` of its size from the table and this many `starts`. Holds for a pitch of not more than
/// half the diameter.
///
/// Sources: ASME B1.5 as quoted by Machinery's Handbook, 27th edition, pages 1827 (areas), 1828
/// (form and clearances) and 1841 (allowances); the tolerances from memory, borne out by published
/// limits (`evidence.csv`).
pub fn acme(diameter: Length, tpi: f64, class: Class, allowance: Length, starts: f64) -> Acme {
    let (d, pitch) = (diameter.to_inches(), 1.0 / tpi);
    let (clear, allow) = (clearance(tpi).to_inches(), allowance.to_inches());
    let (on_pitch, on_crest) = (class.on_pitch(d, pitch), on_crest(pitch));

    let half = pitch / 2.0;
    let basic = rounded(d - half, 4);
    let pitch_most = basic - allow;
    let pitch_least = pitch_most - on_pitch;
    let root_most = rounded(d - pitch - clear, 4);
    let root_least = root_most - 1.5 * on_pitch;
    let bore_least = d - pitch;
    let bore_most = bore_least + on_crest;

    let stress_diameter = (rounded(pitch_least, 4) + rounded(root_least, 4)) / 2.0;
    // The flank stands 14.5 degrees from square: between the bore's crest and the pitch line the
    // thread thickens on both flanks.
    let bore = rounded(bore_most, 4);
    let thickness = 0.5 * pitch + math::tan_deg(14.5) * (rounded(pitch_least, 4) - bore);

    let inches = Length::inches;
    Acme {
        limits: Limits {
            external_major: (inches(d - on_crest), inches(d)),
            external_pitch: (inches(pitch_least), inches(pitch_most)),
            external_minor_max: inches(root_most),
            internal_major_min: inches(d + clear),
            internal_pitch: (inches(basic), inches(basic + on_pitch)),
            internal_minor: (inches(bore_least), inches(bore_most)),
            allowance,
        },
        external_minor_min: inches(root_least),
        internal_major_max: inches(d + 2.0 * clear),
        depth: inches(half + 0.5 * clear),
        crest_flat: inches(0.3707 * pitch),
        root_flat: inches(rounded(0.3707 * pitch, 4) - rounded(0.259 * clear, 4)),
        lead_angle: lead_angle(starts * pitch, basic),
        stress_diameter: inches(stress_diameter),
        stress_area: Area::sq_in(PI * stress_diameter * stress_diameter / 4.0),
        shear_area_per_inch: Area::sq_in(PI * bore * thickness * tpi),
    }
}
