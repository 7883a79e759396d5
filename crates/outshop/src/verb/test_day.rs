//! The day of the hydrostatic test and of the steam test after it, gathered once for the page, the paper and the verb: what is
//! due and why, the pressures, the gauges on file, what is held against which rule, where leaks are looked for, which papers
//! follow.

mod gauge;

use std::collections::BTreeSet;

use jiff::civil::Date;
use measure::Unit;
use physics::Shown;
use rules::{Body, Rulebook, Ruling, Side, words as rulewords};
use serde_json::{Value, json};
use shop::book::{Book, Locomotive, LocomotiveId};
use shop::clock::due;
use shop::locomotive::{Law, engine};

pub use gauge::{Gauge, must_show};

use super::rule::said;
use super::ruled::{Asked, ENGINE};
use super::wrap;
use crate::words::{self, hydro as say};
use crate::{Answer, Context, Failure};

/// The worked sheet of the pressures.
const SHEET: &str = "boiler.hydro";

/// What a gauge of hers is read in.
const PSI: Unit = Unit::Psi;

/// The occasions of such a day, in their order (words of the rulebook).
const OCCASIONS: &[&str] = &["hydrostatic-over-mawp", "after-repair"];

/// The occasion without which there is no such day.
const WATER: &str = "hydrostatic-over-mawp";

/// The pressures of the sheet, each with the end of the rule whose share it is.
const PRESSURES: &[(&str, &str)] = &[
    ("test_pressure", "hydrostatic.pressure"),
    ("steam_test_low", "steam-test.pressure"),
    ("steam_test_high", "steam-test.pressure"),
];

/// What is held against the law while water stands, by the ends of the rules, before anything is looked at.
const STANDS: &[&str] = &[
    "hydrostatic.boiler-temperature",
    "hydrostatic.metal-temperature",
    "hydrostatic.pressure",
];

/// A thing told, its figure, and the rule that asks it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What.
    pub what: String,
    /// Its figure, where it has one.
    pub value: Option<String>,
    /// The rule, where one asks it.
    pub rule: Option<String>,
    /// Its section.
    pub section: String,
}

impl Line {
    fn of(what: impl Into<String>, value: Option<String>, ruling: Option<&Ruling>) -> Line {
        Line {
            what: what.into(),
            value,
            rule: ruling.map(|it| it.rule.clone()),
            section: ruling.map_or(String::new(), |it| it.cite.section.clone()),
        }
    }

    /// All of it in a sentence, with its section.
    pub fn told(&self) -> String {
        let value = self.value.as_ref();
        let what = value.map_or(self.what.clone(), |value| format!("{}: {value}", self.what));
        if self.section.is_empty() {
            return what;
        }
        say::figure(&what, &self.section)
    }

    fn value(&self) -> Value {
        json!({ "what": self.what, "value": self.value, "rule": self.rule, "section": self.section })
    }
}

