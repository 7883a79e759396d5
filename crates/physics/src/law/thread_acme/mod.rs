//! `thread.acme`: the limits of a general purpose Acme thread, 29 degrees, classes 2G, 3G and 4G.
//!
//! # How the published limits are reproduced
//!
//! Plain arithmetic on the formulas misses a printed limit now and then by a ten-thousandth. What
//! reproduces every limit of the seven sizes that we hold in 2G, and the screw's least minor
//! diameter in 20 of 21 sizes and classes of a second source, is this: the basic pitch diameter and
//! the screw's greatest minor diameter are rounded to the four places in which the standard lists
//! them; the allowance is taken from a table; the tolerances are taken off unrounded. The nut's bore
//! is not rounded on the way, as its published values show. The allowance table goes by *ranges* of
//! size, not by the square root of the size itself: 5/16 and 7/16 in stand at the end of their
//! ranges and tell the two apart. The root flat is the difference of two figures of four places.
//!
//! The areas are worked from the limits as printed, to four places. Two columns of the Handbook's
//! table of areas follow other rules (cut off, not rounded; a bore without its least tolerance);
//! those rows are kept in the evidence as disagreements, each with its reason.
//!
//! A maker's published table gives sizes with another pitch than their own the allowance and the
//! tolerance of the size whose own pitch it is (1-4 those of 1 1/2-4). That is the maker's practice,
//! not the standard's; those rows are kept in the evidence as disagreements.

mod card;
mod limits;

pub use card::ENTRY;
pub(in crate::law) use card::{by_pitch, by_size};
pub(in crate::law) use limits::on_crest;
pub use limits::{Acme, Class, acme, clearance};

use crate::answer::{Answer, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::tables;
use crate::thread::{has_core, starts};
use measure::Length;

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let class = inputs.need_word("class", Class::from_word)?;
    has_core(card::ID, diameter, Length::inches(1.0 / tpi))?;
    let mut assumptions = Vec::new();
    let starts = starts(inputs, &mut assumptions);
    let allowance = tables::acme_allowance(card::ID, class.word(), diameter)?;
    let thread = acme(diameter, tpi, class, allowance.allowance, starts);

    let mut answer = Answer::new(class.word())
        .with_limits(&thread.limits)
        .with("external_minor_min", thread.external_minor_min)
        .with("internal_major_max", thread.internal_major_max)
        .with("depth", thread.depth)
        .with("crest_flat", thread.crest_flat)
        .with("root_flat", thread.root_flat)
        .with("lead_angle", thread.lead_angle)
        .with("stress_diameter", thread.stress_diameter)
        .with("stress_area", thread.stress_area)
        .with("shear_area_per_inch", thread.shear_area_per_inch);

    let (coarse, form) = (tpi <= limits::COARSE_TPI, "Machinery's Handbook 27 p. 1828");
    let reach = if coarse {
        "10 threads per inch and coarser"
    } else {
        "finer than 10 threads per inch"
    };
    let clearance = limits::clearance(tpi).to_inches();
    let formula = format!("tolerance formula for class {}, from memory", class.word());
    let (by_size, by_pitch) = class.tolerance();
    answer.table_values = vec![
        TableValue {
            symbol: card::ALLOWANCE,
            value: allowance.allowance.to_m(),
            printed: format!("{} in", allowance.printed),
            row: allowance.row.clone(),
        },
        TableValue::inch_book(card::CLEARANCE, clearance, format!("{form}, {reach}")),
        TableValue::inch_book(card::NUT_MAJOR, clearance, format!("{reach}, from memory")),
        TableValue::inch_book(card::BY_SIZE, by_size, formula.clone()),
        TableValue::inch_book(card::BY_PITCH, by_pitch, formula),
    ];
    answer.assumptions = assumptions;
    if starts > 1.0 {
        answer.notices.push(
            "More than one start: only the lead angle allows for it. The limits are those of a \
             single thread; ask the standard before gauging."
                .into(),
        );
    }
    if class == Class::C4G {
        answer.notices.push(
            "Class 4G: the tolerance formula is from memory and the standard's own table has not \
             been read."
                .into(),
        );
    }
    if (tpi - tpi.round()).abs() > 1e-9 {
        answer
            .notices
            .push("Not a whole number of threads per inch: not a standard pitch.".into());
    }
    Ok(answer)
}
