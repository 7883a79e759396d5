//! Every paper that the law asks of one engine, on one list: what stands on her, what goes where by when, what is kept
//! how long. It is drawn from her rules alone, so that none is forgotten because nothing has called for it yet.

use jiff::civil::Date;
use rules::{Body, Deadline, Keep, Rulebook, Ruling, Side, Span, words};

use super::due::due;
use super::filing::{Paper, filings_of};
use crate::Refusal;
use crate::book::{Book, LocomotiveId};
use crate::locomotive::{Law, engine_of};

/// Which of three questions a duty answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DutyOf {
    /// What must stand in her cab or on herself.
    OnHer,
    /// What goes where by when.
    Goes,
    /// What is kept how long.
    Kept,
}

impl DutyOf {
    /// All of them, in the order they are told in.
    pub const ALL: [DutyOf; 3] = [DutyOf::OnHer, DutyOf::Goes, DutyOf::Kept];
}

/// One duty of paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Duty {
    /// Which question it answers.
    pub of: DutyOf,
    /// The rule.
    pub ruling: Ruling,
    /// The paper.
    pub what: String,
    /// Where it goes, or where it is kept.
    pub places: Vec<String>,
    /// By when, or how long.
    pub when: String,
    /// What the book says of it by now; empty where nothing in the book has called for it.
    pub stands: Vec<Paper>,
}

/// Where a paper that stands on the engine herself goes or is kept (words of the rulebook).
const ON_HER: &[&str] = &[
    "cab",
    "tied-to-the-engine",
    "control-stand",
    "isolation-switch",
    "backhead",
    "at-the-gauge",
    "part-or-cab-card",
];

/// Every duty of paper that binds an engine on a day, in the order of the three questions.
///
/// # Errors
/// Input: as [`due`].
pub fn duties(
    book: &Book,
    rules: &Rulebook,
    engine: LocomotiveId,
    on: Date,
) -> Result<Vec<Duty>, Refusal> {
    let kept = engine_of(book, engine)?;
    let clocks = due(book, rules, engine, on)?;
    let papers = filings_of(book, rules, engine, &clocks, on)?;
    let mut all = Vec::new();
    for ruling in Law::of(book, rules, kept).in_force(on)? {
        let (what, at, list, when, goes) = match &ruling.body {
            Body::Filing(it) => (&it.what, &it.to, words::RECIPIENTS, by_when(&it.when), true),
            Body::Retention(it) => (&it.what, &it.at, words::KEPT_AT, how_long(it.keep), false),
            _ => continue,
        };
        let on_her = at.iter().any(|place| ON_HER.contains(&place.as_str()));
        let of = match (on_her, goes) {
            (true, _) => DutyOf::OnHer,
            (false, true) => DutyOf::Goes,
            (false, false) => DutyOf::Kept,
        };
        let place = |word: &String| words::meaning(list, word).map_or(word.clone(), str::to_string);
        let stands = papers
            .iter()
            .filter(|paper| paper.ruling.rule == ruling.rule);
        all.push(Duty {
            of,
            what: what.clone(),
            places: at.iter().map(place).collect(),
            when,
            stands: stands.cloned().collect(),
            ruling,
        });
    }
    all.sort_by_key(|duty| duty.of);
    Ok(all)
}

fn span(span: Span) -> String {
    let (n, one) = match span {
        Span::Days(n) => (n, "day"),
        Span::Months(n, _) => (n, "month"),
        Span::Years(n, _) => (n, "year"),
    };
    let many = if n == 1 { "" } else { "s" };
    format!("{n} {one}{many}")
}

fn by_when(when: &Deadline) -> String {
    let of = words::meaning(words::EVENTS, &when.of).unwrap_or(&when.of);
    match (when.span, when.before_or_after) {
        (Some(it), Side::After) => format!("within {} of {of}", span(it)),
        (Some(it), Side::Before) => format!("at least {} before {of}", span(it)),
        (None, Side::After) => format!("after {of}; the text names no number of days"),
        (None, Side::Before) => format!("before {of}"),
    }
}

fn how_long(keep: Keep) -> String {
    match keep {
        Keep::Days(days) => format!("at least {days} days"),
        Keep::LifeOfBoiler => "for the life of the boiler".into(),
        Keep::WhileCurrent => "until the next one takes its place".into(),
        Keep::NoPeriodInText => {
            "the text names no period: nobody may say that it can be thrown away".into()
        }
    }
}
