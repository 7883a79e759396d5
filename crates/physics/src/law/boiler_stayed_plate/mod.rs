//! `boiler.stayed_plate`: what pressure a flat plate holds between its stays.

use crate::answer::{Answer, TableValue};
use crate::boiler::{
    FORM_4, MEASURED, QUALIFIED, REVIEW, book, over, pressure_allowed, pressure_argument,
};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
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

const RULE: &str = "flat stayed plate, National Board proposal NB12-1201, S2.10.4";
const SQUARE: &str = "square";
const OBLONG: &str = "oblong";
const SIDES: [Symbol; 2] = [
    Symbol::of("l", Dimension::Length, "pitch one way", "the pitches given"),
    Symbol::of(
        "w",
        Dimension::Length,
        "pitch the other way",
        "the pitches given",
    ),
];

static CARD: Card = Card {
    id: "boiler.stayed_plate",
    version: 1,
    title: "Flat plate between stays",
    purpose: "What pressure a flat sheet of a firebox holds between its stays, how thick a pressure asks it to be, and how \
        far apart the stays may then stand.",
    formula: "
        P = 2 * t^2 * S * C / (l^2 + w^2)
        t_r = sqrt(p * (l^2 + w^2) / (2 * S * C))
        m = t * sqrt(S * C / p)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "thickness",
            "t",
            Dimension::Length,
            "1/16 in",
            "1.5 in",
            "least thickness measured between the stays",
        ),
        Argument::list(
            "pitches",
            Dimension::Length,
            "1 in",
            "20 in",
            (1, 2),
            "greatest center to center of the stays: one value for a square field, two for an oblong one",
        ),
        Argument::quantity(
            "allowable",
            "S",
            Dimension::Stress,
            "1000 psi",
            "40000 psi",
            "stress that the rule in force allows the plate",
        ),
        Argument::quantity(
            "stay_factor",
            "C",
            Dimension::Ratio,
            "1",
            "4",
            "the rule's factor for how the stays are fastened and how thick the plate is",
        ),
        pressure_argument("a pressure to hold the plate against").optional(),
    ],
    table_values: &[SIDES[0], SIDES[1]],
    lines: &[],
    results: &[
        pressure_allowed("pressure that the plate may hold", RULE),
        ResultSpec::quantity(
            "required_thickness",
            "t_r",
            Dimension::Length,
            (4, 3),
            "thickness that a pressure asks for",
            RULE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "widest_pitch",
            "m",
            Dimension::Length,
            (3, 2),
            "widest square pitch at that pressure",
            RULE,
        )
        .rounded(Rounding::Down),
    ],
    branches: &[SQUARE, OBLONG],
    validity: "Flat plate, stays in rows that cross square. Near flanges, fire holes and corners the pitch to take is the \
        one between lines of support. Older rules write the same with a constant for sixteenths of an inch; those \
        constants are known here from memory only and are left out.",
    sources: &[
        Source {
            work: "National Board of Boiler and Pressure Vessel Inspectors, proposal NB12-1201 (Part 2, Supplement 2, S2.10.4)",
            locator: "formulas and table of staybolt pitch (copy at studylib.net, document 6759682)",
            used_for: "both forms, and the entries of its table as evidence; a committee's proposal, not the adopted text",
        },
        Source {
            work: "From memory, and by fit to that table",
            locator: "no page",
            used_for: "that its table stands on 13,800 psi with a factor of 2.1 to 7/16 in and 2.2 above; they are \
                arguments here",
        },
    ],
    cautions: &[REVIEW, FORM_4, MEASURED, QUALIFIED],
    closed_form: ClosedForm::Yes,
};

/// Pressure, psi, that a plate `thickness` inches thick holds between stays at `sides` inches, at `allowable` psi and
/// the rule's `factor` for the stays.
///
/// Source: National Board proposal NB12-1201, S2.10.4.
pub fn pressure(thickness: f64, sides: [f64; 2], allowable: f64, factor: f64) -> f64 {
    2.0 * thickness * thickness * allowable * factor / squares(sides)
}

/// Thickness, inches, at which [`pressure`] is just `pressure` psi.
///
/// Source: the same rule turned round.
pub fn thickness(pressure: f64, sides: [f64; 2], allowable: f64, factor: f64) -> f64 {
    math::sqrt(pressure * squares(sides) / (2.0 * allowable * factor))
}

fn squares([one, other]: [f64; 2]) -> f64 {
    one * one + other * other
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let sides = match inputs.list_inch("pitches").as_slice() {
        [one] => [*one, *one],
        [one, other] => [*one, *other],
        _ => return Err(inputs.missing("pitches")),
    };
    let (wall, allowable) = (
        inputs.need_inch("thickness")?,
        inputs.need_inch("allowable")?,
    );
    let factor = inputs.need_inch("stay_factor")?;
    let square = (sides[0] - sides[1]).abs() < 1e-9;
    let held = pressure(wall, sides, allowable, factor);
    let mut answer = Answer::new(if square { SQUARE } else { OBLONG })
        .with("pressure_allowed", book(Dimension::GaugePressure, held));
    if let Some(wanted) = inputs.inch("pressure") {
        let needed = thickness(wanted, sides, allowable, factor);
        let widest = wall * math::sqrt(allowable * factor / wanted);
        answer = answer
            .with("required_thickness", book(Dimension::Length, needed))
            .with("widest_pitch", book(Dimension::Length, widest));
        if over(wanted, held) {
            answer.notices.push(
                "The pressure given is more than the plate may hold: stop and show it to the responsible officer."
                    .to_owned(),
            );
        }
    }
    let value = |symbol: Symbol, side: f64| TableValue::inch_book(symbol, side, symbol.source);
    answer.found = vec![value(SIDES[0], sides[0]), value(SIDES[1], sides[1])];
    Ok(answer)
}
