//! A value held against a figure of law or of the shop that came in as an argument, in the three words there are.
//!
//! This crate has no limits of its own. A figure that nobody gave leaves the answer open, and so does a reading that
//! is wanting: missing never helps.

use crate::answer::{Answer, Outcome, cannot_tell};
use crate::card::Argument;
use crate::readings::more;
use measure::{Dimension, Length};

/// What a sheet says where the figure it was to hold a reading against was not given.
pub const NOT_GIVEN: &str = "A limit was not given, and this sheet knows none of its own: it stands in the law in \
    force or in the shop's own rules.";

/// Where a result comes from that stands to a figure given.
pub const FIGURE: &str = "the figure given";

/// What a length keeps of the most it may be, and the share of it that is used, as `left` and `used`; that no figure was
/// given, where none was.
pub fn spare(mut answer: Answer, value: f64, most: Option<f64>) -> Answer {
    let Some(most) = most else {
        answer.notices.push(NOT_GIVEN.to_owned());
        return answer;
    };
    answer
        .with("left", Length::m(more(most, value)))
        .with("used", Outcome::Si(value / most))
}

/// How a value may stand to a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// Not more than the figure: the figure itself passes.
    AtMost,
    /// Less than the figure: the figure itself fails.
    Below,
    /// Not less than the figure: the figure itself passes.
    AtLeast,
    /// More than the figure: the figure itself fails.
    Above,
}

impl Bound {
    /// Whether `value` keeps to `figure`, both in one unit. The dust of arithmetic, far below a tick of 2.5 nm, counts
    /// neither way, so that a reading at the figure is at the figure.
    pub fn holds(self, value: f64, figure: f64) -> bool {
        let dust = 1e-10 * value.abs().max(figure.abs());
        match self {
            Bound::AtMost => value <= figure + dust,
            Bound::Below => value < figure - dust,
            Bound::AtLeast => value >= figure - dust,
            Bound::Above => value > figure + dust,
        }
    }
}

/// What was held so far: what failed, and what is missing.
#[derive(Debug, Clone, Default)]
pub struct Held {
    tried: bool,
    fails: Vec<String>,
    needs: Vec<String>,
}

impl Held {
    /// Holds one value against one figure; each stands beside the name of the argument that gives it, so that what is
    /// missing can be named.
    #[must_use]
    pub fn hold(
        mut self,
        what: &str,
        (value, value_from): (Option<f64>, &str),
        bound: Bound,
        (figure, figure_from): (Option<f64>, &str),
    ) -> Held {
        match (value, figure) {
            (Some(value), Some(figure)) => {
                self.tried = true;
                if !bound.holds(value, figure) {
                    self.fails.push(what.to_owned());
                }
                self
            }
            (value, figure) => {
                let missing = [(value, value_from), (figure, figure_from)];
                missing
                    .into_iter()
                    .filter(|(given, _)| given.is_none())
                    .fold(self, |held, (_, from)| held.need(from))
            }
        }
    }

    /// Says of something that it fails whatever the figures are.
    #[must_use]
    pub fn fail(mut self, what: &str) -> Held {
        self.tried = true;
        self.fails.push(what.to_owned());
        self
    }

    /// Says that something is missing.
    #[must_use]
    pub fn need(mut self, need: &str) -> Held {
        if !self.needs.iter().any(|known| known == need) {
            self.needs.push(need.to_owned());
        }
        self
    }

    /// *complies*, *fails* with what does, or *cannot tell* with what is missing. What fails, fails, whatever else is
    /// missing.
    pub fn words(&self) -> String {
        if !self.fails.is_empty() {
            format!("fails: {}", self.fails.join(", "))
        } else if self.needs.is_empty() && self.tried {
            "complies".to_owned()
        } else {
            cannot_tell(&self.needs)
        }
    }
}

/// An argument that is a figure of law or of the shop: it may be left out and never has a default.
pub const fn figure(
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    least: &'static str,
    most: &'static str,
    meaning: &'static str,
) -> Argument {
    Argument::quantity(name, symbol, dimension, least, most, meaning).optional()
}
