//! `fit.iso`: limits and clearances of a fit by the ISO system, hole and shaft by letter and grade.
//!
//! The system has formulas, but its tables were rounded from them by hand and eye: the tables are
//! what counts, and the tests hold them to the formulas. A hole of a letter D to G stands as far above
//! the nominal size as the shaft of that letter stands below it.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, Kind, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::fit::{self, BRANCHES, FORMULA, RESULTS, Zones};
use crate::given::Inputs;
use measure::{Dimension, House, Length};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

/// The holes and shafts on file.
const ZONES: [&str; 64] = [
    "H5", "H6", "H7", "H8", "H9", "H10", "H11", "G6", "G7", "F7", "F8", "E8", "E9", "D9", "D10",
    "JS6", "JS7", "JS8", "d8", "d9", "d10", "d11", "e7", "e8", "e9", "f6", "f7", "f8", "f9", "g5",
    "g6", "g7", "h5", "h6", "h7", "h8", "h9", "h10", "h11", "js5", "js6", "js7", "k5", "k6", "k7",
    "m5", "m6", "m7", "n5", "n6", "n7", "p5", "p6", "p7", "r5", "r6", "r7", "s5", "s6", "s7", "u6",
    "u7", "x6", "x7",
];

static CARD: Card = Card {
    id: "fit.iso",
    version: 1,
    title: "Limits of a fit by the ISO system",
    purpose: "A nominal size with a hole and a shaft such as H7/g6: the limits of both, and the least \
        and greatest clearance between them.",
    formula: FORMULA,
    book_units: Some(House::Metric),
    arguments: &[
        Argument::quantity(
            "size",
            "d",
            Dimension::Length,
            "1 mm",
            "500 mm",
            "nominal size, one for both parts",
        ),
        Argument {
            name: "fit",
            symbol: "fit",
            meaning: "hole and shaft with their grades: H7/g6",
            kind: Kind::Words {
                choices: &ZONES,
                roles: &["hole", "shaft"],
            },
            required: true,
        },
    ],
    table_values: &fit::deviations("µm", TABLES),
    lines: &[],
    results: &RESULTS,
    branches: &BRANCHES,
    validity: "Nominal sizes of 1 to 500 mm and the holes and shafts on file, at 20 °C (68 °F), both parts \
        at one temperature. The limits say nothing about form: a bushing pressed in is no longer round to them.",
    sources: &[
        Source {
            work: "K. L. Narayana, P. Kannaiah, K. V. Reddy, Machine Drawing",
            locator: "tables 15.2 to 15.4, pages 215 to 222 (read in copies at issuhub.com and fliphtml5.com)",
            used_for: "most fundamental deviations, and the formulas that the tests hold the tables to",
        },
        Source {
            work: "ISO 286-1, standard tolerance grades and upper deviations of shafts",
            locator: "as reproduced at engineersvault.blogspot.com, mechguru.com and cobanengineering.com",
            used_for: "the grades, and letters d to g; the standard itself was not read",
        },
    ],
    cautions: &[
        "Measure both parts at one temperature: a bronze bushing warm from the tool is large by several \
            thousandths.",
        "A steam part runs hot: work the clearance that heat takes (fit.hot_clearance) before choosing.",
        "A standard fit is a start, not a ruling: the drawing and the rule on this part govern.",
    ],
    closed_form: ClosedForm::No("the deviations are looked up in tables"),
};

const TABLES: &str = "tables/fit/iso-grades.csv and iso-deviations.csv";

/// The deviations of one hole or shaft (`H7`, `g6`) for a size in millimetres, in micrometres, with
/// how they were come by.
///
/// # Errors
/// [`SheetError::OwnFault`] when a table cannot be read or does not reach.
pub fn zone(word: &str, mm: f64) -> Result<((f64, f64), String), SheetError> {
    let digits = word
        .find(|c: char| c.is_ascii_digit())
        .unwrap_or(word.len());
    let (letter, grade) = word.split_at(digits);
    let number: u8 = grade.parse().unwrap_or(0);
    let wide = fit::iso_grade(CARD.id, number, mm)?;
    let hole = letter.starts_with(|c: char| c.is_ascii_uppercase());
    let small = letter.to_lowercase();
    let said = |how: &str| format!("{word}: IT{number} is {wide}, {how}");
    let zone = match small.as_str() {
        "js" => ((-wide / 2.0, wide / 2.0), said("half of it either way")),
        "h" if hole => ((0.0, wide), said("all of it above the nominal size")),
        "h" => ((-wide, 0.0), said("all of it below the nominal size")),
        _ => {
            let (deviation, grade) = fit::iso_deviation(CARD.id, &small, mm)?;
            let how = said(&format!("deviation of {small} {deviation} ({grade})"));
            let zone = if hole {
                (-deviation, -deviation + wide)
            } else if matches!(small.as_str(), "d" | "e" | "f" | "g") {
                (deviation - wide, deviation)
            } else {
                (deviation, deviation + wide)
            };
            (zone, how)
        }
    };
    Ok(zone)
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let size = inputs.need_length("size")?;
    let [hole, shaft] = inputs.need_pair("fit")?;
    let capital = |word: &str| word.starts_with(|c: char| c.is_ascii_uppercase());
    if !capital(hole) || capital(shaft) {
        return Err(SheetError::impossible(
            CARD.id,
            format!("{hole}/{shaft} is not a hole and a shaft"),
            "the hole first, with its capital letter, then the shaft: H7/g6",
        ));
    }
    let mm = size.to_mm();
    let ((hole, of_hole), (shaft, of_shaft)) = (zone(hole, mm)?, zone(shaft, mm)?);
    let zones = Zones { hole, shaft };
    let limits = fit::limits(size, zones, Length::mm(1.0));
    let rows = [of_hole.as_str(), &of_shaft];
    let memory = rows.iter().any(|row| row.contains("memory"));
    let mut answer = fit::answer(&limits, zones, &fit::deviations("µm", TABLES), rows);
    if memory {
        answer.notices.push("A deviation of this fit is from memory: the standard's own table was not legible. Look it up before gauges are made.".into());
    }
    Ok(answer)
}
