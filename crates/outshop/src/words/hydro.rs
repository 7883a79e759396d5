//! The day of the hydrostatic test and the steam test, on one paper.

/// Over the paper.
pub const OVER: &str = "Sheet to write on";
/// A fact.
pub const KIND: &str = "hydrostatic test, then steam test";
/// A part.
pub const WHY: &str = "What is due, and why";
/// A part.
pub const FIGURES: &str = "Figures of law for the day";
/// A part.
pub const PRESSURES: &str = "Pressures and figures of the day";
/// Columns.
pub const PRESSURE_HEADS: &[&str] = &["What", "Worked, or section"];
/// What the pressures rest on.
pub const PRESSURES_NOTE: &str = "Worked on boiler.hydro: a sheet sets no pressure. A gauge is corrected by its head of water and its error.";
/// A part.
pub const LOOKED: &str = "What is looked at";
/// Columns.
pub const ITEM_HEADS: &[&str] = &[
    "What",
    "Pass or fail",
    "What was seen, and where",
    "By, day",
];
/// The page.
pub const LINK: &str = "The day of her hydrostatic and steam test";
/// The link to the paper.
pub const PRINT: &str = "Print it: one sheet, both sides";
/// A form.
pub const CORRECT: &str = "What a gauge must show";
/// A field.
pub const HEAD: &str = "How far it hangs below the top of the water";
/// A hint.
pub const HEAD_HINT: &str = "such as 6ft; above it, with a minus";
/// A field.
pub const ERROR: &str = "What it shows too much on the tester at this pressure";
/// A hint.
pub const ERROR_HINT: &str = "such as 2psi; too little, with a minus; 0psi where it is true";
/// Its button.
pub const CORRECT_IT: &str = "Correct it";
/// What is written where.
pub const WRITE: &str = "Readings, leaks and the outcome are written on the paper; each leak that is more than a weep is then recorded as a \
                         finding.";
/// A part.
pub const GAUGES: &str = "Gauges of the test";
/// Boxes.
pub const GAUGE_BOXES: &[&[&str]] = &[
    &[
        "gauge 1: number; last tried on",
        "its error at the pressure",
        "feet below the top of the water",
        "it must show",
    ],
    &[
        "gauge 2: number; last tried on",
        "its error at the pressure",
        "feet below the top of the water",
        "it must show",
    ],
];
/// A part.
pub const READ: &str = "Read while it stands";
/// Boxes of one reading.
pub const READ_BOXES: &[&str] = &[
    "time",
    "gauge 1",
    "gauge 2",
    "metal, degrees F, where",
    "water, degrees F",
    "by",
];
/// How many of them.
pub const READ_ROWS: usize = 3;
/// A part.
pub const LEAKS: &str = "Leaks, by place";
/// Boxes of one leak.
pub const LEAK_BOXES: &[&str] = &[
    "place: sheet, row, bolt or seam",
    "what, at what pressure",
    "finding; put right or carried, by whom",
];
/// How many of them.
pub const LEAK_ROWS: usize = 6;
/// What a broken telltale is.
pub const LEAKS_NOTE: &str = "A leaking, plugged or missing telltale counts as broken (49 CFR 230.39(c)); more than a weep at a joint is a finding.";
/// A part.
pub const OUTCOME: &str = "Outcome, as a person says it";
/// Boxes.
pub const OUTCOME_BOXES: &[&[&str]] = &[
    &[
        "water: held, corrected; how long; fell by",
        "steam: day, hour; held, corrected",
        "tight, or what leaked; valves lifted, closed at",
    ],
    &[
        "every item looked at? what stops her",
        "inspector, by hand; day",
        "owner or operator, by hand; day",
    ],
];
/// What can hurt on such a day. Usual practice of the trade.
pub const CAUTIONS: &[&str] = &[
    "A boiler under water pressure is dangerous while air is in it: vent the highest places until solid water runs, and \
     bring it up in steps, with a pump that a hand can stop.",
    "Nobody stands in the line of a plug, a gland, a handhole or a stay while pressure rises; nobody tightens anything \
     under pressure.",
    "Safety valves are removed and blanked or gagged by whoever is qualified for it, without screwing them down harder; \
     gags are counted out and counted in again before a fire is lit.",
    "The test is led by one qualified person, who alone gives the word to raise or let off; local codes, the insurer and \
     the inspector come before this sheet.",
];

/// Title.
pub fn title(number: &str) -> String {
    format!("Hydrostatic and steam test of No. {number}")
}

/// Her pressure is not known.
pub const NO_MAWP: &str =
    "Her allowed pressure is not stated in this book: cannot tell the pressures of the day.";
/// No rules of hers ask for one.
pub fn none_asked(number: &str) -> String {
    format!(
        "The rules that bind No. {number} ask for no hydrostatic test of a boiler. Nothing was printed."
    )
}

/// A figure or item with its section.
pub fn figure(says: &str, section: &str) -> String {
    format!("{} ({section})", says.trim_end_matches('.'))
}

/// What a gauge must show.
pub fn must_show(shows: &str, head: &str, error: &str) -> String {
    format!(
        "Corrected by a head of {head} and an error of {error}, this gauge shows {shows} when the test pressure stands."
    )
}

/// A clock whose inspection holds such a test.
pub fn clock(inspection: &str, why: &str) -> String {
    format!("The {inspection}: {why}")
}
