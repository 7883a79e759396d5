//! `thread.metric`: the limits of an ISO metric thread, 60 degrees, screw 6g or 6h in nut 6H.
//!
//! The tolerances are preferred numbers, so they are looked up and not worked; the sizes are the basic
//! ones to a micrometre with the deviation and the tolerances taken off or put on.

use crate::answer::{Answer, TableValue};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source, Symbol};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::card::{UNREAD, line};
use crate::thread::limits::{Limits, rounded};
use crate::thread::metric::{Grade6, grade_6};
use measure::{Dimension, House, Length};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "thread.metric";
const FORM: &str = "ISO 68-1 and ISO 965-1, as published tables print them";
const TABLE: &str = "tables/thread/metric.csv";
const PITCHES: [&str; 18] = [
    "0.5", "0.6", "0.7", "0.75", "0.8", "1", "1.25", "1.5", "1.75", "2", "2.5", "3", "3.5", "4",
    "4.5", "5", "5.5", "6",
];
const PITCH: Symbol = line("P", "pitch", TABLE);
const UNDER: Symbol = line("A", "deviation of the screw, under the basic size", TABLE);
const ON_MAJOR: Symbol = line("T_d", "tolerance on the screw's major diameter", TABLE);
const ON_SCREW: Symbol = line("T_e", "tolerance on the screw's pitch diameter", TABLE);
const ON_NUT: Symbol = line("T_i", "tolerance on the nut's pitch diameter", TABLE);
const ON_BORE: Symbol = line("T_m", "tolerance on the nut's bore", TABLE);

const fn size(
    name: &'static str,
    symbol: &'static str,
    meaning: &'static str,
    source: &'static str,
) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Length, (4, 3), meaning, source)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Limits of an ISO metric thread",
    purpose: "The limits of screw and nut for a metric thread, the usual screw 6g or the screw without \
        clearance 6h, in a nut 6H.",
    formula: "
        d_max = D - A
        d_min = d_max - T_d
        d2_max = round(D - 0.64951905 * P, 3) - A
        d2_min = d2_max - T_e
        d1_max = round(D - 1.08253175 * P, 3) - A
        D_min = D
        D2_min = round(D - 0.64951905 * P, 3)
        D2_max = D2_min + T_i
        D1_min = round(D - 1.08253175 * P, 3)
        D1_max = D1_min + T_m
        es = A",
    book_units: Some(House::Metric),
    arguments: &[
        Argument::quantity(
            "diameter",
            "D",
            Dimension::Length,
            "3 mm",
            "90 mm",
            "nominal diameter",
        ),
        Argument::word("pitch", &PITCHES, "pitch in millimetres, the number alone"),
        Argument::word("class", &["6g", "6h"], "class of the screw; the nut is 6H"),
    ],
    table_values: &[PITCH, UNDER, ON_MAJOR, ON_SCREW, ON_NUT, ON_BORE],
    lines: &[],
    results: &[
        size(
            "external_major_max",
            "d_max",
            "screw, major diameter, most",
            FORM,
        ),
        size(
            "external_major_min",
            "d_min",
            "screw, major diameter, least",
            FORM,
        ),
        size(
            "external_pitch_max",
            "d2_max",
            "screw, pitch diameter, most",
            FORM,
        ),
        size(
            "external_pitch_min",
            "d2_min",
            "screw, pitch diameter, least",
            FORM,
        ),
        size(
            "external_minor_max",
            "d1_max",
            "screw, minor diameter, most, flat root",
            FORM,
        ),
        size(
            "internal_major_min",
            "D_min",
            "nut, major diameter, least",
            FORM,
        ),
        size(
            "internal_pitch_min",
            "D2_min",
            "nut, pitch diameter, least (basic)",
            FORM,
        ),
        size(
            "internal_pitch_max",
            "D2_max",
            "nut, pitch diameter, most",
            FORM,
        ),
        size("internal_minor_min", "D1_min", "nut, bore, least", FORM),
        size("internal_minor_max", "D1_max", "nut, bore, most", UNREAD),
        size(
            "allowance",
            "es",
            "how far the screw's greatest sizes stand under the basic",
            FORM,
        ),
    ],
    branches: &["6g", "6h"],
    validity: "ISO metric threads of 60 degrees, 3 to 90 mm, pitches that the standard lists for the \
        diameter, normal length engaged. Not for older metric threads (French, German, Swiss) of other \
        angle or depth, nor for trapezoidal threads.",
    sources: &[
        Source {
            work: "amesweb.info, metric thread chart (ASME B1.13M)",
            locator: "screws/metric-thread-chart.aspx, M3 to M6",
            used_for: "published limits of screws 6g and 6h",
        },
        Source {
            work: "ISCAR, taps user guide 2022, nut limits ISO 6H",
            locator: "page 56 (docs.steelcam.org)",
            used_for: "published pitch and minor diameters of nuts",
        },
        Source {
            work: "Memory",
            locator: "no source",
            used_for: "the table of deviations and tolerances, held against the two above",
        },
    ],
    cautions: &[
        "M10 and 3/8 in, M12 and 1/2 in, M6 and 1/4 in start in each other and strip. Measure the pitch over ten \
            threads.",
        "A thread that holds pressure is passed by its code and the responsible officer.",
    ],
    closed_form: ClosedForm::No("pitch, deviation and tolerances are looked up"),
};

