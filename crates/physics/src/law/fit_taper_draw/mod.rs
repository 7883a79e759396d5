//! `fit.taper_draw`: how far a taper must be drawn in for an interference, and what interference a draw gives.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, House, Length, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "plane geometry";
const TAPER: &str = "taper";

static CARD: Card = Card {
    id: "fit.taper_draw",
    version: 1,
    title: "Draw of a taper",
    purpose: "How far along the axis a tapered part goes from touching by hand to home: the draw for an interference that is \
        wanted, or the interference that a measured draw gives. A piston rod in its crosshead, a pin in its rod, a wheel \
        on a tapered seat.",
    formula: "
        X = 12 * i / T
        I = T * x / 12
        n = 12 / T
        a = atan(T / 24)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "taper_per_foot",
            "T",
            Dimension::Ratio,
            "0.01",
            "6",
            "taper on the diameter, inches in a foot, of both parts: lathe.taper works it from two diameters",
        ),
        Argument::quantity(
            "interference",
            "i",
            Dimension::Length,
            "0 in",
            "0.1 in",
            "interference wanted, on the diameter; what it does to the hub is worked by fit.press",
        )
        .optional(),
        Argument::quantity(
            "measured_draw",
            "x",
            Dimension::Length,
            "0 in",
            "6 in",
            "how far the part stands off by hand, or went in",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "draw",
            "X",
            Dimension::Length,
            (4, 3),
            "draw for the interference wanted",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "interference_got",
            "I",
            Dimension::Length,
            (4, 3),
            "interference on the diameter that the measured draw gives",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "one_in",
            "n",
            Dimension::Ratio,
            (3, 3),
            "the n of 1 in n: the draw is so many times the interference",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            (4, 4),
            "half angle, from the axis",
            GEOMETRY,
        ),
    ],
    branches: &[TAPER],
    validity: "Both parts of one taper and clean, touching all along by hand: a full ring of blue first. The draw is geometry \
        alone; high spots that are crushed, and a hub that stretches beyond its limit, take up draw without grip.",
    sources: &[
        Source {
            work: "F. D. Jones, Turning and Boring",
            locator: "table of rules for tapers (read in a copy at free-books.at, book 2881)",
            used_for: "the distance between two diameters is their difference over the taper in a foot, times twelve",
        },
        Source {
            work: "Unified Alloys, pipe threads, quoting ASME B1.20.1",
            locator: "unifiedalloys.com/p/pipe-threads",
            used_for: "a taper of three quarters of an inch in a foot, its lengths and diameters in print",
        },
    ],
    cautions: &[
        "How much interference a part bears is another sheet (fit.press) and its drawing; a taper driven too far splits its hub.",
        "A hydraulic ram or a wedge lets go with a bang: nobody in line with the rod, and a keeper that catches it.",
        "Mark where it stands by hand, and measure again when it is home.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The draw that gives `interference` on the diameter of a taper of so many inches in a foot.
///
/// Source: plane geometry.
pub fn draw(taper_per_foot: f64, interference: Length) -> Length {
    Length::m(12.0 * interference.to_m() / taper_per_foot)
}

/// The interference on the diameter that a draw gives.
///
/// Source: plane geometry.
pub fn interference(taper_per_foot: f64, draw: Length) -> Length {
    Length::m(taper_per_foot * draw.to_m() / 12.0)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let taper = inputs.need_si("taper_per_foot")?;
    let mut answer = Answer::new(TAPER)
        .with("one_in", Outcome::Si(12.0 / taper))
        .with("half_angle", Angle::radians(math::atan(taper / 24.0)));
    let (wanted, measured) = (
        inputs.length("interference"),
        inputs.length("measured_draw"),
    );
    if let Some(wanted) = wanted {
        answer = answer.with("draw", draw(taper, wanted));
    }
    if let Some(measured) = measured {
        answer = answer.with("interference_got", interference(taper, measured));
    }
    if let (Some(wanted), Some(measured)) = (wanted, measured) {
        let got = interference(taper, measured).to_m();
        if got > wanted.to_m() + 2.5e-9 {
            answer.notices.push(
                "The measured draw gives more interference than was wanted: it is not to be driven home as it is."
                    .to_owned(),
            );
        }
    }
    Ok(answer)
}
