//! What a person can state of an engine's boiler: the stored forms, of which `statement` tells the rules.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::id::LocomotiveId;

/// A component of a boiler, or more of one that stands: a course, a stayed sheet, a zone of stays.
///
/// A fact stands until a later entry says it anew; an empty text says that it is not known after all.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoilerEntered {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The component, in the shop's words: `second course`.
    pub component: String,
    /// What it is worked as: `course`, `stayed-sheet`.
    pub kind: String,
    /// Where it is, in words of the specification card: `barrel`, `crown`.
    pub place: String,
    /// Sizes and words as written, by name.
    pub facts: BTreeMap<String, String>,
    /// The paper that says so, or who measured it and with what.
    pub source: String,
}

/// A boiler card as somebody signed it: one line a component, frozen as it was shown.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoilerCardSigned {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// Its edition, counted from 1.
    pub edition: u32,
    /// Why a new one: the survey, the repair.
    pub because: String,
    /// The pressure the owner set, psi gauge, where it is known.
    pub set_psig: Option<u32>,
    /// What it says of the whole boiler.
    pub governing: String,
    /// Its lines.
    pub lines: Vec<CardLineKept>,
}

/// One line of a signed card.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CardLineKept {
    /// The component.
    pub component: String,
    /// What it would bear, in words: `187 psig`, `not above 187 psig`, `cannot tell`.
    pub bears: String,
    /// Against the set pressure: `complies`, `fails`, `cannot tell`.
    pub verdict: String,
    /// What it stood on, each value with where it came from.
    pub stood_on: Vec<String>,
    /// What was missing.
    pub missing: Vec<String>,
}
