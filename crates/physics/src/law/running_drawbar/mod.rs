//! `running.drawbar`: how far engine and tender can move apart, and how hard the buffer between them is pressed.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use crate::readings::more;
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const MEASURED: &str = "one distance off the other";
const NONE: &str = "no spring buffer";
const SPRING: &str = "a spring buffer";

static CARD: Card = Card {
    id: "running.drawbar",
    version: 1,
    title: "Lost motion between engine and tender",
    purpose: "How far engine and tender move between pull and push, from a distance marked across both; with a spring \
        buffer, how far its spring is pressed together as it stands.",
    formula: "
        y = g_x - g_n
        l = m - y
        z = f - i
        l_z = z - z_m
        i_m = f - z_m
        g_m = g_n + m",
    book_units: None,
    arguments: &[
        Argument::word(
            "buffer",
            &["none", "spring"],
            "whether a spring buffer stands between engine and tender",
        ),
        Argument::quantity(
            "pulled",
            "g_x",
            Dimension::Length,
            "0.1 in",
            "120 in",
            "distance between two marks, pulled apart",
        )
        .optional(),
        Argument::quantity(
            "pushed",
            "g_n",
            Dimension::Length,
            "0.1 in",
            "120 in",
            "distance between the same marks, pushed together",
        )
        .optional(),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.01 in",
            "6 in",
            "the most they may move where no spring buffer is, by the law in force; the figure itself passes",
        ),
        Argument::quantity(
            "free_length",
            "f",
            Dimension::Length,
            "1 in",
            "60 in",
            "length of the buffer's spring, free",
        )
        .optional(),
        Argument::quantity(
            "fitted_length",
            "i",
            Dimension::Length,
            "1 in",
            "60 in",
            "its length as it stands, coupled and at rest",
        )
        .optional(),
        figure(
            "least_compression",
            "z_m",
            Dimension::Length,
            "0.01 in",
            "12 in",
            "the least it must be pressed, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "lost_motion",
            "y",
            Dimension::Length,
            (4, 3),
            "how far they move",
            MEASURED,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what is left of the most allowed; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "compression",
            "z",
            Dimension::Length,
            (4, 3),
            "how far the spring is pressed",
            MEASURED,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "compression_over",
            "l_z",
            Dimension::Length,
            (4, 3),
            "what it is over the least wanted; with a minus, what is wanting",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "longest_fitted",
            "i_m",
            Dimension::Length,
            (4, 3),
            "the longest the spring may stand",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "farthest_pulled",
            "g_m",
            Dimension::Length,
            (4, 3),
            "the most the marks may stand apart when pulled",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &[NONE, SPRING],
    validity: "Straight level track. With a spring buffer the chafing faces must also touch at all times, which no figure tells.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.90",
        used_for: "what is measured with and without a spring buffer; no figure of it is in this sheet",
    }],
    cautions: &[
        "Nobody between engine and tender while either moves: block both, and set the tender's hand brake.",
        "The safety bars or chains must carry their part if the pin goes: look at them with the drawbar.",
        "Pins and eyes are looked at for cracks whenever they are out; no welding on a drawbar without its maker's word and the law's.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |name| inputs.si(name);
    let apart = |long: &'static str, short: &'static str| match of(long).zip(of(short)) {
        Some((large, small)) if large < small => Err(SheetError::impossible(
            CARD.id,
            format!("{long} is smaller than {short}"),
            "the larger distance first: the two may have been changed over",
        )),
        Some((large, small)) => Ok(Some(more(large, small))),
        None => Ok(None),
    };
    let motion = apart("pulled", "pushed")?;
    let pressed = apart("free_length", "fitted_length")?;
    let (limit, least) = (of("limit"), of("least_compression"));
    let spring = inputs.word("buffer") == Some("spring");
    let (branch, held, figure) = if spring {
        let from = inputs.wanting(&["free_length", "fitted_length"]).join(", ");
        let held = Held::default().hold(
            "compression of the buffer",
            (pressed, &from),
            Bound::AtLeast,
            (least, "least_compression"),
        );
        (SPRING, held, least)
    } else {
        let from = inputs.wanting(&["pulled", "pushed"]).join(", ");
        let held = Held::default().hold(
            "lost motion",
            (motion, &from),
            Bound::AtMost,
            (limit, "limit"),
        );
        (NONE, held, limit)
    };
    let mut answer = Answer::new(branch).with("complies", held.words());
    for (result, value) in [
        ("lost_motion", motion),
        (
            "left",
            limit.zip(motion).map(|(limit, motion)| more(limit, motion)),
        ),
        ("compression", pressed),
        (
            "compression_over",
            pressed
                .zip(least)
                .map(|(pressed, least)| more(pressed, least)),
        ),
        (
            "longest_fitted",
            of("free_length")
                .zip(least)
                .map(|(free, least)| more(free, least)),
        ),
        (
            "farthest_pulled",
            of("pushed")
                .zip(limit)
                .map(|(pushed, limit)| pushed + limit),
        ),
    ] {
        if let Some(value) = value {
            answer = answer.with(result, Length::m(value));
        }
    }
    if figure.is_none() {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    Ok(answer)
}
