//! What a clock says: its arms, what each counted, how it stands, why, and what would change it.

use jiff::civil::Date;
use rules::Ruling;

/// What a clock runs from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Anchor {
    /// The kind of inspection held, the work done, or what happened.
    pub kind: String,
    /// The day it was completed, or the day somebody stated for it.
    pub on: Date,
    /// The first day that may be the one it runs from: earlier than `on` where an inspection took more than
    /// one day and nobody has stated which of them starts the clocks after it.
    pub earliest: Date,
    /// The document that says so, where it is known by paper.
    pub document: Option<String>,
    /// The number of the inspection, where it is in this book.
    pub inspection: Option<u32>,
    /// How the rule was read, where somebody stated the day.
    pub reading: Option<String>,
}

impl Anchor {
    /// Whether it is not known which day it runs from.
    pub fn in_doubt(&self) -> bool {
        self.earliest < self.on
    }
}

/// A count with what is proved and what is not ruled out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counted {
    /// Proved.
    pub least: u32,
    /// Not ruled out; missing where nothing bounds it.
    pub most: Option<u32>,
}

/// How a clock stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// It does not stop her on the day asked about.
    Runs,
    /// It stops her from this day on (the day asked about, or earlier).
    Stops,
    /// It may stop her; this is missing.
    CannotTell(Vec<String>),
    /// It is due on every day she is offered for use, and stops nothing ahead.
    EachDay,
}

impl State {
    /// 0 for what stops her, 1 for what may, 2 for the rest.
    pub(super) fn rank(&self) -> u8 {
        match self {
            State::Stops => 0,
            State::CannotTell(_) => 1,
            State::Runs | State::EachDay => 2,
        }
    }
}

/// One arm of a clock: one thing counted against one limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Arm {
    /// What it runs from, if the book knows.
    pub anchor: Option<Anchor>,
    /// What was counted.
    pub counted: Counted,
    /// The limit, in the same unit.
    pub limit: u32,
    /// The unit, as a shop says it.
    pub unit: &'static str,
    /// What is left by the most counted.
    pub left: Option<i64>,
    /// The first day it stops her: now, or at the promised run that would be one too many.
    pub stops_on: Option<Date>,
    /// How it stands.
    pub state: State,
    /// Why, in a sentence.
    pub why: String,
    /// The service days proved, newest last (service days only).
    pub days: Vec<Date>,
    /// What would change it, one line each.
    pub would_change: Vec<String>,
}

/// A day a careful shop keeps beside a count, because the text can be read two ways. It is not the law and
/// stops nothing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// The last day by that reading.
    pub last: Date,
    /// Why it is shown.
    pub why: String,
}

/// One clock of one engine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Clock {
    /// The ruling: rule, version, citation, mark, and its text as we read it.
    pub ruling: Ruling,
    /// The inspection or the work it calls for.
    pub inspection: String,
    /// The number of the finding that started it, where a finding did.
    pub finding: Option<u32>,
    /// What it runs from, if the book knows.
    pub anchor: Option<Anchor>,
    /// What was counted.
    pub counted: Counted,
    /// The limit, in the same unit.
    pub limit: u32,
    /// The unit, as a shop says it.
    pub unit: &'static str,
    /// What is left by the most counted.
    pub left: Option<i64>,
    /// The first day it stops her: now, or at the promised run that would be one too many.
    pub stops_on: Option<Date>,
    /// How it stands.
    pub state: State,
    /// Why, in a sentence.
    pub why: String,
    /// The service days proved, newest last (service-day clocks only).
    pub days: Vec<Date>,
    /// Each arm; the fields above are those of the one that comes first.
    pub arms: Vec<Arm>,
    /// A cautious day beside it, not the law.
    pub beside: Option<Beside>,
    /// What would change it, one line each.
    pub would_change: Vec<String>,
    /// How it stands among the clocks that several rule sets have for the same work.
    pub among: Among,
}

/// How a clock stands among those that several rule sets have for the same work. All of them bind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Among {
    /// No other set has a clock for this work.
    Alone,
    /// It comes first, before the clocks of these rules.
    First(Vec<String>),
    /// It comes on the same day as the first, the clock of this rule.
    Alike(String),
    /// The clock of this rule comes first.
    Behind(String),
    /// Which comes first hangs on the days she is steamed: these rules may.
    Open(Vec<String>),
}

impl Clock {
    /// A clock of one arm.
    pub(super) fn of(ruling: Ruling, inspection: String, arm: Arm) -> Clock {
        Clock {
            ruling,
            inspection,
            finding: None,
            anchor: arm.anchor.clone(),
            counted: arm.counted,
            limit: arm.limit,
            unit: arm.unit,
            left: arm.left,
            stops_on: arm.stops_on,
            state: arm.state.clone(),
            why: arm.why.clone(),
            days: arm.days.clone(),
            would_change: arm.would_change.clone(),
            beside: None,
            among: Among::Alone,
            arms: vec![arm],
        }
    }

    /// What must be done before she runs again, as a shop says it: `the 31 must be held`.
    pub fn must(&self) -> String {
        if !rules::words::is_work(&self.inspection) {
            return format!("the {} must be held", self.inspection);
        }
        let work = self.inspection.replace('-', " ");
        match self.finding {
            Some(number) => format!("the {work} of F-{number:03} must be done"),
            None => format!("the {work} must be done"),
        }
    }
}

/// Days from one day to a later one; none if it is not later.
pub(super) fn days_between(from: Date, to: Date) -> u32 {
    from.until(to)
        .ok()
        .and_then(|span| u32::try_from(span.get_days()).ok())
        .unwrap_or(0)
}

/// A length as a count.
pub(super) fn small(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// 32 -> `32nd`.
pub(super) fn ordinal(n: u32) -> String {
    let tail = match (n % 10, n % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{n}{tail}")
}
