//! `thread.strength`: what a screw and its nut carry: stress area, shear areas, the engagement at
//! which the screw breaks before a thread strips, and which member gives first.
//!
//! # The geometry
//!
//! A screw's threads are sheared by the nut's crests along a cylinder of the nut's greatest bore `K`;
//! a nut's are sheared by the screw's crests along a cylinder of the screw's least major diameter
//! `D_s`. The thread is half a pitch thick at its pitch diameter and thickens by the tangent of the
//! flank's angle on both flanks toward its root:
//!
//! ```text
//! A_e = pi n L K   (P/2 + tan a (E_s - K))
//! A_i = pi n L D_s (P/2 + tan a (D_s - E_n))
//! ```
//!
//! The limits are the worst of the usual class of the form: the least screw in the widest nut.
//!
//! The screw's pull is its stress area times its tensile strength; a thread's shear strength is taken
//! as half the tensile strength of its metal. The full engagement is that at which the screw's
//! threads carry twice what equal metal needs, lengthened by the ratio of the two members' shear
//! where the nut is the weaker.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, Outcome, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::law::{thread_acme, thread_unified, thread_whitworth};
use crate::limit::Bound;
use crate::tables;
use crate::thread::has_core;
use crate::thread::limits::Limits;
use measure::{Area, Force, Length, Stress, math};
use std::f64::consts::PI;

/// A form whose strength can be worked, with the class whose limits are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Unified, 2A on 2B; the screw not over 100 000 psi.
    Unified,
    /// Unified, 2A on 2B; the screw over 100 000 psi.
    UnifiedStrong,
    /// Whitworth, medium.
    Whitworth,
    /// Acme, 2G.
    Acme,
}

/// The sizes that strength is reckoned on, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizes {
    /// The diameter the stress area starts from.
    pub start: f64,
    /// How many pitches are taken off it.
    pub off: f64,
    /// Nut, greatest bore.
    pub bore: f64,
    /// Screw, least pitch diameter.
    pub screw_pitch: f64,
    /// Screw, least major diameter.
    pub screw_major: f64,
    /// Nut, greatest pitch diameter.
    pub nut_pitch: f64,
    /// Tangent of the flank's angle.
    pub flank: f64,
}

/// What a screw and its nut carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Area of the screw in tension.
    pub stress_area: Area,
    /// Area of the screw's threads in shear.
    pub shear_external: Area,
    /// Area of the nut's threads in shear.
    pub shear_internal: Area,
    /// Pull at which the screw breaks.
    pub breaks: Force,
    /// Pull at which the screw's threads strip.
    pub strips_external: Force,
    /// Pull at which the nut's threads strip.
    pub strips_internal: Force,
    /// Engagement at which the screw breaks first.
    pub full_engagement: Length,
}

/// The strength of a thread of `tpi` with these `sizes`, over this `engagement`; the tensile
/// strengths are those of the screw's and the nut's metal.
///
/// Sources: FED-STD-H28/2B and the fastener industry's bulletin as cited on the card.
pub fn strength(
    sizes: &Sizes,
    tpi: f64,
    engagement: Length,
    screw: Stress,
    nut: Stress,
) -> Strength {
    let (pitch, length) = (1.0 / tpi, engagement.to_inches());
    let pin = sizes.start - sizes.off * pitch;
    let tension = PI / 4.0 * pin * pin;
    let screw_round =
        PI * tpi * sizes.bore * (pitch / 2.0 + sizes.flank * (sizes.screw_pitch - sizes.bore));
    let nut_round = PI
        * tpi
        * sizes.screw_major
        * (pitch / 2.0 + sizes.flank * (sizes.screw_major - sizes.nut_pitch));
    let (external, internal) = (screw_round * length, nut_round * length);
    let ratio = external * screw.to_psi() / (internal * nut.to_psi());
    Strength {
        stress_area: Area::sq_in(tension),
        shear_external: Area::sq_in(external),
        shear_internal: Area::sq_in(internal),
        breaks: Force::lbf(tension * screw.to_psi()),
        strips_external: Force::lbf(0.5 * external * screw.to_psi()),
        strips_internal: Force::lbf(0.5 * internal * nut.to_psi()),
        full_engagement: Length::inches(2.0 * tension / screw_round * ratio.max(1.0)),
    }
}

