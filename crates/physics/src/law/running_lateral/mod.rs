//! `running.lateral`: how far a wheel pair may go from side to side between its boxes.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, figure, spare};
use crate::readings::more;
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The wheel pairs that differ in their limit.
pub const POSITIONS: [&str; 4] = [
    "driver",
    "engine-truck-swing",
    "engine-truck-rigid",
    "trailing-truck",
];

const SUM: &str = "the two gaps together";

static CARD: Card = Card {
    id: "running.lateral",
    version: 1,
    title: "Lateral between hubs and boxes",
    purpose: "The whole play of a wheel pair from side to side, what is left of the most allowed, and how thick the liner on \
        each hub face must be to come back to a play wanted with the pair in the middle.",
    formula: "
        t = a + b
        l = m - t
        u = t / m
        h = (a - b) / 2
        y = (t - g) / 2",
    book_units: None,
    arguments: &[
        Argument::word(
            "position",
            &POSITIONS,
            "which wheel pair it is: its limit hangs on it",
        ),
        Argument::quantity(
            "left_side",
            "a",
            Dimension::Length,
            "0 in",
            "4 in",
            "gap between hub and box, left",
        ),
        Argument::quantity(
            "right_side",
            "b",
            Dimension::Length,
            "0 in",
            "4 in",
            "gap between hub and box, right, read with the pair in the same place",
        ),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.05 in",
            "6 in",
            "the most the play may be, by the law in force; the figure itself passes",
        ),
        Argument::quantity(
            "wanted",
            "g",
            Dimension::Length,
            "0 in",
            "4 in",
            "the play to come back to",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "lateral",
            "t",
            Dimension::Length,
            (4, 3),
            "whole play from side to side",
            SUM,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what is left; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "used",
            "u",
            Dimension::Ratio,
            (2, 2),
            "share of the limit that is used",
            FIGURE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "off_center",
            "h",
            Dimension::Length,
            (4, 3),
            "how far the pair stands to the right of its middle; to the left, with a minus",
            SUM,
        ),
        ResultSpec::quantity(
            "liner",
            "y",
            Dimension::Length,
            (4, 3),
            "thickness to add on each side for the play wanted; with a minus, to take off",
            SUM,
        ),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["hubs and boxes"],
    validity: "Both gaps read with the pair standing in one place, boxes square to the frame.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.105",
        used_for: "the whole play of a pair is what is limited; no figure of it is in this sheet",
    }],
    cautions: &[
        "Wheels, rods and pins must clear everything else with the play at its most, on the sharpest curve she takes.",
        "Block the wheels and protect the track before anyone goes between them.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (a, b) = (inputs.need_si("left_side")?, inputs.need_si("right_side")?);
    let (total, limit) = (a + b, inputs.si("limit"));
    let held = Held::default().hold(
        "lateral",
        (Some(total), "left_side"),
        Bound::AtMost,
        (limit, "limit"),
    );
    let mut answer = Answer::new("hubs and boxes")
        .with("lateral", Length::m(total))
        .with("off_center", Length::m(more(a, b) / 2.0))
        .with("complies", held.words());
    answer = spare(answer, total, limit);
    if let Some(wanted) = inputs.si("wanted") {
        answer = answer.with("liner", Length::m(more(total, wanted) / 2.0));
    }
    Ok(answer)
}
