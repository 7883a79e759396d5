//! What stands on every page: whose it is, for which day it is true, what of the book it shows.

use jiff::civil::Date;
use serde::Serialize;

/// What every page of a document says of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct About {
    /// The document's title, in one line.
    pub title: String,
    /// The number people call it by.
    pub number: String,
    /// What its bars say: the number, and what tells later whether the paper still stands.
    pub bars: String,
    /// Whose it is; none for a sheet worked without a book.
    pub shop: Option<String>,
    /// The day for which it is true. It also dates the file.
    pub as_of: Date,
    /// The same day as people read it.
    pub as_of_read: String,
    /// What of the book it shows: the newest entry, and the hash that stands for all before it.
    pub shows: String,
    /// The line that says, on each page, that the book is a demonstration.
    pub demonstration: Option<String>,
    /// The line on every page.
    pub standing: String,
}

/// A drawing to scale, from the drawing office.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Picture {
    /// What it is.
    pub title: String,
    /// What it shows, in words, for one who cannot see it.
    pub told: String,
    /// The drawing as SVG.
    pub svg: String,
    /// Width and height of its paper, inches; it is printed at that size, so that its scale is true.
    pub paper: [f64; 2],
}
