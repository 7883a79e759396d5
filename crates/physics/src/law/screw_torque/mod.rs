//! `screw.torque`: the torque that raises and lowers a load by a screw, its efficiency, and whether it
//! holds by itself.
//!
//! # The geometry
//!
//! The thread unrolled at its pitch diameter is a wedge of slope `tan l = L / (pi d)`. The flank
//! leans by `a` from square, so it presses with `1 / cos a` of the load and rubs that much more:
//!
//! ```text
//! raise  T = F d/2 (cos a tan l + f) / (cos a - f tan l) + F f_c d_c / 2
//! lower  T = F d/2 (f - cos a tan l) / (cos a + f tan l) + F f_c d_c / 2
//! ```
//!
//! A lowering torque under zero means that the load turns the screw.

use crate::answer::{Answer, Assumption, Outcome};
use crate::card::{Argument, Card, ClosedForm, ResultSpec, Source};
use crate::catalogue::Entry;
use crate::error::SheetError;
use crate::given::Inputs;
use measure::{Angle, Dimension, Force, House, Length, Rounding, Torque, math};
use std::f64::consts::PI;

/// The law, for the catalogue.
pub const ENTRY: Entry = Entry {
    card: &CARD,
    answer,
    evidence: include_str!("evidence.csv"),
};

const ID: &str = "screw.torque";
const MOTT: &str = "R. Mott, Machine Elements in Mechanical Design, 4th ed., p. 703";
const GEOMETRY: &str = "plane geometry";

const fn torque(name: &'static str, symbol: &'static str, meaning: &'static str) -> ResultSpec {
    ResultSpec::quantity(name, symbol, Dimension::Torque, (1, 2), meaning, MOTT)
}

static CARD: Card = Card {
    id: ID,
    version: 1,
    title: "Torque of a power screw",
    purpose: "How hard a screw must be turned to move a load against it and with it, how much of the \
        work is lost, and whether the load can turn the screw back: valve stems, jacks, presses.",
    formula: "
        l = atan(L / (pi * d))
        T_c = F * f_c * d_c / 2
        T_r = F * d / 2 * (cos(a) * tan(l) + f) / (cos(a) - f * tan(l)) + T_c
        T_l = F * d / 2 * (f - cos(a) * tan(l)) / (cos(a) + f * tan(l)) + T_c
        e = F * L / (2 * pi * T_r)
        f_h = cos(a) * tan(l)",
    book_units: Some(House::Inch),
    arguments: &[
        Argument::quantity(
            "load",
            "F",
            Dimension::Force,
            "1 lb",
            "1000000 lb",
            "load along the screw",
        ),
        Argument::quantity(
            "pitch_diameter",
            "d",
            Dimension::Length,
            "0.1 in",
            "12 in",
            "pitch diameter",
        ),
        Argument::quantity(
            "lead",
            "L",
            Dimension::Length,
            "0.01 in",
            "6 in",
            "travel in one turn (pitch times starts)",
        ),
        Argument::quantity(
            "half_angle",
            "a",
            Dimension::Angle,
            "0 deg",
            "45 deg",
            "angle of one flank: Acme 14.5, square 0, Unified 30",
        ),
        Argument::quantity(
            "friction",
            "f",
            Dimension::Ratio,
            "0.01",
            "0.6",
            "friction of the thread",
        ),
        Argument::quantity(
            "collar_diameter",
            "d_c",
            Dimension::Length,
            "0 in",
            "24 in",
            "mean diameter of the collar that takes the thrust",
        )
        .optional(),
        Argument::quantity(
            "collar_friction",
            "f_c",
            Dimension::Ratio,
            "0",
            "0.6",
            "friction of the collar",
        )
        .optional(),
    ],
    table_values: &[],
    lines: &[],
    results: &[
        torque("torque_raise", "T_r", "torque against the load").rounded(Rounding::Up),
        torque(
            "torque_lower",
            "T_l",
            "torque with the load; under zero the load turns the screw",
        ),
        torque("torque_collar", "T_c", "the collar's part of both"),
        ResultSpec::quantity(
            "efficiency",
            "e",
            Dimension::Ratio,
            (3, 3),
            "work got out over work put in",
            MOTT,
        )
        .rounded(Rounding::Down),
        ResultSpec::quantity(
            "lead_angle",
            "l",
            Dimension::Angle,
            (2, 2),
            "lead angle at the pitch diameter",
            GEOMETRY,
        ),
        ResultSpec::quantity(
            "friction_to_hold",
            "f_h",
            Dimension::Ratio,
            (4, 4),
            "thread friction at which the screw just holds by itself",
            MOTT,
        )
        .rounded(Rounding::Up),
        ResultSpec::text(
            "self_locking",
            "whether the screw holds by its thread alone",
            MOTT,
        ),
    ],
    branches: &["screw"],
    validity: "A steady turn of a screw in line with its load, the friction known. The flank is taken \
        square to the axis section, near enough under 5 degrees of lead angle. Friction at the start of \
        motion is about a third higher; a dry or gummed stem has no figure.",
    sources: &[
        Source {
            work: "R. Mott, Machine Elements in Mechanical Design, 4th edition",
            locator: "page 703, example 17-1",
            used_for: "raising and lowering torque, efficiency",
        },
        Source {
            work: "adaptivebooks.org, Statics, screw threads; Engineering Statics exercises",
            locator: "problem 2",
            used_for: "a square thread worked, and that a screw that holds has less than half efficiency",
        },
        Source {
            work: "Memory",
            locator: "Shigley, example 8-1, as remembered",
            used_for: "a double square thread with collar",
        },
    ],
    cautions: &[
        "Do not trust a thread to hold a load over a person: vibration and oil let a screw run back that \
            holds on paper. Block the load.",
        "No cheater on a valve wheel: find out why it is stiff.",
    ],
    closed_form: ClosedForm::Yes,
};

