//! `fit.bushing`: a bushing pressed into a rod eye, all of it on one sheet: what to turn the outside
//! to, what the gauge should show, by how much the bore closes, and what to bore before or after.
//!
//! A bushing thin for its size closes by nearly the whole interference. A bore that was finished first
//! is then too small by that much; a bore finished in the rod is right. The running clearance is laid
//! on the largest reading of the pin: where it is fullest it would seize.

use crate::answer::{Answer, Assumption};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::cylinder;
use crate::error::SheetError;
use crate::fit::METALS;
use crate::given::Inputs;
use crate::law::fit_press::{MODULI, POISSONS, force, heavy, metals, nested, with_force};
use measure::{Dimension, House, Length, Rounding, show};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const LAME: &str = "Lamé, thick cylinders";
const SUM: &str = "sizes added";
const WINDOW: &str =
    "common practice: out and bored again under half or over twice what was expected";
/// Friction taken when nobody says. Common practice.
const FRICTION: f64 = 0.1;

static CARD: Card = Card {
    id: "fit.bushing",
    version: 1,
    title: "A bushing in a rod eye",
    purpose: "The eye is trued; the bushing is turned to go in with so much interference, pressed, and \
        bored to run on the pin. This gives the outside, the pressure and force window, how much the bore \
        closes, and the bore before and after, with the clearance on the pin's largest reading.",
    formula: "
        B = d + delta
        k_o = (D_o^2 + d^2) / (D_o^2 - d^2)
        k_i = (d^2 + d_i^2) / (d^2 - d_i^2)
        C = (k_o + nu_o) / E_o + (k_i - nu_i) / E_i
        p = delta / (d * C)
        sigma_o = p * k_o
        sigma_i = -p * k_i
        u_i = 2 * p * d^2 * d_i / (E_i * (d^2 - d_i^2))
        b_after = m + c
        b_before = b_after + u_i
        b_closed = d_i - u_i
        s = b_after - b_closed
        w = (d - b_after) / 2
        F = mu * p * pi * d * L
        F_min = F / 2
        F_max = 2 * F",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity("eye", "d", Dimension::Length, "0.5 in", "20 in", "diameter of the eye, trued: round and parallel over its length"),
        Argument::quantity("eye_outside", "D_o", Dimension::Length, "0.6 in", "40 in", "diameter over the metal round the eye; where it is thin on one side, the thin side's"),
        Argument::quantity("length", "L", Dimension::Length, "0.25 in", "20 in", "length of the fit"),
        Argument::quantity("pin_largest", "m", Dimension::Length, "0.25 in", "18 in", "the largest reading of the pin, anywhere on the journal"),
        Argument::quantity("running_clearance", "c", Dimension::Length, "0.0005 in", "0.1 in", "oil clearance wanted, on the diameter"),
        Argument::quantity("interference", "delta", Dimension::Length, "0.0002 in", "0.05 in", "how much larger the bushing is to be than the eye, on the diameter"),
        Argument::quantity("bore", "d_i", Dimension::Length, "0.2 in", "19 in", "bore of the bushing while it is pressed"),
        METALS,
        Argument::quantity("friction", "mu", Dimension::Ratio, "0.02", "0.5", "friction while pressing").optional(),
        MODULI[0],
        MODULI[1],
    ],
    table_values: &POISSONS,
    lines: &[
        Symbol::of("k_o", Dimension::Ratio, "hoop stress round the eye over the pressure", LAME),
        Symbol::of("k_i", Dimension::Ratio, "hoop stress at the bushing's outside over the pressure", LAME),
        Symbol::named("C", "per psi", "how much both together give for each psi", LAME),
    ],
    results: &[
        ResultSpec::quantity("bushing_outside", "B", Dimension::Length, (4, 3), "turn the outside to this", SUM),
        ResultSpec::quantity("pressure", "p", Dimension::Stress, (0, 2), "pressure between bushing and eye", LAME),
        ResultSpec::quantity("eye_hoop", "sigma_o", Dimension::Stress, (0, 2), "hoop stress in the eye, pulling", LAME).rounded(Rounding::Up),
        ResultSpec::quantity("bushing_hoop", "sigma_i", Dimension::Stress, (0, 2), "hoop stress at the bushing's outside; below zero it presses", LAME),
        ResultSpec::quantity("close_in", "u_i", Dimension::Length, (4, 3), "by how much the bore closes when pressed", LAME).rounded(Rounding::Up),
        ResultSpec::quantity("bore_after", "b_after", Dimension::Length, (4, 3), "finish the bore to this, in the rod", SUM),
        ResultSpec::quantity("bore_before", "b_before", Dimension::Length, (4, 3), "or to this before pressing, where it cannot be bored in the rod: for a bushing already near this bore", SUM),
        ResultSpec::quantity("bore_closed", "b_closed", Dimension::Length, (4, 3), "what the bore given will measure once pressed", LAME),
        ResultSpec::quantity("left_to_bore", "s", Dimension::Length, (4, 3), "metal left for boring in the rod, on the diameter; below zero the bore is already too large", SUM).rounded(Rounding::Down),
        ResultSpec::quantity("wall", "w", Dimension::Length, (4, 3), "wall of the finished bushing", SUM).rounded(Rounding::Down),
        ResultSpec::quantity("force", "F", Dimension::Force, (0, 0), "force expected at full length", "friction on the area of the fit"),
        ResultSpec::quantity("force_min", "F_min", Dimension::Force, (0, 0), "under this, stop: take it out and measure", WINDOW),
        ResultSpec::quantity("force_max", "F_max", Dimension::Force, (0, 0), "over this, stop: take it out and measure", WINDOW),
        ResultSpec::text("tons", "the force expected in tons of both kinds", "friction on the area of the fit"),
    ],
    branches: &[BUSHING],
    validity: "Bushing and eye elastic, round and parallel, the eye as stiff all round as the outside given. \
        A rod eye is thicker toward the rod than at its end: the bore closes unevenly and is measured on two \
        axes. Bore before or after is a choice; after is better.",
    sources: &[
        Source {
            work: "Lamé's theory of thick cylinders",
            locator: "gani-mech-toolbox.blogspot.com, thick-wall theory for cylinders, and derived in the notes of this law",
            used_for: "pressure, stresses and close-in",
        },
        Source {
            work: "The Traveling Engineers' Association, questions and answers",
            locator: "page 72 (read at book-bot.com 17783)",
            used_for: "the fullest part of the pin governs the fit",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "friction of .1 where none is given, and the window of half to twice the force",
        },
    ],
    cautions: &[
        "True the eye before the bushing is turned: a bell-mouthed eye holds a bushing at one end only.",
        "Do not weld on a rod or pin to save a fit: the law asks for written approval first. Build no metal up \
            on the strength of this sheet.",
        "Stand clear of the line of the press, and keep hands out.",
        "Measure the pin at three stations and on four axes; the mean is no use, the largest reading governs.",
        "After the fit: oil hole and groove open, key or dowel in, rod trammed against the wheel centers, and \
            the bearing felt by hand after the first run.",
    ],
    closed_form: ClosedForm::Yes,
};

