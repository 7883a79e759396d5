//! What is known of a part beside its readings: told when it is added, and again whenever somebody knows more.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::find::part_of;
use super::make::family;
use super::reading::value;
use super::tree::is_within;
use crate::Refusal;
use crate::book::{
    Book, Family, LEAD_TIME, LocomotiveId, PartId, PartKnown, PartTold, Statement, read_lead,
};

/// States more of a part, or something else.
///
/// # Errors
/// Input: nothing told; a fact, a feature or a size that the family does not know or that does not read; a part of
/// another engine, or the part itself, as its assembly or mate; a day that does not read or lies ahead.
pub fn tell_part(book: &Book, told: PartTold, on: Date) -> Result<Vec<Statement>, Refusal> {
    let part = part_of(book, told.part)?;
    if told.speaks_of().is_empty() {
        return Err(Refusal::input(
            "Say what is known of it: where it is, what it is of, when it was fitted, or a size.",
        ));
    }
    let family = family(book, &part.family)?;
    check_facts(family, &told.facts)?;
    for (word, feature) in &told.features {
        let sizes = [
            &feature.drawn,
            &feature.as_built,
            &feature.shop_limit,
            &feature.step,
        ];
        let sizes = sizes.into_iter().flatten().chain(&feature.steps);
        check_sizes(family, word, sizes)?;
    }
    check_known(book, (told.part, part.locomotive), &told.known, on)?;
    Ok(vec![Statement::PartTold(told)])
}

/// Facts that the family asks for, each an answer it takes.
///
/// # Errors
/// Input, naming what was expected.
pub(super) fn check_facts(
    family: &Family,
    facts: &BTreeMap<String, String>,
) -> Result<(), Refusal> {
    for (word, told) in facts {
        // How long one takes to come is asked of a part of any kind.
        if word == LEAD_TIME {
            read_lead(told)?;
            continue;
        }
        let fact = family
            .facts
            .iter()
            .find(|f| f.name == *word)
            .ok_or_else(|| {
                let known: Vec<_> = family.facts.iter().map(|f| f.name.as_str()).collect();
                Refusal::input(format!(
                    "A {} has no fact `{word}`: {} were expected.",
                    family.family,
                    known.join(", ")
                ))
            })?;
        if !fact.choices.is_empty() && !fact.choices.contains(told) {
            return Err(Refusal::input(format!(
                "`{told}` is no answer to `{word}`: {} were expected.",
                fact.choices.join(", ")
            )));
        }
    }
    Ok(())
}

/// Sizes of a feature that the family measures, or of a clearance of its, each with its unit.
///
/// # Errors
/// Input, naming what was expected.
pub(super) fn check_sizes<'s>(
    family: &Family,
    word: &str,
    sizes: impl IntoIterator<Item = &'s String>,
) -> Result<(), Refusal> {
    let feature = family.measured_as(word).ok_or_else(|| {
        let known: Vec<_> = family.measured().map(|f| f.name.as_str()).collect();
        Refusal::input(format!(
            "`{word}` is not measured on a {}: {} were expected.",
            family.family,
            known.join(", ")
        ))
    })?;
    for text in sizes {
        value(feature, text)?;
    }
    Ok(())
}

/// What is known of a part can be so.
///
/// # Errors
/// Input, as of [`tell_part`].
pub(super) fn check_known(
    book: &Book,
    (id, engine): (PartId, LocomotiveId),
    known: &PartKnown,
    on: Date,
) -> Result<(), Refusal> {
    if known.axle == Some(0) {
        return Err(Refusal::input("Axles are counted from the front, from 1."));
    }
    for other in known.within.iter().chain(&known.mates) {
        let part = part_of(book, *other)?;
        if part.locomotive != engine {
            return Err(Refusal::input(format!(
                "`{}` is a part of another engine.",
                part.name
            )));
        }
        if *other == id {
            return Err(Refusal::input(
                "A part is neither its own assembly nor its own mate.",
            ));
        }
    }
    if let Some(above) = known.within
        && is_within(book, above, id)
    {
        return Err(Refusal::input(
            "That assembly is itself part of this one: a tree has no circles.",
        ));
    }
    let day = |text: &Option<String>| text.as_deref().map(|it| span(it, on)).transpose();
    let (fitted, removed) = (day(&known.fitted)?, day(&known.removed)?);
    if let (Some((fitted, _)), Some((_, removed))) = (fitted, removed)
        && removed < fitted
    {
        return Err(Refusal::input(
            "It cannot have been taken off before it was fitted.",
        ));
    }
    Ok(())
}

/// The first and the last day that a day as written may be: `1998`, `1998-04` or `1998-04-18`.
///
/// # Errors
/// Input: it does not read, or all of it lies after `on`.
pub fn span(text: &str, on: Date) -> Result<(Date, Date), Refusal> {
    let wrong = || {
        Refusal::input(format!(
            "`{text}` is not a day: a year, a year and a month or a day was expected, such as 1998, 1998-04 or 1998-04-18."
        ))
    };
    let text = text.trim();
    let plain = text.chars().all(|c| c.is_ascii_digit() || c == '-');
    let first = match (text.len(), plain) {
        (4, true) => format!("{text}-01-01"),
        (7, true) => format!("{text}-01"),
        (10, true) => text.to_string(),
        _ => return Err(wrong()),
    };
    let first: Date = first.parse().map_err(|_| wrong())?;
    let last = match text.len() {
        4 => first.last_of_year(),
        7 => first.last_of_month(),
        _ => first,
    };
    if first > on {
        return Err(Refusal::input(format!("{text} has not come yet.")));
    }
    Ok((first, last))
}