/// A screw under a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    /// Load along the axis.
    pub load: Force,
    /// Pitch diameter.
    pub pitch_diameter: Length,
    /// Travel in one turn.
    pub lead: Length,
    /// Angle of one flank.
    pub half_angle: Angle,
    /// Friction of the thread.
    pub friction: f64,
}

impl Screw {
    fn slope(&self) -> f64 {
        self.lead.to_m() / (PI * self.pitch_diameter.to_m())
    }

    /// Lead angle at the pitch diameter.
    pub fn lead_angle(&self) -> Angle {
        Angle::radians(math::atan(self.slope()))
    }

    /// Thread friction at which the screw just holds the load by itself: `cos a tan l`.
    pub fn friction_to_hold(&self) -> f64 {
        math::cos(self.half_angle.to_radians()) * self.slope()
    }

    /// Torque of the thread alone against the load; none where the friction jams it at any torque.
    pub fn raise(&self) -> Option<Torque> {
        let (cos, slope) = (math::cos(self.half_angle.to_radians()), self.slope());
        let under = cos - self.friction * slope;
        (under > 1e-6).then(|| self.arm((cos * slope + self.friction) / under))
    }

    /// Torque of the thread alone with the load.
    pub fn lower(&self) -> Torque {
        let (cos, slope) = (math::cos(self.half_angle.to_radians()), self.slope());
        self.arm((self.friction - cos * slope) / (cos + self.friction * slope))
    }

    fn arm(&self, share: f64) -> Torque {
        Torque::newton_m(self.load.to_newtons() * self.pitch_diameter.to_m() / 2.0 * share)
    }
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let screw = Screw {
        load: Force::newtons(inputs.need_si("load")?),
        pitch_diameter: inputs.need_length("pitch_diameter")?,
        lead: inputs.need_length("lead")?,
        half_angle: inputs.need_angle("half_angle")?,
        friction: inputs.need_si("friction")?,
    };
    let raise = screw.raise().ok_or_else(|| {
        SheetError::impossible(
            ID,
            "with this lead and friction no torque raises the load",
            "a lead angle less steep, or less friction",
        )
    })?;
    let holds = screw.friction >= screw.friction_to_hold();
    let said = if holds {
        format!(
            "yes: friction {} is not under the {:.4} that holds it",
            screw.friction,
            screw.friction_to_hold()
        )
    } else {
        format!(
            "no: friction {} is under the {:.4} that would hold it",
            screw.friction,
            screw.friction_to_hold()
        )
    };
    let mut answer = Answer::new("screw")
        .with("lead_angle", screw.lead_angle())
        .with("friction_to_hold", Outcome::Si(screw.friction_to_hold()))
        .with("self_locking", said);
    let mut taken = |argument| {
        answer.assumptions.push(Assumption {
            argument,
            text: "0",
            si: 0.0,
            why: "no collar was named: the figures are the thread's alone",
        });
    };
    let (diameter, friction) = (
        inputs.length("collar_diameter"),
        inputs.si("collar_friction"),
    );
    let collar = match (diameter, friction) {
        (Some(diameter), Some(friction)) => Some(0.5 * diameter.to_m() * friction),
        (None, None) => {
            taken("collar_diameter");
            taken("collar_friction");
            Some(0.0)
        }
        _ => None,
    };
    // A collar half told is not a collar without friction: what depends on it stays untold.
    if let Some(arm) = collar {
        let rubs = screw.load.to_newtons() * arm;
        let total = raise.to_newton_m() + rubs;
        let gain = screw.load.to_newtons() * screw.lead.to_m() / (2.0 * PI * total);
        answer = answer
            .with("torque_collar", Outcome::Si(rubs))
            .with("torque_raise", Outcome::Si(total))
            .with(
                "torque_lower",
                Outcome::Si(screw.lower().to_newton_m() + rubs),
            )
            .with("efficiency", Outcome::Si(gain));
    }
    if !holds {
        answer.notices.push(
            "The load can turn this screw back: it needs a brake, a collar or a lock.".to_owned(),
        );
    } else if screw.friction < 1.3 * screw.friction_to_hold() {
        answer.notices.push(
            "It holds by little: oil, heat or vibration can take the friction below what holds it."
                .to_owned(),
        );
    }
    if screw.lead_angle().to_degrees() > 5.0 && screw.half_angle.to_degrees() > 0.0 {
        answer.notices.push(
            "Over 5 degrees of lead angle the flank's angle square to the thread differs from the one \
             given; the torque is a little off."
                .to_owned(),
        );
    }
    Ok(answer)
}
