//! What a person can state of the log of an engine: the stored forms, of which `statement` tells the rules.

use jiff::civil::{Date, DateTime};
use serde::{Deserialize, Serialize};

use super::id::{FireId, LocomotiveId, RunId};

/// One fire. A bound that nobody wrote down is missing, never guessed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FireLogged {
    /// Made by the device.
    pub id: FireId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Fire lit.
    pub lit: Option<DateTime>,
    /// Pressure first above atmosphere.
    pub up: Option<DateTime>,
    /// Fire out.
    pub out: Option<DateTime>,
    /// Pressure gone.
    pub gone: Option<DateTime>,
    /// Miles run.
    pub miles: Option<u32>,
    /// Whether she was offered for use while it stood; form 2 holds it, and form 1 where nobody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offered: Option<bool>,
}

/// What somebody says of a day whose fire has no times.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stood {
    /// Fire and pressure stood together on it.
    ServiceDay,
    /// They may have.
    CannotTell,
    /// They did not: she was cold, or stood on what pressure was left without a fire.
    NoServiceDay,
}

impl Stood {
    /// All three.
    pub const ALL: [Stood; 3] = [Stood::ServiceDay, Stood::CannotTell, Stood::NoServiceDay];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Stood::ServiceDay => "service-day",
            Stood::CannotTell => "cannot-tell",
            Stood::NoServiceDay => "no-service-day",
        }
    }
}

/// What is known of one day of an engine without the times of its fire: a line of a plain list of days, or
/// one from which the times are missing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DayLogged {
    /// Made by the device; a line of the log, as a fire is.
    pub id: FireId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The day.
    pub day: Date,
    /// Whether it was a service day.
    pub stood: Stood,
    /// Miles run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub miles: Option<u32>,
    /// Whether she was offered for use.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offered: Option<bool>,
    /// The paper it was read from, or who remembers it.
    pub told: String,
}

/// What a paper says of the service days of a span. It counts nothing by itself: it is held against the log.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PaperCounted {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The first day of the span.
    pub from: Date,
    /// Its last day.
    pub through: Date,
    /// The service days it counts.
    pub service_days: u32,
    /// The paper.
    pub document: String,
}

/// The log of an engine holds every fire of these days.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LogClosed {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The first day vouched for.
    pub from: Date,
    /// The last day that is complete.
    pub through: Date,
}

/// A run promised to somebody.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct RunPromised {
    /// Made by the device.
    pub id: RunId,
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The day.
    pub day: Date,
    /// What was promised.
    pub what: String,
}
