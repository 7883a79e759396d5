//! The day of the hydrostatic test and the steam test, on one page and one paper.

use shop::book::CheckMade;

use crate::verb::test_day::Gauge;

/// Over the paper.
pub const OVER: &str = "Sheet to write on";
/// A part.
pub const WHY: &str = "What is due, and why";
/// A part.
pub const PRESSURES: &str = "Pressures of the day";
/// Columns.
pub const WHY_HEADS: &[&str] = &["What asks for it", "Rule"];
/// What the pressures rest on.
pub const PRESSURES_NOTE: &str =
    "Worked on boiler.hydro from her allowed pressure: a sheet sets no pressure.";
/// A part.
pub const JUDGED: &str = "What complies or fails, with its rule";
/// Columns.
pub const JUDGED_HEADS: &[&str] = &[
    "What is held or looked at",
    "Rule",
    "Ring one",
    "What was seen, and where; by, hour",
];
/// Two words to ring.
pub const RING: &str = "complies · fails";
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
pub const GAUGES: &str = "Gauges of the test, and their corrections";
/// No gauge is on file.
pub const NO_GAUGES: &str = "No gauge of pressure is on file. An instrument is one where its range is a pressure, such as 0 to 300 psi.";
/// A column.
pub const GAUGE: &str = "gauge";
/// Boxes of one gauge, after what it is.
pub const GAUGE_BOXES: [&str; 3] = [
    "shows too much on the tester",
    "feet below the top of the water",
    "must show: water; steam",
];
/// The same on the page.
pub const GAUGE_FACTS: [&str; 3] = [
    "shows too much",
    "below the top of the water",
    "must show in the water test",
];
/// What it is, where none is on file.
pub const GAUGE_UNKNOWN: &str = "gauge: number; last tried on, against what";
/// How many there is room for at the least.
pub const LEAST_GAUGES: usize = 2;
/// Of an instrument.
pub const NEVER_TRIED: &str = "needs a trial on the tester: none is on file";
/// Of a gauge that is a part.
pub const NOT_TRIED_HERE: &str = "hers; needs a trial on the tester";
/// What a correction needs.
pub const NEEDS_ERROR: &str = "needs the tester at this pressure";
/// A gauge found wrong is not corrected.
pub const FOUND_WRONG: &str =
    "found wrong when it was tried last: needs another gauge, or a trial that finds it good";
