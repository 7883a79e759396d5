//! The card of `thread.unified`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{self, MEMORY, length, line};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.unified";

const WORKED: &str = "Machinery's Handbook 31, worked threads 1/2-28 and 19/64-36 (ASME B1.1)";
const fn figure(symbol: &'static str, meaning: &'static str) -> Symbol {
    card::figure(symbol, meaning, MEMORY)
}

pub(super) const K_E: Symbol = figure(
    "k_e",
    "screw's pitch-diameter tolerance in tolerances of class 2A",
);
pub(super) const K_I: Symbol = figure(
    "k_i",
    "nut's pitch-diameter tolerance in tolerances of class 2A",
);
pub(super) const K_A: Symbol = figure("k_a", "screw's allowance in tolerances of class 2A");
pub(super) const K_D: Symbol = figure("k_d", "screw's major tolerance, by pitch");
pub(super) const BORE: [Symbol; 5] = [
    figure(
        "k_1",
        "bore tolerance, by the two-thirds power of the pitch",
    ),
    figure("k_2", "bore tolerance, by pitch over diameter"),
    figure("k_3", "bore tolerance, taken off those two"),
    figure("k_4", "least bore tolerance, by pitch"),
    figure("k_5", "least bore tolerance, by the square of the pitch"),
];
pub(super) const PLACES: Symbol = figure("r", "decimal places to which the greatest bore is given");

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Limits of a Unified thread",
    purpose: "The limits of screw and nut for a 60 degree thread of the Unified form, flat root (UN) \
        or rounded (UNR), in class 1, 2 or 3, at any size and pitch, as the tables print them.",
    formula: "
        P = 1 / n
        D_r = round(D, 4)
        T = round(0.0015 * cbrt(D) + 0.0015 * sqrt(L_e) + 0.015 * cbrt(P)^2, 6)
        T_e = round(k_e * T, 4)
        T_i = round(k_i * T, 4)
        T_d = round(k_d * cbrt(P)^2, 4)
        T_m = max(k_1 * cbrt(P)^2 + k_2 * P / D - k_3, k_4 * P - k_5 * P^2)
        es = round(round(k_a * T, 6) - 0.0000001, 4)
        d_max = D_r - es
        d_min = d_max - T_d
        d2_max = round(D_r - es - 0.64951905 * P, 4)
        d2_min = d2_max - T_e
        d1_max = round(D_r - es - 1.08253175 * P, 4)
        d3_max = round(D_r - es - 1.19078493 * P, 4)
        D_min = D_r
        D2_min = round(D_r - 0.64951905 * P, 4)
        D2_max = D2_min + T_i
        D1_min = round(D_r - 1.08253175 * P, 3)
        D1_max = round(D_r - 1.08253175 * P + T_m, r)",
    book_units: Some(House::Inch),
    arguments: &[
        card::diameter("1/4 in", "6 in"),
        card::tpi("2", "40"),
        Argument::word(
            "class",
            &["1", "2", "3"],
            "class of fit: 1 loose, 2 usual, 3 close",
        ),
        Argument::quantity(
            "engagement",
            "L_e",
            Dimension::Length,
            "1/16 in",
            "12 in",
            "length of thread engaged",
        )
        .optional(),
    ],
    table_values: &[
        K_E, K_I, K_A, K_D, BORE[0], BORE[1], BORE[2], BORE[3], BORE[4], PLACES,
    ],
    lines: &[
        line("P", "pitch", WORKED),
        line("D_r", "nominal diameter as the tables print it", WORKED),
        line("T_e", "screw's pitch-diameter tolerance", MEMORY),
        line("T_i", "nut's pitch-diameter tolerance", MEMORY),
        line("T_d", "screw's major tolerance", MEMORY),
        line("T_m", "tolerance on the nut's bore", MEMORY),
    ],
    results: &[
        length(
            "external_major_max",
            "d_max",
            "screw, major diameter, most",
            WORKED,
        ),
        length(
            "external_major_min",
            "d_min",
            "screw, major diameter, least",
            MEMORY,
        ),
        length(
            "external_pitch_max",
            "d2_max",
            "screw, pitch diameter, most",
            WORKED,
        ),
        length(
            "external_pitch_min",
            "d2_min",
            "screw, pitch diameter, least",
            MEMORY,
        ),
        length(
            "external_minor_max",
            "d1_max",
            "screw, minor diameter, most, flat root (UN)",
            WORKED,
        ),
        length(
            "external_minor_max_unr",
            "d3_max",
            "screw, minor diameter, most, rounded root (UNR)",
            WORKED,
        ),
        length(
            "internal_major_min",
            "D_min",
            "nut, major diameter, least",
            WORKED,
        ),
        length(
            "internal_pitch_min",
            "D2_min",
            "nut, pitch diameter, least (basic)",
            WORKED,
        ),
        length(
            "internal_pitch_max",
            "D2_max",
            "nut, pitch diameter, most",
            MEMORY,
        ),
        length("internal_minor_min", "D1_min", "nut, bore, least", WORKED),
        length("internal_minor_max", "D1_max", "nut, bore, most", MEMORY),
        length(
            "allowance",
            "es",
            "how far the screw's greatest sizes stand under the basic",
            MEMORY,
        ),
        ResultSpec::quantity(
            "tolerance_2a",
            "T",
            Dimension::Length,
            (6, 5),
            "pitch-diameter tolerance of class 2A, of which every class takes its share",
            MEMORY,
        ),
    ],
    branches: &["1", "2", "3"],
    validity: "60 degrees, 1/4 to 6 in, 2 to 40 threads per inch, a pitch of not more than half the \
        diameter. Worked in inches, as the standard is. Not for plated threads before plating, for \
        sizes under 1/4 in, nor for American National or sharp V threads, whose form or limits differ.",
    sources: &[
        Source {
            work: "Machinery's Handbook, 31st edition (Industrial Press), quoting ASME B1.1",
            locator: "part B, worked threads 1/2-28 UNEF and 19/64-36 UNS (flippingbook.com 954046886 \
                pages 624-637)",
            used_for: "form, the way of rounding, and the limits worked there",
        },
        Source {
            work: "Screw-size pages and tables of limits in three collections",
            locator: "efunda.com unified.cfm; geartoolkit.com 1/2 in; scribd.com 395466526",
            used_for: "published limits in classes 1A, 2A, 2B, 3A and 3B",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the tolerance formulas, the share of each class, and class 1B",
        },
    ],
    cautions: &[
        "Measure the thread you have before cutting its mate: a worn or re-cut thread is of no class, \
            and 60 degrees is not proved by a pitch gauge alone.",
        "Class 3 on a hot steam stem seizes; class 1 in a gland rattles. Ask what the fit is for and \
            what it does hot.",
        "A thread that holds pressure or a load is passed by its code and the responsible officer, not \
            by these limits.",
    ],
    closed_form: ClosedForm::No("the figures of each class are looked up"),
};
