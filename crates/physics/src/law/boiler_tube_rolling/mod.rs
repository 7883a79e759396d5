//! `boiler.tube_rolling`: how much of a tube's wall its rolling takes, from the bore before and after.

use crate::answer::{Answer, Outcome};
use crate::boiler::{FORM_4, MEASURED, QUALIFIED, REVIEW};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Dimension, Length, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const MAKER: &str = "makers of expanders: what the bore grows by after the tube touches its hole comes off the wall";

static CARD: Card = Card {
    id: "boiler.tube_rolling",
    version: 1,
    title: "Rolling of a tube: what its wall gives up",
    purpose: "A tube is rolled until it touches its hole, and from there its wall thins. From hole, tube and bore: the bore at \
        which it touches, how much of the wall the rolling took, and the bore to roll to for the thinning that is wanted.",
    formula: "
        c = h - D
        k = d + c
        w = D - d
        g = r - k
        t = g / w
        R = k + x * w
        u = t_m - t",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "hole",
            "h",
            Dimension::Length,
            "0.3 in",
            "8 in",
            "the hole in the sheet, at its largest",
        ),
        Argument::quantity(
            "tube_outside",
            "D",
            Dimension::Length,
            "0.3 in",
            "8 in",
            "outside of the tube's end, before rolling",
        ),
        Argument::quantity(
            "tube_inside",
            "d",
            Dimension::Length,
            "0.2 in",
            "8 in",
            "bore of the tube's end, before rolling",
        ),
        Argument::quantity(
            "rolled_inside",
            "r",
            Dimension::Length,
            "0.2 in",
            "8 in",
            "bore after rolling, at the middle of the sheet",
        )
        .optional(),
        Argument::quantity(
            "wanted",
            "x",
            Dimension::Ratio,
            "0",
            "0.3",
            "share of the wall that the rolling is to take: 0.1 or 10%",
        )
        .optional(),
        figure(
            "most",
            "t_m",
            Dimension::Ratio,
            "0.01",
            "0.5",
            "the most that the rolling may take, by the tube's maker or the code in force; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "clearance",
            "c",
            Dimension::Length,
            (4, 3),
            "play of the tube in its hole, before rolling",
            MAKER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "touches_at",
            "k",
            Dimension::Length,
            (4, 3),
            "bore at which the tube touches the hole all round",
            MAKER,
        ),
        ResultSpec::quantity(
            "two_walls",
            "w",
            Dimension::Length,
            (4, 3),
            "both walls together, before rolling",
            MAKER,
        ),
        ResultSpec::quantity(
            "taken",
            "g",
            Dimension::Length,
            (4, 3),
            "bore rolled beyond touching: both walls together lost so much",
            MAKER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "thinning",
            "t",
            Dimension::Ratio,
            (4, 4),
            "share of the wall that the rolling took",
            MAKER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "roll_to",
            "R",
            Dimension::Length,
            (4, 3),
            "bore for the thinning wanted",
            MAKER,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "left",
            "u",
            Dimension::Ratio,
            (4, 4),
            "what may still be rolled away before the most; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text(
            "complies",
            "how the thinning stands to the figures given",
            FIGURE,
        ),
    ],
    branches: &["tube"],
    validity: "A plain tube in one hole, hole and tube round, the sheet stiff: a sheet that stretches takes part of the growth, and \
        the wall then thins less than this. Tubes rolled before have less wall than new ones: measure, do not take the list's.",
    sources: &[
        Source {
            work: "Elliott Tool, Basic Principles of Tube Expanding",
            locator: "elliott-tool.com/basic-principles-of-tube-expanding, the example of a 3/4 in 16 gauge tube",
            used_for: "the method and its example",
        },
        Source {
            work: "Boilertubeexpanders.com, Principals of Tube Rolling",
            locator: "boilertubeexpanders.com/boiler-tooling, table by material",
            used_for: "one maker's list has 12 to 14 per cent for boiler tubes; it is told here and goes into no sheet",
        },
    ],
    cautions: &[
        "Rolling one tube loosens its neighbors: look at them all again, and prove the lot by water.",
        "A wall rolled thin has nothing left to bite the next time: find why a tube leaks before rolling it again.",
        MEASURED,
        FORM_4,
        QUALIFIED,
        REVIEW,
    ],
    closed_form: ClosedForm::Yes,
};

/// The bore at which a tube touches its hole all round: its own bore and the play it had.
pub fn touches_at(hole: Length, outside: Length, inside: Length) -> Length {
    Length::m(inside.to_m() + (hole.to_m() - outside.to_m()))
}

/// The share of the wall that rolling from there to `rolled` took.
pub fn thinning(hole: Length, outside: Length, inside: Length, rolled: Length) -> f64 {
    let taken = rolled.to_m() - touches_at(hole, outside, inside).to_m();
    taken / (outside.to_m() - inside.to_m())
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let hole = inputs.need_length("hole")?;
    let outside = inputs.need_length("tube_outside")?;
    let inside = inputs.need_length("tube_inside")?;
    let (h, outer, inner) = (hole.to_m(), outside.to_m(), inside.to_m());
    if inner >= outer || outer > h {
        return Err(SheetError::impossible(
            CARD.id,
            "the bore is not inside the tube, or the tube does not go into the hole",
            "hole, outside and bore, each smaller than the one before it",
        ));
    }
    let touches = touches_at(hole, outside, inside);
    let walls = outer - inner;
    let rolled = inputs.length("rolled_inside");
    if rolled.is_some_and(|r| r.to_m() >= h || r.to_m() < inner) {
        return Err(SheetError::impossible(
            CARD.id,
            "the bore after rolling is smaller than before, or as large as the hole",
            "a bore between the one before rolling and the hole",
        ));
    }
    let mut answer = Answer::new("tube")
        .with("clearance", Length::m(h - outer))
        .with("touches_at", touches)
        .with("two_walls", Length::m(walls));
    let thinned = rolled.map(|rolled| thinning(hole, outside, inside, rolled));
    if let (Some(rolled), Some(thinned)) = (rolled, thinned) {
        answer = answer
            .with("taken", Length::m(rolled.to_m() - touches.to_m()))
            .with("thinning", Outcome::Si(thinned));
        if thinned <= 0.0 {
            answer
                .notices
                .push("The tube does not touch its hole yet.".to_owned());
        }
    }
    if let Some(wanted) = inputs.si("wanted") {
        answer = answer.with("roll_to", Length::m(touches.to_m() + wanted * walls));
        if thinned.is_some_and(|thinned| thinned < wanted) {
            answer
                .notices
                .push("The wall gave up less than was wanted.".to_owned());
        }
    }
    let most = inputs.si("most");
    if let (Some(thinned), Some(most)) = (thinned, most) {
        answer = answer.with("left", Outcome::Si(most - thinned));
    }
    let held = Held::default().hold(
        "rolled too far",
        (thinned, "rolled_inside"),
        Bound::AtMost,
        (most, "most"),
    );
    if most.is_none() {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    Ok(answer.with("complies", held.words()))
}
