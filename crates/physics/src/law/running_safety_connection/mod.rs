//! `running.safety_connection`: the strength of safety bars or chains with their pins, as a share of the drawbar's.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, FIGURE, Held, NOT_GIVEN, figure};
use measure::{Area, Dimension, Force, Rounding, Stress};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const STATICS: &str = "area times strength; the weakest link is the chain's";

/// A section of metal.
const fn area(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    let (least, most) = ("0.1 sq in", "200 sq in");
    Argument::quantity(name, symbol, Dimension::Area, least, most, meaning)
}

/// What its metal bears.
const fn strength(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    let (least, most) = ("5000 psi", "200000 psi");
    Argument::quantity(name, symbol, Dimension::Stress, least, most, meaning)
}

const fn force(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Force, (0, 0), meaning, STATICS)
}

static CARD: Card = Card {
    id: "running.safety_connection",
    version: 1,
    title: "Safety bars or chains against the drawbar",
    purpose: "Whether all safety bars or chains between engine and tender, with their pins, have together the share of the drawbar's \
        strength that the law asks. Sections are measured where they are least; strengths are those of the metal that is there.",
    formula: "
        D_b = A_d * s_d
        D_p = Z_d * t_d
        D = min(D_b, D_p)
        C_b = A_c * s_c
        C_p = Z_c * t_c
        C = min(C_b, C_p)
        u = C / D
        l = C - m * D",
    book_units: None,
    arguments: &[
        area(
            "drawbar_area",
            "A_d",
            "least section of the drawbar, body or eye",
        ),
        strength(
            "drawbar_strength",
            "s_d",
            "tensile strength of its metal, from its papers",
        ),
        area(
            "drawbar_pins",
            "Z_d",
            "section of its pins that is in shear, all planes of the weaker pin",
        ),
        strength("drawbar_shear", "t_d", "shear strength of the pins"),
        area(
            "bars_area",
            "A_c",
            "least sections of all bars or chains together; of a chain both sides of its link",
        ),
        strength("bars_strength", "s_c", "tensile strength of their metal"),
        area(
            "bars_pins",
            "Z_c",
            "section of their pins and fastenings that is in shear, all together, at the weaker end",
        ),
        strength("bars_shear", "t_c", "shear strength of those"),
        figure(
            "least_share",
            "m",
            Dimension::Ratio,
            "0.01",
            "2",
            "the least share of the drawbar's strength, by the law in force; the figure itself passes",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        force("drawbar_bar", "D_b", "the drawbar itself bears"),
        force("drawbar_pin", "D_p", "its pins bear"),
        force("drawbar", "D", "drawbar and pins bear"),
        force("bars_bar", "C_b", "bars or chains bear").rounded(Rounding::Down),
        force("bars_pin", "C_p", "their pins bear").rounded(Rounding::Down),
        force("bars", "C", "bars or chains with their pins bear").rounded(Rounding::Down),
        ResultSpec::quantity(
            "share",
            "u",
            Dimension::Ratio,
            (3, 3),
            "share of the drawbar's strength",
            STATICS,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "spare",
            "l",
            Dimension::Force,
            (0, 0),
            "what they bear beyond the least; with a minus, what they lack",
            FIGURE,
        )
        .rounded(Rounding::Down),
        ResultSpec::text("weakest", "what gives first on each side", STATICS),
        ResultSpec::text(
            "complies",
            "how the share stands to the figure given",
            FIGURE,
        ),
    ],
    branches: &["connection"],
    validity: "A straight pull. Bending of a pin in a slack eye, a worn eye's edge and a bent bar make it weaker than this; so do cracks, \
        which no section shows. The drawbar is taken at its weakest; a stronger one would ask more of the bars.",
    sources: &[Source {
        work: "49 CFR Part 230, 2015 edition",
        locator: "230.90(b)",
        used_for: "bars or chains with their fastenings are held against the drawbar with its; no figure of it is in this sheet",
    }],
    cautions: &[
        "Drawbar and pins are taken out and tested by other means than the eye each year: sound metal is asked here, not found.",
        "Engine and tender blocked on both sides before anything between them is loosened; nobody between them on an air or steam brake alone.",
        "Strengths nobody has papers for are not guessed: have the metal tested, or ask its engineer.",
    ],
    closed_form: ClosedForm::Yes,
};

/// What a member bears through its bar and its pins: the weaker of the two.
pub fn bears(bar: (Area, Stress), pins: (Area, Stress)) -> Force {
    let of = |(area, stress): (Area, Stress)| area.to_sq_in() * stress.to_psi();
    Force::lbf(of(bar).min(of(pins)))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let of = |area: &'static str, stress: &'static str| -> Result<f64, SheetError> {
        Ok(inputs.need_si(area)? * inputs.need_si(stress)?)
    };
    let (bar, pin) = (
        of("drawbar_area", "drawbar_strength")?,
        of("drawbar_pins", "drawbar_shear")?,
    );
    let (bars, pins) = (
        of("bars_area", "bars_strength")?,
        of("bars_pins", "bars_shear")?,
    );
    let (drawbar, connection) = (bar.min(pin), bars.min(pins));
    let share = connection / drawbar;
    let least = inputs.si("least_share");
    let held = Held::default().hold(
        "strength",
        (Some(share), "bars_area"),
        Bound::AtLeast,
        (least, "least_share"),
    );
    let first = |bar: f64, pin: f64, what: &str| {
        if bar <= pin {
            format!("the {what}")
        } else {
            "its pins".to_owned()
        }
    };
    let mut answer = Answer::new("connection")
        .with("drawbar_bar", Force::newtons(bar))
        .with("drawbar_pin", Force::newtons(pin))
        .with("drawbar", Force::newtons(drawbar))
        .with("bars_bar", Force::newtons(bars))
        .with("bars_pin", Force::newtons(pins))
        .with("bars", Force::newtons(connection))
        .with("share", Outcome::Si(share))
        .with(
            "weakest",
            format!(
                "of the drawbar {}; of the safety connection {}",
                first(bar, pin, "bar"),
                first(bars, pins, "bars or chains")
            ),
        )
        .with("complies", held.words());
    match least {
        Some(least) => {
            answer = answer.with("spare", Force::newtons(connection - least * drawbar));
        }
        None => answer.notices.push(NOT_GIVEN.to_owned()),
    }
    Ok(answer)
}
