//! `boiler.stay`: the load on a stay, the metal that carries it, and the stress in it.
//!
//! A stay holds the sheet for half of the way to each of its neighbors, less the area that it fills itself. A stay that
//! leans carries the same load square to the sheet, and more along its own axis.

use crate::answer::{Answer, Assumption, TableValue};
use crate::boiler::{FORM_4, QUALIFIED, REVIEW, book, over, pressure_argument};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, math};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const STATICS: &str = "plane statics: pressure on the area that the stay holds";
const NET: &str = "49 CFR 230.25: stress is on the net section";
const STRAIGHT: &str = "square to the sheet";
const LEANING: &str = "leaning";
const FIELD: Symbol = Symbol::of(
    "A_p",
    Dimension::Area,
    "area of sheet between the stay and its neighbors",
    "the pitches given: mean of both sides, each way, multiplied",
);

static CARD: Card = Card {
    id: "boiler.stay",
    version: 1,
    title: "Load and stress of a stay",
    purpose: "What a staybolt, a through stay or a radial stay carries, on what net section, and with what stress; with \
        an allowed stress, also the pressure it may hold and the section it ought to have.",
    formula: "
        A_b = pi * D^2 / 4
        W = p * (A_p - A_b)
        L = W / cos(g)
        A = pi * (d^2 - h^2) / 4
        s = L / A
        P = S * A * cos(g) / (A_p - A_b)
        A_r = L / S",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::list(
            "pitches",
            Dimension::Length,
            "1 in",
            "40 in",
            (2, 4),
            "center to center each way: two where they are alike on both sides, or four: left, right, above, below; \
                for a radial stay measured on the sheet where they are longest",
        ),
        pressure_argument("pressure on the sheet"),
        Argument::quantity(
            "least_diameter",
            "d",
            Dimension::Length,
            "1/4 in",
            "6 in",
            "the least of thread root, reduced body and wasted body",
        ),
        Argument::quantity(
            "telltale",
            "h",
            Dimension::Length,
            "0 in",
            "1/2 in",
            "diameter of the telltale hole through that section; 0 in only where none reaches it",
        ),
        Argument::quantity(
            "angle",
            "g",
            Dimension::Angle,
            "0 deg",
            "60 deg",
            "angle between the stay and a line square to the sheet, the worse of its two ends",
        )
        .optional(),
        Argument::quantity(
            "outside",
            "D",
            Dimension::Length,
            "0 in",
            "6 in",
            "diameter of the stay where it fills the sheet",
        )
        .optional(),
        Argument::quantity(
            "allowable",
            "S",
            Dimension::Stress,
            "500 psi",
            "40000 psi",
            "stress that the rule in force allows this kind of stay",
        )
        .optional(),
    ],
    table_values: &[FIELD],
    lines: &[
        Symbol::of(
            "A_b",
            Dimension::Area,
            "area of sheet that the stay fills itself",
            "circle",
        ),
        Symbol::of(
            "W",
            Dimension::Force,
            "load of the sheet, square to it",
            STATICS,
        ),
    ],
    results: &[
        ResultSpec::quantity(
            "load",
            "L",
            Dimension::Force,
            (0, 0),
            "pull along the stay",
            STATICS,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "net_area",
            "A",
            Dimension::Area,
            (4, 1),
            "net section of the stay",
            "ring between circle and telltale",
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "stress",
            "s",
            Dimension::Stress,
            (0, 2),
            "stress on the net section",
            NET,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "allowed",
            "P",
            Dimension::GaugePressure,
            (0, 0),
            "pressure at which the stress is the one allowed",
            NET,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "required_area",
            "A_r",
            Dimension::Area,
            (4, 1),
            "net section that the pressure asks for",
            NET,
        )
        .rounded(Rounding::Up),
    ],
    branches: &[STRAIGHT, LEANING],
    validity: "A stay pulled along its axis, among neighbors that all hold. A broken, leaking or plugged neighbor throws \
        its field on those around it: give them the pitches that are left. Bending from the fire sheet's movement is not \
        worked, and is what breaks most staybolts. Stays near a corner or a flange may hold less.",
    sources: &[
        Source {
            work: "US 49 CFR 230",
            locator: "sections 230.25, 230.38 and 230.39, 2015 edition",
            used_for: "stress taken on the net section; telltale holes",
        },
        Source {
            work: "Laying Out for Boiler Makers (1907)",
            locator: "a through stay of 226.56 sq in at 175 psi (copy at afripics.com)",
            used_for: "a worked load, as evidence",
        },
        Source {
            work: "From memory",
            locator: "no page",
            used_for: "that the area of the stay itself is taken off, and that a radial stay's area is measured on the \
                longer of the two sheets; plane statics says the same",
        },
    ],
    cautions: &[
        REVIEW,
        FORM_4,
        "A telltale that leaks, is plugged or is missing counts as a broken stay. Find how many are broken, and how near \
            each other, before working the stress of any.",
        "Measure the thinnest place of the stay, which is often just inside the sheet, where nobody sees it.",
        QUALIFIED,
    ],
    closed_form: ClosedForm::Yes,
};

