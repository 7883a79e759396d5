//! The card of `thread.identify`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{length, line};
use measure::{Dimension, House};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.identify";

const LISTS: &str = "tables/thread/series.csv and the forms";
const GIVEN: &str = "the readings";

pub(super) const MEASURED: Symbol = line("P_m", "pitch as measured", GIVEN);

const fn size(name: &'static str, symbol: &'static str, meaning: &'static str) -> Argument {
    Argument::quantity(name, symbol, Dimension::Length, "0.1 in", "6 in", meaning).optional()
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "What a worn thread may be",
    purpose: "From the readings of a worn thread, a ranked list of what it may have been out of every \
        standard series, with how far each reading stands off, what wear would explain, and which \
        measurement would settle it. That it is none of them is one of the answers.",
    formula: "
        P = P_m
        N = 1 / P_m
        s = L / P_m
        T = 12 * abs(d - d_f) / x",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "side",
            &["external", "internal"],
            "a screw, or a nut or hole",
        ),
        size("major", "d", "major diameter, largest found"),
        Argument::quantity(
            "tpi",
            "n",
            Dimension::PerInch,
            "2",
            "80",
            "threads per inch as counted",
        )
        .optional(),
        Argument::quantity(
            "pitch",
            "p",
            Dimension::Length,
            "0.01 in",
            "0.6 in",
            "pitch as measured, in place of tpi",
        )
        .optional(),
        size(
            "pitch_diameter",
            "e",
            "pitch diameter, over wires or by thread micrometer",
        ),
        Argument::quantity(
            "flank_angle",
            "a",
            Dimension::Angle,
            "0 deg",
            "47 deg",
            "angle of one flank: half the thread's angle (60 degree thread: 30)",
        )
        .optional(),
        size("minor", "m", "bore of a nut, root of a screw"),
        Argument::quantity(
            "lead",
            "L",
            Dimension::Length,
            "0.01 in",
            "3 in",
            "how far one whole turn goes",
        )
        .optional(),
        size("major_far", "d_f", "major diameter at a second place"),
        Argument::quantity(
            "distance",
            "x",
            Dimension::Length,
            "0.1 in",
            "12 in",
            "distance to that second place",
        )
        .optional(),
        Argument::word("hand", &["right", "left"], "which way it climbs").optional(),
    ],
    table_values: &[MEASURED],
    lines: &[],
    results: &[
        ResultSpec::text("best", "the likeliest, or none of these", LISTS),
        ResultSpec::text("settle", "what measurement would settle it", LISTS),
        ResultSpec::table("candidates", "what it may be, the likeliest first", LISTS),
        ResultSpec::text("nearest", "the nearest in any list, likely or not", LISTS),
        length("pitch_measured", "P", "pitch, by the reading", GIVEN),
        ResultSpec::quantity(
            "threads_per_inch",
            "N",
            Dimension::PerInch,
            (2, 2),
            "the same as threads per inch",
            GIVEN,
        ),
        ResultSpec::quantity(
            "starts_measured",
            "s",
            Dimension::Ratio,
            (2, 2),
            "lead over pitch: the number of starts",
            GIVEN,
        ),
        ResultSpec::quantity(
            "taper_per_foot",
            "T",
            Dimension::Length,
            (3, 2),
            "change of diameter over a foot between the two places",
            GIVEN,
        ),
    ],
    branches: &["external", "internal"],
    validity: "Threads of our lists only: Unified and National with their constant pitches, sharp V, BSW, \
        BSF, brass, Acme, Stub Acme, NPT, BSP, ISO metric, one start or two. Not in them: buttress, \
        square, British Association, gas and conduit threads, taper boiler plugs, and every builder's \
        own. The steps of weight are common practice.",
    sources: &[
        Source {
            work: "The sheets of limits of this catalogue and tables/thread/series.csv",
            locator: "each with its own sources",
            used_for: "sizes, pitches and forms",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "how much wear and how much error of reading a thread may show",
        },
    ],
    cautions: &[
        "Do not cut a mate from a list. Prove pitch, angle, hand, starts and taper on the part, and try a \
            plug or ring of scrap first.",
        "A worn thread that holds pressure or a person's weight is judged by its code and the \
            responsible officer, whatever it is called.",
    ],
    closed_form: ClosedForm::No("the nearest thread is searched for in the lists"),
};
