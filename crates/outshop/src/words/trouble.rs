//! Pages for when something is wrong.

/// The head of the ways out.
pub const WAYS_OUT: &str = "Ways out";
/// An address that leads nowhere.
pub const NO_PAGE: &str = "There is no such page in this book";
/// What that means.
pub const NO_PAGE_WHY: &str = "The address leads nowhere here. Nothing was changed.";
/// A page that could not be drawn.
pub const NOT_SHOWN: &str = "This could not be shown";
/// An act that failed.
pub const NOT_DONE: &str = "This could not be done";
/// A book that could not be read.
pub const NO_BOOK: &str = "The book could not be read";
/// A form from another site.
pub const THE_DAYS_AHEAD: &str = "The days ahead";
/// Open work.
pub const OPEN_WORK: &str = "Open work";
/// The rulebook.
pub const THE_RULEBOOK: &str = "The rulebook";
