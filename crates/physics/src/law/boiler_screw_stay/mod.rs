//! `boiler.screw_stay`: the Indian rule for a stay screwed through both plates, and for a stay tube.

use crate::answer::Answer;
use crate::boiler::{FORM_4, QUALIFIED, REVIEW, book, pressure_allowed, pressure_argument};
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

const RULE: &str = "Indian Boiler Regulations 1950, regs. 202, 581 and 585";
const SOLID: &str = "solid stay";
const TUBE: &str = "stay tube";

static CARD: Card = Card {
    id: "boiler.screw_stay",
    version: 1,
    title: "Screwed stay by the Indian rule",
    purpose: "What pressure a screwed stay or a stay tube may hold by the Indian rule, for engines built or examined by \
        it. It reckons on the root of a Whitworth thread and on a constant that holds the metal's allowance.",
    formula: "
        k = D - 1.28 / N
        P = C * (k^2 - B^2) / A
        D_r = sqrt(p * A / C + B^2) + 1.28 / N",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "constant",
            "C",
            Dimension::Ratio,
            "1000",
            "15000",
            "constant of the rule for this kind and metal of stay",
        ),
        Argument::quantity(
            "diameter",
            "D",
            Dimension::Length,
            "3/8 in",
            "5 in",
            "diameter over the threads",
        ),
        Argument::quantity(
            "tpi",
            "N",
            Dimension::PerInch,
            "4",
            "20",
            "threads in the inch",
        ),
        Argument::quantity(
            "bore",
            "B",
            Dimension::Length,
            "0 in",
            "5 in",
            "bore of a stay tube; 0 in for a solid stay",
        ),
        Argument::quantity(
            "area",
            "A",
            Dimension::Area,
            "1 sq in",
            "600 sq in",
            "area of plate that the stay holds",
        ),
        pressure_argument("a pressure to hold it against").optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "root",
            "k",
            Dimension::Length,
            (4, 3),
            "diameter at the root of the thread",
            "Whitworth depth of .64 pitch",
        )
        .rounded(Rounding::Down),
        pressure_allowed("working pressure by the rule", RULE),
        ResultSpec::quantity(
            "required_diameter",
            "D_r",
            Dimension::Length,
            (4, 3),
            "diameter over the threads that a pressure asks for",
            RULE,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[SOLID, TUBE],
    validity: "Stays threaded in the Whitworth form for their whole length. A body reduced below the root, or wasted, is \
        weaker than this: work it as boiler.stay. The rule knows no telltale hole.",
    sources: &[
        Source {
            work: "Indian Boiler Regulations 1950",
            locator: "regulations 202 and 585 (dipp.gov.in): constants 7,100 for steel or special wrought iron firebox stays, \
                8,640 for longitudinal stays with nuts, 4,700 for copper",
            used_for: "the rule; one copy of 202 prints the power as 1/2, its twin 585 prints 2, which is right by dimensions",
        },
        Source {
            work: "Indian Boiler Regulations 1950",
            locator: "regulation 581: constant 5,900",
            used_for: "the stay tube, with its bore taken off",
        },
    ],
    cautions: &[
        REVIEW,
        FORM_4,
        "The constants are those of one country's rule and of its metals. Do not carry them to an engine under another.",
        QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// Whitworth root, inches, as the rule has it: 1.28 pitches off the diameter.
///
/// Source: Indian Boiler Regulations 1950, regulation 202.
pub fn root(diameter: f64, tpi: f64) -> f64 {
    diameter - 1.28 / tpi
}

/// Working pressure, psi, of a stay with `root` and `bore` in inches that holds `area` square inches.
///
/// Source: Indian Boiler Regulations 1950, regulations 202, 581 and 585.
pub fn pressure(constant: f64, root: f64, bore: f64, area: f64) -> f64 {
    constant * (root * root - bore * bore) / area
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (constant, area) = (inputs.need_inch("constant")?, inputs.need_inch("area")?);
    let (diameter, bore) = (inputs.need_inch("diameter")?, inputs.need_inch("bore")?);
    let tpi = inputs.need_per_inch("tpi")?;
    let root = root(diameter, tpi);
    if root <= bore {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a root of {root:.4} in over a bore of {bore:.4} in leaves no metal"),
            "diameter, less 1.28 over tpi, above the bore",
        ));
    }
    let mut answer = Answer::new(if bore > 0.0 { TUBE } else { SOLID })
        .with("root", book(Dimension::Length, root))
        .with(
            "pressure_allowed",
            book(
                Dimension::GaugePressure,
                pressure(constant, root, bore, area),
            ),
        );
    if let Some(held) = inputs.inch("pressure") {
        let needed = math::sqrt(held * area / constant + bore * bore) + 1.28 / tpi;
        answer = answer.with("required_diameter", book(Dimension::Length, needed));
    }
    Ok(answer)
}
