//! `running.piston_clearance`: what stands between piston and heads at the ends of the stroke, and how to split it.

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

const BUMP: &str = "bump marks: where the piston strikes and where it stops";

static CARD: Card = Card {
    id: "running.piston_clearance",
    version: 1,
    title: "Piston clearance, front and back",
    purpose: "The clearance at either end of the stroke, from bump marks on the guide, and how far the piston must be moved on \
        its rod or the rod keyed in to share it evenly; then what a changed length of rod does to it.",
    formula: "
        t = a + b
        y = (a - b) / 2
        e = t / 2
        a_n = a - x
        b_n = b + x
        l = min(a_n, b_n) - m",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "front",
            "a",
            Dimension::Length,
            "0 in",
            "4 in",
            "between the striking and the running mark, front",
        ),
        Argument::quantity(
            "back",
            "b",
            Dimension::Length,
            "0 in",
            "4 in",
            "the same, back",
        ),
        Argument::quantity(
            "moved_forward",
            "x",
            Dimension::Length,
            "-2 in",
            "2 in",
            "how far the work moves the piston forward: a longer main rod, a draw in the crosshead taper; backward, with a minus. 0 in where nothing changed",
        ),
        figure(
            "least",
            "m",
            Dimension::Length,
            "0.01 in",
            "2 in",
            "the least at either end, by the shop's own rule; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "total",
            "t",
            Dimension::Length,
            (4, 3),
            "front and back together; wear does not change it",
            BUMP,
        ),
        ResultSpec::quantity(
            "to_move",
            "y",
            Dimension::Length,
            (4, 3),
            "how far forward to move the piston to share it evenly; backward, with a minus",
            BUMP,
        ),
        ResultSpec::quantity(
            "each",
            "e",
            Dimension::Length,
            (4, 3),
            "what either end then has",
            BUMP,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "front_after",
            "a_n",
            Dimension::Length,
            (4, 3),
            "front after the work",
            BUMP,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "back_after",
            "b_n",
            Dimension::Length,
            (4, 3),
            "back after the work",
            BUMP,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "the smaller of the two over the least; with a minus, what is wanting",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text(
            "complies",
            "how the smaller end after the work stands to the figure given",
            FIGURE,
        ),
    ],
    branches: &["piston"],
    validity: "Cold, rods keyed up, wedges set. Hot rods and worn boxes take their own share: leave room for it. A text of 1889 and \
        after has 1/4 to 3/8 in at each end; the law has no figure.",
    sources: &[Source {
        work: "Common practice",
        locator: "no source",
        used_for: "bump marks, and the clearance shared evenly",
    }],
    cautions: &[
        "Water does not give: too little clearance breaks heads. Cylinder cocks open before she moves.",
        "Bar her over by hand with the throttle shut and locked, cocks open, nobody's hand in the guides.",
        "Less than nothing after the work means that the piston strikes: do not turn her over.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (front, back) = (inputs.need_si("front")?, inputs.need_si("back")?);
    let moved = inputs.need_si("moved_forward")?;
    let (front_after, back_after) = (more(front, moved), back + moved);
    let smaller = front_after.min(back_after);
    let least = inputs.si("least");
    let held = Held::default().hold(
        "clearance",
        (Some(smaller), "front"),
        Bound::AtLeast,
        (least, "least"),
    );
    let mut answer = Answer::new("piston")
        .with("total", Length::m(front + back))
        .with("to_move", Length::m(more(front, back) / 2.0))
        .with("each", Length::m((front + back) / 2.0))
        .with("front_after", Length::m(front_after))
        .with("back_after", Length::m(back_after))
        .with("complies", held.words());
    match least {
        Some(least) => answer = answer.with("left", Length::m(more(smaller, least))),
        None => answer.notices.push(NOT_GIVEN.to_owned()),
    }
    if smaller <= 0.0 {
        answer.notices.push("The piston strikes a head.".to_owned());
    }
    Ok(answer)
}
