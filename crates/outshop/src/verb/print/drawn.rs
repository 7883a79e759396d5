//! A drawing by itself: which there are, what each takes, and the three forms it is written in.

use std::path::Path;

use drawing::{
    DiscLap, Drawing, DrawingError, Kept, SeatLap, SeatSection, SeatStated, Title, TurnedDisc,
};
use measure::{Angle, Dimension, House, Length};
use paper::{Picture, Plate};
use physics::Sheet;

use super::{Paper, about};
use crate::words::print as say;
use crate::{Context, Failure};

/// A size that a drawing takes: its name, what it is, whether it may be left out.
struct Size(&'static str, Dimension, &'static str, bool);

/// A drawing that can be asked for.
struct Kind {
    word: &'static str,
    title: &'static str,
    sizes: &'static [Size],
    draw: fn(&Given, House, Title) -> Result<Drawing, DrawingError>,
}

use Dimension::{Angle as ANGLE, Length as LENGTH};

const KINDS: [Kind; 4] = [
    Kind {
        word: "seat",
        title: "Valve seat, before and after",
        sizes: &[
            Size(
                "port",
                LENGTH,
                "diameter of the port, at the inner edge of the land",
                true,
            ),
            Size(
                "land",
                LENGTH,
                "length of the land as found, along the cone",
                true,
            ),
            Size(
                "found_half_angle",
                ANGLE,
                "half angle found, from the axis",
                true,
            ),
            Size(
                "wanted_half_angle",
                ANGLE,
                "half angle wanted, from the axis",
                true,
            ),
            Size(
                "wall",
                LENGTH,
                "metal behind the seat, along the axis",
                false,
            ),
            Size("body_outside", LENGTH, "outside of the body", false),
            Size("disc_outside", LENGTH, "outside of the disc", false),
        ],
        draw: |given, house, title| {
            let seat = SeatSection {
                port: given.length("port"),
                land: given.length("land"),
                found_half_angle: given.angle("found_half_angle"),
                wanted_half_angle: given.angle("wanted_half_angle"),
                wall: given.maybe("wall"),
                body_outside: given.maybe("body_outside"),
                disc_outside: given.maybe("disc_outside"),
                stated: SeatStated::default(),
            };
            drawing::seat_section(&seat, house, title)
        },
    },
    Kind {
        word: "disc",
        title: "Valve disc",
        sizes: &[
            Size(
                "nose",
                LENGTH,
                "diameter of the nose, where the cone starts",
                true,
            ),
            Size("outside", LENGTH, "diameter over all", true),
            Size(
                "half_angle",
                ANGLE,
                "half angle of the face, from the axis",
                true,
            ),
            Size(
                "rim",
                LENGTH,
                "length of the cylinder behind the cone",
                true,
            ),
            Size("stem", LENGTH, "diameter of the stem", true),
            Size(
                "stem_length",
                LENGTH,
                "length of the stem behind the disc",
                true,
            ),
            Size("chamfer", LENGTH, "chamfer at 45 degrees", false),
        ],
        draw: |given, house, title| {
            let disc = TurnedDisc {
                nose: given.kept("nose"),
                outside: given.kept("outside"),
                half_angle: given.angle("half_angle"),
                half_angle_within: None,
                rim: given.kept("rim"),
                stem: given.kept("stem"),
                stem_length: given.kept("stem_length"),
                chamfer: given.maybe("chamfer"),
            };
            drawing::turned_disc(&disc, house, title)
        },
    },
    Kind {
        word: "seat-lap",
        title: "Lap for a seat",
        sizes: &[
            Size("small", LENGTH, "small diameter of the cone", true),
            Size("large", LENGTH, "large diameter of the cone", true),
            Size(
                "half_angle",
                ANGLE,
                "half angle of the cone, from the axis",
                true,
            ),
            Size(
                "back",
                LENGTH,
                "length of the cylinder behind the cone",
                true,
            ),
            Size("pilot", LENGTH, "diameter of the pilot", true),
            Size(
                "pilot_length",
                LENGTH,
                "length of the pilot before the lap",
                true,
            ),
            Size("spindle", LENGTH, "diameter of the spindle", true),
            Size(
                "drive_length",
                LENGTH,
                "length of the spindle behind the lap",
                true,
            ),
        ],
        draw: |given, house, title| {
            let lap = SeatLap {
                small: given.kept("small"),
                large: given.kept("large"),
                half_angle: given.angle("half_angle"),
                half_angle_within: None,
                back: given.kept("back"),
                pilot: given.kept("pilot"),
                pilot_length: given.kept("pilot_length"),
                spindle: given.kept("spindle"),
                drive_length: given.kept("drive_length"),
            };
            drawing::seat_lap(&lap, house, title)
        },
    },
    Kind {
        word: "disc-lap",
        title: "Lap for a disc",
        sizes: &[
            Size("outside", LENGTH, "diameter over all", true),
            Size("length", LENGTH, "length over all", true),
            Size(
                "mouth",
                LENGTH,
                "diameter of the mouth, where the cone is widest",
                true,
            ),
            Size(
                "half_angle",
                ANGLE,
                "half angle of the cone, from the axis",
                true,
            ),
            Size("bore", LENGTH, "diameter of the bore behind the cone", true),
        ],
        draw: |given, house, title| {
            let lap = DiscLap {
                outside: given.kept("outside"),
                length: given.kept("length"),
                mouth: given.kept("mouth"),
                half_angle: given.angle("half_angle"),
                half_angle_within: None,
                bore: given.kept("bore"),
            };
            drawing::lap_for_disc(&lap, house, title)
        },
    },
];

