//! The one parser: what a person typed, kept verbatim, read exactly.

use crate::dimension::Dimension;
use crate::fraction::{self, Fraction};
use crate::house::House;
use crate::number::{self, Number};
use crate::size::Size;
use crate::spelling::{Meaning, meaning};
use crate::text_error::TextError;
use crate::unit::Unit;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, Zero};

/// A value as a person entered it.
#[derive(Clone, Debug, PartialEq)]
pub struct Entered {
    /// What was typed, to the letter.
    pub text: String,
    /// The unit it is in.
    pub unit: Unit,
    /// Whether no unit was typed and the house unit was taken. A sheet says so. A ratio, a count and a number of
    /// threads per inch have no house unit to take.
    pub unit_assumed: bool,
    /// The exact value in `unit`. None only for what has none; everything the parser reads today has one.
    pub exact: Option<Fraction>,
    /// The value in SI: m, rad, Pa (gauge or absolute by the dimension), K, N, N·m, m², kg, m/s, kg/s,
    /// m³/kg, J/kg, 1/m or 1.
    pub si: f64,
    /// What was asked for.
    pub dimension: Dimension,
}

impl Entered {
    /// The value in its own unit, as a floating number.
    pub fn value(&self) -> f64 {
        self.exact
            .map_or_else(|| self.unit.from_si(self.si), fraction::to_f64)
    }

    /// The value as an exact size.
    ///
    /// # Errors
    /// [`TextError::WrongDimension`] when it is no length, [`TextError::Size`] when it is no whole number of
    /// ticks, naming the nearest that is.
    pub fn size(&self) -> Result<Size, TextError> {
        let given = self.unit.dimension();
        let (Dimension::Length, Some(exact)) = (given, self.exact) else {
            return Err(TextError::WrongDimension {
                text: clip(&self.text),
                given,
                wanted: Dimension::Length,
            });
        };
        let times = |n: i128, d: i128| exact.checked_mul(&Fraction::new(n, d));
        let size = match self.unit {
            Unit::Foot => times(12, 1).map(Size::from_inches),
            Unit::Thou => times(1, 1_000).map(Size::from_inches),
            Unit::Micrometre => times(1, 1_000).map(Size::from_mm),
            Unit::M => times(1_000, 1).map(Size::from_mm),
            Unit::Mm => Some(Size::from_mm(exact)),
            _ => Some(Size::from_inches(exact)),
        };
        match size {
            Some(size) => size.map_err(|source| TextError::Size {
                text: clip(&self.text),
                source,
            }),
            None => Err(TextError::TooLong {
                text: clip(&self.text),
                wanted: Dimension::Length,
            }),
        }
    }
}

/// Reads a value of a dimension. A bare number takes the house unit and says so in `unit_assumed`; where the
/// house has no one unit for it (a speed may be of a cut or of a train, a pitch in an inch house may be inches or
/// threads per inch) a bare number is refused.
///
/// An angle written as a taper (`3/4 in/ft`, `1:16`, `1 in 16`) is read as taper on *diameter* and gives the
/// half angle of the cone.
///
/// # Errors
/// [`TextError`]: a sentence saying what was read, what was expected, and an example.
pub fn entered(text: &str, dimension: Dimension, house: House) -> Result<Entered, TextError> {
    read(text, dimension, Some(house))
}

/// Reads a value that must carry its unit, as a reading does.
///
/// # Errors
/// As [`entered`], and [`TextError::UnitMissing`] for a bare number.
pub fn entered_with_unit(text: &str, dimension: Dimension) -> Result<Entered, TextError> {
    read(text, dimension, None)
}

/// The longest text worth looking at.
const LONGEST: usize = 200;

fn read(text: &str, dimension: Dimension, house: Option<House>) -> Result<Entered, TextError> {
    if text.len() > LONGEST {
        return Err(TextError::TooLong {
            text: clip(text),
            wanted: dimension,
        });
    }
    let plain = number::plain(text);
    if plain.is_empty() {
        return Err(TextError::Empty { wanted: dimension });
    }
    if plain.contains(',') {
        return Err(TextError::Comma {
            text: clip(text),
            wanted: dimension,
        });
    }
    let reader = Reader {
        text,
        dimension,
        house,
    };
    if dimension == Dimension::Length {
        return reader.length(text);
    }
    reader.value(&plain)
}

struct Reader<'a> {
    text: &'a str,
    dimension: Dimension,
    house: Option<House>,
}

