//! What a version says, read by its kind; every word held against its closed list.

use serde::de::DeserializeOwned;

use super::grammar::Grammar;
use super::{limit, table, text, word};
use crate::words::{
    self, CONDITIONS, DEFECT_WORK, DIESEL_INSPECTIONS, EVENTS, FITTINGS, INSPECTIONS, KEPT_AT,
    NEEDS, OCCASIONS, OWN_WORK, RECIPIENTS,
};
use crate::{
    Body, Calendar, Count, CountUnit, Definition, Filing, Item, Keep, Kind, Retention,
    WhicheverFirst,
};

/// Reads the table `says` as the kind demands.
pub(super) fn read(kind: Kind, says: toml::Table, of: &Grammar<'_>) -> Result<Body, String> {
    Ok(match kind {
        Kind::Definition => Body::Definition(definition(take(says)?, of)?),
        Kind::Count => Body::Count(count(take(says)?, of)?),
        Kind::Calendar => Body::Calendar(calendar(take(says)?, of)?),
        Kind::WhicheverFirst => Body::WhicheverFirst(whichever_first(take(says)?, of)?),
        Kind::Limit => Body::Limit(limit::limit(take(says)?)?),
        Kind::LimitTable => Body::LimitTable(table::table(take(says)?)?),
        Kind::LimitFormula => Body::LimitFormula(table::formula(take(says)?)?),
        Kind::Item => Body::Item(item(take(says)?, of)?),
        Kind::Filing => Body::Filing(filing(take(says)?, of)?),
        Kind::Retention => Body::Retention(retention(take(says)?)?),
    })
}

fn take<T: DeserializeOwned>(says: toml::Table) -> Result<T, String> {
    toml::Value::Table(says)
        .try_into()
        .map_err(|e: toml::de::Error| format!("says: {}", text::plainly(e.message())))
}

fn all(key: &str, list: &[words::Word], given: &[String]) -> Result<(), String> {
    given.iter().try_for_each(|g| word(key, list, g))
}

fn some(key: &str, given: &[String]) -> Result<(), String> {
    if given.is_empty() {
        Err(format!("`{key}` is empty; it must name at least one"))
    } else {
        Ok(())
    }
}

/// A clock that its own inspection does not restart would never start again.
fn restarts(inspection: &str, restarted_by: &[String], of: &Grammar<'_>) -> Result<(), String> {
    held("inspection", inspection, of)?;
    restarted_by
        .iter()
        .try_for_each(|w| held("restarted_by", w, of))?;
    if restarted_by.iter().any(|r| r == inspection) {
        return Ok(());
    }
    Err(format!(
        "restarted_by does not name the clock's own inspection, `{inspection}`"
    ))
}

/// Refuses a word that is neither an inspection nor work with a clock of its own.
fn held(key: &str, given: &str, of: &Grammar<'_>) -> Result<(), String> {
    if words::place(given).is_some() || of.declares(given) {
        return Ok(());
    }
    let mut known = of.words();
    for list in [INSPECTIONS, DIESEL_INSPECTIONS, OWN_WORK] {
        for (word, _) in list {
            if !known.contains(word) {
                known.push(word);
            }
        }
    }
    Err(format!(
        "unknown word `{given}` for `{key}`; expected {}",
        words::or(&known)
    ))
}

fn above_zero(due_after: u32) -> Result<(), String> {
    if due_after == 0 {
        Err("due_after is 0; expected a count from 1".into())
    } else {
        Ok(())
    }
}

fn definition(it: Definition, of: &Grammar<'_>) -> Result<Definition, String> {
    text::filled("term", &it.term)?;
    for (key, list) in [("together", &it.together), ("fireless", &it.fireless)] {
        some(key, list)?;
        all(key, CONDITIONS, list)?;
    }
    of.service_day(&it)?;
    Ok(it)
}

fn count(it: Count, of: &Grammar<'_>) -> Result<Count, String> {
    above_zero(it.due_after)?;
    restarts(&it.inspection, &it.restarted_by, of)?;
    of.counts(it.unit, &it.inspection)?;
    if let Some(cautious) = &it.cautious {
        text::filled("cautious.why", &cautious.why)?;
    }
    Ok(it)
}

