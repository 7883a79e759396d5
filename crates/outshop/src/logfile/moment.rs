//! Days and times as a log writes them. An order of day and month that nobody stated is never guessed.

use clap::ValueEnum;
use jiff::civil::{Date, DateTime, Time, date};
use serde::Deserialize;

use super::Cell;

/// In which order day and month stand before the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Order {
    /// 2/5/2026 is 2 May.
    DayMonth,
    /// 5/2/2026 is 2 May.
    MonthDay,
}

const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// A day from a cell.
///
/// # Errors
/// Why it is none, as the rest of a sentence after the cell's name.
pub fn day(cell: &Cell, order: Option<Order>) -> Result<Option<Date>, String> {
    match cell {
        Cell::Empty => Ok(None),
        Cell::Text(text) => day_of_text(text, order).map(Some),
        Cell::Serial { length: true, .. } => Err("holds a length of time and no day".into()),
        Cell::Serial {
            value, since_1904, ..
        } => {
            let at = of_serial(*value, *since_1904)?;
            if at.time() != Time::midnight() {
                return Err(format!(
                    "holds a time beside the day, {at}: the day alone was expected"
                ));
            }
            Ok(Some(at.date()))
        }
        Cell::Number(number) => Err(bare(*number, "day")),
        Cell::YesNo(_) => Err("holds yes or no and no day".into()),
        Cell::Wrong(why) => Err(why.clone()),
    }
}

/// A moment from a cell: a time of the day the line is of, or a whole day and time.
///
/// # Errors
/// Why it is none, as the rest of a sentence after the cell's name.
pub fn moment(
    cell: &Cell,
    order: Option<Order>,
    of: Option<Date>,
) -> Result<Option<DateTime>, String> {
    match cell {
        Cell::Empty => Ok(None),
        Cell::Text(text) => moment_of_text(text, order, of).map(Some),
        Cell::Serial { value, length: true, .. } if *value >= 1.0 => Err(
            "holds a length of time of a day or more: write the day too, or the time and `next day`".into(),
        ),
        // A part of a day alone is a time.
        Cell::Serial { value, .. } if (0.0..1.0).contains(value) => {
            let of = of.ok_or("holds a time, and the line has no day for it")?;
            Ok(Some(after(of, seconds(*value))?))
        }
        Cell::Serial { value, since_1904, .. } => of_serial(*value, *since_1904).map(Some),
        Cell::Number(number) => Err(bare(*number, "time")),
        Cell::YesNo(_) => Err("holds yes or no and no time".into()),
        Cell::Wrong(why) => Err(why.clone()),
    }
}

fn bare(number: f64, what: &str) -> String {
    format!("holds the bare number {number} and no {what}: give the cell the form of a {what}")
}

/// The seconds of a part of a day. A workbook keeps times as fractions that are seldom exact; the nearest second
/// is what was written.
fn seconds(days: f64) -> i64 {
    #[allow(
        clippy::cast_possible_truncation,
        reason = "the callers bound it to some millennia"
    )]
    let whole = (days * 86_400.0).round() as i64;
    whole
}

fn after(day: Date, seconds: i64) -> Result<DateTime, String> {
    let outside = |_| "holds a moment outside the calendar".to_string();
    let seconds = jiff::Span::new().try_seconds(seconds).map_err(outside)?;
    day.at(0, 0, 0, 0).checked_add(seconds).map_err(outside)
}

/// The moment of a workbook's serial number. In the one system 1 is 1 January 1900, and 60 a 29 February 1900
/// that never was, so that 61 is 1 March; in the other 0 is 1 January 1904.
fn of_serial(value: f64, since_1904: bool) -> Result<DateTime, String> {
    if !(0.0..3_000_000.0).contains(&value) {
        return Err(format!("holds {value} as a day, which no calendar has"));
    }
    let zero = if since_1904 {
        date(1904, 1, 1)
    } else if value < 61.0 {
        return Err(
            "holds a day of January or February 1900, which is what a bare number or a time looks like: a day of the log was expected"
                .into(),
        );
    } else {
        date(1899, 12, 30)
    };
    after(zero, seconds(value))
}

