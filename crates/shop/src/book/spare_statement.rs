//! What people state of spares: blanks, glasses, gaskets, bar. The stored forms, of which `statement` tells the rules.

use serde::{Deserialize, Serialize};

use super::id::{JobId, LocomotiveId, SpareId};

/// How a spare is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Counted {
    /// By the piece.
    Pieces,
    /// By its length, as bar and packing are.
    Length,
}

impl Counted {
    /// Both.
    pub const ALL: [Counted; 2] = [Counted::Pieces, Counted::Length];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Counted::Pieces => "pieces",
            Counted::Length => "length",
        }
    }
}

/// How many: whole pieces, or a length in ticks of [`measure::Size`]; which of the two, the spare says.
#[derive(
    Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Amount(pub i64);

/// What is known of a spare. What nobody said is missing.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareKnown {
    /// What it is made of.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
    /// Its size, in the words it is ordered by.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<String>,
    /// The number of its drawing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drawing: Option<String>,
    /// Where it lies.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shelf: Option<String>,
    /// The least to keep.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least: Option<Amount>,
}

/// A spare.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareAdded {
    /// Made by the device.
    pub id: SpareId,
    /// What it is.
    pub what: String,
    /// How it is counted.
    pub counted: Counted,
    /// What is known of it.
    #[serde(flatten)]
    pub known: SpareKnown,
}

/// More is known of a spare, or something else. What is not told stays as it was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareTold {
    /// Which.
    pub spare: SpareId,
    /// What is known.
    #[serde(flatten)]
    pub known: SpareKnown,
}

/// Some came in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareReceived {
    /// Of which.
    pub spare: SpareId,
    /// How many.
    pub many: Amount,
    /// From whom, or where they were found.
    pub from: String,
    /// The paper of the material that came with them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub certificate: Option<String>,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// What a spare was used on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "on")]
pub enum UsedOn {
    /// A job.
    Job {
        /// Which.
        job: JobId,
    },
    /// An engine, outside any job.
    Engine {
        /// Which.
        locomotive: LocomotiveId,
    },
}

/// Some were used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareUsed {
    /// Of which.
    pub spare: SpareId,
    /// How many.
    pub many: Amount,
    /// On what.
    #[serde(flatten)]
    pub on: UsedOn,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// They were counted. A count changes no ledger: where it disagrees, that is told until somebody answers for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareCounted {
    /// Which.
    pub spare: SpareId,
    /// How many lie there.
    pub many: Amount,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// Somebody answers for the difference between a count and the ledger: it is written on, or off where it is negative.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareSettled {
    /// Of which.
    pub spare: SpareId,
    /// The difference.
    pub many: Amount,
    /// Why.
    pub because: String,
}

/// So many in all are held for a job; none any longer where it is nothing. The newest statement of a job stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpareHeld {
    /// Of which.
    pub spare: SpareId,
    /// For which job.
    pub job: JobId,
    /// How many in all.
    pub many: Amount,
}
