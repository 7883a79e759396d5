//! Before the opening: what a coming inspection will probably need parts for, from forecasts of wear and from the openings that
//! the book holds, by the sheets `wear.forecast` and `wear.openings`.
//!
//! Old sheds sent word of what an engine would need weeks before she came in, so that it lay ready. This is that list.

use jiff::civil::Date;
use measure::House;
use physics::{Basis, Given, Sheet};
use rules::Rulebook;

use super::forecast::{
    ANNUAL, Ahead, Coming, Forecast, coming_by, quantity, wear_before, with_next_annual,
};
use super::hours::{of_findings, plain};
use crate::Refusal;
use crate::book::{Book, FindingState, Inspection, LocomotiveId, Occasion, PartId, QuarterHours};
use crate::clock::due;
use crate::locomotive::{Lead, lead_days, lead_of};

/// The sheet that counts past openings.
pub const SHEET: &str = "wear.openings";
/// What is believed of one part before any opening is seen: a fifth of a finding, weighing as much as one opening. Common
/// practice, without a source; the sheet shows it and takes another.
const PRIOR_PART: (&str, &str) = ("0.2", "1");
/// The same of a whole opening.
const PRIOR_WHOLE: (&str, &str) = ("5", "1");
/// Openings, the smaller first: a larger one is an opening of each smaller kind too.
const KINDS: [&str; 5] = ["31", "92", "annual", "fifth-annual", "1472"];
/// The least chance that is listed.
const LEAST: f64 = 0.05;

/// A part that will probably be needed, or looked for.
#[derive(Debug, Clone)]
pub struct Likely {
    /// Which part.
    pub part: PartId,
    /// What the shop calls it.
    pub name: String,
    /// The chance, the greater of the two below; 1 where a finding stands open on it.
    pub chance: f64,
    /// By wear: the size, what it would reach, and the sheet.
    pub wear: Option<ByWear>,
    /// By past openings: how many findings on it, and the sheet.
    pub seen: Option<(u32, Sheet)>,
    /// A finding that stands open or is carried.
    pub open: Option<u32>,
    /// Hours it took, where closed jobs on it say so: least, median, most.
    pub hours: Option<[QuarterHours; 3]>,
    /// Its own lead time, as it was told of the part or stands in its family.
    pub lead: Option<Lead>,
    /// Spares held or on the shelf for it are for whoever reads to look up; the day to order by, if a lead time is known.
    pub order_by: Option<Date>,
}

/// A size that may reach a limit first.
#[derive(Debug, Clone)]
pub struct ByWear {
    /// What it is.
    pub title: String,
    /// `our limit` or `the law's limit`.
    pub limit: &'static str,
    /// The chance.
    pub chance: f64,
    /// The sheet.
    pub sheet: Sheet,
}

/// What is to be known before an opening.
#[derive(Debug, Clone)]
pub struct Before {
    /// The inspection.
    pub kind: String,
    /// The last day it may be held on, where one is known: by the calendar, or by the runs that are promised.
    pub by: Option<Date>,
    /// Service days until then.
    pub ahead: Option<Ahead>,
    /// Openings of the kind that the book holds, and the findings at them.
    pub openings: u32,
    /// Findings at them.
    pub found: u32,
    /// What they say of the next.
    pub whole: Sheet,
    /// What will probably be needed, the likeliest first.
    pub likely: Vec<Likely>,
    /// The lead time reckoned with for parts that have none of their own.
    pub lead: Option<Lead>,
    /// What could not be told.
    pub wanting: Vec<String>,
}

