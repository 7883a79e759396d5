//! The plain function: every limit of a Whitworth thread, worked in the inches of the standard.

use crate::thread::limits::{Limits, rounded};
use measure::{Length, math};

/// A class of fit of BS 84.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// Close screw on a medium nut.
    Close,
    /// Medium screw on a medium nut.
    Medium,
    /// Free screw on a normal nut.
    Free,
}

impl Class {
    /// The class a word names.
    pub fn from_word(word: &str) -> Option<Class> {
        [Class::Close, Class::Medium, Class::Free]
            .into_iter()
            .find(|class| class.word() == word)
    }

    /// The word that names the class.
    pub fn word(self) -> &'static str {
        match self {
            Class::Close => "close",
            Class::Medium => "medium",
            Class::Free => "free",
        }
    }

    /// The screw's tolerance on the effective diameter, in medium tolerances.
    pub(super) fn external(self) -> f64 {
        match self {
            Class::Close => 2.0 / 3.0,
            Class::Medium => 1.0,
            Class::Free => 1.5,
        }
    }

    /// The nut's, in medium tolerances. Which nut goes with which screw is from memory.
    pub(super) fn internal(self) -> f64 {
        match self {
            Class::Close | Class::Medium => 1.0,
            Class::Free => 1.5,
        }
    }
}

/// The part of the tolerance on the nut's bore that does not grow with the pitch, in inches.
pub(super) fn bore_part(tpi: f64) -> f64 {
    if tpi >= 26.0 {
        0.004
    } else if tpi >= 22.0 {
        0.005
    } else {
        0.007
    }
}

/// The thread of nominal `diameter`, `tpi` threads per inch and `class`, for this length of
/// `engagement`. Holds for a pitch of not more than half the diameter.
///
/// Sources: form and basic sizes BS 84 as listed by makers (`evidence.csv`); the tolerances from
/// memory.
pub fn whitworth(diameter: Length, tpi: f64, class: Class, engagement: Length) -> Limits {
    let (d, pitch) = (rounded(diameter.to_inches(), 4), 1.0 / tpi);
    let depth = rounded(0.640_327 * pitch, 4);
    let root = math::sqrt(pitch);
    let tolerance = 0.002 * math::cbrt(diameter.to_inches())
        + 0.003 * math::sqrt(engagement.to_inches())
        + 0.005 * root;
    let on_screw = rounded(class.external() * tolerance, 4);
    let on_crest = rounded(class.external() * tolerance + 0.01 * root, 4);
    let on_nut = rounded(class.internal() * tolerance, 4);
    let on_bore = rounded(0.2 * pitch + bore_part(tpi), 4);
    let (effective, core) = (d - depth, d - 2.0 * depth);

    let inches = Length::inches;
    Limits {
        external_major: (inches(d - on_crest), inches(d)),
        external_pitch: (inches(effective - on_screw), inches(effective)),
        external_minor_max: inches(core),
        internal_major_min: inches(d),
        internal_pitch: (inches(effective), inches(effective + on_nut)),
        internal_minor: (inches(core), inches(core + on_bore)),
        allowance: inches(0.0),
    }
}
