//! Entering what a boiler is made of. No size has a default, and no metal is taken for proved because nobody said otherwise.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{House, entered_with_unit};
use physics::Given;
use physics::card::Kind as Asked;

use crate::Refusal;
use crate::book::{Authority, BoilerEntered, Book, Component, PersonId, Statement};

use super::boiler_kinds::FactAs::{Argument, Count, Text, Word};
use super::boiler_kinds::{BOILER_KINDS, BOILER_PLACES, BoilerKind, WHOLE, boiler_kind};
use super::find::engine_of;
use super::people::with_authority;

/// Enters a component of a boiler, or more of one that stands.
///
/// # Errors
/// Input: no such kind, place or fact, a value that does not read or lacks its unit, no source, nothing said, a strength
/// typed that nobody proved. Refused: the person may not approve.
pub fn enter_boiler(
    book: &Book,
    told: BoilerEntered,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Inspect, "enter what the boiler is", on)?;
    Ok(vec![Statement::BoilerEntered(admit_boiler(
        book, told, on,
    )?)])
}

/// What a component must satisfy, new or mended; gives it with its kind and place filled in.
///
/// # Errors
/// As [`enter_boiler`].
pub fn admit_boiler(book: &Book, told: BoilerEntered, on: Date) -> Result<BoilerEntered, Refusal> {
    engine_of(book, told.locomotive)?;
    let name = told.component.trim().to_owned();
    if name.is_empty() {
        return Err(Refusal::input(
            "The component has no name: `second course` was expected, or such.",
        ));
    }
    let boiler = book.boilers.get(&told.locomotive);
    let standing = boiler.and_then(|boiler| boiler.component(&name));
    let or = |said: &str, stood: Option<&str>| match (said.trim(), stood) {
        ("", Some(stood)) => stood.to_owned(),
        (said, _) => said.to_owned(),
    };
    let kind = or(&told.kind, standing.map(|it| it.kind.as_str()));
    let place = or(&told.place, standing.map(|it| it.place.as_str()));
    let Some(known) = boiler_kind(&kind) else {
        let all: Vec<_> = BOILER_KINDS.iter().map(|it| it.word).collect();
        return Err(Refusal::input(format!(
            "`{kind}` is no kind of component: {} were expected.",
            all.join(", ")
        )));
    };
    let pressed = !matches!(known.word, "water-level" | "particulars");
    let places = if pressed { BOILER_PLACES } else { WHOLE };
    let place = if pressed || !place.is_empty() {
        place
    } else {
        "whole".into()
    };
    if !places.iter().any(|(word, _)| *word == place) {
        let all: Vec<_> = places.iter().map(|(word, _)| *word).collect();
        return Err(Refusal::input(format!(
            "`{place}` is no place for a component of the kind {kind}: {} were expected.",
            all.join(", ")
        )));
    }
    if told.source.trim().is_empty() {
        return Err(Refusal::input(
            "Say what it stands on: the drawing, the paper, or who measured it and with what.",
        ));
    }
    if told.facts.is_empty() {
        return Err(Refusal::input(
            "Nothing is said of it: name=value was expected.",
        ));
    }
    let mut facts = BTreeMap::new();
    for (fact, says) in &told.facts {
        facts.insert(
            fact.trim().to_owned(),
            written(known, fact.trim(), says.trim())?,
        );
    }
    let told = BoilerEntered {
        component: name,
        kind,
        place,
        facts,
        source: told.source.trim().to_owned(),
        ..told
    };
    proved(&told, standing, on)?;
    Ok(told)
}

/// What is written of a fact, once it reads; nothing for `unknown`.
fn written(kind: &BoilerKind, name: &str, says: &str) -> Result<String, Refusal> {
    let Some(fact) = kind.facts.iter().find(|fact| fact.name == name) else {
        let all: Vec<_> = kind.facts.iter().map(|fact| fact.name).collect();
        return Err(Refusal::input(format!(
            "A component of the kind {} has no `{name}`: {} were expected.",
            kind.word,
            all.join(", ")
        )));
    };
    if matches!(says, "unknown" | "") {
        return Ok(String::new());
    }
    match fact.takes {
        Text => {}
        Word(words) if words.contains(&says) => {}
        Word(words) => {
            return Err(Refusal::input(format!(
                "`{says}` is not what `{name}` can be: {} were expected, or unknown.",
                words.join(", ")
            )));
        }
        Count if says.parse::<u32>().is_ok_and(|count| count > 0) => {}
        Count => {
            return Err(Refusal::input(format!(
                "`{says}` is not what `{name}` can be: a whole number from 1 was expected, or unknown."
            )));
        }
        Argument(sheet, argument) => reads(sheet, argument, name, says)?,
    }
    Ok(says.to_owned())
}

/// Whether an argument of a sheet takes a text, every size in it with its unit.
fn reads(sheet: &str, argument: &str, name: &str, says: &str) -> Result<(), Refusal> {
    let card = physics::find(sheet)
        .map_err(|e| Refusal::input(format!("{e}.")))?
        .card;
    let refuse = |why: String| Err(Refusal::input(format!("{name}: {why}")));
    if let Some(asked) = card.argument(argument)
        && let Asked::Quantity(dimension, _) | Asked::List { dimension, .. } = asked.kind
        && !matches!(
            dimension,
            measure::Dimension::Ratio | measure::Dimension::Count
        )
    {
        for one in says.split(',') {
            if let Err(why) = entered_with_unit(one.trim(), dimension) {
                return refuse(why.to_string());
            }
        }
    }
    match physics::Inputs::read(card, &[Given::typed(argument, says)], House::Inch) {
        Ok(_) | Err(physics::SheetError::Missing { .. }) => Ok(()),
        Err(why) => refuse(format!("{why}.")),
    }
}

/// A strength is typed where it is proved, and only there: where it is assumed the rule has the figure.
fn proved(told: &BoilerEntered, standing: Option<&Component>, on: Date) -> Result<(), Refusal> {
    let now = |name: &str| match told.facts.get(name) {
        Some(says) => Some(says.as_str()).filter(|says| !says.is_empty()),
        None => standing
            .and_then(|it| it.fact(name, on))
            .map(|fact| fact.says.as_str()),
    };
    for (proof, strengths) in [
        ("proof", &["tensile"][..]),
        ("rivet_proof", &["seam_shear", "seam_shear_double"]),
    ] {
        for strength in strengths {
            if now(strength).is_some() && now(proof) == Some("assumed") {
                return Err(Refusal::input(format!(
                    "`{strength}` and `{proof}=assumed` were both said: a strength is typed where a certificate or a test \
                     says it; assumed takes the rule's own figure for unknown metal. Say `{strength}=unknown`, or its proof."
                )));
            }
        }
    }
    Ok(())
}
