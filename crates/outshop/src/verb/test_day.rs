//! The day of the hydrostatic test and of the steam test after it, gathered once for the page, the paper and the verb: what is
//! due and why, the pressures, the figures, what is looked at.

use std::collections::BTreeSet;

use jiff::civil::Date;
use physics::Shown;
use rules::{Body, Rulebook, Ruling, words as rulewords};
use serde_json::json;
use shop::book::{Book, Locomotive, LocomotiveId};
use shop::clock::due;
use shop::locomotive::{Law, engine};

use super::rule::said;
use super::ruled::{Asked, ENGINE};
use super::wrap;
use crate::words::{self, hydro as say};
use crate::{Answer, Context, Failure};

/// The worked sheets of the pressures, and of a gauge.
const SHEET: &str = "boiler.hydro";

/// The occasions of such a day, in their order (words of the rulebook).
const OCCASIONS: &[&str] = &["hydrostatic-over-mawp", "after-repair"];

/// The figures of the day, by the ends of their rules.
const LIMITS: &[&str] = &[
    "hydrostatic.pressure",
    "hydrostatic.metal-temperature",
    "hydrostatic.boiler-temperature",
    "staybolt.hammer-pressure",
    "staybolt.broken-count",
    "staybolt.broken-spacing",
    "steam-test.pressure",
];

