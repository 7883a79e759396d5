//! What the shop knows of parts: their sizes and places, their readings, tooling, instruments and photographs.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::State;
use serde::{Deserialize, Serialize};

use super::id::{FindingId, JobId, LocomotiveId, PartId, PersonId};
use super::statement::{Circumstances, FeatureReading, FeatureTold, PartKnown, PhotoAdded};

/// A part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Part {
    /// On which engine.
    pub locomotive: LocomotiveId,
    /// Its family.
    pub family: String,
    /// What the shop calls it.
    pub name: String,
    /// Facts of the whole part.
    pub facts: BTreeMap<String, String>,
    /// What is known of each feature.
    pub features: BTreeMap<String, FeatureTold>,
    /// Where it is, what it is of, when it came and went.
    pub known: PartKnown,
    /// Who said so after it was added, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub said: Vec<PartSaid>,
    /// The newest set of its readings, by the day they were read; none where it was never measured.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub read: Option<LastRead>,
    /// Newest entry.
    pub last: u64,
}

impl Part {
    /// Takes a set of readings as its newest, if it is. A set of an old notebook is not.
    pub(super) fn was_read(&mut self, set: &ReadingSet) {
        let newer = |read: &LastRead| (read.on, read.entry) > (set.on, set.entry);
        if !self.read.as_ref().is_some_and(newer) {
            self.read = Some(LastRead {
                on: set.on,
                entry: set.entry,
                state: set.state,
            });
        }
    }
}

/// The newest set of readings of a part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastRead {
    /// The day it was read.
    pub on: Date,
    /// The entry that holds it.
    pub entry: u64,
    /// As found or as left.
    pub state: State,
}

/// Somebody said more of a part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartSaid {
    /// The entry.
    pub entry: u64,
    /// On which day.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// Of what, in the words of the statement's fields.
    pub of: Vec<String>,
    /// The paper it was read from, or who remembers it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub document: Option<String>,
}

/// An instrument.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Instrument {
    /// The number on it.
    pub number: String,
    /// What it is.
    pub what: String,
    /// What it measures from and to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range: Option<String>,
    /// Where it lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shelf: Option<String>,
    /// When it was checked, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<CheckMade>,
    /// Newest entry.
    pub last: u64,
}

/// A check of an instrument.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckMade {
    /// On which day.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// Whether it was found good.
    pub good: bool,
    /// The error found, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub error: Option<String>,
    /// What it was held against.
    pub against: String,
    /// What else was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
    /// The entry.
    pub entry: u64,
}

/// A photograph or a scan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Photo {
    /// P-001.
    pub number: u32,
    /// As stated.
    #[serde(flatten)]
    pub added: PhotoAdded,
    /// Which engine; none where it is a scan of a letter about none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub locomotive: Option<LocomotiveId>,
    /// The part it shows, or the finding or the proof is of; none where it is a scan of a letter.
    #[serde(rename = "of_part", default, skip_serializing_if = "Option::is_none")]
    pub part: Option<PartId>,
    /// The day it was taken.
    pub on: Date,
    /// By whom it was entered.
    pub by: PersonId,
    /// Newest entry.
    pub last: u64,
}

/// A set of readings.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReadingSet {
    /// The entry that holds it.
    pub entry: u64,
    /// The day it was taken.
    pub on: Date,
    /// Who entered it.
    pub by: PersonId,
    /// As found or as left.
    pub state: State,
    /// The finding it was taken for.
    pub finding: Option<FindingId>,
    /// The job it was taken in.
    pub job: Option<JobId>,
    /// The readings, as written.
    pub readings: Vec<FeatureReading>,
    /// How they were taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Circumstances>,
}

/// A piece of tooling.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tooling {
    /// T-001.
    pub number: u32,
    /// What it is.
    pub what: String,
    /// The part it serves.
    pub part: PartId,
    /// Other parts it serves, in the order told.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub also: Vec<PartId>,
    /// Features it serves, in the order told; none where nobody said.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub features: Vec<String>,
    /// The number of its drawing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drawing: Option<String>,
    /// Where it lies, or lay before it was taken out.
    pub shelf: String,
    /// The job it was made for.
    pub job: Option<JobId>,
    /// When it was checked, in the order entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<CheckMade>,
    /// Taken out: no longer to be used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub out: Option<TakenOut>,
    /// Newest entry.
    pub last: u64,
}

impl Tooling {
    /// Every part it serves, the one it was registered for first.
    pub fn serves(&self) -> impl Iterator<Item = PartId> + '_ {
        std::iter::once(self.part).chain(self.also.iter().copied())
    }
}

/// A tool was taken out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TakenOut {
    /// On which day.
    pub on: Date,
    /// By whom.
    pub by: PersonId,
    /// Why.
    pub because: String,
}
