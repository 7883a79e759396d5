//! `gauge.cone_two_balls`: the half angle of a conical hole from two balls dropped in it one after the
//! other, and how far a wrong depth throws it.
//!
//! # The geometry
//!
//! A ball of radius *R* resting all round in a cone of half angle *a* has its centre on the axis at
//! the distance *R / sin a* from the cone's point, because the radius to the touching circle is
//! square to the wall. A second ball of radius *r* has its own at *r / sin a*. The centres are
//! therefore *c = (R - r) / sin a* apart along the axis, and
//!
//! ```text
//! sin a = (R - r) / c
//! ```
//!
//! Depths are taken to the *tops* of the balls. The small ball's top stands `top_difference` below
//! the large one's; each centre is its own radius below its top, so the small centre is
//! `c = top_difference + r - R` below the large one.
//!
//! The touching circle is `R cos a` from the axis: `2 R cos a` across.
//!
//! If the depths may be wrong by `depth_error` in all, the angle lies between those of
//! `c + depth_error` and `c - depth_error`. The curve is hollow upward, so the upper side is always
//! the wider one; it is the one given as *uncertainty*.

use crate::answer::Answer;
use crate::card::{
    Argument, Card, ClosedForm, Decimals, Measure, Range, ResultKind, ResultSpec, Source, Symbol,
};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, Length, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry, derived in the notes of this law";

static CARD: Card = Card {
    id: "gauge.cone_two_balls",
    version: 1,
    title: "Half angle of a conical hole by two balls",
    purpose: "Two balls of known size are let into a conical hole one after the other and the depth \
        to the top of each is taken from one face. The half angle of the cone follows, with the \
        diameters at which the balls touched and the doubt that the depths leave in the angle.",
    formula: "
        R = d_l / 2
        r = d_s / 2
        c = h + r - R
        a = asin((R - r) / c)
        k_l = d_l * cos(a)
        k_s = d_s * cos(a)
        a_low = asin((R - r) / (c + e))
        a_high = asin((R - r) / (c - e))
        u = a_high - a",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "large_ball",
            "d_l",
            Dimension::Length,
            BALL.least,
            BALL.most,
            "diameter of the large ball",
        ),
        Argument::quantity(
            "small_ball",
            "d_s",
            Dimension::Length,
            BALL.least,
            BALL.most,
            "diameter of the small ball",
        ),
        Argument::quantity(
            "top_difference",
            "h",
            Dimension::Length,
            "0.001 in",
            "24 in",
            "how far the small ball's top stands below the large ball's",
        ),
        Argument::quantity(
            "depth_error",
            "e",
            Dimension::Length,
            "0 in",
            "0.1 in",
            "the most by which the difference of depth may be wrong, either way",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[
        Symbol {
            symbol: "R",
            meaning: "radius of the large ball",
            measure: Measure::Of(Dimension::Length),
            source: GEOMETRY,
        },
        Symbol {
            symbol: "r",
            meaning: "radius of the small ball",
            measure: Measure::Of(Dimension::Length),
            source: GEOMETRY,
        },
        Symbol {
            symbol: "c",
            meaning: "distance between the two centres along the axis",
            measure: Measure::Of(Dimension::Length),
            source: GEOMETRY,
        },
    ],
    results: &[
        ResultSpec {
            name: "half_angle",
            symbol: "a",
            meaning: "half angle of the cone, from the axis",
            kind: ResultKind::Quantity(Dimension::Angle, DEGREES, Rounding::Nearest),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "contact_large",
            symbol: "k_l",
            meaning: "diameter of the circle where the large ball touches",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Nearest),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "contact_small",
            symbol: "k_s",
            meaning: "diameter of the circle where the small ball touches",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Nearest),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "angle_low",
            symbol: "a_low",
            meaning: "least half angle the depths allow",
            kind: ResultKind::Quantity(Dimension::Angle, DEGREES, Rounding::Down),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "angle_high",
            symbol: "a_high",
            meaning: "greatest half angle the depths allow",
            kind: ResultKind::Quantity(Dimension::Angle, DEGREES, Rounding::Up),
            source: GEOMETRY,
        },
        ResultSpec {
            name: "uncertainty",
            symbol: "u",
            meaning: "the angle may be wrong by this much, the wider side",
            kind: ResultKind::Quantity(Dimension::Angle, DEGREES, Rounding::Up),
            source: GEOMETRY,
        },
    ],
    branches: &[CONE],
    validity: "A round cone, true where the balls touch, each ball resting on the wall all round and \
        not on an edge or the bottom, one ball at a time, and depths taken along the axis.",
    sources: &[Source {
        work: "Plane geometry",
        locator: "derived in the notes of this law",
        used_for: "every result",
    }],
    cautions: &[
        "A burr, a step or a chamfer under a ball spoils the angle and nothing shows it. Clean the \
            cone, and try each ball in three places with a trace of blue: it must touch all round.",
        "Choose balls as far apart in size as the cone allows: the doubt grows as they come together.",
        "The doubt given covers the depths only, not the size of the balls nor the truth of the cone.",
    ],
    closed_form: ClosedForm::Yes,
};

