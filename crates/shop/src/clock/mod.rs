//! What is due, and why: service days counted from the log, clocks measured against the rulebook.
//!
//! Every count carries a least and a most. The least is what the log proves; the most adds what it
//! does not rule out: a bound nobody wrote down, days the log is not closed for, the day of the last
//! inspection itself. What is left is reckoned from the most, so that missing never helps.
//!
//! One file a kind of clock: [`due`] finds those that bind an engine and asks `count` (service days),
//! `calendar` (with `credit` for a diesel's days out of use), `annuals`, `first` (whichever comes first) or
//! `defect`. `view` knows every day a clock may run from; `line` is what comes out.

mod among;
mod annuals;
mod calendar;
mod count;
mod credit;
mod dailies;
mod defect;
mod due;
mod duties;
mod filing;
mod first;
mod line;
mod lines;
mod log;
mod paper_count;
mod service_day;
mod stated;
mod stretch;
mod view;

pub use annuals::UNIT as ANNUALS;
pub use credit::credit;
pub use dailies::days_without_daily;
pub use defect::{may_start, open_clock, runs_out};
pub use due::due;
pub use duties::{Duty, DutyOf, duties};
pub use filing::{
    Done, Kept, Paper, PaperState, file_paper, filings, filings_of, keeping, keeping_of,
};
pub use line::{Among, Anchor, Arm, Beside, Clock, Counted, State};
pub use lines::{Fate, LogLine, Unread, Weighed, weigh};
pub use log::{NewFire, close_log, log_day, log_fire, promise};
pub use paper_count::{Agreement, PaperCheck, count_paper, paper_checks};
pub use service_day::{Count, of_year, own_service_days, service_days};
pub(crate) use stated::admit_out_of_use;
pub use stated::{attest_out_of_use, has_a_log, state_day, state_fact};
pub use stretch::{Stretch, miles, stretch};
pub use view::span_of;
