//! `steam.pipe`: what a pipe carries for a given loss of pressure.

use crate::answer::{Answer, Outcome, TableValue};
use crate::atmosphere::{self, ADDED, ALTITUDE, ATMOSPHERE, BY_ALTITUDE};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::steam_saturation::PRESSURE;
use crate::steam::{self, IF97};
use measure::{Dimension, Flow, House, Length, Rounding, SpecificVolume, Stress, math};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BABCOCK: &str = "Babcock's rule for flow in pipes";
const SPEED: &str = "flow over density and bore";
const ROOM: Symbol = Symbol::of(
    "v",
    Dimension::SpecificVolume,
    "room that a pound of the steam takes where it enters",
    IF97,
);

static CARD: Card = Card {
    id: "steam.pipe",
    version: 1,
    title: "Steam through a pipe",
    purpose: "How much saturated steam a straight pipe carries for a loss of pressure along it, and how fast the \
        steam then runs: a train line, an injector's or pump's supply, a dry pipe.",
    formula: "
        p = p_g + p_a
        rho = 1 / v
        K = 1 + 3.6 / d
        w = 87 * sqrt(y * rho * d^5 / (K * L / 12))
        W = 60 * w
        u = w * v / (pi * d^2 / 576)",
    book_units: Some(House::Inch),
    arguments: &[
        PRESSURE,
        Argument::quantity(
            "bore",
            "d",
            Dimension::Length,
            "1/4 in",
            "24 in",
            "true inside diameter of the pipe: a pipe is not the size it is called",
        ),
        Argument::quantity(
            "length",
            "L",
            Dimension::Length,
            "1 ft",
            "3000 ft",
            "length, with an entrance or a globe valve counted as 60 bores and an elbow as 40",
        ),
        Argument::quantity(
            "drop",
            "y",
            Dimension::Stress,
            "0.01 psi",
            "100 psi",
            "loss of pressure from end to end",
        ),
        ATMOSPHERE,
        ALTITUDE,
    ],
    table_values: &[BY_ALTITUDE, ROOM],
    lines: &[
        Symbol::named(
            "rho",
            "lb/cu ft",
            "weight of a cubic foot of the steam where it enters",
            IF97,
        ),
        Symbol::of(
            "K",
            Dimension::Ratio,
            "what the wall of a small pipe adds",
            BABCOCK,
        ),
        Symbol::named("w", "lb/min", "flow in each minute", BABCOCK),
    ],
    results: &[
        ResultSpec::quantity(
            "absolute",
            "p",
            Dimension::AbsolutePressure,
            (2, 1),
            "pressure from vacuum where the steam enters",
            ADDED,
        ),
        ResultSpec::quantity(
            "flow",
            "W",
            Dimension::Flow,
            (0, 0),
            "flow in an hour",
            BABCOCK,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "speed",
            "u",
            Dimension::Speed,
            (0, 0),
            "speed of the steam where it enters",
            SPEED,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["pipe"],
    validity: "Dry saturated steam in a clean, covered, straight pipe, with a loss of at most a tenth of the absolute \
        pressure: beyond that the steam thins along the pipe and carries less. The book's own table 66 is some 2 percent \
        over this rule worked with true bores.",
    sources: &[
        Source {
            work: "Babcock & Wilcox, Steam, Its Generation and Use (Project Gutenberg 22657)",
            locator: "flow of steam in pipes, equations 44 and 45, table 66, and the lengths that fittings count for",
            used_for: "the rule and its checks",
        },
        Source {
            work: "IAPWS, Release R7-97(2012) on the Industrial Formulation 1997",
            locator: "equation 15",
            used_for: "weight of the steam",
        },
        atmosphere::SOURCE,
    ],
    cautions: &[
        "Drain and warm a steam pipe before it is opened to the boiler: water lying in it is thrown like a hammer.",
        "Never slacken a joint under pressure; close, drain and see it cold.",
    ],
    closed_form: ClosedForm::Yes,
};

/// What a pipe carries.
///
/// `bore`: true inside diameter; `length`: with its fittings; `drop`: loss of pressure from end to end; `room`: what a
/// pound of the steam takes where it enters. For losses up to a tenth of the absolute pressure.
///
/// Source: Babcock & Wilcox, Steam, equation 45.
pub fn babcock(bore: Length, length: Length, drop: Stress, room: SpecificVolume) -> Flow {
    let (d, density) = (bore.to_inches(), 1.0 / room.to_cu_ft_per_lb());
    let square = drop.to_psi() * density * math::pow(d, 5.0) / ((1.0 + 3.6 / d) * length.to_ft());
    Flow::lb_per_min(87.0 * math::sqrt(square))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mut answer = Answer::new("pipe");
    let Some((pressure, row)) = atmosphere::absolute(inputs, "pressure")? else {
        return Ok(atmosphere::waiting(answer, &["absolute", "flow", "speed"]));
    };
    answer.table_values.extend(row);
    let drop = Stress::pascals(inputs.need_si("drop")?);
    let share = drop.to_pascals() / pressure.to_pascals();
    if share > 0.4 {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "a loss of {:.1} psi is {:.0} percent of {:.1} psi absolute: the steam would near the speed of sound",
                drop.to_psi(),
                100.0 * share,
                pressure.to_psi()
            ),
            "at most 40 percent, and for a figure to trust 10",
        ));
    }
    if share > 0.1 {
        answer.notices.push(format!(
            "The loss is {:.0} percent of the absolute pressure. Over 10 the rule gives too much: work the pipe in shorter lengths.",
            100.0 * share
        ));
    }
    let room = steam::saturated(pressure)
        .map_err(|why| atmosphere::refused(CARD.id, why))?
        .steam_volume;
    answer.found.push(TableValue {
        symbol: ROOM,
        value: room.to_cu_m_per_kg(),
        printed: format!("{:.4} cu ft/lb", room.to_cu_ft_per_lb()),
        row: format!("{IF97}, at {:.2} psi absolute", pressure.to_psi()),
    });
    let bore = inputs.need_length("bore")?;
    let flow = babcock(bore, inputs.need_length("length")?, drop, room);
    let area = PI * bore.to_m() * bore.to_m() / 4.0;
    let speed = flow.to_kg_per_s() * room.to_cu_m_per_kg() / area;
    Ok(answer
        .with("absolute", Outcome::Si(pressure.to_pascals()))
        .with("flow", flow)
        .with("speed", Outcome::Si(speed)))
}