/// Area, square inches, that a stay holds, from its pitches in inches: two, or four as left, right, above, below.
/// None for any other number of them.
///
/// Source: plane statics; half of the way to each neighbor.
pub fn field(pitches: &[f64]) -> Option<f64> {
    match pitches {
        [across, along] => Some(across * along),
        [left, right, above, below] => Some((left + right) * (above + below) / 4.0),
        _ => None,
    }
}

/// Net section, square inches, of a stay of `diameter` inches with a hole of `telltale` inches through it.
///
/// Source: plane geometry.
pub fn net_area(diameter: f64, telltale: f64) -> f64 {
    PI * (diameter * diameter - telltale * telltale) / 4.0
}

/// Pull, lbf, along a stay that leans by `angle` degrees, under `pressure` psi on `area` square inches.
///
/// Source: plane statics.
pub fn load(pressure: f64, area: f64, angle: f64) -> f64 {
    pressure * area / math::cos_deg(angle)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let pitches = inputs.list_inch("pitches");
    let area = field(&pitches).ok_or_else(|| {
        let expected = "two pitches, or four: left, right, above, below";
        SheetError::impossible(
            CARD.id,
            format!("{} pitches were given", pitches.len()),
            expected,
        )
    })?;
    let pressure = inputs.need_inch("pressure")?;
    let (diameter, hole) = (
        inputs.need_inch("least_diameter")?,
        inputs.need_inch("telltale")?,
    );
    if hole >= diameter {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a telltale of {hole:.4} in leaves nothing of a stay of {diameter:.4} in"),
            "telltale smaller than least_diameter",
        ));
    }
    let outside = inputs.inch("outside");
    let filled = net_area(outside.unwrap_or(0.0), 0.0);
    if filled >= area {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "a stay of {:.4} in fills its whole field",
                outside.unwrap_or(0.0)
            ),
            "outside well under the pitches",
        ));
    }
    let angle = inputs.inch("angle");
    let leans = angle.unwrap_or(0.0);
    let net = net_area(diameter, hole);
    let pull = load(pressure, area - filled, leans);
    let stress = pull / net;
    let branch = if leans > 0.0 { LEANING } else { STRAIGHT };
    let mut answer = Answer::new(branch)
        .with("load", book(Dimension::Force, pull))
        .with("net_area", book(Dimension::Area, net))
        .with("stress", book(Dimension::Stress, stress));
    if let Some(allowed) = inputs.inch("allowable") {
        let held = allowed * net / load(1.0, area - filled, leans);
        answer = answer
            .with("allowed", book(Dimension::GaugePressure, held))
            .with("required_area", book(Dimension::Area, pull / allowed));
        if over(stress, allowed) {
            answer.notices.push(
                "The stress is over the one allowed: stop and show it to the responsible officer."
                    .to_owned(),
            );
        }
    }
    if angle.is_none() {
        answer.assumptions.push(Assumption {
            argument: "angle",
            text: "0 deg",
            si: 0.0,
            why: "the stay is taken as square to the sheet; one that leans pulls harder, so measure it",
        });
    }
    if outside.is_none() {
        answer.assumptions.push(Assumption {
            argument: "outside",
            text: "0 in",
            si: 0.0,
            why: "nothing is taken off for the stay itself, which makes the load a little high",
        });
    }
    answer.found = vec![TableValue::inch_book(FIELD, area, FIELD.source)];
    Ok(answer)
}
