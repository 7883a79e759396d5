//! Reads the number at the head of a text, exactly, in every way a shop writes one: `5`, `1.25`, `.0049`, `5/32`,
//! `1 1/4`, `1-1/4`, `½`.

use crate::fraction::Fraction;

/// A number read from the head of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Number {
    /// The value without its sign.
    pub(crate) magnitude: Fraction,
    /// Whether a minus stood before it. Kept apart, since -0° 30' is not 0° 30'.
    pub(crate) negative: bool,
}

impl Number {
    /// The value with its sign.
    pub(crate) fn value(self) -> Fraction {
        if self.negative {
            -self.magnitude
        } else {
            self.magnitude
        }
    }
}

/// What was wrong with a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fault {
    NotANumber,
    TooLong,
    ZeroDenominator,
    DecimalInFraction,
    ImproperAfterWhole,
}

/// The most digits in one run. Two such runs still multiply within an `i128`.
const MOST_DIGITS: usize = 18;

/// Brings the many marks of typesetters, keyboards and drawings to one plain form: straight feet and inch marks,
/// a plain minus and slash, single spaces, fractions written out.
pub(crate) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '″' | '“' | '”' | '„' | '˝' => out.push('"'),
            '′' | '‘' | '’' | '´' | '`' => out.push('\''),
            '−' | '‐' | '‑' | '–' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            'º' | '˚' => out.push('°'),
            'μ' => out.push('µ'),
            '²' => out.push('2'),
            '³' => out.push('3'),
            '·' | '⋅' | '•' => out.push('.'),
            c if c.is_whitespace() => {
                if !out.ends_with(' ') {
                    out.push(' ');
                }
            }
            c => match written_out(c) {
                Some(fraction) => {
                    if out.ends_with(|last: char| last.is_ascii_digit()) {
                        out.push(' ');
                    }
                    out.push_str(fraction);
                }
                None => out.push(c),
            },
        }
    }
    out.replace("''", "\"")
}

fn written_out(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅕' => "1/5",
        '⅖' => "2/5",
        '⅗' => "3/5",
        '⅘' => "4/5",
        '⅙' => "1/6",
        '⅚' => "5/6",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

/// Reads a number with an optional sign from the head of plain text, and gives what follows it, trimmed.
pub(crate) fn signed(text: &str) -> Result<(Number, &str), Fault> {
    let (negative, rest) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let (magnitude, rest) = unsigned(rest.trim_start())?;
    Ok((
        Number {
            magnitude,
            negative,
        },
        rest,
    ))
}

/// Reads a number without a sign from the head of plain text, and gives what follows it, trimmed.
pub(crate) fn unsigned(text: &str) -> Result<(Fraction, &str), Fault> {
    let (digits, rest) = digits(text);
    let (value, rest) = if let Some(after_point) = rest.strip_prefix('.') {
        decimal(digits, after_point)?
    } else if digits.is_empty() {
        return Err(Fault::NotANumber);
    } else if let Some(after_slash) = rest.strip_prefix('/').filter(|after| !starts_a_word(after)) {
        fraction(digits, after_slash)?
    } else {
        whole_or_mixed(digits, rest)?
    };
    let rest = rest.trim();
    // A second number, or the rest of a broken one, never passes as a unit.
    let tail = rest.trim_start_matches(['-', ' ']);
    if starts_a_number(tail) || (tail.starts_with('/') && starts_a_number(&tail[1..])) {
        return Err(Fault::NotANumber);
    }
    Ok((value, rest))
}

/// Whether plain text starts with a digit, or with a point and a digit.
pub(crate) fn starts_a_number(text: &str) -> bool {
    let text = text.strip_prefix('.').unwrap_or(text);
    text.starts_with(|c: char| c.is_ascii_digit())
}

/// Whether plain text starts with a letter: the slash of `5/in` is of the unit, not of a fraction.
fn starts_a_word(text: &str) -> bool {
    text.starts_with(char::is_alphabetic)
}

fn decimal<'a>(before: &str, after_point: &'a str) -> Result<(Fraction, &'a str), Fault> {
    let (after, rest) = digits(after_point);
    if before.is_empty() && after.is_empty() {
        return Err(Fault::NotANumber);
    }
    if rest.starts_with('/') && starts_a_number(&rest[1..]) {
        return Err(Fault::DecimalInFraction);
    }
    let (whole, part) = (integer(before)?, integer(after)?);
    // At most 18 digits each, so that 10^36 is the largest number here.
    let under = after.bytes().fold(1_i128, |under, _| under * 10);
    Ok((Fraction::new(whole * under + part, under), rest))
}

fn fraction<'a>(over: &str, after_slash: &'a str) -> Result<(Fraction, &'a str), Fault> {
    let (under, rest) = digits(after_slash);
    if rest.starts_with('.') && starts_a_number(rest) {
        return Err(Fault::DecimalInFraction);
    }
    if under.is_empty() {
        return Err(Fault::NotANumber);
    }
    let (over, under) = (integer(over)?, integer(under)?);
    if under == 0 {
        return Err(Fault::ZeroDenominator);
    }
    Ok((Fraction::new(over, under), rest))
}

fn whole_or_mixed<'a>(whole: &str, rest: &'a str) -> Result<(Fraction, &'a str), Fault> {
    let value = Fraction::from_integer(integer(whole)?);
    let after_join = rest
        .strip_prefix('-')
        .or_else(|| rest.strip_prefix(' '))
        .unwrap_or("");
    let (over, after_over) = digits(after_join);
    let Some(after_slash) = after_over.strip_prefix('/').filter(|_| !over.is_empty()) else {
        return Ok((value, rest));
    };
    let (part, rest) = fraction(over, after_slash)?;
    if part >= Fraction::from_integer(1) {
        return Err(Fault::ImproperAfterWhole);
    }
    // Both parts are below 10^18, so the sum is far inside an i128.
    Ok((value + part, rest))
}

fn digits(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    text.split_at(end)
}

fn integer(digits: &str) -> Result<i128, Fault> {
    if digits.len() > MOST_DIGITS {
        return Err(Fault::TooLong);
    }
    Ok(digits.parse().unwrap_or(0))
}
