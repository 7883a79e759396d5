//! The driving tires of an engine together, from the readings in the book: each as it stands by the law's figures, one
//! diameter for all of them, what that spends, how long it lasts, when a new set is to be ordered, and what comes down with
//! her.
//!
//! A wheel that nobody read may be the smallest: while one is missing the proposal is a diameter that the set can be turned
//! to *at the most*, and nothing is said to comply.

mod read;
mod wear;

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Dimension, House, Length, Rounding, entered_with_unit, show};
use physics::answer::Outcome;
use physics::{Basis, Given, Worked};
use rules::Rulebook;

use super::knock_on::{Moved, moved};
use super::{Question, fill};
use crate::Refusal;
use crate::book::{Book, Locomotive, LocomotiveId, PartId};
use crate::locomotive::{engine_of, lead_weeks};

pub use read::{Read, TireWheel, tires_of};
pub use wear::TireWear;

use read::{gather, paired};
use wear::{days_of_a_year, wear_of};

/// The sheet.
pub const SHEET: &str = "running.tire_set";

/// What a person says of the work to come.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct TirePlan {
    /// What the cut takes off the radius of the smallest wheel so that tread and flange come clean, with its unit.
    pub clean_up: Option<String>,
    /// How many weeks a new set takes to come, from the order.
    pub lead_weeks: Option<u32>,
}

/// What comes of the cut.
#[derive(Debug, Clone, PartialEq)]
pub struct TireProposal {
    /// The one diameter, inches.
    pub diameter: f64,
    /// Whether it is known; else it is the most it can be.
    pub known: bool,
    /// How far she comes down, inches.
    pub drop: f64,
    /// The thinnest tire after the cut, inches.
    pub thinnest: f64,
    /// What that is above the least of the law, inches; with a minus, below.
    pub left: Option<f64>,
    /// How the thinnest tire after the cut stands.
    pub stands: String,
    /// What she gains in pull, as a share.
    pub pull: f64,
    /// Service days from the cut to the hollow that condemns.
    pub to_hollow: Option<f64>,
    /// Service days from the cut to the least thickness.
    pub life: Option<f64>,
    /// What moves with her, each by the share of the change of the wheels' radius.
    pub moves: Vec<Moved>,
}

/// The set.
#[derive(Debug, Clone, PartialEq)]
pub struct TireSet {
    /// The wheels, axle by axle, left before right, as far as they are told apart.
    pub wheels: Vec<TireWheel>,
    /// How many driving wheels she has by her wheel arrangement.
    pub drivers: Option<usize>,
    /// What is missing of the whole.
    pub missing: Vec<String>,
    /// How the set stands: *complies*, *fails*, *cannot tell*, in the sheet's words.
    pub stands: String,
    /// Largest wheel over the smallest, inches.
    pub spread: Option<f64>,
    /// The cut; what is needed to tell, where it cannot be told.
    pub proposal: Result<TireProposal, Vec<String>>,
    /// The rate, by what was left and found; what is missing, where it cannot be told.
    pub wear: Result<TireWear, String>,
    /// Service days that she does in a year, the most of the last three; what is missing.
    pub a_year: Result<usize, String>,
    /// The day the least thickness is come to, if she is turned on the day asked about.
    pub worn_out: Result<Date, String>,
    /// The last day to order a new set.
    pub order_by: Result<Date, String>,
    /// What must be said beside it.
    pub notices: Vec<String>,
    /// The rulings used, by id and version.
    pub used: Vec<(String, u32)>,
}

/// The driving wheels of a wheel arrangement in Whyte's way: all but the first and the last number.
fn drivers(wheels: &str) -> Option<usize> {
    let numbers: Vec<usize> = wheels
        .split('-')
        .map(|number| {
            let digits: String = number.chars().take_while(char::is_ascii_digit).collect();
            digits.parse().ok()
        })
        .collect::<Option<_>>()?;
    let middle = numbers.get(1..numbers.len().checked_sub(1)?)?;
    Some(middle.iter().sum()).filter(|count| *count > 0)
}

fn list(name: &str, wheels: &[&TireWheel], pick: fn(&TireWheel) -> Option<&Read>) -> Option<Given> {
    let each: Option<Vec<&str>> = wheels
        .iter()
        .map(|wheel| Some(pick(wheel)?.says.as_str()))
        .collect();
    Some(Given {
        name: name.into(),
        text: each?.join(", "),
        basis: Basis::Reading("the newest readings of her tires".into()),
    })
}