/// Such a day.
#[derive(Debug, Clone)]
pub struct TestDay {
    /// Clocks whose inspections hold the test, and what else asks for one.
    pub why: Vec<Line>,
    /// The pressures.
    pub pressures: Vec<Line>,
    /// What must be said of them, or why there are none.
    pub notices: Vec<String>,
    /// The gauges on file.
    pub gauges: Vec<Gauge>,
    /// What so much water adds at a gauge, where her pressure is known.
    pub ladder: Option<String>,
    /// What complies or fails, each with its rule, in the order of the day.
    pub judged: Vec<Line>,
    /// Where leaks are looked for: her boiler's components as entered, then what every boiler has.
    pub places: Vec<String>,
    /// Whether those are her own components.
    pub entered: bool,
    /// Papers that follow.
    pub papers: Vec<Line>,
    /// Every ruling of the day.
    pub used: Vec<Ruling>,
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
    let law = Law::of(book, rules, kept);
    let in_force = law.in_force(on)?;
    if of_occasion(&in_force, WATER).is_empty() {
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
    let mut used = Vec::new();
    let mut why = Vec::new();
    for clock in due(book, rules, id, on)? {
        let own =
            |own: &&str| clock.inspection == **own || rulewords::contains(&clock.inspection, own);
        if holds.iter().any(own) {
            let says = say::clock(&clock.inspection, &clock.why);
            why.push(Line::of(says, None, Some(&clock.ruling)));
            used.push(clock.ruling);
        }
    }
    // A test that a repair asks for waits for no clock.
    for ruling in by_end(&in_force, "boiler-work.hydrostatic") {
        why.push(Line::of(&ruling.reading, None, Some(&ruling)));
        used.push(ruling);
    }

    let (mut pressures, mut notices, mut test) = (Vec::new(), Vec::new(), None);
    match kept.mawp_psig {
        None => notices.push(say::NO_MAWP.into()),
        Some(mawp) => {
            let given = [
                (ENGINE.to_owned(), kept.number.clone()),
                ("mawp".to_owned(), say::psig(&mawp)),
            ];
            let sheet = Asked::of(&given).worked(book, rules, SHEET, on, house)?;
            for (name, end) in PRESSURES {
                let result = sheet.results.iter().find(|it| it.name == *name);
                let Some(result) = result else { continue };
                let value = match &result.value {
                    Shown::Quantity {
                        shown, unit, si, ..
                    } => {
                        if *name == "test_pressure" {
                            test = si.map(|si| PSI.from_si(si));
                        }
                        words::sheet::value(shown, unit)
                    }
                    Shown::Text(said) => said.clone(),
                    Shown::Table { .. } => String::new(),
                };
                let by = by_end(&in_force, end);
                let what = words::sentence(result.meaning);
                pressures.push(Line::of(what, Some(value), by.first()));
                used.extend(by);
            }
            notices.extend(sheet.notices);
        }
    }

    let mut judged = Vec::new();
    for ruling in STANDS.iter().flat_map(|end| by_end(&in_force, end)) {
        // Once its figure is worked, the pressure stands with that.
        let worked = pressures.iter().find(|line| {
            ruling.rule.ends_with("hydrostatic.pressure")
                && line.rule.as_deref() == Some(&ruling.rule)
        });
        judged.push(match worked {
            Some(line) => Line::of(&ruling.title, line.value.clone(), Some(&ruling)),
            None => figure(&ruling),
        });
        used.push(ruling);
    }
    // The inside is looked at when the water is out again: its item stands last among those of the water.
    let (inside, under): (Vec<Ruling>, Vec<Ruling>) = of_occasion(&in_force, WATER)
        .into_iter()
        .partition(|ruling| ruling.rule.ends_with(".interior"));
    let steamed = OCCASIONS
        .iter()
        .filter(|it| **it != WATER)
        .flat_map(|occasion| of_occasion(&in_force, occasion));
    for ruling in under.into_iter().chain(inside).chain(steamed) {
        judged.push(Line::of(item_text(&ruling), None, Some(&ruling)));
        let limits = match &ruling.body {
            Body::Item(item) => item.limits.clone(),
            _ => Vec::new(),
        };
        let from = judged.len();
        for limit in limits {
            let limit = law.ruling(&limit, on)?;
            let line = figure(&limit);
            // A steam test's pressure stands among the pressures, worked. Limits of one section are one line.
            let worked = pressures
                .iter()
                .any(|it: &Line| it.rule.as_ref() == Some(&limit.rule));
            let same = judged.iter_mut().skip(from);
            let same = same.filter(|it| it.section == line.section).last();
            match same {
                _ if worked => {}
                Some(same) => same.what.push_str(&format!("; {}", said(&limit.body))),
                None => judged.push(line),
            }
            used.push(limit);
        }
        used.push(ruling);
    }

    let papers = papers(&in_force, &holds, &mut used);
    let correcting = gauge::Correcting {
        book,
        rules,
        kept,
        on,
    };
    let hers = components(book, id);
    let entered = !hers.is_empty();
    let any = if entered { &[] } else { say::ANY_PLACES };
    let besides = any.iter().chain(say::PLACES).map(|it| (*it).to_owned());
    Ok(Some(TestDay {
        why,
        pressures,
        notices,
        gauges: correcting.gauges(id, test),
        ladder: correcting.ladder()?,
        judged,
        places: hers.into_iter().chain(besides).collect(),
        entered,
        papers,
        used,
    }))
}

/// The limits whose rules end so.
fn by_end(in_force: &[Ruling], end: &str) -> Vec<Ruling> {
    let ends = |ruling: &&Ruling| {
        let rest = ruling.rule.strip_suffix(end);
        rest.is_some_and(|rest| rest.ends_with('.'))
    };
    in_force.iter().filter(ends).cloned().collect()
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
fn item_text(ruling: &Ruling) -> &str {
    match &ruling.body {
        Body::Item(item) => &item.text,
        _ => &ruling.title,
    }
}

/// A figure of law as it is held: of what it is, and how much.
fn figure(ruling: &Ruling) -> Line {
    Line::of(words::sentence(&said(&ruling.body)), None, Some(ruling))
}

/// The papers of law that follow an inspection with such a test, and who signs them by the text.
fn papers(in_force: &[Ruling], holds: &BTreeSet<&str>, used: &mut Vec<Ruling>) -> Vec<Line> {
    let mut all = Vec::new();
    for ruling in in_force {
        let Body::Filing(filing) = &ruling.body else {
            continue;
        };
        let event = filing.when.of.trim_end_matches("-inspection");
        if filing.when.before_or_after != Side::After || !holds.contains(event) {
            continue;
        }
        let within = filing.when.span.map(|span| span.to_string());
        let told = say::filed(&filing.what, within.as_deref(), event, &filing.signed_by);
        all.push(Line::of(told, None, Some(ruling)));
        used.push(ruling.clone());
    }
    all
}

/// What of her boiler holds pressure, in the order entered; what is at one place stands together.
fn components(book: &Book, id: LocomotiveId) -> Vec<String> {
    let boiler = book.boilers.get(&id);
    let all = boiler.into_iter().flat_map(|boiler| &boiler.components);
    let pressed = all.filter(|it| {
        !matches!(
            it.kind.as_str(),
            "not-fitted" | "water-level" | "particulars"
        )
    });
    let mut places: Vec<(&str, String)> = Vec::new();
    for it in pressed {
        match places.iter_mut().find(|(place, _)| *place == it.place) {
            Some((_, names)) => names.push_str(&format!(", {}", it.name)),
            None => places.push((&it.place, it.name.clone())),
        }
    }
    places.into_iter().map(|(_, names)| names).collect()
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
    let mut part = |head: &str, lines: Vec<String>| {
        text.push_str(&format!("  {}\n", wrap(head, 2, 118)));
        for line in lines {
            text.push_str(&format!("    {}\n", wrap(&line, 4, 118)));
        }
    };
    let told = |lines: &[Line]| lines.iter().map(Line::told).collect::<Vec<_>>();
    part(say::WHY, told(&day.why));
    let mut pressures = told(&day.pressures);
    pressures.extend(day.notices.iter().cloned());
    part(say::PRESSURES, pressures);
    let mut gauges: Vec<_> = day.gauges.iter().map(say::gauge).collect();
    if gauges.is_empty() {
        gauges.push(say::NO_GAUGES.into());
    }
    gauges.extend(day.ladder.clone());
    part(say::GAUGES, gauges);
    part(say::JUDGED, told(&day.judged));
    part(say::LEAKS, vec![day.places.join("; ")]);
    let mut papers = told(&day.papers);
    papers.push(say::SIGNERS.into());
    part(say::PAPERS, papers);
    for caution in say::CAUTIONS {
        text.push_str(&format!("  {}\n", wrap(caution, 2, 118)));
    }
    let all = |lines: &[Line]| lines.iter().map(Line::value).collect::<Vec<_>>();
    let gauges = day.gauges.iter().map(|it| {
        let or = |told: &Result<String, String>| match told {
            Ok(says) => json!({ "says": says }),
            Err(needs) => json!({ "needs": needs }),
        };
        json!({ "what": it.what, "tried": it.tried, "error": or(&it.error), "head": or(&it.head), "must_show": or(&it.shows) })
    });
    let value = json!({
        "engine": kept.number, "due": all(&day.why), "pressures": all(&day.pressures),
        "gauges": gauges.collect::<Vec<_>>(), "held_against": all(&day.judged), "places": day.places,
        "papers": all(&day.papers), "notices": day.notices,
    });
    Ok(Answer::done(text, value))
}
