//! `air.reservoir`: the wall an air reservoir must have.
//!
//! A cylinder under pressure pulls its wall round; a lap seam is counted at half the plate. So the same reading may be
//! right in one reservoir and too thin by half in another, and the sheet says nothing before it is told which it is.

use crate::answer::{Answer, Outcome, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, Held, figure};
use crate::readings::{governing, more, smallest, which};
use measure::{Dimension, House, Length, Rounding, Unit};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const FORMULA: &str = "49 CFR 230.72(c) and (d), 2015 edition";
const TAKEN: &str = "one size off the other";
const STRENGTH: Symbol = Symbol::of(
    "u",
    Dimension::Stress,
    "strength that the wall is counted with",
    FORMULA,
);
const SHARE: Symbol = Symbol::of(
    "f",
    Dimension::Ratio,
    "share of it that is allowed",
    FORMULA,
);
const SEAM: Symbol = Symbol::of(
    "k",
    Dimension::Ratio,
    "what the seam keeps of the plate",
    FORMULA,
);
const WALL: Symbol = Symbol::of("w", Dimension::Length, "the wall at its thinnest", TAKEN);

static CARD: Card = Card {
    id: "air.reservoir",
    version: 1,
    title: "Wall of an air reservoir",
    purpose: "The thinnest wall that a welded or riveted air reservoir may have, and what is left of the wall that was \
        read. A lap seam wants about twice the wall, so which it is must be said first: the same reading passes \
        without one and fails with one.",
    formula: "
        s = u * f
        t = p * r / (k * s - 0.6 * p)
        l = w - t",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "pressure",
            "p",
            Dimension::GaugePressure,
            "1 psig",
            "600 psig",
            "the reservoir's certified working pressure",
        ),
        Argument::quantity(
            "radius",
            "r",
            Dimension::Length,
            "1 in",
            "40 in",
            "inside radius",
        ),
        Argument::word(
            "seam",
            &["none", "lap"],
            "lap where any seam of plate over plate, welded or riveted, runs along it; none where it is butt welded or \
             seamless. Scrape the paint and look: nobody can tell by the reading",
        ),
        Argument::word(
            "strength",
            &["known", "unknown"],
            "whether a paper tells the least tensile strength of its plate",
        ),
        Argument::quantity(
            "tensile",
            "u_t",
            Dimension::Stress,
            "10000 psi",
            "120000 psi",
            "that strength, where it is known",
        )
        .optional(),
        figure(
            "share",
            "f_t",
            Dimension::Ratio,
            "0.05",
            "0.5",
            "share of the tensile strength that is allowed, by the law in force",
        ),
        figure(
            "allowed_stress",
            "s_u",
            Dimension::Stress,
            "1000 psi",
            "30000 psi",
            "stress that is allowed where the strength is unknown, by the law in force",
        ),
        Argument::list(
            "wall",
            Dimension::Length,
            "0.01 in",
            "2 in",
            (1, 400),
            "readings of the wall, on the whole grid",
        )
        .optional(),
    ],
    table_values: &[STRENGTH, SHARE, SEAM, WALL],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "stress",
            "s",
            Dimension::Stress,
            (0, 2),
            "stress that the wall is held to",
            FORMULA,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "minimum_wall",
            "t",
            Dimension::Length,
            (4, 3),
            "least wall",
            FORMULA,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left",
            "l",
            Dimension::Length,
            (4, 3),
            "what is left at the thinnest reading; with a minus, what is wanting",
            TAKEN,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("complies", "how the thinnest reading stands to it", FORMULA),
    ],
    branches: &[NONE, LAP],
    validity: "Cylinders under air, pressure inside. Heads are another sheet's; a drilled reservoir's holes and the spacing \
        of readings are the rule's own.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.72(c) and (d)",
        used_for: "the two formulas, a lap seam counted at half the plate; the allowed stress comes in as an argument",
    }],
    cautions: &[
        "A reservoir under air is a bomb: let the air out and lock it out before it is hammered, drilled or unscrewed.",
        "A hydrostatic test is made with water and every pocket of air let out, nobody in line with the heads.",
        "A thin wall is not welded up. Below the least wall the reservoir is scrap.",
        "A lower pressure for a thin one is for a qualified person to decide, not for this sheet.",
    ],
    closed_form: ClosedForm::Yes,
};

