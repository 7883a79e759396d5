//! `running.quarter`: how far the crank pins of an axle are from a quarter turn apart, and whether the axles agree.
//!
//! An axle whose pins are not quite a quarter apart still runs, if every axle coupled to it is out by as much the same way.
//! What breaks rods is the difference between axles.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use crate::readings::{ends, governing, more};
use measure::{Angle, Dimension, Length, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const CIRCLE: &str = "sine of the angle: the offset over the throw";
const READ: &str = "the readings, axle by axle";
const MOST: Symbol = Symbol::of("o_x", Dimension::Length, "largest offset of any axle", READ);
const LEAST: Symbol = Symbol::of(
    "o_n",
    Dimension::Length,
    "smallest offset of any axle",
    READ,
);

static CARD: Card = Card {
    id: "running.quarter",
    version: 1,
    title: "Quartering of coupled axles",
    purpose: "How far each axle's pins stand from a quarter turn, as an angle, and how far the axles differ: with one side's pins on \
        the line of centers, the offset of the other side's pin from square.",
    formula: "
        r = t / 2
        a_x = asin(o_x / r)
        a_n = asin(o_n / r)
        a = a_x - a_n
        d = o_x - o_n
        l = m - d",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "stroke",
            "t",
            Dimension::Length,
            "4 in",
            "48 in",
            "stroke: twice the throw of the pins",
        ),
        Argument::list(
            "offsets",
            Dimension::Length,
            "-1 in",
            "1 in",
            (2, 8),
            "offset of the pin from square, axle by axle, all from the same side; leading is plus, lagging minus",
        ),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.001 in",
            "1 in",
            "the most the axles may differ, by the shop's own rule; the figure itself passes",
        ),
    ],
    table_values: &[MOST, LEAST],
    lines: &[Symbol::of(
        "r",
        Dimension::Length,
        "throw of the pins",
        CIRCLE,
    )],
    results: &[
        ResultSpec::quantity(
            "most",
            "a_x",
            Dimension::Angle,
            (3, 3),
            "the axle farthest ahead, from square",
            CIRCLE,
        ),
        ResultSpec::quantity(
            "least",
            "a_n",
            Dimension::Angle,
            (3, 3),
            "the axle farthest behind, from square",
            CIRCLE,
        ),
        ResultSpec::quantity(
            "angle_between",
            "a",
            Dimension::Angle,
            (3, 3),
            "how far these two differ",
            CIRCLE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "difference",
            "d",
            Dimension::Length,
            (4, 3),
            "the same at the pins",
            READ,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what is left of the limit; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["axles"],
    validity: "Pins round and of one throw, wedges up. 1/64 in is often quoted for new work, from memory and without a source; the law \
        has no figure.",
    sources: &[Source {
        work: "Common practice",
        locator: "no source",
        used_for: "axles are compared with each other and not with a perfect quarter",
    }],
    cautions: &[
        "A pin is moved by pressing the wheel or truing the pin on a quartering machine: never by easing the bushings.",
        "Block the wheels before anyone goes among the rods.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The angle from square of a pin that stands `offset` off at a throw of `throw`. None where it cannot.
pub fn from_square(offset: Length, throw: Length) -> Option<Angle> {
    let sine = offset.to_m() / throw.to_m();
    (sine.abs() <= 1.0).then(|| Angle::radians(math::asin(sine)))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let throw = Length::m(inputs.need_si("stroke")? / 2.0);
    let offsets = inputs.list_si("offsets");
    let (least, most) = ends(inputs, "offsets")?;
    let angle = |offset| {
        from_square(Length::m(offset), throw).ok_or_else(|| {
            SheetError::impossible(
                CARD.id,
                "a pin is farther off than its throw",
                "offsets smaller than half the stroke",
            )
        })
    };
    let (ahead, behind) = (angle(most)?, angle(least)?);
    let apart = more(most, least);
    let limit = inputs.si("limit");
    let held = Held::default().hold(
        "difference of the axles",
        (Some(apart), "offsets"),
        Bound::AtMost,
        (limit, "limit"),
    );
    let mut answer = Answer::new("axles")
        .with("most", ahead)
        .with("least", behind)
        .with(
            "angle_between",
            Angle::radians(ahead.to_radians() - behind.to_radians()),
        )
        .with("difference", Length::m(apart))
        .with("complies", held.words());
    match limit {
        Some(limit) => answer = answer.with("left", Length::m(more(limit, apart))),
        None => answer.notices.push(NOT_GIVEN.to_owned()),
    }
    let axle = |offset: f64| {
        offsets
            .iter()
            .position(|known| *known == offset)
            .map_or(0, |at| at + 1)
    };
    answer.found.push(governing(
        MOST,
        most,
        format!("the largest, of axle {}", axle(most)),
    ));
    answer.found.push(governing(
        LEAST,
        least,
        format!("the smallest, of axle {}", axle(least)),
    ));
    Ok(answer)
}
