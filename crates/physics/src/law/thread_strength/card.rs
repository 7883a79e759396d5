//! The card of `thread.strength`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{self, figure, line};
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.strength";

const H28: &str = "FED-STD-H28/2B, as reproduced";
const HALF: &str = "Industrial Fasteners Institute bulletin (scribd 251020865)";
const LIMITS: &str = "the sheet of limits for this form";

pub(super) const START: Symbol = line("B", "diameter the stress area starts from", H28);
pub(super) const OFF: Symbol = figure("k_t", "pitches taken off it", H28);
pub(super) const BORE: Symbol = line("K_n", "nut, greatest bore", LIMITS);
pub(super) const SCREW_PITCH: Symbol = line("E_s", "screw, least pitch diameter", LIMITS);
pub(super) const SCREW_MAJOR: Symbol = line("D_s", "screw, least major diameter", LIMITS);
pub(super) const NUT_PITCH: Symbol = line("E_n", "nut, greatest pitch diameter", LIMITS);
pub(super) const FLANK: Symbol = figure("t_a", "tangent of the flank's angle", "the form");

const fn area(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Area, (4, 1), meaning, H28)
        .rounded(Rounding::Down)
}

const fn load(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Force, (0, 0), meaning, HALF)
        .rounded(Rounding::Down)
}

const fn strength(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(
        name,
        symbol,
        Dimension::Stress,
        "5000 psi",
        "250000 psi",
        meaning,
    )
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "What a thread carries before it breaks or strips",
    purpose: "For a screw in a nut or a tapped hole: the areas that strength is reckoned on, the load \
        at which the screw breaks and at which either thread strips, the engagement at which the \
        screw goes first, and which member gives.",
    formula: "
        P = 1 / n
        d_t = B - k_t * P
        A_t = pi / 4 * d_t^2
        a_e = pi * n * K_n * (P / 2 + t_a * (E_s - K_n))
        a_i = pi * n * D_s * (P / 2 + t_a * (D_s - E_n))
        A_e = a_e * L_e
        A_i = a_i * L_e
        F_t = A_t * s_e
        F_e = 0.5 * A_e * s_e
        F_i = 0.5 * A_i * s_i
        J = A_e * s_e / (A_i * s_i)
        Q = 2 * A_t / a_e * max(1, J)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "form",
            &["unified", "whitworth", "acme"],
            "form of the thread; American National is near enough to unified",
        ),
        card::diameter("1/4 in", "5 in"),
        card::tpi("2", "32"),
        Argument::quantity(
            "engagement",
            "L_e",
            Dimension::Length,
            "1/16 in",
            "12 in",
            "length of full thread engaged",
        ),
        strength(
            "strength_external",
            "s_e",
            "tensile strength of the screw's metal",
        ),
        strength(
            "strength_internal",
            "s_i",
            "tensile strength of the nut's metal",
        ),
    ],
    table_values: &[START, OFF, BORE, SCREW_PITCH, SCREW_MAJOR, NUT_PITCH, FLANK],
    lines: &[
        line("P", "pitch", H28),
        line("d_t", "diameter of the plain pin as strong", H28),
        line(
            "a_e",
            "screw's threads in shear, area for one inch engaged, sq in per in",
            H28,
        ),
        line(
            "a_i",
            "nut's threads in shear, area for one inch engaged, sq in per in",
            H28,
        ),
        figure("J", "screw's threads' strength over the nut's", H28),
    ],
    results: &[
        area("stress_area", "A_t", "area of the screw in tension"),
        area(
            "shear_external",
            "A_e",
            "area of the screw's threads in shear",
        ),
        area(
            "shear_internal",
            "A_i",
            "area of the nut's threads in shear",
        ),
        load("load_breaks", "F_t", "pull at which the screw breaks"),
        load(
            "load_strips_external",
            "F_e",
            "pull at which the screw's threads strip",
        ),
        load(
            "load_strips_internal",
            "F_i",
            "pull at which the nut's threads strip",
        ),
        ResultSpec::quantity(
            "full_engagement",
            "Q",
            Dimension::Length,
            (3, 2),
            "engagement at which the screw breaks before either thread strips",
            H28,
        )
        .rounded(Rounding::Up),
        ResultSpec::text("weakest", "which member gives first", HALF),
    ],
    branches: &["unified", "unified-strong", "whitworth", "acme"],
    validity: "Parallel threads in the limits of their usual class (Unified 2, Whitworth medium, Acme \
        2G), full form over the length engaged, the load along the axis, steady and cold. The half of \
        tensile strength for shear is a rule for steels; soft bronze and cast iron differ.",
    sources: &[
        Source {
            work: "FED-STD-H28/2B and Bickford, as reproduced on reference pages; forums.thscc.com",
            locator: "stress areas, shear areas, equal strength; topic 1991",
            used_for: "every area and the full engagement; the stress area under 100 000 psi by memory",
        },
        Source {
            work: "Industrial Fasteners Institute, bulletin",
            locator: "scribd 251020865",
            used_for: "areas of coarse sizes, and half the tensile strength for a tapped metal in shear",
        },
        Source {
            work: "L. Merrick, Acme Thread Data Sheets, 2009",
            locator: "scribd 101020691",
            used_for: "areas of Acme screws in class 2G",
        },
    ],
    cautions: &[
        "No thread is passed for service by this sheet. Stays, studs, plugs and fittings of a boiler go \
            by their code, its factors and the responsible officer.",
        "A measured thread that is worn carries less: enter nothing here for it that the limits do not \
            cover; measure and work the areas from the sizes that are left.",
    ],
    closed_form: ClosedForm::No(
        "the limits are those of another sheet, and the figures of the form are looked up",
    ),
};
