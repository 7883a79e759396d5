//! Clocks: what is counted, how far it may run, what it calls for and what starts it again.

use serde::Deserialize;

use crate::Span;

/// What makes a day count.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Definition {
    /// The word defined, as the clocks use it.
    pub term: String,
    /// Conditions that must stand together on any part of a calendar day.
    pub together: Vec<String>,
    /// The same for a fireless engine, which has no firebox.
    pub fireless: Vec<String>,
}

/// What a count counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CountUnit {
    /// Service days since the clock was last restarted.
    ServiceDay,
    /// Annual inspections held.
    Annual,
    /// Days on which the engine is offered for use.
    DayOfUse,
}

/// Due after so many of something.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Count {
    /// What is counted.
    pub unit: CountUnit,
    /// How many. Service days: this many may be run, the inspection comes before the next one. Days of use: the
    /// same, the day of the inspection being the first. Annuals: this many-th annual *is* the one that includes
    /// the work, so one fewer may be held without it.
    pub due_after: u32,
    /// The inspection that becomes due.
    pub inspection: String,
    /// Inspections whose completion starts the count again.
    pub restarted_by: Vec<String>,
    /// Items (rule ids) whose answer *good* starts the count again too, on the day the item was answered.
    #[serde(default)]
    pub restarted_by_items: Vec<String>,
    /// A calendar date a careful shop shows beside the count. Not the law.
    pub cautious: Option<Cautious>,
}

/// A calendar date to be shown beside a count, because the text can be read two ways.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cautious {
    /// How long after the last one.
    pub span: Span,
    /// Why it is shown.
    pub why: String,
}

/// Due after a stretch of calendar time, whether or not the engine is used.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Calendar {
    /// How long. The day the span ends is the last day within it.
    pub span: Span,
    /// The inspection that becomes due, or the work a defect calls for (see `words`).
    pub inspection: String,
    /// Inspections whose completion starts it again; empty for a defect's own clock, which ends with the work.
    pub restarted_by: Vec<String>,
    /// The event it runs from.
    pub from: String,
    /// It binds only an engine of which this is true; none means every engine.
    pub only_if: Option<FactIs>,
    /// For a defect's own clock: inspections at which it may not be left at all.
    #[serde(default)]
    pub at_once: Vec<String>,
    /// The credit for days out of use; none where the law gives none.
    pub out_of_use: Option<OutOfUseCredit>,
}

/// A fact of an engine and the answer that makes a clock bind her (words of `words::FACTS`).
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FactIs {
    /// The fact.
    pub fact: String,
    /// The answer.
    pub is: String,
}

/// How days out of use lengthen a calendar clock.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OutOfUseCredit {
    /// A spell of fewer consecutive days gives nothing.
    pub least_days: u32,
    /// The section that gives it.
    pub section: String,
}

/// The counting arm of a clock with several.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountArm {
    /// What is counted.
    pub unit: CountUnit,
    /// How many (see [`Count::due_after`]).
    pub due_after: u32,
}

/// The calendar arm of a clock with several.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalendarArm {
    /// How long.
    pub span: Span,
    /// The event it runs from.
    pub from: String,
}

/// Where the first calendar stretch of an engine new to service begins: at `event`, or `within` after `at_latest`,
/// whichever comes first.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FirstStart {
    /// The event that starts it.
    pub event: String,
    /// The event that starts it anyway, when `within` has passed since.
    pub at_latest: String,
    /// How long after `at_latest`.
    pub within: Span,
}

/// Due at the first of several arms.
///
/// An arm that counts annuals counts every inspection that contains one and does not itself restart the clock.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WhicheverFirst {
    /// The counting arms.
    pub counts: Vec<CountArm>,
    /// The calendar arm.
    pub calendar: Option<CalendarArm>,
    /// Where the first calendar stretch begins for an engine that has had no such inspection in service.
    pub first_start: Option<FirstStart>,
    /// The inspection that becomes due.
    pub inspection: String,
    /// Inspections whose completion starts every arm again.
    pub restarted_by: Vec<String>,
}
