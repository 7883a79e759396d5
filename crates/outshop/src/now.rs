//! The only place in the house that asks what time it is.

use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;

use crate::Failure;

/// A zone by its name.
///
/// # Errors
/// If there is none of that name.
pub fn zone(name: &str) -> Result<TimeZone, Failure> {
    TimeZone::get(name).map_err(|_| Failure::Input(format!("`{name}` is not a time zone.")))
}

/// What tells the time: the machine, or a stated instant for tests and the demonstration.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Clock {
    /// The machine's clock.
    Machine,
    /// This local time of the book.
    Stated(DateTime),
}

impl Clock {
    /// The clock the process was started with: `OUTSHOP_NOW` if it is set.
    ///
    /// # Errors
    /// If `OUTSHOP_NOW` is no local time.
    pub fn of_process() -> Result<Clock, Failure> {
        match std::env::var("OUTSHOP_NOW") {
            Ok(text) if !text.trim().is_empty() => text.trim().parse().map(Clock::Stated).map_err(|_| {
                Failure::Input(format!("OUTSHOP_NOW is `{text}`; a local time such as 2026-05-02T09:00 was expected."))
            }),
            _ => Ok(Clock::Machine),
        }
    }

    /// The instant and the local day in a zone.
    ///
    /// # Errors
    /// If the zone is not known, or the stated time does not exist in it.
    #[allow(
        clippy::disallowed_methods,
        reason = "this is the one place that may ask the time"
    )]
    pub fn read(&self, zone: &str) -> Result<(Timestamp, Date), Failure> {
        let tz = self::zone(zone)?;
        match self {
            Clock::Machine => {
                let now = Timestamp::now();
                Ok((now, now.to_zoned_datetime(tz).date()))
            }
            Clock::Stated(local) => {
                let at = tz.to_ambiguous_timestamp(*local).compatible();
                let at =
                    at.map_err(|_| Failure::Input(format!("{local} is no time in {zone}.")))?;
                Ok((at, local.date()))
            }
        }
    }
}
