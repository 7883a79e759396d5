//! The sheets of any family, worked from a finding's readings: the family says which reading or fact feeds which argument, and
//! what is missing is named by the sheet itself.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{House, Rounding, show};
use physics::card::Kind;
use physics::{Basis, Given, Sheet};

use crate::book::{
    Boiler, Book, Family, FeatureReading, Locomotive, OfEngine, OfSurvey, Part, Route, Source,
    Worst,
};
use crate::locomotive::{Squares, Value, followed, searched, value, years};
use crate::verdict::gauge_of;

/// What the sheets of a route gave.
#[derive(Debug, Default)]
pub(super) struct Filled {
    /// Sheets worked, each once, in the family's order.
    pub(super) sheets: Vec<Sheet>,
    /// Sheets that lack something, by id, and what.
    pub(super) wanting: BTreeMap<String, String>,
}

/// What a finding is asked of: the kind of its part, the part, what was read, and her boiler on a day.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    family: &'a Family,
    part: &'a Part,
    readings: &'a [FeatureReading],
    engine: Option<&'a Locomotive>,
    boiler: Option<&'a Boiler>,
    on: Date,
}

impl<'a> Asked<'a> {
    pub(super) fn of(
        book: &'a Book,
        family: &'a Family,
        part: &'a Part,
        readings: &'a [FeatureReading],
        on: Date,
    ) -> Asked<'a> {
        Asked {
            family,
            part,
            readings,
            engine: book.locomotives.get(&part.locomotive),
            boiler: book.boilers.get(&part.locomotive),
            on,
        }
    }
}

