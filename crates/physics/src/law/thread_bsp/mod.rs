//! `thread.bsp`: the British pipe thread by its size, parallel (G) and taper (R).
//!
//! The form is Whitworth's. A taper thread has the diameters of the parallel one at its gauge plane,
//! which stands the gauge length from the small end, and tapers 1 in 16 on the diameter.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{UNREAD, line};
use crate::thread::pipe::pipe;
use measure::{Angle, Dimension, House, Length, Unit, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.bsp";
const FORM: &str = "British pipe thread sizes (BS 21, ISO 7 and 228)";
const SIZES: [&str; 9] = [
    "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2",
];
const MAJOR: Symbol = line(
    "D",
    "major diameter at the gauge plane",
    "tables/thread/pipe.csv",
);
const COUNT: Symbol = Symbol::of(
    "n",
    Dimension::PerInch,
    "threads per inch",
    "tables/thread/pipe.csv",
);
const GAUGE: Symbol = line(
    "L_g",
    "gauge length from the small end",
    "tables/thread/pipe.csv",
);
const USEFUL: Symbol = line(
    "L_u",
    "useful thread, from memory",
    "tables/thread/pipe.csv",
);

const fn size(
    name: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    source: &'static str,
) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Length, (4, 3), meaning, source)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "British pipe thread (BSP)",
    purpose: "The diameters, lengths and taper of a British pipe thread by the name of its size: the \
        parallel thread (G), and the taper thread (R) at its gauge plane and at its small end.",
    formula: "
        P = 25.4 / n
        d_m = D
        d_2 = D - 0.640327 * P
        d_1 = D - 1.280654 * P
        E_s = d_2 - L_g / 16
        L_h = L_g
        L_e = L_u
        h = 0.640327 * P
        a = atan(1 / 32)",
    book_units: Some(House::Metric),
    arguments: &[Argument::word(
        "size",
        &SIZES,
        "name of the size (not its diameter)",
    )],
    table_values: &[MAJOR, COUNT, GAUGE, USEFUL],
    lines: &[line("P", "pitch", FORM)],
    results: &[
        size(
            "major",
            "d_m",
            "major diameter, parallel and at the gauge plane",
            FORM,
        ),
        size(
            "pitch",
            "d_2",
            "pitch diameter, parallel and at the gauge plane",
            FORM,
        ),
        size(
            "minor",
            "d_1",
            "minor diameter, parallel and at the gauge plane",
            FORM,
        ),
        size(
            "pitch_at_small_end",
            "E_s",
            "taper thread: pitch diameter at the small end",
            FORM,
        ),
        size(
            "hand_tight",
            "L_h",
            "taper thread: gauge length, screwed in by hand",
            FORM,
        ),
        size(
            "effective_length",
            "L_e",
            "taper thread: useful length, not less than",
            UNREAD,
        ),
        size("depth", "h", "depth of the thread", FORM),
        ResultSpec::quantity(
            "taper_half_angle",
            "a",
            Dimension::Angle,
            (3, 3),
            "taper thread: angle of the taper to the axis",
            FORM,
        ),
    ],
    branches: &["bsp"],
    validity: "Whitworth form, 55 degrees, sizes 1/8 to 2 in; the taper thread 1 in 16 on the diameter. \
        Basic sizes: no limits are given. Not for NPT, nor for boiler plugs.",
    sources: &[
        Source {
            work: "British pipe thread sizes, an encyclopedia copy",
            locator: "liquisearch.com",
            used_for: "pitch, major diameter and gauge length by size; the taper",
        },
        Source {
            work: "R. Timings, Mechanical Engineer's Pocket Book, section 4.1.38, and threadchart.net, BSP",
            locator: "oreilly.com 9780750665087; threadchart.net/standard/bsp.html",
            used_for: "published pitch and minor diameters",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the useful lengths",
        },
    ],
    cautions: &[
        "A parallel thread (G) does not seal on its thread; a taper one does. Ask which it is.",
        "NPT and British pipe threads of one name start in each other and leak. Prove the angle.",
    ],
    closed_form: ClosedForm::No("diameter, pitch and lengths are looked up"),
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let size = inputs.word("size").unwrap_or_default();
    let row = pipe(ID, "bsp", size)?;
    let (d, pitch) = (row.diameter.to_m(), Length::inches(1.0 / row.tpi).to_m());
    let useful = row.effective.ok_or_else(|| SheetError::OwnFault {
        sheet: ID,
        what: "table of pipe threads",
        detail: format!("no effective length for {size}"),
    })?;
    let (effective, m) = (d - 0.640_327 * pitch, Length::m);
    let mut answer = Answer::new("bsp")
        .with("major", row.diameter)
        .with("pitch", m(effective))
        .with("minor", m(d - 1.280_654 * pitch))
        .with(
            "pitch_at_small_end",
            m(effective - row.hand_tight.to_m() / 16.0),
        )
        .with("hand_tight", row.hand_tight)
        .with("effective_length", useful)
        .with("depth", m(0.640_327 * pitch))
        .with("taper_half_angle", Angle::radians(math::atan(1.0 / 32.0)));
    let length = |symbol: Symbol, length: Length, row: String| TableValue {
        symbol,
        value: length.to_m(),
        printed: format!("{} mm", crate::formula::significant(length.to_mm())),
        row,
    };
    let from = format!("pipe.csv, bsp {size}");
    answer.table_values = vec![
        length(MAJOR, row.diameter, from.clone()),
        TableValue {
            symbol: COUNT,
            value: Unit::PerInch.to_si(row.tpi),
            printed: format!("{} TPI", row.tpi),
            row: from.clone(),
        },
        length(GAUGE, row.hand_tight, from.clone()),
        length(USEFUL, useful, format!("{from}, from memory")),
    ];
    Ok(answer)
}
