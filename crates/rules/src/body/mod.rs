//! What a rule says: one closed set of kinds, each with its own typed parameters.

mod clock;
mod formula;
mod limit;
mod paper;
mod table;
mod task;

use serde::Deserialize;

pub use clock::{
    Calendar, CalendarArm, Cautious, Count, CountArm, CountUnit, Definition, FactIs, FirstStart,
    OutOfUseCredit, WhicheverFirst,
};
pub use formula::{Fact, LimitFormula};
pub use limit::{AtValue, Compare, Limit, LimitValue, Outcome};
pub use paper::{Deadline, Filing, Keep, Retention, Side};
pub use table::{Axis, Bands, LimitTable, Place};
pub use task::Item;

/// The kinds a rule may be of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// What a word of the clocks means.
    Definition,
    /// Due after so many of something.
    Count,
    /// Due after a stretch of calendar time.
    Calendar,
    /// Due at the first of several arms.
    WhicheverFirst,
    /// A number a reading is held against.
    Limit,
    /// Numbers by one or two facts of the engine.
    LimitTable,
    /// A number worked from facts of the engine.
    LimitFormula,
    /// Something an inspection looks at.
    Item,
    /// A paper that goes somewhere by a day.
    Filing,
    /// A paper that is kept.
    Retention,
}

impl Kind {
    /// Every kind, with its word in the files.
    pub const ALL: [(Kind, &'static str); 10] = [
        (Kind::Definition, "definition"),
        (Kind::Count, "count"),
        (Kind::Calendar, "calendar"),
        (Kind::WhicheverFirst, "whichever-first"),
        (Kind::Limit, "limit"),
        (Kind::LimitTable, "limit-table"),
        (Kind::LimitFormula, "limit-formula"),
        (Kind::Item, "item"),
        (Kind::Filing, "filing"),
        (Kind::Retention, "retention"),
    ];

    /// The kind's word in the files.
    pub fn word(self) -> &'static str {
        Kind::ALL
            .iter()
            .find(|(k, _)| *k == self)
            .map_or("", |(_, w)| w)
    }

    /// The kind a word names.
    pub fn of(word: &str) -> Option<Kind> {
        Kind::ALL.iter().find(|(_, w)| *w == word).map(|(k, _)| *k)
    }
}

/// What one version of a rule says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Body {
    /// What a word of the clocks means.
    Definition(Definition),
    /// Due after so many of something.
    Count(Count),
    /// Due after a stretch of calendar time.
    Calendar(Calendar),
    /// Due at the first of several arms.
    WhicheverFirst(WhicheverFirst),
    /// A number a reading is held against.
    Limit(Limit),
    /// Numbers by one or two facts of the engine.
    LimitTable(LimitTable),
    /// A number worked from facts of the engine.
    LimitFormula(LimitFormula),
    /// Something an inspection looks at.
    Item(Item),
    /// A paper that goes somewhere by a day.
    Filing(Filing),
    /// A paper that is kept.
    Retention(Retention),
}

impl Body {
    /// The inspection or the work that a clock calls for; nothing where it is no clock.
    pub fn work(&self) -> Option<&str> {
        match self {
            Body::Count(it) => Some(&it.inspection),
            Body::Calendar(it) => Some(&it.inspection),
            Body::WhicheverFirst(it) => Some(&it.inspection),
            _ => None,
        }
    }

    /// What is measured and under which circumstances, of a limit of any kind.
    pub fn measures(&self) -> Option<(&str, &[String])> {
        match self {
            Body::Limit(it) => Some((&it.quantity, &it.when)),
            Body::LimitTable(it) => Some((&it.quantity, &it.when)),
            Body::LimitFormula(it) => Some((&it.quantity, &it.when)),
            _ => None,
        }
    }

    /// The kind this body is of.
    pub fn kind(&self) -> Kind {
        match self {
            Body::Definition(_) => Kind::Definition,
            Body::Count(_) => Kind::Count,
            Body::Calendar(_) => Kind::Calendar,
            Body::WhicheverFirst(_) => Kind::WhicheverFirst,
            Body::Limit(_) => Kind::Limit,
            Body::LimitTable(_) => Kind::LimitTable,
            Body::LimitFormula(_) => Kind::LimitFormula,
            Body::Item(_) => Kind::Item,
            Body::Filing(_) => Kind::Filing,
            Body::Retention(_) => Kind::Retention,
        }
    }
}
