//! Days of the past that an entry made late throws another light on.

use jiff::civil::Date;

/// Over the days.
pub const STAYS: &str = "This entry is saved and stays. By it she was in steam on days past against what is known now; tell whoever answers for her:";

/// A day, and what stood against it.
pub fn ran(number: &str, day: Date, against: &[String]) -> String {
    format!(
        "{}, {}: {}",
        super::engine(number),
        super::day(day),
        against.join("; ")
    )
}
