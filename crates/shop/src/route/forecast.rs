//! What the book tells of a part's wear: the sheet `wear.forecast`, worked with its readings, limits, service days and clocks.
//!
//! Nothing is reckoned here: this file chooses which readings go in, and says where each came from.

use jiff::civil::Date;
use measure::{House, Rounding, Size, State, show};
use physics::{Basis, Given, Sheet, Shown};
use rules::{LimitValue, Rulebook, Ruling};

use super::house;
use super::opening::{Opening, Reading, Wearing, openings, wearing};
use crate::Refusal;
use crate::book::{Book, LocomotiveId, Part, PartId};
use crate::clock::{ANNUALS, Arm, Clock, State as Stands, due, miles, own_service_days, stretch};
use crate::locomotive::{family, mirror, part_of};
use crate::verdict::{Judgement, judge_as_it_is};

/// The sheet that is worked.
pub const SHEET: &str = "wear.forecast";
/// The word of the annual inspection.
pub(super) const ANNUAL: &str = "annual";
/// The same openings by the miles between them.
pub const MILES_SHEET: &str = "wear.miles";
/// The most openings that it takes; the newest are given.
const MOST: usize = 24;

/// A coming opening of an engine, in service days from today.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ahead {
    /// The inspection that opens her.
    pub what: String,
    /// Service days until then.
    pub days: u32,
    /// How they were reckoned.
    pub why: String,
}

/// What is coming to an engine, and what could not be told.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Coming {
    /// Openings, the soonest first.
    pub ahead: Vec<Ahead>,
    /// Openings of which no service days can be told, and why.
    pub wanting: Vec<String>,
    /// Service days in a year that were reckoned with, where any were, and whose they are.
    pub a_year: Option<(u32, String)>,
}

/// The same size on the other side of the engine.
#[derive(Debug, Clone)]
pub struct Beside {
    /// The part.
    pub part: String,
    /// Its own sheet.
    pub sheet: Sheet,
}

/// What the book tells of one size.
#[derive(Debug, Clone)]
pub struct Forecast {
    /// Its word.
    pub name: String,
    /// What it is.
    pub title: String,
    /// Whether wear makes it larger.
    pub larger: bool,
    /// Its openings, the oldest first.
    pub openings: Vec<Opening>,
    /// The newest reading.
    pub now: Reading,
    /// Our own limit.
    pub shop_limit: Option<Size>,
    /// The strictest limit of the law, and where it stands.
    pub rule_limit: Option<(Size, Box<Ruling>)>,
    /// The sheet, worked to the soonest coming opening where one is known.
    pub sheet: Sheet,
    /// The same, worked to each coming opening.
    pub ahead: Vec<(Ahead, Sheet)>,
    /// Its mirror, where it has one with a rate.
    pub beside: Option<Beside>,
    /// By miles in place of service days, where her fires were read.
    pub by_miles: Option<Sheet>,
}

/// What the book tells of a part's wear.
#[derive(Debug, Clone)]
pub struct Wear {
    /// A forecast for each size that was ever found.
    pub forecasts: Vec<Forecast>,
    /// Sizes without one, and why.
    pub wanting: Vec<String>,
    /// What is coming to the engine.
    pub coming: Coming,
}

/// The openings that are coming to an engine, by her clocks. One that is due by the calendar is put in service days by the
/// service days she makes in a year: as stated, or else those of the 365 days before, if the log of all of them is closed.
///
/// # Errors
/// As [`due`].
pub fn coming(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
    planned: Option<u32>,
) -> Result<Coming, Refusal> {
    let clocks = due(book, rules, engine, on)?;
    Ok(coming_by(&clocks, book, engine, on, planned))
}

/// Whether a clock is that of an inspection, by the annuals before it, that the next annual must be.
pub(super) fn with_next_annual(clock: &Clock) -> bool {
    let next = |arm: &Arm| arm.unit == ANNUALS && arm.left == Some(1);
    !rules::words::is_work(&clock.inspection) && clock.arms.iter().any(next)
}

