//! What people state of the blue on a seat while it is lapped. The stored forms, of which `statement` tells the rules.

use measure::Size;
use serde::{Deserialize, Serialize};

use super::id::{JobId, PhotoId};

/// Which face was blued, and against what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BluedFace {
    /// The seat in the body, against its master.
    Seat,
    /// The disc, against its master.
    Disc,
    /// Seat and disc against each other.
    Together,
}

impl BluedFace {
    /// All of them.
    pub const ALL: [BluedFace; 3] = [BluedFace::Seat, BluedFace::Disc, BluedFace::Together];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            BluedFace::Seat => "seat",
            BluedFace::Disc => "disc",
            BluedFace::Together => "together",
        }
    }
}

/// An arc on which it touches: whole degrees, clockwise from the front as one looks down on the face. One that ends
/// before it begins goes through the front; from 0 to 360 is all round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Touch {
    /// Where it begins.
    pub from: u16,
    /// Where it ends.
    pub to: u16,
}

/// The least and the most of a width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct RingWidth {
    /// Where it is narrowest.
    pub least: Size,
    /// Where it is widest.
    pub most: Size,
}

/// A face was blued during lapping, and this was seen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BlueChecked {
    /// The job.
    pub job: JobId,
    /// What was seen.
    #[serde(flatten)]
    pub seen: BlueSeen,
}

/// What was seen of the blue on a face: the same as stated and as it stands in the book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BlueSeen {
    /// Which face.
    pub face: BluedFace,
    /// After which cut or grit.
    pub after: String,
    /// Where it touches; empty where it does not.
    pub touches: Vec<Touch>,
    /// How wide the ring is where it touches, as measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<RingWidth>,
    /// How wide it is to be, where that is stated with this check.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wanted: Option<RingWidth>,
    /// The photograph of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<PhotoId>,
    /// What else was seen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}
