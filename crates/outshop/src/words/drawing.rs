//! Drawings that a part is made from.

/// The list.
pub const TITLE: &str = "Drawings of parts";
/// What they are.
pub const LEAD: &str = "A drawing to scale that a stranger can make the part from: every size with its limits, thread, material, finish, edges, what it goes with, what to check before it leaves the chuck.";
/// A section.
pub const SIZES: &str = "Sizes";
/// How a size is written.
pub const SIZES_TELL: &str = "With its limits after it: 2.500 ±.001, 2.500 +.001 -.000, or 2.499 to 2.501. Limits of a thread: .6995 to .7035, .7560 or over, .7482 or under.";
/// A section.
pub const BLOCK: &str = "What stands in the title block";
/// A button.
pub const DRAW: &str = "Draw it";
/// Before it is drawn.
pub const FILL_IN: &str = "Fill in the sizes and draw it.";
/// A section: what a stranger would have to ask.
pub const UNSTATED: &str = "Not stated on it";
/// What that means.
pub const UNSTATED_TELLS: &str = "Whoever makes it from the print alone would have to ask, or guess. It stands on the print as not stated.";
/// Nothing is missing.
pub const ALL_STATED: &str = "Everything the title block asks is stated.";
/// Before the links to the files.
pub const FILES: &str = "As a file:";
/// A file that is printed.
pub const PDF: &str = "PDF, at its scale";
/// A file that is a picture.
pub const SVG: &str = "SVG";
/// A file for a drawing program.
pub const DXF: &str = "DXF, at true size";

/// A link from a sheet.
pub fn draw(title: &str) -> String {
    format!("Draw it: {}", title.to_lowercase())
}

/// A sheet from which nothing of this drawing comes.
pub fn gives_nothing(sheet: &str, drawing: &str) -> String {
    format!(
        "The sheet {sheet} gives nothing of the drawing {drawing}: leave `from` out, or say another sheet."
    )
}

/// What is still to be said before it can be drawn.
pub fn still(wanting: &[&str]) -> String {
    format!(
        "Still to be said before it can be drawn: {}.",
        wanting.join("; ")
    )
}

/// A tolerance that is none.
pub fn no_tolerance(text: &str) -> String {
    format!(
        "`{text}` is not a size with its limits: 2.500 +.001 -.000 was expected, both with their sign"
    )
}

/// Limits of a thread that are none.
pub fn no_limits(text: &str) -> String {
    format!(
        "`{text}` is not the limits of a diameter: .6995 to .7035, .7560 or over, .7482 or under was expected"
    )
}

/// Sizes without limits.
pub fn without_limits(open: &[&str]) -> String {
    format!("how closely these are kept: {}", open.join("; "))
}