/// Words that a title block takes.
const TITLE: [&str; 7] = [
    "part", "number", "material", "quantity", "finish", "edges", "revision",
];

/// Sizes in SI, by name; every required one is there.
struct Given(Vec<(&'static str, f64)>);

impl Given {
    fn maybe(&self, name: &str) -> Option<Length> {
        self.si(name).map(Length::m)
    }

    /// A required length. One that is missing was refused before; it would be drawn as nothing, which is refused too.
    fn length(&self, name: &str) -> Length {
        Length::m(self.si(name).unwrap_or(0.0))
    }

    /// The same as a size of a turned part, of which nobody has said how closely it is to be kept.
    fn kept(&self, name: &str) -> Kept {
        Kept::from(self.length(name))
    }

    fn angle(&self, name: &str) -> Angle {
        Angle::radians(self.si(name).unwrap_or(0.0))
    }

    fn si(&self, name: &str) -> Option<f64> {
        self.0.iter().find(|(n, _)| *n == name).map(|(_, si)| *si)
    }
}

/// The drawings of a sheet's case that can be drawn. A case that cannot is still worth its card.
pub(super) fn of_sheet(sheet: &Sheet, title: &Title) -> Vec<Picture> {
    let drawings = crate::drawn::of_sheet(sheet, title).into_iter().flatten();
    drawings.filter_map(|one| picture(&one).ok()).collect()
}

/// A drawing as a picture of a card.
fn picture(drawing: &Drawing) -> Result<Picture, DrawingError> {
    let laid = drawing.lay_out()?;
    Ok(Picture {
        title: laid.name.clone(),
        told: laid.description.clone(),
        svg: laid.svg(),
        paper: [laid.width, laid.height],
    })
}

/// Draws, and writes it in the form that the file's name ends in; PDF where no file is named.
pub(super) fn print(
    context: &mut Context,
    word: &str,
    typed: &[(String, String)],
    out: Option<&Path>,
) -> Result<Paper, Failure> {
    let known: Vec<_> = KINDS.iter().map(|kind| kind.word).collect();
    let kind = KINDS
        .iter()
        .find(|kind| kind.word == word)
        .ok_or_else(|| Failure::Input(say::no_such_drawing(word, &known.join(", "))))?;
    let form = form(out)?;
    let house = context.house();
    let given = sizes(kind, typed, house)?;
    let number = text(typed, "number").unwrap_or_else(|| kind.word.into());
    let about = about(context, &number, kind.title.into())?;
    let title = Title {
        shop: about.shop.clone(),
        drawing: kind.title.into(),
        part: text(typed, "part"),
        number: text(typed, "number"),
        material: text(typed, "material"),
        quantity: text(typed, "quantity"),
        finish: text(typed, "finish"),
        edges: text(typed, "edges"),
        as_of: Some(about.as_of.to_string()),
        revision: text(typed, "revision"),
        sheets: Vec::new(),
    };
    let refused = |e: DrawingError| Failure::Input(e.to_string());
    let drawing = (kind.draw)(&given, house, title).map_err(refused)?;
    let plain = |text: String| Paper {
        name: format!("{word}.{form}"),
        bytes: text.into_bytes(),
        pages: None,
    };
    match form {
        "svg" => Ok(plain(drawing.lay_out().map_err(refused)?.svg())),
        "dxf" => Ok(plain(drawing.lay_out().map_err(refused)?.dxf())),
        _ => {
            let picture = picture(&drawing).map_err(refused)?;
            Ok(Paper::pdf(word, Plate { about, picture }.print()?))
        }
    }
}

/// The form that a file's name asks for.
fn form(out: Option<&Path>) -> Result<&'static str, Failure> {
    let Some(path) = out else {
        return Ok("pdf");
    };
    let ending = path.extension().and_then(|e| e.to_str());
    let ending = ending.map(str::to_ascii_lowercase);
    ["pdf", "svg", "dxf"]
        .into_iter()
        .find(|form| ending.as_deref() == Some(form))
        .ok_or_else(|| Failure::Input(say::no_such_form(path)))
}

fn text(typed: &[(String, String)], name: &str) -> Option<String> {
    let found = typed.iter().find(|(n, _)| n == name);
    found.map(|(_, text)| text.clone())
}

/// Reads the sizes; refuses names that the drawing does not take, and a required one that is missing.
fn sizes(kind: &Kind, typed: &[(String, String)], house: House) -> Result<Given, Failure> {
    let mut given = Vec::new();
    for (at, (name, value)) in typed.iter().enumerate() {
        if typed.iter().take(at).any(|(before, _)| before == name) {
            return Err(Failure::Input(say::twice(name)));
        }
        if TITLE.contains(&name.as_str()) {
            continue;
        }
        let Some(Size(name, dimension, ..)) = kind.sizes.iter().find(|size| size.0 == name) else {
            let sizes = kind.sizes.iter().map(|size| size.0);
            let known: Vec<_> = sizes.chain(TITLE).collect();
            let why = say::no_such_argument(kind.word, name, &known.join(", "));
            return Err(Failure::Input(why));
        };
        let read = measure::entered(value, *dimension, house)
            .map_err(|e| Failure::Input(format!("{name}: {e}")))?;
        given.push((*name, read.si));
    }
    for Size(name, _, meaning, required) in kind.sizes {
        if *required && !given.iter().any(|(n, _)| n == name) {
            return Err(Failure::Input(say::needs(kind.word, name, meaning)));
        }
    }
    Ok(Given(given))
}
