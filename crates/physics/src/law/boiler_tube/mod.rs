//! `boiler.tube`: the wall of an arch tube, a water tube or a steam pipe with the pressure inside.

use crate::answer::Answer;
use crate::boiler::{
    FORM_4, MEASURED, QUALIFIED, REVIEW, book, over, pressure_allowed, pressure_argument,
};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
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

const THIN: &str = "thin cylinder on the outside diameter";
const INSIDE: &str = "pressure inside";

static CARD: Card = Card {
    id: "boiler.tube",
    version: 1,
    title: "Wall of an arch tube or water tube",
    purpose: "What pressure the wall of an arch tube, water bar tube, circulator or steam pipe holds from inside, and how \
        thick a pressure asks it to be. What will be gone before it is measured again is taken off first.",
    formula: "
        u = t - w
        P = 2 * S * u / D
        t_r = p * D / (2 * S) + w",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "pressure_from",
            &["inside", "outside"],
            "which side of the wall the pressure is on",
        ),
        Argument::quantity(
            "outside_diameter",
            "D",
            Dimension::Length,
            "1/4 in",
            "24 in",
            "outside diameter of the tube",
        ),
        Argument::quantity(
            "wall",
            "t",
            Dimension::Length,
            "0.02 in",
            "1.5 in",
            "least wall measured",
        ),
        Argument::quantity(
            "wear",
            "w",
            Dimension::Length,
            "0 in",
            "1 in",
            "wall that will be gone before it is measured again; 0 in only if none will",
        ),
        Argument::quantity(
            "allowable",
            "S",
            Dimension::Stress,
            "500 psi",
            "40000 psi",
            "stress that the rule in force allows this metal at its heat",
        ),
        pressure_argument("a pressure to hold the wall against").optional(),
    ],
    table_values: &[],
    lines: &[Symbol::of(
        "u",
        Dimension::Length,
        "wall that may be counted on",
        "measured, less wear",
    )],
    results: &[
        pressure_allowed("pressure that the wall may hold", THIN),
        ResultSpec::quantity(
            "required_wall",
            "t_r",
            Dimension::Length,
            (4, 3),
            "wall that a pressure asks for now, so that enough is left",
            THIN,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[INSIDE],
    validity: "A straight round tube, pressure inside, wall no more than a tenth of its outside diameter. A bend is \
        thinner on its outside than the tube it was bent from: measure there. Pressure from outside (a flue, or a dry pipe \
        while the throttle is shut) is refused: it flattens a tube at far less than bursts it, and no rule for it that \
        holds on a US locomotive is on file here with a source.",
    sources: &[
        Source {
            work: "Plane statics",
            locator: "pressure on the diameter over two walls; the outside diameter is taken, which is on the safe side",
            used_for: "the formula",
        },
        Source {
            work: "US 49 CFR 230",
            locator: "sections 230.61 and 230.62",
            used_for: "that arch tubes, water bars, circulators and dry pipes are measured, and replaced or repaired when \
                below what the specification card needs",
        },
    ],
    cautions: &[
        REVIEW,
        FORM_4,
        "A blister or a bulge is not a thin place to be worked on paper: arch and water bar tubes that have one are renewed.",
        "An arch tube full of scale burns in minutes whatever its wall. See through it, and put the scraper through it.",
        MEASURED,
        QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// Pressure, psi, that a wall of `wall` inches holds inside an outside diameter of `outside` inches at `allowable` psi.
///
/// Source: plane statics of a thin cylinder, on the outside diameter.
pub fn pressure(allowable: f64, wall: f64, outside: f64) -> f64 {
    2.0 * allowable * wall / outside
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (outside, wall) = (
        inputs.need_inch("outside_diameter")?,
        inputs.need_inch("wall")?,
    );
    let (wear, allowable) = (inputs.need_inch("wear")?, inputs.need_inch("allowable")?);
    if inputs.word("pressure_from") == Some("outside") {
        return Err(SheetError::impossible(
            CARD.id,
            "pressure from outside can flatten a tube long before this formula would say so",
            "pressure inside; for a flue, a furnace, or a dry pipe with the throttle shut, a rule for collapse from \
             the code of construction, which takes length, roundness and metal as well",
        ));
    }
    if wear >= wall {
        return Err(SheetError::impossible(
            CARD.id,
            format!("wear of {wear:.4} in leaves nothing of a wall of {wall:.4} in"),
            "wear less than wall",
        ));
    }
    if wall > outside / 10.0 {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a wall of {wall:.4} in is more than a tenth of the diameter"),
            "a thin tube; a thick one wants the rule of its code of construction",
        ));
    }
    let held = pressure(allowable, wall - wear, outside);
    let mut answer =
        Answer::new(INSIDE).with("pressure_allowed", book(Dimension::GaugePressure, held));
    if let Some(wanted) = inputs.inch("pressure") {
        let needed = wanted * outside / (2.0 * allowable) + wear;
        answer = answer.with("required_wall", book(Dimension::Length, needed));
        if over(needed, wall) {
            answer.notices.push(
                "The wall is less than the pressure asks for: stop and show it to the responsible officer.".to_owned(),
            );
        }
    }
    Ok(answer)
}
