//! `running.rod_centers`: whether a rod is as long as its wheels are apart.
//!
//! A side rod ties two crank pins that go round with their axles. Where rod and wheels differ, the difference is taken up
//! in the clearance of the two pins, twice a turn; where there is not enough of it the rod binds.

use crate::answer::{Answer, cannot_tell};
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

const TRAM: &str = "rod and wheels with one tram";
const PINS: &str = "a pin can give half its clearance to either side";

static CARD: Card = Card {
    id: "running.rod_centers",
    version: 1,
    title: "Rod centers against wheel centers",
    purpose: "A rod's length from bore to bore beside the distance of its axles, both with one tram, and whether the clearance of \
        its two pins takes up the difference.",
    formula: "
        e = r - x
        g = (c_a + c_b) / 2
        f = g - abs(e)
        l = m - abs(e)",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "rod_centers",
            "r",
            Dimension::Length,
            "5 in",
            "300 in",
            "the rod, middle of bore to middle of bore",
        ),
        Argument::quantity(
            "wheel_centers",
            "x",
            Dimension::Length,
            "5 in",
            "300 in",
            "the axles, middle to middle on the same side, boxes against the shoes as they run",
        ),
        Argument::quantity(
            "clearance_a",
            "c_a",
            Dimension::Length,
            "0 in",
            "1 in",
            "running clearance on one pin, on the diameter",
        )
        .optional(),
        Argument::quantity(
            "clearance_b",
            "c_b",
            Dimension::Length,
            "0 in",
            "1 in",
            "running clearance on the other pin",
        )
        .optional(),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.001 in",
            "1 in",
            "the most they may differ, by the shop's own rule; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "difference",
            "e",
            Dimension::Length,
            (4, 3),
            "the rod over the wheels; with a minus, it is short",
            TRAM,
        ),
        ResultSpec::quantity(
            "give",
            "g",
            Dimension::Length,
            (4, 3),
            "what the two pins can take up",
            PINS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "free",
            "f",
            Dimension::Length,
            (4, 3),
            "what is left free; with a minus, the rod binds by it",
            PINS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what is left of the limit; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("runs_free", "whether the pins take it up", PINS),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["rod"],
    validity: "Rod and frame at one temperature, pins round and square. Quartering and worn boxes add their own differences.",
    sources: &[Source {
        work: "Common practice",
        locator: "no source",
        used_for: "the tram of rods and wheels; the law has no figure for it",
    }],
    cautions: &[
        "A rod that binds breaks pins and bends rods at speed: try the engine over slowly, every quarter, before she runs.",
        "Rods weigh more than anyone lifts: rated slings, the engine's wheels blocked, nobody between the spokes.",
        "Take up wedges first, then tram: a slack wedge moves the axle more than this sheet is about.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let difference = more(
        inputs.need_si("rod_centers")?,
        inputs.need_si("wheel_centers")?,
    );
    let of = |name| inputs.si(name);
    let apart = difference.abs();
    let give = of("clearance_a")
        .zip(of("clearance_b"))
        .map(|(a, b)| (a + b) / 2.0);
    let free = give.map(|give| more(give, apart));
    let runs = match give {
        Some(give) if Bound::AtMost.holds(apart, give) => "it does".to_owned(),
        Some(_) => "it does not: the rod binds".to_owned(),
        None => cannot_tell(&inputs.wanting(&["clearance_a", "clearance_b"])),
    };
    let held = Held::default().hold(
        "difference",
        (Some(apart), "rod_centers"),
        Bound::AtMost,
        (of("limit"), "limit"),
    );
    let mut answer = Answer::new("rod")
        .with("difference", Length::m(difference))
        .with("runs_free", runs)
        .with("complies", held.words());
    if let Some((give, free)) = give.zip(free) {
        answer = answer
            .with("give", Length::m(give))
            .with("free", Length::m(free));
    }
    match of("limit") {
        Some(limit) => answer = answer.with("left", Length::m(more(limit, apart))),
        None => answer.notices.push(NOT_GIVEN.to_owned()),
    }
    Ok(answer)
}
