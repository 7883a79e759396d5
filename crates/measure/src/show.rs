//! The one printer. What it prints of a size, the parser reads back as the same size.

use crate::angle::Angle;
use crate::dimension::Dimension;
use crate::fraction::{self, Fraction};
use crate::house::House;
use crate::length::Length;
use crate::pitch::Pitch;
use crate::size::Size;
use crate::text::entered_with_unit;
use crate::unit::Unit;

/// Which way a number is rounded when it is shown. A limit is shown in the direction that cannot flatter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Rounding {
    /// To the nearest; a tie goes away from zero.
    Nearest,
    /// Toward the larger number.
    Up,
    /// Toward the smaller number.
    Down,
}

/// `value` with this many decimals.
///
/// The number is first taken to fifteen significant figures, so that the dust of floating point (0.1 + 0.2) is
/// not rounded up as if it were metal; a tie then goes away from zero, as the pencil does. What is no number, or
/// no finite one, is said in words.
pub fn number(value: f64, decimals: u32, rounding: Rounding) -> String {
    if value.is_nan() {
        return "not a number".to_string();
    }
    if value.is_infinite() {
        return if value > 0.0 {
            "infinite"
        } else {
            "minus infinite"
        }
        .to_string();
    }
    // d.dddddddddddddd e n: fifteen figures and the place of the point.
    let scientific = format!("{:.14e}", value.abs());
    let (figures, exponent) = scientific
        .split_once('e')
        .unwrap_or((scientific.as_str(), "0"));
    let figures: Vec<u8> = figures
        .bytes()
        .filter(u8::is_ascii_digit)
        .map(|b| b - b'0')
        .collect();
    let whole = exponent.parse::<i64>().unwrap_or(0) + 1;
    let negative = value < 0.0;
    let places = i64::from(decimals);
    // Figure k stands at decimal place k - whole + 1; keep those at `places` or above, filling with zeros.
    let digit = |place: i64| {
        figures
            .get(usize::try_from(place - 1 + whole).unwrap_or(usize::MAX))
            .copied()
            .unwrap_or(0)
    };
    let mut kept: Vec<u8> = (1 - whole.max(1)..=places).map(digit).collect();
    let first_dropped = digit(places + 1);
    let any_dropped = (places + 1..=14 - whole + 1).any(|place| digit(place) != 0);
    let away = match rounding {
        Rounding::Nearest => first_dropped >= 5,
        Rounding::Up => any_dropped && !negative,
        Rounding::Down => any_dropped && negative,
    };
    if away {
        fraction::add_one(&mut kept);
    }
    fraction::write_digits(negative, &kept, decimals as usize)
}

/// An SI value in `unit`, with its symbol: `180.0 psig`, `14.50°`, `0.15`.
pub fn value(si: f64, unit: Unit, decimals: u32, rounding: Rounding) -> String {
    with_symbol(&number(unit.from_si(si), decimals, rounding), unit)
}

/// A printed number with the symbol of its unit; the degree, the minute and the percent stand close.
pub fn with_symbol(number: &str, unit: Unit) -> String {
    match unit {
        Unit::One | Unit::Each => number.to_string(),
        Unit::Degree | Unit::ArcMinute | Unit::Percent => format!("{number}{}", unit.symbol()),
        Unit::OneIn => format!("1 in {number}"),
        _ => format!("{number} {}", unit.symbol()),
    }
}

/// A length from a law, in the house unit: inches with no leading zero, or millimetres.
pub fn length(length: Length, house: House, decimals: u32, rounding: Rounding) -> String {
    match house {
        House::Inch => format!(
            "{} in",
            no_leading_zero(number(length.to_inches(), decimals, rounding))
        ),
        House::Metric => format!("{} mm", number(length.to_mm(), decimals, rounding)),
    }
}

/// A size in the house unit, in full: `5/32 in · .15625 in`, `.0049 in`, `2 in`, `3.96875 mm`.
///
/// Every size is whole in decimal millimetres, so a metric house always reads it exactly. A size that never ends
/// in decimal inches (1 mm) is shown exactly in millimetres with the inches after it: `1 mm ≈ .0394 in`.
pub fn size(size: Size, house: House) -> String {
    let millimetres = || format!("{} mm", in_full(size.mm()));
    match house {
        House::Metric => millimetres(),
        House::Inch if fraction::places_needed(size.inches()).is_none() => {
            format!("{} ≈ {} in", millimetres(), decimal_in(size))
        }
        House::Inch => match fraction_in(size) {
            Some(whole) if !whole.contains('/') => format!("{whole} in"),
            Some(fraction) => format!("{fraction} in · {} in", decimal_in(size)),
            None => format!("{} in", decimal_in(size)),
        },
    }
}

