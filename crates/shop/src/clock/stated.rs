//! Days, facts and spells that people state, because no log can know them.

use jiff::civil::Date;
use rules::{Kind, Rulebook, words};

use crate::Refusal;
use crate::book::{
    Authority, Book, DayStated, FactStated, Locomotive, OutOfUse, PersonId, Statement,
};
use crate::locomotive::{Law, engine_of, with_authority};

/// Whether an engine has a log of fires: whether a rule set of hers counts service days.
///
/// # Errors
/// Input: none of hers counts service days.
pub fn has_a_log(book: &Book, rules: &Rulebook, engine: &Locomotive) -> Result<(), Refusal> {
    if Law::of(book, rules, engine).counts_service_days() {
        return Ok(());
    }
    Err(Refusal::input(format!(
        "No. {} has no log of fires: her rulebook, `{}`, counts calendar days and no service days.",
        engine.number, engine.jurisdiction
    )))
}

fn shown(document: &str) -> Result<(), Refusal> {
    if document.trim().is_empty() {
        return Err(Refusal::input("Say which document or person shows it."));
    }
    Ok(())
}

/// States the day of work done outside an inspection, of an item done outside its own, or of a happening such
/// as entering service.
///
/// # Errors
/// Input: the word is none of those, the day is not past, no document is named, a count ends before it begins
/// or is of more days than there are, or the inspection is of another engine.
pub fn state_day(
    book: &Book,
    rules: &Rulebook,
    told: DayStated,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let engine = engine_of(book, told.locomotive)?;
    let own = words::meaning(words::OWN_WORK, &told.what).is_some();
    let happening = words::HAPPENINGS.contains(&told.what.as_str());
    let item =
        Law::of(book, rules, engine).any(|rule| rule.kind == Kind::Item && rule.id == told.what);
    if !own && !happening && !item {
        let known: Vec<_> = words::OWN_WORK.iter().map(|(word, _)| *word).collect();
        return Err(Refusal::input(format!(
            "`{}` is nothing whose day can be stated: {}, {} or the rule of an item of an inspection were expected.",
            told.what,
            words::HAPPENINGS.join(", "),
            known.join(", ")
        )));
    }
    if told.day > on {
        return Err(Refusal::input(format!(
            "{} has not happened yet.",
            told.day
        )));
    }
    shown(&told.document)?;
    if let Some((days, through)) = told.service_days_since {
        if through < told.day || through > on {
            return Err(Refusal::input(
                "The service days since must be counted through a day between that day and today.",
            ));
        }
        let there_are = told.day.until(through).map_or(0, |s| s.get_days()) + 1;
        if i64::from(days) > i64::from(there_are) {
            return Err(Refusal::input(format!(
                "There are only {there_are} days from {} through {through}; {days} cannot have been service days.",
                told.day
            )));
        }
    }
    if let Some(id) = told.inspection
        && book
            .inspections
            .get(&id)
            .is_none_or(|i| i.locomotive != told.locomotive)
    {
        return Err(Refusal::input("That inspection is not of this engine."));
    }
    Ok(vec![Statement::DayStated(told)])
}

/// States a fact that decides which clocks bind an engine.
///
/// # Errors
/// Input: no such fact, an answer it does not have, a day not past, or no document.
pub fn state_fact(book: &Book, told: FactStated, on: Date) -> Result<Vec<Statement>, Refusal> {
    engine_of(book, told.locomotive)?;
    let Some(answers) = words::answers(&told.fact) else {
        let known: Vec<_> = words::FACTS.iter().map(|(word, ..)| *word).collect();
        return Err(Refusal::input(format!(
            "No clock hangs on the fact `{}`: {} were expected.",
            told.fact,
            known.join(", ")
        )));
    };
    if words::meaning(answers, &told.value).is_none() {
        let known: Vec<_> = answers.iter().map(|(word, _)| *word).collect();
        return Err(Refusal::input(format!(
            "`{}` is no answer to `{}`: {} were expected.",
            told.value,
            told.fact,
            known.join(", ")
        )));
    }
    if told.from > on {
        return Err(Refusal::input(format!("{} has not come yet.", told.from)));
    }
    shown(&told.document)?;
    Ok(vec![Statement::FactStated(told)])
}

/// Attests a spell in which an engine was not used. The one who enters it attests it.
///
/// # Errors
/// Refused: the person may not approve, or the engine's rulebook gives no credit for it. Input: the days run
/// backward or are not past, or nothing is told.
pub fn attest_out_of_use(
    book: &Book,
    rules: &Rulebook,
    told: OutOfUse,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "attest days out of use", on)?;
    admit_out_of_use(book, rules, &told, on)?;
    Ok(vec![Statement::OutOfUse(told)])
}

/// What a spell must satisfy, new or mended.
pub(crate) fn admit_out_of_use(
    book: &Book,
    rules: &Rulebook,
    told: &OutOfUse,
    on: Date,
) -> Result<(), Refusal> {
    let engine = engine_of(book, told.locomotive)?;
    let gives = Law::of(book, rules, engine).any(|rule| {
        rule.versions.iter().any(
            |version| matches!(&version.body, rules::Body::Calendar(it) if it.out_of_use.is_some()),
        )
    });
    if !gives {
        return Err(Refusal::refused(format!(
            "The rulebook `{}` gives no credit for days out of use: her calendar clocks run on, and service days stop by themselves.",
            engine.jurisdiction
        )));
    }
    if told.from > told.through || told.through > on {
        return Err(Refusal::input(format!(
            "A spell runs from a day through a later one, {on} at most."
        )));
    }
    if told.told.trim().is_empty() {
        return Err(Refusal::input(
            "Say why she was out of use, and where she stood.",
        ));
    }
    Ok(())
}
