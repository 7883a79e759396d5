//! `running.tire_set`: all coupled wheels together: which of them the figures given refuse, and the one diameter that all can
//! be turned to.
//!
//! Wheels on one rod must be of one *diameter*. Where centers differ, tires of one thickness are wheels of different
//! size, so the cut is worked from the diameters, and what it leaves of each tire is worked back from there.

mod card;

pub use card::ENTRY;

use crate::answer::{Answer, Outcome, cannot_tell};
use crate::error::SheetError;
use crate::given::Inputs;
use crate::limit::{Bound, Held, NOT_GIVEN};
use crate::readings::{governing, largest, more, smallest, thou};
use measure::Length;

/// One wheel as it was measured, all lengths in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wheel {
    /// Diameter of the center.
    pub center: f64,
    /// Thickness of the tire at the bottom of its hollow.
    pub thickness: f64,
}

impl Wheel {
    /// Diameter over the tread.
    pub fn diameter(self) -> f64 {
        self.center + 2.0 * self.thickness
    }

    /// Thickness of its tire once it is turned to `diameter`.
    pub fn thickness_at(self, diameter: f64) -> f64 {
        more(diameter, self.center) / 2.0
    }
}

/// The one diameter, in metres, that every wheel can be turned to when the smallest loses `clean_up` from its radius. None
/// of no wheels, or where it would cut into a center.
pub fn one_diameter(wheels: &[Wheel], clean_up: f64) -> Option<f64> {
    let diameters: Vec<f64> = wheels.iter().map(|wheel| wheel.diameter()).collect();
    let proposal = more(smallest(&diameters)?, 2.0 * clean_up);
    let leaves_tire = |wheel: &Wheel| wheel.thickness_at(proposal) > 0.0;
    wheels.iter().all(leaves_tire).then_some(proposal)
}

/// What the figures of law were given as, in metres.
struct Figures {
    thickness: Option<f64>,
    axle: Option<f64>,
    set: Option<f64>,
    just_turned: bool,
    hollow: Option<f64>,
    flange: Option<f64>,
}

fn answer(inputs: &Inputs) -> Result<Answer, SheetError> {
    let wheels = wheels(inputs)?;
    let (hollow, flange) = (
        beside(inputs, "hollow", &wheels)?,
        beside(inputs, "flange", &wheels)?,
    );
    let clean_up = inputs.need_si("clean_up")?;
    let of = |name| inputs.si(name);
    let figures = Figures {
        thickness: of("least_thickness"),
        axle: of("axle_difference"),
        set: of("set_difference"),
        just_turned: inputs.word("state") == Some("just-turned"),
        hollow: of("hollow_limit"),
        flange: of("least_flange"),
    };
    let proposal = one_diameter(&wheels, clean_up).ok_or_else(|| {
        SheetError::impossible(
            card::ID,
            "one diameter for all of these would cut through a tire into its center",
            "centers and tires of one set, and a cut that leaves tire on each",
        )
    })?;
    let diameters: Vec<f64> = wheels.iter().map(|wheel| wheel.diameter()).collect();
    let centers: Vec<f64> = wheels.iter().map(|wheel| wheel.center).collect();
    let mean = diameters.iter().sum::<f64>() / diameters.len() as f64;
    let (Some(most), Some(least), Some(center)) =
        (largest(&diameters), smallest(&diameters), largest(&centers))
    else {
        return Err(SheetError::impossible(
            card::ID,
            "no wheel was given",
            "two or more",
        ));
    };

    let (legal, complies) = as_they_stand(&wheels, hollow, flange, &figures);
    let after = more(proposal, center) / 2.0;
    let held_after = Held::default().hold(
        "thinnest tire after the cut",
        (Some(after), "thickness"),
        Bound::AtLeast,
        (figures.thickness, "least_thickness"),
    );
    let mut answer = Answer::new(card::SET)
        .with("legal", legal)
        .with("complies", complies)
        .with("set_spread", Length::m(more(most, least)))
        .with("proposal", Length::m(proposal))
        .with("spent", cut(&wheels, proposal, figures.thickness))
        .with("height_drop", Length::m(more(most, proposal) / 2.0))
        .with("thickness_after", Length::m(after))
        .with("complies_after", held_after.words())
        .with("tractive_effort", Outcome::Si(mean / proposal - 1.0));
    let rate = inputs.si("wear").zip(inputs.si("wear_days"));
    if let Some((wear, days)) = rate
        && let Some(limit) = figures.hollow
    {
        answer = answer.with("to_hollow", Outcome::Si(limit * days / wear));
    }
    if let Some(figure) = figures.thickness {
        let left = more(after, figure);
        answer = answer.with("left_after", Length::m(left));
        if let Some((wear, days)) = rate {
            answer = answer.with("life", Outcome::Si(left.max(0.0) * days / wear));
        }
    } else {
        answer.notices.push(NOT_GIVEN.to_owned());
    }
    for (symbol, value, how) in [
        (
            card::LARGEST,
            most,
            "the largest of center and twice the tire",
        ),
        (
            card::SMALLEST,
            least,
            "the smallest of center and twice the tire",
        ),
        (card::MEAN, mean, "the mean of center and twice the tire"),
        (
            card::CENTER,
            center,
            "the largest center: there the tire is thinnest",
        ),
    ] {
        answer.found.push(governing(symbol, value, how));
    }
    let smallest_center = smallest(&centers).unwrap_or(center);
    if smallest_center < center {
        answer.notices.push(format!(
            "The centers differ by {} in: after the cut the tires differ in thickness, the wheels do not.",
            thou(more(center, smallest_center))
        ));
    }
    Ok(answer)
}

