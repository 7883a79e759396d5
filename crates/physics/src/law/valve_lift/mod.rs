//! `valve.lift`: how far a disc must lift so that its seat passes as much as its port.
//!
//! A disc of half angle *a* lifted by *h* leaves a gap of *h sin a* square to the seat. The gap is a
//! frustum that begins at the port, *d* across, and is *2 h sin a cos a* wider at the disc's side: its
//! area is *pi h sin a (d + h sin a cos a)*. It equals the port, *pi d² / 4*, at
//! *h = d / (2 sin a (1 + sqrt(1 + cos a)))*; for a flat seat at the *d / 4* that everybody knows.

use crate::answer::{Answer, Assumption, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Area, Dimension, House, Length, Rounding, math};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const GEOMETRY: &str = "curtain area as a frustum, derived in the notes of this law";

static CARD: Card = Card {
    id: "valve.lift",
    version: 1,
    title: "Lift of a valve that opens its port in full",
    purpose: "How far a disc must rise from its seat before the seat passes as much as the port under it, and \
        how many turns of the stem that is.",
    formula: "
        A = pi * d^2 / 4
        h = d / (2 * sin(a) * (1 + sqrt(1 + cos(a))))
        k = h / d
        N = h * n / z",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "port",
            "d",
            Dimension::Length,
            "0.05 in",
            "20 in",
            "diameter of the port, at the inner edge of the seat",
        ),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "15 deg",
            "90 deg",
            "half angle of the seat, from the axis; a flat seat is 90 deg",
        ),
        Argument::quantity(
            "tpi",
            "n",
            Dimension::PerInch,
            "1",
            "40",
            "threads per inch of the stem",
        ),
        Argument::quantity(
            "starts",
            "z",
            Dimension::Count,
            "1",
            "8",
            "starts of the stem's thread",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "port_area",
            "A",
            Dimension::Area,
            (4, 1),
            "area of the port",
            "area of a circle",
        ),
        ResultSpec::quantity(
            "lift",
            "h",
            Dimension::Length,
            (4, 3),
            "lift at which the seat passes as much as the port",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "lift_over_port",
            "k",
            Dimension::Ratio,
            (4, 4),
            "that lift over the port's diameter",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "turns",
            "N",
            Dimension::Ratio,
            (2, 2),
            "turns of the stem",
            "lift over lead",
        )
        .rounded(Rounding::Up),
    ],
    branches: &["cone", "flat"],
    validity: "A clear port: a stem, wings or a guide in it take area away, and the lift wanted is then less. The \
        disc's cone begins at the port's edge.",
    sources: &[Source {
        work: "Plane geometry",
        locator: "derived in the notes of this law",
        used_for: "every result; the boiler code's lift areas of safety valves, 2.22 D L + 1.11 L² at 45 degrees, \
            are the same frustum (from memory)",
    }],
    cautions: &[
        "A disc that sank when its seat was recut has less lift left before its stem comes to the stop: measure it.",
        "Lift of a safety valve is the maker's and the law's: this sheet sets none.",
        "A check valve's lift is kept small on purpose: too much lift and it hammers its seat.",
    ],
    closed_form: ClosedForm::Yes,
};

/// The lift at which a seat of half angle `half` passes as much as a clear port `port` across.
///
/// Source: plane geometry, derived at the head of this file.
pub fn lift(port: Length, half: Angle) -> Length {
    let angle = half.to_radians();
    let root = math::sqrt(1.0 + math::cos(angle));
    Length::m(port.to_m() / (2.0 * math::sin(angle) * (1.0 + root)))
}

/// The area of the gap that a disc of half angle `half`, lifted by `lift`, leaves round its port.
///
/// Source: plane geometry, derived at the head of this file.
pub fn curtain(port: Length, half: Angle, lift: Length) -> Area {
    let angle = half.to_radians();
    let gap = lift.to_m() * math::sin(angle);
    Area::sq_m(PI * gap * (port.to_m() + gap * math::cos(angle)))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (port, half) = (
        inputs.need_length("port")?,
        inputs.need_angle("half_angle")?,
    );
    let tpi = inputs.need_per_inch("tpi")?;
    let starts = inputs.si("starts").unwrap_or(1.0);
    let high = lift(port, half);
    let flat = half.to_degrees() > 90.0 - 1e-9;
    let mut answer = Answer::new(if flat { "flat" } else { "cone" })
        .with(
            "port_area",
            Area::sq_m(PI * port.to_m() * port.to_m() / 4.0),
        )
        .with("lift", high)
        .with("lift_over_port", Outcome::Si(high.to_m() / port.to_m()))
        .with("turns", Outcome::Si(high.to_inches() * tpi / starts));
    if inputs.si("starts").is_none() {
        answer.assumptions.push(Assumption {
            argument: "starts",
            text: "1",
            si: 1.0,
            why: "a stem's thread is taken as single; many valve stems are double: count the ends",
        });
    }
    Ok(answer)
}
