//! What was given to a sheet: text as typed, where it came from, and the value read out of it.

use crate::card::{Argument, Card, Kind, Measure, Range};
use crate::error::SheetError;
use measure::{
    Angle, Dimension, Entered, Fraction, House, Length, Pitch, TemperatureRise, Unit, entered,
};

/// Where a value came from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Basis {
    /// Typed, with its unit.
    Entered,
    /// Typed without a unit; the house unit was taken, and the sheet says so.
    EnteredHouseUnit,
    /// A reading in the book.
    Reading(String),
    /// A drawing.
    Drawing(String),
    /// A row of a table.
    Table(String),
    /// Found by trial or choice; the formula proves it.
    Found(String),
    /// A rule of law or of the shop, at one version.
    Ruling {
        /// The rule's id.
        rule: String,
        /// The version in force.
        version: String,
    },
    /// A value of a sheet worked before, and which.
    HandedOn(String),
    /// Taken for granted, with the reason.
    Assumed(String),
}

impl std::fmt::Display for Basis {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Basis::Entered => f.write_str("entered"),
            Basis::EnteredHouseUnit => f.write_str("entered without a unit, house unit taken"),
            Basis::Reading(which) => write!(f, "reading: {which}"),
            Basis::Drawing(which) => write!(f, "drawing: {which}"),
            Basis::Table(which) => write!(f, "table: {which}"),
            Basis::Found(how) => write!(f, "found: {how}"),
            Basis::Ruling { rule, version } => write!(f, "ruling: {rule}, version {version}"),
            Basis::HandedOn(whence) => write!(f, "handed on: {whence}"),
            Basis::Assumed(why) => write!(f, "ASSUMED: {why}"),
        }
    }
}

/// One argument as a person gives it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Given {
    /// The argument's name.
    pub name: String,
    /// The value as typed.
    pub text: String,
    /// Where it came from.
    pub basis: Basis,
}

impl Given {
    /// A value typed by a person.
    pub fn typed(name: &str, text: &str) -> Given {
        Given {
            name: name.to_owned(),
            text: text.to_owned(),
            basis: Basis::Entered,
        }
    }
}

/// A value read.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A quantity, in SI.
    Si(f64),
    /// One word or several.
    Words(Vec<String>),
    /// Several quantities of one dimension, in SI, in the order given.
    List(Vec<f64>),
    /// The same where some may be unknown: none for each `?`.
    Gapped(Vec<Option<f64>>),
}

/// One argument read.
#[derive(Debug, Clone)]
pub struct Input {
    /// Which argument.
    pub argument: &'static Argument,
    /// The text as typed.
    pub entered: String,
    /// What it means.
    pub value: Value,
    /// Where it came from.
    pub basis: Basis,
    /// Whether a unit was wanting and the house's was taken.
    pub unit_assumed: bool,
    /// The quantity as an exact fraction in the unit it was written in; none for words and lists.
    pub exact: Option<(Fraction, Unit)>,
}

/// All that was given to one sheet, read and within range.
#[derive(Debug, Clone)]
pub struct Inputs {
    /// The card these are for.
    pub card: &'static Card,
    /// One entry for each argument given, in the card's order.
    pub list: Vec<Input>,
}

impl Inputs {
    /// Reads `given` for `card`; a bare number takes the unit of `house`.
    ///
    /// # Errors
    /// An unknown, repeated, missing, unreadable or out-of-range argument, each in words.
    pub fn read(card: &'static Card, given: &[Given], house: House) -> Result<Inputs, SheetError> {
        for one in given {
            if card.argument(&one.name).is_none() {
                return Err(SheetError::UnknownArgument {
                    sheet: card.id,
                    name: one.name.clone(),
                    known: card.arguments.iter().map(described).collect(),
                });
            }
        }
        let mut list = Vec::new();
        let mut missing = Vec::new();
        for argument in card.arguments {
            let mut named = given.iter().filter(|one| one.name == argument.name);
            match (named.next(), named.next()) {
                (_, Some(_)) => {
                    return Err(SheetError::Repeated {
                        sheet: card.id,
                        name: argument.name,
                    });
                }
                (Some(one), None) => list.push(read_one(card, argument, one, house)?),
                (None, None) if argument.required => {
                    missing.push(format!("{} ({})", argument.name, argument.meaning));
                }
                (None, None) => {}
            }
        }
        if missing.is_empty() {
            Ok(Inputs { card, list })
        } else {
            Err(SheetError::Missing {
                sheet: card.id,
                missing,
            })
        }
    }

