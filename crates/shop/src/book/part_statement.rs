//! What people state of parts, of how readings were taken, of instruments and of photographs: the stored forms, of
//! which `statement` tells the rules.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::id::{
    FindingId, InstrumentId, JobId, LetterId, LocomotiveId, PartId, PhotoId, ToolingId,
};

/// What is known of one feature of a part.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FeatureFacts {
    /// As built, as written (a size or an angle).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_built: Option<String>,
    /// Our own limit, tighter than any law, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shop_limit: Option<String>,
    /// Metal one re-cut usually takes, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
}

/// A part of a locomotive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartAdded {
    /// Made by the device.
    pub id: PartId,
    /// On which engine.
    pub locomotive: LocomotiveId,
    /// Its family's word.
    pub family: String,
    /// What the shop calls it, e.g. `right feed check`.
    pub name: String,
    /// Facts of the whole part that the family asks for, e.g. `seat-design` = `matched`.
    pub facts: BTreeMap<String, String>,
    /// What is known of each feature.
    pub features: BTreeMap<String, FeatureFacts>,
    /// Where it is, what it is of, when it came; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known: Option<PartKnown>,
}

/// A lap, mandrel, plug gauge, master: numbered, with a shelf and the part it serves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToolingAdded {
    /// Made by the device.
    pub id: ToolingId,
    /// What it is, with the size it was made to.
    pub what: String,
    /// The part it serves.
    pub part: PartId,
    /// Where it lies.
    pub shelf: String,
    /// The job it was made for.
    pub job: Option<JobId>,
}

/// A side of the engine, as somebody sees it who sits in the cab and looks ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// The right.
    Right,
    /// The left.
    Left,
    /// In the middle, or of both.
    Center,
}

impl Side {
    /// All three.
    pub const ALL: [Side; 3] = [Side::Right, Side::Left, Side::Center];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Side::Right => "right",
            Side::Left => "left",
            Side::Center => "center",
        }
    }

    /// The side it mirrors, if it mirrors one.
    pub fn mirror(self) -> Option<Side> {
        match self {
            Side::Right => Some(Side::Left),
            Side::Left => Some(Side::Right),
            Side::Center => None,
        }
    }
}

/// What is known of a part beside its facts and its sizes: where it is, what it is of, when it came and went. What
/// nobody said is missing. Days are as written: a year, a year and a month, or a day.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartKnown {
    /// On which side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// On which axle, coupled axles counted from the front from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axle: Option<u32>,
    /// Where more exactly, e.g. `front` or `row 3, bolt 9`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<String>,
    /// The assembly it is part of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<PartId>,
    /// What it is made of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
    /// The number of its drawing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drawing: Option<String>,
    /// What must come off to reach it, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reach: Vec<String>,
    /// Parts it mates with; each says so of the other.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mates: Vec<PartId>,
    /// Other names and old numbers it goes by.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub also: Vec<String>,
    /// When it was fitted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitted: Option<String>,
    /// When it was taken off for good.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub removed: Option<String>,
    /// The engine it came from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub donor: Option<String>,
}

/// What is known of one feature, as told later than its part was added.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FeatureTold {
    /// The size on the drawing, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drawn: Option<String>,
    /// As built, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub as_built: Option<String>,
    /// Our own limit, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shop_limit: Option<String>,
    /// Metal one re-cut usually takes, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
    /// Sizes it is made to one after the other, as written, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<String>,
}

/// More is known of a part, or something else. What is not told stays as it was; a list takes the place of the
/// list before it, but mates and other names are added to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartTold {
    /// Which part.
    pub part: PartId,
    /// What is known.
    #[serde(flatten)]
    pub known: PartKnown,
    /// Facts of the whole part.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub facts: BTreeMap<String, String>,
    /// What is known of features.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub features: BTreeMap<String, FeatureTold>,
    /// The paper it was read from, or who remembers it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub document: Option<String>,
}

/// The state an engine is in while she is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum EngineState {
    /// Cold, boiler empty.
    ColdAndDrained,
    /// Cold, boiler full.
    ColdAndFull,
    /// Warm or hot.
    Hot,
}

impl EngineState {
    /// All three.
    pub const ALL: [EngineState; 3] = [
        EngineState::ColdAndDrained,
        EngineState::ColdAndFull,
        EngineState::Hot,
    ];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            EngineState::ColdAndDrained => "cold-and-drained",
            EngineState::ColdAndFull => "cold-and-full",
            EngineState::Hot => "hot",
        }
    }
}

/// A reading that was questioned and is kept all the same.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Questioned {
    /// The feature.
    pub feature: String,
    /// The place.
    pub position: String,
    /// What was asked, as worded that day.
    pub asked: String,
}

/// How a set of readings was taken.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Circumstances {
    /// How the part or the engine was supported, in the measurer's words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supported: Option<String>,
    /// The state of the engine.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub standing: Option<EngineState>,
    /// Readings that were questioned.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub questioned: Vec<Questioned>,
    /// Why they are insisted on; there only where something was questioned.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub insisted: Option<String>,
}

/// An instrument of the shop, by the number engraved or tagged on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InstrumentAdded {
    /// Made by the device.
    pub id: InstrumentId,
    /// The number on it, e.g. `M-12`. Readings name it by this.
    pub number: String,
    /// What it is, e.g. `outside micrometer`.
    pub what: String,
    /// What it measures from and to, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range: Option<String>,
    /// Where it lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shelf: Option<String>,
}

/// An instrument was held against something better.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InstrumentChecked {
    /// Which.
    pub instrument: InstrumentId,
    /// Whether it was found good.
    pub good: bool,
    /// The error found, as written; missing where none was written down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub error: Option<String>,
    /// What it was held against.
    pub against: String,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// What a photograph or a scan shows.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "of")]
pub enum PhotoOf {
    /// A part.
    Part {
        /// Which.
        part: PartId,
    },
    /// A set of readings of a part.
    Readings {
        /// Which part.
        part: PartId,
        /// The entry that holds the set.
        entry: u64,
    },
    /// A finding.
    Finding {
        /// Which.
        finding: FindingId,
    },
    /// A proof of a job.
    Proof {
        /// Which job.
        job: JobId,
        /// Which proof.
        proof: String,
    },
    /// A letter, which [`PhotoAdded::letter`] names.
    Letter,
}

/// A photograph or a scan was put in the book. What it shows lies in the book under its hash.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PhotoAdded {
    /// Made by the device.
    pub id: PhotoId,
    /// SHA-256 of the file, 64 lower-case hexadecimal digits.
    pub sha256: String,
    /// How many bytes the file has.
    pub bytes: u64,
    /// What kind of file it is, e.g. `image/jpeg`.
    pub media: String,
    /// The name of the file.
    pub name: String,
    /// What it shows.
    #[serde(flatten)]
    pub of: PhotoOf,
    /// What is seen on it.
    pub told: String,
    /// The letter it is a scan of; form 2 holds it, and form 1 where it is of none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub letter: Option<LetterId>,
}
