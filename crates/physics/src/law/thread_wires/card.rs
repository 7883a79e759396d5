//! The card of `thread.wires`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{STARTS, figure, length, line, tpi};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.wires";

const SHEET: &str = "thread measuring wire formulas (scribd 582762296)";
const H28: &str = "FED-STD-H28 form, from memory; held against true contact";

pub(super) const FLANK: Symbol = Symbol::of(
    "a",
    Dimension::Angle,
    "half the angle of the thread",
    "the form",
);
pub(super) const AT: Symbol = line("E_0", "pitch diameter", "found");

const fn size(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(name, symbol, Dimension::Length, "0.02 in", "12 in", meaning)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Pitch diameter of a screw by wires",
    purpose: "Three wires laid in the thread and a micrometer over them give the pitch diameter of a \
        screw, or the size to work to for a pitch diameter wanted. Also over one wire, and from a \
        thread micrometer.",
    formula: "
        P = 1 / n
        b = P / (2 * cos(a))
        E = E_0
        S = s * P / (pi * E)
        M_0 = E - P / (2 * tan(a)) + w * (1 + 1 / sin(a))
        c = w * S^2 * cos(a) / (2 * tan(a))
        M = M_0 + c
        M_1 = (M + d) / 2
        L_a = atan(S)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "form",
            &["60", "55", "29"],
            "angle of the thread: 60 (Unified, National, V, metric), 55 (Whitworth), 29 (Acme, Stub Acme)",
        ),
        tpi("1", "80"),
        STARTS,
        Argument::quantity(
            "wire",
            "w",
            Dimension::Length,
            "0.005 in",
            "1 in",
            "diameter of the wires",
        ),
        size("pitch_diameter", "E_g", "pitch diameter wanted").optional(),
        size("over_wires", "M_g", "measured over three wires").optional(),
        size(
            "over_one_wire",
            "M_h",
            "measured over one wire and the crests opposite",
        )
        .optional(),
        size("micrometer", "E_m", "reading of a thread micrometer").optional(),
        size("major", "d", "major diameter as measured, for one wire").optional(),
    ],
    table_values: &[FLANK, AT],
    lines: &[
        line("P", "pitch", SHEET),
        figure("S", "tangent of the lead angle at the pitch diameter", H28),
    ],
    results: &[
        length(
            "best_wire",
            "b",
            "wire that touches at the pitch diameter",
            SHEET,
        ),
        length("pitch_diameter", "E", "pitch diameter", SHEET),
        length(
            "over_wires_plain",
            "M_0",
            "over three wires, the lead angle left out",
            SHEET,
        ),
        length("lead_correction", "c", "what the lead angle adds", H28),
        length("over_wires", "M", "over three wires", H28),
        length(
            "over_one_wire",
            "M_1",
            "over one wire and the crests opposite",
            "plane geometry",
        ),
        ResultSpec::quantity(
            "lead_angle",
            "L_a",
            Dimension::Angle,
            (2, 2),
            "lead angle at the pitch diameter",
            SHEET,
        ),
    ],
    branches: &["60", "55", "29"],
    validity: "Parallel external threads with symmetrical flanks, wires straight, alike and of known \
        size, a light and even pressure. Not for a taper thread, a buttress, or a square thread, which \
        wires cannot measure. Not for a worn thread whose flanks are no longer straight.",
    sources: &[
        Source {
            work: "Thread measuring wire formulas, a gauge maker's sheet",
            locator: "scribd 582762296",
            used_for: "best wire and the size over wires, lead angle left out",
        },
        Source {
            work: "Machinery's Handbook, 31st edition (Industrial Press)",
            locator: "pages 2130 and 2136 (flippingbook 773, 779)",
            used_for: "sizes over wires for V and National threads; exact contact of 29 degree threads",
        },
        Source {
            work: "F. D. Jones, Turning and Boring; neme-s.org, three wires; scribd 236796121",
            locator: "bitlit.ru page 93; 3WIRE; Thread Calculations",
            used_for: "worked sizes over wires and a lead angle",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the form of the lead-angle correction",
        },
    ],
    cautions: &[
        "Wires measure the pitch diameter only. A thread can be right over wires and wrong in angle, \
            lead or root: try it in its mate or a gauge.",
        "Stop the machine and let the work cool before measuring.",
    ],
    closed_form: ClosedForm::No(
        "the pitch diameter is found by trial from the size over wires, and proved by the formula",
    ),
};
