//! Works an expression out in numbers, saying in words why it cannot when it cannot.

use super::{Expression, Function, Operation};
use measure::math;

/// Why an expression has no value.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EvaluateError {
    /// A symbol has no value given to it.
    #[error("{symbol} has no value")]
    Unknown {
        /// The symbol.
        symbol: String,
    },
    /// The arithmetic has no real, finite answer.
    #[error("{what} has no answer in numbers")]
    NoAnswer {
        /// The part that failed, as written.
        what: String,
    },
}

/// The value of `expression`, each symbol's value taken from `lookup`. Angles in degrees.
///
/// # Errors
/// A symbol without a value, or arithmetic without a finite answer (a root of a negative number, a
/// sine above one, a division by zero).
pub fn evaluate(
    expression: &Expression,
    lookup: &dyn Fn(&str) -> Option<f64>,
) -> Result<f64, EvaluateError> {
    let value = match expression {
        Expression::Number(number) => number.value,
        Expression::Pi => std::f64::consts::PI,
        Expression::Symbol(symbol) => lookup(symbol).ok_or_else(|| EvaluateError::Unknown {
            symbol: symbol.clone(),
        })?,
        Expression::Negative(inner) => -evaluate(inner, lookup)?,
        Expression::Binary(operation, left, right) => {
            let (a, b) = (evaluate(left, lookup)?, evaluate(right, lookup)?);
            match operation {
                Operation::Add => a + b,
                Operation::Subtract => a - b,
                Operation::Multiply => a * b,
                Operation::Divide => a / b,
                Operation::Power => math::pow(a, b),
            }
        }
        Expression::Call(function, arguments) => {
            let values = arguments
                .iter()
                .map(|a| evaluate(a, lookup))
                .collect::<Result<Vec<_>, _>>()?;
            call(*function, &values)
        }
    };
    if value.is_finite() {
        Ok(value)
    } else {
        Err(EvaluateError::NoAnswer {
            what: expression.to_string(),
        })
    }
}

/// One function. The parser has seen to the count of arguments; a wrong count gives no number.
fn call(function: Function, values: &[f64]) -> f64 {
    let first = values.first().copied().unwrap_or(f64::NAN);
    match function {
        Function::Sqrt => math::sqrt(first),
        Function::Cbrt => math::cbrt(first),
        Function::Abs => first.abs(),
        Function::Min => values.iter().copied().fold(f64::INFINITY, f64::min),
        Function::Max => values.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        Function::Sin => math::sin(first.to_radians()),
        Function::Cos => math::cos(first.to_radians()),
        Function::Tan => math::tan(first.to_radians()),
        Function::Asin => math::asin(first).to_degrees(),
        Function::Acos => math::acos(first).to_degrees(),
        Function::Atan => math::atan(first).to_degrees(),
        Function::Round => to_places(first, values.get(1).copied().unwrap_or(f64::NAN)),
    }
}

/// `value` to `places` decimal places, halves away from zero. A value that binary arithmetic leaves
/// a hair below a half is taken as the half it stands for, so that 0.00625 to four places is 0.0063.
pub(crate) fn to_places(value: f64, places: f64) -> f64 {
    let scale = math::pow(10.0, places);
    let scaled = value.abs() * scale;
    let whole = (scaled + 0.5 + 1e-9 * scaled.max(1.0)).floor();
    (whole / scale).copysign(value)
}
