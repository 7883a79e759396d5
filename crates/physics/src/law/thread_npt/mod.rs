//! `thread.npt`: the American taper pipe thread by its size.
//!
//! The pitch diameter at the small end, the hand-tight plane and the effective length follow from the
//! pipe's outside diameter and the pitch by the standard's own formulas; only the hand-tight length is
//! listed. The name is not the size: a 1/2 in thread is .84 in across.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{length, line};
use crate::thread::pipe::pipe;
use measure::{Angle, Dimension, House, Length, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.npt";
const FORMULAS: &str = "ASME B1.20.1, formulas as reproduced";
const SIZES: [&str; 13] = [
    "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4",
];
const OUTSIDE: Symbol = line(
    "D",
    "outside diameter of the pipe",
    "tables/thread/pipe.csv",
);
const COUNT: Symbol = Symbol::of(
    "n",
    Dimension::PerInch,
    "threads per inch",
    "tables/thread/pipe.csv",
);
const HAND: Symbol = line("L_1", "length screwed in by hand", "tables/thread/pipe.csv");

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "American taper pipe thread (NPT)",
    purpose: "The pitch diameters, lengths and taper of a general purpose American taper pipe thread, \
        by the name of its size.",
    formula: "
        P = 1 / n
        E_0 = D - (0.05 * D + 1.1) * P
        E_1 = E_0 + 0.0625 * L_1
        L_h = L_1
        L_2 = (0.80 * D + 6.8) * P
        h = 0.8 * P
        a = atan(0.0625 / 2)
        N = L_1 * n",
    book_units: Some(House::Inch),
    arguments: &[Argument::word(
        "size",
        &SIZES,
        "name of the size (not its diameter)",
    )],
    table_values: &[OUTSIDE, COUNT, HAND],
    lines: &[line("P", "pitch", FORMULAS)],
    results: &[
        ResultSpec::quantity(
            "pitch_at_small_end",
            "E_0",
            Dimension::Length,
            (5, 3),
            "pitch diameter at the end of the pipe",
            FORMULAS,
        ),
        ResultSpec::quantity(
            "pitch_at_hand_tight",
            "E_1",
            Dimension::Length,
            (5, 3),
            "pitch diameter at the plane screwed to by hand",
            FORMULAS,
        ),
        length("hand_tight", "L_h", "length screwed in by hand", FORMULAS),
        length(
            "effective_length",
            "L_2",
            "length of effective thread on the pipe",
            FORMULAS,
        ),
        ResultSpec::quantity(
            "depth",
            "h",
            Dimension::Length,
            (5, 3),
            "most depth of the thread, truncated",
            FORMULAS,
        ),
        ResultSpec::quantity(
            "taper_half_angle",
            "a",
            Dimension::Angle,
            (3, 3),
            "angle of the taper to the axis",
            FORMULAS,
        ),
        ResultSpec::quantity(
            "turns_by_hand",
            "N",
            Dimension::Ratio,
            (2, 2),
            "turns to hand tight",
            FORMULAS,
        ),
    ],
    branches: &["npt"],
    validity: "General purpose taper pipe thread, 60 degrees, 3/4 in per foot on the diameter, sizes 1/8 \
        to 4 in. Gauging lets the end stand one turn either way. Not for the dry-seal thread, straight \
        pipe threads, British pipe threads, nor for boiler plugs and studs, whose tapers and pitches \
        are their own.",
    sources: &[
        Source {
            work: "engineersedge.com, pipe thread pitch diameter formulas, quoting ASME B1.20.1",
            locator: "calculators/pipe_thread_pitch_diameter_formulas_15545",
            used_for: "the formulas and the half angle",
        },
        Source {
            work: "Unified Alloys, pipe threads, quoting ASME B1.20.1",
            locator: "unifiedalloys.com/p/pipe-threads",
            used_for: "lengths screwed in by hand; published diameters and lengths",
        },
    ],
    cautions: &[
        "NPT and British pipe threads of one name start in each other and leak: 1/2 and 3/4 in have even \
            the same pitch. Prove the angle.",
        "Depressurise and cool before a pipe joint is touched. Which joints of a boiler may be screwed \
            is for its code.",
    ],
    closed_form: ClosedForm::No("diameter, pitch and the hand-tight length are looked up"),
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let size = inputs.word("size").unwrap_or_default();
    let row = pipe(ID, "npt", size)?;
    let (d, pitch) = (row.diameter.to_inches(), 1.0 / row.tpi);
    let end = d - (0.05 * d + 1.1) * pitch;
    let hand = row.hand_tight.to_inches();
    let inches = Length::inches;
    let mut answer = Answer::new("npt")
        .with("pitch_at_small_end", inches(end))
        .with("pitch_at_hand_tight", inches(end + 0.0625 * hand))
        .with("hand_tight", row.hand_tight)
        .with("effective_length", inches((0.80 * d + 6.8) * pitch))
        .with("depth", inches(0.8 * pitch))
        .with("taper_half_angle", Angle::radians(math::atan(0.0625 / 2.0)))
        .with("turns_by_hand", crate::answer::Outcome::Si(hand * row.tpi));
    let from = format!("pipe.csv, npt {size}");
    answer.table_values = vec![
        TableValue::inch_book(OUTSIDE, d, from.clone()),
        TableValue::inch_book(COUNT, row.tpi, from.clone()),
        TableValue::inch_book(HAND, hand, from),
    ];
    Ok(answer)
}
