//! What a crew reports at the end of a day, and what an inspector's special notice says: the stored forms, of which
//! `statement` tells the rules.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::id::{FindingId, LocomotiveId, ReportId};

/// Whether she was hot or cold when a thing showed itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Heat {
    /// In steam.
    Hot,
    /// Without.
    Cold,
}

impl Heat {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Heat::Hot => "hot",
            Heat::Cold => "cold",
        }
    }
}

/// One thing a crew saw, heard or felt. What nobody said is missing, never guessed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Symptom {
    /// What it does.
    pub what: String,
    /// Where on the engine.
    #[serde(rename = "where")]
    pub place: String,
    /// Hot or cold.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat: Option<Heat>,
    /// At which pressure, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure: Option<String>,
    /// Whether it can wait, as the crew sees it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub can_wait: Option<bool>,
}

/// A crew's report of one day. Without symptoms it says that there is nothing to report.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CrewReported {
    /// Made by the device.
    pub id: ReportId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// What was noticed; none of it where there is nothing to report.
    pub symptoms: Vec<Symptom>,
    /// What else there is to say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub told: Option<String>,
}

/// Somebody who may inspect looked at a symptom.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SymptomAnswered {
    /// Of which report.
    pub report: ReportId,
    /// Which symptom of it, counted from 1.
    pub symptom: u32,
    /// The finding it turned out to be; none where there is no defect.
    pub finding: Option<FindingId>,
    /// What was seen.
    pub seen: String,
}

/// Who gave a special notice.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoticeGiven {
    /// The name of the person.
    pub name: String,
    /// The office they hold it for.
    pub office: String,
    /// The paper.
    pub document: String,
}

/// A special notice was lifted by the authority that gave it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoticeLifted {
    /// The finding that hangs on it.
    pub finding: FindingId,
    /// Who lifted it.
    pub name: String,
    /// For which office.
    pub office: String,
    /// On which day.
    pub day: Date,
    /// The paper that says so.
    pub document: String,
}
