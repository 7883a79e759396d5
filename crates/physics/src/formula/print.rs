//! Prints the tree so that it reads back as the same tree, and puts numbers in place of symbols.

use super::{Expression, Number, Operation, Statement};
use std::fmt;

/// How tightly each form binds; brackets are printed only where a looser form stands inside a
/// tighter one.
const SUM: u8 = 1;
const PRODUCT: u8 = 2;
const SIGN: u8 = 3;
const POWER: u8 = 4;
const ATOM: u8 = 5;

fn binding(expression: &Expression) -> u8 {
    match expression {
        Expression::Number(_) | Expression::Symbol(_) | Expression::Pi | Expression::Call(_, _) => {
            ATOM
        }
        Expression::Negative(_) => SIGN,
        Expression::Binary(operation, _, _) => operation_binding(*operation),
    }
}

fn operation_binding(operation: Operation) -> u8 {
    match operation {
        Operation::Add | Operation::Subtract => SUM,
        Operation::Multiply | Operation::Divide => PRODUCT,
        Operation::Power => POWER,
    }
}

fn within(f: &mut fmt::Formatter<'_>, inner: &Expression, least: u8) -> fmt::Result {
    if binding(inner) >= least {
        write!(f, "{inner}")
    } else {
        write!(f, "({inner})")
    }
}

impl fmt::Display for Expression {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Expression::Number(number) => f.write_str(&number.text),
            Expression::Symbol(name) => f.write_str(name),
            Expression::Pi => f.write_str("pi"),
            Expression::Negative(inner) => {
                f.write_str("-")?;
                within(f, inner, SIGN)
            }
            Expression::Binary(operation, left, right) => {
                // The right side of a sum or product keeps its brackets, a - (b + c), and a minus
                // sign never follows another sign bare: a * (-b).
                let (sign, least_left, least_right) = match operation {
                    Operation::Add => (" + ", SUM, PRODUCT),
                    Operation::Subtract => (" - ", SUM, PRODUCT),
                    Operation::Multiply => (" * ", PRODUCT, POWER),
                    Operation::Divide => (" / ", PRODUCT, POWER),
                    Operation::Power => ("^", ATOM, POWER),
                };
                within(f, left, least_left)?;
                f.write_str(sign)?;
                if matches!(**right, Expression::Negative(_)) {
                    write!(f, "({right})")
                } else {
                    within(f, right, least_right)
                }
            }
            Expression::Call(function, arguments) => {
                write!(f, "{}(", function.word())?;
                for (at, argument) in arguments.iter().enumerate() {
                    let comma = if at == 0 { "" } else { ", " };
                    write!(f, "{comma}{argument}")?;
                }
                f.write_str(")")
            }
        }
    }
}

impl fmt::Display for Statement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} = {}", self.name, self.expression)
    }
}

impl Expression {
    /// The same expression with numbers in place of the symbols `lookup` knows, nine significant
    /// digits each: what a second person needs to redo the line.
    pub fn substituted(&self, lookup: &dyn Fn(&str) -> Option<f64>) -> Expression {
        let put = |inner: &Expression| Box::new(inner.substituted(lookup));
        match self {
            Expression::Number(_) | Expression::Pi => self.clone(),
            Expression::Symbol(name) => lookup(name).map_or_else(|| self.clone(), number),
            Expression::Negative(inner) => Expression::Negative(put(inner)),
            Expression::Binary(operation, left, right) => {
                Expression::Binary(*operation, put(left), put(right))
            }
            Expression::Call(function, arguments) => Expression::Call(
                *function,
                arguments
                    .iter()
                    .map(|argument| argument.substituted(lookup))
                    .collect(),
            ),
        }
    }
}

fn number(value: f64) -> Expression {
    let text = significant(value.abs());
    let written = Expression::Number(Number {
        value: text.parse().unwrap_or(value.abs()),
        text,
    });
    if value < 0.0 {
        Expression::Negative(Box::new(written))
    } else {
        written
    }
}

/// `value` in plain decimals to nine significant digits, trailing zeros dropped: `0.00176776695`.
/// Never in powers of ten, which few people read with ease at a bench.
pub fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return if value == 0.0 {
            "0".to_owned()
        } else {
            "no number".to_owned()
        };
    }
    // The exponent is read from the printed form, so that 9.9999999996 counts as 10.
    let printed = format!("{value:.8e}");
    let power: i32 = printed
        .split_once('e')
        .and_then(|(_, p)| p.parse().ok())
        .unwrap_or(0);
    let decimals = usize::try_from((8 - power).clamp(0, 30)).unwrap_or(0);
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}