const BALL: Range = Range {
    least: "0.02 in",
    most: "8 in",
};
const FINE: Decimals = Decimals { inch: 4, metric: 3 };
const DEGREES: Decimals = Decimals { inch: 3, metric: 3 };
const CONE: &str = "cone";

/// A cone measured by two balls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cone {
    /// Half angle, from the axis.
    pub half_angle: Angle,
    /// Diameter of the large ball's touching circle.
    pub contact_large: Length,
    /// Diameter of the small ball's touching circle.
    pub contact_small: Length,
}

/// The cone on which a ball of diameter `large` and one of diameter `small` rest with their tops
/// `top_difference` apart. None when no cone can hold the two so: the small ball must be smaller,
/// and the centres further apart than the radii differ.
///
/// Source: plane geometry, derived at the head of this file.
pub fn cone(large: Length, small: Length, top_difference: Length) -> Option<Cone> {
    let (large, small) = (large.to_m(), small.to_m());
    // Twice the distance between the centres, so that diameters serve as they are.
    let centres = 2.0 * top_difference.to_m() + small - large;
    let step = large - small;
    if step <= 0.0 || centres <= step {
        return None;
    }
    let half_angle = math::asin(step / centres);
    // cos(asin x) by the right triangle whose long side is the centres and short side the step.
    let cosine = math::sqrt((centres - step) * (centres + step)) / centres;
    Some(Cone {
        half_angle: Angle::radians(half_angle),
        contact_large: Length::m(large * cosine),
        contact_small: Length::m(small * cosine),
    })
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let large = inputs.need_length("large_ball")?;
    let small = inputs.need_length("small_ball")?;
    let depth = inputs.need_length("top_difference")?;
    if small.to_m() >= large.to_m() {
        return Err(SheetError::impossible(
            CARD.id,
            "the small ball is not smaller than the large one",
            "large_ball greater than small_ball, diameters both",
        ));
    }
    let found = cone(large, small, depth).ok_or_else(|| {
        SheetError::impossible(
            CARD.id,
            "with these tops the centres are no further apart than the radii differ, which no cone \
             allows",
            "top_difference greater than the difference of the two diameters",
        )
    })?;
    let mut answer = Answer::new(CONE)
        .with("half_angle", found.half_angle)
        .with("contact_large", found.contact_large)
        .with("contact_small", found.contact_small);
    if let Some(error) = inputs.length("depth_error") {
        let at = |sign: f64| cone(large, small, Length::m(depth.to_m() + sign * error.to_m()));
        let (Some(low), Some(high)) = (at(1.0), at(-1.0)) else {
            return Err(SheetError::impossible(
                CARD.id,
                "the depth error is as great as the measurement: any angle up to flat would fit",
                "a depth_error well under top_difference",
            ));
        };
        let wide = high.half_angle.to_radians() - found.half_angle.to_radians();
        answer = answer
            .with("angle_low", low.half_angle)
            .with("angle_high", high.half_angle)
            .with("uncertainty", Angle::radians(wide));
    }
    let centres = depth.to_m() + 0.5 * (small.to_m() - large.to_m());
    if centres < 0.5 * (large.to_m() + small.to_m()) {
        answer.notices.push(
            "These two balls would foul each other if both were in the hole: take the depths one at \
             a time."
                .into(),
        );
    }
    Ok(answer)
}
