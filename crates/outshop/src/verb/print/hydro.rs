//! The day of the hydrostatic test and of the steam test after it, on one sheet of paper: what is due and why, the pressures,
//! the gauges and their corrections, what is looked at under pressure, leaks by place, the outcome.

use paper::{Block, Fact, Form, FormPart};
use shop::locomotive::{Law, engine};

use super::about;
use super::held::Figures;
use super::report::{noted, points};
use super::worksheet::{code, facts, room, strings};
use crate::verb::test_day::{TestDay, item_text, test_day};
use crate::words::{self, hydro as say, paper as papers};
use crate::{Context, Failure};

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, house) = (context.on()?, context.rules()?, context.house());
    let book = context.book_of(number)?;
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let day = test_day(&book, rules, id, kept, on, house)?
        .ok_or_else(|| Failure::Input(say::none_asked(&kept.number)))?;
    let title = say::title(&kept.number);
    let about = about(
        context,
        &code(&format!("{}-hydro", kept.number)),
        title.clone(),
    )?;
    let mut figures = Figures::of(&book, rules);
    figures.add_all(&day.used);
    let of = Fact::of(papers::KIND, say::KIND);
    let mut heads = facts(&law, kept, Some(of), &day.used, on)?;
    heads.retain(|fact| fact.word != papers::LOG);
    let mut parts = vec![FormPart::of(say::WHY, vec![points(day.why.clone())])];
    parts.push(pressures(&day));
    parts.push(FormPart::on_one_page(
        say::GAUGES,
        vec![room(say::GAUGE_BOXES, 11)],
    ));
    parts.push(boxes(say::READ, None, say::READ_BOXES, say::READ_ROWS));
    let items = day.looked.iter().flat_map(|(_, all)| all).map(|ruling| {
        let asks = say::figure(item_text(ruling), &ruling.cite.section);
        vec![Some(asks), None, None, None]
    });
    parts.push(FormPart::of(
        say::LOOKED,
        vec![Block::Table {
            shares: vec![15, 3, 6, 3],
            heads: strings(say::ITEM_HEADS),
            rows: items.collect(),
        }],
    ));
    parts.push(boxes(
        say::LEAKS,
        Some(say::LEAKS_NOTE),
        say::LEAK_BOXES,
        say::LEAK_ROWS,
    ));
    parts.push(FormPart::on_one_page(
        say::OUTCOME,
        vec![room(say::OUTCOME_BOXES, 11)],
    ));
    // What this shop has not checked stands in the sentence over the cautions; its list would cost a second sheet.
    Ok(Form {
        about,
        over: say::OVER.into(),
        title,
        // The title names her; a line less keeps it to one sheet of paper.
        under: None,
        shout: None,
        facts: heads,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: strings(say::CAUTIONS),
        parts,
    })
}

/// The pressures and the figures that are held while water stands; those of an item stand with it.
fn pressures(day: &TestDay) -> FormPart {
    // The water by itself, and the two ends of the steam test in one row.
    let worked = day.pressures.split_at(day.pressures.len().min(1));
    let worked = [worked.0, worked.1].into_iter().filter(|of| !of.is_empty());
    let worked = worked.map(|of| {
        let what: Vec<String> = of.iter().map(|(what, _)| what.to_lowercase()).collect();
        let value: Vec<&str> = of.iter().map(|(_, value)| value.as_str()).collect();
        vec![
            Some(words::sentence(&what.join("; "))),
            Some(value.join("; ")),
        ]
    });
    let figures = day
        .figures
        .iter()
        .filter(|ruling| ruling.rule.contains(".hydrostatic."))
        .map(|ruling| {
            vec![
                Some(ruling.reading.clone()),
                Some(ruling.cite.section.clone()),
            ]
        });
    let table = Block::Table {
        shares: vec![20, 5],
        heads: strings(say::PRESSURE_HEADS),
        rows: worked.chain(figures).collect(),
    };
    let mut blocks = vec![table];
    if day.pressures.is_empty() {
        blocks.push(points(day.notices.clone()));
    }
    noted(say::PRESSURES, say::PRESSURES_NOTE.into(), blocks)
}

/// Rows of the same boxes, to be filled in with a pencil.
fn boxes(title: &str, note: Option<&str>, words: &[&str], rows: usize) -> FormPart {
    let one = strings(words);
    let room = Block::Room {
        rows: vec![one; rows],
        high: 11,
    };
    FormPart {
        note: note.map(str::to_owned),
        ..FormPart::of(title, vec![room])
    }
}
