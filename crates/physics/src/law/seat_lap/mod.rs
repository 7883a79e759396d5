//! `seat.lap`: how a seat and its disc are lapped: each face with its own lap to its own master, which
//! lap for which metal, grade by grade, and when to stop.
//!
//! # Why the lap's metal matters
//!
//! Grit beds in the softer of two faces and cuts the harder. A lap is therefore softer than the work, or
//! at least no harder: it holds the grit and the work is cut. Where the lap is the harder one the grit
//! beds in the *work*, and goes into service with it: such a face is lapped with a compound that breaks
//! down, lightly, and is cleaned out by more than a rag.
//!
//! The order of grades and the rule that the disc is never the lap are naval practice; the figures for
//! each grade are common practice, and the sizes of grain are from memory.

use crate::answer::{Answer, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, House, Length, Rounding, math};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const LADDER: &str = "naval practice for the order; common practice for the figures";
const GEOMETRY: &str =
    "plane geometry: what is taken square to a cone lets the disc down by that over the sine";

/// The metals of seats, discs and laps, softest first, with the hardness they are ranked by (HB, common
/// practice but for bronze and mild steel).
const METALS: [(&str, f64); 7] = [
    ("copper", 50.0),
    ("bronze", 65.0),
    ("mild-steel", 125.0),
    ("aluminum-bronze", 150.0),
    ("cast-iron", 200.0),
    ("stainless-steel", 220.0),
    ("hardened-steel", 550.0),
];
const WORDS: [&str; 7] = [
    METALS[0].0,
    METALS[1].0,
    METALS[2].0,
    METALS[3].0,
    METALS[4].0,
    METALS[5].0,
    METALS[6].0,
];

static CARD: Card = Card {
    id: "seat.lap",
    version: 1,
    title: "Lapping a seat and its disc",
    purpose: "The stages by which a seat and its disc are lapped true, each face with its own lap to its own \
        master; which lap suits which face; how much is machined first; where to stop; how to clean out.",
    formula: "
        m = max(0, S - 0.002)
        l = min(S, 0.002)
        x = S / sin(a)
        x_l = l / sin(a)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::word("body_material", &WORDS, "metal of the seat in the body"),
        Argument::word("disc_material", &WORDS, "metal of the disc"),
        Argument::word(
            "lap_material",
            &WORDS,
            "metal of the laps, one for each face",
        ),
        Argument::quantity(
            "stock",
            "S",
            Dimension::Length,
            "0 in",
            "0.05 in",
            "metal to take, square to the face, at its worst place",
        ),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "10 deg",
            "90 deg",
            "half angle of the seat, from the axis; a flat seat is 90 deg",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        ResultSpec::quantity(
            "machine_first",
            "m",
            Dimension::Length,
            (4, 3),
            "metal to machine before any lap",
            LADDER,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "left_to_lap",
            "l",
            Dimension::Length,
            (4, 3),
            "metal left to the lap",
            LADDER,
        ),
        ResultSpec::quantity(
            "disc_sinks",
            "x",
            Dimension::Length,
            (4, 3),
            "how far the disc sinks for all of it",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::quantity(
            "lap_sinks",
            "x_l",
            Dimension::Length,
            (4, 3),
            "how far of that by lapping",
            GEOMETRY,
        )
        .rounded(Rounding::Up),
        ResultSpec::table("stages", "the stages in their order", LADDER),
        ResultSpec::text(
            "body_lap",
            "how this lap suits the seat",
            "hardness of the two",
        ),
        ResultSpec::text(
            "disc_lap",
            "how this lap suits the disc",
            "hardness of the two",
        ),
        ResultSpec::table("stop_points", "where to stop, and what then", LADDER),
        ResultSpec::text(
            "cautions",
            "what these two metals in particular ask for",
            "hardness of the two",
        ),
        ResultSpec::text(
            "clean_out",
            "what is done before the two faces meet",
            "common practice",
        ),
    ],
    branches: &[GRIND, LAP, MACHINE],
    validity: "Matched faces of metal, conical or flat. A seat with a differential angle is dressed face by face to \
        its own angle and lapped to a line, never to a ring. Soft seats are renewed and not lapped.",
    sources: &[
        Source {
            work: "US Navy training manual, Machinery Repairman (NAVEDTRA 12204-A)",
            locator: "page 13-6 (read in a copy at yumpu.com 443350)",
            used_for: "four grades of compound; a lap and never the disc; refresh, shift and refinish",
        },
        Source {
            work: "US Navy training manual 14104",
            locator: "page 150 (read in a copy at firecontrolman.tpub.com)",
            used_for: "finer and finer until the ring is unbroken; overgrinding is cured by machining only",
        },
        Source {
            work: "US Navy training manuals 14113 and 14265, valve repair",
            locator: "pages 137 and 131 (read in copies at tpub.com)",
            used_for: "thin blue, a quarter turn, both ways about; the test with pencil marks",
        },
        Source {
            work: "Common practice",
            locator: "no source",
            used_for: "what each grade takes and leaves, .0005 and .002 in, the choice of lap by hardness; sizes of \
                grain are from memory",
        },
    ],
    cautions: &[
        "Stem straight and disc square first: a crooked disc laps a crooked seat.",
        "Never use the disc as a lap, and never let one face correct the other: each goes to its own master.",
        "If a void opens under the seat, stop: do not chase it. Show it to the responsible officer.",
        "Keep every compound out of guides, threads and pipes; plug the port with a rag on a string, and count it out.",
        "Isolate, drain and prove the line cold and without pressure before opening a valve.",
    ],
    closed_form: ClosedForm::No(
        "stages, laps and stop points are chosen from lists; the amounts are a formula",
    ),
};

