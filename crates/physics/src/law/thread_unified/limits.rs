//! The plain function: every limit of a Unified thread, worked in the inches of the standard.

use crate::thread::limits::{Limits, rounded};
use measure::{Length, math};

/// A class of fit: the larger number fits closer. 1 is 1A on 1B, and so on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// 1A on 1B: loose, for quick work and bruised threads.
    C1,
    /// 2A on 2B: the usual one.
    C2,
    /// 3A on 3B: close, without allowance.
    C3,
}

/// The figures of a class for the screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct External {
    /// Tolerance on the pitch diameter, in tolerances of class 2A.
    pub pitch: f64,
    /// Allowance, in tolerances of class 2A.
    pub allowance: f64,
    /// Tolerance on the major diameter, for the two-thirds power of the pitch.
    pub major: f64,
}

impl Class {
    /// The class a word names.
    pub fn from_word(word: &str) -> Option<Class> {
        [Class::C1, Class::C2, Class::C3]
            .into_iter()
            .find(|class| class.word() == word)
    }

    /// The word that names the class.
    pub fn word(self) -> &'static str {
        match self {
            Class::C1 => "1",
            Class::C2 => "2",
            Class::C3 => "3",
        }
    }

    /// The figures of 1A, 2A or 3A.
    pub(super) fn external(self) -> External {
        let (pitch, allowance, major) = match self {
            Class::C1 => (1.5, 0.3, 0.09),
            Class::C2 => (1.0, 0.3, 0.06),
            Class::C3 => (0.75, 0.0, 0.06),
        };
        External {
            pitch,
            allowance,
            major,
        }
    }

    /// Tolerance on the nut's pitch diameter, in tolerances of class 2A.
    pub(super) fn internal(self) -> f64 {
        match self {
            Class::C1 => 1.95,
            Class::C2 => 1.3,
            Class::C3 => 0.975,
        }
    }

    /// The five figures of the tolerance on the nut's bore: for the two-thirds power of the pitch,
    /// for pitch over diameter, what is taken off them; and the floor under them, for the pitch and
    /// for its square.
    pub(super) fn bore(self, tpi: f64) -> [f64; 5] {
        match self {
            Class::C1 | Class::C2 if tpi < 4.0 => [0.0, 0.0, 0.0, 0.15, 0.0],
            Class::C1 | Class::C2 => [0.0, 0.0, 0.0, 0.25, 0.40],
            Class::C3 if tpi < 13.0 => [0.05, 0.03, 0.002, 0.12, 0.0],
            Class::C3 => [0.05, 0.03, 0.002, 0.23, 1.5],
        }
    }

    /// Decimal places to which the nut's greatest bore is printed.
    pub(super) fn bore_places(self) -> u32 {
        match self {
            Class::C1 | Class::C2 => 3,
            Class::C3 => 4,
        }
    }
}

/// A Unified thread: its limits, and the screw's root when that is rounded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unified {
    /// The limits; the screw's root is that of the flat form, UN.
    pub limits: Limits,
    /// Screw, at the root of the rounded form, UNR: the most.
    pub external_minor_max_unr: Length,
    /// Tolerance on the pitch diameter of class 2A, before the class takes its share.
    pub tolerance_2a: Length,
}

/// The thread of nominal `diameter`, `tpi` threads per inch and `class`, for this length of
/// `engagement`. Holds from 1/4 in and for a pitch of not more than half the diameter.
///
/// Sources: ASME B1.1 as worked in Machinery's Handbook, 31st edition (1/2-28 and 19/64-36); the
/// tolerance formulas from memory, borne out by published limits (`evidence.csv`).
pub fn unified(diameter: Length, tpi: f64, class: Class, engagement: Length) -> Unified {
    let (d, pitch) = (diameter.to_inches(), 1.0 / tpi);
    let root = math::cbrt(pitch);
    let two_thirds = root * root;
    let tolerance = rounded(
        0.0015 * math::cbrt(d) + 0.0015 * math::sqrt(engagement.to_inches()) + 0.015 * two_thirds,
        6,
    );
    let external = class.external();
    let allowance = rounded(rounded(external.allowance * tolerance, 6) - 1e-7, 4);
    let crest = rounded(external.major * two_thirds, 4);
    let on_screw = rounded(external.pitch * tolerance, 4);
    let on_nut = rounded(class.internal() * tolerance, 4);

    let basic = rounded(d, 4);
    let body = basic - allowance;
    let screw = rounded(body - 0.649_519_05 * pitch, 4);
    let nut = rounded(basic - 0.649_519_05 * pitch, 4);
    let bore = basic - 1.082_531_75 * pitch;
    let [size, slope, less, floor, square] = class.bore(tpi);
    let by_size = size * two_thirds + slope * pitch / d - less;
    let on_bore = by_size.max(floor * pitch - square * pitch * pitch);

    let inches = Length::inches;
    Unified {
        limits: Limits {
            external_major: (inches(body - crest), inches(body)),
            external_pitch: (inches(screw - on_screw), inches(screw)),
            external_minor_max: inches(rounded(body - 1.082_531_75 * pitch, 4)),
            internal_major_min: inches(basic),
            internal_pitch: (inches(nut), inches(nut + on_nut)),
            internal_minor: (
                inches(rounded(bore, 3)),
                inches(rounded(bore + on_bore, class.bore_places())),
            ),
            allowance: inches(allowance),
        },
        external_minor_max_unr: inches(rounded(body - 1.190_784_93 * pitch, 4)),
        tolerance_2a: inches(tolerance),
    }
}