/// The same by her clocks as they were read already.
pub(super) fn coming_by(
    clocks: &[Clock],
    book: &Book,
    engine: LocomotiveId,
    on: Date,
    planned: Option<u32>,
) -> Coming {
    let mut coming = Coming {
        a_year: planned
            .map(|days| (days, "as planned".to_string()))
            .or_else(|| last_year(book, engine, on)),
        ..Coming::default()
    };
    for clock in clocks {
        let opens = clock.finding.is_none() && !rules::words::is_work(&clock.inspection);
        if !opens || clock.inspection == "daily" {
            continue;
        }
        let mut soonest: Option<(u32, String)> = None;
        let mut needs = Vec::new();
        for arm in &clock.arms {
            // What counts annuals comes with one of them.
            let days = matches!(arm.unit, "service days" | "calendar days");
            let (Some(left), true) = (arm.left, days) else {
                if let (Stands::CannotTell(arm), true) = (&arm.state, days) {
                    needs.extend(arm.iter().cloned());
                }
                continue;
            };
            let left = u32::try_from(left).unwrap_or(0);
            let found = match (arm.unit, &coming.a_year) {
                ("service days", _) => (left, format!("{left} service days left by its clock")),
                (_, Some((a_year, whose))) => {
                    let days = (u64::from(left) * u64::from(*a_year)).div_ceil(365);
                    let days = u32::try_from(days).unwrap_or(u32::MAX);
                    (
                        days,
                        format!("{left} calendar days left; {a_year} service days a year, {whose}"),
                    )
                }
                _ => {
                    needs.push(
                        "the service days she is to make in a year: none are planned, and the log of the last 365 days is not closed"
                            .into(),
                    );
                    continue;
                }
            };
            if soonest.as_ref().is_none_or(|(days, _)| found.0 < *days) {
                soonest = Some(found);
            }
        }
        needs.sort();
        needs.dedup();
        match soonest {
            Some((0, _)) if matches!(clock.state, Stands::CannotTell(_)) => coming
                .wanting
                .push(format!("{}: {}", clock.inspection, clock.why)),
            Some((0, _)) => coming
                .wanting
                .push(format!("{}: it is due now", clock.inspection)),
            Some((days, why)) if days <= 20_000 => coming.ahead.push(Ahead {
                what: clock.inspection.clone(),
                days,
                why,
            }),
            _ if needs.is_empty() => {}
            _ => coming
                .wanting
                .push(format!("{}: needs {}", clock.inspection, needs.join("; "))),
        }
    }
    // What comes with the next annual comes when that does.
    let annual = coming.ahead.iter().find(|it| it.what == ANNUAL).cloned();
    for clock in clocks.iter().filter(|clock| with_next_annual(clock)) {
        coming.ahead.extend(annual.clone().map(|annual| Ahead {
            what: clock.inspection.clone(),
            why: format!("with the next annual; {}", annual.why),
            ..annual
        }));
    }
    coming.ahead.sort_by_key(|ahead| ahead.days);
    coming.ahead.dedup_by(|one, other| one.what == other.what);
    coming
}

/// Miles she makes in a service day, by the 365 days before a day, where her fires were read and every one of them has its miles;
/// and how that was reckoned. Rounded up: more miles a day leave fewer days.
fn miles_a_day(book: &Book, engine: LocomotiveId, on: Date) -> Option<(String, String)> {
    let kept = book.locomotives.get(&engine)?;
    let (days, whose) = last_year(book, engine, on)?;
    let (_, through) = kept.log_closed.iter().rfind(|(_, through)| *through < on)?;
    let run = miles(book, engine, rules::days_after(*through, -364)?, *through)?.ok()?;
    let a_day = f64::from(run) / f64::from(days);
    (run > 0).then(|| {
        let text = show::number(a_day, 2, Rounding::Up);
        (text, format!("{run} miles in {days} service days, {whose}"))
    })
}

/// Service days of the 365 days before a day, if all of them stand in the closed log.
fn last_year(book: &Book, engine: LocomotiveId, on: Date) -> Option<(u32, String)> {
    let kept = book.locomotives.get(&engine)?;
    let (_, through) = kept.log_closed.iter().rfind(|(_, through)| *through < on)?;
    let from = rules::days_after(*through, -364)?;
    let come = stretch(book, engine, from, *through).ok()?;
    let days = own_service_days(book, engine, from, *through);
    let doubt = days.most.len() > days.least.len();
    (!doubt && come.days > 0).then(|| (come.days, format!("as in the year through {through}")))
}

/// What the book tells of a part's wear, in the shop's units where a bare number stands, printed in the reader's.
///
/// # Errors
/// Input: no such part, or what [`judge_as_it_is`] or [`due`] refuse.
pub fn wear(
    book: &Book,
    rules: &Rulebook,
    id: PartId,
    on: Date,
    reader: House,
    planned: Option<u32>,
) -> Result<Wear, Refusal> {
    let part = part_of(book, id)?;
    // No clock on file for her is no reason to hide what her parts tell.
    let coming = coming(book, rules, part.locomotive, on, planned).unwrap_or_else(|why| Coming {
        wanting: vec![why.to_string()],
        ..Coming::default()
    });
    wear_before(book, rules, id, on, reader, coming)
}