/// A size as somebody wrote it, and after it in brackets the same in the house's unit where that is another:
/// `17/64in (6.746875 mm)`. What was written stands first, for a figure that was worked out must not be taken for it.
///
/// # Arguments
/// `written`: the text the size was read from, with its unit.
pub fn size_as_written(written: &str, read: Size, house: House) -> String {
    let of_writer = written_in(written);
    match of_writer {
        Some(unit) if unit != house => match size(read, house) {
            // A millimetre never ends in decimal inches: the printer says so, and shows both already.
            both if both.contains('≈') => both,
            other => format!("{} ({other})", written.trim()),
        },
        _ => size(read, house),
    }
}

/// The house whose unit a length was written in, if it reads as a length with its unit.
pub fn written_in(text: &str) -> Option<House> {
    let entered = entered_with_unit(text, Dimension::Length).ok()?;
    Some(match entered.unit {
        Unit::Mm | Unit::M | Unit::Micrometre => House::Metric,
        _ => House::Inch,
    })
}

/// The size as a fraction of an inch, `1 1/4`, only when it is exact to 1/128; no unit is written.
pub fn fraction_in(size: Size) -> Option<String> {
    let inches = size.inches();
    (128 % *inches.denom() == 0).then(|| fraction::mixed(inches))
}

/// The size in decimal inches with no leading zero and at least four places, more when it takes more to be exact
/// (1/128 in takes seven): `1.2500`, `.15625`, `-.0049`. A size that never ends in decimal inches is rounded to
/// four places; [`size`] says when that is so. No unit is written.
pub fn decimal_in(size: Size) -> String {
    let inches = size.inches();
    let places = fraction::places_needed(inches).unwrap_or(4).max(4);
    no_leading_zero(fraction::decimal(inches, places, Rounding::Nearest))
}

/// The size in millimetres, in full, without a unit: `31.75`, `0.1245`.
pub fn decimal_mm(size: Size) -> String {
    in_full(size.mm())
}

/// A pitch as the shop says it: `5 TPI`, `11 1/2 TPI`, or in millimetres when that is the round number.
pub fn pitch(pitch: Pitch, house: House) -> String {
    let tpi = pitch.tpi();
    let mm = pitch.mm();
    let round_tpi = 8 % *tpi.denom() == 0;
    let round_mm = mm.filter(|&mm| fraction::places_needed(mm).is_some_and(|places| places <= 4));
    match (house, round_mm) {
        (House::Metric, Some(mm)) => format!("{} mm", in_full(mm)),
        (House::Inch, Some(mm)) if !round_tpi => format!("{} mm", in_full(mm)),
        _ => format!("{} TPI", fraction::mixed(tpi)),
    }
}

/// An angle in decimal degrees: `14.5°`.
pub fn degrees(angle: Angle, decimals: u32, rounding: Rounding) -> String {
    value(
        angle.to_radians(),
        Unit::of(Dimension::Angle, House::Inch),
        decimals,
        rounding,
    )
}

/// An angle in whole degrees and minutes, to the nearest minute: `14° 30'`, `-0° 45'`.
pub fn degrees_minutes(angle: Angle) -> String {
    let minutes = number(angle.to_degrees() * 60.0, 0, Rounding::Nearest);
    let (sign, count) = match minutes.strip_prefix('-') {
        Some(count) => ("-", count),
        None => ("", minutes.as_str()),
    };
    match count.parse::<u128>() {
        Ok(count) => format!("{sign}{}° {:02}'", count / 60, count % 60),
        Err(_) => minutes,
    }
}

/// `x` with as many decimals as it takes, up to 18.
fn in_full(x: Fraction) -> String {
    fraction::decimal(
        x,
        fraction::places_needed(x).unwrap_or(18),
        Rounding::Nearest,
    )
}

/// `0.125` as `.125`, which is how an inch dimension is written; `0` alone stays.
fn no_leading_zero(text: String) -> String {
    match (text.strip_prefix("0."), text.strip_prefix("-0.")) {
        (Some(decimals), _) => format!(".{decimals}"),
        (_, Some(decimals)) => format!("-.{decimals}"),
        _ => text,
    }
}