const GRIND: &str = "grind in";
const LAP: &str = "lap";
const MACHINE: &str = "machine first";

/// The most that is left to grinding in alone, and to a lap. Common practice; the same as in
/// `seat.correct`.
const GRINDS: f64 = 0.0005;
const LAPS: f64 = 0.002;

fn hardness(metal: &str) -> f64 {
    METALS
        .iter()
        .find(|(word, _)| *word == metal)
        .map_or(0.0, |(_, hard)| *hard)
}

/// How a lap of one metal suits a face of another.
pub fn suits(lap: &str, face: &str) -> &'static str {
    let (lap, face) = (hardness(lap), hardness(face));
    if lap >= 500.0 {
        "keeps its angle best, but the grit rolls and cuts slowly, and beds in the work: light hand, fine grades only"
    } else if lap < 0.9 * face {
        "softer than the face: it holds the grit and cuts. It also wears: try it on its master after each grade and reface it"
    } else if lap <= 1.15 * face {
        "about as hard as the face: it cuts and keeps its cone, and some grit beds in the work: clean out with care"
    } else {
        "harder than the face: grit beds in the face and not in the lap. Use a compound that breaks down, finish fine, and clean out twice; a softer lap is better"
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let stock = inputs.need_inch("stock")?;
    let word = |name| inputs.word(name).unwrap_or_default();
    let (body, disc, lap) = (
        word("body_material"),
        word("disc_material"),
        word("lap_material"),
    );
    // A millionth of an inch is the dust of arithmetic, not metal.
    let branch = if stock <= GRINDS + 1e-7 {
        GRIND
    } else if stock <= LAPS + 1e-7 {
        LAP
    } else {
        MACHINE
    };
    let lapped = stock.min(LAPS);
    let mut answer = Answer::new(branch)
        .with("machine_first", Length::inches((stock - LAPS).max(0.0)))
        .with("left_to_lap", Length::inches(lapped));
    if let Some(half) = inputs.si("half_angle").map(Angle::radians) {
        let sine = math::sin(half.to_radians());
        answer = answer
            .with("disc_sinks", Length::inches(stock / sine))
            .with("lap_sinks", Length::inches(lapped / sine));
    }
    answer = answer
        .with("stages", stages(branch))
        .with("body_lap", suits(lap, body).to_owned())
        .with("disc_lap", suits(lap, disc).to_owned())
        .with("stop_points", stop_points())
        .with("cautions", together(body, disc))
        .with("clean_out", CLEAN_OUT.to_owned());
    if lap == disc || lap == body {
        answer.notices.push(
            "A lap of the same metal as a face is a separate lap all the same, made and tried on its own master: not the disc of this valve, nor of another.".into(),
        );
    }
    Ok(answer)
}

const CLEAN_OUT: &str = "wipe, then wash both faces and everything near them in solvent with a brush, \
    blow out, wash again and look with a glass; spot with clean blue on a white rag. No face meets the other \
    until no grit comes off on the rag";

/// What two metals that run together ask for.
fn together(body: &str, disc: &str) -> String {
    let (soft, hard) = if hardness(body) <= hardness(disc) {
        (body, disc)
    } else {
        (disc, body)
    };
    if hardness(hard) > 1.15 * hardness(soft) {
        format!(
            "Seat and disc differ: grit left between them beds in the {soft} and cuts the {hard} in service. Lap them apart, clean out, and only touch them together at the last, dry or with the finest grade."
        )
    } else {
        "Seat and disc are about alike: lapped together they wear each other out of shape equally fast. Lap them apart.".to_owned()
    }
}

fn table(columns: &[&str], rows: &[&[&str]]) -> Outcome {
    let text = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect();
    Outcome::Table {
        columns: text(columns),
        rows: rows.iter().map(|row| text(row)).collect(),
    }
}

/// The ladder of grades, entered where the work asks for it.
fn stages(branch: &str) -> Outcome {
    const ALL: [&[&str]; 7] = [
        &[
            "machine",
            "cutter or lathe, true to the stem's bore",
            "-",
            "all but .002 in",
        ],
        &[
            "lap each face, coarse",
            "F220, grain about 53 um",
            ".001 in",
            "no deep mark",
        ],
        &[
            "lap each face, medium",
            "F320, grain about 29 um",
            ".0005 in",
            "coarse marks out",
        ],
        &[
            "lap each face, fine",
            "F500, grain about 13 um",
            ".0003 in",
            "even gray",
        ],
        &[
            "prove each face",
            "blue on its own master",
            "-",
            "unbroken ring",
        ],
        &[
            "grind in, finest",
            "F1000, grain about 5 um",
            ".0001 in",
            "ring unbroken, a third of the land",
        ],
        &[
            "prove together",
            "blue both ways; pencil marks 1/2 in apart",
            "-",
            "all marks rubbed",
        ],
    ];
    let from = match branch {
        MACHINE => 0,
        LAP => 1,
        _ => 4,
    };
    table(
        &["stage", "with", "takes", "until"],
        ALL.get(from..).unwrap_or_default(),
    )
}

fn stop_points() -> Outcome {
    table(
        &["when", "then"],
        &[
            &["a void or crack opens", "stop; show it to the officer"],
            &["more than .002 in is still to go", "stop lapping; machine"],
            &["the lap shows a groove", "reface the lap on its master"],
            &[
                "a minute has gone by",
                "wipe both, fresh compound, shift a quarter turn",
            ],
            &[
                "marks of the grade before are gone",
                "next finer grade; never back",
            ],
            &[
                "the ring grows wide and dull",
                "overlapped: machine and begin again",
            ],
            &["the ring is unbroken and even", "stop; more only widens it"],
        ],
    )
}
