//! What is said when a written value cannot be taken: what was read, what was expected, an example.

use crate::dimension::Dimension;
use crate::number::Fault;
use crate::size::SizeError;

/// Why a written value was refused. Every message is a sentence that says what was read and what was expected.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TextError {
    /// Nothing was written.
    #[error("nothing was written; {} was expected, such as {}", wanted.words(), examples(*wanted))]
    Empty {
        /// What was expected.
        wanted: Dimension,
    },
    /// It does not begin with a number, or holds a broken one or two.
    #[error("`{text}` does not read as one number; {} was expected, such as {}", wanted.words(), examples(*wanted))]
    NotANumber {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A comma, which one country reads as a point and another as thousands.
    #[error("`{text}` has a comma, which may mean a decimal point or thousands; write a point for the decimals and nothing for the thousands, such as {}", examples(*wanted))]
    Comma {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// More digits than any shop measures.
    #[error("`{text}` has more digits than this program can hold exactly; {} with at most 18 digits before the point and 18 after it was expected, such as {}", wanted.words(), examples(*wanted))]
    TooLong {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A fraction with nothing under the line.
    #[error("`{text}` divides by zero; {} was expected, such as {}", wanted.words(), examples(*wanted))]
    ZeroDenominator {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A decimal point inside a fraction.
    #[error("`{text}` mixes a decimal point and a fraction; write one or the other, such as {}", examples(*wanted))]
    DecimalInFraction {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A whole number followed by a fraction of one or more.
    #[error(
        "`{text}` has a fraction of one or more after a whole number; a fraction below one was expected there, as in 1 1/4"
    )]
    ImproperAfterWhole {
        /// What was written.
        text: String,
    },
    /// No unit, where one may not be assumed.
    #[error("`{text}` has no unit; {} with its unit was expected, such as {}", wanted.words(), examples(*wanted))]
    UnitMissing {
        /// What was written.
        text: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A unit word nobody here knows.
    #[error("`{text}` has `{unit}` where a unit was expected; {} is written such as {}", wanted.words(), examples(*wanted))]
    UnknownUnit {
        /// What was written.
        text: String,
        /// The word that was read as a unit.
        unit: String,
        /// What was expected.
        wanted: Dimension,
    },
    /// A unit of another kind of thing.
    #[error("`{text}` is {} by its unit; {} was expected, such as {}", given.words(), wanted.words(), examples(*wanted))]
    WrongDimension {
        /// What was written.
        text: String,
        /// What its unit measures.
        given: Dimension,
        /// What was expected.
        wanted: Dimension,
    },
    /// A unit that means more than one thing.
    #[error("`{text}` is not clear: {why}; {} is written such as {}", wanted.words(), examples(*wanted))]
    UnclearUnit {
        /// What was written.
        text: String,
        /// What is unclear and what to write instead.
        why: &'static str,
        /// What was expected.
        wanted: Dimension,
    },
    /// Feet and inches, or degrees and minutes, that do not make sense together.
    #[error("`{text}` does not fit together: {why}")]
    BadParts {
        /// What was written.
        text: String,
        /// What was expected of the parts.
        why: &'static str,
    },
    /// A value that no such thing can have.
    #[error("`{text}` cannot be: {why}")]
    Impossible {
        /// What was written.
        text: String,
        /// Which values can be.
        why: &'static str,
    },
    /// A fraction and a decimal written side by side that are not the same size.
    #[error(
        "`{text}` gives two sizes that differ; one size, or the same size written twice, was expected"
    )]
    Differ {
        /// What was written.
        text: String,
    },
    /// A size that falls between two ticks, or beyond them all.
    #[error("`{text}` cannot be kept as a size: {source}")]
    Size {
        /// What was written.
        text: String,
        /// Why not, and the nearest that can.
        source: SizeError,
    },
}

impl TextError {
    pub(crate) fn of_number(fault: Fault, text: String, wanted: Dimension) -> TextError {
        match fault {
            Fault::NotANumber => TextError::NotANumber { text, wanted },
            Fault::TooLong => TextError::TooLong { text, wanted },
            Fault::ZeroDenominator => TextError::ZeroDenominator { text, wanted },
            Fault::DecimalInFraction => TextError::DecimalInFraction { text, wanted },
            Fault::ImproperAfterWhole => TextError::ImproperAfterWhole { text },
        }
    }
}

/// `1 1/4 in, .0049 in or 31.75 mm`.
fn examples(wanted: Dimension) -> String {
    match wanted.examples() {
        [] => String::new(),
        [only] => (*only).to_string(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}