/// The limits of a metric thread of nominal `diameter` with the figures of its pitch, the screw
/// `under` the basic size by this much.
pub fn metric(diameter: Length, figures: &Grade6, under: Length) -> Limits {
    let (d, pitch) = (diameter.to_mm(), figures.pitch.to_mm());
    let effective = rounded(d - 0.649_519_05 * pitch, 3);
    let bore = rounded(d - 1.082_531_75 * pitch, 3);
    let (under_mm, mm) = (under.to_mm(), Length::mm);
    let (major, screw) = (d - under_mm, effective - under_mm);
    Limits {
        external_major: (mm(major - figures.major.to_mm()), mm(major)),
        external_pitch: (mm(screw - figures.screw.to_mm()), mm(screw)),
        external_minor_max: mm(bore - under_mm),
        internal_major_min: diameter,
        internal_pitch: (mm(effective), mm(effective + figures.nut.to_mm())),
        internal_minor: (mm(bore), mm(bore + figures.bore.to_mm())),
        allowance: under,
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let pitch = inputs.word("pitch").unwrap_or_default();
    let (branch, close) = match inputs.word("class") {
        Some("6h") => ("6h", true),
        _ => ("6g", false),
    };
    let figures = grade_6(ID, diameter, pitch)?.ok_or_else(|| {
        SheetError::impossible(
            ID,
            format!(
                "{} mm with a pitch of {pitch} mm",
                crate::formula::significant(diameter.to_mm())
            ),
            "a pitch that the standard lists for the diameter",
        )
    })?;
    let under = if close {
        Length::mm(0.0)
    } else {
        figures.deviation
    };
    let mut answer = Answer::new(branch).with_limits(&metric(diameter, &figures, under));
    let row = |symbol: Symbol, length: Length, row: String| TableValue {
        symbol,
        value: length.to_m(),
        printed: format!("{} mm", crate::formula::significant(length.to_mm())),
        row,
    };
    let from = |what: &str| format!("metric.csv, pitch {pitch}, {what}, from memory");
    answer.table_values = vec![
        row(PITCH, figures.pitch, format!("metric.csv, pitch {pitch}")),
        row(UNDER, under, from(branch)),
        row(ON_MAJOR, figures.major, from("grade 6")),
        row(ON_SCREW, figures.screw, from("grade 6")),
        row(ON_NUT, figures.nut, from("grade 6")),
        row(ON_BORE, figures.bore, from("grade 6")),
    ];
    Ok(answer)
}