/// The same with what is coming already known: of one engine it is the same for every part.
pub(crate) fn wear_before(
    book: &Book,
    rules: &Rulebook,
    id: PartId,
    on: Date,
    reader: House,
    coming: Coming,
) -> Result<Wear, Refusal> {
    let part = part_of(book, id)?;
    let family = family(book, &part.family)?;
    let sets = book.readings.newest_first(id).unwrap_or_default();
    let judged = judge_as_it_is(book, rules, part, &sets, (on, house(book)))?;
    let other = mirror(book, id);
    let a_day = miles_a_day(book, part.locomotive, on);
    let mut wear = Wear {
        forecasts: Vec::new(),
        wanting: Vec::new(),
        coming,
    };
    for size in wearing(family) {
        let Some(now) = size.now(&sets) else {
            continue;
        };
        let openings = openings(book, id, part, size, &sets);
        if openings.is_empty() {
            wear.wanting.push(format!(
                "{}: no rate yet: it was left on {} and has not been found since",
                size.title, now.0
            ));
            continue;
        }
        let mut known = Known {
            size,
            openings: &openings,
            now,
            shop_limit: shop_limit(part, size.name),
            rule_limit: rule_limit(&judged, size),
            mirror_rate: None,
        };
        let beside = other.as_ref().and_then(|(id, other)| {
            let sets = book.readings.newest_first(*id)?;
            let openings = super::opening::openings(book, *id, other, size, &sets);
            let sheet = Known {
                size,
                openings: &openings,
                now: size.now(&sets)?,
                shop_limit: None,
                rule_limit: None,
                mirror_rate: None,
            }
            .work(None, reader)
            .ok()?;
            Some(Beside {
                part: other.name.clone(),
                sheet,
            })
        });
        known.mirror_rate = beside.as_ref().and_then(|beside| {
            let rate = quantity(&beside.sheet, "rate").filter(|rate| *rate > 0.0)?;
            let inches = measure::Unit::Inch.from_si(rate);
            let text = show::number(inches, 7, Rounding::Nearest);
            Some((format!("{text} in"), beside.part.clone()))
        });
        let worked = known.work(wear.coming.ahead.first(), reader);
        let sheet = match worked {
            Ok(sheet) => sheet,
            Err(why) => {
                wear.wanting.push(format!("{}: {why}", size.title));
                continue;
            }
        };
        // The sheet is that of the soonest; only the others are still to be worked.
        let ahead = wear.coming.ahead.iter().enumerate();
        let ahead = ahead.filter_map(|(at, it)| {
            let sheet = match at {
                0 => sheet.clone(),
                _ => known.work(Some(it), reader).ok()?,
            };
            Some((it.clone(), sheet))
        });
        let ahead = ahead.collect();
        let read = openings.iter().any(|opening| opening.miles.is_some());
        let by_miles = read.then(|| known.work_miles(a_day.as_ref(), reader).ok());
        wear.forecasts.push(Forecast {
            by_miles: by_miles.flatten(),
            name: size.name.to_string(),
            title: size.title.to_string(),
            larger: size.larger,
            now,
            shop_limit: known.shop_limit,
            ahead,
            rule_limit: known.rule_limit,
            openings,
            sheet,
            beside,
        });
    }
    // What meets a limit first stands first; what has none, last.
    wear.forecasts
        .sort_by(|one, other| one.nearest().total_cmp(&other.nearest()));
    Ok(wear)
}

impl Forecast {
    /// Service days to the limit it meets first, for the order of a page.
    fn nearest(&self) -> f64 {
        let days = ["days_to_rule_limit", "days_to_shop_limit"];
        let days = days.iter().filter_map(|name| quantity(&self.sheet, name));
        days.fold(f64::MAX, f64::min)
    }
}

/// A number of a sheet in SI, if it has one.
pub fn quantity(sheet: &Sheet, name: &str) -> Option<f64> {
    match sheet.result(name) {
        Some(Shown::Quantity { si, .. }) => *si,
        _ => None,
    }
}

/// A size as a sheet takes it.
pub(super) fn inches(size: Size) -> String {
    format!("{} in", show::decimal_in(size))
}

/// Our own limit of a size.
fn shop_limit(part: &Part, name: &str) -> Option<Size> {
    let text = part.features.get(name)?.shop_limit.as_deref()?;
    Size::parse(text).ok()
}

