//! `running.side_bearing`: how far a tender may lean before its side bearings take it, and whether they already do.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, figure, spare};
use crate::readings::{governing, largest, more};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// Where the bearings are. The limit hangs on the truck and on whether they stand wider apart than the law's own spread.
pub const WHERE: [&str; 4] = ["rear", "rear-wider", "front", "front-wider"];

/// What the bearings are: only friction ones may not be run in contact.
pub const KINDS: [&str; 2] = ["friction", "roller"];

const READ: &str = "the readings";
const WIDE: Symbol = Symbol::of(
    "c",
    Dimension::Length,
    "the larger of the two clearances",
    READ,
);

static CARD: Card = Card {
    id: "running.side_bearing",
    version: 1,
    title: "Side bearings of a tender",
    purpose: "The clearance of the side bearings of one truck on each side, against the most allowed for that truck and that \
        spread; how far the tender can lean on them; and whether friction bearings stand in contact on both sides.",
    formula: "
        t = a + b
        l = m - c
        u = c / m
        s = t / w
        h = (a - b) / 2",
    book_units: None,
    arguments: &[
        Argument::word(
            "bearings",
            &WHERE,
            "which truck, and whether its bearings stand wider apart than the spread that the law prints its figure for: the limit hangs on both",
        ),
        Argument::word("kind", &KINDS, "what the bearings are"),
        Argument::quantity(
            "left_side",
            "a",
            Dimension::Length,
            "0 in",
            "4 in",
            "clearance on the left, standing on straight level track; 0 where they touch",
        ),
        Argument::quantity(
            "right_side",
            "b",
            Dimension::Length,
            "0 in",
            "4 in",
            "clearance on the right, read with the tender in the same place",
        ),
        Argument::quantity(
            "spread",
            "w",
            Dimension::Length,
            "10 in",
            "120 in",
            "distance between the centers of the two bearings",
        )
        .optional(),
        figure(
            "limit",
            "m",
            Dimension::Length,
            "0.05 in",
            "4 in",
            "the most the clearance may be on each side, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[WIDE],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "total",
            "t",
            Dimension::Length,
            (4, 3),
            "both clearances together",
            READ,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what the larger one keeps of the limit; with a minus, what it is past",
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
            "lean",
            "s",
            Dimension::Ratio,
            (4, 4),
            "how far the tender leans from one side to the other, in an inch of its width",
            "the clearances over the spread",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "shim",
            "h",
            Dimension::Length,
            (4, 3),
            "to put under the left side for the two to be alike; with a minus, under the right",
            READ,
        ),
        ResultSpec::text(
            "contact",
            "on which sides the bearings stand in contact",
            READ,
        ),
        ResultSpec::text("complies", "how they stand to the figure given", FIGURE),
    ],
    branches: &["friction", "roller"],
    validity: "One truck of a tender on straight level track, center plates seated, tank and bunker as they run. The law prints \
        a figure for bearings 50 in apart and lets it grow in proportion where they stand wider; for narrower ones it \
        prints none.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.109(f) and (g)",
        used_for: "the clearance on each side is what is limited, by truck and spread, and friction bearings are not run \
            in contact: clearance on either side is enough; no figure of it is in this sheet",
    }],
    cautions: &[
        "Hands out from between bearing and bolster while anybody moves the tender or its load.",
        "Nobody under a tender on jacks: empty the tank, chock the trucks, blocking carries.",
        "A shim changes the height of the drawbar and the weight on each side: look at both after it.",
    ],
    closed_form: ClosedForm::Yes,
};

/// Whether bearings with these two clearances stand in contact on both sides: clearance on either is enough.
pub fn in_contact(left: Length, right: Length) -> bool {
    left.to_m() <= 0.0 && right.to_m() <= 0.0
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (a, b) = (inputs.need_si("left_side")?, inputs.need_si("right_side")?);
    let friction = inputs.word("kind") == Some("friction");
    let worst = largest(&[a, b]).unwrap_or(a);
    let limit = inputs.si("limit");
    let mut held = Held::default().hold(
        "clearance",
        (Some(worst), "left_side"),
        Bound::AtMost,
        (limit, "limit"),
    );
    let touching = in_contact(Length::m(a), Length::m(b));
    if friction && touching {
        // Not a figure of a table but what a friction bearing is for: with both in contact the truck cannot turn.
        held = held.fail("in contact on both sides");
    }
    let contact = match (a <= 0.0, b <= 0.0) {
        (true, true) => "both sides",
        (true, false) => "the left side alone",
        (false, true) => "the right side alone",
        (false, false) => "neither side",
    };
    let mut answer = Answer::new(if friction { "friction" } else { "roller" })
        .with("total", Length::m(a + b))
        .with("shim", Length::m(more(a, b) / 2.0))
        .with("contact", contact.to_owned())
        .with("complies", held.words());
    let side = if a >= b { "left" } else { "right" };
    answer
        .found
        .push(governing(WIDE, worst, format!("the {side} side")));
    answer = spare(answer, worst, limit);
    if let Some(spread) = inputs.si("spread") {
        answer = answer.with("lean", Outcome::Si((a + b) / spread));
    }
    if touching && !friction {
        answer.notices.push(
            "Roller bearings stand in contact on both sides: whether they are made to carry is on their drawing."
                .to_owned(),
        );
    }
    Ok(answer)
}
