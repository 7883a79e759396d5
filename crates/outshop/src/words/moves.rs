//! What a choice of work moves.

use shop::ruled::knock_on::Changed;

/// A term.
pub const MOVES: &str = "Sizes that move";
/// Limits.
pub const TOUCHES: &str = "Limits of the law on what moves:";
/// The picture.
pub const DRAWN: &str = "What moves what, drawn";

/// Which way a size goes.
pub fn way(changed: &Changed) -> String {
    let way = match changed.up {
        Some(true) => "goes up",
        Some(false) => "goes down",
        None => "goes one way or the other",
    };
    format!("{way} ({} is plus): {}", changed.plus, changed.why)
}

/// A change in a sentence.
pub fn changed(changed: &Changed) -> String {
    format!(
        "{} {}. {} with it; measure before and after.",
        super::sentence(&changed.words),
        way(changed),
        super::sentence(&super::count(
            changed.moved.len(),
            "size moves",
            "sizes move"
        ))
    )
}
