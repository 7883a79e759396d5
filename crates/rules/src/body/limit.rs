//! Limits: a number of the law, the side on which it condemns, and the exact comparison with a reading.

use measure::{Fraction, Size};
use num_traits::CheckedSub as _;

/// On which side of the value a reading must lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Compare {
    /// Not above the value.
    Max,
    /// Not below the value.
    Min,
    /// Between two values.
    Range,
    /// Exactly the value: a size or a setting to be used as it stands, not a line to stay on one side of.
    Set,
}

impl Compare {
    /// Its word in the files.
    pub fn word(self) -> &'static str {
        match self {
            Compare::Max => "max",
            Compare::Min => "min",
            Compare::Range => "range",
            Compare::Set => "set",
        }
    }
}

/// Whether a reading exactly at the value (or at either end of a range) passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum AtValue {
    /// "Not more than", "at least": the value itself is allowed.
    Passes,
    /// "Or more", "or less": the value itself condemns.
    Fails,
}

/// The number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LimitValue {
    /// A length.
    Size(Size),
    /// Two lengths, the smaller first.
    SizeRange(Size, Size),
    /// A number in the limit's unit.
    Number(Fraction),
    /// Two numbers in the limit's unit, the smaller first.
    NumberRange(Fraction, Fraction),
    /// None allowed.
    CountNone,
}

/// How a reading stands to a limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome<T = Size> {
    /// Inside the limit.
    Passes,
    /// Outside it, and by how much (zero where the value itself condemns).
    Fails {
        /// The distance past the value, never negative.
        by: T,
    },
    /// The reading is of another sort than the limit.
    CannotTell {
        /// What is needed instead.
        needs: String,
    },
}

/// A number a reading is held against.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// What is measured, as a word with hyphens: limits on one quantity that differ by circumstance share it.
    pub quantity: String,
    /// What is limited.
    pub subject: String,
    /// How and where it is measured.
    pub measured: String,
    /// Circumstances that must all hold for it to apply (answers of `words::QUESTIONS`); none means always.
    pub when: Vec<String>,
    /// On which side a reading must lie.
    pub compare: Compare,
    /// The number.
    pub value: LimitValue,
    /// The number as written in the rule's file, for printing.
    pub written: String,
    /// Whether the value itself passes.
    pub at_value: AtValue,
    /// The unit: "in" for lengths, otherwise what is counted.
    pub unit: String,
    /// Whether a reading outside it is a non-complying condition that keeps the engine out of service.
    pub grounds: bool,
    /// Another limit: only a reading outside both condemns.
    pub together_with: Option<String>,
}

impl Limit {
    /// Holds a length against the limit, in whole ticks.
    ///
    /// # Arguments
    /// `reading`: the length as measured (of a difference: the difference). Measurement uncertainty is the
    /// caller's business.
    pub fn judge(&self, reading: Size) -> Outcome {
        let (least, most) = match (&self.value, self.compare) {
            (LimitValue::Size(value), Compare::Max) => (None, Some(*value)),
            (LimitValue::Size(value), Compare::Min) => (Some(*value), None),
            (LimitValue::Size(value), Compare::Set) => (Some(*value), Some(*value)),
            (LimitValue::SizeRange(least, most), _) => (Some(*least), Some(*most)),
            _ => return self.wrong_sort(),
        };
        match (least, most) {
            (Some(least), _) if self.is_past(least.cmp(&reading)) => {
                self.past(least.checked_sub(reading))
            }
            (_, Some(most)) if self.is_past(reading.cmp(&most)) => {
                self.past(reading.checked_sub(most))
            }
            _ => Outcome::Passes,
        }
    }

    /// Holds a number in the limit's unit against the limit; for "none allowed", how many were found.
    pub fn judge_number(&self, reading: Fraction) -> Outcome<Fraction> {
        let none = Fraction::from_integer(0);
        let (least, most) = match (&self.value, self.compare) {
            (LimitValue::Number(value), Compare::Max) => (None, Some(*value)),
            (LimitValue::Number(value), Compare::Min) => (Some(*value), None),
            (LimitValue::Number(value), Compare::Set) => (Some(*value), Some(*value)),
            (LimitValue::NumberRange(least, most), _) => (Some(*least), Some(*most)),
            (LimitValue::CountNone, _) => (None, Some(none)),
            _ => return self.wrong_sort(),
        };
        match (least, most) {
            (Some(least), _) if self.is_past(least.cmp(&reading)) => {
                self.past(least.checked_sub(&reading))
            }
            (_, Some(most)) if self.is_past(reading.cmp(&most)) => {
                self.past(reading.checked_sub(&most))
            }
            _ => Outcome::Passes,
        }
    }

    /// Whether an order of (outer, inner) puts the reading past the value.
    fn is_past(&self, order: std::cmp::Ordering) -> bool {
        order.is_gt() || (order.is_eq() && self.at_value == AtValue::Fails)
    }

    /// Outside by a distance; a reading too far off to reckon with is no reading.
    fn past<T>(&self, distance: Option<T>) -> Outcome<T> {
        match distance {
            Some(by) => Outcome::Fails { by },
            None => Outcome::CannotTell {
                needs: format!("{} within what can be reckoned", self.subject),
            },
        }
    }

    fn wrong_sort<T>(&self) -> Outcome<T> {
        let needs = match self.value {
            LimitValue::Size(_) | LimitValue::SizeRange(..) => {
                format!("{} as a length", self.subject)
            }
            LimitValue::Number(_) | LimitValue::NumberRange(..) => {
                format!("{} in {}", self.subject, self.unit)
            }
            LimitValue::CountNone => format!("how many {} were found", self.unit),
        };
        Outcome::CannotTell { needs }
    }

    /// The limit as a person reads it: "at most 1/4 in", "53 in to 53 3/8 in", "no leaks".
    pub fn words(&self) -> String {
        let unit = match self.value {
            LimitValue::Number(_) | LimitValue::NumberRange(..) => format!(" {}", self.unit),
            _ => String::new(),
        };
        match (&self.value, self.compare, self.at_value) {
            (LimitValue::CountNone, ..) => format!("no {}", self.unit),
            (_, Compare::Range, AtValue::Passes) => format!("{}{unit}", self.written),
            (_, Compare::Range, AtValue::Fails) => {
                format!("{}{unit}, neither end included", self.written)
            }
            (_, Compare::Set, _) => format!("exactly {}{unit}", self.written),
            (_, Compare::Max, AtValue::Passes) => format!("at most {}{unit}", self.written),
            (_, Compare::Max, AtValue::Fails) => format!("under {}{unit}", self.written),
            (_, Compare::Min, AtValue::Passes) => format!("at least {}{unit}", self.written),
            (_, Compare::Min, AtValue::Fails) => format!("over {}{unit}", self.written),
        }
    }
}
