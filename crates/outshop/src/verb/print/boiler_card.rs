//! The boiler card on paper: what each component would bear, on what it stood, and the fields of the law's card.

use paper::{Block, Form, FormPart};
use shop::locomotive::engine_of;
use shop::ruled::boiler::BoilerCard;

use super::held::Figures;
use super::hers::Hers;
use super::report::{noted, points};
use super::worksheet::{room, strings};
use crate::verb::boiler::{card_of, since};
use crate::words::{self, boiler as say};
use crate::{Context, Failure};
use shop::ruled::boiler::borne;

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let rules = context.rules()?;
    let (book, id, card) = card_of(context, number)?;
    let kept = engine_of(&book, id)?;
    let mut figures = Figures::of(&book, rules);
    for (rule, version) in &card.used {
        figures.add_version(rule, *version);
    }
    let head = format!(
        "{}: {}",
        words::sentence(card.held().word()),
        card.governs()
    );
    let mut parts = vec![FormPart::of(
        say::GOVERNS,
        vec![points(vec![
            head,
            say::set(card.set_psig),
            say::rules(&card.rules),
        ])],
    )];
    parts.push(FormPart::of(say::COMPONENTS, vec![lines(&card)]));
    let nothing = card.nothing_of.iter();
    let nothing = nothing.map(|(_, means)| say::nothing_of(means));
    let without = card.not_fitted.iter();
    let without = without.map(|(component, seen)| say::not_fitted(component, seen));
    for (title, said) in [
        (say::NOT_ENTERED, nothing.collect::<Vec<_>>()),
        (say::WITHOUT, without.collect()),
    ] {
        if !said.is_empty() {
            parts.push(FormPart::of(title, vec![points(said)]));
        }
    }
    parts.push(FormPart::of(
        say::LEVELS,
        vec![points(say::level(card.level.as_ref()))],
    ));
    parts.push(FormPart::of(say::SINCE, vec![points(since(&book, &card))]));
    let fields = card.fields.iter().map(|field| {
        let known = if field.read {
            say::READ_ON_FORM
        } else {
            say::FROM_MEMORY
        };
        // What is missing is room for a pencil.
        let has = field.has.is_some().then(|| say::has(field));
        vec![Some(words::sentence(field.asks)), has, Some(known.into())]
    });
    parts.push(FormPart::of(
        say::FIELDS,
        vec![Block::Table {
            shares: vec![7, 10, 5],
            heads: strings(say::FIELD_HEADS),
            rows: fields.collect(),
        }],
    ));
    parts.push(stood(&card));
    parts.push(FormPart::on_one_page(
        say::SIGNED_BY,
        vec![room(say::SIGN_BOXES, 13)],
    ));
    let hers = Hers {
        over: say::OVER,
        title: say::title(&kept.number),
        code: "boiler",
        cautions: say::CAUTIONS,
        parts,
        figures,
    };
    hers.form(context, &book, kept)
}

fn lines(card: &BoilerCard) -> Block {
    let rows = card.lines.iter().map(|line| {
        let missing = if line.missing.is_empty() {
            say::NOTHING.to_owned()
        } else {
            line.missing.join("; ")
        };
        vec![
            Some(line.component.clone()),
            Some(borne(line.bears)),
            Some(say::against(line, card.set_psig)),
            Some(missing),
        ]
    });
    let heads = [0, 1, 2, 4].map(|at| say::HEADS.get(at).copied().unwrap_or(""));
    Block::Table {
        shares: vec![6, 4, 8, 8],
        heads: strings(&heads),
        rows: rows.collect(),
    }
}

/// Every value that a pressure stood on, with where it came from.
fn stood(card: &BoilerCard) -> FormPart {
    let all = card
        .lines
        .iter()
        .filter(|line| !line.stood_on.is_empty())
        .map(|line| {
            let values = say::stood_on(&line.stood_on);
            format!(
                "{}. {}.",
                words::sentence(&line.component),
                values.join("; ")
            )
        });
    noted(
        say::WHAT_IT_STOOD_ON,
        say::rules(&card.rules),
        vec![points(all.collect())],
    )
}