/// The tires of an engine on a day.
///
/// # Errors
/// Input: no such engine, a clean-up that does not read, a set of her rules that does not read, a day before the rulebook's
/// coverage.
pub fn tire_set(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    on: Date,
    plan: &TirePlan,
) -> Result<TireSet, Refusal> {
    let engine = engine_of(book, id)?;
    let clean_up = plan.clean_up.as_deref().map(str::trim);
    let clean_up = clean_up.filter(|text| !text.is_empty());
    if let Some(text) = clean_up {
        entered_with_unit(text, Dimension::Length)
            .map_err(|why| Refusal::input(format!("clean-up: {why}")))?;
    }
    if let Some(weeks) = plan.lead_weeks {
        lead_weeks(weeks)?;
    }
    let (pairs, alone) = paired(book, id);
    let mut gathered = Vec::new();
    for tire in pairs.iter().flatten().chain(&alone) {
        gathered.push(gather(book, *tire, on)?);
    }
    let just_turned = !gathered.is_empty() && gathered.iter().all(|it| it.as_left);
    let mut wheels: Vec<TireWheel> = gathered.into_iter().map(|it| it.wheel).collect();
    let drivers = drivers(&engine.wheels);
    let missing = missing_of(book, engine, &wheels, drivers, &alone);
    let wear = wear_of(book, id, &wheels, on);
    let a_year = days_of_a_year(book, id, on);

    // Axles of which both wheels are known; the list of the sheet goes axle by axle.
    let usable: Vec<usize> = (0..pairs.len())
        .filter(|axle| {
            let both = wheels.get(axle * 2..axle * 2 + 2).unwrap_or_default();
            both.len() == 2
                && both
                    .iter()
                    .all(|it| it.thickness.is_some() && it.center.is_some())
        })
        .flat_map(|axle| [axle * 2, axle * 2 + 1])
        .collect();
    let known: Vec<&TireWheel> = usable.iter().filter_map(|at| wheels.get(*at)).collect();
    let mut set = TireSet {
        drivers,
        missing,
        stands: physics::answer::cannot_tell(&[
            "both wheels of an axle, read and with their centers",
        ]),
        spread: None,
        proposal: Err(vec![
            "both wheels of an axle, read and with their centers".into(),
        ]),
        wear,
        a_year,
        worn_out: Err(String::new()),
        order_by: Err(String::new()),
        notices: Vec::new(),
        used: Vec::new(),
        wheels: Vec::new(),
    };
    if !known.is_empty() {
        let mut given = vec![Given::typed(
            "state",
            if just_turned {
                "just-turned"
            } else {
                "running"
            },
        )];
        given.extend(list("center", &known, |it| it.center.as_ref()));
        given.extend(list("thickness", &known, |it| it.thickness.as_ref()));
        given.extend(list("hollow", &known, |it| it.hollow.as_ref()));
        given.extend(list("flange", &known, |it| it.flange.as_ref()));
        // As they stand nothing hangs on the cut.
        given.push(Given::typed("clean_up", clean_up.unwrap_or("0 in")));
        if let Ok(wear) = &set.wear {
            given.push(Given {
                name: "wear".into(),
                text: format!("{} in", show::number(wear.inches, 5, Rounding::Up)),
                basis: Basis::Found(format!(
                    "{}, {} to {}",
                    wear.name, wear.between.0, wear.between.1
                )),
            });
            given.push(Given {
                name: "wear_days".into(),
                text: wear.days.to_string(),
                basis: Basis::Found("her log, the fewest it can have been".into()),
            });
        }
        let filled = fill(
            book,
            rules,
            Question {
                sheet: SHEET,
                given: &given,
                rules: None,
                engine: Some(engine),
                told: &[],
                facts: &BTreeMap::new(),
                on,
                house: House::Inch,
            },
        )?;
        set.used = filled.used;
        set.notices = filled.notices;
        let worked = physics::find(SHEET)
            .and_then(|entry| Worked::new(entry, &filled.given, House::Inch))
            .map_err(|why| Refusal::input(format!("{why}.")))?;
        for (name, column) in [("legal", false), ("spent", true)] {
            if let Some(Outcome::Table { rows, .. }) = worked.answer.result(name) {
                for (row, at) in rows.iter().zip(&usable) {
                    if let Some(wheel) = wheels.get_mut(*at) {
                        let cells = row.iter().skip(1).cloned().collect();
                        if column {
                            wheel.cut = cells
                        } else {
                            wheel.stands = cells
                        }
                    }
                }
            }
        }
        if clean_up.is_none() {
            wheels.iter_mut().for_each(|wheel| wheel.cut.clear());
        }
        read_off(&mut set, &worked, clean_up.is_some())?;
    }
    set.wheels = wheels;
    forecast(&mut set, plan, on);
    Ok(set)
}

