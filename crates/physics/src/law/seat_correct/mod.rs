//! `seat.correct`: how much metal it costs to bring a conical seat from the angle found to the angle
//! wanted, and by which road.
//!
//! # The geometry
//!
//! Cut the seat by a plane through its axis. One side of the land is a straight line from the port
//! edge *A* (nearest the axis) to the outer edge *B*, of length `land`, at the half angle `found`
//! from the axis. The metal is on the side away from the axis. The new face must take metal off
//! everywhere and add none, and should take as little as it can, so it keeps one end of the old line
//! and cuts the other:
//!
//! * `wanted > found` (opened out, flatter): the line swings about *A*; most metal goes at *B*.
//! * `wanted < found` (closed in, steeper): the line swings about *B*; most metal goes at *A*.
//!
//! Either way the far end of the old line stands off the new one by the perpendicular
//!
//! ```text
//! wedge = land * sin |wanted - found|
//! ```
//!
//! A disc already at the wanted angle rests, before the cut, on exactly that far end: a flatter disc
//! touches a steeper seat at its outer edge, a steeper disc touches a flatter seat at its port edge.
//! After the cut it rests on the new face, which is parallel to the disc's own face and `wedge` away
//! along the normal. A move of `s` along the axis moves a face at half angle `wanted` by
//! `s * sin(wanted)` along its normal, so
//!
//! ```text
//! axial_sink = wedge / sin(wanted)
//! ```
//!
//! The port and the outside of the seat are cylinders and stay where they are, so the land still
//! spans the same width square to the axis and its own length becomes
//! `land * sin(found) / sin(wanted)`.

use crate::answer::Answer;
use crate::card::{
    Argument, Card, ClosedForm, Decimals, Kind, Range, ResultKind, ResultSpec, Source,
};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, Length, Rounding, Size, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry, derived in the notes of this law";

static CARD: Card = Card {
    id: "seat.correct",
    version: 1,
    title: "Correcting the angle of a conical seat",
    purpose: "A seat or disc face has been found at one half angle and another is wanted. How much \
        metal must go, how far the disc will sink, what is left of the wall behind it, and whether \
        that much is ground, lapped or machined.",
    formula: "
        w = l * sin(abs(a_w - a_f))
        s = w / sin(a_w)
        l_n = l * sin(a_f) / sin(a_w)
        d_o = d_p + 2 * l * sin(a_f)
        m = t - s",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "found_half_angle",
            "a_f",
            Dimension::Angle,
            ANGLES.least,
            ANGLES.most,
            "half angle found, from the axis",
        ),
        Argument::quantity(
            "wanted_half_angle",
            "a_w",
            Dimension::Angle,
            ANGLES.least,
            ANGLES.most,
            "half angle wanted, from the axis (a flat seat, 90 deg, is faced square instead)",
        ),
        Argument::quantity(
            "land",
            "l",
            Dimension::Length,
            "0.005 in",
            "3 in",
            "length of the land, measured along the cone",
        ),
        Argument::quantity(
            "port",
            "d_p",
            Dimension::Length,
            "0.05 in",
            "24 in",
            "diameter of the port, at the inner edge of the land",
        ),
        Argument::quantity(
            "wall",
            "t",
            Dimension::Length,
            "0 in",
            "6 in",
            "metal behind the seat now, measured along the axis",
        )
        .optional(),
        Argument {
            name: "design",
            symbol: "design",
            meaning: "whether seat and disc are meant to have one angle or two",
            kind: Kind::Word(&["matched", "differential"]),
            required: false,
        },
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec {
            name: "wedge",
            symbol: "w",
            meaning: "most metal taken, square to the new face, at one edge",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Up),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "axial_sink",
            symbol: "s",
            meaning: "how far a disc of the wanted angle sinks",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Up),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "new_land",
            symbol: "l_n",
            meaning: "length of the land afterward, along the cone",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Nearest),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "outside",
            symbol: "d_o",
            meaning: "diameter over the outer edge: the tool must cover it",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Up),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "cut_at",
            symbol: "",
            meaning: "the edge that loses most metal",
            kind: ResultKind::Text,
            source: GEOMETRY,
        },
        ResultSpec {
            name: "method",
            symbol: "",
            meaning: "the road that suits this much metal",
            kind: ResultKind::Text,
            source: "naval practice for the order of methods, common practice for the figures",
        },
        ResultSpec {
            name: "metal_left",
            symbol: "m",
            meaning: "metal behind the seat afterward, along the axis",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Down),
            source: GEOMETRY,
        },
    ],
    branches: &[OPENED, CLOSED, TRUE],
    validity: "Conical seats with half angles of 10 to 80 degrees, both angles measured from the \
        axis, a straight land, and a cut that takes no more than it must. A flat seat (90 degrees) \
        is faced square to the stem and needs no such sheet.",
    sources: &[
        Source {
            work: "Plane geometry",
            locator: "derived in the notes of this law",
            used_for: "wedge, sink, land, outside and metal left",
        },
        Source {
            work: "US Navy training manual, Machinery Repairman",
            locator: "chapter 13, pages 13-5 and 13-6 (read in copies at yumpu.com 443350 page 320 \
                and tpub.com 14104)",
            used_for: "the order of methods: grind in for the slightest, lap for slightly more, \
                machine for the rest, and never the disc as a lap",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "the figures .0005, .002 and .006 in at which one method gives way to the next",
        },
    ],
    cautions: &[
        "Ask which design it is before any cut: matched cones and deliberate differential angles \
            need opposite repairs.",
        "If a void opens under the seat, stop: do not chase it. Show it to the responsible officer.",
        "One face never corrects the other. Each goes to its own master before they meet; a full \
            blue ring proves that two faces match, not that either is true.",
        "Never use the disc as a lap. Overgrinding grooves the disc and rounds the seat, and only \
            machining cures it.",
        "Isolate, drain and prove the line cold and without pressure before opening a valve.",
    ],
    closed_form: ClosedForm::Yes,
};

