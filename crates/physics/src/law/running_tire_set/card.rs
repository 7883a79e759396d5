//! The card: what is asked, what is answered, and where it comes from.

use super::answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::limit::{FIGURE, figure};
use measure::{Dimension, Rounding};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "running.tire_set";
/// The one branch.
pub const SET: &str = "a set";

const ROUND: &str = "a wheel's diameter: center and twice the tire";
const TURNED: &str = "the smallest wheel, less the cut on either side";
const RATE: &str = "wear over the days it took";
const PULL: &str = "tractive effort goes as one over the driver's diameter";

/// The largest wheel of the set.
pub const LARGEST: Symbol = Symbol::of(
    "d_x",
    Dimension::Length,
    "largest wheel over the tread",
    ROUND,
);
/// The smallest.
pub const SMALLEST: Symbol = Symbol::of(
    "d_n",
    Dimension::Length,
    "smallest wheel over the tread",
    ROUND,
);
/// The mean of all.
pub const MEAN: Symbol = Symbol::of(
    "d_a",
    Dimension::Length,
    "mean of all wheels over the tread",
    ROUND,
);
/// The largest center, on which a tire of the one diameter is thinnest.
pub const CENTER: Symbol = Symbol::of(
    "d_c",
    Dimension::Length,
    "largest wheel center of the set",
    ROUND,
);

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Driving tires of one engine: as they stand, and turned to one diameter",
    purpose: "Every coupled wheel as it stands: its diameter, its tire, how it differs from its mate, its hollow and its \
        flange. Then one cut for all: every wheel to one diameter, the largest that the worst one still allows. Turning to \
        one thickness would leave wheels of different size on one rod wherever the centers differ.",
    formula: "
        g = d_x - d_n
        d_p = d_n - 2 * k
        h = (d_x - d_p) / 2
        t_p = (d_p - d_c) / 2
        l = t_p - m
        e = d_a / d_p - 1
        n_h = h_m * n / w
        n_l = max(0, l) * n / w",
    book_units: None,
    arguments: &[
        Argument::word(
            "state",
            &["running", "just-turned"],
            "just-turned where the tires were turned or renewed and not run since: then the whole set is held together",
        ),
        Argument::list("center", Dimension::Length, "10 in", "100 in", (1, 16), "diameter of each wheel center, axle by axle, left before right; one alone where all are alike"),
        Argument::list("thickness", Dimension::Length, "0.1 in", "6 in", (2, 16), "thickness of each tire at the bottom of its hollow, in the same order"),
        Argument::list("hollow", Dimension::Length, "0 in", "1 in", (2, 16), "hollow worn in each tread, in the same order").optional(),
        Argument::list("flange", Dimension::Length, "0.2 in", "3 in", (2, 16), "thickness of each flange at the height the rule names, in the same order").optional(),
        Argument::quantity("clean_up", "k", Dimension::Length, "0 in", "1 in", "what the cut must take off the radius of the smallest wheel, below its hollow, for tread and flange to come clean; a flange brought back costs about three times its gain at the tread, by common practice"),
        Argument::quantity("axle_load", "q", Dimension::Force, "1000 lb", "100000 lb", "weight on drivers divided by the number of driving axles: it chooses the least thickness in the rulebook").optional(),
        figure("least_thickness", "m", Dimension::Length, "0.1 in", "6 in", "the least a tire may be, by the law in force; the figure itself passes"),
        figure("axle_difference", "m_a", Dimension::Length, "0.001 in", "2 in", "the most two wheels of one axle may differ on the diameter, by the law in force; the figure itself passes"),
        figure("set_difference", "m_s", Dimension::Length, "0.001 in", "2 in", "the most the whole set may differ on the diameter when tires were just turned or renewed, by the law in force; the figure itself passes"),
        figure("hollow_limit", "h_m", Dimension::Length, "0.01 in", "1 in", "the hollow that condemns, by the law in force; the figure itself fails"),
        figure("least_flange", "f_m", Dimension::Length, "0.1 in", "3 in", "the flange that condemns, by the law in force; the figure itself fails"),
        Argument::quantity("wear", "w", Dimension::Length, "0.001 in", "3 in", "history: what the tread wore on the radius since it was last turned").optional(),
        Argument::quantity("wear_days", "n", Dimension::Count, "1", "20000", "history: the service days that took").optional(),
    ],
    table_values: &[LARGEST, SMALLEST, MEAN, CENTER],
    lines: &[],
    results: &[
        ResultSpec::table("legal", "every wheel as it stands", FIGURE),
        ResultSpec::text("complies", "how the set as it stands stands to the figures given", FIGURE),
        ResultSpec::quantity("set_spread", "g", Dimension::Length, (3, 2), "largest wheel over the smallest, on the diameter", ROUND).rounded(Rounding::Up),
        ResultSpec::quantity("proposal", "d_p", Dimension::Length, (3, 2), "the one diameter to turn every wheel to", TURNED).rounded(Rounding::Down),
        ResultSpec::table("spent", "what that takes off each wheel and leaves of it", TURNED),
        ResultSpec::quantity("height_drop", "h", Dimension::Length, (3, 2), "how far the engine comes down at the axle of the largest wheel: half of its change", ROUND).rounded(Rounding::Up),
        ResultSpec::quantity("thickness_after", "t_p", Dimension::Length, (4, 3), "thinnest tire after the cut", ROUND).rounded(Rounding::Down),
        ResultSpec::quantity("left_after", "l", Dimension::Length, (4, 3), "what it is above the least; with a minus, what it is below", FIGURE).rounded(Rounding::Down),
        ResultSpec::text("complies_after", "how the thinnest tire after the cut stands to the figure given", FIGURE),
        ResultSpec::quantity("tractive_effort", "e", Dimension::Ratio, (4, 4), "what she gains in pull at the same pressure, as a share", PULL),
        ResultSpec::quantity("to_hollow", "n_h", Dimension::Ratio, (0, 0), "service days from the cut to the hollow that condemns, at the rate of the history", RATE).rounded(Rounding::Down),
        ResultSpec::quantity("life", "n_l", Dimension::Ratio, (0, 0), "service days of wear from the cut to the least thickness; each later turning takes its own metal", RATE).rounded(Rounding::Down),
    ],
    branches: &[SET],
    validity: "Coupled wheels of one engine, thickness and diameter by one gauge on one day. The tread alone is counted: \
        cracks, flats, seams, loose tires and the flange's height are looked at apart.",
    sources: &[
        Source {
            work: "49 CFR Part 230, 2015 edition",
            locator: "230.112 and 230.113",
            used_for: "what is measured and where; no figure of it is in this sheet",
        },
        Source {
            work: "Union Pacific 844, encyclopaedia pages of 2006 to 2018",
            locator: "25 by 32 in, 80 in drivers, 300 psi: 63,750 lb",
            used_for: "tractive effort as one over the diameter",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "all coupled wheels to the smallest; three of tread for one of flange",
        },
    ],
    cautions: &[
        "A tire dropped, rolled or slipped from its sling weighs more than a man can stop: rated slings, chocks, nobody in its way.",
        "Block every other wheel before a pair is dropped; the drop pit has its own rules.",
        "After the cut look at what came down with her: ash pan, pilot, brake gear and coupler above the rail, brake travel, spring rigging, drawbar.",
        "Measure every wheel with one tape on one day: half a sixty-fourth on a tape is ten thou on the diameter.",
        "No welding on tires.",
    ],
    closed_form: ClosedForm::Yes,
};
