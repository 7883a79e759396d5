//! A paper of an inspection: a sheet to write on, a report, a tag. Words and room for a pencil, part after part.
//!
//! The layout is our own; what must stand on such a paper, the one who fills it knows.

use serde::Serialize;

use crate::about::About;
use crate::job::Fact;
use crate::press::{Printed, set};
use crate::{PaperError, barcode};

/// A paper of an inspection.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Form {
    /// What stands on every page.
    pub about: About,
    /// What kind of paper it is, small over its title.
    pub over: String,
    /// Its title.
    pub title: String,
    /// Whose or what about, under the title.
    pub under: Option<String>,
    /// Words to be read from afar, in a heavy frame.
    pub shout: Option<String>,
    /// Facts in two columns.
    pub facts: Vec<Fact>,
    /// What governs in its place, in a sentence.
    pub governs: String,
    /// The name over the cautions.
    pub careful: String,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// Its parts.
    pub parts: Vec<FormPart>,
    /// Set closer, where all of it is to be on one sheet of paper.
    pub close: bool,
}

/// A part of such a paper, under a heading.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FormPart {
    /// The heading.
    pub title: String,
    /// What to know of it, small.
    pub note: Option<String>,
    /// Whether it is kept on one page.
    pub whole: bool,
    /// What stands in it.
    pub blocks: Vec<Block>,
}

impl FormPart {
    /// A part that may run over a page's end.
    pub fn of(title: impl Into<String>, blocks: Vec<Block>) -> FormPart {
        FormPart {
            title: title.into(),
            note: None,
            whole: false,
            blocks,
        }
    }

    /// A part that is kept on one page.
    pub fn on_one_page(title: impl Into<String>, blocks: Vec<Block>) -> FormPart {
        FormPart {
            whole: true,
            ..FormPart::of(title, blocks)
        }
    }
}

/// What stands in a part.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Block {
    /// Points, one below the other.
    Points {
        /// Each in a sentence.
        all: Vec<String>,
    },
    /// Facts in two columns.
    Facts {
        /// A word and what is said.
        all: Vec<Fact>,
    },
    /// Boxes to write in, row by row.
    Room {
        /// The words in the boxes of each row, which share its width evenly.
        rows: Vec<Vec<String>>,
        /// How high each box is, millimeters.
        high: u8,
    },
    /// Items to look at, with room for what was seen.
    Items {
        /// The words of the boxes of every item: condition, what was seen, who looked, the day.
        words: [String; 4],
        /// The items.
        all: Vec<LookedAt>,
    },
    /// A picture of its own, such as a square code, with what it says for one who cannot see it.
    Code {
        /// The picture as SVG.
        svg: String,
        /// What it holds.
        told: String,
        /// How wide it is printed, millimeters.
        wide: u8,
    },
    /// Figures that are read at arm's length, side by side.
    Large {
        /// Each figure, and what it is.
        all: Vec<Fact>,
    },
    /// A close table to be filled in: its rows have room for a pencil, and lines stand between the columns.
    Lines {
        /// The shares of its width.
        shares: Vec<u32>,
        /// The heads of its columns.
        heads: Vec<String>,
        /// Its rows; a cell without words is room for a pencil.
        rows: Vec<Vec<Option<String>>>,
        /// How high a row is at the least, millimeters.
        high: u8,
    },
    /// A table.
    Table {
        /// The shares of its width.
        shares: Vec<u32>,
        /// The heads of its columns.
        heads: Vec<String>,
        /// Its rows; a cell without words is room for a pencil.
        rows: Vec<Vec<Option<String>>>,
    },
}

/// An item to look at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LookedAt {
    /// Its place in the list.
    pub number: usize,
    /// What is looked at.
    pub text: String,
    /// The section behind it.
    pub section: String,
    /// What to know of it, in sentences.
    pub notes: Vec<String>,
    /// What is known of its fitting and must not be overlooked.
    pub fitting: Option<String>,
    /// Whether she is known not to have it; then no condition is asked.
    pub absent: bool,
    /// What is written down beside what was seen: a box each.
    pub asks: Vec<String>,
}

#[derive(Serialize)]
struct Page<'f> {
    #[serde(flatten)]
    form: &'f Form,
    barcode: String,
}

impl Form {
    /// Sets the paper.
    ///
    /// # Errors
    /// [`PaperError`].
    pub fn print(&self) -> Result<Printed, PaperError> {
        let barcode = barcode::svg(&self.about.number)?;
        set(
            "form.typ",
            &Page {
                form: self,
                barcode,
            },
            self.about.as_of,
        )
    }
}
