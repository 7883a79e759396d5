//! The small grammar in which every card prints its formula, and the tree it is read into.
//!
//! A formula is one statement a line, `name = expression`, worked from the top down; a line may use
//! the names above it. The signs are `+ - * / ^ ( )`, the numbers are plain decimals, and the
//! functions are those of [`Function`]. Angles are in **degrees**, as on a shop calculator.
//!
//! One tree serves everybody: the evaluator of the tests, the page that puts numbers in place of
//! letters, and [`Shape`], from which the same formula is set on a screen, on paper and in spoken
//! words. So what is printed and what is checked cannot drift apart.

mod evaluate;
pub(crate) mod mathml;
mod name;
mod parse;
mod print;
mod shape;
mod spoken;

pub(crate) use evaluate::to_places;
pub use evaluate::{EvaluateError, evaluate};
pub use parse::{ParseError, expression, formula};
pub use print::significant;
pub use shape::Shape;

/// A number in a formula, kept as it was written beside its value.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// The digits as written: `0.020` stays `0.020`.
    pub text: String,
    /// The value of those digits.
    pub value: f64,
}

/// The two-handed operations.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operation {
    /// `a + b`
    Add,
    /// `a - b`
    Subtract,
    /// `a * b`
    Multiply,
    /// `a / b`
    Divide,
    /// `a ^ b`, worked from the right: `2^3^2` is 2 to the ninth.
    Power,
}

/// The functions a formula may call. Angles go in and come out in degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Function {
    /// Square root of a number not below zero.
    Sqrt,
    /// Cube root.
    Cbrt,
    /// Size without sign.
    Abs,
    /// The least of two or more.
    Min,
    /// The greatest of two or more.
    Max,
    /// Sine of degrees.
    Sin,
    /// Cosine of degrees.
    Cos,
    /// Tangent of degrees.
    Tan,
    /// The angle, -90 to 90 degrees, whose sine is given.
    Asin,
    /// The angle, 0 to 180 degrees, whose cosine is given.
    Acos,
    /// The angle, -90 to 90 degrees, whose tangent is given.
    Atan,
    /// `round(x, n)`: x to n decimal places, halves away from zero, as a printed table is made.
    Round,
}

impl Function {
    /// Every function with the word that calls it.
    pub const ALL: [(Function, &'static str); 12] = [
        (Function::Sqrt, "sqrt"),
        (Function::Cbrt, "cbrt"),
        (Function::Abs, "abs"),
        (Function::Min, "min"),
        (Function::Max, "max"),
        (Function::Sin, "sin"),
        (Function::Cos, "cos"),
        (Function::Tan, "tan"),
        (Function::Asin, "asin"),
        (Function::Acos, "acos"),
        (Function::Atan, "atan"),
        (Function::Round, "round"),
    ];

    /// The word that calls this function in a formula.
    pub fn word(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(f, _)| *f == self)
            .map_or("", |(_, word)| word)
    }

    /// The function a word calls, if it is one.
    pub fn from_word(word: &str) -> Option<Function> {
        Self::ALL.iter().find(|(_, w)| *w == word).map(|(f, _)| *f)
    }

    /// How few and how many arguments the function takes.
    pub fn arguments(self) -> (usize, usize) {
        match self {
            Function::Min | Function::Max => (2, 8),
            Function::Round => (2, 2),
            _ => (1, 1),
        }
    }
}

/// One expression.
#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    /// A number as written.
    Number(Number),
    /// A letter or name that stands for a value.
    Symbol(String),
    /// The ratio of a circle's round to its diameter, written `pi`.
    Pi,
    /// `-x`
    Negative(Box<Expression>),
    /// Two expressions and what is done with them.
    Binary(Operation, Box<Expression>, Box<Expression>),
    /// A function and its arguments.
    Call(Function, Vec<Expression>),
}

impl Expression {
    /// Every symbol used, in reading order, with repeats.
    pub fn symbols(&self) -> Vec<&str> {
        let mut found = Vec::new();
        self.gather(&mut found);
        found
    }

    fn gather<'a>(&'a self, found: &mut Vec<&'a str>) {
        match self {
            Expression::Number(_) | Expression::Pi => {}
            Expression::Symbol(name) => found.push(name),
            Expression::Negative(inner) => inner.gather(found),
            Expression::Binary(_, left, right) => {
                left.gather(found);
                right.gather(found);
            }
            Expression::Call(_, arguments) => {
                for argument in arguments {
                    argument.gather(found);
                }
            }
        }
    }
}

/// One line of a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Statement {
    /// The name the line gives its value to.
    pub name: String,
    /// How the value is found.
    pub expression: Expression,
}

/// A whole formula: its lines in the order they are worked.
#[derive(Debug, Clone, PartialEq)]
pub struct Formula {
    /// The lines, first worked first.
    pub lines: Vec<Statement>,
}
