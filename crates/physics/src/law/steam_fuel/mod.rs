//! `steam.fuel`: the most steam a fire can make, from its fuel: what the safety valves must pass.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Flow, Heat, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const RULE: &str = "three quarters of the heat of the fuel, 1,100 Btu to a pound of steam";
const TABLE: &str = "12 NYCRR 14-9.4, heating values to be used";

/// The fuels of the table with their heat in Btu a pound, in its order.
pub const FUELS: [(&str, f64); 10] = [
    ("semibituminous", 14_500.0),
    ("anthracite", 13_700.0),
    ("screenings", 12_500.0),
    ("coke", 13_500.0),
    ("wood-kiln-dried", 7_700.0),
    ("wood-air-dried", 6_200.0),
    ("lignite", 10_000.0),
    ("kerosene", 20_000.0),
    ("oil-pennsylvania", 20_700.0),
    ("oil-texas", 18_500.0),
];

const WORDS: [&str; 10] = {
    let mut words = [""; 10];
    let mut at = 0;
    while at < words.len() {
        words[at] = FUELS[at].0;
        at += 1;
    }
    words
};

const HEAT: Symbol = Symbol::of("H", Dimension::Heat, "heat in a pound of the fuel", TABLE);

static CARD: Card = Card {
    id: "steam.fuel",
    version: 1,
    title: "The most steam a fire makes",
    purpose: "For the safety valves: the steam a boiler makes at the greatest forcing, from the fuel it can burn in an \
        hour. It goes into steam.safety_valve as the evaporation.",
    formula: "
        Q = C * H
        W = Q * 0.75 / 1100",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "burned",
            "C",
            Dimension::Flow,
            "10 lb/h",
            "30000 lb/h",
            "fuel burned at the greatest forcing: grate and draught wide open, every burner on",
        ),
        Argument::word("fuel", &WORDS, "the fuel, of the table; or say heat").optional(),
        Argument::quantity(
            "heat",
            "H",
            Dimension::Heat,
            "3000 Btu/lb",
            "25000 Btu/lb",
            "heat in a pound of the fuel by its own test, instead of the table",
        )
        .optional(),
    ],
    table_values: &[HEAT],
    lines: &[Symbol::named(
        "Q",
        "Btu/h",
        "heat of the fuel in an hour",
        RULE,
    )],
    results: &[ResultSpec::quantity(
        "evaporation",
        "W",
        Dimension::Flow,
        (0, 0),
        "steam made in an hour",
        RULE,
    )
    .rounded(Rounding::Up)],
    branches: &["fuel"],
    validity: "Fuel burned as fast as the fire can be made to, not on an everyday trip. A boiler that turns more than \
        three quarters of its fuel's heat into steam makes more than this.",
    sources: &[
        Source {
            work: "12 NYCRR 14-9.4",
            locator: "capacity of safety valves from fuel, with its table of heating values",
            used_for: "the rule and the heats",
        },
        Source {
            work: "from memory",
            locator: "no page was opened",
            used_for: "the example of 2,150 lb of coal at 12,100 Btu",
        },
    ],
    cautions: &[
        "A reckoning is no proof: valves that hold the pressure with a bright fire and every outlet shut are, in a test by the rule and by qualified people.",
        "Safety valves are chosen, set and certified by those who may; this sheet approves none.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Steam made in an hour by so much fuel of this heat.
///
/// Source: 12 NYCRR 14-9.4: W = C H 0.75 / 1100, in pounds and Btu.
pub fn evaporation(burned: Flow, heat: Heat) -> Flow {
    Flow::lb_per_h(burned.to_lb_per_h() * heat.to_btu_per_lb() * 0.75 / 1100.0)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let burned = Flow::kg_per_s(inputs.need_si("burned")?);
    let mut answer = Answer::new("fuel");
    let fuel = inputs.word("fuel");
    let row = fuel.and_then(|fuel| FUELS.iter().find(|(known, _)| *known == fuel));
    let heat = match (row, inputs.si("heat")) {
        (Some(_), Some(_)) => {
            return Err(SheetError::impossible(
                CARD.id,
                "both a fuel of the table and a heat were said",
                "one of them: the heat where the fuel was tested, else the fuel",
            ));
        }
        (Some((fuel, btu)), None) => {
            answer.table_values.push(TableValue::inch_book(
                HEAT,
                *btu,
                format!("{TABLE}, {fuel}"),
            ));
            Heat::btu_per_lb(*btu)
        }
        (None, Some(heat)) => Heat::j_per_kg(heat),
        (None, None) => {
            return Ok(answer.waiting(&["evaporation"], &["fuel or heat"]));
        }
    };
    Ok(answer.with("evaporation", evaporation(burned, heat)))
}
