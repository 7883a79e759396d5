//! What a person can state of an engine's boiler: the stored forms, of which `statement` tells the rules.

use std::collections::BTreeMap;

use jiff::civil::Date;
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
    /// The newest survey of each component on it, as the book held them when it was signed. Form 1 does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub surveys: Option<Vec<SurveyHeld>>,
}

/// A survey that a signed card stood on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SurveyHeld {
    /// The component.
    pub component: String,
    /// The day it was read.
    pub on: Date,
    /// Its entry.
    pub entry: u64,
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

/// The thickness of a sheet, read on squares. One entry a survey; its readings are found by row and column.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoilerSurveyed {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The component of its boiler.
    pub component: String,
    /// Names of the rows.
    pub rows: Vec<String>,
    /// Names of the columns.
    pub columns: Vec<String>,
    /// The readings of each row, a space between: a decimal, `-` where nothing was read, `x` where there is no plate.
    pub cells: Vec<String>,
    /// The unit of them all: `in` or `mm`.
    pub unit: String,
    /// The side of a square, as written, if it was told.
    pub square: Option<String>,
    /// The width of the spot that one reading sees, as written, if it was told.
    pub spot: Option<String>,
    /// Where the squares begin, who read them and with what.
    pub source: String,
}

/// The staybolts of one sheet, row by row: where each is. A later one takes the place of an earlier one of that sheet;
/// what was said of its bolts stays said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaysMapped {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The sheet.
    pub sheet: String,
    /// Its rows.
    pub rows: Vec<StayRow>,
    /// Distance from bolt to bolt along a row, as written.
    pub pitch: String,
    /// What the bolts are: `rigid`, `flexible`, `hollow`, `radial`.
    pub kind: String,
    /// Their size, as written: `1 in, 12 threads`.
    pub size: String,
    /// The drawing, or who measured it.
    pub source: String,
}

/// A row of bolts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StayRow {
    /// Its name.
    pub row: String,
    /// How many bolts.
    pub count: u32,
    /// Its height above the lower edge, as written.
    pub height: String,
    /// From the left edge to its first bolt, as written.
    pub first: String,
}

/// What was found or done at bolts of one sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct StaysTold {
    /// Which engine.
    pub locomotive: LocomotiveId,
    /// The sheet.
    pub sheet: String,
    /// Which: row, first and last number. None of them: every bolt of the sheet.
    pub which: Vec<(String, u32, u32)>,
    /// What each is: `sound`, `broken`, `telltale-leaks`, `telltale-plugged`, `telltale-missing`, `renewed`.
    pub state: String,
    /// The inspection it was found at, by its kind, if at one.
    pub at: Option<String>,
    /// What it is now, if it was renewed as another kind.
    pub kind: Option<String>,
    /// Its size now, if it was renewed.
    pub size: Option<String>,
    /// How it was found or done, in the words of whoever did.
    pub told: String,
}