    /// The argument called `name`, if it was given.
    pub fn find(&self, name: &str) -> Option<&Input> {
        self.list.iter().find(|input| input.argument.name == name)
    }

    /// Those of `names` that were not given.
    pub fn wanting(&self, names: &[&'static str]) -> Vec<&'static str> {
        let missing = names.iter().filter(|name| self.find(name).is_none());
        missing.copied().collect()
    }

    /// The SI value of a quantity, if it was given.
    pub fn si(&self, name: &str) -> Option<f64> {
        match self.find(name)?.value {
            Value::Si(si) => Some(si),
            Value::Words(_) | Value::List(_) | Value::Gapped(_) => None,
        }
    }

    /// The SI values of a list, in the order given; empty when none was given.
    pub fn list_si(&self, name: &str) -> &[f64] {
        match self.find(name).map(|input| &input.value) {
            Some(Value::List(list)) => list,
            _ => &[],
        }
    }

    /// The values of a list in the unit of the inch house, in the order given; empty when none was given.
    pub fn list_inch(&self, name: &str) -> Vec<f64> {
        let dimension = match self.find(name).map(|input| input.argument.kind) {
            Some(Kind::List { dimension, .. }) => dimension,
            _ => return Vec::new(),
        };
        let unit = Unit::of(dimension, House::Inch);
        let list = self.list_si(name).iter();
        list.map(|si| unit.from_si(*si)).collect()
    }

    /// The SI values of a list that may have gaps, in the order given; empty when none was given.
    pub fn gapped_si(&self, name: &str) -> &[Option<f64>] {
        match self.find(name).map(|input| &input.value) {
            Some(Value::Gapped(list)) => list,
            _ => &[],
        }
    }

    /// A quantity as an exact fraction in the unit it was written in, if it was given.
    pub fn exact(&self, name: &str) -> Option<(Fraction, Unit)> {
        self.find(name)?.exact
    }

    /// A pitch, exactly as it was written, which the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`] when it was not given or has more figures than can be held.
    pub fn need_pitch(&self, name: &'static str) -> Result<Pitch, SheetError> {
        let pitch = self.exact(name).and_then(|(value, unit)| {
            match unit {
                Unit::ThreadsPerInch | Unit::PerInch => Pitch::from_tpi(value),
                Unit::Mm => Pitch::from_mm(value),
                _ => Pitch::from_inches(value),
            }
            .ok()
        });
        pitch.ok_or_else(|| self.missing(name))
    }

    /// The SI value of a quantity the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_si(&self, name: &'static str) -> Result<f64, SheetError> {
        self.si(name).ok_or_else(|| self.missing(name))
    }

    /// A quantity the law cannot do without, in the unit of the inch house.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_inch(&self, name: &'static str) -> Result<f64, SheetError> {
        self.inch(name).ok_or_else(|| self.missing(name))
    }

    /// A quantity in the unit of the inch house, if it was given.
    pub fn inch(&self, name: &str) -> Option<f64> {
        let input = self.find(name)?;
        let (Value::Si(si), Some(dimension)) = (&input.value, input.argument.dimension()) else {
            return None;
        };
        Some(Unit::of(dimension, House::Inch).from_si(*si))
    }

    /// A length, if it was given.
    pub fn length(&self, name: &str) -> Option<Length> {
        self.si(name).map(Length::m)
    }

