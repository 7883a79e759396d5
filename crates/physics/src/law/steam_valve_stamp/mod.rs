//! `steam.valve_stamp`: what a stamped capacity says of a safety valve's throat, and of another pressure.

use crate::answer::{Answer, Outcome};
use crate::atmosphere::{self, ALTITUDE, ATMOSPHERE, BY_ALTITUDE};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{AbsolutePressure, Area, Dimension, Flow, GaugePressure, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const CODE: &str = "capacity conversion: 51.5 lb an hour for each square inch and psi absolute";

static CARD: Card = Card {
    id: "steam.valve_stamp",
    version: 1,
    title: "A safety valve's stamp, at another pressure",
    purpose: "From the capacity stamped on a safety valve: the area that does the work, coefficient and throat \
        together, and what the same valve passes where it stands now.",
    formula: "
        P = p_s * (1 + x) + p_a
        A = W / (51.5 * P)
        W_t = 51.5 * A * (p_t + p_a)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "stamped",
            "W",
            Dimension::Flow,
            "10 lb/h",
            "200000 lb/h",
            "capacity stamped, of saturated steam",
        ),
        Argument::quantity(
            "set_pressure",
            "p_s",
            Dimension::GaugePressure,
            "5 psig",
            "600 psig",
            "set pressure it is stamped for",
        ),
        Argument::quantity(
            "overpressure",
            "x",
            Dimension::Ratio,
            "0",
            "0.5",
            "share above the set pressure at which it was rated: its code says, 10 percent for unfired vessels, 3 for power boilers",
        ),
        Argument::quantity(
            "at_pressure",
            "p_t",
            Dimension::GaugePressure,
            "5 psig",
            "600 psig",
            "pressure, by the gauge, at which its capacity is wanted",
        )
        .optional(),
        ATMOSPHERE,
        ALTITUDE,
    ],
    table_values: &[BY_ALTITUDE],
    lines: &[Symbol::of(
        "P",
        Dimension::AbsolutePressure,
        "pressure from vacuum at which it was rated",
        CODE,
    )],
    results: &[
        ResultSpec::quantity(
            "coefficient_area",
            "A",
            Dimension::Area,
            (4, 2),
            "coefficient times throat area",
            CODE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "capacity_there",
            "W_t",
            Dimension::Flow,
            (0, 0),
            "what it passes at the other pressure",
            CODE,
        )
        .rounded(Rounding::Down),
    ],
    branches: &["stamp"],
    validity: "Saturated steam up to 1500 psi; the same valve with the same lift. A spring or trim changed for another \
        pressure makes it another valve. Whether the stamp already holds a derating of 0.90 its code says.",
    sources: &[
        Source {
            work: "ASME Boiler and Pressure Vessel Code, section VIII division 1, appendix 11",
            locator: "example 1, read in copies (scribd 348868646, 653607296)",
            used_for: "the rule and its check: 3,020 lb an hour at 200 psi",
        },
        Source {
            work: "from memory",
            locator: "no page was opened",
            used_for: "the 3 percent of power boilers, and the derating of 0.90",
        },
        atmosphere::SOURCE,
    ],
    cautions: &[
        "A valve is stamped by its maker or a certified shop; no figure here is a stamp.",
        "A safety valve is set, repaired and tested by a competent person who knows it; its spring is never screwed down, gagged or changed to suit a figure.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Coefficient times throat area of a valve that passes `flow` at this absolute `pressure`.
///
/// Source: ASME section VIII division 1, appendix 11: W = 51.5 K A P.
pub fn coefficient_area(flow: Flow, pressure: AbsolutePressure) -> Area {
    Area::sq_in(flow.to_lb_per_h() / (51.5 * pressure.to_psi()))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mut answer = Answer::new("stamp");
    let Some((air, row)) = atmosphere::told(inputs)? else {
        return Ok(atmosphere::waiting(
            answer,
            &["coefficient_area", "capacity_there"],
        ));
    };
    answer.table_values.extend(row);
    let rated = inputs.need_si("set_pressure")? * (1.0 + inputs.need_si("overpressure")?);
    let flow = Flow::kg_per_s(inputs.need_si("stamped")?);
    let area = coefficient_area(flow, GaugePressure::pascals(rated).absolute(air));
    answer = answer.with("coefficient_area", area);
    if let Some(other) = inputs.si("at_pressure") {
        let pressure = GaugePressure::pascals(other).absolute(air).to_psi();
        let there = Flow::lb_per_h(51.5 * area.to_sq_in() * pressure);
        answer = answer.with("capacity_there", Outcome::Si(there.to_kg_per_s()));
    }
    Ok(answer)
}