const ANGLES: Range = Range {
    least: "10 deg",
    most: "80 deg",
};
const FINE: Decimals = Decimals { inch: 4, metric: 3 };

const OPENED: &str = "opened out";
const CLOSED: &str = "closed in";
const TRUE: &str = "angle already true";

/// The most metal, square to the face, that is left to grinding in alone. Common practice.
const GRIND: Length = Length::inches(0.0005);
/// The most that is left to a lap of its own. Common practice.
const LAP: Length = Length::inches(0.002);
/// The most that a lap could still take, slowly, where the seat cannot be set up. Common practice.
const SLOW_LAP: Length = Length::inches(0.006);

/// What it costs to correct one conical face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correction {
    /// Most metal taken, square to the new face, at one edge of the land.
    pub wedge: Length,
    /// How far a disc of the wanted angle sinks along the axis.
    pub axial_sink: Length,
    /// Length of the land afterward, along the cone.
    pub new_land: Length,
    /// Diameter over the outer edge of the land.
    pub outside: Length,
    /// Metal left behind the seat along the axis, when the wall was given.
    pub metal_left: Option<Length>,
}

/// Corrects a conical face from half angle `found` to `wanted` (both from the axis, above 0 and
/// below 90 degrees), over a `land` along the cone whose inner edge has diameter `port`, with `wall`
/// of metal behind it along the axis where that is known.
///
/// Source: plane geometry, derived at the head of this file.
pub fn correct(
    found: Angle,
    wanted: Angle,
    land: Length,
    port: Length,
    wall: Option<Length>,
) -> Correction {
    let (found, wanted) = (found.to_radians(), wanted.to_radians());
    let across = land.to_m() * math::sin(found);
    // The two directions of the face, as unit vectors from the axis; their cross product is the
    // sine of the angle between them, and its sign says which way the face swings.
    let swing = math::sin(wanted) * math::cos(found) - math::cos(wanted) * math::sin(found);
    let wedge = land.to_m() * swing.abs();
    let axial_sink = wedge / math::sin(wanted);
    Correction {
        wedge: Length::m(wedge),
        axial_sink: Length::m(axial_sink),
        new_land: Length::m(across / math::sin(wanted)),
        outside: Length::m(port.to_m() + 2.0 * across),
        metal_left: wall.map(|wall| Length::m(wall.to_m() - axial_sink)),
    }
}

/// The road that suits a wedge of this much, for matched faces. The order is naval
/// machinery-repair practice; the figures are common practice.
pub fn method(wedge: Length) -> &'static str {
    // A ten-thousandth of a ten-thousandth is the dust of arithmetic, not metal.
    let reaches = |limit: Length| wedge.to_m() <= limit.to_m() + 2.5e-9;
    if reaches(GRIND) {
        "spot with blue and grind in"
    } else if reaches(LAP) {
        "lap with its own lap, true to the wanted angle; then spot and grind in"
    } else if reaches(SLOW_LAP) {
        "machine first if the seat can be set up, then lap; lapping alone is the slow road"
    } else {
        "machine, then lap with its own lap, then spot and grind in"
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let found = inputs.need_angle("found_half_angle")?;
    let wanted = inputs.need_angle("wanted_half_angle")?;
    let land = inputs.need_length("land")?;
    let port = inputs.need_length("port")?;
    let cost = correct(found, wanted, land, port, inputs.length("wall"));
    let design = inputs.word("design");

    let swing = wanted.to_radians() - found.to_radians();
    let (branch, cut_at) = if Size::nearest_to(cost.wedge) == Size::nearest_to(Length::m(0.0)) {
        (TRUE, "neither edge: the angle is the one wanted")
    } else if swing.is_sign_positive() {
        (OPENED, "the outer edge; the port edge is kept")
    } else {
        (CLOSED, "the port edge; the outer edge is kept")
    };
    let road = if design == Some("differential") {
        "do not correct the angle away: seat and disc are meant to differ. Dress each face to its \
            own angle, against its own master, and lap only to a line of contact"
    } else {
        method(cost.wedge)
    };
    let mut answer = Answer::new(branch)
        .with("wedge", cost.wedge)
        .with("axial_sink", cost.axial_sink)
        .with("new_land", cost.new_land)
        .with("outside", cost.outside)
        .with("cut_at", cut_at.to_owned())
        .with("method", road.to_owned());
    if let Some(left) = cost.metal_left {
        answer = answer.with("metal_left", left);
        if left.to_m() <= 0.0 {
            answer.notices.push(
                "The cut is deeper than the wall given: it would break through. Do not cut.".into(),
            );
        }
    }
    match design {
        Some("matched") => {}
        Some(_) => answer.notices.push(
            "The design is differential: an angle that differs from the mating face may be right. \
             Compare with the drawing, face by face."
                .into(),
        ),
        None => answer.notices.push(
            "The design was not said. Matched cones and deliberate differential angles need \
             opposite repairs: ask before cutting. The method given is for matched cones."
                .into(),
        ),
    }
    Ok(answer)
}
