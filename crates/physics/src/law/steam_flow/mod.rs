//! `steam.flow`: what blows out of an opening into the air, by Napier's rule.
//!
//! Once the pressure outside is under about 58 parts in a hundred of that inside, steam leaves at the speed of
//! sound and no longer asks what is outside: the flow is then in proportion to the absolute pressure.

use crate::answer::{Answer, Outcome};
use crate::atmosphere::{self, ADDED, ALTITUDE, ATMOSPHERE, BY_ALTITUDE};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::steam_saturation::PRESSURE;
use measure::{AbsolutePressure, Area, Dimension, Flow, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const NAPIER: &str = "Napier's rule";
/// The share of the absolute pressure inside under which the air outside no longer matters.
const CRITICAL: f64 = 0.58;

static CARD: Card = Card {
    id: "steam.flow",
    version: 1,
    title: "Steam out of an opening",
    purpose: "How much dry saturated steam an opening passes to the air: a leak, a blow-down cock left open, a \
        valve off its seat, the throat of a safety valve before its maker's coefficient is taken off.",
    formula: "
        p = p_g + p_a
        w = p * a / 70
        W = 3600 * w",
    book_units: Some(House::Inch),
    arguments: &[
        PRESSURE,
        Argument::quantity(
            "area",
            "a",
            Dimension::Area,
            "0.0001 sq in",
            "100 sq in",
            "least area the steam passes: of a lifted disc, its edge times its lift where that is less than the bore",
        ),
        ATMOSPHERE,
        ALTITUDE,
    ],
    table_values: &[BY_ALTITUDE],
    lines: &[crate::card::Symbol::named(
        "w",
        "lb/s",
        "flow in each second",
        NAPIER,
    )],
    results: &[
        ResultSpec::quantity(
            "absolute",
            "p",
            Dimension::AbsolutePressure,
            (2, 1),
            "pressure from vacuum",
            ADDED,
        ),
        ResultSpec::quantity(
            "flow",
            "W",
            Dimension::Flow,
            (0, 0),
            "flow in an hour through a short rounded opening",
            NAPIER,
        ),
    ],
    branches: &["to the air"],
    validity: "Dry saturated steam through a short opening into the air, where the air is at most 58 percent \
        of the absolute pressure inside. Against Clark's table of experiments the rule is 1.6 percent low at \
        75 psi absolute and 1.5 percent high at 215; against the theory of today 0.3 to 2.2 percent high from 100 to \
        250 psi by the gauge. A sharp edge passes less, to about two thirds.",
    sources: &[
        Source {
            work: "Babcock & Wilcox, Steam, Its Generation and Use (Project Gutenberg 22657)",
            locator: "flow of steam, equation 49 and the table after Clark",
            used_for: "the rule, the critical share, and how far it is from experiment",
        },
        Source {
            work: "CoolProp 8.0.0, IAPWS-95",
            locator: "isentropic flow of dry saturated steam in equilibrium, greatest over the pressure at the throat",
            used_for: "how far it is from theory",
        },
        atmosphere::SOURCE,
    ],
    cautions: &[
        "Live steam burns and cuts: a leak is looked for with a stick or a mirror, never with a hand.",
        "What a safety valve is stamped for is what counts, not what this says of its bore.",
        "Nothing is opened, plugged or tightened under pressure but by people qualified to do it.",
    ],
    closed_form: ClosedForm::Yes,
};

/// What an opening of this `area` passes out of a boiler at this absolute `pressure`.
///
/// Holds while the pressure outside is at most 58 percent of it; the caller sees to that.
///
/// Source: Napier's rule, 1 lb a second for each 70 pounds on the square inch and square inch of opening.
pub fn napier(pressure: AbsolutePressure, area: Area) -> Flow {
    Flow::lb_per_h(3600.0 * (pressure.to_psi() * area.to_sq_in() / 70.0))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mut answer = Answer::new("to the air");
    let Some((pressure, row)) = atmosphere::absolute(inputs, "pressure")? else {
        return Ok(atmosphere::waiting(answer, &["absolute", "flow"]));
    };
    let outside = pressure.to_pascals() - inputs.need_si("pressure")?;
    if outside > CRITICAL * pressure.to_pascals() {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "{:.1} psi absolute is too little for the rule: the air outside is more than 58 percent of it",
                pressure.to_psi()
            ),
            format!(
                "at least {:.1} psi by the gauge here",
                AbsolutePressure::pascals(outside).to_psi() * (1.0 / CRITICAL - 1.0)
            ),
        ));
    }
    answer.table_values.extend(row);
    let area = Area::sq_m(inputs.need_si("area")?);
    Ok(answer
        .with("absolute", Outcome::Si(pressure.to_pascals()))
        .with("flow", napier(pressure, area)))
}
