//! `gauge.cone_one_ball`: where a conical seat of known angle meets its face, from one ball.
//!
//! A ball of radius *R* in a cone of half angle *a* has its center *R / sin a* from the cone's point. At
//! the height of the center the cone is *2 R / cos a* across; from there down to a face *z* below it the
//! cone narrows by *2 z tan a*. It touches on a circle *2 R cos a* across, *R sin a* below its center.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, Length, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry, derived in the notes of this law";

static CARD: Card = Card {
    id: "gauge.cone_one_ball",
    version: 1,
    title: "A conical seat by one ball",
    purpose: "A ball lies in a conical seat whose half angle is known, and the height of its top above the \
        face is measured (or its depth below, with a minus). The diameter at which the cone meets the face, \
        and the circle where the ball touches, follow.",
    formula: "
        R = D / 2
        z = t - R
        d_f = 2 * R / cos(a) - 2 * z * tan(a)
        k = D * cos(a)
        y = R * sin(a) - z",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "ball",
            "D",
            Dimension::Length,
            "0.02 in",
            "8 in",
            "diameter of the ball",
        ),
        Argument::quantity(
            "top",
            "t",
            Dimension::Length,
            "-6 in",
            "8 in",
            "how far the ball's top stands above the face; below it, with a minus",
        ),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "1 deg",
            "80 deg",
            "half angle of the cone, from the axis",
        ),
    ],
    table_values: &[],
    lines: &[
        Symbol::of("R", Dimension::Length, "radius of the ball", GEOMETRY),
        Symbol::of(
            "z",
            Dimension::Length,
            "height of the ball's center above the face",
            GEOMETRY,
        ),
    ],
    results: &[
        ResultSpec::quantity(
            "face_diameter",
            "d_f",
            Dimension::Length,
            (4, 3),
            "diameter of the cone at the face",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "contact",
            "k",
            Dimension::Length,
            (4, 3),
            "diameter of the circle where the ball touches",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "contact_depth",
            "y",
            Dimension::Length,
            (4, 3),
            "depth of that circle below the face",
            GEOMETRY,
        ),
    ],
    branches: &["cone"],
    validity: "A round cone of the angle given, the ball resting on its wall all round and neither on an edge nor \
        on the bottom, the height taken along the axis.",
    sources: &[Source {
        work: "Plane geometry",
        locator: "derived in the notes of this law",
        used_for: "every result",
    }],
    cautions: &[
        "The angle is taken on trust: one ball cannot find it. Two balls can (gauge.cone_two_balls).",
        "A chamfer or a burr at the face is not the cone: the diameter given is where the cone would meet it.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Diameter of the cone at the face, of the touching circle, and depth of that circle, for a ball of
/// diameter `ball` whose top stands `top` above the face in a cone of half angle `half`.
///
/// Source: plane geometry, derived at the head of this file.
pub fn seat(ball: Length, top: Length, half: Angle) -> (Length, Length, Length) {
    let (radius, angle) = (ball.to_m() / 2.0, half.to_radians());
    let center = top.to_m() - radius;
    (
        Length::m(2.0 * (radius - center * math::sin(angle)) / math::cos(angle)),
        Length::m(2.0 * radius * math::cos(angle)),
        Length::m(radius * math::sin(angle) - center),
    )
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (ball, top, half) = (
        inputs.need_length("ball")?,
        inputs.need_length("top")?,
        inputs.need_angle("half_angle")?,
    );
    let (face, contact, depth) = seat(ball, top, half);
    if depth.to_m() <= 0.0 {
        return Err(SheetError::impossible(
            CARD.id,
            "so high, the ball would touch above the face: it lies on the edge and not on the cone",
            "a smaller ball, or the height of its top checked",
        ));
    }
    Ok(Answer::new("cone")
        .with("face_diameter", face)
        .with("contact", contact)
        .with("contact_depth", depth))
}