/// The strictest figure of law on the side to which a size wears, and its ruling.
fn rule_limit(judged: &Judgement, size: Wearing<'_>) -> Option<(Size, Box<Ruling>)> {
    let lines = judged
        .lines
        .iter()
        .filter(|line| line.law && line.of == size.name);
    let figures = lines.filter_map(|line| {
        let limit = line.held.as_ref()?;
        let figure = match (&limit.value, limit.compare, size.larger) {
            (LimitValue::Size(figure), rules::Compare::Max, true)
            | (LimitValue::Size(figure), rules::Compare::Min, false) => *figure,
            (LimitValue::SizeRange(_, most), _, true) => *most,
            (LimitValue::SizeRange(least, _), _, false) => *least,
            _ => return None,
        };
        Some((figure, Box::new(line.ruling.clone()?)))
    });
    match size.larger {
        true => figures.min_by_key(|(figure, _)| *figure),
        false => figures.max_by_key(|(figure, _)| *figure),
    }
}

/// What goes into one sheet.
struct Known<'k> {
    size: Wearing<'k>,
    openings: &'k [Opening],
    now: Reading,
    shop_limit: Option<Size>,
    rule_limit: Option<(Size, Box<Ruling>)>,
    /// The mirror's rate a service day, as its own sheet prints it, and whose it is.
    mirror_rate: Option<(String, String)>,
}

impl Known<'_> {
    /// What both sheets take: the way, the openings, the present reading and the limits; `divided` is the name of what each
    /// opening's wear is divided by, and that of each opening.
    fn given(&self, divided: &str, by: &dyn Fn(&Opening) -> Option<u32>, from: &str) -> Vec<Given> {
        let openings = &self.openings[self.openings.len().saturating_sub(MOST)..];
        let unknown = || "?".to_string();
        let list = |each: &dyn Fn(&Opening) -> Option<String>| {
            let all = openings.iter().map(|it| each(it).unwrap_or_else(unknown));
            all.collect::<Vec<_>>().join(", ")
        };
        let days = |told: &dyn Fn(&Opening) -> Option<Date>| {
            Basis::Reading(list(&|it| told(it).map(|day| day.to_string())))
        };
        let word = match self.size.larger {
            true => "larger",
            false => "smaller",
        };
        let (on, state, now) = self.now;
        let state = match state {
            State::AsLeft => "as left",
            State::AsFound => "as found",
        };
        let mut all = vec![
            given("wears", word.into(), Basis::Table("its family".into())),
            given(
                "as_left",
                list(&|it| it.left.map(|(_, size)| inches(size))),
                days(&|it| it.left.map(|(day, _)| day)),
            ),
            given(
                "as_found",
                list(&|it| Some(inches(it.found.1))),
                days(&|it| Some(it.found.0)),
            ),
            given(
                divided,
                list(&|it| by(it).map(|by| by.to_string())),
                Basis::Reading(from.into()),
            ),
            given(
                "present",
                inches(now),
                Basis::Reading(format!("{state} on {on}")),
            ),
        ];
        if let Some(limit) = self.shop_limit {
            let basis = Basis::Reading("our shop limit, as the part has it".into());
            all.push(given("shop_limit", inches(limit), basis));
        }
        if let Some((limit, ruling)) = &self.rule_limit {
            let basis = Basis::Ruling {
                rule: ruling.rule.clone(),
                version: format!("{}, {}", ruling.version, ruling.cite),
            };
            all.push(given("rule_limit", inches(*limit), basis));
        }
        all
    }

    fn work(&self, ahead: Option<&Ahead>, reader: House) -> Result<Sheet, physics::SheetError> {
        let counted = "the log and the papers that count her days";
        let mut all = self.given("days", &|it| it.days, counted);
        if let Some(ahead) = ahead {
            let basis = Basis::Reading(format!("{}: {}", ahead.what, ahead.why));
            all.push(given("days_ahead", ahead.days.to_string(), basis));
        }
        if let Some((rate, whose)) = &self.mirror_rate {
            let basis = Basis::Found(format!("the same sheet of the {whose}"));
            all.push(given("mirror_rate", rate.clone(), basis));
        }
        physics::run(SHEET, &all, reader)
    }

    fn work_miles(
        &self,
        a_day: Option<&(String, String)>,
        reader: House,
    ) -> Result<Sheet, physics::SheetError> {
        let run = |it: &Opening| it.miles.as_ref()?.as_ref().ok().copied();
        let mut all = self.given("miles", &run, "the log, every day with its miles");
        if let Some((miles, why)) = a_day {
            let basis = Basis::Reading(why.clone());
            all.push(given("miles_a_day", miles.clone(), basis));
        }
        physics::run(MILES_SHEET, &all, reader)
    }
}

fn given(name: &str, text: String, basis: Basis) -> Given {
    Given {
        name: name.into(),
        text,
        basis,
    }
}
