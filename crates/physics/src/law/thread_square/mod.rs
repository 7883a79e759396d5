//! `thread.square`: the square thread, and the modified one whose flanks lean a little so that it can
//! be milled or chased.
//!
//! Thread and space are each half a pitch at the pitch line, and the thread is half a pitch deep. With
//! flanks that lean by `a` the crest and the root narrow from there by a quarter pitch times the
//! tangent on each side. The nut is relieved by the clearance at both diameters.

use crate::answer::{Answer, Assumption};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{STARTS, UNREAD, diameter, length, line, tpi};
use crate::thread::{has_core, lead_angle, starts};
use measure::{Dimension, House, Length, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.square";

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Square thread, plain or modified",
    purpose: "The sizes of a square thread for screw and nut and the widths of its tools; with the \
        flanks leaned by a few degrees, those of the modified form.",
    formula: "
        P = 1 / n
        h = P / 2
        d_2 = D - h
        d_1 = D - P
        D_1 = D - P + c
        D_m = D + c
        F = P / 2 - P / 2 * tan(a)
        F_n = F + k
        L_a = atan(s * P / (pi * d_2))
        L_m = atan(s * P / (pi * d_1))",
    book_units: Some(House::Inch),
    arguments: &[
        diameter("1/4 in", "8 in"),
        tpi("1/2", "20"),
        Argument::quantity(
            "clearance",
            "c",
            Dimension::Length,
            "0 in",
            "0.1 in",
            "clearance of the nut at crest and root, on the diameter (usual: .010 to .020 in)",
        )
        .optional(),
        Argument::quantity(
            "flank_clearance",
            "k",
            Dimension::Length,
            "0 in",
            "0.05 in",
            "how much wider the nut's space is than the screw's thread (usual: .001 to .003 in)",
        )
        .optional(),
        Argument::quantity(
            "flank_angle",
            "a",
            Dimension::Angle,
            "0 deg",
            "10 deg",
            "lean of one flank: 0 square, 5 modified",
        )
        .optional(),
        STARTS,
    ],
    table_values: &[],
    lines: &[line("P", "pitch", UNREAD)],
    results: &[
        length("depth", "h", "depth of the thread", UNREAD),
        length("pitch_diameter", "d_2", "pitch diameter", UNREAD),
        length("external_minor", "d_1", "screw, at the root", UNREAD),
        length("internal_minor", "D_1", "nut, bore", UNREAD),
        length("internal_major", "D_m", "nut, at the root", UNREAD),
        length(
            "flat",
            "F",
            "flat at crest and root: the end of the screw's tool",
            UNREAD,
        ),
        length("nut_tool", "F_n", "end of the nut's tool", UNREAD),
        ResultSpec::quantity(
            "lead_angle",
            "L_a",
            Dimension::Angle,
            (2, 2),
            "lead angle at the pitch diameter",
            UNREAD,
        ),
        ResultSpec::quantity(
            "lead_angle_minor",
            "L_m",
            Dimension::Angle,
            (2, 2),
            "lead angle at the root: the leading side of the tool must clear it",
            UNREAD,
        ),
    ],
    branches: &["square"],
    validity: "Square threads and the modified form to 10 degrees of lean, half a pitch deep. There is no \
        standard of limits; old builders had their own depths and pitches. Measure the thread that is \
        there.",
    sources: &[Source {
        work: "Memory",
        locator: "no source",
        used_for: "proportions and usual clearances; common in old American and British practice",
    }],
    cautions: &[
        "A square tool without side clearance to the helix rubs and breaks: grind the leading side past \
            the lead angle at the root.",
        "An Acme nut does not fit a square screw though the pitch agrees.",
    ],
    closed_form: ClosedForm::Yes,
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let pitch = 1.0 / inputs.need_per_inch("tpi")?;
    has_core(ID, diameter, Length::inches(pitch))?;
    let mut assumptions = Vec::new();
    let starts = starts(inputs, &mut assumptions);
    let lean = inputs.si("flank_angle").unwrap_or_else(|| {
        assumptions.push(Assumption {
            argument: "flank_angle",
            text: "0 deg",
            si: 0.0,
            why: "a square thread has no lean unless it is called modified; look at the flanks",
        });
        0.0
    });
    let (d, half, inches) = (diameter.to_inches(), 0.5 * pitch, Length::inches);
    let flat = half - half * math::tan(lean);
    let lead = |at: f64| lead_angle(starts * pitch, at);
    let mut answer = Answer::new("square")
        .with("depth", inches(half))
        .with("pitch_diameter", inches(d - half))
        .with("external_minor", inches(d - pitch))
        .with("flat", inches(flat))
        .with("lead_angle", lead(d - half))
        .with("lead_angle_minor", lead(d - pitch));
    if let Some(clear) = inputs.length("clearance").map(Length::to_inches) {
        answer = answer
            .with("internal_minor", inches(d - pitch + clear))
            .with("internal_major", inches(d + clear));
    }
    if let Some(wider) = inputs.length("flank_clearance").map(Length::to_inches) {
        answer = answer.with("nut_tool", inches(flat + wider));
    }
    answer.assumptions = assumptions;
    Ok(answer)
}
