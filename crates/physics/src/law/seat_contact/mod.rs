//! `seat.contact`: the load that a pressure lays on a valve's seat, the stress on the ring that carries
//! it, and how wide that ring ought to be.
//!
//! The load stands along the axis. A ring *w* wide along a cone of half angle *a* offers it the area
//! *pi d w sin a*, seen from above: that is what the load is divided by.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Area, Dimension, Force, House, Length, Rounding, Stress, math};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "pressure on the circle of the seat, over the ring seen from above";
const NAVY: &str = "naval valve repair, widths of seat by size of valve";

static CARD: Card = Card {
    id: "seat.contact",
    version: 1,
    title: "Load and stress on a seat's contact ring",
    purpose: "A disc is held on its seat by the pressure over it, or against the pressure under it by its stem. \
        The load the pressure makes, the stress it lays on the contact ring, and how wide a ring is wanted.",
    formula: "
        F = p * pi * d^2 / 4
        A = pi * d * w * sin(a)
        s = F / A
        r = s / p
        s_t = (F + S) / A
        q = (F + S) / (pi * d)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "mean_diameter",
            "d",
            Dimension::Length,
            "0.1 in",
            "20 in",
            "mean diameter of the contact ring",
        ),
        Argument::quantity(
            "ring_width",
            "w",
            Dimension::Length,
            "0.005 in",
            "1 in",
            "width of the contact ring, along the cone",
        ),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "10 deg",
            "90 deg",
            "half angle of the cone, from the axis; a flat seat is 90 deg",
        ),
        Argument::quantity(
            "pressure",
            "p",
            Dimension::GaugePressure,
            "1 psig",
            "600 psig",
            "difference of pressure across the shut valve",
        ),
        Argument::quantity(
            "seating",
            "S",
            Dimension::Force,
            "0 lbf",
            "100000 lbf",
            "load of the stem or spring along the axis, on top of the pressure",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[Symbol::of(
        "A",
        Dimension::Area,
        "area of the ring seen from above",
        GEOMETRY,
    )],
    results: &[
        ResultSpec::quantity(
            "closing_force",
            "F",
            Dimension::Force,
            (0, 0),
            "load that the pressure makes",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "seat_stress",
            "s",
            Dimension::Stress,
            (0, 2),
            "stress on the ring from the pressure alone",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "stress_over_pressure",
            "r",
            Dimension::Ratio,
            (2, 2),
            "that stress over the pressure",
            GEOMETRY,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "stress_with_seating",
            "s_t",
            Dimension::Stress,
            (0, 2),
            "stress on the ring with the stem's load as well",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "load_per_inch",
            "q",
            Dimension::Ratio,
            (0, 0),
            "pounds for each inch of the seat's circle, the stem's load included",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "ring_target",
            "",
            Dimension::Length,
            (4, 3),
            "width of seat for a valve of this size",
            NAVY,
        ),
        ResultSpec::text("judged", "how the ring stands to that width", NAVY),
    ],
    branches: &[LISTED, OUTSIDE],
    validity: "A full unbroken ring, the disc square on it. Friction in the cone is left out: it takes load off the \
        ring, so a sticking taper carries less than this.",
    sources: &[
        Source {
            work: "US Navy training manual 14265, valve repair",
            locator: "page 131 (read in a copy at constructionmanuals.tpub.com)",
            used_for: "widths of seat: 1/16 in to 1 in valves, 3/32 to 2, 1/8 to 4, 3/16 to 6",
        },
        Source {
            work: "US Navy training manual 14104",
            locator: "page 150 (read in a copy at firecontrolman.tpub.com)",
            used_for: "an unbroken ring over about a third of the seating surface, for matched angles",
        },
    ],
    cautions: &[
        "Ask which design it is: a matched seat wants an unbroken ring about a third of its land wide; a seat \
            with a differential angle wants a line, and is never lapped to a ring.",
        "A wide dull ring leaks at low pressure and is not cured by a harder pull on the wheel: a wheel key \
            bends stems and brinells seats.",
        "A full blue ring proves that two faces match, not that either is true.",
        "Isolate, drain and prove the line cold and without pressure before opening a valve.",
    ],
    closed_form: ClosedForm::No(
        "the width wanted is looked up by size of valve; the rest is a formula",
    ),
};

const LISTED: &str = "size within the list";
const OUTSIDE: &str = "size outside the list";

/// The width of seat that naval practice gives a valve of this size; none below 1/4 in or above 6 in.
/// A size between two of the list takes the wider.
///
/// Source: US Navy training manual 14265, page 131.
pub fn width_wanted(size: Length) -> Option<Length> {
    let inches = size.to_inches();
    let list = [
        (1.0, 1.0 / 16.0),
        (2.0, 3.0 / 32.0),
        (4.0, 1.0 / 8.0),
        (6.0, 3.0 / 16.0),
    ];
    let fits = list.iter().find(|(to, _)| inches <= to + 1e-9);
    fits.filter(|_| inches >= 0.25 - 1e-9)
        .map(|(_, width)| Length::inches(*width))
}

/// The area that a ring of mean diameter `mean`, `width` along a cone of half angle `half`, offers a load
/// along the axis.
///
/// Source: plane geometry.
pub fn ring_area(mean: Length, width: Length, half: Angle) -> Area {
    Area::sq_m(PI * mean.to_m() * width.to_m() * math::sin(half.to_radians()))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (mean, width) = (
        inputs.need_length("mean_diameter")?,
        inputs.need_length("ring_width")?,
    );
    let (half, pressure) = (
        inputs.need_angle("half_angle")?,
        inputs.need_si("pressure")?,
    );
    if width.to_m() * math::sin(half.to_radians()) >= mean.to_m() {
        return Err(SheetError::impossible(
            CARD.id,
            "a ring so wide reaches over the middle of the seat",
            "ring_width well under mean_diameter",
        ));
    }
    let area = ring_area(mean, width, half).to_sq_m();
    let force = pressure * PI * mean.to_m() * mean.to_m() / 4.0;
    let wanted = width_wanted(mean);
    let mut answer = Answer::new(if wanted.is_some() { LISTED } else { OUTSIDE })
        .with("closing_force", Force::newtons(force))
        .with("seat_stress", Stress::pascals(force / area))
        .with("stress_over_pressure", Outcome::Si(force / area / pressure));
    if let Some(load) = inputs.si("seating") {
        let all = force + load;
        let per_inch = Force::newtons(all).to_lbf() / (PI * mean.to_inches());
        answer = answer
            .with("stress_with_seating", Stress::pascals(all / area))
            .with("load_per_inch", Outcome::Si(per_inch));
    }
    let Some(wanted) = wanted else {
        let needs = ["a width for this size, and none is on file"];
        return Ok(answer.waiting(&["ring_target", "judged"], &needs));
    };
    let judged = if width.to_m() > 1.25 * wanted.to_m() {
        "wider than the list: narrow the seat after lapping"
    } else if width.to_m() < 0.5 * wanted.to_m() {
        "narrower than half the list: right for a differential angle, thin for a matched one"
    } else {
        "about as the list has it"
    };
    Ok(answer
        .with("ring_target", wanted)
        .with("judged", judged.to_owned()))
}
