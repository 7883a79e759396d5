//! The day of the hydrostatic test and the steam test, on one paper.

/// Over the paper.
pub const OVER: &str = "Sheet to write on";
/// A fact.
pub const KIND: &str = "hydrostatic test, then steam test";
/// A part.
pub const WHY: &str = "What is due, and why";
/// A part.
pub const FIGURES: &str = "Figures of law for the day";
/// Columns.
pub const FIGURE_HEADS: &[&str] = &["Figure", "As we read it", "Section"];
/// A part.
pub const PRESSURES: &str = "Pressures, worked on boiler.hydro";
/// Columns.
pub const PRESSURE_HEADS: &[&str] = &["What", "Pressure"];
/// What the pressures rest on.
pub const PRESSURES_NOTE: &str = "A gauge lower than the top of the water shows more by its head of water, and each gauge has \
                                  its own error: what is read is corrected before it counts. The owner sets the allowed \
                                  pressure; a sheet sets none.";
/// A part.
pub const GAUGES: &str = "Gauges of the test";
/// Boxes.
pub const GAUGE_BOXES: &[&[&str]] = &[
    &[
        "gauge 1: number",
        "last tried on",
        "its error at the test pressure",
        "feet below the top of the water",
    ],
    &[
        "gauge 2: number",
        "last tried on",
        "its error at the test pressure",
        "feet below the top of the water",
    ],
    &["what each must show, corrected: gauge 1", "gauge 2"],
];
/// A part.
pub const READ: &str = "Read while it stands";
/// Columns.
pub const READ_HEADS: &[&str] = &[
    "Time",
    "Gauge 1",
    "Gauge 2",
    "Metal, degrees F, where",
    "Water, degrees F",
    "By",
];
/// Rows of it.
pub const READ_ROWS: usize = 6;
/// A part.
pub const LEAKS: &str = "Leaks, by place";
/// Columns.
pub const LEAK_HEADS: &[&str] = &[
    "Place: sheet, row, bolt or seam",
    "What, at what pressure",
    "Finding",
    "Put right, or carried: how, by",
];
/// Rows of it.
pub const LEAK_ROWS: usize = 12;
/// What a broken telltale is.
pub const LEAKS_NOTE: &str = "A staybolt whose telltale leaks, is plugged or is missing counts as broken (49 CFR 230.39(c)). Each leak that \
                              is more than a weep at a joint is recorded as a finding; its number goes beside it.";
/// A part.
pub const STEAM: &str = "The steam test, after the water";
/// Boxes.
pub const STEAM_BOXES: &[&[&str]] = &[
    &["day and hour", "pressure held, corrected", "for how long"],
    &[
        "tight and sound, or what leaked and where",
        "safety valves lifted at, closed at",
    ],
];
/// A part.
pub const OUTCOME: &str = "Outcome, as a person says it";
/// Boxes.
pub const OUTCOME_BOXES: &[&[&str]] = &[
    &[
        "the test pressure was held: yes or no, for how long",
        "the pressure fell by",
    ],
    &[
        "every item above was looked at: yes or no",
        "what stops her",
    ],
    &["inspector, by hand", "day"],
    &["for the owner or operator, by hand", "day"],
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
/// Nothing is missing.
pub const NOTHING_MISSING: &str = "Her allowed pressure is stated; the boxes are for a pen.";

/// No rules of hers ask for one.
pub fn none_asked(number: &str) -> String {
    format!(
        "The rules that bind No. {number} ask for no hydrostatic test of a boiler. Nothing was printed."
    )
}

/// An occasion, and what it asks.
pub fn asked(occasion: &str) -> String {
    format!("Looked at {occasion}")
}

/// A clock whose inspection holds such a test.
pub fn clock(inspection: &str, why: &str) -> String {
    format!("The {inspection}: {why}")
}
