//! `boiler.shell`: what pressure a course of the shell holds, and how thick it must be for a pressure.
//!
//! The steam pulls the two halves of a course apart with *p* times the diameter for each inch of length; two walls
//! of thickness *t* hold it, and a seam or a row of tube holes leaves *E* of one of them.

use crate::answer::Answer;
use crate::boiler::{FORM_4, MEASURED, QUALIFIED, REVIEW, book, over, pressure_argument};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const RULE: &str = "thin cylinder, least of seam and ligament, over a factor of safety";
const HOOP: &str = "thin cylinder: pressure on the diameter, over two walls";
const COURSE: &str = "course";

static CARD: Card = Card {
    id: "boiler.shell",
    version: 1,
    title: "Pressure that a shell course holds",
    purpose: "What pressure one course of a cylindrical shell may hold by its thinnest place and its weakest seam, and \
        what thickness a pressure asks of it. Each course is worked for itself; the least of them counts.",
    formula: "
        P = T * t * E / (R * F)
        E_g = E / 2
        t_r = p * R * F / (T * E)
        s = p * R / t
        F_p = T * t * E / (R * p)
        P_o = T * t * E / (R_o * F)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "tensile",
            "T",
            Dimension::Stress,
            "5000 psi",
            "120000 psi",
            "tensile strength of the plate; where it is not known, the figure that the rule in force gives for unknown plate",
        ),
        Argument::quantity(
            "thickness",
            "t",
            Dimension::Length,
            "1/32 in",
            "3 in",
            "least thickness measured in this course",
        ),
        Argument::quantity(
            "efficiency",
            "E",
            Dimension::Ratio,
            "0.05",
            "1",
            "efficiency of the longitudinal seam or of the ligaments between holes, whichever is less",
        ),
        Argument::quantity(
            "radius",
            "R",
            Dimension::Length,
            "2 in",
            "100 in",
            "inside radius of this course; of a taper course that of its larger end",
        ),
        Argument::quantity(
            "factor",
            "F",
            Dimension::Ratio,
            "1",
            "12",
            "factor of safety of the rule in force",
        ),
        pressure_argument("a pressure to hold the course against").optional(),
        Argument::quantity(
            "other_radius",
            "R_o",
            Dimension::Length,
            "2 in",
            "100 in",
            "inside radius at the other, smaller end of a taper course",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "mawp",
            "P",
            Dimension::GaugePressure,
            (0, 0),
            "pressure that the course may hold",
            RULE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "girth_least",
            "E_g",
            Dimension::Ratio,
            (4, 4),
            "least efficiency of its girth seams, if nothing stays the heads",
            "half the load of the longitudinal seam",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "required_thickness",
            "t_r",
            Dimension::Length,
            (4, 3),
            "thickness that the pressure asks for",
            RULE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "hoop_stress",
            "s",
            Dimension::Stress,
            (0, 2),
            "stress around the course at that pressure, away from any seam",
            HOOP,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "factor_left",
            "F_p",
            Dimension::Ratio,
            (2, 2),
            "factor of safety at that pressure",
            RULE,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "mawp_other_end",
            "P_o",
            Dimension::GaugePressure,
            (0, 0),
            "pressure that the smaller end by itself would hold; it never governs",
            RULE,
        )
        .rounded(Rounding::Down),
    ],
    branches: &[COURSE],
    validity: "A round, thin shell: wall no more than a tenth of the inside radius. Flats, bulges, dents, cuts for \
        a dome and stayed surfaces are other questions. A girth seam carries half the load for its length, and less \
        where tubes or stays hold the heads.",
    sources: &[
        Source {
            work: "State boiler rules of Mississippi, North Dakota, Kansas, New York, Tennessee, Connecticut and Michigan",
            locator: "Mississippi 15-10-76-3.1.3; Tennessee 0800-03-03-.13; Connecticut 29-232-55; Michigan R 408.4212",
            used_for: "the formula, in the same letters in each",
        },
        Source {
            work: "Oklahoma boiler rules",
            locator: "380:25-5-7",
            used_for: "where the thin shell ends: a wall over a tenth of the inside radius",
        },
        Source {
            work: "J. Bourne, A Catechism of the Steam Engine (Project Gutenberg 10998)",
            locator: "question 301",
            used_for: "a worked hoop stress, as evidence",
        },
        Source {
            work: "A Text-Book of Mechanical Engineering (archive.org, believed W. J. Lineham)",
            locator: "example 14, and the half load of a girth seam",
            used_for: "a worked thickness, as evidence",
        },
        Source {
            work: "From memory",
            locator: "no page",
            used_for: "the larger end of a taper course; plane statics says the same",
        },
    ],
    cautions: &[REVIEW, FORM_4, MEASURED, QUALIFIED],
    closed_form: ClosedForm::Yes,
};

/// Pressure, psi, that a thin course of inside radius `radius` inches and thickness `thickness` inches holds at
/// `tensile` psi over the factor of safety `factor`, its weakest line having the share `efficiency` of solid plate.
///
/// Source: the state rules on the card.
pub fn pressure(tensile: f64, thickness: f64, efficiency: f64, radius: f64, factor: f64) -> f64 {
    tensile * thickness * efficiency / (radius * factor)
}

/// Thickness, inches, at which [`pressure`] is just `pressure` psi.
///
/// Source: the same rule turned round.
pub fn thickness(tensile: f64, pressure: f64, efficiency: f64, radius: f64, factor: f64) -> f64 {
    pressure * radius * factor / (tensile * efficiency)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (tensile, wall) = (inputs.need_inch("tensile")?, inputs.need_inch("thickness")?);
    let (share, radius) = (inputs.need_inch("efficiency")?, inputs.need_inch("radius")?);
    let factor = inputs.need_inch("factor")?;
    if over(wall, radius / 10.0) {
        return Err(SheetError::impossible(
            CARD.id,
            format!("a wall of {wall:.4} in is more than a tenth of the radius"),
            "a thin shell; a thick one wants the rule of its code of construction",
        ));
    }
    let of = |radius: f64| pressure(tensile, wall, share, radius, factor);
    let psig = |value: f64| book(Dimension::GaugePressure, value);
    let mut answer = Answer::new(COURSE)
        .with("mawp", psig(of(radius)))
        .with("girth_least", book(Dimension::Ratio, share / 2.0));
    if let Some(held) = inputs.inch("pressure") {
        let needed = thickness(tensile, held, share, radius, factor);
        answer = answer
            .with("required_thickness", book(Dimension::Length, needed))
            .with("hoop_stress", book(Dimension::Stress, held * radius / wall))
            .with(
                "factor_left",
                book(Dimension::Ratio, tensile * wall * share / (radius * held)),
            );
        if over(held, of(radius)) {
            answer.notices.push(
                "At the pressure given this course is loaded beyond the factor of safety given: stop and show it \
                 to the responsible officer."
                    .to_owned(),
            );
        }
    }
    if let Some(other) = inputs.inch("other_radius") {
        if over(other, radius) {
            return Err(SheetError::impossible(
                CARD.id,
                format!("other_radius {other:.4} in is larger than radius {radius:.4} in"),
                "radius to be that of the larger end, which governs a taper course",
            ));
        }
        answer = answer.with("mawp_other_end", psig(of(other)));
        answer.notices.push(
            "A taper course is worked by its larger end. Steep cones carry more than a cylinder does, at the \
             knuckle most of all: that is not worked here."
                .to_owned(),
        );
    }
    Ok(answer)
}
