//! Who is in the shop, and who is authorised for what, by whom and until when: the stored forms, of which `statement`
//! tells the rules.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::id::PersonId;

/// What a person may do. The law's *competent person* is the shop's to name; this is where it does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Authority {
    /// May inspect, answer items and sign as inspector.
    Inspect,
    /// May do and sign repairs.
    Repair,
    /// The officer: may decide, clear hold points, approve and release.
    Approve,
}

impl Authority {
    /// All three, in the order of the work.
    pub const ALL: [Authority; 3] = [Authority::Inspect, Authority::Repair, Authority::Approve];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Authority::Inspect => "inspect",
            Authority::Repair => "repair",
            Authority::Approve => "approve",
        }
    }

    /// Who signs with it.
    pub fn signer(self) -> &'static str {
        match self {
            Authority::Inspect => "inspector",
            Authority::Repair => "repairer",
            Authority::Approve => "approver",
        }
    }
}

/// A person of the shop.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PersonAdded {
    /// Made by the device.
    pub id: PersonId,
    /// The name they sign with.
    pub name: String,
    /// What they may do from the day they were added, until an authority is stated anew.
    pub may: Vec<Authority>,
    /// Their trade, in the shop's words: machinist, boilersmith, apprentice. It gives no authority. Form 2 holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trade: Option<String>,
}

/// An authority given to a person, or taken back, by the one who enters this. From its first day on it stands in the
/// place of all that was stated of the same person and authority before.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AuthorityStated {
    /// Whose.
    pub person: PersonId,
    /// Which.
    pub authority: Authority,
    /// Given, or taken back.
    pub given: bool,
    /// The first day it is held, or is held no more.
    pub from: Date,
    /// The last day it is held; missing while it goes on, and where it is taken back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub through: Option<Date>,
    /// What it is limited to, in the words of the document. The program cannot judge that: it is shown to whoever acts on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<String>,
    /// The document that says so, or why it was taken back.
    pub document: String,
}

/// A thing done in person with a pencil, and entered later by the one who did it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OnPaper {
    /// The day it was done.
    pub day: Date,
    /// Which paper shows it.
    pub document: String,
}
