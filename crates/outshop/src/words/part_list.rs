//! A list of parts from a file, shown line by line before any of it is kept.

/// The title, and the way there.
pub const TITLE: &str = "Parts from a file";
/// What it takes.
pub const TAKES: &str = "A table as CSV in UTF-8, or an XLSX workbook, with words over its columns: engine, part, family, side, axle, within, material, \
drawing, mates, fitted, feature, drawn, as built, shop limit. Only the part is needed, and the family of one that is new. Sizes with their unit; what \
is not written is left blank.";
/// An example, over it.
pub const SUCH_AS: &str = "Such as";
/// Words over the columns of an example.
pub const COLUMNS: [&str; 5] = ["part", "family", "side", "feature", "as built"];
/// Its lines.
pub const LINES: [[&str; 5]; 3] = [
    [
        "right feed check",
        "check-valve",
        "right",
        "seat-wall",
        ".484 in",
    ],
    ["left feed check", "check-valve", "left", "", ""],
    ["left feed check", "", "", "seat-land", "3/32 in"],
];
/// A summary.
pub const FAMILIES: &str = "The families, as they are written";
/// A field.
pub const ENGINE_OF_ALL: &str = "The engine of lines that name none";
/// A choice.
pub const EACH_NAMES_ONE: &str = "each line names its own";
/// What becomes of a line.
pub const ADDS: &str = "adds the part";
/// What becomes of a line.
pub const AGAIN: &str = "in the book already";
/// A column.
pub const PART: &str = "Part";
/// A button.
pub const SAVE_IT: &str = "Keep these lines";
/// Nothing to save.
pub const NOTHING_NEW: &str = "There is nothing new in it to keep.";
/// A way back.
pub const ANOTHER: &str = "Choose another file, or this one put right";
/// A line that says more of a part.
pub fn tells(what: &[String]) -> String {
    format!("says more of it: {}", what.join(", "))
}

/// A line that is refused.
pub fn refused(why: &str) -> String {
    format!("refused: {why}")
}

/// The sum of the lines: added, told, again, refused.
pub fn sum([adds, tells, again, refused]: [usize; 4]) -> String {
    format!(
        "{}; {tells} say more, {again} in the book already, {refused} refused.",
        super::count(adds, "part to add", "parts to add")
    )
}

/// Why nothing was saved.
pub fn held_back(refused: usize) -> String {
    format!(
        "{} refused, so nothing was saved: put the file right, or say that they are left out.",
        super::count(refused, "line is", "lines are")
    )
}
