//! What keeps the days of an engine that may not run straight: an inspection that was not completed, the move of an
//! engine that does not comply, and what the shop says of itself on its papers. The stored forms, of which `statement`
//! tells the rules.

use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};

use super::id::{FindingId, InspectionId, LocomotiveId, MoveId};

/// An inspection was closed and signed by the one who enters this.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InspectionClosed {
    /// Which inspection.
    pub inspection: InspectionId,
    /// Where and at what time of day it was made; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made: Option<Made>,
}

/// Where and at what time of day an inspection was made; at least one of the two is said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Made {
    /// The time of day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Time>,
    /// The place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
}

/// An inspection is put away: it was not completed and will not be. It stays in the record as that.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InspectionNotCompleted {
    /// Which inspection.
    pub inspection: InspectionId,
    /// Why.
    pub because: String,
}

/// What a move of an engine that does not comply stands on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "under")]
pub enum MoveUnder {
    /// To a place of repair.
    ToRepair,
    /// Within a yard, only for repair.
    InYard,
    /// Going on with a fault found on the road.
    OnFromRoad,
    /// As a special notice allows.
    SpecialNotice {
        /// The finding that hangs on it.
        finding: FindingId,
        /// What it allows.
        allows: String,
    },
}

/// How she is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MovedHow {
    /// By her own power, without cars.
    Lite,
    /// Dead, in tow.
    InTow,
    /// With the train she has.
    WithTrain,
}

/// The inspection that the tag names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct InspectedBy {
    /// Who inspected her: a person or an office.
    pub who: String,
    /// Where.
    pub place: String,
    /// On which day.
    pub on: Date,
}

/// A person who may approve decided that an engine which does not comply can be moved safely.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MoveDecided {
    /// Made by the device.
    pub id: MoveId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// What it stands on.
    #[serde(flatten)]
    pub under: MoveUnder,
    /// What stopped her that day, as worded.
    pub defects: Vec<String>,
    /// From where.
    pub from: String,
    /// To where.
    pub to: String,
    /// How.
    pub how: MovedHow,
    /// Top speed, miles an hour.
    pub top_mph: u32,
    /// What else limits the move.
    pub limits: String,
    /// Who was told in writing; missing where the rule asks it of nobody.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
    /// The inspection that the tag names; missing where no tag is asked for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inspected: Option<InspectedBy>,
    /// The rules it stands on, as read that day.
    pub rulings: Vec<super::statement::RulingRef>,
}

/// How a move ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MoveEnd {
    /// She is where she was to go.
    Arrived,
    /// She was put right on the way.
    PutRight,
    /// It was broken off, or never begun.
    BrokenOff,
}

/// A move ended.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MoveEnded {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Which move.
    pub id: MoveId,
    /// How.
    pub end: MoveEnd,
    /// Where she stands, and what there is to say.
    pub told: String,
}

/// What the shop says of itself or of one engine on its papers: its owner, the railroad, the place. A later one of the
/// same word takes its place from its own day on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ParticularStated {
    /// Of which engine; of all of them where that is missing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub locomotive: Option<LocomotiveId>,
    /// The word: `owner`.
    pub what: String,
    /// What is so.
    pub says: String,
}
