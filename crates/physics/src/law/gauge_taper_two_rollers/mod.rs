//! `gauge.taper_two_rollers`: an outside taper measured over a pair of rollers, low and high.
//!
//! The taper stands on a plate on its small end. A roller of diameter *w* beside it touches the plate
//! and the side: its center is *w/2* up and stands off the side by *w/2* square to it. At the height of
//! the center the side is *w/2 / cos a* away; from there down to the plate the side comes in by
//! *w/2 tan a*. So the taper measures *M - w (1 + tan a + 1 / cos a)* across at the plate.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, House, Length, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry, derived in the notes of this law";

static CARD: Card = Card {
    id: "gauge.taper_two_rollers",
    version: 1,
    title: "An outside taper over two rollers",
    purpose: "A plug or taper shank stands on a plate, small end down. Its width over a pair of equal rollers \
        is measured on the plate and again with both rollers raised on blocks of one height. The half angle, \
        the taper in a foot and the diameter at the plate follow.",
    formula: "
        a = atan((M_h - M_l) / (2 * H))
        T = 24 * tan(a)
        d_s = M_l - w * (1 + tan(a) + 1 / cos(a))
        a_h = atan((M_h - M_l + e) / (2 * H))
        u = a_h - a",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "roller",
            "w",
            Dimension::Length,
            "0.03 in",
            "2 in",
            "diameter of the rollers",
        ),
        Argument::quantity(
            "over_low",
            "M_l",
            Dimension::Length,
            "0.1 in",
            "40 in",
            "width over the rollers on the plate",
        ),
        Argument::quantity(
            "over_high",
            "M_h",
            Dimension::Length,
            "0.1 in",
            "60 in",
            "width over the rollers on the blocks",
        ),
        Argument::quantity(
            "height",
            "H",
            Dimension::Length,
            "0.05 in",
            "24 in",
            "height of the blocks",
        ),
        Argument::quantity(
            "width_error",
            "e",
            Dimension::Length,
            "0 in",
            "0.05 in",
            "the most by which the difference of the widths may be wrong",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[crate::card::Symbol::of(
        "a_h",
        Dimension::Angle,
        "greatest half angle the widths allow",
        GEOMETRY,
    )],
    results: &[
        ResultSpec::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            (4, 4),
            "half angle, from the axis",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "taper_per_foot",
            "T",
            Dimension::Ratio,
            (4, 4),
            "taper on the diameter, inches in a foot",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "small_diameter",
            "d_s",
            Dimension::Length,
            (4, 3),
            "diameter at the plate",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "uncertainty",
            "u",
            Dimension::Angle,
            (4, 4),
            "the angle may be wrong by this much",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["taper"],
    validity: "A straight round taper with a square end, standing true on the plate; rollers of one size; half \
        angles to 45 degrees.",
    sources: &[Source {
        work: "Plane geometry",
        locator: "derived in the notes of this law",
        used_for: "every result",
    }],
    cautions: &[
        "A burr on the small end tips the taper: stone it, and measure on two axes a quarter turn apart.",
        "Light, even pressure: rollers roll out under a heavy hand, and the width reads small.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Half angle and diameter at the plate, from the widths over rollers of diameter `roller` on the plate
/// and raised by `height`.
///
/// Source: plane geometry, derived at the head of this file.
pub fn taper(roller: Length, low: Length, high: Length, height: Length) -> (Angle, Length) {
    let slope = (high.to_m() - low.to_m()) / (2.0 * height.to_m());
    let angle = math::atan(slope);
    let off = roller.to_m() * (1.0 + slope + math::sqrt(1.0 + slope * slope));
    (Angle::radians(angle), Length::m(low.to_m() - off))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let need = |name| inputs.need_length(name);
    let (roller, low, high, height) = (
        need("roller")?,
        need("over_low")?,
        need("over_high")?,
        need("height")?,
    );
    let (angle, small) = taper(roller, low, high, height);
    if high.to_m() <= low.to_m() || angle.to_degrees() > 45.0 {
        return Err(SheetError::impossible(
            CARD.id,
            "these widths make no taper of up to 45 degrees that stands on its small end",
            "over_high greater than over_low, and by no more than twice the height",
        ));
    }
    if small.to_m() < 0.0 {
        return Err(SheetError::impossible(
            CARD.id,
            "the rollers are so large that they would meet under the taper",
            "smaller rollers, or widths over rollers and not between them",
        ));
    }
    let mut answer = Answer::new("taper")
        .with("half_angle", angle)
        .with(
            "taper_per_foot",
            Outcome::Si(24.0 * math::tan(angle.to_radians())),
        )
        .with("small_diameter", small);
    if let Some(error) = inputs.length("width_error") {
        let wide = Length::m(high.to_m() + error.to_m());
        let most = taper(roller, low, wide, height).0;
        answer = answer.with(
            "uncertainty",
            Angle::radians(most.to_radians() - angle.to_radians()),
        );
    }
    Ok(answer)
}
