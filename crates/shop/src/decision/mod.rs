//! A decision is signed: a named officer's choice among routes.
//!
//! It may be stricter than the verdict freely. It never returns a part that fails a rule.

use jiff::civil::Date;
use rules::Rulebook;

use crate::Refusal;
use crate::book::{Authority, Book, Decided, FindingId, FindingState, PersonId, Statement};
use crate::clock::runs_out;
use crate::locomotive::{finding_of, with_authority};
use crate::route::{Feasible, house, printed, routes};
use crate::verdict::Verdict;

/// A choice to be signed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wish {
    /// On which finding.
    pub finding: FindingId,
    /// Which route.
    pub route: String,
    /// Why.
    pub because: String,
    /// When to look again; needed to carry, and to pass a shop limit.
    pub recheck: Option<Date>,
}

/// Decides on a finding.
///
/// # Errors
/// Refused: no authority; decided already, and not to carry it; the route cannot be taken, or nobody can tell; a thing is
/// carried without a day to look again, or past the last day of a clock it started. Input: no reason, no such route.
pub fn decide(
    book: &Book,
    rules: &Rulebook,
    wish: Wish,
    by: PersonId,
    on: Date,
) -> Result<Vec<Statement>, Refusal> {
    let finding = finding_of(book, wish.finding)?;
    with_authority(book, by, Authority::Approve, "decide on a finding", on)?;
    // What is carried is looked at again, and then decided on again: to carry it further, or otherwise.
    if !matches!(finding.state, FindingState::Open | FindingState::Carried) {
        return Err(Refusal::refused(format!(
            "F-{:03} has been decided on already.",
            finding.number
        )));
    }
    if wish.because.trim().is_empty() {
        return Err(Refusal::input("A decision needs its reason."));
    }
    let choice = routes(book, rules, finding, on, house(book))?;
    let offer = choice
        .offers
        .iter()
        .find(|o| o.route.word == wish.route)
        .ok_or_else(|| {
            let known: Vec<_> = choice
                .offers
                .iter()
                .map(|o| o.route.word.as_str())
                .collect();
            Refusal::input(format!(
                "There is no route `{}` for F-{:03}: {} were expected.",
                wish.route,
                finding.number,
                known.join(", ")
            ))
        })?;
    match &offer.feasible {
        Feasible::Yes => {}
        Feasible::No(why) => {
            return Err(Refusal::refused(format!(
                "`{}` cannot be taken for F-{:03}: {why}.",
                wish.route, finding.number
            )));
        }
        Feasible::CannotTell(needs) => {
            return Err(Refusal::refused(format!(
                "Nobody can tell yet whether `{}` will do for F-{:03}.",
                wish.route, finding.number
            ))
            .todos(needs.iter().map(|n| format!("needs {n}"))));
        }
    }
    if offer.route.carries {
        let Some(day) = wish.recheck else {
            return Err(Refusal::refused(
                "Carrying a finding needs the day it is looked at again.",
            ));
        };
        if day <= on {
            return Err(Refusal::input(format!(
                "The day to look again, {day}, is not ahead."
            )));
        }
        for (ruling, last) in runs_out(book, rules, finding)? {
            if day > last {
                return Err(Refusal::refused(format!(
                    "F-{:03} cannot be carried to {day}: {} ends {last} ({}).",
                    finding.number, ruling.title, ruling.cite.section
                )));
            }
        }
        if let Verdict::CannotTell(needs) = &choice.judgement.shop {
            return Err(Refusal::refused(
                "A finding is not carried while our own limits cannot be told.",
            )
            .todos(needs.iter().map(|n| format!("needs {n}"))));
        }
    }
    Ok(vec![Statement::Decided(Decided {
        finding: wish.finding,
        route: wish.route,
        because: wish.because.trim().into(),
        verdict: choice.judgement.verdict.words(),
        rulings: choice.judgement.rulings(),
        sheets: printed(&choice.sheets),
        recheck: wish.recheck,
    })])
}
