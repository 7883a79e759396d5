//! `thread.unified`: the limits of a 60 degree Unified thread, UN and UNR, classes 1, 2 and 3.
//!
//! # How the published limits are reproduced
//!
//! A table is made from rounded parts: the nominal diameter, the allowance, each tolerance and each greatest (of a nut:
//! least) size are rounded to four places, and the other limit is their sum or difference. So the
//! pitch diameter of 1/2-13 UNC-2A is .4485 less .0050, which is the .4435 of the tables; taken off
//! unrounded it would be .4436. The bore of a nut is the exception: its least is printed to three
//! places, its most to three (classes 1B and 2B) or four (3B), each from the unrounded basic size.
//!
//! The tolerance itself is first rounded to six places (1/4-20 UNC-2B shows it), and an allowance
//! that then stands on a half goes down (5/8-11 UNC-2A: .00165 is printed .0016).
//!
//! The tolerance on the pitch diameter grows with the length engaged. The tables take the diameter
//! for the coarse and fine series and nine pitches for every other; a longer nut asks for its own.
//!
//! Tables of different age differ here and there by a ten-thousandth. Rows that do are kept in the
//! evidence as disagreements.

mod card;
mod limits;

pub use card::ENTRY;
pub use limits::{Class, Unified, unified};

use crate::answer::{Answer, Assumption, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::has_core;
use crate::thread::series::series_of;
use measure::Length;

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let class = inputs.need_word("class", Class::from_word)?;
    let pitch = Length::inches(1.0 / tpi);
    has_core(card::ID, diameter, pitch)?;
    let series = series_of(card::ID, "unified", diameter, pitch)?;
    let mut assumptions = Vec::new();
    let engagement = match inputs.length("engagement") {
        Some(engagement) => engagement,
        None => {
            let (text, taken) = usual_engagement(card::ID, diameter, tpi)?;
            assumptions.push(Assumption {
                argument: "engagement",
                text,
                si: taken.to_m(),
                why: "the tables take the diameter for the coarse and fine series and nine pitches \
                      for every other",
            });
            taken
        }
    };
    let thread = unified(diameter, tpi, class, engagement);
    let mut answer = Answer::new(class.word())
        .with_limits(&thread.limits)
        .with("external_minor_max_unr", thread.external_minor_max_unr)
        .with("tolerance_2a", thread.tolerance_2a);
    answer.table_values = rows(class, tpi);
    answer.assumptions = assumptions;
    let named = if series.is_empty() {
        "Of no standard series: the limits are worked by the rule for special threads.".to_owned()
    } else {
        format!("In the lists: {}.", series.join(", "))
    };
    answer.notices.push(named);
    answer.notices.push(
        "American National threads (NC, NF and the older U.S. Standard) have this form and these basic \
         sizes but older limits: by memory their classes 2 and 3 give the screw no allowance. Work to \
         the mate that is there, not to this class."
            .to_owned(),
    );
    Ok(answer)
}

/// The figures of the class, as the formula uses them.
fn rows(class: Class, tpi: f64) -> Vec<TableValue> {
    let name = class.word();
    let row = |text: &str| format!("class {name}, {text}");
    let external = class.external();
    let mut rows = vec![
        TableValue::inch_book(card::K_E, external.pitch, row("screw, from memory")),
        TableValue::inch_book(card::K_I, class.internal(), row("nut, from memory")),
        TableValue::inch_book(card::K_A, external.allowance, row("screw, from memory")),
        TableValue::inch_book(card::K_D, external.major, row("screw, from memory")),
    ];
    let bore = class.bore(tpi);
    for (symbol, value) in card::BORE.into_iter().zip(bore) {
        rows.push(TableValue::inch_book(
            symbol,
            value,
            row("nut, for this pitch"),
        ));
    }
    let places = f64::from(class.bore_places());
    rows.push(TableValue::inch_book(card::PLACES, places, row("nut")));
    rows
}

/// The engagement that the tables take for this size, in words and in figures: the diameter for the
/// coarse and fine series, nine pitches for every other.
///
/// # Errors
/// A table of series that cannot be read.
pub fn usual_engagement(
    sheet: &'static str,
    diameter: Length,
    tpi: f64,
) -> Result<(&'static str, Length), SheetError> {
    let pitch = Length::inches(1.0 / tpi);
    let series = series_of(sheet, "unified", diameter, pitch)?;
    Ok(if series.iter().any(|name| ["UNC", "UNF"].contains(name)) {
        ("the diameter", diameter)
    } else {
        ("nine pitches", Length::m(9.0 * pitch.to_m()))
    })
}
