//! `gauge.sine_bar`: blocks for a sine bar, and the angle that found blocks show.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
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

const GEOMETRY: &str = "the bar is the long side of a right triangle";

static CARD: Card = Card {
    id: "gauge.sine_bar",
    version: 1,
    title: "Blocks for a sine bar",
    purpose: "How high the blocks under one roller of a sine bar must be for an angle; how much a minute of \
        angle is worth in height; and, where blocks were found under which the work reads level, what angle \
        it has.",
    formula: "
        h = L * sin(a)
        m = L * (sin(a + 1 / 60) - sin(a))
        b = asin(g / L)
        e = b - a",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "1 in",
            "20 in",
            "distance between the rollers' centers",
        ),
        Argument::quantity(
            "angle",
            "a",
            Dimension::Angle,
            "0 deg",
            "60 deg",
            "angle wanted between bar and plate; for a cone laid on the bar this is its included angle",
        ),
        Argument::quantity(
            "found",
            "g",
            Dimension::Length,
            "0 in",
            "19.9 in",
            "height of the blocks under which the work reads level",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "height",
            "h",
            Dimension::Length,
            (4, 3),
            "height of the blocks",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "per_minute",
            "m",
            Dimension::Length,
            (5, 4),
            "height for one minute of angle more",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "angle_found",
            "b",
            Dimension::Angle,
            (4, 4),
            "angle that the blocks found show",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "error",
            "e",
            Dimension::Angle,
            (4, 4),
            "by how much that is more than the angle wanted",
            GEOMETRY,
        ),
    ],
    branches: &["sine bar"],
    validity: "A bar true to its length and rollers of one size, on a flat plate. Above about 45 degrees a small \
        error of the blocks grows fast: set the work from its other side instead.",
    sources: &[Source {
        work: "Mechanical Engineer's Data Handbook",
        locator: "page 270",
        used_for: "sine of the angle is height over length",
    }],
    cautions: &[
        "Half or whole angle: a cone with its side on the bar is set to its included angle, a single slope to its own.",
        "Wring the blocks clean and let them come to the heat of the shop; a hand warms them by a ten-thousandth.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Height of the blocks under a sine bar of `length` at `angle`.
///
/// Source: Mechanical Engineer's Data Handbook, page 270.
pub fn height(length: Length, angle: Angle) -> Length {
    Length::m(length.to_m() * math::sin(angle.to_radians()))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (length, angle) = (inputs.need_length("length")?, inputs.need_angle("angle")?);
    let high = height(length, angle);
    let next = height(length, Angle::degrees(angle.to_degrees() + 1.0 / 60.0));
    let mut answer = Answer::new("sine bar")
        .with("height", high)
        .with("per_minute", Length::m(next.to_m() - high.to_m()));
    if let Some(found) = inputs.length("found") {
        if found.to_m() > length.to_m() {
            return Err(SheetError::impossible(
                CARD.id,
                "the blocks found are higher than the bar is long",
                "found smaller than length",
            ));
        }
        let shown = math::asin(found.to_m() / length.to_m());
        answer = answer
            .with("angle_found", Angle::radians(shown))
            .with("error", Angle::radians(shown - angle.to_radians()));
    }
    Ok(answer)
}
