//! The tag of an engine that does not comply: what the book knows of her defects, what was decided of her move, and
//! room for what a person decides by hand.
//!
//! It hangs on the engine: all that is signed stands on its first page, so long lists of defects go on behind it.

use std::collections::BTreeSet;

use paper::{Block, Fact, Form, FormPart};
use shop::book::{Book, Movement};
use shop::clock::{State, due};
use shop::locomotive::{Law, engine};
use shop::report::{Stop, stops};

use super::about;
use super::held::Figures;
use super::worksheet::{code, room, strings};
use crate::verb::name;
use crate::words::{self, moved, paper as say};
use crate::{Context, Failure};

/// The rules that speak of such a move, by the ends of their ids; the first is of the tag itself.
const RULES: [&str; 4] = [
    "move.tag",
    "move.decision",
    "move.notice",
    "movement.yard-speed",
];

/// As much is said of defects on the first page, in letters; what is more goes behind.
const IN_FRONT: usize = 420;

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
    stopped.retain(|s| !s.is_inspection());
    let moving = kept.on_the_move();
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
    let all: Vec<String> = match (stopped.as_slice(), moving) {
        ([], None) => strings(&[say::NO_STOP]),
        ([], Some(made)) => made
            .decided
            .defects
            .iter()
            .map(|it| words::sentence(it))
            .collect(),
        (stopped, _) => stopped.iter().map(|s| say::stop(&s.why, s.from)).collect(),
    };
    let (front, behind) = parted(&all);
    let mut figures = Figures::of(&book, rules);
    let rulings: Vec<_> = RULES.iter().filter_map(|end| rule(end).ok()).collect();
    figures.add_all(&rulings);
    for clock in due(&book, rules, id, on)? {
        if matches!(clock.state, State::Stops | State::CannotTell(_)) {
            figures.add(&clock.ruling);
        }
    }
    let decides = std::iter::once(say::DECIDED_NOTE.to_owned());
    let editions: BTreeSet<String> = rulings.iter().map(|r| r.cite.to_string()).collect();
    facts.push(Fact::of(
        say::LAW,
        editions.into_iter().collect::<Vec<_>>().join("; "),
    ));
    let readings = rulings
        .iter()
        .map(|ruling| say::reading(&ruling.reading, &ruling.cite.to_string()))
        .chain(decides)
        .collect();
    let about = about(context, &code(&kept.number), say::tag_title(&kept.number))?;
    let mut parts = vec![
        FormPart::on_one_page(say::INSPECTED, vec![inspected(moving)]),
        FormPart::on_one_page(
            say::DEFECT,
            vec![Block::Points { all: front }, room(say::MORE_DEFECTS, 11)],
        ),
        FormPart::on_one_page(say::LIMITS, vec![limits(&book, moving)]),
        FormPart::on_one_page(say::DECIDED, decided(&book, moving)),
    ];
    if !behind.is_empty() {
        parts.push(FormPart::of(
            say::DEFECT_ON,
            vec![Block::Points { all: behind }],
        ));
    }
    let missing = missing(moving);
    if !missing.is_empty() {
        parts.push(FormPart::on_one_page(
            say::NOT_FILLED,
            vec![Block::Points { all: missing }],
        ));
    }
    parts.push(FormPart::on_one_page(
        say::BEFORE,
        vec![Block::Points { all: readings }],
    ));
    parts.extend(figures.part());
    Ok(Form {
        close: false,
        about,
        over: say::TAG.into(),
        title: words::engine(&kept.number),
        under: Some(kept.wheels.clone()),
        shout: Some(say::NON_COMPLYING.into()),
        facts,
        governs: figures.governs(),
        careful: say::CAUTIONS.into(),
        cautions: Vec::new(),
        parts,
    })
}

/// What stands in front, and the whole list behind it where that is longer: a defect is never cut in the middle.
fn parted(all: &[String]) -> (Vec<String>, Vec<String>) {
    let mut letters = 0;
    let front: Vec<String> = all
        .iter()
        .take_while(|one| {
            // Each begins a line of its own.
            letters += one.chars().count().max(90);
            letters <= IN_FRONT
        })
        .cloned()
        .collect();
    match all.len() - front.len() {
        0 => (front, Vec::new()),
        more => {
            let mut front = front;
            front.push(say::overleaf(more, all.len()));
            (front, all.to_vec())
        }
    }
}

fn inspected(moving: Option<&Movement>) -> Block {
    match moving.and_then(|made| made.decided.inspected.as_ref()) {
        Some(it) => Block::Facts {
            all: vec![Fact::of(
                say::INSPECTED_SHORT,
                moved::inspected(&it.who, &it.place, it.on),
            )],
        },
        None => room(say::INSPECTED_BOXES, 11),
    }
}

fn limits(book: &Book, moving: Option<&Movement>) -> Block {
    let Some(made) = moving else {
        return room(say::LIMIT_BOXES, 12);
    };
    let it = &made.decided;
    let mut all = vec![
        Fact::of(say::THE_MOVE, moved::under(&it.under)),
        Fact::of(moved::HOW_SHE_GOES, moved::how(it.how)),
        Fact::of(moved::FROM, it.from.clone()),
        Fact::of(moved::TO, it.to.clone()),
        Fact::of(say::TOP_SPEED, say::mph(it.top_mph)),
        Fact::of(moved::LIMITS, it.limits.clone()),
    ];
    if let shop::book::MoveUnder::SpecialNotice { finding, allows } = &it.under {
        let number = book.findings.get(finding).map_or(0, |f| f.number);
        let tag = words::tag::finding(number);
        all.push(Fact::of(moved::ALLOWS, moved::allows(&tag, allows)));
    }
    if let Some(told) = &it.told {
        all.push(Fact::of(moved::TOLD, told.clone()));
    }
    Block::Facts { all }
}

fn decided(book: &Book, moving: Option<&Movement>) -> Vec<Block> {
    let said = moving.map(|made| Block::Facts {
        all: vec![Fact::of(
            say::DECIDED_BY,
            say::by(made.on, name(book, made.by)),
        )],
    });
    let signs = room(say::DECIDED_BOXES, 15);
    said.into_iter().chain([signs]).collect()
}

/// What the tag asks and nothing in the book fills.
fn missing(moving: Option<&Movement>) -> Vec<String> {
    match moving {
        None => strings(&[say::NO_MOVE]),
        Some(made) if made.decided.inspected.is_none() => strings(&[say::NO_INSPECTION]),
        Some(_) => Vec::new(),
    }
}

/// Whether what stops her is the finding of this number: `finding F-003`.
fn is_finding(stop: &Stop, number: u32) -> bool {
    let what = format!("finding {}", words::tag::finding(number));
    stop.what.as_deref() == Some(what.as_str())
}
