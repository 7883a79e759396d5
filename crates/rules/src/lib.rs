//! What the law says, as data: dated, cited rules, and the lookup that answers "which words bound this work on
//! the day it was done". Knows no physics, no locomotive and no today.
//!
//! A rule is one file of `rulebook/`. Its versions follow one another without gap or overlap; a [`Ruling`] is
//! one version as it bound one day, and travels with the verdict it led to. Nothing here approves anything: the
//! law in force and the people who answer for it govern.

mod asked;
mod body;
mod cases;
mod error;
mod expression;
mod lint;
mod load;
mod near;
mod rule;
mod rows;
mod rulebook;
mod set;
mod source;
mod span;
mod told;
pub mod words;

pub use asked::Asked;
pub use body::{
    AtValue, Axis, Bands, Body, Calendar, CalendarArm, Cautious, Compare, Count, CountArm,
    CountUnit, Deadline, Definition, Fact, FactIs, Filing, FirstStart, Item, Keep, Kind, Limit,
    LimitFormula, LimitTable, LimitValue, OutOfUseCredit, Outcome, Place, Retention, Side,
    WhicheverFirst,
};
pub use cases::{Case, Near};
pub use error::RulebookError;
pub use lint::{Lint, lint};
pub use rows::{Coverage, Row, coverage, read_rows};
pub use rule::{Checked, Cite, Rule, Ruling, Version};
pub use rulebook::Rulebook;
pub use set::{Beside, Declared, Fault, Origin, RuleSet, beside, stricter};
pub use source::Source;
pub use span::{MonthEnd, Span, days_after};
