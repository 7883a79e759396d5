//! `boiler.ligament`: what share of solid plate the bridges between a row of tube holes leave.

use crate::answer::{Answer, TableValue};
use crate::boiler::{FORM_4, MEASURED, QUALIFIED, REVIEW, book};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::readings::ends;
use measure::{Dimension, House, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const RULE: &str = "plate left between the holes over plate between their centers";
const EQUAL: &str = "equal pitches";
const UNEQUAL: &str = "unequal pitches";
const REPEAT: Symbol = Symbol::of(
    "p",
    Dimension::Length,
    "length over which the holes repeat",
    "the pitches given, added",
);
const HOLES: Symbol = Symbol::of(
    "n",
    Dimension::Count,
    "holes in that length",
    "the pitches given, counted",
);
const LEAST: Symbol = Symbol::of(
    "p_min",
    Dimension::Length,
    "the shortest of the pitches",
    "the pitches given",
);

static CARD: Card = Card {
    id: "boiler.ligament",
    version: 1,
    title: "Efficiency of the ligaments between holes",
    purpose: "A row of holes along a shell weakens it as a seam does. What share of the solid plate is left, for holes \
        in a straight row at equal or repeating pitches; the shell takes the less of this and of its seam.",
    formula: "
        E = (p - n * d) / p
        w = p_min - d
        E_n = E / 2
        E_c = (c - d) / c",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::list(
            "pitches",
            Dimension::Length,
            "1/2 in",
            "24 in",
            (1, 12),
            "center to center along the shell, one value for equal pitches or one after the other until they \
                repeat: 5 1/4 in, 6 3/4 in",
        ),
        Argument::quantity(
            "hole",
            "d",
            Dimension::Length,
            "1/8 in",
            "8 in",
            "diameter of the holes as they are now, reamed or worn",
        ),
        Argument::quantity(
            "girth_pitch",
            "c",
            Dimension::Length,
            "1/2 in",
            "24 in",
            "center to center around the shell, for holes that also stand in rows around it",
        )
        .optional(),
    ],
    table_values: &[REPEAT, HOLES, LEAST],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "efficiency",
            "E",
            Dimension::Ratio,
            (3, 3),
            "share of the solid plate along the shell",
            RULE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "narrowest",
            "w",
            Dimension::Length,
            (4, 3),
            "the narrowest bridge",
            "pitch less hole",
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "girth_least",
            "E_n",
            Dimension::Ratio,
            (3, 3),
            "what ligaments loaded around the shell must have at least",
            "Indian Boiler Regulations 1950, reg. 215: half",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "girth_efficiency",
            "E_c",
            Dimension::Ratio,
            (3, 3),
            "what they have",
            RULE,
        )
        .rounded(Rounding::Down),
    ],
    branches: &[EQUAL, UNEQUAL],
    validity: "Holes of one size in a straight row along the shell. Staggered holes can tear along the diagonal: the \
        rule for that is read off a chart, and no chart or formula with a source is on file here, so such a row must be \
        worked from the code of construction.",
    sources: &[Source {
        work: "Indian Boiler Regulations 1950",
        locator: "regulation 215 (dipp.gov.in)",
        used_for: "both forms, the half of the girthwise ligaments, and three worked examples",
    }],
    cautions: &[REVIEW, FORM_4, MEASURED, QUALIFIED],
    closed_form: ClosedForm::Yes,
};

/// Share of solid plate left by holes of `hole` inches at these repeating `pitches`, inches.
///
/// Source: Indian Boiler Regulations 1950, regulation 215.
pub fn efficiency(pitches: &[f64], hole: f64) -> f64 {
    let length: f64 = pitches.iter().sum();
    (length - pitches.len() as f64 * hole) / length
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let pitches = inputs.list_inch("pitches");
    let (least, most) = ends(inputs, "pitches")?;
    let [least, most] = [least, most].map(|pitch| Length::m(pitch).to_inches());
    let hole = inputs.need_inch("hole")?;
    let girth = inputs.inch("girth_pitch");
    if least.min(girth.unwrap_or(least)) <= hole {
        return Err(SheetError::impossible(
            CARD.id,
            format!("holes of {hole:.4} in leave no plate between them"),
            "every pitch longer than the hole is wide",
        ));
    }
    let share = efficiency(&pitches, hole);
    let branch = if most - least < 1e-9 { EQUAL } else { UNEQUAL };
    let ratio = |value: f64| book(Dimension::Ratio, value);
    let mut answer = Answer::new(branch)
        .with("efficiency", ratio(share))
        .with("narrowest", book(Dimension::Length, least - hole))
        .with("girth_least", ratio(share / 2.0));
    let value = |symbol: Symbol, value: f64| TableValue::inch_book(symbol, value, symbol.source);
    answer.found = vec![
        value(REPEAT, pitches.iter().sum()),
        value(HOLES, pitches.len() as f64),
        value(LEAST, least),
    ];
    if let Some(pitch) = girth {
        let around = (pitch - hole) / pitch;
        answer = answer.with("girth_efficiency", ratio(around));
        if around < share / 2.0 {
            answer.notices.push(
                "The ligaments around the shell are weaker than half of those along it: they govern, and this \
                 sheet does not say at what pressure."
                    .to_owned(),
            );
        }
    }
    answer.notices.push(
        "If the holes stand staggered, the diagonal may be the weakest line: it is not worked here.".to_owned(),
    );
    Ok(answer)
}
