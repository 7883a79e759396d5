//! `running.wheel_gauge`: the distance between the backs of a pair of wheels, and how it varies round the axle.
//!
//! On standard gauge the law limits the distance itself; on a narrow gauge it limits what is left of the track's gauge
//! beside it, so one pair of figures serves every gauge. The sheet holds whichever of the two the figures are for.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use crate::readings::{ends, governing, more, which};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const STANDARD: &str = "the distance itself";
const NARROW: &str = "track gauge less the distance";
const READ: &str = "the readings round the axle";

const LARGEST: Symbol = Symbol::of(
    "g_x",
    Dimension::Length,
    "largest distance between the backs",
    READ,
);
const SMALLEST: Symbol = Symbol::of(
    "g_n",
    Dimension::Length,
    "smallest distance between the backs",
    READ,
);
const HIGH: Symbol = Symbol::of(
    "q_x",
    Dimension::Length,
    "largest of what the figures are for",
    READ,
);
const LOW: Symbol = Symbol::of(
    "q_n",
    Dimension::Length,
    "smallest of what the figures are for",
    READ,
);

static CARD: Card = Card {
    id: "running.wheel_gauge",
    version: 1,
    title: "Wheels back to back",
    purpose: "The distance between the backs of a pair of wheels, read at three places round the axle or more: how much it \
        varies, and what is left to either end of what is allowed.",
    formula: "
        v = g_x - g_n
        l_v = m_v - v
        l_n = q_n - a
        l_x = b - q_x",
    book_units: None,
    arguments: &[
        Argument::word(
            "gauge",
            &["standard", "narrow"],
            "standard, where the figures are for the distance itself; narrow, where they are for the track's gauge less \
             that distance",
        ),
        Argument::list(
            "inside",
            Dimension::Length,
            "10 in",
            "80 in",
            (1, 12),
            "readings of the distance between the backs, on the base line, places round the axle",
        ),
        Argument::quantity(
            "track_gauge",
            "g_t",
            Dimension::Length,
            "15 in",
            "90 in",
            "gauge of the track, where it is narrow",
        )
        .optional(),
        figure(
            "least",
            "a",
            Dimension::Length,
            "1 in",
            "80 in",
            "the least that is allowed, by the law in force; the figure itself passes",
        ),
        figure(
            "most",
            "b",
            Dimension::Length,
            "1 in",
            "80 in",
            "the most that is allowed, by the law in force; the figure itself passes",
        ),
        figure(
            "variation_limit",
            "m_v",
            Dimension::Length,
            "0.01 in",
            "2 in",
            "the most it may vary round one axle, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[LARGEST, SMALLEST, HIGH, LOW],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "variation",
            "v",
            Dimension::Length,
            (4, 3),
            "how much the distance varies round the axle",
            READ,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "variation_left",
            "l_v",
            Dimension::Length,
            (4, 3),
            "what is left of that",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "above_least",
            "l_n",
            Dimension::Length,
            (4, 3),
            "what is left to the least allowed; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "below_most",
            "l_x",
            Dimension::Length,
            (4, 3),
            "what is left to the most allowed; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figures given", FIGURE),
    ],
    branches: &[STANDARD, NARROW],
    validity: "Wheels on their own weight on level track: a wheel set hung or set on the floor by its tires reads otherwise. \
        Say how it was supported.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.112(b) and (c)",
        used_for: "where it is measured, and that narrow gauge goes by the track; no figure of it is in this sheet",
    }],
    cautions: &[
        "A distance that has grown since it was last read is a wheel moving on its axle: out of service, and look at the witness \
            marks.",
        "Block the wheels and protect the track before anyone goes between them.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let inside = inputs.list_si("inside");
    let (least, most) = ends(inputs, "inside")?;
    let narrow = inputs.word("gauge") == Some("narrow");
    let track = inputs.si("track_gauge");
    // What the figures are for: the distance itself, or what it leaves of the track's gauge.
    let (low, high) = match (narrow, track) {
        (false, _) => (Some(least), Some(most)),
        (true, None) => (None, None),
        (true, Some(track)) if track <= most => {
            return Err(SheetError::impossible(
                CARD.id,
                "the backs stand farther apart than the rails",
                "readings between the backs of the wheels, smaller than the gauge of the track",
            ));
        }
        (true, Some(track)) => (Some(more(track, most)), Some(more(track, least))),
    };
    let of = |name| inputs.si(name);
    let variation = more(most, least);
    let mut held = Held::default()
        .hold(
            "least",
            (low, "track_gauge"),
            Bound::AtLeast,
            (of("least"), "least"),
        )
        .hold(
            "most",
            (high, "track_gauge"),
            Bound::AtMost,
            (of("most"), "most"),
        )
        .hold(
            "variation round the axle",
            (Some(variation), "inside"),
            Bound::AtMost,
            (of("variation_limit"), "variation_limit"),
        );
    if inside.len() < 3 {
        held = held.need("three places round the axle");
    }
    let mut answer = Answer::new(if narrow { NARROW } else { STANDARD })
        .with("variation", Length::m(variation))
        .with("complies", held.words());
    if let Some(limit) = of("variation_limit") {
        answer = answer.with("variation_left", Length::m(more(limit, variation)));
    }
    // What is left to a figure: the larger of the two less the smaller.
    let sides = [
        ("above_least", low, of("least"), "least"),
        ("below_most", of("most"), high, "most"),
    ];
    for (result, over, under, figure) in sides {
        answer = match over.zip(under) {
            Some((over, under)) => answer.with(result, Length::m(more(over, under))),
            None if narrow => answer.waiting(&[result], &inputs.wanting(&[figure, "track_gauge"])),
            None => answer.waiting(&[result], &inputs.wanting(&[figure])),
        };
    }
    if !inputs
        .wanting(&["least", "most", "variation_limit"])
        .is_empty()
    {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    let mut found = vec![
        governing(LARGEST, most, which("largest", inside, "distance")),
        governing(SMALLEST, least, which("smallest", inside, "distance")),
    ];
    if let Some((low, high)) = low.zip(high) {
        let (of_high, of_low) = if narrow {
            (
                "track gauge less the smallest distance",
                "track gauge less the largest distance",
            )
        } else {
            ("the largest distance", "the smallest distance")
        };
        found.push(governing(HIGH, high, of_high));
        found.push(governing(LOW, low, of_low));
    }
    answer.found = found;
    Ok(answer)
}
