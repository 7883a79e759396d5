//! Ways to put a finding right, side by side, each feasible only when its sheets say so.

mod before;
mod family;
mod filled;
mod forecast;
mod hours;
mod metal;
mod opening;
mod policy;
mod seat;
mod tools;

use jiff::civil::Date;
use measure::House;
use rules::Rulebook;

pub use before::{Before, ByWear, Likely, before};
pub use family::{adopt_family, known as known_to_families, read_family};
pub use forecast::{Ahead, Beside, Coming, Forecast, Wear, coming, quantity, wear};
pub use hours::HoursOf;
pub use metal::{MetalLeft, metal_left};
pub use opening::{Opening, Wearing, openings, wearing};
pub use policy::{Plan, SHEET as POLICY, Stands, plan, planned};
pub use tools::{Registered, Tool, tools};

use crate::Refusal;
use crate::boiler_work;
use crate::book::{Book, Family, Finding, Part, PrintedSheet, QuarterHours, Route};
use crate::clock::runs_out;
use crate::locomotive::{Law, engine_of, family, part_of};
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
    /// Whose hours these are.
    pub hours_of: HoursOf,
    /// Metal it spends and what is left after, in words.
    pub metal: Option<String>,
    /// What this route would be worked to, one line each.
    pub sizes: Vec<String>,
    /// What is not known, from the family and from this finding.
    pub unknown: Vec<String>,
    /// The sheets its family names for it, by id.
    pub sheets: Vec<String>,
    /// The tools it needs, those to be made first.
    pub tools: Vec<Tool>,
    /// What else moves, in words.
    pub moves: Vec<String>,
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
    let asked = filled::Asked::of(book, family, part, &finding.readings, on);
    let filled = filled::work(asked, house(book));
    let mut offers = Vec::new();
    for route in &family.routes {
        let mut offer = offer(family, route, &judgement, &worked, reader);
        offer.unknown.extend(filled.lacks(family, route));
        if route.carries && offer.feasible == Feasible::Yes {
            carried(book, rules, finding, on, &mut offer)?;
        }
        offer.tools = tools(book, finding.part, route);
        let stops = by_law(book, rules, part, route, on)?;
        offer.route.stop_points.extend(stops);
        if let Some((own, jobs)) = hours::own(book, &family.family, &route.word, Some(finding), on)
        {
            offer.hours = own;
            offer.hours_of = HoursOf::Own(jobs);
        }
        offers.push(offer);
    }
    Ok(Choice {
        judgement,
        offers,
        sheets: worked.sheets.into_iter().chain(filled.sheets).collect(),
        wanting: worked.wanting,
    })
}

/// What a clock that the finding starts leaves of the time to carry it: its last day, or none.
fn carried(
    book: &Book,
    rules: &Rulebook,
    finding: &Finding,
    on: Date,
    offer: &mut Offer,
) -> Result<(), Refusal> {
    for (ruling, last) in runs_out(book, rules, finding)? {
        let section = &ruling.cite.section;
        if last <= on {
            offer.feasible = Feasible::No(format!(
                "no day is left to it after {last}: {} ({section})",
                ruling.title
            ));
        } else {
            let through = format!("; here through {last} ({section})");
            offer.route.buys.push_str(&through);
        }
    }
    Ok(())
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

/// What the law asks of a route that welds or rivets on a boiler, as stop points. Nothing of it is on file for an engine
/// that is not under [`boiler_work::RULES`], and that is said.
fn by_law(
    book: &Book,
    rules: &Rulebook,
    part: &Part,
    route: &Route,
    on: Date,
) -> Result<Vec<String>, Refusal> {
    let Some(work) = &route.boiler_work else {
        return Ok(Vec::new());
    };
    let engine = engine_of(book, part.locomotive)?;
    if !Law::of(book, rules, engine).is_under(boiler_work::RULES, on)? {
        return Ok(vec![
            "no rule on welding and riveting a boiler is on file for her: ask the authority first"
                .into(),
        ]);
    }
    let told = boiler_work::Told::of_route(work).and_part(&part.facts, house(book));
    Ok(boiler_work::ask(rules, &told, on)?.stop_points())
}

fn offer(
    family: &Family,
    route: &Route,
    judgement: &Judgement,
    worked: &seat::Worked,
    reader: House,
) -> Offer {
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
        hours_of: HoursOf::Family(family.hours_from),
        route: route.clone(),
        feasible,
        metal,
        sizes,
        unknown,
        sheets: family
            .sheets_of(route)
            .into_iter()
            .map(str::to_string)
            .collect(),
        tools: Vec::new(),
        moves: route
            .knock_ons
            .iter()
            .filter_map(|word| family.knock_on(word))
            .map(|neighbor| neighbor.title.clone())
            .collect(),
    }
}
