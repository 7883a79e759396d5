//! `boiler.segment`: the piece of a flat head above the tubes that braces must hold, and how many of them.

use crate::answer::{Answer, Assumption};
use crate::boiler::{FORM_4, QUALIFIED, REVIEW, book, pressure_argument};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, House, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const PRACTICE: &str = "Hawkins, Maxims and Instructions for the Boiler Room";
const CIRCLE: &str = "segment of a circle, exact";
const SEGMENT: &str = "segment";

static CARD: Card = Card {
    id: "boiler.segment",
    version: 1,
    title: "Head above the tubes, and its braces",
    purpose: "The shell's flange and the tubes hold a strip of a flat head; what is left of it above the tubes is a \
        segment of a circle that braces must hold. Its area, the load on it, and how many braces that asks for.",
    formula: "
        r = D / 2 - a
        h = H - a - b
        c = r - h
        A = r^2 * acos(c / r) * pi / 180 - c * sqrt(2 * r * h - h^2)
        W = A * p
        n = W / B",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "shell_diameter",
            "D",
            Dimension::Length,
            "12 in",
            "150 in",
            "inside diameter of the shell",
        ),
        Argument::quantity(
            "height",
            "H",
            Dimension::Length,
            "6 in",
            "140 in",
            "from the top of the tubes to the shell above them",
        ),
        pressure_argument("pressure on the head"),
        Argument::quantity(
            "brace_load",
            "B",
            Dimension::Force,
            "100 lbf",
            "100000 lbf",
            "load that the rule in force allows one brace, its slant counted",
        ),
        Argument::quantity(
            "shell_strip",
            "a",
            Dimension::Length,
            "0 in",
            "10 in",
            "width of the strip that the shell's flange holds",
        )
        .optional(),
        Argument::quantity(
            "tube_strip",
            "b",
            Dimension::Length,
            "0 in",
            "10 in",
            "width of the strip that the tubes hold",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[
        Symbol::of("r", Dimension::Length, "radius of the segment", PRACTICE),
        Symbol::of("h", Dimension::Length, "height of the segment", PRACTICE),
        Symbol::of(
            "c",
            Dimension::Length,
            "from its center to its chord",
            CIRCLE,
        ),
    ],
    results: &[
        ResultSpec::quantity(
            "area",
            "A",
            Dimension::Area,
            (1, 0),
            "area that braces must hold",
            CIRCLE,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "load",
            "W",
            Dimension::Force,
            (0, 0),
            "load on it",
            "pressure times area",
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "braces",
            "n",
            Dimension::Ratio,
            (1, 1),
            "braces that the load asks for; take the next whole number",
            "load over the load of one",
        )
        .rounded(Rounding::Up),
    ],
    branches: &[SEGMENT],
    validity: "A flat, round head, its flange sound all the way round, the tubes expanded and holding. A manhole, a dry \
        pipe or a flat wrapper changes the shape. The strips are an old book's; a rule in force may have its own.",
    sources: &[Source {
        work: "N. Hawkins, Maxims and Instructions for the Boiler Room (Project Gutenberg 53139)",
        locator: "tables of segments and braces (read in a copy at bitlit.ru)",
        used_for: "strips of 3 in at the shell and 2 in at the tubes; the tables as evidence. Its brace of 1 in at 7,500 psi \
            is taken as 5,890 lbf, as its own figures imply",
    }],
    cautions: &[REVIEW, FORM_4, QUALIFIED],
    closed_form: ClosedForm::Yes,
};

/// Area, square inches, of a segment `height` inches high of a circle of `radius` inches; height from 0 to the diameter.
///
/// Source: plane geometry.
pub fn area(radius: f64, height: f64) -> f64 {
    let off = radius - height;
    let half_chord = math::sqrt((2.0 * radius * height - height * height).max(0.0));
    radius * radius * math::acos((off / radius).clamp(-1.0, 1.0)) - off * half_chord
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (diameter, tall) = (
        inputs.need_inch("shell_diameter")?,
        inputs.need_inch("height")?,
    );
    let (pressure, one) = (
        inputs.need_inch("pressure")?,
        inputs.need_inch("brace_load")?,
    );
    let mut assumptions = Vec::new();
    let mut strip = |argument: &'static str, text: &'static str, inches: f64, why: &'static str| {
        inputs.inch(argument).unwrap_or_else(|| {
            let si = measure::Length::inches(inches).to_m();
            assumptions.push(Assumption {
                argument,
                text,
                si,
                why,
            });
            inches
        })
    };
    let at_shell = strip(
        "shell_strip",
        "3 in",
        3.0,
        "the strip that Hawkins lets the flange hold; the rule in force may say other",
    );
    let at_tubes = strip(
        "tube_strip",
        "2 in",
        2.0,
        "the strip that Hawkins lets the tubes hold; the rule in force may say other",
    );
    let (radius, height) = (diameter / 2.0 - at_shell, tall - at_shell - at_tubes);
    if radius <= 0.0 || height <= 0.0 || height >= 2.0 * radius {
        // A strip that was only taken for granted must not refuse what may be true: then it has to be told.
        if !assumptions.is_empty() {
            return Ok(Answer::new(SEGMENT));
        }
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "strips of {at_shell:.3} and {at_tubes:.3} in leave no segment in {tall:.3} in of height"
            ),
            "height more than both strips together, and the tubes inside the shell",
        ));
    }
    let area = area(radius, height);
    let load = area * pressure;
    let mut answer = Answer::new(SEGMENT)
        .with("area", book(Dimension::Area, area))
        .with("load", book(Dimension::Force, load))
        .with("braces", book(Dimension::Ratio, load / one));
    answer.assumptions = assumptions;
    Ok(answer)
}
