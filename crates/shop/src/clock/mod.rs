//! What is due, and why: service days counted from the log, clocks measured against the rulebook.
//!
//! Every count carries a least and a most. The least is what the log proves; the most adds what it
//! does not rule out: a bound nobody wrote down, days the log is not closed for, the day of the last
//! inspection itself. What is left is reckoned from the most, so that missing never helps.

mod due;
mod log;
mod service_day;

pub use due::{Anchor, Clock, Counted, State, due};
pub use log::{NewFire, close_log, log_fire, promise};
pub use service_day::service_days;
