//! What people state of letters: the stored forms, of which `statement` tells the rules.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::id::{FindingId, JobId, LetterId, LocomotiveId};

/// Which way a letter went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// It came from them.
    From,
    /// It went to them.
    To,
}

impl Way {
    /// Both.
    pub const ALL: [Way; 2] = [Way::From, Way::To];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Way::From => "from",
            Way::To => "to",
        }
    }
}

/// What a letter promises, or asks for: an answer, a part, a visit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Promised {
    /// Whether we owe it, or they do.
    pub ours: bool,
    /// What.
    pub what: String,
    /// The last day; missing where none is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<Date>,
}

/// A letter. The day it was written or came is the day it was done on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LetterLogged {
    /// Made by the device.
    pub id: LetterId,
    /// Which way it went.
    pub way: Way,
    /// With whom: an authority, a supplier, a hired inspector.
    pub with: String,
    /// What it says, in a sentence.
    pub what: String,
    /// The engine it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub locomotive: Option<LocomotiveId>,
    /// The finding it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finding: Option<FindingId>,
    /// The job it is about.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<JobId>,
    /// What it promises or asks for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub promised: Option<Promised>,
}

/// What a letter promised was done, or will not be.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LetterAnswered {
    /// Which.
    pub letter: LetterId,
    /// The letter that answers it, if one does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<LetterId>,
    /// What came of it.
    pub told: String,
}
