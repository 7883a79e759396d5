//! `steam.calorimeter`: how wet the steam is, by the throttling calorimeter.
//!
//! Steam let through a small hole keeps its heat and loses its pressure: if it was dry it comes out superheated,
//! and what it lacks of the reading that dry steam would give went into drying its water.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Heat, House, Rounding, Temperature, TemperatureRise};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BOOK: &str = "Babcock & Wilcox, Steam: moisture by the throttling calorimeter";

static CARD: Card = Card {
    id: "steam.calorimeter",
    version: 1,
    title: "Moisture in steam, by the throttling calorimeter",
    purpose: "The share of water in the steam that a boiler gives, from two readings of the thermometer behind the \
        orifice: the one in question, and the normal one taken while the steam is known to be dry. With the heat of dry \
        steam, what the thermometer would read if it lost no heat at all.",
    formula: "
        x = 0.47 * (t_n - t) / L
        t_d = 212 + (H - 1150.4) / 0.47",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "reading",
            "t",
            Dimension::Temperature,
            "212 F",
            "500 F",
            "what the thermometer behind the orifice reads",
        ),
        Argument::quantity(
            "normal",
            "t_n",
            Dimension::Temperature,
            "212 F",
            "500 F",
            "what it reads with steam known to be dry, the boiler at rest",
        ),
        Argument::quantity(
            "latent",
            "L",
            Dimension::Heat,
            "600 Btu/lb",
            "975 Btu/lb",
            "heat that makes steam of a pound of water at the boiler's pressure: h_fg of steam.saturation",
        ),
        Argument::quantity(
            "steam_heat",
            "H",
            Dimension::Heat,
            "1150.4 Btu/lb",
            "1250 Btu/lb",
            "heat in a pound of dry steam at the boiler's pressure: h_g",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "moisture",
            "x",
            Dimension::Ratio,
            (4, 4),
            "water in each pound of the steam",
            BOOK,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "dry_reading",
            "t_d",
            Dimension::Temperature,
            (1, 1),
            "reading of dry steam with no heat lost",
            BOOK,
        ),
    ],
    branches: &["throttled"],
    validity: "Air of sea level behind the orifice; steam of which a few percent is water at most, so that it still \
        comes out superheated: at a reading of 212 F nothing is known but that there is more.",
    sources: &[Source {
        work: "Babcock & Wilcox, Steam, Its Generation and Use (Project Gutenberg 22657)",
        locator: "moisture in steam, throttling calorimeter, its example at 180 psi",
        used_for: "the rule, the specific heat 0.47, and 1150.4 Btu at 212 F",
    }],
    cautions: &[
        "The calorimeter blows live steam: pipe it away, and keep clear of it and of its thermometer well.",
        "It is fitted and taken off a boiler without pressure, by people qualified to.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The specific heat of the steam behind the orifice, in Btu a pound for each Fahrenheit degree.
const SPECIFIC: f64 = 0.47;

/// The share of water, from what the reading lacks of the normal one and the heat that makes steam.
///
/// Source: Babcock & Wilcox, Steam, throttling calorimeter.
pub fn moisture(lack: TemperatureRise, latent: Heat) -> f64 {
    SPECIFIC * lack.to_f_degrees() / latent.to_btu_per_lb()
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let reading = Temperature::kelvin(inputs.need_si("reading")?);
    let normal = Temperature::kelvin(inputs.need_si("normal")?);
    let latent = Heat::j_per_kg(inputs.need_si("latent")?);
    let share = moisture(normal.rise_from(reading), latent);
    if share < 0.0 {
        return Err(SheetError::impossible(
            CARD.id,
            "the reading is above the normal one",
            "a normal reading taken with dry steam, which no wet steam exceeds",
        ));
    }
    let mut answer = Answer::new("throttled").with("moisture", Outcome::Si(share));
    if let Some(heat) = inputs.inch("steam_heat") {
        let dry = Temperature::fahrenheit(212.0 + (heat - 1150.4) / SPECIFIC);
        answer = answer.with("dry_reading", Outcome::Si(dry.to_kelvin()));
    }
    Ok(answer)
}
