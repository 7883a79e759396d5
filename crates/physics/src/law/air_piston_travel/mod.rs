//! `air.piston_travel`: how far a brake piston goes, and how much shoe may wear before it goes too far.

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

/// The brakes that differ in their limit.
pub const KINDS: [&str; 4] = ["cam-driver", "other-driver", "engine-truck", "tender"];

const LEVER: &str =
    "a lever moves its ends as its arms: what the shoe gives, the piston takes times the leverage";

static CARD: Card = Card {
    id: "air.piston_travel",
    version: 1,
    title: "Travel of a brake piston",
    purpose: "The travel with the brake full on and the engine standing, what is left of the most allowed, how much the \
        shoes may wear before it is used up, and what slack to take out to come back to a travel wanted.",
    formula: "
        l = m - x
        u = x / m
        w = l / k
        a = x - g
        s = a / k",
    book_units: None,
    arguments: &[
        Argument::word("kind", &KINDS, "which brake it is: its limit hangs on it"),
        Argument::quantity(
            "travel",
            "x",
            Dimension::Length,
            "0.1 in",
            "18 in",
            "travel of the piston, standing, brake full on",
        ),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.5 in",
            "18 in",
            "the most the piston may travel, by the law in force; the figure itself passes",
        ),
        Argument::quantity(
            "leverage",
            "k",
            Dimension::Ratio,
            "0.5",
            "20",
            "travel of the piston for one inch at the shoes",
        )
        .optional(),
        Argument::quantity(
            "wanted",
            "g",
            Dimension::Length,
            "0.1 in",
            "18 in",
            "the travel to adjust to",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (3, 2),
            "travel left; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "used",
            "u",
            Dimension::Ratio,
            (2, 2),
            "share of the travel that is used",
            FIGURE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "shoe_left",
            "w",
            Dimension::Length,
            (3, 2),
            "wear of shoe and tread together that uses up what is left",
            LEVER,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "to_take_up",
            "a",
            Dimension::Length,
            (3, 2),
            "travel to be taken out; with a minus, to be given",
            LEVER,
        ),
        ResultSpec::quantity(
            "slack",
            "s",
            Dimension::Length,
            (3, 2),
            "the same at the shoes",
            LEVER,
        ),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["travel"],
    validity: "Standing, brake full on. Running travel is longer: the springs and pins give. Levers near square to their rods.",
    sources: &[
        Source {
            work: "49 CFR Part 230, 2015 edition",
            locator: "230.76",
            used_for: "which travel is measured and how; no figure of it is in this sheet",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "travel goes with wear at the shoe by the leverage",
        },
    ],
    cautions: &[
        "Too little travel drags the shoes: they must hang clear when the brake is off.",
        "Block the wheels, let the air out and lock it out before hands go near the rigging: a brake that goes on takes fingers.",
        "After tires are turned every shoe stands farther off: adjust before she moves.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let travel = inputs.need_si("travel")?;
    let (limit, leverage) = (inputs.si("limit"), inputs.si("leverage"));
    let held = Held::default().hold(
        "travel",
        (Some(travel), "travel"),
        Bound::AtMost,
        (limit, "limit"),
    );
    let mut answer = Answer::new("travel").with("complies", held.words());
    answer = spare(answer, travel, limit);
    if let Some((limit, leverage)) = limit.zip(leverage) {
        answer = answer.with("shoe_left", Length::m(more(limit, travel) / leverage));
    }
    if let Some(wanted) = inputs.si("wanted") {
        answer = answer.with("to_take_up", Length::m(more(travel, wanted)));
        if let Some(leverage) = leverage {
            answer = answer.with("slack", Length::m(more(travel, wanted) / leverage));
        }
        if limit.is_some_and(|limit| !Bound::AtMost.holds(wanted, limit)) {
            answer
                .notices
                .push("The travel wanted is itself more than is allowed.".to_owned());
        }
    }
    Ok(answer)
}
