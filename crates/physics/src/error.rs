//! Why a sheet was not made. Each error is a sentence a person can act on.

use measure::TextError;

/// Why a sheet was not made.
#[derive(Debug, Clone, thiserror::Error)]
pub enum SheetError {
    /// No sheet has that id.
    #[error("there is no sheet '{id}'{}", near_words(near))]
    UnknownSheet {
        /// The id asked for.
        id: String,
        /// Ids that look like it, nearest first.
        near: Vec<String>,
    },
    /// The law has no such argument.
    #[error("{sheet} has no argument '{name}'; it takes {}", known.join(", "))]
    UnknownArgument {
        /// The sheet.
        sheet: &'static str,
        /// The name given.
        name: String,
        /// The names it takes.
        known: Vec<String>,
    },
    /// One argument was given twice.
    #[error("{sheet} was given '{name}' twice; say it once")]
    Repeated {
        /// The sheet.
        sheet: &'static str,
        /// The argument.
        name: &'static str,
    },
    /// Something the law cannot do without was not given.
    #[error("{sheet} cannot be worked: needs {}", missing.join("; "))]
    Missing {
        /// The sheet.
        sheet: &'static str,
        /// Each missing argument with what it means.
        missing: Vec<String>,
    },
    /// A value could not be read.
    #[error("{sheet}, {name}: {reason}")]
    Unreadable {
        /// The sheet.
        sheet: &'static str,
        /// The argument.
        name: &'static str,
        /// What was wrong with the text.
        #[source]
        reason: TextError,
    },
    /// A word is not one of those allowed.
    #[error("{sheet}, {name}: read '{entered}', expected {expected}")]
    NotAChoice {
        /// The sheet.
        sheet: &'static str,
        /// The argument.
        name: &'static str,
        /// What was typed.
        entered: String,
        /// The words allowed.
        expected: String,
    },
    /// A value lies where the law does not hold.
    #[error(
        "{sheet}, {name}: {entered} is outside the range {least} to {most}{}",
        because(why)
    )]
    OutOfRange {
        /// The sheet.
        sheet: &'static str,
        /// The argument.
        name: &'static str,
        /// What was typed.
        entered: String,
        /// The least allowed.
        least: &'static str,
        /// The most allowed.
        most: &'static str,
        /// Why, when there is more to say than the range.
        why: &'static str,
    },
    /// The values are each possible but cannot all be true together.
    #[error("{sheet}: {what}; expected {expected}")]
    Impossible {
        /// The sheet.
        sheet: &'static str,
        /// What cannot be.
        what: String,
        /// What was expected instead.
        expected: String,
    },
    /// A card or table of ours is at fault, not the reader. The tests are there to keep this from
    /// ever being seen.
    #[error(
        "{sheet}: our own {what} is at fault ({detail}); nothing was worked. Please report this"
    )]
    OwnFault {
        /// The sheet.
        sheet: &'static str,
        /// Which card or table.
        what: &'static str,
        /// What was wrong with it.
        detail: String,
    },
}

impl SheetError {
    /// That what was given to `sheet` cannot all be true together: `what` cannot be, and what was `expected` instead.
    pub(crate) fn impossible(
        sheet: &'static str,
        what: impl Into<String>,
        expected: impl Into<String>,
    ) -> SheetError {
        SheetError::Impossible {
            sheet,
            what: what.into(),
            expected: expected.into(),
        }
    }

    /// Whether the fault lies in our own cards or tables and not in what was given.
    pub fn is_ours(&self) -> bool {
        matches!(self, SheetError::OwnFault { .. })
    }
}

fn near_words(near: &[String]) -> String {
    match near {
        [] => "; 'sheet --list' shows every sheet".to_owned(),
        near => format!("; did you mean {}?", near.join(" or ")),
    }
}

fn because(why: &str) -> String {
    if why.is_empty() {
        String::new()
    } else {
        format!(": {why}")
    }
}