fn calendar(it: Calendar, of: &Grammar<'_>) -> Result<Calendar, String> {
    word("from", EVENTS, &it.from)?;
    if let Some(only) = &it.only_if {
        let Some(answers) = words::answers(&only.fact) else {
            let facts: Vec<_> = words::FACTS.iter().map(|(w, m, _)| (*w, *m)).collect();
            return word("only_if.fact", &facts, &only.fact).map(|()| it);
        };
        word("only_if.is", answers, &only.is)?;
    }
    of.inspections("at_once", &it.at_once)?;
    if let Some(credit) = &it.out_of_use {
        of.section(&credit.section)?;
        if credit.least_days == 0 {
            return Err("out_of_use.least_days is 0; expected a count from 1".into());
        }
    }
    if words::meaning(DEFECT_WORK, &it.inspection).is_none() {
        return restarts(&it.inspection, &it.restarted_by, of).map(|()| it);
    }
    if it.restarted_by.is_empty() {
        return Ok(it);
    }
    Err(format!(
        "`{}` ends with the work itself; restarted_by must be empty",
        it.inspection
    ))
}

fn whichever_first(it: WhicheverFirst, of: &Grammar<'_>) -> Result<WhicheverFirst, String> {
    restarts(&it.inspection, &it.restarted_by, of)?;
    if it.counts.len() + usize::from(it.calendar.is_some()) < 2 {
        return Err("whichever-first needs at least two arms, in `counts` and `calendar`; with one arm the kind is that arm's".into());
    }
    for arm in &it.counts {
        above_zero(arm.due_after)?;
        if arm.unit == CountUnit::DayOfUse {
            return Err("an arm counts service days or annuals, never days of use".into());
        }
        of.counts(arm.unit, &it.inspection)?;
    }
    if let Some(calendar) = &it.calendar {
        word("calendar.from", EVENTS, &calendar.from)?;
    } else if it.first_start.is_some() {
        return Err("first_start starts the calendar arm, and there is none".into());
    }
    if let Some(first) = &it.first_start {
        word("first_start.event", EVENTS, &first.event)?;
        word("first_start.at_latest", EVENTS, &first.at_latest)?;
    }
    Ok(it)
}

fn item(it: Item, of: &Grammar<'_>) -> Result<Item, String> {
    match &it.occasion {
        None => some("inspections", &it.inspections)?,
        Some(occasion) => {
            word("occasion", OCCASIONS, occasion)?;
            if !it.inspections.is_empty() || it.listed {
                return Err(
                    "an item with an `occasion` stands outside the inspections and their lists; inspections is [] and listed is false"
                        .into(),
                );
            }
        }
    }
    of.inspections("inspections", &it.inspections)?;
    text::filled("text", &it.text)?;
    of.section(&it.section)?;
    if !it.question.ends_with('?') {
        return Err(format!(
            "`question` is \"{}\"; expected what the inspector answers, ending in a question mark",
            it.question
        ));
    }
    all("needs", NEEDS, &it.needs)?;
    if let Some(fitting) = &it.fitting {
        word("fitting", FITTINGS, fitting)?;
    }
    if let Some(except) = &it.except {
        text::filled("except", except)?;
    }
    if it.order == 0 {
        return Err("order is 0; places on a list count from 1".into());
    }
    Ok(it)
}

fn filing(it: Filing, of: &Grammar<'_>) -> Result<Filing, String> {
    text::filled("what", &it.what)?;
    word("when.of", EVENTS, &it.when.of)?;
    some("to", &it.to)?;
    all("to", RECIPIENTS, &it.to)?;
    it.contents
        .iter()
        .chain(&it.signed_by)
        .try_for_each(|line| text::filled("contents or signed_by", line))?;
    it.inspections
        .iter()
        .try_for_each(|w| held("inspections", w, of))?;
    let follows = it.when.of == "next-service" || it.when.of == "inspection";
    if follows == it.inspections.is_empty() {
        return Err(
            "inspections are named where the event is `next-service` or `inspection`, and nowhere else".into(),
        );
    }
    Ok(it)
}

fn retention(it: Retention) -> Result<Retention, String> {
    text::filled("what", &it.what)?;
    some("at", &it.at)?;
    all("at", KEPT_AT, &it.at)?;
    if it.keep == Keep::Days(0) {
        return Err(
            "keep is 0 days; where the text names no period write \"no-period-in-text\"".into(),
        );
    }
    Ok(it)
}
