//! `boiler.crown_bar`: a girder over the crown sheet, by the Indian rule.

use crate::answer::Answer;
use crate::boiler::{
    FORM_4, MEASURED, QUALIFIED, REVIEW, book, pressure_allowed, pressure_argument,
};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const RULE: &str = "Indian Boiler Regulations 1950, reg. 229";
const BEAM: &str = "beam on two supports, evenly loaded, rectangular section";
const GIRDER: &str = "girder";

static CARD: Card = Card {
    id: "boiler.crown_bar",
    version: 1,
    title: "Crown bar by the Indian rule",
    purpose: "What pressure a crown bar (girder) that stands on the end or side plates of a firebox may hold by the Indian \
        rule, and what bending stress a pressure lays on it by plain statics.",
    formula: "
        P = C * S * (32 * T) * D^2 / (L^2 * Y)
        D_r = sqrt(p * L^2 * Y / (C * S * 32 * T))
        f = 3 * p * Y * L^2 / (4 * T * D^2)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "constant",
            "C",
            Dimension::Ratio,
            "5",
            "40",
            "constant of the rule for how the bar was made",
        ),
        Argument::quantity(
            "tensile_tons",
            "S",
            Dimension::Ratio,
            "10",
            "50",
            "tensile strength of the bar in long tons on the square inch, as the rule counts it",
        ),
        Argument::quantity(
            "thickness",
            "T",
            Dimension::Length,
            "1/4 in",
            "6 in",
            "thickness of the bar, both plates of a double one together",
        ),
        Argument::quantity(
            "depth",
            "D",
            Dimension::Length,
            "1 in",
            "20 in",
            "depth of the bar at the middle, less holes",
        ),
        Argument::quantity(
            "span",
            "L",
            Dimension::Length,
            "6 in",
            "120 in",
            "inside the plates that it stands on",
        ),
        Argument::quantity(
            "pitch",
            "Y",
            Dimension::Length,
            "1 in",
            "20 in",
            "center to center of the bars",
        ),
        pressure_argument("a pressure to hold the bar against").optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        pressure_allowed("working pressure by the rule", RULE),
        ResultSpec::quantity(
            "required_depth",
            "D_r",
            Dimension::Length,
            (3, 1),
            "depth that a pressure asks for",
            RULE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "bending_stress",
            "f",
            Dimension::Stress,
            (0, 2),
            "bending stress at that pressure, if no sling helps",
            BEAM,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[GIRDER],
    validity: "A bar of one depth that stands on the end or side plates and is helped by no sling. The rule counts the \
        thickness in 32nds of an inch. The US rule for crown bars, with a constant for the number of bolts, is known here \
        from memory only and is left out: take it from the code of construction.",
    sources: &[
        Source {
            work: "Indian Boiler Regulations 1950",
            locator: "regulation 229 (dipp.gov.in): constant 22 for plates or forgings, 19 for steel castings; bars \
                otherwise supported to 14,000 psi of nominal bending stress",
            used_for: "the rule",
        },
        Source {
            work: "Plane statics",
            locator: BEAM,
            used_for: "the bending stress",
        },
    ],
    cautions: &[
        REVIEW,
        FORM_4,
        "The plates that a bar stands on carry its load as columns, and its bolts carry the sheet: each is worked for \
            itself.",
        MEASURED,
        QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// One crown bar; sizes in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// Thickness, both plates together.
    pub thickness: f64,
    /// Depth.
    pub depth: f64,
    /// Inside the plates that it stands on.
    pub span: f64,
    /// Center to center of the bars.
    pub pitch: f64,
}

impl Bar {
    /// Working pressure, psi, with the rule's `constant` and a tensile strength in long tons on the square inch.
    ///
    /// Source: Indian Boiler Regulations 1950, regulation 229.
    pub fn pressure(&self, constant: f64, tons: f64) -> f64 {
        constant * tons * 32.0 * self.thickness * self.depth * self.depth
            / (self.span * self.span * self.pitch)
    }

    /// Bending stress, psi, under `pressure` psi on the sheet.
    ///
    /// Source: plane statics, a beam on two supports under an even load.
    pub fn bending(&self, pressure: f64) -> f64 {
        let moment = pressure * self.pitch * self.span * self.span / 8.0;
        moment / (self.thickness * self.depth * self.depth / 6.0)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (constant, tons) = (
        inputs.need_inch("constant")?,
        inputs.need_inch("tensile_tons")?,
    );
    let bar = Bar {
        thickness: inputs.need_inch("thickness")?,
        depth: inputs.need_inch("depth")?,
        span: inputs.need_inch("span")?,
        pitch: inputs.need_inch("pitch")?,
    };
    if bar.depth >= bar.span {
        return Err(SheetError::impossible(
            CARD.id,
            "a bar as deep as its span is no beam",
            "depth well under span",
        ));
    }
    let held = bar.pressure(constant, tons);
    let mut answer =
        Answer::new(GIRDER).with("pressure_allowed", book(Dimension::GaugePressure, held));
    if let Some(wanted) = inputs.inch("pressure") {
        answer = answer
            .with(
                "required_depth",
                book(Dimension::Length, bar.depth * math::sqrt(wanted / held)),
            )
            .with(
                "bending_stress",
                book(Dimension::Stress, bar.bending(wanted)),
            );
    }
    Ok(answer)
}
