//! `steam.saturation`: how hot the boiler is, and what a pound of its steam takes up and holds.
//!
//! A gauge counts from the atmosphere and steam from vacuum, so the atmosphere is asked for and never
//! taken as 14.7. The boiling point is one equation and is printed whole; room and heat come out of longer
//! ones ([`crate::steam`]), as values of a table.

use crate::answer::{Answer, Outcome, TableValue};
use crate::atmosphere::{self, ADDED, ALTITUDE, ATMOSPHERE, BY_ALTITUDE};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::steam::{self, IF97};
use measure::{Dimension, Heat, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BOILING: &str = "IAPWS-IF97, equation 31";
const HEATS: [Symbol; 2] = [
    Symbol::of("h_1", Dimension::Heat, "heat of the boiling water", IF97),
    Symbol::of("h_2", Dimension::Heat, "heat of the dry steam", IF97),
];

/// The arguments of a sheet about a boiler's steam.
pub(crate) const PRESSURE: Argument = Argument::quantity(
    "pressure",
    "p_g",
    Dimension::GaugePressure,
    "0 psig",
    "600 psig",
    "pressure by the gauge, its error and head taken off",
);

static CARD: Card = Card {
    id: "steam.saturation",
    version: 1,
    title: "Saturated steam: temperature, room and heat",
    purpose: "How hot the water and steam of a boiler are under a gauge pressure, what room a pound of each \
        takes, and how much heat is in it. For expansion, for the temperature a metal or a packing must stand, \
        and for every question of how much steam a boiler makes.",
    formula: "
        p = p_g + p_a
        beta = (p / 1000)^0.25
        E = beta^2 - 17.073846940092 * beta + 14.91510861353
        F = 1167.0521452767 * beta^2 + 12020.82470247 * beta - 4823.2657361591
        G = -724213.16703206 * beta^2 - 3232555.0322333 * beta + 405113.40542057
        D = 2 * G / (-F - sqrt(F^2 - 4 * E * G))
        S = 650.17534844798 + D
        t = (S - sqrt(S^2 - 4 * (650.17534844798 * D - 0.23855557567849))) / 2 - 273.15
        L = h_2 - h_1",
    book_units: Some(House::Metric),
    arguments: &[PRESSURE, ATMOSPHERE, ALTITUDE],
    table_values: &[BY_ALTITUDE, HEATS[0], HEATS[1]],
    lines: &[
        Symbol::of(
            "beta",
            Dimension::Ratio,
            "fourth root of the pressure in megapascals",
            BOILING,
        ),
        Symbol::of(
            "E",
            Dimension::Ratio,
            "first factor of the equation",
            BOILING,
        ),
        Symbol::of("F", Dimension::Ratio, "second factor", BOILING),
        Symbol::of("G", Dimension::Ratio, "third factor", BOILING),
        Symbol::of("D", Dimension::Ratio, "the root they give", BOILING),
        Symbol::of(
            "S",
            Dimension::Ratio,
            "the root with the last constant but one",
            BOILING,
        ),
    ],
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
            "temperature",
            "t",
            Dimension::Temperature,
            (1, 1),
            "temperature of water and steam",
            BOILING,
        ),
        ResultSpec::quantity(
            "v_f",
            "",
            Dimension::SpecificVolume,
            (5, 7),
            "room that a pound of the boiling water takes",
            IF97,
        ),
        ResultSpec::quantity(
            "v_g",
            "",
            Dimension::SpecificVolume,
            (3, 5),
            "room that a pound of dry steam takes",
            IF97,
        ),
        ResultSpec::quantity(
            "h_f",
            "",
            Dimension::Heat,
            (1, 1),
            "heat in a pound of the boiling water, above water at freezing",
            IF97,
        ),
        ResultSpec::quantity(
            "h_fg",
            "L",
            Dimension::Heat,
            (1, 1),
            "heat it takes to make steam of a pound of it",
            "heat of the steam less heat of the water",
        ),
        ResultSpec::quantity(
            "h_g",
            "",
            Dimension::Heat,
            (1, 1),
            "heat in a pound of dry steam, above water at freezing",
            IF97,
        ),
    ],
    branches: &["saturated"],
    validity: "Water and dry steam that stand together, as in a boiler under way: not superheated steam, \
        which is hotter, and not a boiler being warmed with air still in it, which shows pressure above its \
        temperature. Tables of 1909 differ from these by up to 0.13 F, 0.35 percent of the room and 1.2 Btu \
        a pound.",
    sources: &[
        Source {
            work: "IAPWS, Release R7-97(2012) on the Industrial Formulation 1997",
            locator: "equations 7, 15 and 31; verification tables 5, 15, 35 and 36, read as quoted with the library seuif97 2.3.8 (MIT)",
            used_for: "all properties",
        },
        Source {
            work: "Babcock & Wilcox, Steam, Its Generation and Use (Project Gutenberg 22657)",
            locator: "its steam tables",
            used_for: "how far tables of 1909 differ",
        },
        atmosphere::SOURCE,
    ],
    cautions: &[
        "Gauge is not absolute: without the atmosphere of the place no steam table can be entered.",
        "Water at these temperatures flashes to some 1,600 times its room as steam when it is let out: a joint, \
            plug or glass is never slackened under pressure.",
        "Dry steam is not seen and burns at once; a white cloud is already water.",
    ],
    closed_form: ClosedForm::No(
        "the boiling point is a formula; room and heat are sums of 34 and 52 terms, looked up as in a table",
    ),
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let mut answer = Answer::new("saturated");
    let Some((pressure, row)) = atmosphere::absolute(inputs, "pressure")? else {
        let all: Vec<&str> = CARD.results.iter().map(|result| result.name).collect();
        return Ok(atmosphere::waiting(answer, &all));
    };
    answer.table_values.extend(row);
    let known = steam::saturated(pressure).map_err(|why| atmosphere::refused(CARD.id, why))?;
    let latent = known.steam_heat.to_j_per_kg() - known.water_heat.to_j_per_kg();
    let looked_up = format!("{IF97}, at {:.2} psi absolute", pressure.to_psi());
    for (symbol, heat) in HEATS.into_iter().zip([known.water_heat, known.steam_heat]) {
        answer.found.push(heat_row(symbol, heat, &looked_up));
    }
    Ok(answer
        .with("absolute", Outcome::Si(pressure.to_pascals()))
        .with("temperature", Outcome::Si(known.temperature.to_kelvin()))
        .with("v_f", Outcome::Si(known.water_volume.to_cu_m_per_kg()))
        .with("v_g", Outcome::Si(known.steam_volume.to_cu_m_per_kg()))
        .with("h_f", known.water_heat)
        .with("h_fg", Heat::j_per_kg(latent))
        .with("h_g", known.steam_heat))
}

/// A heat as a value looked up.
fn heat_row(symbol: Symbol, heat: Heat, row: &str) -> TableValue {
    TableValue {
        symbol,
        value: heat.to_j_per_kg(),
        printed: format!(
            "{:.2} Btu/lb, {:.2} kJ/kg",
            heat.to_btu_per_lb(),
            heat.to_kj_per_kg()
        ),
        row: row.to_owned(),
    }
}
