//! `steam.evaporation`: what a boiler makes, told from and at 212 °F so that one may be held against another.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Flow, Heat, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const BOOK: &str = "Babcock & Wilcox, Steam";
/// The heat that makes steam of a pound of water at 212 °F, as the book's tables have it.
const LATENT: Heat = Heat::btu_per_lb(970.4);
/// Pounds an hour from and at 212 °F that are one boiler horse-power.
const HORSE: Flow = Flow::lb_per_h(34.5);

static CARD: Card = Card {
    id: "steam.evaporation",
    version: 1,
    title: "Factor of evaporation and boiler horse-power",
    purpose: "How many pounds of water at 212 F the heat of one pound of this steam would have boiled off, what the \
        boiler's steam comes to from and at 212 F, and in boiler horse-power. The heats are those of \
        steam.saturation, or of the tables that the test is to be compared with.",
    formula: "
        f = (H - h) / 970.4
        W_e = W * f
        B = W_e / 34.5",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "steam_heat",
            "H",
            Dimension::Heat,
            "900 Btu/lb",
            "1500 Btu/lb",
            "heat in a pound of the steam as it is made: dry, wet or superheated",
        ),
        Argument::quantity(
            "feed_heat",
            "h",
            Dimension::Heat,
            "0 Btu/lb",
            "400 Btu/lb",
            "heat in a pound of the feed water: about its degrees Fahrenheit less 32",
        ),
        Argument::quantity(
            "evaporated",
            "W",
            Dimension::Flow,
            "1 lb/h",
            "200000 lb/h",
            "water boiled off",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "factor",
            "f",
            Dimension::Ratio,
            (4, 4),
            "factor of evaporation",
            BOOK,
        ),
        ResultSpec::quantity(
            "equivalent",
            "W_e",
            Dimension::Flow,
            (0, 0),
            "what it comes to from and at 212 F",
            BOOK,
        ),
        ResultSpec::quantity(
            "horse_power",
            "B",
            Dimension::Ratio,
            (1, 1),
            "boiler horse-power",
            BOOK,
        ),
    ],
    branches: &["boiler"],
    validity: "Heats from one set of tables for both. The 970.4 Btu are of the tables of 1909; today's have 970.1.",
    sources: &[Source {
        work: "Babcock & Wilcox, Steam, Its Generation and Use (Project Gutenberg 22657)",
        locator: "factor of evaporation, equation 2 and table 19; boiler horse-power",
        used_for: "the factor, 970.4 Btu and 34.5 lb an hour",
    }],
    cautions: &[
        "A boiler horse-power is heat made and not pull at the drawbar; a stationary maker's ten square feet for each says nothing of a locomotive.",
        "A test of evaporation is run by people qualified to fire and feed; the glass is watched before the scales.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The factor of evaporation between two heats.
///
/// Source: Babcock & Wilcox, Steam, equation 2.
pub fn factor(steam: Heat, feed: Heat) -> f64 {
    (steam.to_j_per_kg() - feed.to_j_per_kg()) / LATENT.to_j_per_kg()
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let steam = Heat::j_per_kg(inputs.need_si("steam_heat")?);
    let factor = factor(steam, Heat::j_per_kg(inputs.need_si("feed_heat")?));
    let mut answer = Answer::new("boiler").with("factor", Outcome::Si(factor));
    if let Some(evaporated) = inputs.si("evaporated") {
        let equivalent = factor * evaporated;
        answer = answer
            .with("equivalent", Flow::kg_per_s(equivalent))
            .with("horse_power", Outcome::Si(equivalent / HORSE.to_kg_per_s()));
    }
    Ok(answer)
}
