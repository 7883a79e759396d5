//! The small pieces every rule file is made of: dates, sections, marks, numbers, lengths.

use jiff::civil::Date;
use measure::{Fraction, Size};
use toml::Value;

use crate::expression;

/// What the TOML reader said, as our sentence with its line.
pub(crate) fn said(error: &toml::de::Error, text: &str) -> String {
    let line = error
        .span()
        .and_then(|s| text.get(..s.start))
        .map(|before| before.matches('\n').count() + 1);
    let said = plainly(error.message());
    line.map_or_else(|| said.clone(), |n| format!("line {n}: {said}"))
}

/// The reader's words for the two commonest slips, put as a person would.
pub(crate) fn plainly(message: &str) -> String {
    message
        .trim()
        .replace("unknown field", "unknown key")
        .replace("missing field", "missing key")
}

/// A text that says something.
pub(crate) fn filled(key: &str, text: &str) -> Result<(), String> {
    if text.trim().is_empty() {
        Err(format!("`{key}` is empty; it must say something"))
    } else {
        Ok(())
    }
}

/// A calendar day.
pub(super) fn date(key: &str, value: &Value) -> Result<Date, String> {
    let written = match value {
        Value::Datetime(day) if day.time.is_none() && day.offset.is_none() => day.to_string(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    };
    let shaped = written.len() == 10 && written.chars().all(|c| c.is_ascii_digit() || c == '-');
    match written.parse::<Date>() {
        Ok(day) if shaped => Ok(day),
        _ => Err(format!(
            "`{key}` is {written}, which is not a day of the calendar; expected as 2000-01-18"
        )),
    }
}

/// A section reads like `230.94`, `230.96(f)`, `230.98(a)(7)` or `App. A`.
pub(super) fn section(text: &str) -> Result<(), String> {
    let appendix = |t: &str| {
        t.strip_prefix("App. ").is_some_and(|letter| {
            letter.len() == 1 && letter.chars().all(|c| c.is_ascii_uppercase())
        })
    };
    let digits = |t: &str| !t.is_empty() && t.chars().all(|c| c.is_ascii_digit());
    let paragraphs = |mut rest: &str| {
        while let Some(open) = rest.strip_prefix('(') {
            let Some((inside, after)) = open.split_once(')') else {
                return false;
            };
            if inside.is_empty() || !inside.chars().all(|c| c.is_ascii_alphanumeric()) {
                return false;
            }
            rest = after;
        }
        rest.is_empty()
    };
    let numbered = |t: &str| {
        let Some((part, rest)) = t.split_once('.') else {
            return false;
        };
        let (number, rest) = rest.split_at(rest.find('(').unwrap_or(rest.len()));
        digits(part) && digits(number) && paragraphs(rest)
    };
    if appendix(text) || numbered(text) {
        return Ok(());
    }
    Err(format!(
        "the section \"{text}\" does not read like one; expected as 230.94, 230.96(f) or App. A"
    ))
}

/// A number that is no length, written whole, as a fraction or as the decimal the law prints: `92`, `2 1/2`, `0.25`.
pub(super) fn number(key: &str, text: &str) -> Result<Fraction, String> {
    let wrong = || {
        format!(
            "`{key}` is \"{text}\"; expected a number in quotes, as \"95\", \"2 1/2\" or \"0.25\""
        )
    };
    let whole = |t: &str| t.parse::<u32>().map(i128::from).map_err(|_| wrong());
    let fraction = |t: &str| match t.split_once('/') {
        Some((above, below)) => match whole(below)? {
            0 => Err(wrong()),
            below => Ok(Fraction::new(whole(above)?, below)),
        },
        None => Err(wrong()),
    };
    match text.split_once(' ') {
        Some((units, part)) => Ok(Fraction::from_integer(whole(units)?) + fraction(part)?),
        None if text.contains('/') => fraction(text),
        None => expression::plain(text).ok_or_else(wrong),
    }
}

/// A length written as text with its unit: inches whole or as a fraction no finer than 1/64, where decimals are
/// refused (the law prints fractions, and a rounded one condemns or spares the wrong part); millimetres whole or
/// decimal, no finer than a micrometre.
pub(super) fn length(key: &str, value: &Value) -> Result<(String, Size), String> {
    let expected = "a length is written in quotes as the law prints it, as \"1/4 in\"";
    let text = match value {
        Value::String(text) => text,
        Value::Float(number) => return Err(format!("`{key}` is the decimal {number}; {expected}")),
        other => return Err(format!("`{key}` is {other}; {expected}")),
    };
    let metric = text.ends_with("mm");
    if text.contains('.') && !metric {
        return Err(format!("`{key}` is \"{text}\", a decimal; {expected}"));
    }
    let size = Size::parse(text).map_err(|e| format!("`{key}` is \"{text}\": {e}"))?;
    let parts = *size.inches().denom();
    if metric && 1000 % *size.mm().denom() != 0 {
        return Err(format!(
            "`{key}` is \"{text}\", finer than 0.001 mm; expected whole micrometres at the finest, as \"6.35 mm\""
        ));
    }
    if text.ends_with(" in") && 64 % parts != 0 {
        return Err(format!(
            "`{key}` is \"{text}\", finer than 1/64 in or not a shop fraction; {expected}"
        ));
    }
    Ok((text.clone(), size))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_read_like_sections() {
        for good in [
            "230.8",
            "230.94",
            "230.96(f)",
            "230.98(a)(7)",
            "230.113(k)",
            "App. A",
            "230.2(b)(4)",
        ] {
            assert_eq!(section(good), Ok(()), "{good}");
        }
        for bad in [
            "",
            "230",
            "230.",
            ".94",
            "230.96(f",
            "230.96f",
            "230.96()",
            "App A",
            "App. AB",
            "sec. 230.94",
            "230.94 ",
        ] {
            assert!(section(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn numbers_are_whole_fractions_or_plain_decimals() {
        assert_eq!(number("x", "2 1/2"), Ok(Fraction::new(5, 2)));
        assert_eq!(number("x", "95"), Ok(Fraction::from_integer(95)));
        assert_eq!(number("x", "0.25"), Ok(Fraction::new(1, 4)));
        for bad in ["", "1.", ".5", "1,5", "1/0", "-1", "2 1", "a"] {
            assert!(number("x", bad).is_err(), "{bad}");
        }
    }
}
