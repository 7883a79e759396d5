//! What anybody may read who is not signed in, where the shop chose it.

/// What the page leaves out.
pub const NO_MORE: &str = "This shop lets anybody on its network read this page. Names, findings, reasons and every form are inside.";
/// An empty book.
pub const NO_ENGINE: &str = "There is no engine in this book yet.";
/// An engine.
pub const NOTHING_STOPS: &str = "Nothing in this book stops her today.";
/// Of a finding, a job, an inspection.
pub const IS_OPEN: &str = "is open";
/// A promised day.
pub const PROMISED_CLEAR: &str = "promised; nothing in this book stops her";
/// A promised day.
pub const PROMISED_STOPPED: &str = "promised; something stops her";
/// The way there, from where it was chosen.
pub const READ_IT: &str = "The page that anybody may read";
