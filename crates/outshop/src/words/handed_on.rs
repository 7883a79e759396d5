//! Sheets that go on from one another.

use physics::handed_on::HandedOn;

/// A section: which sheets come before this one.
pub const GOES_ON: &str = "Goes on from";
/// A section: which may come next.
pub const NEXT: &str = "What comes next";
/// What is done by going there.
pub const NEXT_TELLS: &str = "Nothing is typed twice: what is known here goes along, and the next page says of each figure where it came from.";
/// A chain of sheets that does not end.
pub const TOO_LONG: &str = "More sheets in a row than can be followed: six were expected at most.";
/// Where a thread's way begins.
pub const WAY: &str = "From a worn thread to the card for the lathe";
/// The same, in words.
pub const WAY_TELLS: &str = "Readings first; then what the thread may be, the limits of its mate, how it is cut on a lathe of the shop, and the card to hang over it.";
/// The link to its first page.
pub const BEGIN: &str = "Begin with the readings";
/// Before it, where no lathe was chosen.
pub const NO_LATHE: &str = "No lathe is chosen, so the card has no settings: choose one under what goes in, and work it again.";

/// A sheet that does not lead to this one.
pub fn leads_elsewhere(from: &str, to: &str) -> String {
    format!("The sheet {from} does not lead to {to}: a sheet that comes before it was expected.")
}

/// Beside a field.
pub fn whence(one: &HandedOn) -> String {
    format!("handed on: {}", one.whence)
}

/// Beside a field that was typed in place of what was handed on.
pub fn instead(one: &HandedOn) -> String {
    format!("typed here; {} is {}", one.whence, one.text)
}

/// What was typed in place of what was handed on.
pub fn anew(one: &HandedOn) -> String {
    format!(
        "Typed anew: {}, where {} gave {}.",
        one.name, one.whence, one.text
    )
}

/// What is still to be said before a sheet that goes on can be worked.
pub fn still(wanting: &[&str]) -> String {
    format!(
        "Handed on is what was known. Still to be said here, and by a person: {}.",
        wanting.join("; ")
    )
}