    /// A length the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_length(&self, name: &'static str) -> Result<Length, SheetError> {
        self.length(name).ok_or_else(|| self.missing(name))
    }

    /// An angle the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_angle(&self, name: &'static str) -> Result<Angle, SheetError> {
        self.si(name)
            .map(Angle::radians)
            .ok_or_else(|| self.missing(name))
    }

    /// A rise of temperature the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_rise(&self, name: &'static str) -> Result<TemperatureRise, SheetError> {
        let rise = self.si(name).map(TemperatureRise::c_degrees);
        rise.ok_or_else(|| self.missing(name))
    }

    /// Threads per inch, as a number, which the law cannot do without.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for it.
    pub fn need_per_inch(&self, name: &'static str) -> Result<f64, SheetError> {
        let count = self
            .si(name)
            .map(|si| Unit::of(Dimension::PerInch, House::Inch).from_si(si));
        count.ok_or_else(|| self.missing(name))
    }

    /// The words given for `name`; empty when none were.
    pub fn words(&self, name: &str) -> &[String] {
        match self.find(name).map(|input| &input.value) {
            Some(Value::Words(words)) => words,
            _ => &[],
        }
    }

    /// The one word given for `name`, if it was.
    pub fn word(&self, name: &str) -> Option<&str> {
        self.words(name).first().map(String::as_str)
    }

    /// The word given for `name`, read by `of`.
    ///
    /// # Errors
    /// [`SheetError::Missing`] when none was given or `of` does not know it; [`Inputs::read`] has already
    /// asked for one of the card's.
    pub fn need_word<T>(
        &self,
        name: &'static str,
        of: impl Fn(&str) -> Option<T>,
    ) -> Result<T, SheetError> {
        let read = self.word(name).and_then(of);
        read.ok_or_else(|| self.missing(name))
    }

    /// The two words given for `name`, in their order.
    ///
    /// # Errors
    /// [`SheetError::Missing`]; [`Inputs::read`] has already asked for them.
    pub fn need_pair(&self, name: &'static str) -> Result<[&str; 2], SheetError> {
        match self.words(name) {
            [first, second] => Ok([first, second]),
            _ => Err(self.missing(name)),
        }
    }

    /// That `name`, which the law cannot do without, was not given.
    pub(crate) fn missing(&self, name: &'static str) -> SheetError {
        SheetError::Missing {
            sheet: self.card.id,
            missing: vec![name.to_owned()],
        }
    }

    /// The value of every quantity given, under its symbol, in the units of `frame`.
    pub fn symbols(&self, frame: House) -> impl Iterator<Item = (&'static str, f64)> {
        self.list.iter().filter_map(move |input| {
            let Value::Si(si) = input.value else {
                return None;
            };
            let measure = Measure::Of(input.argument.dimension()?);
            Some((input.argument.symbol, measure.from_si(si, frame)))
        })
    }
}

/// What stands in a list for a figure that nobody knows.
const UNKNOWN: &str = "?";

fn described(argument: &Argument) -> String {
    if argument.required {
        argument.name.to_owned()
    } else {
        format!("[{}]", argument.name)
    }
}

fn read_one(
    card: &'static Card,
    argument: &'static Argument,
    given: &Given,
    house: House,
) -> Result<Input, SheetError> {
    match argument.kind {
        Kind::Quantity(dimension, range) => {
            let read = quantity(card, argument, &given.text, dimension, range, house)?;
            let unit_assumed = read.unit_assumed && !is_plain(dimension);
            let basis = match &given.basis {
                Basis::Entered if unit_assumed => Basis::EnteredHouseUnit,
                Basis::EnteredHouseUnit if !unit_assumed => Basis::Entered,
                other => other.clone(),
            };
            Ok(Input {
                argument,
                entered: given.text.trim().to_owned(),
                value: Value::Si(read.si),
                basis,
                unit_assumed,
                exact: read.exact.map(|exact| (exact, read.unit)),
            })
        }
        Kind::List {
            dimension,
            range,
            count: (fewest, most),
            gaps,
        } => {
            // A list can run long: it is counted before it is read, so that no text costs much.
            let parts = given.text.split(',').count();
            if !(fewest..=most).contains(&parts) {
                let (what, dimension) = (argument.meaning, dimension.words());
                let unknown = if gaps { " or ?" } else { "" };
                let expected = format!(
                    "{fewest} to {most} of them, comma between, each {dimension}{unknown}: {what}"
                );
                return Err(not_a_choice(card, argument, given, expected));
            }
            let read = given
                .text
                .split(',')
                .map(|one| match one.trim() {
                    UNKNOWN if gaps => Ok(None),
                    _ => quantity(card, argument, one, dimension, range, house).map(Some),
                })
                .collect::<Result<Vec<_>, _>>()?;
            let known = || read.iter().flatten();
            let unit_assumed = !is_plain(dimension) && known().any(|one| one.unit_assumed);
            // A space after each comma, so that a page can break a long list and be read back.
            let parts: Vec<&str> = given.text.split(',').map(str::trim).collect();
            Ok(Input {
                argument,
                entered: parts.join(", "),
                value: if gaps {
                    let place = |one: &Option<Entered>| one.as_ref().map(|one| one.si);
                    Value::Gapped(read.iter().map(place).collect())
                } else {
                    Value::List(known().map(|one| one.si).collect())
                },
                basis: match &given.basis {
                    Basis::Entered if unit_assumed => Basis::EnteredHouseUnit,
                    other => other.clone(),
                },
                unit_assumed,
                exact: None,
            })
        }
        Kind::Word(choices) => {
            let words = vec![given.text.trim().to_owned()];
            worded(
                card,
                argument,
                given,
                words,
                choices,
                format!("one of {}", choices.join(", ")),
            )
        }
        Kind::Words { choices, roles } => {
            // A stroke serves as well as a comma: a fit is written H7/g6.
            let words = given.text.split([',', '/']).map(|w| w.trim().to_owned());
            let words: Vec<String> = words.collect();
            let expected = format!("{} out of {}", roles.join(","), choices.join(", "));
            if words.len() == roles.len() {
                worded(card, argument, given, words, choices, expected)
            } else {
                Err(not_a_choice(card, argument, given, expected))
            }
        }
    }
}

