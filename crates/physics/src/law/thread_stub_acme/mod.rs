//! `thread.stub_acme`: the limits of the shallow 29 degree thread.
//!
//! The thread is 0.3 pitch deep where Acme is half a pitch; flats, pitch diameter and bore follow.
//! Allowances are those of Acme by size. The standard's one general class is 2G; the tolerances and
//! allowances of 3G and 4G may be used for less play, as a gauge maker's page has it.
//!
//! The tolerances are from memory, as those of `thread.acme` are; no table of Stub Acme limits could
//! be read, and what rests on them is marked unproven. In particular the tolerance on the screw's root
//! is taken as one pitch-diameter tolerance.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::thread_acme::{Class, clearance, on_crest};
use crate::tables;
use crate::thread::limits::{Limits, rounded};
use crate::thread::{has_core, lead_angle, starts};
use measure::{Angle, Length};

/// Every limit of one Stub Acme thread. A pair is least and most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stub {
    /// The limits under the names every sheet uses.
    pub limits: Limits,
    /// Screw, at the root: the least.
    pub external_minor_min: Length,
    /// Nut, at the root: the most.
    pub internal_major_max: Length,
    /// Depth of the screw's thread, its clearance included.
    pub depth: Length,
    /// Flat at the crest.
    pub crest_flat: Length,
    /// Flat at the screw's root: the width of the tool's end.
    pub root_flat: Length,
    /// Lead angle at the basic pitch diameter.
    pub lead_angle: Angle,
}

/// The thread of nominal `diameter`, `tpi` threads per inch and `class`, with the `allowance` of its
/// size and this many `starts`. Holds for a pitch of not more than half the diameter.
///
/// Sources: form ASME B1.8 as quoted by Machinery's Handbook, 27th edition, page 1844; tolerances from
/// memory.
pub fn stub(diameter: Length, tpi: f64, class: Class, allowance: Length, starts: f64) -> Stub {
    let (d, pitch) = (diameter.to_inches(), 1.0 / tpi);
    let (clear, allow) = (clearance(tpi).to_inches(), allowance.to_inches());
    let (on_pitch, on_crest) = (class.on_pitch(d, pitch), on_crest(pitch));
    let (basic, root) = (d - 0.3 * pitch, d - 0.6 * pitch - clear);
    let inches = Length::inches;
    Stub {
        limits: Limits {
            external_major: (inches(d - on_crest), inches(d)),
            external_pitch: (inches(basic - allow - on_pitch), inches(basic - allow)),
            external_minor_max: inches(root),
            internal_major_min: inches(d + clear),
            internal_pitch: (inches(basic), inches(basic + on_pitch)),
            internal_minor: (inches(d - 0.6 * pitch), inches(d - 0.6 * pitch + on_crest)),
            allowance,
        },
        external_minor_min: inches(root - on_pitch),
        internal_major_max: inches(d + clear + on_pitch),
        depth: inches(0.3 * pitch + 0.5 * clear),
        crest_flat: inches(0.4224 * pitch),
        root_flat: inches(rounded(0.4224 * pitch, 4) - rounded(0.259 * clear, 4)),
        lead_angle: lead_angle(starts * pitch, basic),
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let class = inputs.need_word("class", Class::from_word)?;
    has_core(card::ID, diameter, Length::inches(1.0 / tpi))?;
    let mut assumptions = Vec::new();
    let starts = starts(inputs, &mut assumptions);
    let allowance = tables::acme_allowance(card::ID, class.word(), diameter)?;
    let thread = stub(diameter, tpi, class, allowance.allowance, starts);
    let mut answer = Answer::new(class.word())
        .with_limits(&thread.limits)
        .with("external_minor_min", thread.external_minor_min)
        .with("internal_major_max", thread.internal_major_max)
        .with("depth", thread.depth)
        .with("crest_flat", thread.crest_flat)
        .with("root_flat", thread.root_flat)
        .with("lead_angle", thread.lead_angle);
    let (by_size, by_pitch) = class.tolerance();
    let formula = format!("tolerance formula for class {}, from memory", class.word());
    answer.table_values = vec![
        TableValue::inch_book(
            card::ALLOWANCE,
            allowance.allowance.to_inches(),
            allowance.row.as_str(),
        ),
        TableValue::inch_book(
            card::CLEARANCE,
            clearance(tpi).to_inches(),
            "Machinery's Handbook 27 p. 1844, by pitch",
        ),
        TableValue::inch_book(card::BY_SIZE, by_size, formula.clone()),
        TableValue::inch_book(card::BY_PITCH, by_pitch, formula),
    ];
    answer.assumptions = assumptions;
    if class != Class::C2G {
        answer.notices.push(
            "The standard's general class is 2G; 3G and 4G borrow Acme's figures for less play."
                .to_owned(),
        );
    }
    Ok(answer)
}
