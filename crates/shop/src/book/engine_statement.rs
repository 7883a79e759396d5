//! What a person can state of an engine's life outside her log: the stored forms, of which `statement` tells the rules.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::id::{InspectionId, LocomotiveId};

/// An inspection held before the book began, so that its clocks have a start.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HeldBefore {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The kind: `31`, `92`, `annual`, `fifth-annual`, `1472`.
    pub kind: String,
    /// The day it was completed.
    pub held_on: Date,
    /// Service days since, with the last day that count includes, if the paper says so.
    pub service_days_since: Option<(u32, Date)>,
    /// For a fifth annual: annuals held since, if the paper says so.
    pub annuals_since: Option<u32>,
    /// The document that says so.
    pub document: String,
}

/// A day in an engine's life that a clock or a paper runs from: work done outside an inspection, or a
/// happening such as entering service, with the paper that says so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct DayStated {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// What happened, a word of the rulebook: `air-brake-valves`, `enters-service`.
    pub what: String,
    /// The day.
    pub day: Date,
    /// Service days since, with the last day that count includes, if the paper says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service_days_since: Option<(u32, Date)>,
    /// Annuals held since, if the paper says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub annuals_since: Option<u32>,
    /// The inspection it was done in the course of, if in one of this book.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inspection: Option<InspectionId>,
    /// The document that says so.
    pub document: String,
}

/// A fact of an engine that decides which clocks bind her, from a day on. A later one takes its place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FactStated {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The fact, a word of the rulebook: `brake-schedule`.
    pub fact: String,
    /// What is true, one of the fact's own words: `26-l`.
    pub value: String,
    /// From which day.
    pub from: Date,
    /// The document that says so.
    pub document: String,
}

/// A spell in which an engine was not used on any day. Who enters it attests it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct OutOfUse {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The first whole day.
    pub from: Date,
    /// The last whole day.
    pub through: Date,
    /// Why, and where she stood.
    pub told: String,
}