const NONE: &str = "no lap seam";
const LAP: &str = "lap seam";

/// The least wall of a cylinder of inside `radius` under `pressure` (Pa, by the gauge), its plate allowed `stress`
/// (Pa), its seam counted at `seam` of the plate. None where the pressure is more than the plate can carry at all.
///
/// Source: 49 CFR 230.72(c) and (d), 2015 edition.
pub fn wall(pressure: f64, radius: Length, stress: f64, seam: f64) -> Option<Length> {
    let carries = seam * stress - 0.6 * pressure;
    (carries > 0.0).then(|| Length::m(pressure * radius.to_m() / carries))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let pressure = inputs.need_si("pressure")?;
    let radius = inputs.need_length("radius")?;
    let lap = inputs.need_word("seam", |word| match word {
        "lap" => Some(true),
        "none" => Some(false),
        _ => None,
    })?;
    let known = inputs.word("strength") == Some("known");
    let seam = if lap { 0.5 } else { 1.0 };
    let mut answer = Answer::new(if lap { LAP } else { NONE });
    answer.table_values.push(TableValue {
        symbol: SEAM,
        value: seam,
        printed: crate::formula::significant(seam),
        row: format!("{FORMULA}: {}", answer.branch),
    });
    let wanted = if known {
        inputs.wanting(&["tensile", "share"])
    } else {
        inputs.wanting(&["allowed_stress"])
    };
    let held_to = if known {
        inputs.si("tensile").zip(inputs.si("share"))
    } else {
        inputs.si("allowed_stress").zip(Some(1.0))
    };
    let readings = inputs.list_si("wall");
    let thinnest = smallest(readings);
    if let Some(thinnest) = thinnest {
        answer.found.push(governing(
            WALL,
            thinnest,
            which("thinnest", readings, "wall"),
        ));
    }
    let mut least = None;
    match held_to {
        Some((strength, share)) => {
            let how = if known {
                "its tensile strength"
            } else {
                "unknown strength: the stress that is allowed instead"
            };
            answer.found.push(TableValue {
                symbol: STRENGTH,
                value: strength,
                printed: format!(
                    "{} psi",
                    crate::formula::significant(Unit::Psi.from_si(strength))
                ),
                row: how.to_owned(),
            });
            answer.found.push(TableValue {
                symbol: SHARE,
                value: share,
                printed: crate::formula::significant(share),
                row: if known {
                    "the share given"
                } else {
                    "all of the stress allowed"
                }
                .to_owned(),
            });
            let stress = strength * share;
            let wall = wall(pressure, radius, stress, seam).ok_or_else(|| {
                SheetError::impossible(
                    CARD.id,
                    "no wall of this plate carries this pressure",
                    "a lower pressure, or the strength that a paper tells",
                )
            })?;
            answer = answer
                .with("stress", Outcome::Si(stress))
                .with("minimum_wall", wall);
            if let Some(thinnest) = thinnest {
                answer = answer.with("left", Length::m(more(thinnest, wall.to_m())));
            }
            least = Some(wall.to_m());
        }
        None => answer = answer.waiting(&["stress", "minimum_wall"], &wanted),
    }
    let missing = [inputs.wanting(&["wall"]), wanted.clone()].concat();
    if !missing.is_empty() {
        answer = answer.waiting(&["left"], &missing);
    }
    let held = Held::default().hold(
        "wall",
        (thinnest, "wall"),
        Bound::AtLeast,
        (least, &wanted.join(", ")),
    );
    answer = answer.with("complies", held.words());
    if lap {
        answer.notices.push(
            "Both plates beside a lap seam are read, closer together than the rest of the grid: the rule in force says \
             how close."
                .to_owned(),
        );
    }
    Ok(answer)
}
