//! The plain function: every limit of an Acme thread, worked in the inches of the standard.

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
    /// Screw, over the crests.
    pub external_major: (Length, Length),
    /// Screw, pitch diameter.
    pub external_pitch: (Length, Length),
    /// Screw, at the root.
    pub external_minor: (Length, Length),
    /// Nut, at the root.
    pub internal_major: (Length, Length),
    /// Nut, pitch diameter.
    pub internal_pitch: (Length, Length),
    /// Nut, the bore.
    pub internal_minor: (Length, Length),
    /// How far the screw's greatest pitch diameter stands under the basic one.
    pub allowance: Length,
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

/// A size or tolerance to the four places in which the standard prints it, halves upward. Binary
/// dust below a half is forgiven, as the pencil would.
fn four_places(inches: f64) -> f64 {
    (inches * 10_000.0 * (1.0 + 1e-9) + 0.5).floor() / 10_000.0
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
    let (by_size, by_pitch) = class.tolerance();
    let on_pitch = by_size * math::sqrt(d) + by_pitch * math::sqrt(pitch);
    let on_crest = if 0.05 * pitch < 0.005 {
        0.005
    } else {
        0.05 * pitch
    };

    let half = pitch / 2.0;
    let basic = four_places(d - half);
    let pitch_most = basic - allow;
    let pitch_least = pitch_most - on_pitch;
    let root_most = four_places(d - pitch - clear);
    let root_least = root_most - 1.5 * on_pitch;
    let bore_least = d - pitch;
    let bore_most = bore_least + on_crest;

    let stress_diameter = (four_places(pitch_least) + four_places(root_least)) / 2.0;
    // The flank stands 14.5 degrees from square: between the bore's crest and the pitch line the
    // thread thickens on both flanks.
    let bore = four_places(bore_most);
    let thickness = 0.5 * pitch + math::tan_deg(14.5) * (four_places(pitch_least) - bore);

    let inches = Length::inches;
    Acme {
        external_major: (inches(d - on_crest), inches(d)),
        external_pitch: (inches(pitch_least), inches(pitch_most)),
        external_minor: (inches(root_least), inches(root_most)),
        internal_major: (inches(d + clear), inches(d + 2.0 * clear)),
        internal_pitch: (inches(basic), inches(basic + on_pitch)),
        internal_minor: (inches(bore_least), inches(bore_most)),
        allowance,
        depth: inches(half + 0.5 * clear),
        crest_flat: inches(0.3707 * pitch),
        root_flat: inches(four_places(0.3707 * pitch) - four_places(0.259 * clear)),
        lead_angle: Angle::radians(math::atan2(starts * pitch, PI * basic)),
        stress_diameter: inches(stress_diameter),
        stress_area: Area::sq_in(PI * stress_diameter * stress_diameter / 4.0),
        shear_area_per_inch: Area::sq_in(PI * bore * thickness * tpi),
    }
}
