//! `fit.shrink`: how hot a ring must be to drop over its shaft, and what stress it cools to.
//!
//! The ring grows by its own coefficient; it must grow by the interference and by the room to slip it
//! on. Cold, it is stretched by the interference: were the shaft as hard as rock, by the whole of it,
//! and the hoop stress would be the modulus times the share of the diameter. It is never more.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::cylinder;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::tables::{self, MATERIALS};
use measure::{Dimension, House, Length, Rounding, Stress, TemperatureRise};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

pub(crate) const HEAT: &str = "linear expansion";
pub(crate) const RING: &str = "a thin ring on a shaft that does not give";
pub(crate) const EXPANSION: Symbol = Symbol::named(
    "e",
    "per 100 °F",
    "expansion of the metal, length per length",
    "tables/material/expansion.csv",
);
/// The modulus, which a maker's data sheet may give.
pub(crate) const MODULUS: Argument =
    cylinder::modulus("modulus", "E", "modulus of elasticity of the ring");
/// Hotter than this, steel begins to lose what hardening gave it. Common practice.
const TEMPER_F: f64 = 400.0;

static CARD: Card = Card {
    id: "fit.shrink",
    version: 1,
    title: "A shrink fit: heat needed and stress left",
    purpose: "A ring, collar or hub is heated to slip over a shaft larger than its bore, or the inner part \
        is cooled. The rise (or fall) of temperature, and the hoop stress the ring cools to.",
    formula: "
        g = delta + c
        t = 100 * g / (e * d)
        sigma = E * delta / d",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "diameter",
            "d",
            Dimension::Length,
            "0.25 in",
            "120 in",
            "diameter of the fit",
        ),
        Argument::quantity(
            "interference",
            "delta",
            Dimension::Length,
            "0.0001 in",
            "0.3 in",
            "how much larger the shaft is than the hole, cold, on the diameter",
        ),
        Argument::quantity(
            "clearance",
            "c",
            Dimension::Length,
            "0.0005 in",
            "0.2 in",
            "room wanted to slip it on, on the diameter",
        ),
        Argument::word(
            "material",
            &MATERIALS,
            "the metal of the part that is heated, or cooled",
        ),
        MODULUS,
    ],
    table_values: &[EXPANSION],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "temperature_rise",
            "t",
            Dimension::TemperatureRise,
            (0, 0),
            "rise of temperature; where the inner part is cooled, the fall",
            HEAT,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "growth",
            "g",
            Dimension::Length,
            (4, 3),
            "growth wanted, on the diameter",
            "sizes added",
        ),
        ResultSpec::quantity(
            "hoop",
            "sigma",
            Dimension::Stress,
            (0, 1),
            "hoop stress when cold, at most",
            RING,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[RING_BRANCH],
    validity: "Rises up to about 600 °F, a mean coefficient over the rise, the other part cold all the while. The \
        hoop stress is that of a thin ring on a shaft that gives nothing: it is never less in truth than zero \
        nor more than this; fit.press works it for a ring and shaft that both give.",
    sources: &[
        Source {
            work: "Steam, Its Generation and Use (Babcock & Wilcox), Project Gutenberg text 22657",
            locator: "Table 6",
            used_for: "expansion of all but bronze",
        },
        Source {
            work: "Conex Bronze, data sheet for copper alloy C92200",
            locator: "physical properties",
            used_for: "expansion of bronze",
        },
    ],
    cautions: &[
        "Gloves, face and eyes covered, nobody under the load: a hot ring that binds half way is not hammered \
            home, it comes off and is measured.",
        "Heat evenly and measure the ring, not the flame: a gauge set to the bore wanted goes in, or it is not \
            hot enough.",
        "Steel and case hardening lose temper above about 400 °F; babbitt and soft solder nearby melt.",
        "Never cool with water. Never cool inner parts with liquefied gas in a closed room.",
    ],
    closed_form: ClosedForm::Yes,
};

const RING_BRANCH: &str = "ring";

/// The rise that makes `diameter` grow by `growth`, where the metal expands by `per_100f` of its length
/// for each 100 Fahrenheit degrees.
///
/// Source: linear expansion, with a mean coefficient over the rise.
pub fn rise(diameter: Length, growth: Length, per_100f: f64) -> TemperatureRise {
    TemperatureRise::f_degrees(100.0 * growth.to_m() / (per_100f * diameter.to_m()))
}

/// The hoop stress of a thin ring stretched by `interference` over its `diameter`.
///
/// Source: Hooke's law.
pub fn hoop(diameter: Length, interference: Length, modulus: Stress) -> Stress {
    Stress::pascals(modulus.to_pascals() * interference.to_m() / diameter.to_m())
}

/// Rise, growth and hoop stress as results, with the metal's figures, for this sheet and for tires.
pub(crate) fn heated(inputs: &Inputs, branch: &'static str) -> Result<Answer, SheetError> {
    let sheet = inputs.card.id;
    let (diameter, interference) = (
        inputs.need_length("diameter")?,
        inputs.need_length("interference")?,
    );
    let growth = Length::m(interference.to_m() + inputs.need_length("clearance")?.to_m());
    let metal = inputs.word("material").unwrap_or_default();
    let (expands, elastic) = (
        tables::expansion(sheet, metal)?,
        cylinder::elastic(sheet, metal)?,
    );
    let mut assumptions = Vec::new();
    let modulus = elastic.modulus_for(inputs, "modulus", &mut assumptions);
    let heat = rise(diameter, growth, expands.per_100f);
    let mut answer = Answer::new(branch)
        .with("temperature_rise", heat)
        .with("growth", growth)
        .with("hoop", hoop(diameter, interference, modulus));
    answer.assumptions = assumptions;
    answer.table_values.push(expands.value_of(EXPANSION));
    if heat.to_f_degrees() > TEMPER_F {
        answer.notices.push(format!(
            "A rise of {:.0} Fahrenheit degrees brings steel to the heats at which it loses temper: ask whether the part is hardened, or cool the inner part as well.",
            heat.to_f_degrees()
        ));
    }
    Ok(answer)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    heated(inputs, RING_BRANCH)
}