/// A day as written.
fn day_of_text(text: &str, order: Option<Order>) -> Result<Date, String> {
    let written = text.trim();
    let none = || {
        format!(
            "holds `{written}`, which is no day: YYYY-MM-DD was expected, such as 2026-05-02, or a day with the month's name"
        )
    };
    let parts: Vec<&str> = written
        .split(['-', '/', '.', ' ', ','])
        .filter(|part| !part.is_empty())
        .collect();
    let [first, second, third] = parts.as_slice() else {
        return Err(none());
    };
    let number = |part: &str| -> Option<i16> {
        (part.len() <= 4 && part.bytes().all(|b| b.is_ascii_digit())).then(|| part.parse().ok())?
    };
    let make = |year: &str, month: i16, day: &str| -> Result<Date, String> {
        let year = number(year).filter(|_| year.len() == 4);
        let (Some(year), Some(day)) = (year, number(day)) else {
            return Err(none());
        };
        let (month, day) = (
            i8::try_from(month).unwrap_or(0),
            i8::try_from(day).unwrap_or(0),
        );
        Date::new(year, month, day).map_err(|_| format!("holds `{written}`, which no calendar has"))
    };
    if first.len() == 4 {
        return make(first, number(second).ok_or_else(none)?, third);
    }
    if third.len() != 4 {
        return Err(if number(third).is_some() {
            format!("holds `{written}`: the year was expected in four digits")
        } else {
            none()
        });
    }
    match (month_of(first), month_of(second)) {
        (None, Some(month)) => return make(third, month, first),
        (Some(month), None) => return make(third, month, second),
        _ => {}
    }
    let (Some(one), Some(two)) = (number(first), number(second)) else {
        return Err(none());
    };
    match order {
        Some(Order::DayMonth) => make(third, two, first),
        Some(Order::MonthDay) => make(third, one, second),
        None => Err(format!(
            "holds `{written}`, and nobody said whether the day or the month stands first: state the order of the file's days, or \
             write YYYY-MM-DD"
        )),
    }
}

/// The month of a name, whole or its first three letters.
fn month_of(word: &str) -> Option<i16> {
    let word = word.to_ascii_lowercase();
    let at = MONTHS
        .iter()
        .position(|month| *month == word || (word.len() == 3 && month.starts_with(&word)))?;
    i16::try_from(at + 1).ok()
}

/// A time as written, alone or after its day.
fn moment_of_text(text: &str, order: Option<Order>, of: Option<Date>) -> Result<DateTime, String> {
    let written = text.trim();
    let none = || {
        format!(
            "holds `{written}`, which is no time: an hour such as 06:30 was expected, or a day and an hour"
        )
    };
    let lower = written.to_ascii_lowercase();
    let (lower, next_day) = match lower.strip_suffix("next day") {
        Some(rest) => (rest.trim_end().to_string(), true),
        None => (lower, false),
    };
    let half = [("am", 0), ("a.m.", 0), ("pm", 12), ("p.m.", 12)]
        .iter()
        .find_map(|(word, hours)| Some((lower.strip_suffix(word)?.trim_end().to_string(), *hours)));
    let (rest, half) = match half {
        Some((rest, hours)) => (rest, Some(hours)),
        None => (lower, None),
    };
    let begins = rest
        .rfind(|c: char| !c.is_ascii_digit() && c != ':')
        .map_or(0, |at| {
            at + rest[at..].chars().next().map_or(1, char::len_utf8)
        });
    let (day, time) = rest.split_at(begins);
    let seconds = time_of_text(time, half).ok_or_else(none)?;
    let day = day.trim_end_matches(['t', ' ', ',']).trim();
    let day = match (day.is_empty(), of) {
        (false, _) if next_day => {
            return Err(format!(
                "holds `{written}`, a day and `next day`: either was expected, not both"
            ));
        }
        (false, _) => day_of_text(day, order)?,
        (true, Some(of)) => of,
        (true, None) => return Err("holds a time, and the line has no day for it".into()),
    };
    after(day, seconds + if next_day { 86_400 } else { 0 })
}

/// Seconds since midnight; 24:00 is the end of the day.
fn time_of_text(text: &str, half: Option<i64>) -> Option<i64> {
    let parts: Vec<&str> = text.split(':').collect();
    let number = |part: &str, long: bool| -> Option<i64> {
        let fits = if long {
            part.len() == 2
        } else {
            (1..=2).contains(&part.len())
        };
        fits.then(|| part.parse().ok())?
    };
    let (hour, minute, second) = match parts.as_slice() {
        [h, m] => (number(h, false)?, number(m, true)?, 0),
        [h, m, s] => (number(h, false)?, number(m, true)?, number(s, true)?),
        _ => return None,
    };
    if minute > 59 || second > 59 {
        return None;
    }
    let hour = match half {
        None if hour < 24 || (hour, minute, second) == (24, 0, 0) => hour,
        Some(half) if (1..=12).contains(&hour) => hour % 12 + half,
        _ => return None,
    };
    Some(hour * 3600 + minute * 60 + second)
}
