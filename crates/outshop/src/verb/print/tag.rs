//! The tag of an engine that does not comply: what the book knows of her defects, and room for what a person decides.

use std::collections::BTreeSet;

use paper::{Block, Fact, Form, FormPart};
use shop::locomotive::{Law, engine};
use shop::report::{Stop, stops};

use super::about;
use super::worksheet::{code, room, strings};
use crate::verb::name;
use crate::words::{self, paper as say};
use crate::{Context, Failure};

/// The rules that speak of such a move, by the ends of their ids; the first is of the tag itself.
const RULES: [&str; 4] = [
    "move.tag",
    "move.decision",
    "move.notice",
    "movement.yard-speed",
];

/// How an open inspection is named among what stops her.
const INSPECTION: &str = "inspection ";

pub(super) fn paper(context: &mut Context, number: &str) -> Result<Form, Failure> {
    let (on, rules, book) = (context.on()?, context.rules()?, context.book()?);
    let (id, kept) = engine(&book, number)?;
    let law = Law::of(&book, rules, kept);
    let sets = law.sets(on)?;
    let tagged = |set: &&str| law.ruling(&format!("{set}.{}", RULES[0]), on).is_ok();
    let Some(set) = sets.iter().map(|bound| bound.set).find(tagged) else {
        let why = say::no_tag(&kept.number, &law.told_on(on));
        return Err(Failure::Input(why));
    };
    let rule = |end: &str| law.ruling(&format!("{set}.{end}"), on);
    // An open inspection keeps her in, but it is no defect of hers.
    let mut stopped = stops(&book, rules, id, on)?;
    stopped.retain(|s| {
        s.what
            .as_deref()
            .is_none_or(|what| !what.starts_with(INSPECTION))
    });
    let findings = book
        .findings
        .values()
        .filter(|f| f.locomotive == id && stopped.iter().any(|s| is_finding(s, f.number)));
    let people: BTreeSet<&str> = findings.map(|f| name(&book, f.found_by)).collect();
    let mut facts = Vec::new();
    if !people.is_empty() {
        let people: Vec<_> = people.into_iter().collect();
        facts.push(Fact::of(say::FOUND_BY, people.join(", ")));
    }
    let defects = if stopped.is_empty() {
        strings(&[say::NO_STOP])
    } else {
        stopped.iter().map(|s| say::stop(&s.why, s.from)).collect()
    };
    let decides = std::iter::once(say::DECIDED_NOTE.to_owned());
    let readings = RULES
        .iter()
        .filter_map(|end| rule(end).ok())
        .map(|ruling| say::reading(&ruling.reading, &ruling.cite.to_string()))
        .chain(decides)
        .collect();
    let about = about(context, &code(&kept.number), say::tag_title(&kept.number))?;
    let part = |title: &str, blocks| FormPart {
        title: title.into(),
        note: None,
        whole: true,
        blocks,
    };
    let decided = part(say::DECIDED, vec![room(say::DECIDED_BOXES, 15)]);
    let mut defect = part(
        say::DEFECT,
        vec![Block::Points { all: defects }, room(say::MORE_DEFECTS, 13)],
    );
    defect.whole = stopped.len() < 6;
    Ok(Form {
        about,
        over: say::TAG.into(),
        title: words::engine(&kept.number),
        under: Some(kept.wheels.clone()),
        shout: Some(say::NON_COMPLYING.into()),
        facts,
        governs: say::GOVERNS.into(),
        careful: say::CAUTIONS.into(),
        cautions: Vec::new(),
        parts: vec![
            part(say::INSPECTED, vec![room(say::INSPECTED_BOXES, 11)]),
            defect,
            part(say::LIMITS, vec![room(say::LIMIT_BOXES, 12)]),
            decided,
            part(say::BEFORE, vec![Block::Points { all: readings }]),
        ],
    })
}

/// Whether what stops her is the finding of this number: `finding F-003`.
fn is_finding(stop: &Stop, number: u32) -> bool {
    let what = format!("finding {}", words::tag::finding(number));
    stop.what.as_deref() == Some(what.as_str())
}
