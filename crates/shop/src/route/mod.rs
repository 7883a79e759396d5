//! Ways to put a finding right, side by side, each feasible only when its sheets say so.

mod metal;
mod seat;

use jiff::civil::Date;
use measure::House;
use rules::Rulebook;

pub use metal::{MetalLeft, metal_left};

use crate::Refusal;
use crate::book::{Book, Finding, PrintedSheet, QuarterHours, Route};
use crate::locomotive::{family, part_of};
use crate::verdict::{Judgement, Question, Verdict, judge};

/// Whether a route can be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Feasible {
    /// It can.
    Yes,
    /// It cannot; why.
    No(String),
    /// Nobody can say; what is missing.
    CannotTell(Vec<String>),
}

/// A route as offered for one finding.
#[derive(Debug, Clone)]
pub struct Offer {
    /// The route, from the family.
    pub route: Route,
    /// Whether it can be taken.
    pub feasible: Feasible,
    /// Low, likely and high hours.
    pub hours: [QuarterHours; 3],
    /// Metal it spends and what is left after, in words.
    pub metal: Option<String>,
    /// What this route would be worked to, one line each.
    pub sizes: Vec<String>,
    /// What is not known, from the family and from this finding.
    pub unknown: Vec<String>,
}

/// A finding with its verdict and every route.
#[derive(Debug, Clone)]
pub struct Choice {
    /// The verdict as found.
    pub judgement: Judgement,
    /// The routes, in the family's order: carry first.
    pub offers: Vec<Offer>,
    /// The sheets the offers stand on.
    pub sheets: Vec<physics::Sheet>,
    /// Sheets that could not be worked, and why.
    pub wanting: Vec<String>,
}

/// The routes of a finding, side by side, in the units of whoever reads them. The sheets they stand on are
/// worked in the shop's own: a bare number in a fact of the part means what the shop means by it.
///
/// # Errors
/// Input: as [`judge`], or a family that does not read.
pub fn routes(
    book: &Book,
    rules: &Rulebook,
    finding: &Finding,
    on: Date,
    reader: House,
) -> Result<Choice, Refusal> {
    let part = part_of(book, finding.part)?;
    let family = family(book, &part.family)?;
    let question = Question {
        part,
        readings: &finding.readings,
        conditions: &finding.conditions,
        on,
        house: reader,
    };
    let judgement = judge(book, rules, question)?;
    let worked = seat::work(family, part, &finding.readings, house(book));
    let offers = family
        .routes
        .iter()
        .map(|route| offer(route, &judgement, &worked, reader))
        .collect();
    Ok(Choice {
        judgement,
        offers,
        sheets: worked.sheets,
        wanting: worked.wanting,
    })
}

/// The shop's house units.
pub fn house(book: &Book) -> House {
    book.shop
        .as_ref()
        .and_then(|s| s.house.parse().ok())
        .unwrap_or(House::Inch)
}

/// Sheets as they are kept: the whole text, never worked again.
pub fn printed(sheets: &[physics::Sheet]) -> Vec<PrintedSheet> {
    sheets
        .iter()
        .map(|sheet| PrintedSheet {
            sheet: sheet.card.id.to_string(),
            text: sheet.to_text(),
        })
        .collect()
}

fn offer(route: &Route, judgement: &Judgement, worked: &seat::Worked, reader: House) -> Offer {
    let mut feasible = Feasible::Yes;
    let mut metal = None;
    let mut sizes = Vec::new();
    let mut unknown = route.unknown.clone();
    if route.carries {
        feasible = match &judgement.verdict {
            Verdict::Complies => Feasible::Yes,
            Verdict::Fails(by) => Feasible::No(format!("it fails a rule: {}", by.join("; "))),
            Verdict::CannotTell(needs) => Feasible::CannotTell(needs.clone()),
        };
    }
    if route.spends_seat {
        let seat = worked.seat_after(route.most_wedge.as_deref(), reader);
        feasible = seat.feasible;
        metal = seat.metal;
        sizes = seat.sizes;
    }
    if route.spends_seat && feasible == Feasible::Yes {
        unknown.extend(worked.wanting.iter().cloned());
    }
    Offer {
        hours: route.hours(),
        route: route.clone(),
        feasible,
        metal,
        sizes,
        unknown,
    }
}
