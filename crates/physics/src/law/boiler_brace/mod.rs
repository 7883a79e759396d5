//! `boiler.brace`: what pressure a diagonal brace lets its piece of a head hold.

use crate::answer::Answer;
use crate::boiler::{FORM_4, QUALIFIED, REVIEW, book, over, pressure_allowed, pressure_argument};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const STATICS: &str = "plane statics: the brace pulls along its length, the head pushes square";
const BRACE: &str = "brace";

static CARD: Card = Card {
    id: "boiler.brace",
    version: 1,
    title: "Diagonal brace",
    purpose: "A brace from a head to the shell pulls at a slant. What pressure it lets its piece of the head hold, and \
        what section a pressure asks of it.",
    formula: "
        P = A * S * x / (L * F)
        A_r = p * F * L / (S * x)
        s = p * F * L / (A * x)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "area",
            "A",
            Dimension::Area,
            "0.05 sq in",
            "30 sq in",
            "least net section of the brace, pins and welds looked at too",
        ),
        Argument::quantity(
            "allowable",
            "S",
            Dimension::Stress,
            "500 psi",
            "40000 psi",
            "stress that the rule in force allows a brace",
        ),
        Argument::quantity(
            "distance",
            "x",
            Dimension::Length,
            "2 in",
            "200 in",
            "from the head square to the far end of the brace",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "2 in",
            "220 in",
            "length of the brace along itself",
        ),
        Argument::quantity(
            "surface",
            "F",
            Dimension::Area,
            "1 sq in",
            "2000 sq in",
            "area of head that the brace holds",
        ),
        pressure_argument("a pressure to hold the brace against").optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        pressure_allowed("pressure that the brace lets its surface hold", STATICS),
        ResultSpec::quantity(
            "required_area",
            "A_r",
            Dimension::Area,
            (4, 1),
            "section that a pressure asks for",
            STATICS,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "stress",
            "s",
            Dimension::Stress,
            (0, 2),
            "stress in the brace at that pressure",
            STATICS,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[BRACE],
    validity: "A straight brace whose ends hold as much as its body. Rivets, pins, jaws and feet are each worked for \
        themselves. The shell where it is fastened feels the pull too.",
    sources: &[Source {
        work: "Laying Out for Boiler Makers (1907)",
        locator: "page 48 (copy at afripics.com)",
        used_for: "the rule and its example: 1 sq in, 9,000 psi, 49 of 50 in, 49 sq in, 180 psi",
    }],
    cautions: &[
        REVIEW,
        FORM_4,
        "A brace that is slack, bent or cracked at its foot carries nothing, and its neighbors carry it. Sound every one.",
        QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// Pressure, psi, on `surface` square inches, held by a brace of `area` square inches at `allowable` psi, `length`
/// inches long and reaching `distance` inches from the head.
///
/// Source: *Laying Out for Boiler Makers*, page 48; plane statics.
pub fn pressure(area: f64, allowable: f64, distance: f64, length: f64, surface: f64) -> f64 {
    area * allowable * distance / (length * surface)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (area, allowable) = (inputs.need_inch("area")?, inputs.need_inch("allowable")?);
    let (distance, length) = (inputs.need_inch("distance")?, inputs.need_inch("length")?);
    let surface = inputs.need_inch("surface")?;
    if over(distance, length) {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a brace {length:.3} in long cannot reach {distance:.3} in from the head"),
            "length at least as much as distance",
        ));
    }
    let held = pressure(area, allowable, distance, length, surface);
    let mut answer =
        Answer::new(BRACE).with("pressure_allowed", book(Dimension::GaugePressure, held));
    if let Some(wanted) = inputs.inch("pressure") {
        let pull = wanted * surface * length / distance;
        answer = answer
            .with("required_area", book(Dimension::Area, pull / allowable))
            .with("stress", book(Dimension::Stress, pull / area));
    }
    if over(length, 1.15 * distance) {
        answer.notices.push(
            "This brace leans more than about 30 degrees: many rules want its slant counted as it is here, and some \
             limit it. Look in the one in force."
                .to_owned(),
        );
    }
    Ok(answer)
}
