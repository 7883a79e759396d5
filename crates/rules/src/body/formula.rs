//! Limits that the law gives by a formula: worked from facts of the engine, exactly, then rounded to the tick in the
//! direction that lets no reading through.

use std::collections::BTreeMap;

use measure::{Fraction, Rounding, Size, fraction};

use super::{AtValue, Compare, Limit, LimitValue};
use crate::RulebookError;
use crate::expression::Expression;

/// A fact a formula needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// Its name in the formula: `working_pressure`.
    pub name: String,
    /// Its unit: `psi`.
    pub unit: String,
    /// What it is.
    pub meaning: String,
    /// A value to show the formula with; no engine's.
    pub example: Fraction,
}

/// A limit worked from facts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitFormula {
    /// What is measured (see [`Limit::quantity`]).
    pub quantity: String,
    /// What is limited.
    pub subject: String,
    /// How and where it is measured.
    pub measured: String,
    /// Circumstances under which it applies (see [`Limit::when`]).
    pub when: Vec<String>,
    /// On which side a reading must lie.
    pub compare: Compare,
    /// Whether the value itself passes.
    pub at_value: AtValue,
    /// The unit of the result; "in" for a length.
    pub unit: String,
    /// Whether a reading outside it keeps the engine out of service.
    pub grounds: bool,
    /// The formula as written.
    pub written: String,
    /// The facts it needs, each of them above zero.
    pub facts: Vec<Fact>,
    pub(crate) formula: Expression,
}

impl LimitFormula {
    /// Works the formula, exactly, in the limit's unit.
    ///
    /// # Arguments
    /// `given`: each fact of [`LimitFormula::facts`] by name, in its unit.
    ///
    /// # Errors
    /// When a fact is missing, zero or less, or the formula does not come to a number above zero: then there is no
    /// limit on file for such an engine.
    pub fn work(&self, given: &[(&str, Fraction)]) -> Result<Fraction, RulebookError> {
        let none = Fraction::from_integer(0);
        let facts: BTreeMap<&str, Fraction> = given.iter().copied().collect();
        for fact in &self.facts {
            match facts.get(fact.name.as_str()) {
                None => {
                    return Err(self.fault(format!("needs {} in {}", fact.meaning, fact.unit)));
                }
                Some(value) if *value <= none => {
                    return Err(self.fault(format!(
                        "{} was given as {value} {}; it must be above zero",
                        fact.meaning, fact.unit
                    )));
                }
                Some(_) => {}
            }
        }
        let value = self.formula.work(&facts).map_err(|e| self.fault(e))?;
        if value <= none {
            return Err(self.fault(format!("the formula comes to {value}, not above zero")));
        }
        Ok(value)
    }

    /// The limit for an engine. A length is rounded to a whole tick (2.5 nm) on the side where no reading gains by
    /// it: since readings are whole ticks too, every reading is judged as against the exact value.
    ///
    /// # Errors
    /// As [`LimitFormula::work`].
    pub fn limit_for(&self, given: &[(&str, Fraction)]) -> Result<Limit, RulebookError> {
        let exact = self.work(given)?;
        let (value, written) = if self.unit == "in" {
            let size = self.whole(exact)?;
            (LimitValue::Size(size), format!("{} in", self.shown(exact)))
        } else {
            (LimitValue::Number(exact), self.shown(exact))
        };
        Ok(Limit {
            quantity: self.quantity.clone(),
            subject: self.subject.clone(),
            measured: self.measured.clone(),
            when: self.when.clone(),
            compare: self.compare,
            value,
            written,
            at_value: self.at_value,
            unit: self.unit.clone(),
            grounds: self.grounds,
            together_with: None,
        })
    }

    /// The facts' examples, to show the formula with.
    pub fn examples(&self) -> Vec<(&str, Fraction)> {
        self.facts
            .iter()
            .map(|f| (f.name.as_str(), f.example))
            .collect()
    }

    fn whole(&self, exact: Fraction) -> Result<Size, RulebookError> {
        use num_traits::CheckedMul as _;
        let ticks = exact
            .checked_mul(&Fraction::from_integer(i128::from(Size::TICKS_PER_INCH)))
            .ok_or_else(|| self.fault("the length is too large to reckon with".into()))?;
        // Not more than x: the whole ticks that are not more than x. Under x: the same, but x itself is kept whole.
        let up = match (self.compare, self.at_value) {
            (Compare::Max, AtValue::Passes) | (Compare::Min, AtValue::Fails) => false,
            (Compare::Max, AtValue::Fails) | (Compare::Min, AtValue::Passes) => true,
            (Compare::Set | Compare::Range, _) => true,
        };
        let whole = if up { ticks.ceil() } else { ticks.floor() };
        i64::try_from(whole.to_integer())
            .map(Size::from_ticks)
            .map_err(|_| self.fault("the length is too large to reckon with".into()))
    }

    /// A shop fraction where it is one, else four decimals rounded to the safe side.
    fn shown(&self, exact: Fraction) -> String {
        if 64 % exact.denom() == 0 {
            return fraction::mixed(exact);
        }
        let rounding = match self.compare {
            Compare::Max => Rounding::Down,
            Compare::Min => Rounding::Up,
            Compare::Set | Compare::Range => Rounding::Nearest,
        };
        fraction::decimal(exact, 4, rounding)
    }

    fn fault(&self, problem: String) -> RulebookError {
        RulebookError::NoFigure {
            subject: self.subject.clone(),
            problem,
        }
    }
}
