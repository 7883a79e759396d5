//! The card: what is asked, what is answered, and where it comes from.

use super::answer;
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use measure::Dimension;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The law's id.
pub const ID: &str = "lathe.change_gears";

const RULE: &str =
    "rule of change wheels: drivers over driven as pitch wanted over leadscrew's pitch";
const FOUND: &str = "found by trying every set";

/// The six places of a train, drivers first; a place without a wheel counts as 1.
pub const PLACES: [Symbol; 6] = [
    Symbol::of(
        "d_1",
        Dimension::Count,
        "first driver, on the stud from the spindle",
        FOUND,
    ),
    Symbol::of("d_2", Dimension::Count, "second driver", FOUND),
    Symbol::of("d_3", Dimension::Count, "third driver", FOUND),
    Symbol::of("e_1", Dimension::Count, "first driven wheel", FOUND),
    Symbol::of("e_2", Dimension::Count, "second driven wheel", FOUND),
    Symbol::of("e_3", Dimension::Count, "third driven wheel", FOUND),
];
/// The ratio wanted, in lowest terms.
pub const OVER: Symbol = Symbol::of(
    "p",
    Dimension::Count,
    "upper number of the ratio wanted, in lowest terms",
    RULE,
);
/// Its lower number.
pub const UNDER: Symbol = Symbol::of(
    "q",
    Dimension::Count,
    "lower number of the ratio wanted, in lowest terms",
    RULE,
);

/// Two, four and six wheels, as the branches of the evidence.
pub const BRANCHES: [&str; 3] = ["two wheels", "four wheels", "six wheels"];

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Change wheels for a thread",
    purpose: "Which of the wheels the shop owns make the lathe cut the pitch wanted: every set is \
        tried, the exact trains come first, then those that miss by least, with what the thread would \
        be out over a foot. Inch and metric pitches are taken as they are written, as exact fractions.",
    formula: "
        r = n_l / (n_w * k)
        D = d_1 * d_2 * d_3
        E = e_1 * e_2 * e_3
        b = D / E
        n_c = n_l * E / (D * k)
        x = D * q - E * p
        e = 1000000 * x / (E * p)
        f = 12 * x / (E * p)",
    book_units: Some(measure::House::Inch),
    arguments: &[
        Argument::quantity("leadscrew", "n_l", Dimension::Pitch, "1/100 in", "2 in", "the leadscrew's pitch: 4 TPI, 6 mm"),
        Argument::quantity("wanted", "n_w", Dimension::Pitch, "1/200 in", "4 in", "the pitch wanted; of a thread with several starts, its lead"),
        Argument::list("gears",Dimension::Count,"10","200",(2, 40),"teeth of every wheel the shop owns for this lathe, a wheel owned twice written twice"),
        Argument::word("wheels", &["2", "4", "6"], "how many wheels the train may have, idlers not counted"),
        Argument::quantity("spindle_ratio", "k", Dimension::Ratio, "1/10", "10", "turns of the first driver for one turn of the spindle").optional(),
        Argument::quantity("stud", "stud", Dimension::Count, "1", "60", "teeth that must be left between a wheel's rim and the shaft beside it").optional(),
        Argument::quantity("span", "span", Dimension::Count, "0", "1000", "how far the leadscrew is from the first driver's shaft, in teeth: twice the distance times the diametral pitch, or twice the distance over the module; 0 where the arm reaches everything").optional(),
        Argument::quantity("show", "show", Dimension::Count, "1", "200", "how many trains to list").optional(),
    ],
    table_values: &[PLACES[0], PLACES[1], PLACES[2], PLACES[3], PLACES[4], PLACES[5], OVER, UNDER],
    lines: &[
        Symbol::of("D", Dimension::Count, "the drivers of the best train, multiplied", RULE),
        Symbol::of("E", Dimension::Count, "its driven wheels, multiplied", RULE),
        Symbol::of("x", Dimension::Count, "what is left over when both ratios are brought to one denominator", "exact fractions"),
    ],
    results: &[
        ResultSpec::table("trains", "the trains, spindle to leadscrew, each driver over the wheel it drives; the error in parts in a million, and in inches over a foot of thread", FOUND),
        ResultSpec::text("best", "the first of them", FOUND),
        ResultSpec::quantity("best_error_ppm", "e", Dimension::Ratio, (2, 2), "how far the best train misses the pitch, in parts in a million; too long is plus", "exact fractions"),
        ResultSpec::quantity("error_per_foot", "f", Dimension::Length, (6, 5), "the same over a foot of thread", "exact fractions"),
        ResultSpec::quantity("examined", "", Dimension::Count, (0, 0), "sets of wheels tried", FOUND),
        ResultSpec::quantity("exact", "", Dimension::Count, (0, 0), "sets among them that are exact and can be set up", FOUND),
        ResultSpec::quantity("wanted_ratio", "r", Dimension::Ratio, (6, 6), "ratio wanted, drivers over driven", RULE),
        ResultSpec::quantity("best_ratio", "b", Dimension::Ratio, (6, 6), "ratio of the best train", RULE),
        ResultSpec::quantity("cut", "n_c", Dimension::Pitch, (5, 5), "the pitch that the best train cuts", RULE),
    ],
    branches: &BRANCHES,
    validity: "A lathe whose leadscrew is driven through change wheels of one pitch of tooth. A simple \
        train (2 wheels) is joined by idlers, which change no ratio. A compound train is held to clear \
        its shafts by the teeth given; bosses, keys, guards and the quadrant itself are not known here.",
    sources: &[
        Source {
            work: "F. D. Jones, Turning and Boring",
            locator: "page 93 (read in a copy at bitlit.ru)",
            used_for: "the rule of change wheels, and the wheel of 127 for metric threads",
        },
        Source {
            work: "J. Rose, Modern Machine Shop Practice",
            locator: "page 632 (read in a copy at bitlit.ru)",
            used_for: "a compound train, as evidence",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "15 teeth between a rim and the shaft beside it",
        },
    ],
    cautions: &[
        "Stop the lathe and lock it off before the guard over the wheels is opened; shut it before it \
            turns again.",
        "Turn the train once round by hand: what clears on paper may foul a boss, a key or the guard.",
        "Take a scratch cut and lay a pitch gauge and a rule on it before cutting the thread.",
        "One idler more or fewer turns the leadscrew the other way: see which hand the lathe cuts.",
        "The half nuts may be opened on a thread only where the dial says so; on a pitch that does not \
            divide the leadscrew's, and on metric threads with an inch screw, run the lathe back instead.",
    ],
    closed_form: ClosedForm::No(
        "the best train is found by trying every set of wheels; its arithmetic is a formula",
    ),
};