/// Works every sheet that the family fills in.
pub(super) fn work(asked: Asked<'_>, house: House) -> Filled {
    let family = asked.family;
    let mut filled = Filled::default();
    for calculation in &family.calculations {
        for (id, arguments) in &calculation.fill {
            let known = filled.sheets.iter().any(|sheet| sheet.card.id == id);
            if known || filled.wanting.contains_key(id) {
                continue;
            }
            match one(asked, (id, arguments), house) {
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
    asked: Asked<'_>,
    (id, arguments): (&str, &BTreeMap<String, Source>),
    house: House,
) -> Result<Sheet, String> {
    let card = physics::find(id).map_err(|why| why.to_string())?.card;
    let is_left_out = |name: &str| card.argument(name).is_some_and(|it| !it.required);
    let mut given = Vec::new();
    let mut missing = Vec::new();
    for (argument, source) in arguments {
        match told(asked, source) {
            Ok(Some((text, basis))) => given.push(Given {
                name: argument.clone(),
                text,
                basis,
            }),
            Ok(None) => {}
            // A fact that the sheet can do without is left out; where it cannot after all, the sheet names it.
            Err(_) if matches!(source, Source::Fact(..)) && is_left_out(argument) => {}
            Err(need) => missing.push((argument.as_str(), format!("{argument}: {need}"))),
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
            let need = format!("{}: {}{choices}", argument.name, argument.meaning);
            missing.push((argument.name, need));
        }
    }
    if !missing.is_empty() {
        // What decides which way it is worked is asked before any figure: a reservoir's seam before its pressure.
        let is_word = |name: &str| {
            let argument = card.argument(name);
            argument.is_some_and(|argument| matches!(argument.kind, Kind::Word(_)))
        };
        missing.sort_by_key(|(name, _)| !is_word(name));
        let missing: Vec<String> = missing.into_iter().map(|(_, need)| need).collect();
        return Err(format!("{id} cannot tell: needs {}", missing.join("; ")));
    }
    physics::run(id, &given, house).map_err(|why| why.to_string())
}

/// What a source gives; nothing where it does not concern her; or what is missing.
fn told(asked: Asked<'_>, source: &Source) -> Result<Option<(String, Basis)>, String> {
    if let Source::Engine(what) = source {
        let kept = asked.engine.ok_or("the engine it is on")?;
        let narrow = gauge_of(kept.gauge) == "narrow-gauge";
        let basis = Basis::Drawing(format!("gauge of No. {}", kept.number));
        return Ok(match what {
            OfEngine::Gauge => Some((if narrow { "narrow" } else { "standard" }.into(), basis)),
            OfEngine::NarrowGauge if narrow => {
                Some((format!("{} in", show::decimal_in(kept.gauge)), basis))
            }
            OfEngine::NarrowGauge => None,
        });
    }
    of(asked, source).map(Some)
}

/// What a source of the part gives, or what is missing.
fn of(asked: Asked<'_>, source: &Source) -> Result<(String, Basis), String> {
    let Asked {
        family,
        part,
        readings,
        ..
    } = asked;
    match source {
        Source::Engine(_) => Err("the engine it is on".into()),
        Source::Survey(of) => surveyed(asked, *of),
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

/// What the surveys of the boiler's component that has the part's name give.
fn surveyed(asked: Asked<'_>, of: OfSurvey) -> Result<(String, Basis), String> {
    let name = &asked.part.name;
    let none = || format!("a survey of the {name}, a component of her boiler by that name");
    let boiler = asked.boiler.ok_or_else(none)?;
    let newest = boiler.surveys_of(name, asked.on).last().ok_or_else(none)?;
    if let Some((card, day)) = boiler.lost_survey(name, asked.on) {
        return Err(format!(
            "a survey of the {name}: that of {day}, on which the card signed on {} stood, is in this book no more",
            card.on
        ));
    }
    let told = |what: &str| Basis::Reading(format!("{what}, survey of {}", newest.on));
    if matches!(of, OfSurvey::Minima | OfSurvey::Blocks) {
        let searched = searched(newest)?;
        return Ok(match of {
            OfSurvey::Minima => (searched.listed(), told("the thinnest of each block")),
            _ => (format!("{}", searched.all), told("blocks of the plate")),
        });
    }
    let [_, unread, _] = Squares::of(newest).counts();
    if unread > 0 {
        return Err(format!(
            "{unread} squares of the survey of {} that were not read: one of them may be the thinnest",
            newest.on
        ));
    }
    let followed = followed(boiler, name, asked.on).ok_or_else(none)?;
    let (row, column) = &followed.square;
    let square = format!("row {row}, column {column}");
    let least = followed.read.last().map(|(_, inches)| *inches);
    // The squares may have missed what somebody found; a life reckoned beside it would be too long.
    let found = asked.readings.iter().filter_map(|it| {
        let feature = asked.family.feature(&it.feature)?;
        match value(feature, &it.reading.written()) {
            Ok(Value::Size(size)) if feature.worst == Worst::Smallest => {
                Some((size.length().to_inches(), it.reading.written()))
            }
            _ => None,
        }
    });
    let thinner = found.filter(|(inches, _)| least.is_some_and(|least| *inches < least - 1e-9));
    if let Some((_, written)) = thinner.min_by(|one, other| one.0.total_cmp(&other.0)) {
        return Err(format!(
            "a survey that saw the place found at {written}: the thinnest square of that of {} is thicker",
            newest.on
        ));
    }
    if followed.read.len() < 2 {
        return Err(format!(
            "a survey before that of {} which read {square}",
            newest.on
        ));
    }
    let each = followed.read.iter().map(|(day, inches)| match of {
        OfSurvey::Ages => show::number(years(*day, asked.on), 4, Rounding::Nearest),
        _ => format!("{} in", show::number(*inches, 4, Rounding::Nearest)),
    });
    let each: Vec<String> = each.collect();
    let days: Vec<String> = followed
        .read
        .iter()
        .map(|(day, _)| day.to_string())
        .collect();
    Ok((
        each.join(", "),
        Basis::Reading(format!("{square}, surveys of {}", days.join(", "))),
    ))
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
