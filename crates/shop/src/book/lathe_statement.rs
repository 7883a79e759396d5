//! What people state of the lathes they cut on. The stored forms, of which `statement` tells the rules.

use measure::Size;
use serde::{Deserialize, Serialize};

use super::id::LatheId;

/// The thread dial of a lathe.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is")]
pub enum ThreadDial {
    /// It has none.
    None,
    /// A worm wheel on the leadscrew turns a face with lines.
    Wheel {
        /// Teeth of the worm wheel.
        teeth: u32,
        /// Lines on the face, numbered and plain together.
        lines: u32,
    },
}

/// What a cross-slide's dial tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DialReads {
    /// The way the slide goes: the diameter becomes less by twice as much.
    Radius,
    /// By how much the diameter becomes less.
    Diameter,
}

impl DialReads {
    /// Both.
    pub const ALL: [DialReads; 2] = [DialReads::Radius, DialReads::Diameter];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            DialReads::Radius => "radius",
            DialReads::Diameter => "diameter",
        }
    }
}

/// What is known of a lathe. What nobody said is missing, and nothing is put in its place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LatheKnown {
    /// The pitch of its leadscrew as it was written: `4 TPI`, `6 mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leadscrew: Option<String>,
    /// Teeth of each change wheel it owns; two alike are named twice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wheels: Option<Vec<u32>>,
    /// Teeth that must be left between a wheel's rim and the stud beside it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stud: Option<u32>,
    /// Teeth that the wheels of a train must have together for its arm to reach the leadscrew.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub span: Option<u32>,
    /// Turns of the first driver to a turn of the spindle, as written: `1`, `1/2`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spindle_ratio: Option<String>,
    /// Its thread dial, or that it has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread_dial: Option<ThreadDial>,
    /// Its spindle's speeds, turns a minute.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speeds: Option<Vec<u32>>,
    /// What the dial of the cross-slide tells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cross_reads: Option<DialReads>,
    /// One graduation of that dial, of what it tells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cross_graduation: Option<Size>,
    /// One graduation of the compound's dial, of the way it goes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub compound_graduation: Option<Size>,
    /// The largest diameter that turns over the bed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swing_bed: Option<Size>,
    /// The largest diameter that turns over the cross-slide.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swing_slide: Option<Size>,
    /// The longest piece between centers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub centers: Option<Size>,
}

/// From where the scale on a compound's swivel counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SwivelZero {
    /// It reads nothing where the slide lies along the bed.
    Bed,
    /// It reads nothing where the slide lies along the cross-slide.
    Cross,
}

impl SwivelZero {
    /// Both.
    pub const ALL: [SwivelZero; 2] = [SwivelZero::Bed, SwivelZero::Cross];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            SwivelZero::Bed => "bed",
            SwivelZero::Cross => "cross",
        }
    }
}

/// What is known of how a lathe is set to a taper. What nobody said is missing, and nothing is put in its place.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LatheTaper {
    /// One graduation of the compound's swivel as it was written: `1 deg`, `0d30m`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swivel_graduation: Option<String>,
    /// From where that scale counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub swivel_zero: Option<SwivelZero>,
    /// How far the tailstock goes over, each way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_over: Option<Size>,
}

/// A lathe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LatheAdded {
    /// Made by the device.
    pub id: LatheId,
    /// What the shop calls it.
    pub name: String,
    /// What is known of it.
    #[serde(flatten)]
    pub known: LatheKnown,
    /// What is known of tapers on it; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taper: Option<LatheTaper>,
}

/// More is known of a lathe, or something else. What is not told stays as it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LatheTold {
    /// Which.
    pub lathe: LatheId,
    /// What is known.
    #[serde(flatten)]
    pub known: LatheKnown,
    /// What is known of tapers on it; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taper: Option<LatheTaper>,
}
