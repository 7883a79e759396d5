//! `thread.wires`: from the pitch diameter to the size over three wires and back, with the lead-angle
//! correction; over one wire; and from a thread micrometer.
//!
//! # The geometry
//!
//! In a straight groove of half angle `a` and pitch `P` a wire of diameter `w` touches both flanks and
//! stands so that the size over wires is
//!
//! ```text
//! M_0 = E - P / (2 tan a) + w (1 + 1 / sin a)
//! ```
//!
//! A thread is not straight: the wire lies along the helix and rides a little higher. To the second
//! order in `S`, the tangent of the lead angle at the pitch diameter, it rides by
//! `w S^2 cos a / (2 tan a)`. Held against the true contact of a straight wire with the helicoid
//! (worked apart, `evidence.csv`) this is high by under half a tenth of a thou up to 4 1/2 degrees
//! in the sizes of a shop; beyond 5 degrees the sheet says by how much it may be wrong, and for
//! more starts than one the tables of exact contact are the ones to use.
//!
//! # The way back
//!
//! The correction itself needs the pitch diameter, so from a size over wires the pitch diameter is
//! found by trial. The formula then works the size over wires from it, which proves it.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, TableValue};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::thread::starts;
use measure::{Angle, Length, math};
use std::f64::consts::PI;

/// A thread and the wires laid in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laid {
    /// Half the angle of the thread.
    pub flank: Angle,
    /// Distance from one thread to the next.
    pub pitch: Length,
    /// How many threads start side by side.
    pub starts: f64,
    /// Diameter of each wire.
    pub wire: Length,
}

impl Laid {
    /// The wire that touches the flanks at the pitch diameter: `P / (2 cos a)`.
    pub fn best_wire(&self) -> Length {
        Length::m(self.pitch.to_m() / (2.0 * math::cos(self.flank.to_radians())))
    }

    /// Lead angle at the pitch diameter `at`.
    pub fn lead_angle(&self, at: Length) -> Angle {
        Angle::radians(math::atan(self.slope(at)))
    }

    fn slope(&self, at: Length) -> f64 {
        self.starts * self.pitch.to_m() / (PI * at.to_m())
    }

    /// Size over three wires less the pitch diameter, the lead angle left out.
    pub fn straight(&self) -> Length {
        let a = self.flank.to_radians();
        let (wire, pitch) = (self.wire.to_m(), self.pitch.to_m());
        Length::m(wire * (1.0 + 1.0 / math::sin(a)) - pitch / (2.0 * math::tan(a)))
    }

    /// What the lead angle adds at the pitch diameter `at`, to the second order.
    pub fn correction(&self, at: Length) -> Length {
        let (a, slope) = (self.flank.to_radians(), self.slope(at));
        let wire = self.wire.to_m();
        Length::m(wire * slope * slope * math::cos(a) / (2.0 * math::tan(a)))
    }

    /// Size over three wires at the pitch diameter `at`.
    pub fn over_wires(&self, at: Length) -> Length {
        Length::m(at.to_m() + self.straight().to_m() + self.correction(at).to_m())
    }

    /// The pitch diameter at which the size over three wires is `over`, found by trial; none where no
    /// thread with this pitch gives that size.
    pub fn pitch_diameter(&self, over: Length) -> Option<Length> {
        let straight = over.to_m() - self.straight().to_m();
        let mut at = straight;
        for _ in 0..200 {
            if at <= 0.5 * self.pitch.to_m() {
                return None;
            }
            let next = straight - self.correction(Length::m(at)).to_m();
            if (next - at).abs() < 1e-16 {
                return Some(Length::m(next));
            }
            at = next;
        }
        None
    }

    /// How far outside the pitch line the wire touches the flank.
    fn touches(&self) -> f64 {
        let a = self.flank.to_radians();
        let (cos, sin) = (math::cos(a), math::sin(a));
        self.wire.to_m() * cos * cos / (2.0 * sin) - self.pitch.to_m() / (4.0 * math::tan(a))
    }

    /// How far outside the pitch line the wire's outside stands.
    fn stands(&self) -> f64 {
        let a = self.flank.to_radians();
        let wire = self.wire.to_m();
        0.5 * wire * (1.0 + 1.0 / math::sin(a)) - self.pitch.to_m() / (4.0 * math::tan(a))
    }
}

