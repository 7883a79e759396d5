//! What a law answers: the results of its own function, the table rows it used, and what must be said.

use crate::card::{Measure, Symbol};
use measure::{
    Angle, Area, Flow, Force, Heat, House, Length, Mass, Stress, TemperatureRise, Torque, Unit,
};
use std::borrow::Borrow;

/// One result.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A quantity, in SI.
    Si(f64),
    /// Words.
    Text(String),
    /// A small table: headings and rows.
    Table {
        /// The headings.
        columns: Vec<String>,
        /// The rows, each as long as the headings.
        rows: Vec<Vec<String>>,
    },
}

impl From<Length> for Outcome {
    fn from(length: Length) -> Self {
        Outcome::Si(length.to_m())
    }
}

impl From<Angle> for Outcome {
    fn from(angle: Angle) -> Self {
        Outcome::Si(angle.to_radians())
    }
}

impl From<Area> for Outcome {
    fn from(area: Area) -> Self {
        Outcome::Si(measure::Unit::SqInch.to_si(area.to_sq_in()))
    }
}

impl From<Stress> for Outcome {
    fn from(stress: Stress) -> Self {
        Outcome::Si(stress.to_pascals())
    }
}

impl From<Force> for Outcome {
    fn from(force: Force) -> Self {
        Outcome::Si(force.to_newtons())
    }
}

impl From<Torque> for Outcome {
    fn from(torque: Torque) -> Self {
        Outcome::Si(torque.to_newton_m())
    }
}

impl From<Mass> for Outcome {
    fn from(mass: Mass) -> Self {
        Outcome::Si(mass.to_kg())
    }
}

impl From<Flow> for Outcome {
    fn from(flow: Flow) -> Self {
        Outcome::Si(flow.to_kg_per_s())
    }
}

impl From<Heat> for Outcome {
    fn from(heat: Heat) -> Self {
        Outcome::Si(heat.to_j_per_kg())
    }
}

impl From<TemperatureRise> for Outcome {
    fn from(rise: TemperatureRise) -> Self {
        Outcome::Si(rise.to_c_degrees())
    }
}

impl From<String> for Outcome {
    fn from(text: String) -> Self {
        Outcome::Text(text)
    }
}

/// A value taken out of a table, as the book prints it.
#[derive(Debug, Clone)]
pub struct TableValue {
    /// Which symbol of the card it is.
    pub symbol: Symbol,
    /// The value in the symbol's own unit (in SI where the unit is one the house converts).
    pub value: f64,
    /// The figure as the book prints it.
    pub printed: String,
    /// The table and the row.
    pub row: String,
}

impl TableValue {
    /// `value`, in the symbol's own unit of the inch books (inches where the symbol is a length), out
    /// of `row`.
    pub fn inch_book(symbol: Symbol, value: f64, row: impl Into<String>) -> TableValue {
        let (si, unit) = match symbol.measure {
            Measure::Of(dimension) => {
                let unit = Unit::of(dimension, House::Inch);
                (unit.to_si(value), unit.symbol())
            }
            Measure::Named(_) => (value, ""),
        };
        let printed = crate::formula::significant(value);
        TableValue {
            symbol,
            value: si,
            printed: format!("{printed} {unit}").trim_end().to_owned(),
            row: row.into(),
        }
    }
}

/// A value taken for granted because it was not given, said aloud.
#[derive(Debug, Clone)]
pub struct Assumption {
    /// The argument.
    pub argument: &'static str,
    /// The value, as a person would type it.
    pub text: &'static str,
    /// The value in SI.
    pub si: f64,
    /// Why it may be taken.
    pub why: &'static str,
}

/// All that a law answers. A result left out for want of an optional argument becomes *cannot tell*.
#[derive(Debug, Clone, Default)]
pub struct Answer {
    /// Which of the card's branches this case is.
    pub branch: &'static str,
    /// Results by name.
    pub results: Vec<(&'static str, Outcome)>,
    /// Table rows used.
    pub table_values: Vec<TableValue>,
    /// Values found by trial or choice, each proved by the formula it stands in; their `row` says how.
    pub found: Vec<TableValue>,
    /// What was taken for granted.
    pub assumptions: Vec<Assumption>,
    /// What this case in particular makes a person ask or look at.
    pub notices: Vec<String>,
}

impl Answer {
    /// An answer for one branch, nothing said yet.
    pub fn new(branch: &'static str) -> Answer {
        Answer {
            branch,
            ..Answer::default()
        }
    }

    /// Adds a result.
    #[must_use]
    pub fn with(mut self, name: &'static str, outcome: impl Into<Outcome>) -> Answer {
        self.results.push((name, outcome.into()));
        self
    }

    /// Says of each of these results what it waits for.
    #[must_use]
    pub fn waiting(self, results: &[&'static str], needs: &[&str]) -> Answer {
        let said = cannot_tell(needs);
        results
            .iter()
            .fold(self, |answer, name| answer.with(name, said.clone()))
    }

    /// The result called `name`, if the law gave it.
    pub fn result(&self, name: &str) -> Option<&Outcome> {
        self.results
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, outcome)| outcome)
    }
}

/// What is said where something is missing; `needs` are the names of what is.
pub fn cannot_tell<S: Borrow<str>>(needs: &[S]) -> String {
    format!("cannot tell: needs {}", needs.join(", "))
}

/// The difference of two SI values, without the dust that subtracting leaves: where it lies within rounding of a
/// millionth of the unit of either house, that millionth is what was meant. Without this 206 psi less 199.5 psi is
/// a hair over 6.5 and is rounded up to 6.6.
pub fn less(from: f64, take: f64, dimension: measure::Dimension) -> f64 {
    let difference = from - take;
    let dust = 1e-14 * from.abs().max(take.abs());
    for house in [House::Inch, House::Metric] {
        let unit = Unit::of(dimension, house);
        let meant = unit.to_si((unit.from_si(difference) * 1e6).round() / 1e6);
        if (meant - difference).abs() <= dust {
            return meant;
        }
    }
    difference
}