/// What the sheet came to; what is missing of the whole stays missing.
fn read_off(set: &mut TireSet, worked: &Worked, cut: bool) -> Result<(), Refusal> {
    let inches = |name: &str| match worked.answer.result(name) {
        Some(Outcome::Si(si)) => Some(Length::m(*si).to_inches()),
        _ => None,
    };
    let number = |name: &str| match worked.answer.result(name) {
        Some(Outcome::Si(si)) => Some(*si),
        _ => None,
    };
    let text = |name: &str| match worked.answer.result(name) {
        Some(Outcome::Text(text)) => text.clone(),
        _ => physics::answer::cannot_tell(&["the law's figures"]),
    };
    let whole = set.missing.is_empty();
    let says = |words: String| match words.as_str() {
        "complies" if !whole => physics::answer::cannot_tell(&["every wheel of the set"]),
        _ => words,
    };
    set.stands = says(text("complies"));
    set.spread = inches("set_spread").filter(|_| whole);
    if !cut {
        set.proposal = Err(vec![
            "what the cut must take off the radius of the smallest wheel to come clean".into(),
        ]);
        return Ok(());
    }
    let (Some(diameter), Some(drop), Some(thinnest), Some(pull)) = (
        inches("proposal"),
        inches("height_drop"),
        inches("thickness_after"),
        number("tractive_effort"),
    ) else {
        set.proposal = Err(vec!["an answer of the sheet running.tire_set".into()]);
        return Ok(());
    };
    set.proposal = Ok(TireProposal {
        diameter,
        known: whole,
        drop,
        thinnest,
        left: inches("left_after"),
        stands: says(text("complies_after")),
        pull,
        to_hollow: number("to_hollow"),
        life: number("life").filter(|_| whole),
        moves: moved("driving-radius", &BTreeMap::new())?,
    });
    Ok(())
}

fn missing_of(
    book: &Book,
    engine: &Locomotive,
    wheels: &[TireWheel],
    drivers: Option<usize>,
    alone: &[PartId],
) -> Vec<String> {
    let mut all = Vec::new();
    match drivers {
        Some(count) if wheels.len() < count => all.push(format!(
            "{} of her {count} driving tires, which are no parts in this book",
            count - wheels.len()
        )),
        Some(count) if wheels.len() > count => all.push(format!(
            "which {count} of the {} driving tires in this book are on her",
            wheels.len()
        )),
        Some(_) => {}
        None => all.push(format!("how many driving wheels `{}` has", engine.wheels)),
    }
    for tire in alone {
        if let Some(part) = book.parts.get(tire) {
            all.push(format!(
                "which tire is on the other side of the {}",
                part.name
            ));
        }
    }
    for wheel in wheels {
        let lacks = wheel
            .missing
            .iter()
            .map(|what| format!("{}: {what}", wheel.name));
        all.extend(lacks);
    }
    all
}

fn forecast(set: &mut TireSet, plan: &TirePlan, on: Date) {
    let life = match &set.proposal {
        Err(needs) => Err(needs.join("; ")),
        Ok(it) => match (it.life, &set.wear) {
            (Some(life), _) => Ok(life),
            (None, Err(why)) => Err(why.clone()),
            (None, Ok(_)) if !it.known => Err("every wheel of the set".into()),
            (None, Ok(_)) => Err("the law's least thickness".into()),
        },
    };
    set.worn_out = match (life, &set.a_year) {
        (Err(why), _) => Err(why),
        (Ok(_), Err(why)) => Err(why.clone()),
        (Ok(life), Ok(a_year)) => {
            // Whole days, rounded down; no tire lasts a hundred years.
            let days = (life / *a_year as f64 * 365.25).min(36_525.0).floor();
            rules::days_after(on, days as i64).ok_or_else(no_day)
        }
    };
    set.order_by = match (&set.worn_out, plan.lead_weeks) {
        (Err(why), _) => Err(why.clone()),
        (Ok(_), None) => Err("how many weeks a new set takes to come".into()),
        (Ok(day), Some(weeks)) => {
            let before = i64::from(weeks) * 7;
            rules::days_after(*day, -before).ok_or_else(no_day)
        }
    };
}

fn no_day() -> String {
    "a day that a calendar has".into()
}