impl Reader<'_> {
    /// A length as the printer may have written it: once, twice (`5/32 in · .15625 in`), or exactly with an
    /// approximation after it (`1 mm ≈ .0394 in`).
    fn length(&self, text: &str) -> Result<Entered, TextError> {
        let exactly = text.split_once(" ≈ ").map_or(text, |(exactly, _)| exactly);
        let Some((one, other)) = exactly.split_once(" · ") else {
            return self.value(&number::plain(exactly));
        };
        let (one, other) = (
            self.value(&number::plain(one))?,
            self.value(&number::plain(other))?,
        );
        if one.size()? != other.size()? {
            return Err(TextError::Differ { text: self.shown() });
        }
        Ok(one)
    }

    fn value(&self, plain: &str) -> Result<Entered, TextError> {
        match self.dimension {
            Dimension::Length => {
                if let Some(both) = self.feet_and_inches(plain)? {
                    return self.finish(both, Unit::Inch, false);
                }
            }
            Dimension::Angle => {
                if let Some(degrees) = self.degrees_and_minutes(plain)? {
                    return self.finish(degrees, Unit::Degree, false);
                }
                if let Some(n) = self.one_in(plain)? {
                    return self.finish(n, Unit::OneIn, false);
                }
            }
            _ => {}
        }
        let (number, word) = number::signed(plain).map_err(|fault| self.fault(fault))?;
        let (unit, assumed) = self.unit(word)?;
        self.finish(number.value(), unit, assumed)
    }

    /// `12'6"`, `12' 6 1/2"`, `12ft 6in`, `12'-6"`: feet and inches, in inches.
    fn feet_and_inches(&self, plain: &str) -> Result<Option<Fraction>, TextError> {
        let Some((feet, tail)) = self.first_of_two(plain, &["'", "feet", "foot", "ft.", "ft"])
        else {
            return Ok(None);
        };
        let (inches, word) = number::unsigned(tail).map_err(|fault| self.fault(fault))?;
        // 12'6 without the inch mark is still twelve foot six.
        if !word.is_empty() && meaning(word, Dimension::Length) != Meaning::Unit(Unit::Inch) {
            return Err(self.parts("inches were expected after the feet, as in 12' 6 1/2\""));
        }
        if !feet.magnitude.is_integer() || inches >= Fraction::from_integer(12) {
            return Err(
                self.parts("whole feet and less than 12 inches were expected, as in 12' 6 1/2\"")
            );
        }
        // Each part has at most 18 digits on either side of its line, so this stays inside an i128.
        let magnitude = feet.magnitude * Fraction::from_integer(12) + inches;
        Ok(Some(
            Number {
                magnitude,
                negative: feet.negative,
            }
            .value(),
        ))
    }

    /// `14d30m`, `14° 30' 15"`, `14 deg 30 min`: degrees, minutes and perhaps seconds, in degrees.
    fn degrees_and_minutes(&self, plain: &str) -> Result<Option<Fraction>, TextError> {
        let why = "whole degrees, whole minutes below 60 and seconds below 60 were expected, as in 14d30m or 14° 30' 15\"";
        let sixty = Fraction::from_integer(60);
        let Some((degrees, tail)) =
            self.first_of_two(plain, &["°", "degrees", "degree", "deg", "d"])
        else {
            return Ok(None);
        };
        let (minutes, tail) = match self.first_of_two(tail, &["'", "minutes", "min", "m"]) {
            None => self
                .last_part(tail, &["'", "minutes", "min", "m"], why)
                .map(|minutes| (minutes, None))?,
            Some((minutes, tail)) => (minutes.magnitude, Some(tail)),
        };
        let seconds = match tail {
            None => Fraction::zero(),
            Some(tail) => self.last_part(tail, &["\"", "seconds", "sec", "s"], why)?,
        };
        let whole_minutes = minutes.is_integer() || tail.is_none();
        if !degrees.magnitude.is_integer() || !whole_minutes || minutes >= sixty || seconds >= sixty
        {
            return Err(self.parts(why));
        }
        let magnitude = degrees
            .magnitude
            .checked_add(&((minutes + seconds / sixty) / sixty))
            .ok_or_else(|| self.fault(number::Fault::TooLong))?;
        Ok(Some(
            Number {
                magnitude,
                negative: degrees.negative,
            }
            .value(),
        ))
    }

    /// `1:16` or `1 in 16`, as the n of "1 in n".
    fn one_in(&self, plain: &str) -> Result<Option<Fraction>, TextError> {
        let Some((one, tail)) = self.first_of_two(plain, &[":", "in"]) else {
            return Ok(None);
        };
        let (n, word) = number::unsigned(tail).map_err(|fault| self.fault(fault))?;
        if !word.is_empty() {
            return Err(self.unknown(word));
        }
        let n = n
            .checked_div(&one.value())
            .filter(|n| *n > Fraction::zero());
        n.map(Some)
            .ok_or_else(|| self.parts("two numbers above zero were expected, as in 1:16"))
    }

    /// A number, one of these marks, and a second number after it (a hyphen may stand between): the first number
    /// and the text from the second on. None when the text has another shape.
    fn first_of_two<'t>(&self, plain: &'t str, marks: &[&str]) -> Option<(Number, &'t str)> {
        // The number reader refuses two numbers side by side, but not two with a mark between.
        let (first, rest) = number::signed(plain).ok()?;
        let after = marks.iter().find_map(|mark| strip_mark(rest, mark))?;
        let tail = after.trim_start();
        let tail = tail.strip_prefix('-').unwrap_or(tail).trim_start();
        number::starts_a_number(tail).then_some((first, tail))
    }

    /// A number with one of these marks, or none, and nothing after it.
    fn last_part(
        &self,
        text: &str,
        marks: &[&str],
        why: &'static str,
    ) -> Result<Fraction, TextError> {
        let (value, word) = number::unsigned(text).map_err(|fault| self.fault(fault))?;
        let word = word.trim_end_matches('.').to_lowercase();
        if marks.contains(&word.as_str()) {
            Ok(value)
        } else {
            Err(self.parts(why))
        }
    }

    /// The unit of a word, and whether it was assumed.
    fn unit(&self, word: &str) -> Result<(Unit, bool), TextError> {
        let wanted = self.dimension;
        if word.trim_matches(['.', ' ']).is_empty() {
            return match (wanted, self.house) {
                (Dimension::Ratio | Dimension::Count | Dimension::PerInch, _) => {
                    Ok((Unit::of(wanted, House::Inch), false))
                }
                (Dimension::Speed, _) | (Dimension::Pitch, Some(House::Inch)) | (_, None) => {
                    Err(TextError::UnitMissing {
                        text: self.shown(),
                        wanted,
                    })
                }
                (_, Some(house)) => Ok((Unit::of(wanted, house), true)),
            };
        }
        match meaning(word, wanted) {
            Meaning::Unit(unit) => Ok((unit, false)),
            Meaning::Other(given) => Err(TextError::WrongDimension {
                text: self.shown(),
                given,
                wanted,
            }),
            Meaning::Unclear(why) => Err(TextError::UnclearUnit {
                text: self.shown(),
                why,
                wanted,
            }),
            Meaning::Unknown => Err(self.unknown(word)),
        }
    }

    /// The last look: values that no such thing can have.
    fn finish(
        &self,
        value: Fraction,
        unit: Unit,
        unit_assumed: bool,
    ) -> Result<Entered, TextError> {
        let si = unit.exact_to_si(value);
        let zero = Fraction::zero();
        let impossible = match self.dimension {
            Dimension::Count if !value.is_integer() || value < zero => {
                Some("a whole number, 0 or more, was expected")
            }
            Dimension::Pitch | Dimension::PerInch if value <= zero => {
                Some("a number above zero was expected")
            }
            Dimension::AbsolutePressure if value < zero => {
                Some("no pressure lies below vacuum; 0 or more was expected")
            }
            Dimension::Temperature if si < 0.0 => {
                Some("no temperature lies below absolute zero, -459.67 °F")
            }
            _ => None,
        };
        match impossible {
            Some(why) => Err(TextError::Impossible {
                text: self.shown(),
                why,
            }),
            None => Ok(Entered {
                text: self.text.to_string(),
                unit,
                unit_assumed,
                exact: Some(value),
                si,
                dimension: self.dimension,
            }),
        }
    }

    fn shown(&self) -> String {
        clip(self.text)
    }

    fn fault(&self, fault: number::Fault) -> TextError {
        TextError::of_number(fault, self.shown(), self.dimension)
    }

    fn unknown(&self, word: &str) -> TextError {
        TextError::UnknownUnit {
            text: self.shown(),
            unit: clip(word),
            wanted: self.dimension,
        }
    }

    fn parts(&self, why: &'static str) -> TextError {
        TextError::BadParts {
            text: self.shown(),
            why,
        }
    }
}

/// What follows `mark` at the head of `text`, in either case.
fn strip_mark<'t>(text: &'t str, mark: &str) -> Option<&'t str> {
    let head = text.get(..mark.len())?;
    head.eq_ignore_ascii_case(mark).then(|| &text[mark.len()..])
}

/// The text as a message quotes it: trimmed, and not a page long.
fn clip(text: &str) -> String {
    let text = text.trim();
    if text.chars().count() <= 40 {
        return text.to_string();
    }
    let head: String = text.chars().take(39).collect();
    format!("{head}…")
}
