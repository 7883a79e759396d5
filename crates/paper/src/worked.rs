//! A worked sheet as a page has it: from the sheet itself, or read back from its own printed text.

mod read;

use physics::Sheet;
use physics::formula::{self, Shape};
use serde::Serialize;

/// A sheet that was printed before: laid out again if its text can be read to the last line, else as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Copied {
    /// The sheet's id.
    pub id: String,
    /// Its text, as printed.
    pub text: String,
    /// The same, laid out; none when the text is of a form this program does not know.
    pub worked: Option<Worked>,
}

impl Copied {
    /// A sheet's printed text.
    pub fn of(id: impl Into<String>, text: impl Into<String>) -> Copied {
        let text = text.into();
        Copied {
            id: id.into(),
            worked: read::read(&text),
            text,
        }
    }
}

/// A worked sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Worked {
    /// Its id.
    pub id: String,
    /// Its version, in words.
    pub version: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub purpose: String,
    /// What nobody gave and was assumed.
    pub assumed: Vec<String>,
    /// The formula, line by line.
    pub formula: Vec<Formula>,
    /// What goes in.
    pub inputs: Vec<Input>,
    /// What stands on each line of the formula.
    pub lines: Vec<Line>,
    /// Optional arguments nobody gave.
    pub not_given: Vec<String>,
    /// The lines with numbers in place.
    pub steps: Vec<Step>,
    /// What comes out.
    pub results: Vec<Outcome>,
    /// What this case makes a person look at.
    pub notices: Vec<String>,
    /// What can hurt a person or spoil a part.
    pub cautions: Vec<String>,
    /// Where it holds.
    pub validity: String,
    /// What it rests on.
    pub sources: Vec<String>,
    /// The line under every sheet.
    pub standing: String,
}

/// A formula to be set in type.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Formula {
    /// As the card prints it.
    pub text: String,
    /// As it is set.
    pub shape: Shape,
    /// In words, for a reader who cannot see it.
    pub spoken: String,
}

impl Formula {
    /// A line `name = expression`.
    fn line(text: &str) -> Option<Formula> {
        let read = formula::formula(text).ok()?;
        Some(Formula::of(text, read.lines.first()?.shape()))
    }

    /// An expression alone, set after the sign of equality.
    fn worked(text: &str) -> Option<Formula> {
        let shape = formula::expression(text).ok()?.shape();
        Some(Formula::of(text, shape))
    }

    fn of(text: &str, shape: Shape) -> Formula {
        Formula {
            text: text.to_owned(),
            spoken: shape.spoken(),
            shape,
        }
    }
}

/// One thing that goes in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Input {
    /// The letter that stands for it.
    pub symbol: String,
    /// The same, as it is set.
    pub shape: Option<Shape>,
    /// Its name as typed; empty where that is the letter.
    pub name: String,
    /// What it is.
    pub meaning: String,
    /// As entered.
    pub entered: String,
    /// What the formula was worked with, where that is written otherwise.
    pub value: String,
    /// Where it came from.
    pub basis: String,
}

/// What a letter worked on the way stands for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// The letter.
    pub symbol: String,
    /// As it is set.
    pub shape: Option<Shape>,
    /// What it is.
    pub meaning: String,
}

/// A line of the formula with numbers in place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// The line.
    pub formula: Formula,
    /// Its right side with numbers in place.
    pub substituted: Formula,
    /// What it comes to, with its unit.
    pub value: String,
    /// Where the line is from.
    pub source: String,
}

/// One thing that comes out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Outcome {
    /// Its name.
    pub name: String,
    /// What it is; empty for words, which say it themselves.
    pub meaning: String,
    /// What it came to.
    #[serde(flatten)]
    pub value: Came,
}

/// What a result is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Came {
    /// A number with its unit.
    Number {
        /// As shown.
        text: String,
    },
    /// Words, *cannot tell* among them.
    Words {
        /// The words.
        text: String,
    },
    /// A table as plain lines.
    Table {
        /// Headings and rows, the columns in line.
        text: String,
    },
}

impl Worked {
    /// A sheet as it is laid out on paper: by way of its own printed text, so that what is set in type and what
    /// is stored in a book cannot differ. None when our own page does not read back, which a test forbids.
    pub fn of(sheet: &Sheet) -> Option<Worked> {
        read::read(&sheet.to_text())
    }
}
