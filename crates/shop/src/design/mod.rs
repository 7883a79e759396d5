//! The design of a repair: what it is worked to, what is made first, on which sheets it stands.

use jiff::civil::Date;
use rules::Rulebook;

use crate::Refusal;
use crate::book::{Book, FindingId, FindingState, PrintedSheet, Route};
use crate::locomotive::finding_of;
use crate::route::{house, printed, routes};

/// A design that a decision ordered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Design {
    /// The finding it answers.
    pub finding: FindingId,
    /// The route decided.
    pub route: Route,
    /// Sizes worked to, one line each.
    pub sizes: Vec<String>,
    /// The tools, those to be made first; then those of the register, with number and shelf.
    pub tooling: Vec<String>,
    /// The sheets, as printed.
    pub sheets: Vec<PrintedSheet>,
}

/// Designs the repair that was decided on.
///
/// # Errors
/// Refused: nothing is decided, it is carried, or a job stands already.
pub fn propose(
    book: &Book,
    rules: &Rulebook,
    finding: FindingId,
    on: Date,
) -> Result<Design, Refusal> {
    let kept = finding_of(book, finding)?;
    let decision = match (kept.state, &kept.decision) {
        (FindingState::Decided, Some(decision)) => decision,
        (FindingState::Open, _) => {
            return Err(Refusal::refused(format!(
                "Nobody has decided on F-{:03} yet.",
                kept.number
            ))
            .todo("decide first"));
        }
        (FindingState::Carried, _) => {
            return Err(Refusal::refused(format!(
                "F-{:03} is carried: there is no job in it.",
                kept.number
            )));
        }
        _ => {
            return Err(Refusal::refused(format!(
                "F-{:03} has its job already.",
                kept.number
            )));
        }
    };
    let choice = routes(book, rules, kept, on, house(book))?;
    let offer = choice
        .offers
        .into_iter()
        .find(|o| o.route.word == decision.route);
    let offer = offer.ok_or_else(|| {
        Refusal::input(format!(
            "The route `{}` is no longer in the family.",
            decision.route
        ))
    })?;
    Ok(Design {
        finding,
        sizes: offer.sizes,
        tooling: offer.tools.iter().map(crate::route::Tool::told).collect(),
        route: offer.route,
        sheets: printed(&choice.sheets),
    })
}