/// The wheels, axle by axle.
fn wheels(inputs: &Inputs) -> Result<Vec<Wheel>, SheetError> {
    let (centers, tires) = (inputs.list_si("center"), inputs.list_si("thickness"));
    if !tires.len().is_multiple_of(2) {
        return Err(SheetError::impossible(
            card::ID,
            format!("{} tires were given", tires.len()),
            "an even number: axle by axle, left before right",
        ));
    }
    let center = |at: usize| match centers {
        [one] => Some(*one),
        each if each.len() == tires.len() => each.get(at).copied(),
        _ => None,
    };
    let wheel = |(at, thickness): (usize, &f64)| {
        Some(Wheel {
            center: center(at)?,
            thickness: *thickness,
        })
    };
    tires
        .iter()
        .enumerate()
        .map(wheel)
        .collect::<Option<Vec<_>>>()
        .ok_or_else(|| {
            SheetError::impossible(
                card::ID,
                format!(
                    "{} centers were given for {} tires",
                    centers.len(),
                    tires.len()
                ),
                "one center for all, or one for each tire",
            )
        })
}

/// A list that goes wheel by wheel, if it was given.
fn beside<'a>(
    inputs: &'a Inputs,
    name: &'static str,
    wheels: &[Wheel],
) -> Result<&'a [f64], SheetError> {
    let list = inputs.list_si(name);
    if list.is_empty() || list.len() == wheels.len() {
        return Ok(list);
    }
    Err(SheetError::impossible(
        card::ID,
        format!(
            "{name} was given for {} wheels of {}",
            list.len(),
            wheels.len()
        ),
        "one for each tire, in the same order",
    ))
}

/// "2 left": the second axle's left wheel.
fn called(at: usize) -> String {
    format!(
        "{} {}",
        at / 2 + 1,
        if at.is_multiple_of(2) {
            "left"
        } else {
            "right"
        }
    )
}

/// Every wheel as it stands, and the set.
fn as_they_stand(
    wheels: &[Wheel],
    hollow: &[f64],
    flange: &[f64],
    figures: &Figures,
) -> (Outcome, String) {
    let mut whole = Held::default();
    let mut rows = Vec::new();
    for (at, wheel) in wheels.iter().enumerate() {
        let mate = wheels
            .get(at ^ 1)
            .map_or(0.0, |mate| more(wheel.diameter(), mate.diameter()));
        let (hollow, flange) = (hollow.get(at).copied(), flange.get(at).copied());
        let hold = |held: Held, wheel_is: &str| {
            held.hold(
                &format!("{wheel_is}thickness"),
                (Some(wheel.thickness), "thickness"),
                Bound::AtLeast,
                (figures.thickness, "least_thickness"),
            )
            .hold(
                &format!("{wheel_is}difference to its mate"),
                (Some(mate.abs()), "thickness"),
                Bound::AtMost,
                (figures.axle, "axle_difference"),
            )
            .hold(
                &format!("{wheel_is}hollow"),
                (hollow, "hollow"),
                Bound::Below,
                (figures.hollow, "hollow_limit"),
            )
            .hold(
                &format!("{wheel_is}flange"),
                (flange, "flange"),
                Bound::Above,
                (figures.flange, "least_flange"),
            )
        };
        whole = hold(whole, &format!("{} ", called(at)));
        let shown = |size: Option<f64>| size.map_or_else(|| "not read".to_owned(), thou);
        rows.push(vec![
            called(at),
            thou(wheel.diameter()),
            thou(wheel.thickness),
            thou(mate),
            shown(hollow),
            shown(flange),
            hold(Held::default(), "").words(),
        ]);
    }
    if figures.just_turned {
        let diameters: Vec<f64> = wheels.iter().map(|wheel| wheel.diameter()).collect();
        let spread = largest(&diameters)
            .zip(smallest(&diameters))
            .map(|(most, least)| more(most, least));
        whole = whole.hold(
            "spread of the set",
            (spread, "thickness"),
            Bound::AtMost,
            (figures.set, "set_difference"),
        );
    }
    let columns = [
        "wheel",
        "diameter in",
        "tire in",
        "over its mate in",
        "hollow in",
        "flange in",
        "as it stands",
    ];
    (table(&columns, rows), whole.words())
}

/// What one diameter takes off each wheel, and leaves.
fn cut(wheels: &[Wheel], proposal: f64, least: Option<f64>) -> Outcome {
    let rows = wheels.iter().enumerate().map(|(at, wheel)| {
        let after = wheel.thickness_at(proposal);
        vec![
            called(at),
            thou(proposal),
            thou(after),
            thou(more(wheel.thickness, after)),
            least.map_or_else(
                || cannot_tell(&["least_thickness"]),
                |least| thou(more(after, least)),
            ),
        ]
    });
    let columns = [
        "wheel",
        "turned to in",
        "tire in",
        "off the radius in",
        "left above the least in",
    ];
    table(&columns, rows.collect())
}

fn table(columns: &[&str], rows: Vec<Vec<String>>) -> Outcome {
    Outcome::Table {
        columns: columns
            .iter()
            .map(|heading| (*heading).to_owned())
            .collect(),
        rows,
    }
}
