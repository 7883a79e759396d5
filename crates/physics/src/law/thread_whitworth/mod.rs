//! `thread.whitworth`: the limits of a parallel thread of Whitworth form, 55 degrees, BSW and BSF, in
//! the close, medium and free classes.
//!
//! # How the published sizes are reproduced
//!
//! The lists round the depth of the thread to four places first; effective and core diameter are the
//! nominal less one and less two depths. So the core of 3/4-10 is .6220 and not .6219.
//!
//! # What is not proved
//!
//! The tolerances are from memory: no table of limits could be read. The share of each class was
//! (two thirds, one and one and a half of the medium tolerance for screws; one and one and a half
//! for nuts). Memory also has it that later lists give medium and free screws of small size an
//! allowance for plating. None is given here, and the sheet says so.

mod card;
mod limits;

pub use card::ENTRY;
pub use limits::{Class, whitworth};

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
    let mut assumptions = Vec::new();
    let engagement = inputs.length("engagement").unwrap_or_else(|| {
        assumptions.push(Assumption {
            argument: "engagement",
            text: "the diameter",
            si: diameter.to_m(),
            why: "the lists of BSW and BSF take the diameter, by memory; a longer nut is allowed more",
        });
        diameter
    });
    let mut answer =
        Answer::new(class.word()).with_limits(&whitworth(diameter, tpi, class, engagement));
    let row = |text: &str| format!("class {}, {text}", class.word());
    answer.table_values = vec![
        TableValue::inch_book(card::K_E, class.external(), row("screw")),
        TableValue::inch_book(card::K_I, class.internal(), row("nut")),
        TableValue::inch_book(card::K_M, limits::bore_part(tpi), row("for this pitch")),
    ];
    answer.assumptions = assumptions;
    let series = series_of(card::ID, "whitworth", diameter, pitch)?;
    answer.notices.push(if series.is_empty() {
        "In none of our lists of Whitworth form: ask where the size comes from.".to_owned()
    } else {
        format!("In the lists: {}.", series.join(", "))
    });
    answer.notices.push(
        "No allowance is given to the screw in any class. By memory, later lists take some off medium \
         and free screws up to 3/4 in for plating: ask the standard before gauging those."
            .to_owned(),
    );
    Ok(answer)
}
