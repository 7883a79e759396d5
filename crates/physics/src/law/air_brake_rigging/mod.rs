//! `air.brake_rigging`: what a brake cylinder puts on the shoes through its levers.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::readings::governing;
use measure::{Dimension, Force, House, Rounding};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const PISTON: &str = "pressure on the piston";
const LEVER: &str = "a lever: force goes as the arms";
const LEVERAGE: Symbol = Symbol::of(
    "k",
    Dimension::Ratio,
    "leverage: the arms of all levers multiplied",
    LEVER,
);

static CARD: Card = Card {
    id: "air.brake_rigging",
    version: 1,
    title: "Force of a brake through its rigging",
    purpose: "The force of the brake cylinders, what the levers make of it at the shoes, what each shoe gets, and what share of the \
        weight on the braked wheels that is.",
    formula: "
        f_c = pi / 4 * d^2 * p * c
        f_t = f_c * k * e
        f_s = f_t / n
        b = f_t / w",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "cylinder",
            "d",
            Dimension::Length,
            "2 in",
            "30 in",
            "bore of the brake cylinder",
        ),
        Argument::quantity(
            "cylinders",
            "c",
            Dimension::Count,
            "1",
            "8",
            "brake cylinders that work this rigging",
        ),
        Argument::quantity(
            "pressure",
            "p",
            Dimension::GaugePressure,
            "1 psig",
            "150 psig",
            "pressure in them",
        ),
        Argument::list(
            "levers",
            Dimension::Ratio,
            "0.05",
            "20",
            (1, 8),
            "each lever in the line: arm of the effort over arm of the load, such as 18/6 or 3",
        ),
        Argument::quantity(
            "shoes",
            "n",
            Dimension::Count,
            "1",
            "48",
            "shoes that share it",
        ),
        Argument::quantity(
            "efficiency",
            "e",
            Dimension::Ratio,
            "0.3",
            "1",
            "share that reaches the shoes: 1 for the rigging as drawn; pins and springs take some, and how much is measured, not guessed",
        ),
        Argument::quantity(
            "weight",
            "w",
            Dimension::Force,
            "1000 lb",
            "1000000 lb",
            "weight on the wheels that are braked",
        )
        .optional(),
    ],
    table_values: &[LEVERAGE],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "piston_force",
            "f_c",
            Dimension::Force,
            (0, 0),
            "force of the pistons",
            PISTON,
        ),
        ResultSpec::quantity(
            "total_force",
            "f_t",
            Dimension::Force,
            (0, 0),
            "force on all shoes together",
            LEVER,
        ),
        ResultSpec::quantity(
            "shoe_force",
            "f_s",
            Dimension::Force,
            (0, 0),
            "force on each shoe",
            LEVER,
        ),
        ResultSpec::quantity(
            "braking_ratio",
            "b",
            Dimension::Ratio,
            (3, 3),
            "share of the weight on the braked wheels",
            LEVER,
        )
        .rounded(Rounding::Up),
    ],
    branches: &["rigging"],
    validity: "Levers about square to their rods with the brake on, shoes sharing alike, release springs left out.",
    sources: &[
        Source {
            work: "Air Brakes, an up-to-date treatise on the Westinghouse air brake (read in a picture of a page, afripics D336AA66)",
            locator: "page 101",
            used_for: "force is carried lever by lever: 4,500 lb, then 1,500, then 6,000 at each of four beams, 24,000 in all",
        },
        Source {
            work: "Railway and Locomotive Engineering, October 1901 (read in a picture of the page, afripics FCDEA189)",
            locator: "brake leverage, continued",
            used_for: "an 8 in cylinder counted at 2,500 lb, in round figures",
        },
    ],
    cautions: &[
        "Too much brake slides wheels and wears flats; too little does not stop her. What share is right is for the maker's data and \
            the officer, not this sheet.",
        "A change of one lever changes the travel of the piston too: work air.piston_travel again.",
        "Block the wheels, let the air out and lock it out before hands go near the rigging: a brake that goes on takes fingers.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |name| inputs.need_inch(name);
    let (bore, cylinders, pressure) = (of("cylinder")?, of("cylinders")?, of("pressure")?);
    let leverage: f64 = inputs.list_si("levers").iter().product();
    let piston = PI / 4.0 * bore * bore * pressure * cylinders;
    let total = piston * leverage * of("efficiency")?;
    let mut answer = Answer::new("rigging")
        .with("piston_force", Force::lbf(piston))
        .with("total_force", Force::lbf(total))
        .with("shoe_force", Force::lbf(total / of("shoes")?));
    if let Some(weight) = inputs.inch("weight") {
        answer = answer.with("braking_ratio", Outcome::Si(total / weight));
    }
    let count = inputs.list_si("levers").len();
    answer.found.push(governing(
        LEVERAGE,
        leverage,
        format!("the arms of {count} levers multiplied"),
    ));
    Ok(answer)
}
