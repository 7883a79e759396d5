//! The card of `thread.cutting`.

use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::thread::card::{STARTS, UNREAD, diameter, figure, length, line, tpi};
use measure::{Dimension, House, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer: super::answer,
    evidence: include_str!("evidence.csv"),
};

pub(super) const ID: &str = "thread.cutting";
/// Degrees by which the tool's sides clear the helix.
pub(super) const SIDE_CLEARANCE: f64 = 2.5;

const FORM: &str = "the form, as its own sheet has it";
const GEOMETRY: &str = "plane geometry";

pub(super) const DEPTH: Symbol = figure("k_h", "depth of the form, in pitches", FORM);
pub(super) const FLAT: Symbol = figure("k_f", "flat of the form, in pitches", FORM);
pub(super) const RADIUS: Symbol = figure("k_r", "radius of the form, in pitches", FORM);
pub(super) const CLEAR: Symbol = line("c", "clearance of the form, on the diameter", FORM);
pub(super) const LARGE: Symbol = line("d_b", "larger diameter of the thread", FORM);
pub(super) const SPEED: Symbol = figure(
    "V",
    "surface speed, ft/min",
    "docslib 5103932, a third of it",
);

const fn angle(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Angle, (1, 1), meaning, UNREAD)
}

const fn turns(
    name: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    source: &'static str,
) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Ratio, (0, 0), meaning, source)
        .rounded(Rounding::Down)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Cutting a thread with a single point",
    purpose: "What must be known before the first chip: depth and travel of the compound, a table of \
        passes, the tool's end, its clearances on both sides, the relief groove, and the most turns a \
        minute at which a person can stop in time.",
    formula: "
        P = 1 / n
        h = k_h * P + c / 2
        i = h / cos(b)
        F = round(k_f * P, 4) - round(0.259 * c, 4)
        r = k_r * P
        d_s = d_b - 2 * h
        L_s = atan(s * P / (pi * d_s))
        L_b = atan(s * P / (pi * d_b))
        q_l = L_s + 2.5
        q_t = 2.5 - L_b
        w = 2 * P
        y = h + 0.005
        N_v = 12 * V / (pi * d_b)
        N_r = 60 * x / (s * P * t)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word(
            "form",
            &[
                "unified",
                "sharp-v",
                "whitworth",
                "acme",
                "stub-acme",
                "square",
            ],
            "form of the thread; American National cuts as unified",
        ),
        tpi("1", "48"),
        diameter("1/8 in", "12 in"),
        Argument::word(
            "side",
            &["external", "internal"],
            "a screw, or a nut or hole",
        ),
        Argument::word(
            "material",
            &[
                "steel",
                "cast-steel",
                "stainless",
                "cast-iron",
                "bronze",
                "brass",
            ],
            "metal of the work",
        ),
        STARTS,
        Argument::quantity(
            "infeed_angle",
            "b",
            Dimension::Angle,
            "0 deg",
            "30 deg",
            "angle of the compound from the cross feed (0: straight in)",
        )
        .optional(),
        Argument::quantity(
            "runout",
            "x",
            Dimension::Length,
            "0.01 in",
            "6 in",
            "room past the end of the thread",
        )
        .optional(),
        Argument::quantity(
            "reaction_time",
            "t",
            Dimension::Ratio,
            "0.1",
            "5",
            "seconds a person needs to withdraw and open the nut",
        )
        .optional(),
    ],
    table_values: &[DEPTH, FLAT, RADIUS, CLEAR, LARGE, SPEED],
    lines: &[
        line("P", "pitch", GEOMETRY),
        line("d_s", "smaller diameter of the thread", GEOMETRY),
        Symbol::of(
            "L_b",
            Dimension::Angle,
            "lead angle at the larger diameter",
            GEOMETRY,
        ),
    ],
    results: &[
        length("depth", "h", "depth of thread, square to the axis", FORM),
        length(
            "infeed_travel",
            "i",
            "travel of the compound to full depth",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "passes",
            "",
            Dimension::Count,
            (0, 0),
            "cuts, the two spring passes not counted",
            "Widia 2017 p. 685, times 1 1/2",
        ),
        ResultSpec::table(
            "pass_table",
            "cut by cut: chips of like area, the first lighter, two spring passes",
            "Sandvik threading manual p. 114",
        ),
        length("tool_flat", "F", "flat at the end of the tool", FORM),
        length("tip_radius", "r", "radius at the end of the tool", FORM),
        length(
            "diameter_before",
            "",
            "diameter to turn or bore before threading",
            FORM,
        ),
        angle(
            "lead_angle_minor",
            "L_s",
            "lead angle at the smaller diameter, where it is steepest",
        ),
        angle(
            "leading_clearance",
            "q_l",
            "side clearance of the leading side",
        )
        .rounded(Rounding::Up),
        angle(
            "trailing_clearance",
            "q_t",
            "side clearance of the trailing side; under zero it leans under",
        ),
        length("relief_width", "w", "width of a relief groove", UNREAD),
        length(
            "relief_depth",
            "y",
            "depth of the groove from the crest",
            UNREAD,
        ),
        ResultSpec::text("relief", "the relief groove in words", UNREAD),
        turns(
            "rpm_limit",
            "N_r",
            "most turns a minute at which the tool is out in time",
            GEOMETRY,
        ),
        turns("rpm_by_speed", "N_v", "turns a minute by the metal", UNREAD),
    ],
    branches: &["external", "internal"],
    validity: "A single point of high-speed steel on a hand lathe with a half nut, parallel threads, the \
        tool on centre height and set square by a gauge. For a taper use the taper attachment, the tool \
        square to the axis. The passes and speeds are a start, not a limit.",
    sources: &[
        Source {
            work: "finelinehair.com, threading depth table; scribd 236796121, Thread Calculations",
            locator: "depth and travel of the compound at 29 and 30 degrees",
            used_for: "published travel",
        },
        Source {
            work: "Sandvik threading manual p. 114; Widia 2017 catalogue p. 685",
            locator: "infeed formula and number of passes",
            used_for: "the pass table",
        },
        Source {
            work: "Machinery's Handbook, 27th edition, quoting ASME B1.5 and B1.8",
            locator: "pages 1828 and 1844",
            used_for: "flats of Acme and Stub Acme tools",
        },
        Source {
            work: "Memory and common practice",
            locator: "no source",
            used_for: "side clearances, relief, the speeds' third, one and a half for hand work",
        },
    ],
    cautions: &[
        "Coat, ring, hair and gloves clear of the work; no cloth or emery by hand on a thread in motion.",
        "Stop the machine to measure, and let the work cool.",
        "At the limit of speed there is no second chance at a shoulder: start at half of it, or turn the \
            spindle by hand.",
    ],
    closed_form: ClosedForm::No("the form's figures are looked up, and the passes counted"),
};
