//! The card of `thread.stub_acme`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::law::thread_acme::{by_pitch, by_size};
use crate::thread::card::{STARTS, UNREAD, diameter, length, line, tpi};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.stub_acme";

const FORM: &str = "Machinery's Handbook 27 p. 1844 (ASME B1.8)";

pub(super) const ALLOWANCE: Symbol = line(
    "A",
    "allowance on the screw's pitch diameter, by size",
    "tables/thread/acme-allowance.csv",
);
pub(super) const CLEARANCE: Symbol = line(
    "c",
    "clearance at the crests, on the diameter, by pitch",
    FORM,
);
pub(super) const BY_SIZE: Symbol = by_size(UNREAD);
pub(super) const BY_PITCH: Symbol = by_pitch(UNREAD);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Limits of a Stub Acme thread",
    purpose: "The limits of screw and nut for the shallow 29 degree thread, with its depth, flats and \
        lead angle: where an Acme thread would leave too little wall.",
    formula: "
        P = 1 / n
        T = k_d * sqrt(D) + k_p * sqrt(P)
        T_c = max(0.05 * P, 0.005)
        d_max = D
        d_min = D - T_c
        D2_min = D - 0.3 * P
        d2_max = D2_min - A
        d2_min = d2_max - T
        d1_max = D - 0.6 * P - c
        d1_min = d1_max - T
        D_min = D + c
        D_max = D_min + T
        D2_max = D2_min + T
        D1_min = D - 0.6 * P
        D1_max = D1_min + T_c
        es = A
        h_s = 0.3 * P + c / 2
        F_c = 0.4224 * P
        F_r = round(F_c, 4) - round(0.259 * c, 4)
        L_a = atan(s * P / (pi * D2_min))",
    book_units: Some(House::Inch),
    arguments: &[
        diameter("1/4 in", "5 in"),
        tpi("1", "20"),
        Argument::word(
            "class",
            &["2G", "3G", "4G"],
            "class of fit: 2G is the standard's",
        ),
        STARTS,
    ],
    table_values: &[ALLOWANCE, CLEARANCE, BY_SIZE, BY_PITCH],
    lines: &[
        line("P", "pitch", FORM),
        line("T", "pitch-diameter tolerance, screw and nut", UNREAD),
        line(
            "T_c",
            "tolerance on the screw's major and the nut's minor diameter",
            UNREAD,
        ),
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
            UNREAD,
        ),
        length(
            "external_pitch_max",
            "d2_max",
            "screw, pitch diameter, most",
            UNREAD,
        ),
        length(
            "external_pitch_min",
            "d2_min",
            "screw, pitch diameter, least",
            UNREAD,
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
            UNREAD,
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
            UNREAD,
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
            UNREAD,
        ),
        length("internal_minor_min", "D1_min", "nut, bore, least", FORM),
        length("internal_minor_max", "D1_max", "nut, bore, most", UNREAD),
        length(
            "allowance",
            "es",
            "screw's greatest pitch diameter under the basic",
            UNREAD,
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
    ],
    branches: &["2G", "3G", "4G"],
    validity: "Standard Stub Acme, 29 degrees, 1/4 to 5 in, 1 to 20 threads per inch, a pitch of not more \
        than half the diameter. Not for its modified forms, whose heights are 0.375 and 0.250 pitch.",
    sources: &[
        Source {
            work: "Machinery's Handbook, 27th edition (Industrial Press), quoting ASME/ANSI B1.8-1988",
            locator: "page 1844, Table 13 (yumpu 11356742 page 124)",
            used_for: "height, flats and clearances",
        },
        Source {
            work: "torqbolt.com, Stub Acme dimensions; ring-plug-thread-gages.com, Stub Acme",
            locator: "29 degree threads table; ti-ACME-Stub",
            used_for: "basic diameters and lead angles; that 3G and 4G may be borrowed",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "every tolerance",
        },
    ],
    cautions: &[
        "A Stub nut takes an Acme screw only at the crests: the pitch agrees and nothing else does. \
            Measure the depth before cutting a mate.",
        "A screw that holds a load or a pressure is rated by its code and its designer.",
    ],
    closed_form: ClosedForm::No(
        "the allowance, the clearance and the class's two figures are looked up",
    ),
};
