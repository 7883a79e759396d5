//! The proposal for the driving tires on paper.

use paper::{Block, Form, FormPart};
use shop::locomotive::engine_of;
use shop::ruled::tires::{TireSet, TireWheel};

use super::held::Figures;
use super::hers::Hers;
use super::report::{noted, points};
use super::worksheet::{room, strings};
use crate::verb::tires::{Tires, picture};
use crate::words::{self, tires as say};
use crate::{Context, Failure};

pub(super) fn paper(context: &mut Context, asked: &Tires) -> Result<Form, Failure> {
    let rules = context.rules()?;
    let (book, id, set) = asked.set(context)?;
    let kept = engine_of(&book, id)?;
    let mut figures = Figures::of(&book, rules);
    for (rule, version) in &set.used {
        figures.add_version(rule, *version);
    }
    let mut parts = vec![FormPart::of(
        say::WHEELS,
        vec![
            points(say::stands(&set)),
            table(
                &set,
                vec![9, 4, 3, 4, 3, 3, 8],
                say::WHEEL_HEADS,
                say::wheel,
            ),
        ],
    )];
    if !set.missing.is_empty() {
        let missing = set.missing.iter().map(|it| words::sentence(it)).collect();
        parts.push(FormPart::of(say::MISSING, vec![points(missing)]));
    }
    let mut cut = vec![points(say::proposal(&set))];
    if set.wheels.iter().any(|it| !it.cut.is_empty()) {
        cut.push(table(&set, vec![9, 5, 5, 5, 5], say::CUT_HEADS, say::cut));
    }
    parts.push(FormPart::of(say::CUT, cut));
    parts.push(FormPart::of(say::LASTS, vec![points(say::lasts(&set))]));
    if let Some(tree) = picture(&set) {
        // A page of type knows no color of the text round a picture.
        let drawn = Block::Code {
            svg: tree.svg().replace("currentColor", "#000"),
            told: tree.told,
            wide: 150,
        };
        parts.push(noted(say::MOVES, say::ARROWS.into(), vec![drawn]));
    }
    if !set.notices.is_empty() {
        parts.push(FormPart::of(say::TO_SAY, vec![points(set.notices.clone())]));
    }
    parts.push(FormPart::on_one_page(
        say::SIGNED,
        vec![room(say::SIGN_BOXES, 13)],
    ));
    let hers = Hers {
        over: say::OVER,
        title: say::title(&kept.number),
        code: "tires",
        cautions: say::CAUTIONS,
        parts,
        figures,
    };
    hers.form(context, &book, kept)
}

fn table(
    set: &TireSet,
    shares: Vec<u32>,
    heads: &[&str],
    cells: fn(&TireWheel) -> Vec<String>,
) -> Block {
    let rows = set
        .wheels
        .iter()
        .map(|it| cells(it).into_iter().map(Some).collect());
    Block::Table {
        shares,
        heads: strings(heads),
        rows: rows.collect(),
    }
}
