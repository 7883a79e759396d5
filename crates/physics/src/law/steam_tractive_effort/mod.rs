//! `steam.tractive_effort`: what an engine pulls at starting, how near that is to slipping, and the load on a rod.

use crate::answer::{Answer, Assumption, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Force, GaugePressure, House, Length, Rounding};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const RULE: &str = "work of the pistons over the round of the driver";
const AREA: &str = "pressure on the piston";

static CARD: Card = Card {
    id: "steam.tractive_effort",
    version: 1,
    title: "Tractive effort, adhesion and piston thrust",
    purpose: "The rated pull at the rim of the drivers, how many times it goes into the weight on them, and the \
        full push of a piston on its rod, which is what rods, pins and crossheads are reckoned by.",
    formula: "
        T = c * n / 2 * P * d^2 * s / D
        A = W / T
        F = pi / 4 * d^2 * P",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "pressure",
            "P",
            Dimension::GaugePressure,
            "20 psig",
            "600 psig",
            "boiler pressure; where a mean pressure in the cylinders is known, that, with a share of 1",
        ),
        Argument::quantity(
            "bore",
            "d",
            Dimension::Length,
            "3 in",
            "50 in",
            "bore of a cylinder as it is now",
        ),
        Argument::quantity("stroke", "s", Dimension::Length, "4 in", "48 in", "stroke"),
        Argument::quantity(
            "driver_diameter",
            "D",
            Dimension::Length,
            "10 in",
            "100 in",
            "diameter of the drivers over the tread as they are now",
        ),
        Argument::quantity(
            "adhesive_weight",
            "W",
            Dimension::Force,
            "1000 lb",
            "1000000 lb",
            "weight on the drivers",
        )
        .optional(),
        Argument::quantity(
            "cylinders",
            "n",
            Dimension::Count,
            "2",
            "4",
            "equal cylinders that take steam from the boiler",
        )
        .optional(),
        Argument::quantity(
            "share",
            "c",
            Dimension::Ratio,
            "0.3",
            "1",
            "share of the boiler pressure that is left as mean pressure on the pistons at starting",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "tractive_effort",
            "T",
            Dimension::Force,
            (0, 0),
            "pull at the rim of the drivers",
            RULE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "adhesion",
            "A",
            Dimension::Ratio,
            (2, 2),
            "factor of adhesion: the weight on the drivers over the pull",
            "weight over pull",
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "piston_thrust",
            "F",
            Dimension::Force,
            (0, 0),
            "push of full boiler pressure on the whole of one piston",
            AREA,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["simple"],
    validity: "Simple engines of equal cylinders at starting and slow running; a compound, a booster and any speed \
        want more than this. The rod takes its own area off the back of the piston; the thrust here leaves it on.",
    sources: &[
        Source {
            work: "Union Pacific 844, encyclopaedia revisions of 2006, 2009-2010 and 2018",
            locator: "table of dimensions",
            used_for: "the rule with 85 percent, checked on 25 x 32, 80 in, 300 psi",
        },
        Source {
            work: "Vose, Handbook of Railroad Construction",
            locator: "page 294 (read in a copy at bitlit.ru)",
            used_for: "the rule with a mean pressure",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "85 percent of boiler pressure; half as much again for three cylinders and twice for four",
        },
    ],
    cautions: &[
        "A figure of old papers is for a new bore and new tires: after boring or turning it is another.",
        "An engine may slip or burst its grip well under this on wet rail; nothing is tested by pulling against a stop.",
        "This sheet raises no pressure: the pressure is what the boiler is allowed.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The rated pull of a simple engine.
///
/// `share`: the share of boiler pressure left as mean pressure; `cylinders`: equal cylinders, two or more.
///
/// Source: work of the pistons over the round of the driver.
pub fn tractive_effort(
    pressure: GaugePressure,
    bore: Length,
    stroke: Length,
    driver: Length,
    cylinders: f64,
    share: f64,
) -> Force {
    let cylinder =
        pressure.to_pascals() * bore.to_m() * bore.to_m() * stroke.to_m() / driver.to_m();
    Force::newtons(share * cylinders / 2.0 * cylinder)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let pressure = GaugePressure::pascals(inputs.need_si("pressure")?);
    let bore = inputs.need_length("bore")?;
    let mut answer = Answer::new("simple");
    let mut taken = |argument: &'static str, text: &'static str, si: f64, why: &'static str| {
        inputs.si(argument).unwrap_or_else(|| {
            answer.assumptions.push(Assumption {
                argument,
                text,
                si,
                why,
            });
            si
        })
    };
    let share = taken(
        "share",
        "0.85",
        0.85,
        "the usual rating; an old builder's card may have another",
    );
    let cylinders = taken(
        "cylinders",
        "2",
        2.0,
        "nothing was said of a third cylinder",
    );
    let pull = tractive_effort(
        pressure,
        bore,
        inputs.need_length("stroke")?,
        inputs.need_length("driver_diameter")?,
        cylinders,
        share,
    );
    let thrust = PI / 4.0 * bore.to_m() * bore.to_m() * pressure.to_pascals();
    answer = answer
        .with("tractive_effort", pull)
        .with("piston_thrust", Force::newtons(thrust));
    if let Some(weight) = inputs.si("adhesive_weight") {
        let factor = weight / pull.to_newtons();
        answer = answer.with("adhesion", Outcome::Si(factor));
        if factor < 4.0 {
            answer.notices.push("A factor under 4 is an engine that slips easily: common practice kept it between 4 and 5.".into());
        }
    }
    Ok(answer)
}
