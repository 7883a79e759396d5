//! Exact fractions: what a person wrote, and how it is written again.

use crate::show::Rounding;
use num_traits::{CheckedMul, Zero};

/// An exact number. Arithmetic on it may overflow for absurd values: use the checked operations of `num_traits`
/// where a value did not come through the parser, which keeps them short.
pub type Fraction = num_rational::Ratio<i128>;

/// The nearest `f64`, good to the last place but one.
pub fn to_f64(x: Fraction) -> f64 {
    *x.numer() as f64 / *x.denom() as f64
}

/// `x` as a whole number and a fraction, the way a drawing has it: `1 1/4`, `-1 13/16`, `5/32`, `2`, `0`.
pub fn mixed(x: Fraction) -> String {
    let sign = if x < Fraction::zero() { "-" } else { "" };
    let (over, under) = (x.numer().unsigned_abs(), x.denom().unsigned_abs());
    let (whole, rest) = (over / under, over % under);
    match (whole, rest) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{rest}/{under}"),
        _ => format!("{sign}{whole} {rest}/{under}"),
    }
}

/// The multiple of `1 / denominator` nearest to `x`; a tie goes away from zero. None when `denominator` is not
/// above zero or the number is too large for it.
pub fn nearest(x: Fraction, denominator: i128) -> Option<Fraction> {
    if denominator <= 0 {
        return None;
    }
    let scaled = x.checked_mul(&Fraction::from_integer(denominator))?;
    let twice = scaled
        .numer()
        .unsigned_abs()
        .checked_mul(2)?
        .checked_add(scaled.denom().unsigned_abs())?;
    let steps = i128::try_from(twice / scaled.denom().unsigned_abs().checked_mul(2)?).ok()?;
    let steps = if scaled < Fraction::zero() {
        -steps
    } else {
        steps
    };
    Some(Fraction::new(steps, denominator))
}

/// The decimals `x` needs to be written out in full, or None when no number of decimals up to 18 does it
/// (1/3 never ends).
pub fn places_needed(x: Fraction) -> Option<u32> {
    let under = *x.denom();
    let mut ten: i128 = 1;
    for places in 0..=18 {
        if ten % under == 0 {
            return Some(places);
        }
        ten = ten.checked_mul(10)?;
    }
    None
}

/// `x` with this many decimals and a leading zero: `0.1563`, `-1.25`.
///
/// `rounding`: [`Rounding::Up`] is toward the larger number and [`Rounding::Down`] toward the smaller;
/// [`Rounding::Nearest`] takes a tie away from zero, as the pencil does. No minus sign is put before a zero.
pub fn decimal(x: Fraction, places: u32, rounding: Rounding) -> String {
    let negative = x < Fraction::zero();
    let under = x.denom().unsigned_abs();
    let (whole, mut rest) = (
        x.numer().unsigned_abs() / under,
        x.numer().unsigned_abs() % under,
    );
    let mut digits: Vec<u8> = whole.to_string().bytes().map(|b| b - b'0').collect();
    for _ in 0..places {
        // `rest` is below `under`, so ten times it fits unless the denominator itself is beyond all use.
        let Some(ten) = rest.checked_mul(10) else {
            return crate::show::number(to_f64(x), places, rounding);
        };
        digits.push(u8::try_from(ten / under).unwrap_or(9));
        rest = ten % under;
    }
    let away = match rounding {
        Rounding::Nearest => rest >= under - rest,
        Rounding::Up => rest > 0 && !negative,
        Rounding::Down => rest > 0 && negative,
    };
    if away {
        add_one(&mut digits);
    }
    write_digits(negative, &digits, places as usize)
}

/// Adds one to the last of these decimal digits, carrying.
pub(crate) fn add_one(digits: &mut Vec<u8>) {
    for digit in digits.iter_mut().rev() {
        if *digit < 9 {
            *digit += 1;
            return;
        }
        *digit = 0;
    }
    digits.insert(0, 1);
}

/// Writes digits with a point before the last `places` of them.
pub(crate) fn write_digits(negative: bool, digits: &[u8], places: usize) -> String {
    let mut out = String::new();
    if negative && digits.iter().any(|&d| d != 0) {
        out.push('-');
    }
    let point = digits.len().saturating_sub(places);
    for (i, digit) in digits.iter().enumerate() {
        if i == point {
            if i == 0 {
                out.push('0');
            }
            out.push('.');
        }
        out.push(char::from(b'0' + digit));
    }
    out
}
