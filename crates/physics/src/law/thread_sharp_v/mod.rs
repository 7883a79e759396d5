//! `thread.sharp_v`: the old 60 degree thread without flats, and what is left of it when its crests
//! are dulled.
//!
//! The form is the whole triangle, so its depth is 0.8660 pitch and its pitch diameter that much under
//! the nominal. A V tap or screw was never quite sharp: crests dulled by a little stand `clearance / 2`
//! under the nominal all round and carry a flat; the pitch diameter does not change.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{diameter, length, line, tpi};
use crate::thread::has_core;
use measure::{Dimension, House, Length, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.sharp_v";
const ROSE: &str = "J. Rose, Modern Machine Shop Practice";
const GEOMETRY: &str = "plane geometry";

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Sharp V thread",
    purpose: "The sizes of the old American V thread, 60 degrees without flats, of screw and nut, and \
        the flat that dulled crests leave.",
    formula: "
        P = 1 / n
        h = 0.8660254 * P
        d_2 = D - h
        d_1 = D - 2 * h
        D_1 = d_1 + c
        d = D - c
        F = c * tan(30)",
    book_units: Some(House::Inch),
    arguments: &[
        diameter("1/8 in", "6 in"),
        tpi("1", "64"),
        Argument::quantity(
            "clearance",
            "c",
            Dimension::Length,
            "0 in",
            "0.1 in",
            "how much the crests of screw and nut are dulled, on the diameter",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[line("P", "pitch", ROSE)],
    results: &[
        length("depth", "h", "depth of the whole triangle", ROSE),
        length(
            "pitch_diameter",
            "d_2",
            "pitch diameter of screw and nut",
            ROSE,
        ),
        length("external_minor", "d_1", "screw, at the sharp root", ROSE),
        length(
            "internal_minor",
            "D_1",
            "nut, bore with dulled crests",
            GEOMETRY,
        ),
        length("external_major", "d", "screw, over dulled crests", GEOMETRY),
        length(
            "flat",
            "F",
            "flat that the dulling leaves on a crest",
            GEOMETRY,
        ),
    ],
    branches: &["sharp-v"],
    validity: "60 degrees, parallel, screw and nut of the same sharp form, no limits and no allowance: \
        the makers had their own. A National screw of one size and pitch stands 0.2165 pitch larger in \
        pitch diameter and does not enter a V nut.",
    sources: &[
        Source {
            work: "J. Rose, Modern Machine Shop Practice",
            locator: "bitlit.ru page 508",
            used_for: "depth and root",
        },
        Source {
            work: "Thread measuring wire formulas",
            locator: "scribd 582762296",
            used_for: "depth",
        },
    ],
    cautions: &[
        "Old staybolts, plugs and studs may be V where the list says National. Gauge the hole and the \
            screw: the two want different bores and do not seal in each other.",
        "A sharp root starts cracks. New work to an old hole follows the drawing and the code, not only \
            the form that is found.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let pitch = 1.0 / inputs.need_per_inch("tpi")?;
    has_core(ID, diameter, Length::inches(pitch))?;
    let (d, depth, inches) = (diameter.to_inches(), 0.866_025_4 * pitch, Length::inches);
    let mut answer = Answer::new("sharp-v")
        .with("depth", inches(depth))
        .with("pitch_diameter", inches(d - depth))
        .with("external_minor", inches(d - 2.0 * depth));
    if let Some(dulled) = inputs.length("clearance").map(Length::to_inches) {
        if dulled > depth {
            return Err(SheetError::impossible(
                ID,
                format!("crests dulled by {dulled:.4} in on a thread {depth:.4} in deep"),
                "a clearance of less than one depth, half the thread's height",
            ));
        }
        answer = answer
            .with("internal_minor", inches(d - 2.0 * depth + dulled))
            .with("external_major", inches(d - dulled))
            .with("flat", inches(dulled * math::tan_deg(30.0)));
    }
    answer.notices.push(
        "By memory, makers left a flat of about 0.03 to 1/24 of the pitch. A screw that is right over \
         wires is right though its crests are dull."
            .to_owned(),
    );
    Ok(answer)
}
