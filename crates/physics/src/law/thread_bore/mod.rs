//! `thread.bore`: the bore to tap or chase at a stated percentage of full thread, worked for the form
//! of the thread and never taken from another form's drill chart.
//!
//! # What a percentage is of
//!
//! A hundred per cent is the depth that the trade calls full for that form, on both sides: for the 60
//! degree National and Unified threads the 0.6495 pitch of the old United States Standard (so that
//! the basic bore of a Unified nut is 83 1/3 per cent); for sharp V the whole triangle; for
//! Whitworth the 0.6403 pitch of its rounded form; for Acme and square half a pitch; for Stub Acme
//! 0.3 pitch.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{self, figure, length, line};
use crate::thread::has_core;
use measure::{Dimension, Length};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.bore";
const FORMS: [&str; 6] = [
    "unified",
    "sharp-v",
    "whitworth",
    "acme",
    "stub-acme",
    "square",
];
const SOURCE: &str = "the form's own depth";
const FULL: Symbol = figure("f", "full thread on both sides, in pitches", SOURCE);
/// The share of full thread, however it was written.
pub(super) const SHARE: Symbol = figure("q", "share of full thread", "percent as given");

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Bore for a percentage of full thread",
    purpose: "The diameter to bore or drill before tapping or chasing, so that the nut has the stated \
        percentage of full thread, by the form of the thread.",
    formula: "
        P = 1 / n
        B = D - f * P * q
        h = (D - B) / 2
        B_f = D - f * P",
    book_units: Some(measure::House::Inch),
    arguments: &[
        Argument::word(
            "form",
            &FORMS,
            "form of the thread; American National bores as unified",
        ),
        card::diameter("1/8 in", "12 in"),
        card::tpi("1", "40"),
        Argument::quantity(
            "percent",
            "p",
            Dimension::Ratio,
            "0.3",
            "100",
            "thread wanted, of full: 75, 75% or 3/4, from 30 to 100 per cent",
        ),
    ],
    table_values: &[FULL, SHARE],
    lines: &[line("P", "pitch", SOURCE)],
    results: &[
        length("bore", "B", "bore before the thread is cut", SOURCE),
        length("depth", "h", "depth of thread on one side", SOURCE),
        length(
            "full_bore",
            "B_f",
            "bore of a full thread: never go under it",
            SOURCE,
        ),
        ResultSpec::text("taken_as_full", "what a hundred per cent is of", SOURCE),
    ],
    branches: &FORMS,
    validity: "Parallel threads from 1/8 in, a pitch of not more than half the diameter. A thread that \
        must hold steam along a taper wants full form. A drill cuts over its size: ream or bore where \
        the thread matters.",
    sources: &[
        Source {
            work: "J. Rose, Modern Machine Shop Practice; F. D. Jones, Turning and Boring",
            locator: "bitlit.ru pages 508 and 88",
            used_for: "depth of the United States Standard and sharp V threads",
        },
        Source {
            work: "TR Fastenings, BSW geometry; torqbolt.com, Stub Acme dimensions",
            locator: "BSW table; Stub Acme 29 degree threads table",
            used_for: "depth of Whitworth and Stub Acme threads",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "that the percentage of a Unified thread is of the older depth; square and Acme",
        },
    ],
    cautions: &[
        "A drill chart is for one form and one percentage. V, National and Whitworth of one size and \
            pitch want three bores.",
        "A thread too full breaks the tap in the hole; one too shallow strips or leaks along the \
            crests. For plugs and studs that hold pressure ask the drawing or the code for the thread.",
    ],
    closed_form: ClosedForm::No("the depth of each form is looked up"),
};

/// Full thread of `form` on both sides, in pitches, and what it is of. None for a form not known.
///
/// Sources: as on the card; the sixth and fourth from memory.
pub fn full(form: &str) -> Option<(f64, &'static str)> {
    Some(match form {
        "unified" => (
            1.299_038,
            "the 0.6495 pitch of the United States Standard; the basic bore of a Unified nut is 83 1/3 %",
        ),
        "sharp-v" => (1.732_051, "the whole triangle, 0.8660 pitch"),
        "whitworth" => (1.280_654, "the 0.6403 pitch of the rounded form"),
        "acme" => (
            1.0,
            "half a pitch; the clearance at the nut's root is not counted",
        ),
        "stub-acme" => (0.6, "0.3 pitch"),
        "square" => (1.0, "half a pitch"),
        _ => return None,
    })
}

/// The bore for a thread of `diameter` and `tpi` with `share` (0 to 1) of the `full` double depth.
pub fn bore(diameter: Length, tpi: f64, share: f64, full: f64) -> Length {
    Length::inches(diameter.to_inches() - full / tpi * share)
}

/// The share of full thread asked for, 0.3 to 1, where `percent` was given: a bare 75 is 75 per cent,
/// as is 75% and 3/4.
///
/// # Errors
/// [`SheetError::Impossible`] for a figure that is neither a share nor a percentage of 30 to 100.
pub(super) fn share(inputs: &Inputs) -> Result<Option<f64>, SheetError> {
    let Some(given) = inputs.si("percent") else {
        return Ok(None);
    };
    let share = if given > 1.0 { given / 100.0 } else { given };
    if (0.3 - 1e-9..=1.0).contains(&share) {
        return Ok(Some(share));
    }
    Err(SheetError::impossible(
        inputs.card.id,
        format!("{given} is no percentage of thread"),
        "30 to 100, written 75, 75% or 3/4",
    ))
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let share = share(inputs)?.unwrap_or_default();
    let form = inputs.need_word("form", |word| FORMS.into_iter().find(|f| *f == word))?;
    has_core(ID, diameter, Length::inches(1.0 / tpi))?;
    let (whole, of) = full(form).ok_or_else(|| SheetError::OwnFault {
        sheet: ID,
        what: "list of forms",
        detail: form.to_owned(),
    })?;
    let at = bore(diameter, tpi, share, whole);
    let mut answer = Answer::new(form)
        .with("bore", at)
        .with("depth", Length::m(0.5 * (diameter.to_m() - at.to_m())))
        .with("full_bore", bore(diameter, tpi, 1.0, whole))
        .with("taken_as_full", of.to_owned());
    answer.table_values = vec![TableValue::inch_book(FULL, whole, of)];
    answer.found = vec![TableValue::inch_book(SHARE, share, "percent as given")];
    if share < 0.6 {
        answer.notices.push(
            "Under 60 per cent: by common practice too shallow for a thread that must hold pressure \
             or be undone often."
                .to_owned(),
        );
    }
    if form == "unified" && share > 0.834 {
        answer.notices.push(
            "Over 83 1/3 per cent: smaller than the least bore of a Unified nut; a Unified screw's \
             rounded root may foul."
                .to_owned(),
        );
    }
    Ok(answer)
}
