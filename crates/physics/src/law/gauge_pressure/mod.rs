//! `gauge.pressure`: what the boiler holds, from what a gauge shows: its own error off, the water in
//! its pipe off, and how far a second gauge differs.
//!
//! A gauge below the point it speaks for carries the water standing in its pipe and reads high by it;
//! one above reads low. The water in a siphon is cold, so cold water's weight is taken.

use crate::answer::{Answer, Outcome, less};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, Stress};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const WATER: &str = "weight of cold water: .433 psi for each foot";
const SUM: &str = "errors taken off";

static CARD: Card = Card {
    id: "gauge.pressure",
    version: 1,
    title: "What a pressure gauge means",
    purpose: "The pressure at the point that matters from the reading of a gauge: its error on the tester taken \
        off, and the head of water between the point and the gauge. With a second gauge, how far the two \
        disagree. All pressures are by the gauge, above the atmosphere.",
    formula: "
        p_h = 0.433 * h / 12
        p = p_g - e - p_h
        y = abs(p - p_2)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "reading",
            "p_g",
            Dimension::GaugePressure,
            "0 psig",
            "600 psig",
            "what the gauge shows",
        ),
        Argument::quantity(
            "gauge_error",
            "e",
            Dimension::Stress,
            "-50 psi",
            "50 psi",
            "what the gauge shows too much on the tester at this pressure; too little, with a minus",
        ),
        Argument::quantity(
            "head",
            "h",
            Dimension::Length,
            "-30 ft",
            "30 ft",
            "how far the gauge hangs below the point that matters; above it, with a minus",
        ),
        Argument::quantity(
            "second_reading",
            "p_2",
            Dimension::GaugePressure,
            "0 psig",
            "600 psig",
            "what a second gauge says of the same point, its own error and head taken off",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "head_pressure",
            "p_h",
            Dimension::Stress,
            (2, 4),
            "what the head of water makes the gauge show too much",
            WATER,
        ),
        ResultSpec::quantity(
            "true_pressure",
            "p",
            Dimension::GaugePressure,
            (1, 0),
            "pressure at the point",
            SUM,
        ),
        ResultSpec::quantity(
            "difference",
            "y",
            Dimension::Stress,
            (1, 3),
            "how far the two gauges disagree",
            SUM,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["gauge"],
    validity: "A pipe full of cold water between the point and the gauge, as a siphon keeps it; a gauge tested \
        near the pressure it shows. A pipe half full of steam has no head that anybody knows.",
    sources: &[Source {
        work: "Common knowledge of the trade",
        locator: "62.4 lb in a cubic foot of cold water, over 144",
        used_for: ".433 psi for a foot of water",
    }],
    cautions: &[
        "A gauge that sticks, or has not been tested since it was dropped, is taken off and tested, not corrected.",
        "Never set a safety valve by one gauge: two, each tested, and the law's own limit between them.",
        "Gauge is not absolute: steam tables want the atmosphere added.",
        "Shut and drain before a gauge is unscrewed; a siphon holds scalding water.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The pressure that a head of cold water makes.
///
/// Source: .433 psi for each foot; common knowledge of the trade.
pub fn head(height: measure::Length) -> Stress {
    Stress::psi(0.433 * height.to_inches() / 12.0)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let water = head(inputs.need_length("head")?);
    let reading = inputs.need_si("reading")?;
    let gauge = |from, take| less(from, take, Dimension::GaugePressure);
    let point = gauge(
        gauge(reading, inputs.need_si("gauge_error")?),
        water.to_pascals(),
    );
    let mut answer = Answer::new("gauge")
        .with("head_pressure", water)
        .with("true_pressure", Outcome::Si(point));
    if let Some(second) = inputs.si("second_reading") {
        answer = answer.with("difference", Stress::pascals(gauge(point, second).abs()));
    }
    if point < 0.0 {
        answer.notices.push("This comes to less than the atmosphere: a vacuum as the boiler cools, or an error or head with the wrong sign.".into());
    }
    Ok(answer)
}
