//! What the boiler sheets share: what each of them must warn of, and values in the units of the old books.

use crate::answer::Outcome;
use crate::card::{Argument, ResultSpec};
use crate::limit::Bound;
use measure::{Dimension, House, Rounding, Unit};

/// Who answers for a boiler's pressure.
pub const REVIEW: &str = "This sheet approves no pressure and no repair. Whoever is licensed and answerable for the boiler \
    reviews every figure of it, and the authority that has jurisdiction decides.";
/// Where the figures of a steam locomotive's boiler are kept.
pub const FORM_4: &str = "For a locomotive under 49 CFR 230 the boiler's specification card (Form 4) and the rules behind \
    it govern: strengths, factors and allowed stresses are theirs, and the least pressure of all parts is the boiler's.";
/// Who tests and who welds.
pub const QUALIFIED: &str = "Pressure tests, welding and riveting on a boiler belong to qualified people, by the code in \
    force. Water only, warm, vented of air, and nobody in front of a plug.";
/// What a sheet knows of the metal.
pub const MEASURED: &str = "Measure the metal that is there, at its thinnest, clean and bright. A sheet knows nothing of \
    cracks, grooving, laminations or burned plate.";

/// The pressure that a part is worked for, by the gauge.
pub(crate) const fn pressure_argument(meaning: &'static str) -> Argument {
    let (least, most) = ("1 psig", "600 psig");
    Argument::quantity(
        "pressure",
        "p",
        Dimension::GaugePressure,
        least,
        most,
        meaning,
    )
}

/// The pressure that a part may hold; never rounded up.
pub(crate) const fn pressure_allowed(meaning: &'static str, source: &'static str) -> ResultSpec {
    let gauge = Dimension::GaugePressure;
    ResultSpec::quantity("pressure_allowed", "P", gauge, (0, 0), meaning, source)
        .rounded(Rounding::Down)
}

/// Whether `value` is over `bound` by more than the dust of arithmetic. One just at its bound is not over it.
pub(crate) fn over(value: f64, bound: f64) -> bool {
    Bound::Above.holds(value, bound)
}

/// `value`, in the unit that the inch house counts `dimension` in.
pub fn book(dimension: Dimension, value: f64) -> Outcome {
    Outcome::Si(Unit::of(dimension, House::Inch).to_si(value))
}
