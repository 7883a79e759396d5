//! Whether one text of a set may take the place of an older one: verdicts cite versions by number, so a version
//! that has bound a day stands as it was, and may only be closed.

use jiff::civil::Date;

use super::{Fault, RuleSet};

pub(super) fn faults(newer: &RuleSet, older: &RuleSet, from: Date) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut fault = |line: usize, says: String| faults.push(Fault { line, says });
    if newer.origin != older.origin {
        fault(
            1,
            format!(
                "[set]: `origin` was \"{}\" and is \"{}\"; a set does not change what it is: give it another id",
                older.origin.word(),
                newer.origin.word()
            ),
        );
    }
    for lost in older.rules.declared() {
        if newer.rules.declares(&lost.word).is_none() {
            fault(
                1,
                format!(
                    "the inspection `{}` is declared no more; inspections of that name may stand in the book, so it is kept",
                    lost.word
                ),
            );
        }
    }
    let eve = from.yesterday().unwrap_or(from);
    for rule in older.rules.rules() {
        let Ok(now) = newer.rules.rule(&rule.id) else {
            fault(
                1,
                format!(
                    "the rule `{}` is gone; a rule that has bound a day is closed with its last day and never taken out",
                    rule.id
                ),
            );
            continue;
        };
        for was in &rule.versions {
            let number = was.number;
            let line = newer.line(&rule.id, number);
            let Some(is) = now.versions.iter().find(|v| v.number == number) else {
                fault(
                    newer.line(&rule.id, 0),
                    format!(
                        "{}: version {number} is gone; it stands, with its last day, and what is new follows it",
                        rule.id
                    ),
                );
                continue;
            };
            let same = is.in_force == was.in_force
                && is.body == was.body
                && is.cite == was.cite
                && now.kind == rule.kind;
            if !same {
                fault(
                    line,
                    format!(
                        "{}, version {number}: it has bound days as it was and is not changed; close it with its last day, {eve} at the earliest, and add a version that begins the next day",
                        rule.id
                    ),
                );
            } else if was.until.is_some() && is.until != was.until {
                fault(
                    line,
                    format!(
                        "{}, version {number}: its last day was {}; it stands",
                        rule.id,
                        was.until.map(|day| day.to_string()).unwrap_or_default()
                    ),
                );
            } else if was.until.is_none() && is.until.is_some_and(|end| end < eve) {
                fault(
                    line,
                    format!(
                        "{}, version {number}: it is closed before this text takes effect; its last day is {eve} at the earliest",
                        rule.id
                    ),
                );
            }
        }
    }
    faults.sort();
    faults
}
