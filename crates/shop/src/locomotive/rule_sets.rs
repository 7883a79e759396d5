//! Taking a set of rules that the shop wrote into the book, and putting an engine under one.

use jiff::civil::Date;
use rules::{Body, Limit, Outcome, RuleSet, Rulebook};

use super::Law;
use super::find::engine_of;
use crate::Refusal;
use crate::book::{Authority, Book, PersonId, RulesAdopted, RulesBind, Statement};
use crate::locomotive::with_authority;

/// Reads the text of a set as it would be taken into a book from a day on.
///
/// # Arguments
/// `file`: what the text is called in the sentences, before the line. `from`: the first day it would hold; nothing
/// where that is not decided, and then it is only read.
///
/// # Errors
/// Input: every fault of the text, one line each as `FILE:LINE: sentence`.
pub fn read_rules(
    book: &Book,
    rules: &Rulebook,
    file: &str,
    text: &str,
    from: Option<Date>,
) -> Result<RuleSet, Refusal> {
    let refuse = |faults: Vec<rules::Fault>| {
        let faults: Vec<_> = faults.iter().map(|fault| fault.at(file)).collect();
        let many = match faults.len() {
            1 => "a fault".to_string(),
            n => format!("{n} faults"),
        };
        Err(Refusal::input(format!("{file} has {many}; nothing of it was taken in.")).todos(faults))
    };
    let set = match RuleSet::read(text, rules) {
        Ok(set) => set,
        Err(faults) => return refuse(faults),
    };
    if let Some((_, newest)) = book.rule_sets.get(&set.id).and_then(|kept| kept.newest()) {
        let day = from.unwrap_or_else(|| newest.from.tomorrow().unwrap_or(newest.from));
        if day <= newest.from {
            return Err(Refusal::input(format!(
                "The set `{}` is in this book as it holds from {}; a newer text was expected to hold from a later day, and {day} was given.",
                set.id, newest.from
            )));
        }
        if newest.text == text {
            return Err(Refusal::input(format!(
                "This very text of `{}` is in the book already, by entry {}.",
                set.id, newest.entry
            )));
        }
        if let Ok(older) = newest.rules(rules) {
            let faults = set.faults_after(older, day);
            if !faults.is_empty() {
                return refuse(faults);
            }
        }
    }
    Ok(set)
}

/// Takes the text of a set into the book. From its day on it takes the place of an older text of the set; verdicts
/// given and inspections opened before stand as they are.
///
/// # Errors
/// Refused: the person may not approve. Input: as [`read_rules`].
pub fn adopt_rules(
    book: &Book,
    rules: &Rulebook,
    file: &str,
    text: &str,
    from: Date,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(book, by, Authority::Approve, "take rules into the book", on)?;
    let set = read_rules(book, rules, file, text, Some(from))?;
    let kept = book.rule_sets.get(&set.id);
    let number = kept.and_then(|kept| kept.newest()).map_or(0, |(n, _)| n) + 1;
    Ok(vec![Statement::RulesAdopted(RulesAdopted {
        set: set.id,
        edition: number,
        from,
        text: text.to_string(),
    })])
}

/// Puts an engine under a rule set, or says when one ceases to bind her.
///
/// # Errors
/// Refused: the person may not approve. Input: as [`admit_bind`].
pub fn bind_rules(
    book: &Book,
    rules: &Rulebook,
    told: RulesBind,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    with_authority(
        book,
        by,
        Authority::Approve,
        "say which rules bind an engine",
        on,
    )?;
    admit_bind(book, rules, &told)?;
    Ok(vec![Statement::RulesBind(told)])
}

/// What such a statement must satisfy, new or mended: the set is on file, the days do not run backward, a document
/// is named, the set reaches her gauge, and on no day is she left under no jurisdiction.
pub(crate) fn admit_bind(book: &Book, rules: &Rulebook, told: &RulesBind) -> Result<(), Refusal> {
    let kept = engine_of(book, told.locomotive)?;
    known_set(book, rules, &told.set)?;
    if told.through.is_some_and(|through| through < told.from) {
        return Err(Refusal::input(format!(
            "The last day lies before the first, {}.",
            told.from
        )));
    }
    if told.document.trim().is_empty() {
        return Err(Refusal::input("Say which document or person shows it."));
    }
    reaches(book, rules, &told.set, kept.gauge)?;
    let mut would = kept.clone();
    would.rules_bound.push(told.clone());
    let law = Law::of(book, rules, &would);
    let after = told.through.and_then(|day| day.tomorrow().ok());
    let before = told.from.yesterday().ok();
    let was = Law::of(book, rules, kept);
    for day in [Some(told.from), after, before].into_iter().flatten() {
        // A day on which nothing was known to bind her before is not made worse.
        if let Err(no) = law.sets(day)
            && was.sets(day).is_ok()
        {
            return Err(Refusal::refused(format!(
                "No. {} would be under no jurisdiction on {day}.",
                kept.number
            ))
            .todo(no.what)
            .todo("put her under the one that takes its place first"));
        }
    }
    if would_be_empty(&law, told) {
        return Err(Refusal::input(format!(
            "The set `{}` says nothing yet on {}: a day on which it holds was expected.",
            told.set, told.from
        )));
    }
    Ok(())
}

/// Whether a set newly named would bind her by nothing on its first day, because its text holds only later.
fn would_be_empty(law: &Law<'_>, told: &RulesBind) -> bool {
    let on = told.through.unwrap_or(told.from).max(told.from);
    let bound = law.sets(on).unwrap_or_default();
    !bound.iter().any(|b| b.set == told.set)
}

/// Refuses a set that is neither in this program's rulebook nor in the book.
pub(super) fn known_set(book: &Book, rules: &Rulebook, set: &str) -> Result<(), Refusal> {
    let mut known = rules.jurisdictions();
    if known.contains(set) || book.rule_sets.contains_key(set) {
        return Ok(());
    }
    known.extend(book.rule_sets.keys().map(String::as_str));
    let known: Vec<_> = known.into_iter().collect();
    Err(Refusal::input(format!(
        "There is no rulebook `{set}`: {} are on file.",
        known.join(", ")
    )))
}

/// Refuses a set that says which track gauge it reaches, for an engine of another.
pub(super) fn reaches(
    book: &Book,
    rules: &Rulebook,
    set: &str,
    gauge: measure::Size,
) -> Result<(), Refusal> {
    let rule = super::rule(book, rules, &format!("{set}.scope.track-gauge"));
    let limit: Option<&Limit> = match rule.ok().and_then(|r| r.versions.last()).map(|v| &v.body) {
        Some(Body::Limit(limit)) => Some(limit),
        _ => None,
    };
    match limit {
        Some(limit) if !matches!(limit.judge(gauge), Outcome::Passes) => {
            Err(Refusal::input(format!(
                "The rulebook `{set}` does not reach an engine of this track gauge: {} is {}.",
                limit.subject,
                limit.words()
            )))
        }
        _ => Ok(()),
    }
}