/// Such a day.
#[derive(Debug, Clone)]
pub struct TestDay {
    /// Clocks whose inspections hold the test: each in a sentence.
    pub why: Vec<String>,
    /// What is looked at, by occasion.
    pub looked: Vec<(&'static str, Vec<Ruling>)>,
    /// The pressures, each with what it is.
    pub pressures: Vec<(String, String)>,
    /// What must be said of them, or why there are none.
    pub notices: Vec<String>,
    /// The law's figures.
    pub figures: Vec<Ruling>,
    /// Every ruling of the day.
    pub used: Vec<Ruling>,
}

impl TestDay {
    /// A figure in words: what we read, and its section.
    pub fn figure(ruling: &Ruling) -> String {
        format!("{}: {}", ruling.title, said(&ruling.body))
    }
}

/// The day of an engine; nothing where her rules ask for no such test.
///
/// # Errors
/// A set of her rules that does not read, a day before the rulebook's coverage.
pub fn test_day(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    kept: &Locomotive,
    on: Date,
    house: measure::House,
) -> Result<Option<TestDay>, Failure> {
    let in_force = Law::of(book, rules, kept).in_force(on)?;
    let looked: Vec<(&'static str, Vec<Ruling>)> = OCCASIONS
        .iter()
        .map(|occasion| (*occasion, of_occasion(&in_force, occasion)))
        .filter(|(_, all)| !all.is_empty())
        .collect();
    if looked
        .iter()
        .all(|(occasion, _)| Some(occasion) != OCCASIONS.first())
    {
        return Ok(None);
    }
    // Which inspections hold the test, and how their clocks stand.
    let holds: BTreeSet<&str> = in_force
        .iter()
        .filter_map(|ruling| match &ruling.body {
            Body::Item(item) if ruling.rule.ends_with(".hydrostatic") => Some(&item.inspections),
            _ => None,
        })
        .flatten()
        .map(String::as_str)
        .collect();
    let mut used: Vec<Ruling> = looked.iter().flat_map(|(_, all)| all.clone()).collect();
    let clocks = due(book, rules, id, on)?;
    let mut why = Vec::new();
    for clock in &clocks {
        let own =
            |own: &&str| clock.inspection == **own || rulewords::contains(&clock.inspection, own);
        if holds.iter().any(own) {
            used.push(clock.ruling.clone());
            why.push(say::clock(&clock.inspection, &clock.why));
        }
    }
    let figures: Vec<Ruling> = in_force
        .iter()
        .filter(|ruling| {
            LIMITS.iter().any(|end| ruling.rule.ends_with(end))
                && matches!(ruling.body, Body::Limit(_) | Body::LimitFormula(_))
        })
        .cloned()
        .collect();
    used.extend(figures.iter().cloned());
    let (mut pressures, mut notices) = (Vec::new(), Vec::new());
    match kept.mawp_psig {
        None => notices.push(say::NO_MAWP.into()),
        Some(mawp) => {
            let given = [
                (ENGINE.to_owned(), kept.number.clone()),
                ("mawp".to_owned(), format!("{mawp} psig")),
            ];
            let sheet = Asked::of(&given).worked(book, rules, SHEET, on, house)?;
            for result in &sheet.results {
                // How far each gauge hangs below the water is for a pen: that part is on the paper's boxes.
                if matches!(result.name, "head_pressure" | "at_gauge") {
                    continue;
                }
                let value = match &result.value {
                    Shown::Quantity { shown, unit, .. } => words::sheet::value(shown, unit),
                    Shown::Text(said) => said.clone(),
                    Shown::Table { .. } => String::new(),
                };
                pressures.push((words::sentence(result.meaning), value));
            }
            notices.extend(sheet.notices);
        }
    }
    Ok(Some(TestDay {
        why,
        looked,
        pressures,
        notices,
        figures,
        used,
    }))
}

/// The items of an occasion, in the order of the rulebook.
fn of_occasion(in_force: &[Ruling], occasion: &str) -> Vec<Ruling> {
    let mut all: Vec<(u32, Ruling)> = in_force
        .iter()
        .filter_map(|ruling| match &ruling.body {
            Body::Item(item) if item.occasion.as_deref() == Some(occasion) => {
                Some((item.order, ruling.clone()))
            }
            _ => None,
        })
        .collect();
    all.sort_by(|one, other| (one.0, &one.1.rule).cmp(&(other.0, &other.1.rule)));
    all.into_iter().map(|(_, ruling)| ruling).collect()
}

/// What an item asks.
pub fn item_text(ruling: &Ruling) -> &str {
    match &ruling.body {
        Body::Item(item) => &item.text,
        _ => &ruling.title,
    }
}

/// Shows the day of an engine.
///
/// # Errors
/// As [`test_day`]; input where her rules ask for no such test.
pub fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let (on, rules, house) = (context.on()?, context.rules()?, context.house());
    let book = context.book_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let day = test_day(&book, rules, id, kept, on, house)?
        .ok_or_else(|| Failure::Input(say::none_asked(&kept.number)))?;
    let mut text = format!("{}\n", say::title(&kept.number));
    let mut line = |indent: usize, said: &str| {
        text.push_str(&format!(
            "{}{}\n",
            " ".repeat(indent),
            wrap(said, indent, 118)
        ));
    };
    line(2, say::WHY);
    day.why.iter().for_each(|it| line(4, it));
    line(2, say::PRESSURES);
    for (what, value) in &day.pressures {
        line(4, &format!("{what}: {value}"));
    }
    day.notices.iter().for_each(|it| line(4, it));
    line(2, say::FIGURES);
    for ruling in &day.figures {
        line(
            4,
            &say::figure(&TestDay::figure(ruling), &ruling.cite.section),
        );
    }
    line(2, say::LOOKED);
    for ruling in day.looked.iter().flat_map(|(_, all)| all) {
        line(4, &say::figure(item_text(ruling), &ruling.cite.section));
    }
    say::CAUTIONS.iter().for_each(|it| line(2, it));
    let value = json!({
        "engine": kept.number, "due": day.why,
        "pressures": day.pressures.iter().map(|(what, value)| json!({ "what": what, "value": value })).collect::<Vec<_>>(),
        "figures": day.figures.iter().map(|it| json!({ "rule": it.rule, "section": it.cite.section, "says": TestDay::figure(it) })).collect::<Vec<_>>(),
        "looked_at": day.looked.iter().flat_map(|(_, all)| all).map(|it| json!({ "rule": it.rule, "section": it.cite.section, "text": item_text(it) })).collect::<Vec<_>>(),
        "notices": day.notices,
    });
    Ok(Answer::done(text, value))
}