const BUSHING: &str = "bushing";

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let need = |name| inputs.need_length(name);
    let (eye, outside, length) = (need("eye")?, need("eye_outside")?, need("length")?);
    let (pin, clearance) = (need("pin_largest")?, need("running_clearance")?);
    let (interference, bore) = (need("interference")?, need("bore")?);
    nested(CARD.id, bore, eye, outside)?;
    let after = Length::m(pin.to_m() + clearance.to_m());
    if after.to_m() >= eye.to_m() {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "a finished bore of {:.4} in in an eye of {:.4} in leaves no bushing",
                after.to_inches(),
                eye.to_inches()
            ),
            "pin and clearance together smaller than the eye",
        ));
    }
    let metals = metals(inputs, outside, bore)?;
    let fit = cylinder::pressed(eye, interference, metals.outer, metals.inner);
    let friction = inputs.si("friction").unwrap_or(FRICTION);
    let closed = bore.to_m() - fit.close_in.to_m();
    let left = after.to_m() - closed;
    let mut answer = Answer::new(BUSHING)
        .with(
            "bushing_outside",
            Length::m(eye.to_m() + interference.to_m()),
        )
        .with("pressure", fit.pressure)
        .with("eye_hoop", fit.outer_hoop)
        .with("bushing_hoop", fit.inner_hoop)
        .with("close_in", fit.close_in)
        .with("bore_after", after)
        .with("bore_before", Length::m(after.to_m() + fit.close_in.to_m()))
        .with("bore_closed", Length::m(closed))
        .with("left_to_bore", Length::m(left))
        .with("wall", Length::m((eye.to_m() - after.to_m()) / 2.0));
    answer = with_force(answer, force(fit.pressure, eye, length, friction));
    answer.assumptions = metals.assumptions;
    answer.table_values = metals.rows;
    if inputs.si("friction").is_none() {
        answer.assumptions.push(Assumption {
            argument: "friction",
            text: "0.1",
            si: FRICTION,
            why: "by common practice for a bushing oiled and pressed; the gauge will say better",
        });
    }
    if left < -2.5e-9 {
        answer.notices.push(format!(
            "Pressed, the bore will be {} in larger than it should be: the bushing is too large for this pin before it is begun. Use another blank.",
            show::number(-Length::m(left).to_inches(), 4, Rounding::Nearest)
        ));
    }
    answer.notices.extend(heavy(eye, interference));
    Ok(answer)
}
