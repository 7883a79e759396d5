//! What to have ready before an opening, on paper for the office wall.

use paper::{Block, Form, FormPart};
use shop::locomotive::{Law, engine};
use shop::route::before;

use super::about;
use super::held::Figures;
use super::worksheet::{code, facts, strings};
use crate::words::{self, before as say, paper as papers};
use crate::{Context, Failure};

pub(super) fn paper(
    context: &mut Context,
    number: &str,
    kind: &str,
    lead: Option<u32>,
) -> Result<Form, Failure> {
    let (on, rules, book, house) = (
        context.on()?,
        context.rules()?,
        context.book_with_all_readings_of(number)?,
        context.house(),
    );
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let told = before(&book, rules, (id, kind), lead, on, house)?;
    let title = say::title(&kept.number, kind);
    let about = about(context, &code(&kept.number), title.clone())?;
    let rows: Vec<Vec<Option<String>>> = told
        .likely
        .iter()
        .map(|it| {
            vec![
                Some(it.name.clone()),
                Some(say::chance(it)),
                Some(say::from(it).join("; ")),
                Some(say::hours(it)),
                Some(match say::own_lead(it) {
                    None => say::order_by(it, on),
                    Some(own) => format!("{}; {own}", say::order_by(it, on)),
                }),
                None,
            ]
        })
        .collect();
    let mut heads = strings(&say::HEADS);
    heads.push(say::DONE.into());
    let list = match rows.is_empty() {
        true => Block::Points {
            all: strings(&[say::NOTHING]),
        },
        false => Block::Table {
            shares: vec![6, 4, 9, 4, 5, 4],
            heads,
            rows,
        },
    };
    let mut parts = vec![
        FormPart {
            note: Some(say::lead(&told)),
            ..FormPart::of(say::LIKELY, vec![list])
        },
        FormPart::of(
            say::WHOLE,
            vec![Block::Points {
                all: vec![say::whole(&told)],
            }],
        ),
    ];
    if !told.wanting.is_empty() {
        let all = told
            .wanting
            .iter()
            .map(|why| words::sentence(why))
            .collect();
        parts.push(FormPart::of(say::NOT_KNOWN, vec![Block::Points { all }]));
    }
    let figures = Figures::of(&book, rules);
    Ok(Form {
        close: false,
        about,
        over: say::OVER.into(),
        title,
        under: Some(words::engine(&kept.number)),
        shout: None,
        facts: facts(&law, kept, None, &[], on)?,
        governs: figures.governs(),
        careful: papers::CAUTIONS.into(),
        cautions: told
            .whole
            .cautions
            .iter()
            .map(ToString::to_string)
            .collect(),
        parts: {
            parts.insert(
                0,
                FormPart::of(
                    say::WHEN,
                    vec![Block::Points {
                        all: vec![say::when(&told), say::MEANS.into()],
                    }],
                ),
            );
            parts
        },
    })
}
