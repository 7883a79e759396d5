//! The card of `thread.whitworth`.

use crate::card::{Argument, Card, ClosedForm, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{self, UNREAD, figure, length, line};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.whitworth";

const FORM: &str = "BS 84, as makers list it";
const SHARE: &str = "Sutton tap catalogue p. 456";

pub(super) const K_E: Symbol = figure("k_e", "screw's tolerance in medium tolerances", SHARE);
pub(super) const K_I: Symbol = figure("k_i", "nut's tolerance in medium tolerances", SHARE);
pub(super) const K_M: Symbol = line(
    "k_m",
    "part of the bore's tolerance that is the same for a range of pitches",
    UNREAD,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Limits of a Whitworth thread",
    purpose: "The limits of screw and nut for a parallel thread of Whitworth form, 55 degrees with \
        rounded crests and roots, BSW or BSF or any other pitch, in the close, medium or free class.",
    formula: "
        P = 1 / n
        D_r = round(D, 4)
        h = round(0.640327 * P, 4)
        T = 0.002 * cbrt(D) + 0.003 * sqrt(L_e) + 0.005 * sqrt(P)
        T_e = round(k_e * T, 4)
        T_i = round(k_i * T, 4)
        T_d = round(k_e * T + 0.01 * sqrt(P), 4)
        T_m = round(0.2 * P + k_m, 4)
        d_max = D_r
        d_min = D_r - T_d
        d2_max = D_r - h
        d2_min = d2_max - T_e
        d1_max = D_r - 2 * h
        D_min = D_r
        D2_min = D_r - h
        D2_max = D2_min + T_i
        D1_min = D_r - 2 * h
        D1_max = D1_min + T_m
        es = D2_min - d2_max",
    book_units: Some(House::Inch),
    arguments: &[
        card::diameter("3/16 in", "6 in"),
        card::tpi("2", "40"),
        Argument::word(
            "class",
            &["close", "medium", "free"],
            "class of fit, by the screw: close and medium on a medium nut, free on a normal nut",
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
    table_values: &[K_E, K_I, K_M],
    lines: &[
        line("P", "pitch", FORM),
        line("D_r", "nominal diameter as the lists print it", FORM),
        line("h", "depth of the thread, as the lists print it", FORM),
        line("T", "tolerance on the effective diameter, medium", UNREAD),
        line("T_e", "screw's tolerance on the effective diameter", UNREAD),
        line("T_i", "nut's tolerance on the effective diameter", UNREAD),
        line("T_d", "screw's tolerance on the major diameter", UNREAD),
        line("T_m", "tolerance on the nut's bore", UNREAD),
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
            "screw, effective diameter, most",
            FORM,
        ),
        length(
            "external_pitch_min",
            "d2_min",
            "screw, effective diameter, least",
            UNREAD,
        ),
        length(
            "external_minor_max",
            "d1_max",
            "screw, core diameter, most",
            FORM,
        ),
        length(
            "internal_major_min",
            "D_min",
            "nut, major diameter, least",
            FORM,
        ),
        length(
            "internal_pitch_min",
            "D2_min",
            "nut, effective diameter, least",
            FORM,
        ),
        length(
            "internal_pitch_max",
            "D2_max",
            "nut, effective diameter, most",
            UNREAD,
        ),
        length("internal_minor_min", "D1_min", "nut, bore, least", FORM),
        length("internal_minor_max", "D1_max", "nut, bore, most", UNREAD),
        length(
            "allowance",
            "es",
            "how far the screw's greatest effective diameter stands under the nut's least",
            UNREAD,
        ),
    ],
    branches: &["close", "medium", "free"],
    validity: "55 degrees, parallel, 3/16 to 6 in, 2 to 40 threads per inch, a pitch of not more than \
        half the diameter. Unplated. Not for British pipe threads, which have their own limits, nor \
        for the truncated form.",
    sources: &[
        Source {
            work: "TR Fastenings, BSW geometry, and engineersedge.com, Whitworth chart",
            locator: "trfastenings.com BSW table; engineersedge.com whitworth-screw-threads-chart",
            used_for: "basic effective and core diameters",
        },
        Source {
            work: "Sutton, tap catalogue",
            locator: "page 456",
            used_for: "form, and the share of the tolerance each class has",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "every tolerance formula; no table of limits could be read",
        },
    ],
    cautions: &[
        "A 55 degree screw in a 60 degree nut of nearly the same pitch goes together and bears on \
            edges. Prove the angle, not only the pitch, before cutting a mate.",
        "Steam and hot fits want running clearance and growth on top of a class: a close thread on a \
            hot stem seizes.",
        "A thread that holds pressure is passed by its code and the responsible officer, not by these \
            limits.",
    ],
    closed_form: ClosedForm::No(
        "the shares of each class and a part of the bore's tolerance are looked up",
    ),
};
