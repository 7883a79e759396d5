//! The day of the hydrostatic test and of the steam test after it: what is due and why, the pressures, the gauges and their
//! corrections, what is looked at under pressure, a list of leaks by place.

use std::collections::BTreeSet;

use paper::{Block, Fact, Form, FormPart};
use physics::Shown;
use rules::{Body, Ruling, words as rulewords};
use shop::clock::due;
use shop::locomotive::{Law, engine};

use super::about;
use super::held::Figures;
use super::report::{noted, points};
use super::worksheet::{Lists, code, facts, items, meaning, room, stated_by, strings};
use crate::verb::rule::said;
use crate::verb::ruled::{Asked, ENGINE};
use crate::words::{self, hydro as say, paper as papers};
use crate::{Context, Failure};

/// The worked sheet of the pressures.
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

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let in_force = law.in_force(on)?;
    let looked: Vec<(&str, Vec<Ruling>)> = OCCASIONS
        .iter()
        .map(|occasion| (*occasion, of_occasion(&in_force, occasion)))
        .filter(|(_, all)| !all.is_empty())
        .collect();
    if looked.iter().all(|(occasion, _)| *occasion != OCCASIONS[0]) {
        return Err(Failure::Input(say::none_asked(&kept.number)));
    }
    let title = say::title(&kept.number);
    let about = about(
        context,
        &code(&format!("{}-hydro", kept.number)),
        title.clone(),
    )?;
    let mut figures = Figures::of(&book, rules);
    let all: Vec<Ruling> = looked.iter().flat_map(|(_, all)| all.clone()).collect();
    figures.add_all(&all);
    let of = Fact::of(papers::KIND, say::KIND);
    let mut heads = facts(&law, kept, Some(of), &all, on)?;
    heads.retain(|fact| fact.word != papers::LOG);

    let missing = match kept.mawp_psig {
        Some(_) => say::NOTHING_MISSING,
        None => say::NO_MAWP,
    };
    let mut parts = vec![FormPart::of(
        papers::MISSING,
        vec![points(strings(&[missing]))],
    )];
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
    let clocks = due(&book, rules, id, on)?;
    let mut why: Vec<String> = clocks
        .iter()
        .filter(|clock| {
            holds
                .iter()
                .any(|own| clock.inspection == *own || rulewords::contains(&clock.inspection, own))
        })
        .map(|clock| {
            figures.add(&clock.ruling);
            say::clock(&clock.inspection, &clock.why)
        })
        .collect();
    why.extend(
        all.iter()
            .map(|ruling| format!("{} ({})", ruling.title, ruling.cite.section)),
    );
    parts.push(FormPart::of(say::WHY, vec![points(why)]));

    let limits = in_force.iter().filter(|ruling| {
        let end = LIMITS.iter().any(|end| ruling.rule.ends_with(end));
        end && matches!(ruling.body, Body::Limit(_) | Body::LimitFormula(_))
    });
    let rows: Vec<_> = limits
        .map(|ruling| {
            figures.add(ruling);
            vec![
                Some(format!("{}: {}", ruling.title, said(&ruling.body))),
                Some(ruling.reading.clone()),
                Some(ruling.cite.section.clone()),
            ]
        })
        .collect();
    parts.push(FormPart::of(
        say::FIGURES,
        vec![Block::Table {
            shares: vec![9, 13, 3],
            heads: strings(say::FIGURE_HEADS),
            rows,
        }],
    ));
    if let Some(mawp) = kept.mawp_psig {
        parts.push(pressures(context, &kept.number, mawp)?);
    }
    parts.push(FormPart::on_one_page(
        say::GAUGES,
        vec![room(say::GAUGE_BOXES, 12)],
    ));
    parts.push(blank(
        say::READ,
        None,
        vec![3, 4, 4, 8, 4, 4],
        say::READ_HEADS,
        say::READ_ROWS,
    ));

    let sets = law.sets(on)?;
    let who = stated_by(context, &book, id)?;
    let lists = Lists {
        law: Law::of(&book, rules, kept),
        kept,
        on,
        who: &who,
        listed: sets.iter().map(|bound| bound.set).collect(),
    };
    let mut at = 0;
    for (occasion, rulings) in &looked {
        let mut of_it = Vec::new();
        for ruling in rulings {
            if let Body::Item(item) = &ruling.body {
                at += 1;
                of_it.push(lists.item(at, &item.text, item, ruling)?);
            }
        }
        let told = meaning(rulewords::OCCASIONS, occasion);
        parts.push(items((say::asked(told), of_it)));
    }
    parts.push(blank(
        say::LEAKS,
        Some(say::LEAKS_NOTE),
        vec![8, 8, 3, 8],
        say::LEAK_HEADS,
        say::LEAK_ROWS,
    ));
    parts.push(FormPart::on_one_page(
        say::STEAM,
        vec![room(say::STEAM_BOXES, 13)],
    ));
    parts.push(FormPart::on_one_page(
        say::OUTCOME,
        vec![room(say::OUTCOME_BOXES, 13)],
    ));
    parts.extend(figures.part());
    Ok(Form {
        about,
        over: say::OVER.into(),
        title,
        under: Some(words::engine(&kept.number)),
        shout: None,
        facts: heads,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: strings(say::CAUTIONS),
        parts,
    })
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

/// The pressures of the day, worked by her law.
fn pressures(context: &mut Context, number: &str, mawp: u32) -> Result<FormPart, Failure> {
    let given = [
        (ENGINE.to_owned(), number.to_owned()),
        ("mawp".to_owned(), format!("{mawp} psig")),
    ];
    let sheet = Asked::of(&given).work(context, SHEET)?;
    let rows = sheet.results.iter().map(|result| {
        let value = match &result.value {
            Shown::Quantity { shown, unit, .. } => words::sheet::value(shown, unit),
            Shown::Text(said) => said.clone(),
            Shown::Table { .. } => String::new(),
        };
        vec![Some(words::sentence(result.meaning)), Some(value)]
    });
    let table = Block::Table {
        shares: vec![14, 9],
        heads: strings(say::PRESSURE_HEADS),
        rows: rows.collect(),
    };
    let mut blocks = vec![table];
    if !sheet.notices.is_empty() {
        blocks.push(points(sheet.notices.clone()));
    }
    Ok(noted(say::PRESSURES, say::PRESSURES_NOTE.into(), blocks))
}

/// A table with nothing in it but room for a pencil.
fn blank(
    title: &str,
    note: Option<&str>,
    shares: Vec<u32>,
    heads: &[&str],
    rows: usize,
) -> FormPart {
    let table = Block::Table {
        shares,
        heads: strings(heads),
        rows: vec![vec![None; heads.len()]; rows],
    };
    FormPart {
        note: note.map(str::to_owned),
        ..FormPart::of(title, vec![table])
    }
}
