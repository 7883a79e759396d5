//! `fit.inch_class`: limits and clearances of a standard inch fit: running, locational, force.
//!
//! These tables have no formula. What could be read of them is on file; for the rest the sheet says
//! that it is not.

use crate::answer::Answer;
use crate::card::{Argument, Card, ClosedForm, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::fit::{self, BRANCHES, INCH_FORMULA, RESULTS};
use crate::given::Inputs;
use measure::{Dimension, House, Length};

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const CLASSES: [&str; 34] = [
    "RC1", "RC2", "RC3", "RC4", "RC5", "RC6", "RC7", "RC8", "RC9", "LC1", "LC2", "LC3", "LC4",
    "LC5", "LC6", "LC7", "LC8", "LC9", "LC10", "LC11", "LT1", "LT2", "LT3", "LT4", "LT5", "LT6",
    "LN1", "LN2", "LN3", "FN1", "FN2", "FN3", "FN4", "FN5",
];
const TABLE: &str = "tables/fit/inch-classes.csv";
const THOUSANDTHS: &str = "thousandths of an inch";

const SYMBOLS: [crate::card::Symbol; 3] = {
    let [upper, _, shaft_upper, shaft_lower] = fit::deviations(THOUSANDTHS, TABLE);
    [upper, shaft_upper, shaft_lower]
};

static CARD: Card = Card {
    id: "fit.inch_class",
    version: 1,
    title: "Limits of a standard inch fit",
    purpose: "A nominal size and a class: RC running and sliding, LC, LT and LN for location (clearance, \
        transition, interference), FN force and shrink. The limits of hole and shaft, and the least and \
        greatest clearance; below zero a clearance is an interference.",
    formula: INCH_FORMULA,
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "size",
            "d",
            Dimension::Length,
            "0.04 in",
            "19.69 in",
            "nominal size, one for both parts",
        ),
        Argument::word("fit", &CLASSES, "class of fit"),
    ],
    table_values: &SYMBOLS,
    lines: &[],
    results: &RESULTS,
    branches: &BRANCHES,
    validity: "The classes and sizes whose table was read: RC and LN to 19.69 in (RC5 to 9.85), FN to 11.03 \
        but for 3.94 to 4.73, LT to 3.15, LC6 to LC11 to 1.19. The rest is not on file, and the sheet says so. \
        At 68 °F, both parts at one temperature.",
    sources: &[
        Source {
            work: "Machinery's Handbook, 31st edition (Industrial Press), quoting ANSI B4.1-1967",
            locator: "tables 8a, 8b, 10, 11, 12, pages 646 to 660 (read in copies at online.flippingbook.com)",
            used_for: "RC, LT, LN, and FN above 4.73 in",
        },
        Source {
            work: "Machinery's Handbook, 27th edition",
            locator: "page 663, table 11 (read in a copy at 123docz.net)",
            used_for: "FN up to 3.94 in",
        },
        Source {
            work: "cobanengineering.com, locational clearance fits, ANSI B4.1-1967",
            locator: "table LC6 to LC11",
            used_for: "LC6 to LC11",
        },
    ],
    cautions: &[
        "Measure both parts at one temperature: a bronze bushing warm from the tool is large by several \
            thousandths.",
        "A class is chosen for the work: a close class on a hot steam stem seizes. Work the clearance that \
            heat takes (fit.hot_clearance) first.",
        "A standard fit is a start, not a ruling: the drawing and the rule on this part govern.",
    ],
    closed_form: ClosedForm::No("the deviations are looked up in a table"),
};

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let size = inputs.need_length("size")?;
    let class = inputs.word("fit").unwrap_or_default();
    let Some((zones, row)) = fit::inch_class(CARD.id, class, size.to_inches())? else {
        return Err(SheetError::impossible(
            CARD.id,
            format!(
                "{class} at {:.4} in is not on file: its table was not read",
                size.to_inches()
            ),
            "a class and size on file, or the standard itself",
        ));
    };
    let limits = fit::limits(size, zones, Length::inches(1.0));
    Ok(fit::answer(&limits, zones, &SYMBOLS, [row; 2]))
}