/// What a correction needs.
pub const NEEDS_HEAD: &str = "needs measuring where it hangs";
/// A part.
pub const READ: &str = "Read while it stands";
/// Boxes of one reading.
pub const READ_HEADS: &[&str] = &[
    "Hour",
    "Gauge 1",
    "Gauge 2",
    "Metal, °F, where",
    "Water, °F",
    "By",
];
/// How many of them.
pub const READ_ROWS: usize = 3;
/// A part.
pub const LEAKS: &str = "Leaks, by place";
/// Columns of the list.
pub const LEAK_HEADS: &[&str] = &[
    "Place",
    "Row, bolt, seam, o'clock",
    "What, at what pressure",
    "Finding; put right or carried, by",
];
/// Empty rows after the places.
pub const MORE_LEAKS: usize = 2;
/// What a broken telltale is.
pub const LEAKS_NOTE: &str = "A leaking, plugged or missing telltale counts as broken (49 CFR 230.39(c)); more than a weep is a finding.";
/// Whose places they are.
pub const PLACES_HERS: &str = "Her boiler as entered.";
/// Whose places they are, where nobody entered hers.
pub const PLACES_ANY: &str = "Her boiler is not entered: any boiler's places.";
/// The places of any boiler. Usual practice of the trade.
pub const ANY_PLACES: &[&str] = &[
    "courses of the barrel, their seams",
    "front tube sheet, firebox tube sheet",
    "tubes, flues, arch tubes",
    "crown sheet, crown stays",
    "side sheets, door sheet",
    "staybolts and their telltales",
    "wrapper, throat, back head",
    "braces, dome and its opening",
];
/// What every boiler has besides. Usual practice of the trade.
pub const PLACES: &[&str] = &[
    "mud ring and its corners",
    "washout plugs, handholes",
    "throttle, dry pipe, turret, checks",
    "glasses, cocks, gauges, their pipes",
];
/// A part.
pub const OUTCOME: &str = "Outcome, as a person says it";
/// Boxes.
pub const OUTCOME_BOXES: &[&[&str]] = &[&[
    "tight, or what leaked",
    "valves lifted, closed at",
    "every line answered? what stops her",
]];
/// A part.
pub const PAPERS: &str = "Who signs, and which papers follow";
/// Who signs by shop practice.
pub const SIGNERS: &str = "Whoever led the test, the inspector and the owner or operator sign by hand (shop practice); a form names its own signers.";
/// Boxes.
pub const SIGNER_BOXES: &[&[&str]] = &[&[
    "led by; day",
    "inspector, by hand; day",
    "owner or operator, by hand; day",
]];
/// What can hurt on such a day. Usual practice of the trade.
pub const CAUTIONS: &[&str] = &[
    "Trapped air lets go like an explosion: vent the highest places until solid water runs; raise in steps, by a hand pump.",
    "Nobody stands in line with a plug, gland, handhole or stay while pressure rises; nobody tightens anything under pressure.",
    "Safety valves are blanked or gagged by the qualified, never screwed down; gags are counted in again before a fire is lit.",
    "One qualified person leads and alone gives the word; local codes, the insurer and the inspector come before this sheet.",
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

/// A pressure by the gauge.
pub fn psig(pounds: &impl std::fmt::Display) -> String {
    format!("{pounds} psig")
}

/// What so much water adds.
pub fn ladder(height: &str, adds: &str) -> String {
    format!(
        "A gauge that hangs {height} below the top of the water shows {adds} more, in proportion; what it shows too much on the tester is added."
    )
}

/// An instrument.
pub fn instrument(number: &str, what: &str, range: Option<&str>) -> String {
    let range = range.map_or(String::new(), |range| format!(", {range}"));
    format!("{number}, {what}{range}")
}

/// When a gauge was tried last.
pub fn tried(check: &CheckMade) -> String {
    let came = if check.good {
        "found good"
    } else {
        "found wrong"
    };
    format!(
        "tried {} against {}, {came}",
        super::day(check.on),
        check.against
    )
}

/// An error that is on file, but not for this pressure or not with its sign.
pub fn needs_error_here(on_file: &str) -> String {
    format!("{NEEDS_ERROR}; on file {on_file}")
}

/// What a correction cannot be told without.
pub fn cannot_correct(needs: &[&str]) -> String {
    let needs: Vec<_> = needs
        .iter()
        .map(|it| it.trim_start_matches("needs "))
        .collect();
    format!("cannot tell: needs {}", needs.join("; "))
}

/// A gauge in a sentence.
pub fn gauge(it: &Gauge) -> String {
    let or = |what: &str, told: &Result<String, String>| match told {
        Ok(says) | Err(says) => format!("{what}: {says}"),
    };
    let [error, head, shows] = GAUGE_FACTS;
    [
        format!("{}; {}", it.what, it.tried),
        or(error, &it.error),
        or(head, &it.head),
        or(shows, &it.shows),
    ]
    .join("; ")
}

/// A paper that follows an inspection, by when, and who signs it where its text says so.
pub fn filed(what: &str, within: Option<&str>, inspection: &str, signed_by: &[String]) -> String {
    let when = within.map_or(format!("after the {inspection}"), |span| {
        format!("within {span} of the {inspection}")
    });
    if signed_by.is_empty() {
        return format!("{what}, {when}");
    }
    format!("{what}, {when}; signed by {}", signed_by.join("; "))
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
