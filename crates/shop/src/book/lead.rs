//! How long a thing takes to come, from the order to its standing in the shop: days that somebody said, no more than can be
//! meant, so that a slip of the pen is asked about and no calendar is run off its end.

use super::{Book, Part};
use crate::Refusal;

/// The fact that any part may have, of whatever family: how long one takes to come.
pub const LEAD_TIME: &str = "lead-time";

/// The longest that is taken for a lead time: five years and a half.
pub const MOST_LEAD_DAYS: u32 = 2000;

/// How long things take to come.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lead {
    /// Days.
    pub days: u32,
    /// Where that is from.
    pub from: String,
}

/// The lead time of a part: as somebody told it of the part, or else as its family in this book has it for all of its kind.
pub fn lead_of(book: &Book, part: &Part) -> Option<Lead> {
    if let Some(told) = part.facts.get(LEAD_TIME) {
        let said = part
            .said
            .iter()
            .rfind(|said| said.of.iter().any(|of| of == LEAD_TIME));
        let who = said.and_then(|said| Some((said, book.persons.get(&said.by)?)));
        let from = match who {
            None => format!("{told}, told when it was added"),
            Some((said, by)) => {
                let document = said.document.as_deref().map(|it| format!(": {it}"));
                let document = document.unwrap_or_default();
                format!("{told}, told by {} on {}{document}", by.name, said.on)
            }
        };
        let days = read_lead(told).ok()?;
        return Some(Lead { days, from });
    }
    let kept = book.families.get(&part.family)?;
    let told = kept.family().ok()?.lead_time.as_deref()?;
    let days = read_lead(told).ok()?;
    let from = format!(
        "{told}, as the family {} has it, version {} of this book",
        part.family, kept.version
    );
    Some(Lead { days, from })
}

/// Days of a lead time, if as many can be meant.
///
/// # Errors
/// Input: more than [`MOST_LEAD_DAYS`].
pub fn lead_days(days: u32) -> Result<u32, Refusal> {
    match days {
        0..=MOST_LEAD_DAYS => Ok(days),
        _ => Err(none(&format!("{days} days"))),
    }
}

/// Days of a lead time in weeks, if as many can be meant.
///
/// # Errors
/// As [`lead_days`].
pub fn lead_weeks(weeks: u32) -> Result<u32, Refusal> {
    let days = weeks.checked_mul(7).filter(|days| *days <= MOST_LEAD_DAYS);
    days.ok_or_else(|| none(&format!("{weeks} weeks")))
}

/// Days of a lead time as it was typed: `42`, `42 days`, `6 weeks`.
///
/// # Errors
/// Input: anything else, or as [`lead_days`].
pub fn read_lead(typed: &str) -> Result<u32, Refusal> {
    let mut words = typed.split_whitespace();
    let number = words.next().and_then(|word| word.parse::<u32>().ok());
    let unit = words.next();
    match (number, unit, words.next()) {
        (Some(days), None | Some("day" | "days"), None) => lead_days(days),
        (Some(weeks), Some("week" | "weeks"), None) => lead_weeks(weeks),
        _ => Err(none(typed.trim())),
    }
}

fn none(said: &str) -> Refusal {
    Refusal::input(format!(
        "`{said}` is no lead time: whole days or weeks were expected, such as 42 or `6 weeks`, and no more than {MOST_LEAD_DAYS} days."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_and_weeks_read_and_nothing_else_does() {
        assert_eq!(read_lead(" 42 ").ok(), Some(42));
        assert_eq!(read_lead("1 day").ok(), Some(1));
        assert_eq!(read_lead("6 weeks").ok(), Some(42));
        assert_eq!(read_lead("0").ok(), Some(0));
        assert_eq!(read_lead("2000 days").ok(), Some(2000));
        for none in [
            "",
            "-1",
            "soon",
            "6 months",
            "2001",
            "286 weeks",
            "4294967295",
            "4294967295 weeks",
            "99999999999999999999",
            "1.5",
            "6 weeks or so",
        ] {
            let why = read_lead(none).expect_err(none);
            assert!(why.what.contains("is no lead time"), "{none}: {}", why.what);
        }
    }
}