/// A count, a ratio or threads per inch has no other unit that could have been meant.
fn is_plain(dimension: Dimension) -> bool {
    matches!(
        dimension,
        Dimension::PerInch | Dimension::Ratio | Dimension::Count
    )
}

/// One quantity read and found within its range.
fn quantity(
    card: &'static Card,
    argument: &'static Argument,
    text: &str,
    dimension: Dimension,
    range: Range,
    house: House,
) -> Result<Entered, SheetError> {
    let read = entered(text, dimension, house).map_err(|reason| SheetError::Unreadable {
        sheet: card.id,
        name: argument.name,
        reason,
    })?;
    within(card, argument, text, read.si, dimension, range)?;
    Ok(read)
}

fn worded(
    card: &'static Card,
    argument: &'static Argument,
    given: &Given,
    words: Vec<String>,
    choices: &[&str],
    expected: String,
) -> Result<Input, SheetError> {
    if words.iter().all(|word| choices.contains(&word.as_str())) {
        Ok(Input {
            argument,
            entered: given.text.trim().to_owned(),
            value: Value::Words(words),
            basis: given.basis.clone(),
            unit_assumed: false,
            exact: None,
        })
    } else {
        Err(not_a_choice(card, argument, given, expected))
    }
}

fn not_a_choice(
    card: &'static Card,
    argument: &'static Argument,
    given: &Given,
    expected: String,
) -> SheetError {
    let entered = given.text.chars().take(60).collect();
    SheetError::NotAChoice {
        sheet: card.id,
        name: argument.name,
        entered,
        expected,
    }
}

/// The two ends of a range, in SI.
///
/// # Errors
/// A range on a card that cannot be read; the tests read every one.
pub fn bounds(card: &Card, dimension: Dimension, range: Range) -> Result<(f64, f64), SheetError> {
    let end = |text: &str| {
        entered(text, dimension, House::Inch)
            .map(|read| read.si)
            .map_err(|reason| SheetError::OwnFault {
                sheet: card.id,
                what: "range",
                detail: reason.to_string(),
            })
    };
    Ok((end(range.least)?, end(range.most)?))
}

fn within(
    card: &'static Card,
    argument: &'static Argument,
    text: &str,
    si: f64,
    dimension: Dimension,
    range: Range,
) -> Result<(), SheetError> {
    let (least, most) = bounds(card, dimension, range)?;
    // The dust of converting units must not throw out a value that stands on the bound.
    let dust = 1e-12 * most.abs().max(least.abs());
    if (least - dust..=most + dust).contains(&si) {
        return Ok(());
    }
    Err(SheetError::OutOfRange {
        sheet: card.id,
        name: argument.name,
        entered: text.trim().chars().take(60).collect(),
        least: range.least,
        most: range.most,
        why: argument.meaning,
    })
}
