//! The sheets of any family, worked from a finding's readings: the family says which reading or fact feeds which argument, and
//! what is missing is named by the sheet itself.

use std::collections::BTreeMap;

use measure::House;
use physics::card::Kind;
use physics::{Basis, Given, Sheet};

use crate::book::{Family, FeatureReading, Part, Route, Source, Worst};
use crate::locomotive::{Value, value};

/// What the sheets of a route gave.
#[derive(Debug, Default)]
pub(super) struct Filled {
    /// Sheets worked, each once, in the family's order.
    pub(super) sheets: Vec<Sheet>,
    /// Sheets that lack something, by id, and what.
    pub(super) wanting: BTreeMap<String, String>,
}

/// Works every sheet that the family fills in.
pub(super) fn work(
    family: &Family,
    part: &Part,
    readings: &[FeatureReading],
    house: House,
) -> Filled {
    let mut filled = Filled::default();
    for calculation in &family.calculations {
        for (id, arguments) in &calculation.fill {
            let known = filled.sheets.iter().any(|sheet| sheet.card.id == id);
            if known || filled.wanting.contains_key(id) {
                continue;
            }
            match one(family, part, readings, (id, arguments), house) {
                Ok(sheet) => filled.sheets.push(sheet),
                Err(why) => {
                    filled.wanting.insert(id.clone(), why);
                }
            }
        }
    }
    filled
}

impl Filled {
    /// What a route's sheets lack, a line each.
    pub(super) fn lacks(&self, family: &Family, route: &Route) -> Vec<String> {
        let sheets = family.sheets_of(route).into_iter();
        sheets
            .filter_map(|id| self.wanting.get(id).cloned())
            .collect()
    }
}

fn one(
    family: &Family,
    part: &Part,
    readings: &[FeatureReading],
    (id, arguments): (&str, &BTreeMap<String, Source>),
    house: House,
) -> Result<Sheet, String> {
    let card = physics::find(id).map_err(|why| why.to_string())?.card;
    let mut given = Vec::new();
    let mut missing = Vec::new();
    for (argument, source) in arguments {
        match of(family, part, readings, source) {
            Ok((text, basis)) => given.push(Given {
                name: argument.clone(),
                text,
                basis,
            }),
            Err(need) => missing.push(format!("{argument}: {need}")),
        }
    }
    // What the family has no source for, and the sheet cannot do without: somebody must say it.
    for argument in card.arguments {
        let optional = !argument.required || arguments.contains_key(argument.name);
        if !optional {
            let choices = match &argument.kind {
                Kind::Word(choices) => format!(" ({})", choices.join(", ")),
                _ => String::new(),
            };
            missing.push(format!("{}: {}{choices}", argument.name, argument.meaning));
        }
    }
    if !missing.is_empty() {
        return Err(format!("{id} cannot tell: needs {}", missing.join("; ")));
    }
    physics::run(id, &given, house).map_err(|why| why.to_string())
}

/// What a source gives, or what is missing.
fn of(
    family: &Family,
    part: &Part,
    readings: &[FeatureReading],
    source: &Source,
) -> Result<(String, Basis), String> {
    match source {
        Source::Is(word) => Ok((word.clone(), Basis::Table("its family".into()))),
        Source::Fact(name, words) => {
            let told = part.facts.get(name);
            let told = told.ok_or_else(|| format!("the fact `{name}` of the part"))?;
            let text = match words.iter().find(|(word, _)| word == told) {
                Some((_, text)) => text.clone(),
                None if words.is_empty() => told.clone(),
                None => return Err(format!("the fact `{name}` as one the sheet knows")),
            };
            Ok((text, Basis::Drawing(format!("facts of the {}", part.name))))
        }
        Source::All(name) => {
            let all = read(family, readings, name)?;
            let all: Vec<String> = all.into_iter().map(|(_, text)| text).collect();
            Ok((
                all.join(", "),
                Basis::Reading("as found, every place in its order".into()),
            ))
        }
        Source::End(name, worst) => {
            let all = read(family, readings, name)?.into_iter();
            let (end, told) = match worst {
                Worst::Largest => (all.max_by_key(|(size, _)| *size), "largest"),
                Worst::Smallest => (all.min_by_key(|(size, _)| *size), "smallest"),
            };
            let (_, text) = end.ok_or_else(|| format!("`{name}`, as found"))?;
            Ok((
                text,
                Basis::Reading(format!("as found, the {told} of all places")),
            ))
        }
        Source::Place(name, place) => {
            let found = readings
                .iter()
                .find(|it| it.feature == *name && it.reading.position == *place);
            let found = found.ok_or_else(|| format!("`{name}` at {place}, as found"))?;
            Ok((
                found.reading.written(),
                Basis::Reading(format!("as found, {place}")),
            ))
        }
    }
}

/// Every place of a size, read; a place that was not is missing, for it may be the worst.
fn read(
    family: &Family,
    readings: &[FeatureReading],
    name: &str,
) -> Result<Vec<(measure::Size, String)>, String> {
    let feature = family.feature(name).ok_or_else(|| format!("`{name}`"))?;
    let mut all = Vec::new();
    for place in &feature.positions {
        let found = readings
            .iter()
            .find(|it| it.feature == name && it.reading.position == *place);
        let found = found.ok_or_else(|| format!("the {} at {place}, as found", feature.title))?;
        let written = found.reading.written();
        match value(feature, &written) {
            Ok(Value::Size(size)) => all.push((size, written)),
            _ => return Err(format!("the {} at {place} as a size", feature.title)),
        }
    }
    Ok(all)
}
