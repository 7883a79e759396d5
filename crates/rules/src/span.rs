//! A stretch of calendar time, and the only place it is added to a date. Months and years always say what
//! happens when the month they reach is too short.

use jiff::civil::{Date, date};
use serde::Deserialize;

use crate::RulebookError;

/// What to do when a month is too short for the day counted to (31 January and one month; 29 February and a year).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum MonthEnd {
    /// Take the month's last day.
    #[serde(rename = "last day")]
    LastDay,
    /// Take the first day of the next month.
    #[serde(rename = "first of next")]
    FirstOfNext,
}

/// A stretch of calendar time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(try_from = "SpanText")]
pub enum Span {
    /// Calendar days.
    Days(u32),
    /// Calendar months, with the rule for short months.
    Months(u32, MonthEnd),
    /// Calendar years, with the rule for 29 February.
    Years(u32, MonthEnd),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SpanText {
    days: Option<u32>,
    months: Option<u32>,
    years: Option<u32>,
    month_end: Option<MonthEnd>,
}

impl TryFrom<SpanText> for Span {
    type Error = String;

    fn try_from(text: SpanText) -> Result<Self, String> {
        let span = match (text.days, text.months, text.years, text.month_end) {
            (Some(n), None, None, None) => Span::Days(n),
            (None, Some(n), None, Some(end)) => Span::Months(n, end),
            (None, None, Some(n), Some(end)) => Span::Years(n, end),
            (None, Some(_), None, None) | (None, None, Some(_), None) => {
                return Err("a span in months or years must say month_end = \"last day\" or \"first of next\"".into());
            }
            (Some(_), None, None, Some(_)) => return Err("a span in days has no month_end".into()),
            _ => return Err("a span says exactly one of days, months, years".into()),
        };
        match span {
            Span::Days(0) | Span::Months(0, _) | Span::Years(0, _) => {
                Err("a span of nothing is not a span".into())
            }
            kept => Ok(kept),
        }
    }
}

impl Span {
    /// The day this span after `from`. For `Days(n)`, `from` itself is day 0.
    ///
    /// # Errors
    /// When the day lies beyond the calendar (year 9999).
    pub fn after(self, from: Date) -> Result<Date, RulebookError> {
        self.shift(from, 1)
    }

    /// The day this span before `from`.
    ///
    /// # Errors
    /// When the day lies beyond the calendar.
    pub fn before(self, from: Date) -> Result<Date, RulebookError> {
        self.shift(from, -1)
    }

    fn shift(self, from: Date, sign: i64) -> Result<Date, RulebookError> {
        let beyond = || RulebookError::BeyondCalendar {
            span: self.to_string(),
            from,
        };
        let (months, end) = match self {
            Span::Days(n) => {
                let days = jiff::Span::new()
                    .try_days(sign * i64::from(n))
                    .map_err(|_| beyond())?;
                return from.checked_add(days).map_err(|_| beyond());
            }
            Span::Months(n, end) => (i64::from(n), end),
            Span::Years(n, end) => (i64::from(n) * 12, end),
        };
        let months = jiff::Span::new()
            .try_months(sign * months)
            .map_err(|_| beyond())?;
        let first = date(from.year(), from.month(), 1)
            .checked_add(months)
            .map_err(|_| beyond())?;
        if from.day() <= first.days_in_month() {
            return first
                .checked_add(
                    jiff::Span::new()
                        .try_days(from.day() - 1)
                        .map_err(|_| beyond())?,
                )
                .map_err(|_| beyond());
        }
        match end {
            MonthEnd::LastDay => Ok(first.last_of_month()),
            MonthEnd::FirstOfNext => first.last_of_month().tomorrow().map_err(|_| beyond()),
        }
    }
}

/// The day so many calendar days after another, before it where the number is less than nothing; nothing where no calendar
/// has that day. Numbers that people type come here, so that none of them ends the program.
pub fn days_after(from: Date, days: i64) -> Option<Date> {
    let days = jiff::Span::new().try_days(days).ok()?;
    from.checked_add(days).ok()
}

impl std::fmt::Display for Span {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (n, unit) = match self {
            Span::Days(n) => (n, "calendar day"),
            Span::Months(n, _) => (n, "month"),
            Span::Years(n, _) => (n, "year"),
        };
        write!(f, "{n} {unit}{}", if *n == 1 { "" } else { "s" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_months_follow_the_rule_they_name() {
        let leap = date(2008, 2, 29);
        assert_eq!(
            Span::Years(15, MonthEnd::LastDay).after(leap),
            Ok(date(2023, 2, 28))
        );
        assert_eq!(
            Span::Years(15, MonthEnd::FirstOfNext).after(leap),
            Ok(date(2023, 3, 1))
        );
        assert_eq!(
            Span::Months(1, MonthEnd::LastDay).before(date(2026, 3, 31)),
            Ok(date(2026, 2, 28))
        );
        assert_eq!(
            Span::Months(1, MonthEnd::LastDay).after(date(2026, 1, 15)),
            Ok(date(2026, 2, 15))
        );
        assert_eq!(
            Span::Months(11, MonthEnd::LastDay).after(date(2026, 1, 31)),
            Ok(date(2026, 12, 31))
        );
        assert_eq!(
            Span::Days(368).after(date(2023, 3, 1)),
            Ok(date(2024, 3, 3))
        );
    }

    #[test]
    fn the_end_of_the_calendar_is_a_sentence_not_a_crash() {
        for span in [
            Span::Days(u32::MAX),
            Span::Years(u32::MAX, MonthEnd::LastDay),
            Span::Years(9000, MonthEnd::LastDay),
        ] {
            let said = span.after(date(2026, 1, 1)).map_err(|e| e.to_string());
            assert!(
                said.is_err_and(|s| s.contains("beyond the calendar")),
                "{span}"
            );
        }
    }
}
