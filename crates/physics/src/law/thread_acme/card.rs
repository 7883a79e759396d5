//! The card of `thread.acme`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{MEMORY, STARTS, diameter, length, line, tpi};
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.acme";

const FORM: &str = "Machinery's Handbook 27 p. 1828 (ASME B1.5)";
const AREAS: &str = "Machinery's Handbook 27 p. 1827 (ASME B1.5)";

pub(super) const ALLOWANCE: Symbol = line(
    "a",
    "allowance on the screw's pitch diameter, by size",
    "tables/thread/acme-allowance.csv",
);
pub(super) const CLEARANCE: Symbol = line(
    "c",
    "clearance at the crests, on the diameter, by pitch",
    FORM,
);
pub(super) const NUT_MAJOR: Symbol = line(
    "T_n",
    "tolerance on the nut's major diameter, by pitch",
    MEMORY,
);
pub(super) const BY_SIZE: Symbol = by_size(MEMORY);
pub(super) const BY_PITCH: Symbol = by_pitch(MEMORY);

/// What the pitch-diameter tolerance has for the root of the diameter; Stub Acme has the same figure.
pub(in crate::law) const fn by_size(source: &'static str) -> Symbol {
    let meaning = "pitch-diameter tolerance for the root of the diameter, by class";
    Symbol::named("k_d", "in^(1/2)", meaning, source)
}

/// What it has for the root of the pitch; the same.
pub(in crate::law) const fn by_pitch(source: &'static str) -> Symbol {
    let meaning = "pitch-diameter tolerance for the root of the pitch, by class";
    Symbol::named("k_p", "in^(1/2)", meaning, source)
}

const fn area(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Area, (4, 1), meaning, AREAS)
        .rounded(Rounding::Down)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Limits of a general purpose Acme thread",
    purpose: "The limits of screw and nut for an Acme thread of 29 degrees, with its depth, flats, \
        lead angle and the areas its strength is reckoned on.",
    formula: "
        P = 1 / n
        T = k_d * sqrt(D) + k_p * sqrt(P)
        T_c = max(0.05 * P, 0.005)
        d_max = D
        d_min = D - T_c
        D2_min = round(D - P / 2, 4)
        d2_max = D2_min - a
        d2_min = d2_max - T
        d1_max = round(D - P - c, 4)
        d1_min = d1_max - 1.5 * T
        D_min = D + c
        D_max = D_min + T_n
        D2_max = D2_min + T
        D1_min = D - P
        D1_max = D1_min + T_c
        es = a
        h_s = P / 2 + c / 2
        F_c = 0.3707 * P
        F_r = round(F_c, 4) - round(0.259 * c, 4)
        L_a = atan(s * P / (pi * D2_min))
        d2_p = round(d2_min, 4)
        D1_p = round(D1_max, 4)
        d_t = (d2_p + round(d1_min, 4)) / 2
        A_t = pi / 4 * d_t^2
        A_s = pi * D1_p * (0.5 + n * tan(14.5) * (d2_p - D1_p))",
    book_units: Some(House::Inch),
    arguments: &[
        diameter("1/4 in", "5 in"),
        tpi("1", "16"),
        Argument::word("class", &["2G", "3G", "4G"], "class of fit"),
        STARTS,
    ],
    table_values: &[ALLOWANCE, CLEARANCE, NUT_MAJOR, BY_SIZE, BY_PITCH],
    lines: &[
        line("P", "pitch", FORM),
        line("T", "pitch-diameter tolerance, screw and nut", MEMORY),
        line(
            "T_c",
            "tolerance on the screw's major and the nut's minor diameter",
            MEMORY,
        ),
        line("d2_p", "screw, pitch diameter, least, as printed", AREAS),
        line("D1_p", "nut, minor diameter, most, as printed", AREAS),
    ],
    results: &[
        length(
            "external_major_max",
            "d_max",
            "screw, major diameter, most",
            FORM,
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
            FORM,
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
            "screw, minor diameter, most",
            FORM,
        ),
        length(
            "external_minor_min",
            "d1_min",
            "screw, minor diameter, least",
            MEMORY,
        ),
        length(
            "internal_major_min",
            "D_min",
            "nut, major diameter, least",
            FORM,
        ),
        length(
            "internal_major_max",
            "D_max",
            "nut, major diameter, most",
            MEMORY,
        ),
        length(
            "internal_pitch_min",
            "D2_min",
            "nut, pitch diameter, least (basic)",
            FORM,
        ),
        length(
            "internal_pitch_max",
            "D2_max",
            "nut, pitch diameter, most",
            MEMORY,
        ),
        length(
            "internal_minor_min",
            "D1_min",
            "nut, minor diameter, least",
            FORM,
        ),
        length(
            "internal_minor_max",
            "D1_max",
            "nut, minor diameter, most",
            MEMORY,
        ),
        length(
            "allowance",
            "es",
            "screw's greatest pitch diameter under the basic",
            FORM,
        ),
        length(
            "depth",
            "h_s",
            "depth of the screw's thread, clearance included",
            FORM,
        ),
        length("crest_flat", "F_c", "flat at the crest", FORM),
        length(
            "root_flat",
            "F_r",
            "flat at the screw's root: the end of the tool",
            FORM,
        ),
        ResultSpec::quantity(
            "lead_angle",
            "L_a",
            Dimension::Angle,
            (2, 2),
            "lead angle at the basic pitch diameter",
            FORM,
        ),
        length(
            "stress_diameter",
            "d_t",
            "plain pin as strong in tension",
            AREAS,
        ),
        area("stress_area", "A_t", "area in tension of the least screw"),
        area(
            "shear_area_per_inch",
            "A_s",
            "area of the screw's threads in shear for one inch engaged",
        ),
    ],
    branches: &["2G", "3G", "4G"],
    validity: "General purpose Acme, 29 degrees, 1/4 to 5 in, 1 to 16 threads per inch, a pitch of not \
        more than half the diameter. Sizes are worked in inches, as the standard is. Not for \
        centralizing Acme, Stub Acme, the 29 degree worm, or an old thread that only looks like Acme.",
    sources: &[
        Source {
            work: "Machinery's Handbook, 27th edition (Industrial Press), quoting ASME/ANSI B1.5-1988",
            locator: "pages 1827, 1828, 1831 and 1841",
            used_for: "form, clearances, areas, lead angles and the table of allowances",
        },
        Source {
            work: "Dependable Acme Threaded Products, internal and external thread dimensions",
            locator: "dependableacme.com",
            used_for: "published limits in class 2G",
        },
        Source {
            work: "L. Merrick, Acme Thread Data Sheets, 2009",
            locator: "page 1 (scribd.com 101020691)",
            used_for: "published minor diameters and areas in 2G, 3G and 4G",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the tolerance formulas, and the tolerance on the nut's major diameter",
        },
    ],
    cautions: &[
        "Measure the thread you have before cutting its mate: an old screw is not Acme because it \
            looks so. The flanks, the pitch and both diameters must agree.",
        "A screw that holds a load or a pressure is rated by its code and its designer, not by these \
            areas alone.",
    ],
    closed_form: ClosedForm::No(
        "the allowance, the clearance and the class's two tolerance figures are looked up in tables",
    ),
};