/// The sizes of a thread of `form`, by the limits of its usual class.
fn sizes(form: Form, diameter: Length, tpi: f64) -> Result<Sizes, SheetError> {
    let of = |limits: &Limits, start: f64, off: f64, degrees: f64| Sizes {
        start,
        off,
        bore: limits.internal_minor.1.to_inches(),
        screw_pitch: limits.external_pitch.0.to_inches(),
        screw_major: limits.external_major.0.to_inches(),
        nut_pitch: limits.internal_pitch.1.to_inches(),
        flank: math::tan_deg(degrees),
    };
    let d = diameter.to_inches();
    Ok(match form {
        Form::Unified | Form::UnifiedStrong => {
            let class = thread_unified::Class::C2;
            let engaged = thread_unified::usual_engagement(card::ID, diameter, tpi)?.1;
            let limits = thread_unified::unified(diameter, tpi, class, engaged).limits;
            if form == Form::Unified {
                of(&limits, d, 0.9743, 30.0)
            } else {
                of(&limits, limits.external_pitch.0.to_inches(), 0.324_76, 30.0)
            }
        }
        Form::Whitworth => {
            let class = thread_whitworth::Class::Medium;
            let limits = thread_whitworth::whitworth(diameter, tpi, class, diameter);
            of(&limits, d, 0.960_490, 27.5)
        }
        Form::Acme => {
            let class = thread_acme::Class::C2G;
            let allowance = tables::acme_allowance(card::ID, class.word(), diameter)?.allowance;
            let thread = thread_acme::acme(diameter, tpi, class, allowance, 1.0);
            of(
                &thread.limits,
                thread.stress_diameter.to_inches(),
                0.0,
                14.5,
            )
        }
    })
}

/// Above this the screw's stress area goes by its least pitch diameter.
const STRONG: Stress = Stress::psi(100_000.0);

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let diameter = inputs.need_length("diameter")?;
    let tpi = inputs.need_per_inch("tpi")?;
    let engagement = inputs.need_length("engagement")?;
    let screw = Stress::pascals(inputs.need_si("strength_external")?);
    let nut = Stress::pascals(inputs.need_si("strength_internal")?);
    let form = inputs.need_word("form", |word| match word {
        "unified" if screw > STRONG => Some(Form::UnifiedStrong),
        "unified" => Some(Form::Unified),
        "whitworth" => Some(Form::Whitworth),
        "acme" => Some(Form::Acme),
        _ => None,
    })?;
    has_core(card::ID, diameter, Length::inches(1.0 / tpi))?;
    let sizes = sizes(form, diameter, tpi)?;
    let found = strength(&sizes, tpi, engagement, screw, nut);
    let (branch, limits, start) = match form {
        Form::Unified => ("unified", "thread.unified, class 2", "the nominal diameter"),
        Form::UnifiedStrong => (
            "unified-strong",
            "thread.unified, class 2",
            "the screw's least pitch diameter, for a screw over 100 000 psi",
        ),
        Form::Whitworth => (
            "whitworth",
            "thread.whitworth, class medium",
            "the nominal diameter",
        ),
        Form::Acme => (
            "acme",
            "thread.acme, class 2G",
            "the stress diameter of thread.acme",
        ),
    };
    let force = |force: Force| Outcome::Si(force.to_newtons());
    let (bolt, external, internal) = (found.breaks, found.strips_external, found.strips_internal);
    let weakest = if bolt <= external && bolt <= internal {
        "the screw breaks before a thread strips"
    } else if external <= internal {
        "the external thread strips first"
    } else {
        "the internal thread strips first"
    };
    let mut answer = Answer::new(branch)
        .with("stress_area", found.stress_area)
        .with("shear_external", found.shear_external)
        .with("shear_internal", found.shear_internal)
        .with("load_breaks", force(bolt))
        .with("load_strips_external", force(external))
        .with("load_strips_internal", force(internal))
        .with("full_engagement", found.full_engagement)
        .with("weakest", weakest.to_owned());
    let value = |symbol, value, row: &str| TableValue::inch_book(symbol, value, row);
    answer.table_values = vec![
        value(card::START, sizes.start, start),
        value(card::OFF, sizes.off, "pitches taken off it, by the form"),
        value(
            card::BORE,
            sizes.bore,
            &format!("{limits}, internal_minor_max"),
        ),
        value(
            card::SCREW_PITCH,
            sizes.screw_pitch,
            &format!("{limits}, external_pitch_min"),
        ),
        value(
            card::SCREW_MAJOR,
            sizes.screw_major,
            &format!("{limits}, external_major_min"),
        ),
        value(
            card::NUT_PITCH,
            sizes.nut_pitch,
            &format!("{limits}, internal_pitch_max"),
        ),
        value(card::FLANK, sizes.flank, "by the form"),
    ];
    let full = found.full_engagement.to_m();
    if Bound::Below.holds(engagement.to_m(), full) {
        answer.notices.push(
            "Engaged less than full: a thread strips before the screw breaks, without warning. A \
             longer nut, a stronger nut metal or a larger screw cures it."
                .to_owned(),
        );
    }
    if form == Form::Whitworth {
        answer.notices.push(
            "The limits of thread.whitworth rest on memory, and these areas with them.".to_owned(),
        );
    }
    answer.notices.push(
        "These loads break the joint: they are not what it may carry. Worn, corroded or hot metal \
         carries less than the strength of its name."
            .to_owned(),
    );
    Ok(answer)
}
