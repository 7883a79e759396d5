//! `fit.hot_clearance`: how much more clearance a cold fit must have because the inner part grows
//! more than the outer when both are hot.
//!
//! A bore grows as the metal round it would if the hole were filled with the same metal: by its own
//! diameter, its own coefficient and the rise. So does the part inside. The fit closes by the
//! difference, and that much more clearance is wanted cold.

use crate::answer::{Answer, Outcome};
use crate::card::{
    Argument, Card, ClosedForm, Decimals, Measure, ResultKind, ResultSpec, Source, Symbol,
};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::fit::METALS;
use crate::given::Inputs;
use crate::tables::{self, Expansion};
use measure::{Dimension, House, Length, Rounding, TemperatureRise, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const LAW: &str = "linear expansion";
const PER_100F: Measure = Measure::Named("per 100 °F");
const TABLE: &str = "tables/material/expansion.csv";

const OUTER: Symbol = Symbol {
    symbol: "e_o",
    meaning: "expansion of the outer metal, length per length",
    measure: PER_100F,
    source: TABLE,
};
const INNER: Symbol = Symbol {
    symbol: "e_i",
    meaning: "expansion of the inner metal, length per length",
    measure: PER_100F,
    source: TABLE,
};

static CARD: Card = Card {
    id: "fit.hot_clearance",
    version: 1,
    title: "Clearance lost when a fit of two metals grows hot",
    purpose: "A part of one metal runs in a part of another. When both are hot the inner may grow \
        more than the outer. How much each grows, and how much more clearance the fit must have \
        cold so that it does not seize hot. The running clearance itself comes on top.",
    formula: "
        g_o = d * e_o * t / 100
        g_i = d * e_i * t / 100
        c_n = max(0, g_i - g_o)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "diameter",
            "d",
            Dimension::Length,
            "0.05 in",
            "120 in",
            "diameter of the fit, cold",
        ),
        METALS,
        Argument::quantity(
            "rise",
            "t",
            Dimension::TemperatureRise,
            "1 F",
            "500 F",
            "rise of temperature from cold, the same for both parts",
        ),
    ],
    table_values: &[OUTER, INNER],
    lines: &[],
    results: &[
        ResultSpec {
            name: "growth_each",
            symbol: "",
            meaning: "what each part grows",
            kind: ResultKind::Table,
            source: LAW,
        },
        ResultSpec {
            name: "growth_outer",
            symbol: "g_o",
            meaning: "growth of the outer part's bore",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Nearest),
            source: LAW,
        },
        ResultSpec {
            name: "growth_inner",
            symbol: "g_i",
            meaning: "growth of the inner part",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Nearest),
            source: LAW,
        },
        ResultSpec {
            name: "needed_clearance",
            symbol: "c_n",
            meaning: "more clearance wanted cold, on the diameter",
            kind: ResultKind::Quantity(Dimension::Length, FINE, Rounding::Up),
            source: LAW,
        },
    ],
    branches: &[CLOSES, OPENS],
    validity: "Rises of 1 to 500 °F, both parts free to grow and equally hot. A mean coefficient is \
        used over the whole rise.",
    sources: &[
        Source {
            work: "Steam, Its Generation and Use (Babcock & Wilcox), Project Gutenberg text 22657",
            locator: "Table 6",
            used_for: "expansion of all but bronze",
        },
        Source {
            work: "Conex Bronze, data sheet for copper alloy C92200 (Navy M, ASTM B61)",
            locator: "physical properties",
            used_for: "expansion of bronze",
        },
    ],
    cautions: &[
        "Both parts are taken to be equally hot. Where the inner part runs hotter than the outer the \
            fit closes further: work that case with the parts' own temperatures.",
        "A bushing held tight in a cooler housing cannot grow outward and closes on its pin instead.",
        "Books differ by several per cent on these coefficients, and alloys of one name differ too.",
    ],
    closed_form: ClosedForm::Yes,
};

const FINE: Decimals = Decimals { inch: 4, metric: 3 };
const CLOSES: &str = "the fit closes hot";
const OPENS: &str = "the fit does not close hot";

/// What two parts of one fit grow, and the clearance that calls for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// Growth of the outer part's bore, on the diameter.
    pub outer: Length,
    /// Growth of the inner part, on the diameter.
    pub inner: Length,
    /// More clearance wanted cold, on the diameter; never less than nothing.
    pub needed: Length,
}

/// The growth of a fit of this `diameter` through `rise`, whose outer and inner metals expand by
/// `outer` and `inner` of a length for each 100 Fahrenheit degrees.
///
/// Source: linear expansion, with a mean coefficient over the rise.
pub fn growth(diameter: Length, outer: f64, inner: f64, rise: TemperatureRise) -> Growth {
    let hundreds = rise.to_f_degrees() / 100.0;
    let of = |coefficient: f64| diameter.to_m() * (coefficient * hundreds);
    Growth {
        outer: Length::m(of(outer)),
        inner: Length::m(of(inner)),
        needed: Length::m(of((inner - outer).max(0.0))),
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let rise = inputs.need_rise("rise")?;
    let [outer, inner] = inputs.need_pair("materials")?;
    let outer = tables::expansion(CARD.id, outer)?;
    let inner = tables::expansion(CARD.id, inner)?;
    let grown = growth(diameter, outer.per_100f, inner.per_100f, rise);

    let closes = inner.per_100f > outer.per_100f;
    let row = |part: &str, metal: &Expansion, growth: Length| {
        vec![
            part.to_owned(),
            metal.material.clone(),
            metal.printed.clone(),
            show::number(growth.to_inches(), 4, Rounding::Nearest),
            show::number(growth.to_mm(), 3, Rounding::Nearest),
        ]
    };
    let table = Outcome::Table {
        columns: ["part", "material", "per 100 °F", "growth in", "growth mm"]
            .map(String::from)
            .to_vec(),
        rows: vec![
            row("outer", outer, grown.outer),
            row("inner", inner, grown.inner),
        ],
    };
    let mut answer = Answer::new(if closes { CLOSES } else { OPENS })
        .with("growth_each", table)
        .with("growth_outer", grown.outer)
        .with("growth_inner", grown.inner)
        .with("needed_clearance", grown.needed);
    if !closes {
        let opens = grown.outer.to_inches() - grown.inner.to_inches();
        answer.notices.push(format!(
            "The outer part grows no less than the inner: heat opens this fit by {} in and asks for \
             no more clearance cold. The running clearance is still wanted.",
            show::number(opens, 4, Rounding::Nearest)
        ));
    }
    for (symbol, metal) in [(OUTER, outer), (INNER, inner)] {
        if metal.material == "steel" || metal.material == "bronze" {
            answer
                .notices
                .push(format!("{} is taken as {}.", metal.material, metal.note));
        }
        answer.table_values.push(metal.value_of(symbol));
    }
    answer.notices.dedup();
    Ok(answer)
}
