//! The lowest readings of glass and cock against the highest part of the crown sheet.

use jiff::civil::Date;
use measure::House;
use physics::answer::Outcome;
use physics::{Basis, Given, Worked};

use super::law::Figures;
use crate::Refusal;
use crate::book::{Book, Component, LocomotiveId, Place};
use crate::locomotive::family;

const SHEET: &str = "boiler.water_level";

/// How the readings stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Level {
    /// The glass: `complies`, `fails`, or what is needed to tell.
    pub glass: String,
    /// The cock, likewise; nothing where she has none.
    pub cock: Option<String>,
    /// What they stood on: name, value, where it came from.
    pub stood_on: Vec<(String, String, String)>,
    /// Work on glass, cock or firebox closed since they were measured: they are to be measured again.
    pub worked_since: Vec<u32>,
}

/// The level as entered on a day; nothing where no component says it.
pub fn of(
    book: &Book,
    law: &mut Figures<'_>,
    id: LocomotiveId,
    standing: &[&Component],
    on: Date,
) -> Result<Option<Level>, Refusal> {
    let Some(component) = standing.iter().find(|it| it.kind == "water-level") else {
        return Ok(None);
    };
    let mut all = Vec::new();
    let mut oldest: Option<Date> = None;
    let without = component
        .fact("cocks", on)
        .is_some_and(|fact| fact.says == "none");
    for name in ["crown_height", "glass_low", "cock_low"] {
        if let Some(fact) = component
            .fact(name, on)
            .filter(|_| name != "cock_low" || !without)
        {
            oldest = Some(oldest.map_or(fact.on, |day| day.min(fact.on)));
            all.push(Given {
                name: name.into(),
                text: fact.says.clone(),
                basis: Basis::Reading(format!("{}, {}", fact.source, fact.on)),
            });
        }
    }
    if let Ok(figure) = law.figure(SHEET, "least_above", "")? {
        all.push(figure);
    }
    let worked = physics::find(SHEET).and_then(|entry| Worked::new(entry, &all, House::Inch));
    let said = |name: &str| match &worked {
        Ok(worked) => match worked.answer.result(name) {
            Some(Outcome::Text(text)) => text.clone(),
            _ => physics::answer::cannot_tell(&["its reading"]),
        },
        Err(_) if all.iter().all(|one| one.name != "crown_height") => {
            physics::answer::cannot_tell(&["crown_height"])
        }
        Err(why) => physics::answer::cannot_tell(&[why.to_string()]),
    };
    Ok(Some(Level {
        glass: said("glass"),
        cock: (!without).then(|| said("cock")),
        stood_on: all
            .iter()
            .map(|one| (one.name.clone(), one.text.clone(), one.basis.to_string()))
            .collect(),
        worked_since: oldest.map_or_else(Vec::new, |since| worked_since(book, id, since, on)),
    }))
}

/// Jobs closed after a day on parts of the firebox and on water glasses.
fn worked_since(book: &Book, id: LocomotiveId, since: Date, on: Date) -> Vec<u32> {
    let touches = |finding| {
        let part = book.parts.get(&book.findings.get(finding)?.part)?;
        let family = family(book, &part.family).ok()?;
        Some(family.place == Some(Place::Firebox) || family.family == "water-glass")
    };
    let mut all: Vec<u32> = book
        .jobs
        .values()
        .filter(|job| job.locomotive == id && touches(&job.plan.finding) == Some(true))
        .filter(|job| {
            job.closed
                .as_ref()
                .is_some_and(|(day, ..)| *day > since && *day <= on)
        })
        .map(|job| job.number)
        .collect();
    all.sort_unstable();
    all
}
