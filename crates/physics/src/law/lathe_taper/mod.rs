//! `lathe.taper`: a taper from its two diameters, and how to set the lathe to it.
//!
//! The compound is swung by the half angle. Between centers the work itself is swung: the tailstock is
//! set over by half the taper of the *whole* length between centers, whatever part of it is tapered.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, House, Length, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry";

static CARD: Card = Card {
    id: "lathe.taper",
    version: 1,
    title: "A taper, and setting the lathe to it",
    purpose: "From the diameters at two ends and the length between them: the half angle, the taper in a \
        foot, the swing of the compound, and the set-over of the tailstock where the work is turned between \
        centers.",
    formula: "
        a = atan((D - d) / (2 * L))
        A = 2 * a
        T = 12 * (D - d) / L
        n = L / (D - d)
        c = a
        x = 90 - a
        o = W * (D - d) / (2 * L)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "large",
            "D",
            Dimension::Length,
            "0.01 in",
            "100 in",
            "diameter at the large end",
        ),
        Argument::quantity(
            "small",
            "d",
            Dimension::Length,
            "0 in",
            "99 in",
            "diameter at the small end",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "0.01 in",
            "240 in",
            "length between the two, along the axis",
        ),
        Argument::quantity(
            "between_centers",
            "W",
            Dimension::Length,
            "0.1 in",
            "400 in",
            "length of the whole work between centers",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
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
            "included_angle",
            "A",
            Dimension::Angle,
            (4, 4),
            "included angle",
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
            "one_in",
            "n",
            Dimension::Ratio,
            (3, 3),
            "the n of 1 in n on the diameter",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "compound_setting",
            "c",
            Dimension::Angle,
            (3, 3),
            "swing of the compound from the line of the bed",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "compound_from_cross",
            "x",
            Dimension::Angle,
            (3, 3),
            "the same where it is graduated from the cross slide",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "tailstock_offset",
            "o",
            Dimension::Length,
            (4, 3),
            "set-over of the tailstock",
            GEOMETRY,
        ),
    ],
    branches: &[TAPER],
    validity: "The tool exactly on the height of the centers: high or low, it cuts less taper and a curved side. \
        The set-over is good for slender tapers, to about 8 degrees of half angle; the centers bear on an edge, \
        and ball-ended centers hold better.",
    sources: &[
        Source {
            work: "J. Rose, Modern Machine Shop Practice",
            locator: "page 614 (read in a copy at bitlit.ru)",
            used_for: "set-over of the tailstock",
        },
        Source {
            work: "Turning and Boring Tapers (Derry Collard, 1902)",
            locator: "captions",
            used_for: "the tool on center height",
        },
    ],
    cautions: &[
        "Half or whole angle, on diameter or on a side: say which on the drawing, and draw it.",
        "A degree scale on a compound sets to a quarter degree at best: prove the taper with blue in its gauge, \
            or over rollers or balls, before the last cuts.",
        "A taper cut to a number fits nothing: cut it to the part it goes in.",
    ],
    closed_form: ClosedForm::Yes,
};

const TAPER: &str = "taper";

/// The half angle of a taper from `large` to `small` over `length`.
///
/// Source: plane geometry.
pub fn half_angle(large: Length, small: Length, length: Length) -> Angle {
    Angle::radians(math::atan2(
        (large.to_m() - small.to_m()) / 2.0,
        length.to_m(),
    ))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let [large, small, length] = [
        inputs.need_length("large")?,
        inputs.need_length("small")?,
        inputs.need_length("length")?,
    ];
    let step = large.to_m() - small.to_m();
    if step < 2.5e-9 {
        return Err(SheetError::impossible(
            CARD.id,
            "the large end is no larger than the small end",
            "large greater than small, diameters both",
        ));
    }
    let half = half_angle(large, small, length);
    let share = step / length.to_m();
    let mut answer = Answer::new(TAPER)
        .with("half_angle", half)
        .with("included_angle", Angle::radians(2.0 * half.to_radians()))
        .with("taper_per_foot", Outcome::Si(12.0 * share))
        .with("one_in", Outcome::Si(1.0 / share))
        .with("compound_setting", half)
        .with(
            "compound_from_cross",
            Angle::radians(std::f64::consts::FRAC_PI_2 - half.to_radians()),
        );
    if let Some(work) = inputs.length("between_centers") {
        if work.to_m() < length.to_m() - 2.5e-9 {
            return Err(SheetError::impossible(
                CARD.id,
                "the work between centers is shorter than its taper",
                "between_centers at least as long as length",
            ));
        }
        answer = answer.with("tailstock_offset", Length::m(work.to_m() * share / 2.0));
        if half.to_degrees() > 8.0 {
            answer.notices.push("Too steep to be set over: the centers would not hold. Use the compound or a taper attachment.".into());
        }
    }
    Ok(answer)
}
