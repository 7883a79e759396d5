//! Papers: what goes where by when, and what is kept how long.

use jiff::civil::Date;
use serde::Deserialize;

use crate::{RulebookError, Span};

/// On which side of its event a deadline lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// At least the span before.
    Before,
    /// At most the span after.
    After,
}

/// A day reckoned from an event. The day itself is still in time.
///
/// Without a span the text names no number of days: before the event, or at once after it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Deadline {
    /// How long, where the text says.
    pub span: Option<Span>,
    /// Before or after the event.
    pub before_or_after: Side,
    /// The event (a word of `words::EVENTS`).
    pub of: String,
}

/// A paper that goes somewhere by a day.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filing {
    /// The paper.
    pub what: String,
    /// By when.
    pub when: Deadline,
    /// To whom (words of `words::RECIPIENTS`).
    pub to: Vec<String>,
    /// What it must hold, one line each, in our words; empty where the text names nothing.
    pub contents: Vec<String>,
    /// Who signs it; empty where the text names nobody.
    pub signed_by: Vec<String>,
    /// The inspections it follows, where the event does not name them.
    #[serde(default)]
    pub inspections: Vec<String>,
}

impl Deadline {
    /// The last day in time, for an event on `day`.
    ///
    /// # Errors
    /// When the day lies beyond the calendar.
    pub fn last_day(&self, day: Date) -> Result<Date, RulebookError> {
        match (self.span, self.before_or_after) {
            (None, _) => Ok(day),
            (Some(span), Side::Before) => span.before(day),
            (Some(span), Side::After) => span.after(day),
        }
    }
}

/// How long a paper is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Keep {
    /// At least so many calendar days.
    Days(u32),
    /// As long as the boiler lasts.
    LifeOfBoiler,
    /// As long as it is the current one: until another takes its place.
    WhileCurrent,
    /// The text names no period: nobody may say it can be thrown away.
    NoPeriodInText,
}

/// A paper that is kept.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Retention {
    /// The paper.
    pub what: String,
    /// How long.
    pub keep: Keep,
    /// Where (words of `words::KEPT_AT`).
    pub at: Vec<String>,
}