/// What a coming inspection of an engine will probably need. A part that has a lead time of its own is reckoned with that; the
/// others with `lead` days where they are told, else with the longest time that something promised to the shop took to come, by
/// its letters.
///
/// # Errors
/// Input: no such inspection, a lead time that cannot be meant, or as [`due`] and the sheets.
pub fn before(
    book: &Book,
    rules: &Rulebook,
    (engine, kind): (LocomotiveId, &str),
    lead: Option<u32>,
    on: Date,
    reader: House,
) -> Result<Before, Refusal> {
    let rank = KINDS
        .iter()
        .position(|known| *known == kind)
        .ok_or_else(|| {
            Refusal::input(format!(
                "`{kind}` is no opening: {} were expected.",
                KINDS.join(", ")
            ))
        })?;
    let clocks = due(book, rules, engine, on)?;
    let coming = coming_by(&clocks, book, engine, on, None);
    let one = coming.ahead.into_iter().find(|ahead| ahead.what == kind);
    let clock = clocks.iter().find(|clock| clock.inspection == kind);
    let mut wanting = Vec::new();
    // A fifth annual is held on the day of the annual that it is.
    let dated = match clock {
        Some(clock) if with_next_annual(clock) => {
            clocks.iter().find(|clock| clock.inspection == ANNUAL)
        }
        clock => clock,
    };
    let by = dated.and_then(|clock| {
        let calendar = clock.arms.iter().find(|arm| arm.unit == "calendar days")?;
        rules::days_after(on, calendar.left?)
    });
    let by = by.or(dated.and_then(|clock| clock.stops_on?.yesterday().ok()));
    if one.is_none() {
        wanting
            .extend(clock.map(|clock| format!("the service days until the {kind}: {}", clock.why)));
    }
    let seen: Vec<&Inspection> = book
        .inspections
        .values()
        .filter(|it| {
            let larger = KINDS.iter().position(|known| *known == it.kind);
            it.locomotive == engine
                && it.closed.as_ref().is_some_and(|(day, _)| *day <= on)
                && larger.is_some_and(|it| it >= rank)
        })
        .collect();
    let numbers: Vec<u32> = seen.iter().map(|it| it.number).collect();
    let at_one = |occasion: &Occasion| match occasion {
        Occasion::Inspection { inspection } => book
            .inspections
            .get(inspection)
            .is_some_and(|it| numbers.contains(&it.number)),
        _ => false,
    };
    let found = |part: Option<PartId>| {
        let of = book.findings.values().filter(|it| {
            it.locomotive == engine
                && part.is_none_or(|part| it.part == part)
                && at_one(&it.occasion)
        });
        u32::try_from(of.count()).unwrap_or(u32::MAX)
    };
    let openings = u32::try_from(seen.len()).unwrap_or(u32::MAX);
    let hours = of_findings(book, on, |it| it.locomotive == engine);
    let hours = hours.map(|([_, median, _], _)| plain(median));
    let work = |found: u32, prior: (&str, &str), hours: Option<&str>| {
        let from = Basis::Reading(format!(
            "{openings} closed in this book at which that is opened"
        ));
        let believed = || Basis::Assumed("common practice, without a source".into());
        let given = |name: &str, text: String, basis: Basis| Given {
            name: name.into(),
            text,
            basis,
        };
        let mut all = vec![
            given("found", found.to_string(), from.clone()),
            given("openings", openings.to_string(), from),
            given("prior_found", prior.0.into(), believed()),
            given("prior_openings", prior.1.into(), believed()),
            given("ahead", "1".into(), Basis::Table("the next".into())),
        ];
        if let Some(hours) = hours {
            let basis = Basis::Reading("median of her closed jobs".into());
            all.push(given("hours_each", hours.into(), basis));
        }
        physics::run(SHEET, &all, reader).map_err(|why| Refusal::input(why.to_string()))
    };
    let whole = work(found(None), PRIOR_WHOLE, hours.as_deref())?;
    let lead = match lead {
        Some(days) => Some(Lead {
            days: lead_days(days)?,
            from: "as told".into(),
        }),
        None => longest(book),
    };
    let only = Coming {
        ahead: one.clone().into_iter().collect(),
        ..Coming::default()
    };
    let mut likely = Vec::new();
    for (id, part) in book
        .parts
        .iter()
        .filter(|(_, part)| part.locomotive == engine)
    {
        if part.known.removed.is_some() {
            continue;
        }
        let wear = match wear_before(book, rules, *id, on, reader, only.clone()) {
            Ok(wear) => wear
                .forecasts
                .iter()
                .filter_map(by_wear)
                .max_by(|a, b| a.chance.total_cmp(&b.chance)),
            Err(why) => {
                wanting.push(format!("{}: {}", part.name, why.what));
                None
            }
        };
        let counted = found(Some(*id));
        let seen = match counted {
            0 => None,
            some => Some((some, work(some, PRIOR_PART, None)?)),
        };
        let open = book
            .findings
            .values()
            .find(|it| it.part == *id && it.state != FindingState::Closed)
            .map(|it| it.number);
        let by_count = seen.as_ref().and_then(|(_, sheet)| quantity(sheet, "any"));
        let chance = wear
            .as_ref()
            .map(|wear| wear.chance)
            .into_iter()
            .chain(by_count)
            .chain(open.map(|_| 1.0))
            .fold(0.0, f64::max);
        if chance < LEAST {
            continue;
        }
        let own = lead_of(book, part);
        let order_by = by
            .zip(own.as_ref().or(lead.as_ref()))
            .and_then(|(by, lead)| rules::days_after(by, -i64::from(lead.days)));
        likely.push(Likely {
            lead: own,
            part: *id,
            name: part.name.clone(),
            chance,
            wear,
            seen,
            open,
            hours: of_findings(book, on, |it| it.part == *id).map(|(hours, _)| hours),
            order_by,
        });
    }
    likely.sort_by(|a, b| b.chance.total_cmp(&a.chance).then(a.name.cmp(&b.name)));
    Ok(Before {
        kind: kind.to_string(),
        by,
        ahead: one,
        openings,
        found: found(None),
        whole,
        likely,
        lead,
        wanting,
    })
}

/// The limit that a size most probably reaches before the opening.
fn by_wear(it: &Forecast) -> Option<ByWear> {
    let (_, sheet) = it.ahead.first()?;
    let named = [
        ("chance_rule_limit", "the law's limit"),
        ("chance_shop_limit", "our limit"),
    ];
    let chances = named
        .into_iter()
        .filter_map(|(name, limit)| Some((quantity(sheet, name)?, limit)));
    let (chance, limit) = chances.max_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(ByWear {
        title: it.title.clone(),
        limit,
        chance,
        sheet: sheet.clone(),
    })
}

/// The longest time that something promised to the shop took, from the letter to what answered it.
fn longest(book: &Book) -> Option<Lead> {
    let answered = book.letters.values().filter_map(|letter| {
        let answer = letter.answered.as_ref()?;
        letter
            .logged
            .promised
            .as_ref()
            .filter(|promised| !promised.ours)?;
        let came = match answer.letter.and_then(|id| book.letters.get(&id)) {
            Some(other) => other.on,
            None => answer.on,
        };
        let days = letter.on.until(came).ok()?.get_days();
        let days = u32::try_from(days).ok()?;
        Some((days, letter))
    });
    let (days, letter) = answered.max_by_key(|(days, letter)| (*days, letter.number))?;
    Some(Lead {
        days,
        from: format!(
            "the longest that anything promised to us took: L-{:03}, {}",
            letter.number, letter.logged.what
        ),
    })
}
