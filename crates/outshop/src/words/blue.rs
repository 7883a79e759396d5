//! Blue on a seat while it is lapped.

use measure::House;
use shop::book::{BlueSeen, BluedFace, RingWidth, Touch};
use shop::proof::degrees;

use super::lathe::sized;

/// A section.
pub const TITLE: &str = "Blue checks";
/// Under it.
pub const LEAD: &str = "Each face against its own master, thin blue, a quarter turn; the rings stand in the order made, the oldest first. The front of the face is at the top, angles go clockwise as one looks down on it. A ring that goes all round proves that two faces meet, not that either is true.";
/// None.
pub const NONE: &str = "None is stated yet.";
/// A form.
pub const STATE: &str = "State a blue check";
/// A field.
pub const FACE: &str = "Which face";
/// A field.
pub const AFTER: &str = "After which cut or grit";
/// What it tells.
pub const AFTER_TELLS: &str = "such as: as machined; 320 grit";
/// A field.
pub const TOUCHES: &str = "Where it touches";
/// What it tells.
pub const TOUCHES_TELLS: &str =
    "all round; nowhere; or arcs in degrees clockwise from the front: 20-140, 200-350";
/// A field.
pub const WIDTH: &str = "How wide the ring is";
/// What it tells.
pub const WIDTH_TELLS: &str = "with its unit, the least and the most: 1/32 in to 3/64 in";
/// A field.
pub const WANTED: &str = "How wide it is to be";
/// What it tells.
pub const WANTED_TELLS: &str = "the least and the most; said once, it holds until it is said again";
/// A field.
pub const PHOTO: &str = "Photograph";
/// What it tells.
pub const PHOTO_TELLS: &str = "its number, such as P-003, where one was taken";
/// A field.
pub const TOLD: &str = "What else was seen";
/// A button.
pub const KEEP: &str = "Keep it";
/// A check that should be there.
pub const NOT_THERE: &str = "The blue check that was stated is not there.";

/// A face, to be chosen.
pub fn face(face: BluedFace) -> &'static str {
    match face {
        BluedFace::Seat => "seat, against its master",
        BluedFace::Disc => "disc, against its master",
        BluedFace::Together => "seat and disc together",
    }
}

/// A face that is none.
pub fn no_face(text: &str) -> String {
    format!("`{text}` is no face: seat, disc or together was expected.")
}

/// Arcs that are none.
pub fn no_arcs(text: &str) -> String {
    format!(
        "`{text}` is not where it touches: all round, nowhere, or arcs such as 20-140, 200-350 were expected."
    )
}

/// A width that is none.
pub fn no_width(text: &str, why: &str) -> String {
    format!("`{text}` is no width of a ring, with its unit: {why}")
}

/// Where it touches.
pub fn touches(all: &[Touch]) -> String {
    if all.is_empty() {
        return "nowhere".into();
    }
    if degrees(all) == 360 {
        return "all round".into();
    }
    let each = all.iter().map(|Touch { from, to }| format!("{from}-{to}°"));
    each.collect::<Vec<_>>().join(", ")
}

/// Where it touches, and how much of a turn that is.
pub fn round(all: &[Touch]) -> String {
    match degrees(all) {
        0 => "touches nowhere".into(),
        360 => "touches all round".into(),
        some => format!("touches {} ({some} of 360 degrees)", touches(all)),
    }
}

/// A width.
pub fn width(width: RingWidth, house: House) -> String {
    if width.least == width.most {
        return sized(width.least, house);
    }
    format!(
        "{} to {}",
        sized(width.least, house),
        sized(width.most, house)
    )
}

/// What was measured and wanted.
pub fn widths(blue: &BlueSeen, house: House) -> String {
    let measured = blue.width.map(|it| format!("; ring {}", width(it, house)));
    let wanted = blue
        .wanted
        .map(|it| format!("; wanted {}", width(it, house)));
    format!(
        "{}{}",
        measured.unwrap_or_default(),
        wanted.unwrap_or_default()
    )
}

/// One check in a line.
pub fn line(job: &str, blue: &BlueSeen, house: House) -> String {
    format!(
        "{job}: blue on {}, after {}: {}{}",
        face(blue.face),
        blue.after,
        round(&blue.touches),
        widths(blue, house)
    )
}

/// A ring for one who cannot see it.
pub fn picture(blue: &BlueSeen) -> String {
    format!(
        "{}, after {}: {}",
        face(blue.face),
        blue.after,
        round(&blue.touches)
    )
}

/// Under a ring.
pub fn seen(on: jiff::civil::Date, by: &str) -> String {
    format!("{}, {by}", super::day(on))
}
