//! Every paper that the law asks of an engine, on one paper for the cab or the office.

use paper::{Block, Form, FormPart};
use shop::clock::{Duty, DutyOf, days_without_daily, duties};
use shop::locomotive::{Law, engine};

use super::about;
use super::held::Figures;
use super::worksheet::{code, facts, strings};
use crate::words::{self, duties as say, paper as papers};
use crate::{Context, Failure};

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let all = duties(&book, rules, id, on)?;
    let rulings: Vec<_> = all.iter().map(|duty| duty.ruling.clone()).collect();
    let about = about(context, &code(&kept.number), say::title(&kept.number))?;
    let mut parts: Vec<FormPart> = DutyOf::ALL
        .into_iter()
        .map(|of| FormPart::of(say::of(of), vec![table(&all, of)]))
        .collect();
    let no_daily = days_without_daily(&book, rules, id, on)?;
    let missing = say::missing(&book, kept, &no_daily, on);
    parts.push(FormPart::of(
        say::NOT_KNOWN,
        vec![Block::Points { all: missing }],
    ));
    let mut figures = Figures::of(&book, rules);
    figures.add_all(&rulings);
    parts.extend(figures.part());
    // It is no paper of one inspection.
    let facts = facts(&law, kept, None, &rulings, on)?;
    Ok(Form {
        close: false,
        about,
        over: say::OVER.into(),
        title: say::title(&kept.number),
        under: Some(words::engine(&kept.number)),
        shout: None,
        facts,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: Vec::new(),
        parts,
    })
}

fn table(all: &[Duty], of: DutyOf) -> Block {
    let rows: Vec<_> = all.iter().filter(|duty| duty.of == of).map(row).collect();
    if rows.is_empty() {
        return Block::Points {
            all: strings(&[say::NONE]),
        };
    }
    Block::Table {
        shares: vec![6, 6, 8, 7, 3],
        heads: strings(say::HEADS),
        rows,
    }
}

fn row(duty: &Duty) -> Vec<Option<String>> {
    vec![
        Some(words::sentence(&duty.what)),
        Some(say::places(&duty.places)),
        Some(duty.when.clone()),
        Some(say::stands(duty)),
        Some(duty.ruling.cite.section.clone()),
    ]
}
