//! `running.tire_limit`: what the least tire thickness means on this center: the tread at which the tire is done.
//!
//! The least thickness is a figure of law that goes by load and center. It comes in as an argument; the rulebook
//! chooses it.

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

const ROUND: &str = "a wheel's diameter: center and twice the tire";

static CARD: Card = Card {
    id: "running.tire_limit",
    version: 1,
    title: "Least tire thickness, and the tread it ends at",
    purpose: "The thinnest a driving wheel's tire may be on this center under this load, the diameter over the tread \
        that it comes to, and what is left of the tire. The load and the center choose the figure in the rulebook.",
    formula: "
        t_n = m
        d_n = d_c + 2 * m
        d = d_c + 2 * t
        l = t - m
        v = d - d_n",
    book_units: None,
    arguments: &[
        Argument::quantity(
            "axle_load",
            "q",
            Dimension::Force,
            "1000 lb",
            "100000 lb",
            "weight on drivers divided by the number of driving axles",
        ),
        Argument::quantity(
            "center_diameter",
            "d_c",
            Dimension::Length,
            "10 in",
            "100 in",
            "diameter of the wheel center",
        ),
        Argument::quantity(
            "thickness",
            "t",
            Dimension::Length,
            "0.1 in",
            "6 in",
            "thickness of the tire at its thinnest",
        )
        .optional(),
        figure(
            "least_thickness",
            "m",
            Dimension::Length,
            "0.1 in",
            "6 in",
            "the least the tire may be, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "minimum",
            "t_n",
            Dimension::Length,
            (4, 3),
            "least thickness",
            FIGURE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "least_diameter",
            "d_n",
            Dimension::Length,
            (3, 2),
            "diameter over the tread at which the tire is done",
            ROUND,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "diameter",
            "d",
            Dimension::Length,
            (3, 2),
            "diameter over the tread now",
            ROUND,
        ),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "tire left, on the radius; with a minus, what it is past",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "left_on_diameter",
            "v",
            Dimension::Length,
            (3, 2),
            "the same on the diameter, as a lathe counts",
            ROUND,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how it stands to the figure given", FIGURE),
    ],
    branches: &["tire"],
    validity: "Tires of driving wheels, measured at the tread; with retaining rings, outside the ring.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.112(d)",
        used_for: "what the figure goes by: load on the axle and diameter of the center; no figure of it is in this sheet",
    }],
    cautions: &[
        "A thin tire stretches and comes loose before it breaks: sound it, and look at the witness marks.",
        "A tire is a ton of steel: rated slings, and nobody under or beside it while it is hot or hung.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The diameter over the tread of a tire of `thickness` on a center of `center`.
pub fn tread(center: Length, thickness: Length) -> Length {
    Length::m(center.to_m() + 2.0 * thickness.to_m())
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let center = inputs.need_length("center_diameter")?;
    let (thickness, least) = (inputs.length("thickness"), inputs.length("least_thickness"));
    let si = |length: Option<Length>| length.map(Length::to_m);
    let held = Held::default().hold(
        "thickness",
        (si(thickness), "thickness"),
        Bound::AtLeast,
        (si(least), "least_thickness"),
    );
    let mut answer = Answer::new("tire").with("complies", held.words());
    if let Some(least) = least {
        answer = answer
            .with("minimum", least)
            .with("least_diameter", tread(center, least));
    } else {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    if let Some(thickness) = thickness {
        answer = answer.with("diameter", tread(center, thickness));
    }
    if let (Some(thickness), Some(least)) = (thickness, least) {
        answer = answer
            .with("left", Length::m(more(thickness.to_m(), least.to_m())))
            .with(
                "left_on_diameter",
                Length::m(more(
                    tread(center, thickness).to_m(),
                    tread(center, least).to_m(),
                )),
            );
    }
    Ok(answer)
}