/// Half angle in degrees; height of the crest and depth of straight flank from the pitch line, in
/// pitches. Source: the forms, as the sheets of limits have them.
fn form(word: &str) -> Option<(&'static str, f64, f64, f64)> {
    Some(match word {
        "60" => ("60", 30.0, 0.324_76, 0.216_51),
        "55" => ("55", 27.5, 0.320_16, 0.246_25),
        "29" => ("29", 14.5, 0.25, 0.25),
        _ => return None,
    })
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let (branch, half, crest, straight) = inputs.need_word("form", form)?;
    let pitch = Length::inches(1.0 / inputs.need_per_inch("tpi")?);
    let mut assumptions = Vec::new();
    let laid = Laid {
        flank: Angle::degrees(half),
        pitch,
        starts: starts(inputs, &mut assumptions),
        wire: inputs.need_length("wire")?,
    };
    let mut answer = Answer::new(branch).with("best_wire", laid.best_wire());
    answer.assumptions = assumptions;
    answer.table_values = vec![TableValue {
        symbol: card::FLANK,
        value: laid.flank.to_radians(),
        printed: format!("{half} deg"),
        row: format!("half of {branch} degrees"),
    }];
    answer.notices = laid_notices(&laid, crest, straight);
    match given(inputs, &laid)? {
        Given::Nothing(needs) => {
            let results = [
                "pitch_diameter",
                "over_wires_plain",
                "lead_correction",
                "over_wires",
                "over_one_wire",
                "lead_angle",
            ];
            answer = answer.waiting(&results, &[needs]);
        }
        Given::Pitch(at, how) => {
            let over = laid.over_wires(at);
            answer = answer
                .with("pitch_diameter", at)
                .with(
                    "over_wires_plain",
                    Length::m(at.to_m() + laid.straight().to_m()),
                )
                .with("lead_correction", laid.correction(at))
                .with("over_wires", over)
                .with("lead_angle", laid.lead_angle(at));
            if let Some(major) = inputs.length("major") {
                let one = Length::m(0.5 * (over.to_m() + major.to_m()));
                answer = answer.with("over_one_wire", one);
            }
            answer.found = vec![TableValue::inch_book(card::AT, at.to_inches(), how)];
            answer.notices.extend(lead_notice(&laid, at));
        }
    }
    if inputs.length("micrometer").is_some() {
        answer.notices.push(
            "A thread micrometer is set on a standard of this form and pitch; its anvils must be for \
             this pitch. It reads the pitch diameter only as well as the flanks are true and unworn."
                .to_owned(),
        );
    }
    Ok(answer)
}

/// What the pitch diameter can be had from.
enum Given {
    /// It, and how it was come by.
    Pitch(Length, String),
    /// What would have to be given.
    Nothing(&'static str),
}

fn given(inputs: &Inputs, laid: &Laid) -> Result<Given, SheetError> {
    let ways = [
        "pitch_diameter",
        "over_wires",
        "over_one_wire",
        "micrometer",
    ];
    let said: Vec<&str> = ways
        .into_iter()
        .filter(|name| inputs.length(name).is_some())
        .collect();
    let [name] = said.as_slice() else {
        if said.is_empty() {
            return Ok(Given::Nothing(
                "pitch_diameter, over_wires, over_one_wire with major, or micrometer",
            ));
        }
        return Err(SheetError::impossible(
            card::ID,
            format!("given {} together", said.join(" and ")),
            "one of them; work the sheet once for each and compare",
        ));
    };
    let read = inputs.need_length(name)?;
    let (over, how) = match *name {
        "pitch_diameter" => return pitch_of(read, laid, "as given"),
        "micrometer" => return pitch_of(read, laid, "as the thread micrometer reads it"),
        "over_wires" => (
            read,
            "by trial, until the size over wires is the one measured",
        ),
        _ => match inputs.length("major") {
            Some(major) => (
                Length::m(2.0 * read.to_m() - major.to_m()),
                "by trial, until the size over one wire is the one measured",
            ),
            None => return Ok(Given::Nothing("major")),
        },
    };
    let at = laid.pitch_diameter(over).ok_or_else(|| {
        SheetError::impossible(
            card::ID,
            format!(
                "no thread of this pitch measures {:.4} in over such wires",
                over.to_inches()
            ),
            "a size over wires that leaves a pitch diameter of more than half the pitch",
        )
    })?;
    pitch_of(at, laid, how)
}

fn pitch_of(at: Length, laid: &Laid, how: &str) -> Result<Given, SheetError> {
    if at.to_m() > laid.pitch.to_m() {
        return Ok(Given::Pitch(at, how.to_owned()));
    }
    Err(SheetError::impossible(
        card::ID,
        format!(
            "a pitch diameter of {:.4} in with a pitch of {:.4} in",
            at.to_inches(),
            laid.pitch.to_inches()
        ),
        "a pitch diameter greater than the pitch",
    ))
}

fn laid_notices(laid: &Laid, crest: f64, straight: f64) -> Vec<String> {
    let pitch = laid.pitch.to_m();
    let mut notices = Vec::new();
    if laid.stands() < crest * pitch {
        notices.push(
            "These wires do not stand above full crests: the micrometer would bear on the thread. Take \
             larger wires."
                .to_owned(),
        );
    }
    if laid.touches().abs() > straight * pitch {
        notices.push(
            "These wires touch the flanks beyond their straight part, near a crest or a root. Take \
             wires nearer the best size."
                .to_owned(),
        );
    }
    let off = laid.wire.to_m() / laid.best_wire().to_m() - 1.0;
    if off.abs() > 0.05 {
        notices.push(
            "Not the best size of wire: an error in the thread's angle enters the pitch diameter."
                .to_owned(),
        );
    }
    notices
}

fn lead_notice(laid: &Laid, at: Length) -> Option<String> {
    let degrees = laid.lead_angle(at).to_degrees();
    if laid.starts > 1.0 {
        Some(
            "More than one start: gauge by tables of exact contact. Held against true contact, this \
             correction read high by 0.0012 of the pitch at 10 degrees and 0.0021 at 12, for two starts."
                .to_owned(),
        )
    } else if degrees > 5.0 {
        Some(
            "Over 5 degrees of lead angle: this correction reads high, by 0.0003 of the pitch at 5 \
             degrees and 0.0007 at 7. Use tables of exact contact where that matters."
                .to_owned(),
        )
    } else {
        None
    }
}
