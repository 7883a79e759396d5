//! Everything that can be wrong with a rulebook or a question put to it, each as one sentence.

use jiff::civil::Date;

/// Why a rulebook could not be read, or a question put to it had no answer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RulebookError {
    /// A file of the rulebook is wrong. The rulebook is not used at all until it is put right.
    #[error("{file}: {problem}")]
    File {
        /// The file, from the rulebook's folder.
        file: String,
        /// What was found and what was expected.
        problem: String,
    },
    /// No rule has this id.
    #[error("no rule is called `{id}`{}", near_names(.near))]
    Unknown {
        /// What was asked for.
        id: String,
        /// Ids that look like it, nearest first.
        near: Vec<String>,
    },
    /// The day lies before the first version on file: the rulebook does not know what bound it.
    #[error(
        "`{id}` is on file from {first} only; {on} is before that, and what bound that day is not in this rulebook. \
         Look up the text of that day"
    )]
    BeforeCoverage {
        /// The rule.
        id: String,
        /// The day asked about.
        on: Date,
        /// The first day on file.
        first: Date,
    },
    /// The day lies after the last version, which has ended.
    #[error("`{id}` ended with {last}; on {on} it was no longer in force")]
    Ended {
        /// The rule.
        id: String,
        /// The day asked about.
        on: Date,
        /// The last day it was in force.
        last: Date,
    },
    /// A limit table was asked outside what it can answer.
    #[error("{subject}: {axis} was given as {given}; {why}")]
    OutsideTable {
        /// What the table limits.
        subject: String,
        /// The axis.
        axis: String,
        /// What was given.
        given: String,
        /// What the table needs.
        why: String,
    },
    /// A limit given by a formula could not be worked.
    #[error("{subject}: {problem}")]
    NoFigure {
        /// What the formula limits.
        subject: String,
        /// What is missing or wrong.
        problem: String,
    },
    /// A circumstance was told in a word that no rule knows, or one that goes against another.
    #[error("{problem}")]
    Circumstance {
        /// What was told, and what was expected.
        problem: String,
    },
    /// A date ran off the end of the calendar.
    #[error("{span} from {from} lies beyond the calendar (years run to 9999)")]
    BeyondCalendar {
        /// The span, in words.
        span: String,
        /// The day counted from.
        from: Date,
    },
}

fn near_names(near: &[String]) -> String {
    match near {
        [] => String::from("; `outshop rule --list` lists them"),
        names => format!("; did you mean {}?", names.join(", or ")),
    }
}

impl RulebookError {
    pub(crate) fn file(file: &str, problem: impl Into<String>) -> Self {
        RulebookError::File {
            file: file.to_owned(),
            problem: problem.into(),
        }
    }
}
