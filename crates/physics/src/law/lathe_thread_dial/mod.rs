//! `lathe.thread_dial`: at which lines of the thread dial the half nuts may be closed again.
//!
//! With the half nuts open the carriage stands still and the turning leadscrew turns the dial; the dial's worm wheel
//! counts the leadscrew's threads. From one line to the next it tells a travel of *z p / N*. The tool falls into its
//! own groove where that travel is a whole number of leads of the work. Pitches stay exact fractions: a metric thread
//! on an inch screw meets its groove again only after 127 of something, which no dial tells.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Dimension, Fraction, House, Length, fraction};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const COUNTED: &str = "whole numbers: the dial counts the leadscrew's threads";

static CARD: Card = Card {
    id: "lathe.thread_dial",
    version: 1,
    title: "Closing the half nuts by the thread dial",
    purpose: "At which lines of this lathe's thread dial the half nuts may be closed for the next pass so that the \
        tool falls into its own groove; or that they stay shut until the thread is done, and the lathe is run back.",
    formula: "
        s = z / (n_l * N)
        t = z * n_w / (n_l * N)
        w = z * n_w / n_l",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "leadscrew",
            "n_l",
            Dimension::Pitch,
            "1/100 in",
            "2 in",
            "the leadscrew's pitch: 4 TPI, 6 mm",
        ),
        Argument::quantity(
            "wanted",
            "n_w",
            Dimension::Pitch,
            "1/200 in",
            "4 in",
            "the pitch being cut; of a thread with several starts, its lead",
        ),
        Argument::quantity(
            "wheel",
            "z",
            Dimension::Count,
            "4",
            "200",
            "teeth of the dial's worm wheel",
        ),
        Argument::quantity(
            "lines",
            "N",
            Dimension::Count,
            "1",
            "100",
            "lines on the dial, numbered and plain together, evenly spaced",
        ),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::text("engage", "where the half nuts may be closed", COUNTED),
        ResultSpec::quantity(
            "usable",
            "",
            Dimension::Count,
            (0, 0),
            "lines at which they may be; 0 where they stay shut",
            COUNTED,
        ),
        ResultSpec::quantity(
            "travel",
            "s",
            Dimension::Length,
            (5, 4),
            "travel that the dial tells from one line to the next",
            COUNTED,
        ),
        ResultSpec::quantity(
            "threads_between",
            "t",
            Dimension::Ratio,
            (4, 4),
            "leads of the work in that travel",
            COUNTED,
        ),
        ResultSpec::quantity(
            "threads_in_turn",
            "w",
            Dimension::Ratio,
            (4, 4),
            "leads of the work in one whole turn of the dial",
            COUNTED,
        ),
    ],
    branches: &[ANYWHERE, LINES, SHUT],
    validity: "A dial whose worm wheel runs on the leadscrew itself, with the half nuts closing on whole threads of \
        it. Of a thread with several starts, give the lead: the dial knows nothing of starts. A dial with \
        wheels to change, for metric screws, is reckoned with the wheel that is on.",
    sources: &[Source {
        work: "F. D. Jones, Turning and Boring",
        locator: "pages on cutting threads and the thread indicator (read in a copy at bitlit.ru, pages 75 and 76)",
        used_for: "the principle, multiples of the leadscrew, and a dial of 24 teeth and 8 lines",
    }],
    cautions: &[
        "Before the first cut, try the dial with the tool clear of the work: close, run, and look at the tool \
            against a scratch of the thread.",
        "A wheel of the dial worn, or slipped on its stem, tells wrong lines: mark the stem and watch it over the passes.",
        "Half nuts that stay shut mean running the lathe back under power: draw the tool out first, and mind the \
            backlash before the tool is fed in again.",
    ],
    closed_form: ClosedForm::No(
        "the lines are found by whole numbers; what the dial travels is a formula",
    ),
};

const ANYWHERE: &str = "anywhere";
const LINES: &str = "at lines";
const SHUT: &str = "stay shut";

/// How many lines on from one that is right the next right one is: `None` where a whole turn of the dial does not bring
/// the tool to its groove, so that no line can be trusted.
///
/// `travel` is what the dial tells from line to line and `lead` that of the work, in one unit; `lines` are all there are.
///
/// Source: F. D. Jones, Turning and Boring, the thread indicator.
pub fn step(travel: Fraction, lead: Fraction, lines: u32) -> Option<u32> {
    let whole = |on: u32| (travel * Fraction::from_integer(on.into()) / lead).is_integer();
    whole(lines).then_some(())?;
    (1..=lines).find(|on| whole(*on))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let leadscrew = inputs.need_pitch("leadscrew")?.inches();
    let lead = inputs.need_pitch("wanted")?.inches();
    // Counts are read as whole numbers; the cast only drops the nought behind the point.
    let teeth = inputs.need_si("wheel")? as u32;
    let lines = inputs.need_si("lines")? as u32;
    let turn = leadscrew * Fraction::from_integer(teeth.into());
    let travel = turn / Fraction::from_integer(lines.into());
    let (branch, engage, usable) = if (leadscrew / lead).is_integer() {
        (
            ANYWHERE,
            "anywhere: every thread of the leadscrew is right".to_owned(),
            lines,
        )
    } else {
        match step(travel, lead, lines) {
            Some(step) => (LINES, said(step, lines), lines / step),
            None => (
                SHUT,
                "the half nuts stay shut until the thread is done: no line comes round right"
                    .to_owned(),
                0,
            ),
        }
    };
    Ok(Answer::new(branch)
        .with("engage", engage)
        .with("usable", Outcome::Si(usable.into()))
        .with("travel", Length::inches(fraction::to_f64(travel)))
        .with(
            "threads_between",
            Outcome::Si(fraction::to_f64(travel / lead)),
        )
        .with(
            "threads_in_turn",
            Outcome::Si(fraction::to_f64(turn / lead)),
        ))
}

/// The lines, as a person at the lathe counts them from the one begun on.
fn said(step: u32, lines: u32) -> String {
    match (step, lines / step) {
        (1, _) => "at any line".to_owned(),
        (_, 1) => "only at the line begun on".to_owned(),
        (_, 2) => "at the line begun on and the one opposite".to_owned(),
        (step, right) => {
            let on: Vec<String> = (1..right).map(|n| (n * step).to_string()).collect();
            format!(
                "at the line begun on, and {} lines on from it",
                on.join(", ")
            )
        }
    }
}
