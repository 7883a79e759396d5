//! The formula as it is set in type: fractions, roots, powers, letters with their indices, and exactly
//! the brackets that are still needed once a bar or a root holds its own parts together.
//!
//! Every way of setting a formula starts here: MathML for pages (`mathml.rs`), words for the ear
//! (`spoken.rs`), and a typesetter's template, which reads a [`Shape`] as JSON.

use super::name::symbol;
use super::{Expression, Function, Operation, Statement};
use serde::Serialize;

/// What a formula looks like. As JSON each is an object with its `kind`: `{"kind":"fraction",...}`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Shape {
    /// A number, its digits as written.
    Number {
        /// The digits.
        text: String,
    },
    /// A letter or short word that stands for a value. A name spelled out as a Greek letter is that
    /// letter: `alpha_w` is α with the index w.
    Symbol {
        /// The letter or word.
        base: String,
        /// What stands low beside it; several parts are parted by commas.
        sub: Option<String>,
    },
    /// The ratio of a circle's round to its diameter.
    Pi,
    /// A number of degrees: a plain number where only an angle can stand.
    Degrees {
        /// The number.
        of: Box<Shape>,
    },
    /// Things side by side.
    Row {
        /// From the left.
        of: Vec<Shape>,
    },
    /// One of `=`, `+`, `−`, `×`.
    Sign {
        /// The character.
        sign: &'static str,
    },
    /// One thing over another with a bar between. The bar holds them: neither needs brackets.
    Fraction {
        /// Above the bar.
        above: Box<Shape>,
        /// Below the bar.
        below: Box<Shape>,
    },
    /// A root.
    Root {
        /// None for a square root, 3 for a cube root.
        index: Option<u8>,
        /// Under the roof.
        of: Box<Shape>,
    },
    /// A power.
    Power {
        /// What is raised.
        base: Box<Shape>,
        /// How far, set high and small: it needs no brackets.
        exponent: Box<Shape>,
    },
    /// Something in round brackets.
    Brackets {
        /// Inside.
        of: Box<Shape>,
    },
    /// Size without sign, between upright bars.
    Absolute {
        /// Inside.
        of: Box<Shape>,
    },
    /// A function by its word, and what it is of: brackets, or one thing that needs none.
    Call {
        /// The word, upright: `sin`, `arctan`, `max`, `round`.
        word: &'static str,
        /// What stands after it.
        of: Box<Shape>,
    },
    /// Several things parted by commas; always inside the brackets of a call.
    List {
        /// In order.
        of: Vec<Shape>,
    },
}

/// The sign of equality.
pub(super) const EQUALS: Shape = Shape::Sign { sign: "=" };
const PLUS: Shape = Shape::Sign { sign: "+" };
const MINUS: Shape = Shape::Sign { sign: "\u{2212}" };
const TIMES: Shape = Shape::Sign { sign: "×" };

impl Statement {
    /// The line as it is set: its name, the sign of equality, the expression.
    pub fn shape(&self) -> Shape {
        let mut of = vec![symbol(&self.name), EQUALS];
        of.extend(parts(self.expression.shape()));
        Shape::Row { of }
    }
}

impl Expression {
    /// The expression as it is set. Numbers in place of letters are set like any others.
    pub fn shape(&self) -> Shape {
        set(self, false)
    }
}

/// How tightly a form holds together as it is set. A bar, a roof or upright bars hold like one letter.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Hold {
    Sum,
    Product,
    Sign,
    /// A function followed by what it is of without brackets, or a power.
    Tail,
    Whole,
}

fn hold(expression: &Expression) -> Hold {
    match expression {
        Expression::Binary(Operation::Add | Operation::Subtract, _, _) => Hold::Sum,
        Expression::Binary(Operation::Multiply, _, _) => Hold::Product,
        Expression::Negative(_) => Hold::Sign,
        Expression::Binary(Operation::Power, _, _) => Hold::Tail,
        Expression::Call(Function::Sqrt | Function::Cbrt | Function::Abs, _) => Hold::Whole,
        Expression::Call(_, _) => Hold::Tail,
        _ => Hold::Whole,
    }
}

/// Sets `expression`. `angle` says that it stands where only degrees can.
fn set(expression: &Expression, angle: bool) -> Shape {
    match expression {
        Expression::Number(number) => {
            let plain = Shape::Number {
                text: number.text.clone(),
            };
            if angle {
                Shape::Degrees {
                    of: Box::new(plain),
                }
            } else {
                plain
            }
        }
        Expression::Symbol(name) => symbol(name),
        Expression::Pi => Shape::Pi,
        Expression::Negative(inner) => {
            let mut of = vec![MINUS];
            // A second sign never follows the first bare.
            of.extend(parts(held(inner, Hold::Tail, angle)));
            Shape::Row { of }
        }
        Expression::Binary(operation, left, right) => binary(*operation, left, right, angle),
        Expression::Call(function, arguments) => call(*function, arguments, angle),
    }
}

fn binary(operation: Operation, left: &Expression, right: &Expression, angle: bool) -> Shape {
    // In a sum of angles each number is degrees; in a product one cannot say which is.
    let (sign, left, right) = match operation {
        Operation::Divide => {
            return Shape::Fraction {
                above: Box::new(set(left, false)),
                below: Box::new(set(right, false)),
            };
        }
        Operation::Power => {
            let base = match (left, hold(left)) {
                // A bar under a power is read as part of it, so a fraction or root takes brackets.
                (Expression::Binary(_, _, _), _)
                | (Expression::Call(Function::Sqrt | Function::Cbrt, _), _) => {
                    brackets(set(left, false))
                }
                _ => held(left, Hold::Whole, false),
            };
            return Shape::Power {
                base: Box::new(base),
                exponent: Box::new(set(right, false)),
            };
        }
        Operation::Add => (
            PLUS,
            held(left, Hold::Sum, angle),
            held(right, Hold::Product, angle),
        ),
        Operation::Subtract => (
            MINUS,
            held(left, Hold::Sum, angle),
            held(right, Hold::Product, angle),
        ),
        Operation::Multiply => (
            TIMES,
            closed(held(left, Hold::Product, false)),
            held(right, Hold::Tail, false),
        ),
    };
    let right = if matches!(&right, Shape::Row { of } if of.first() == Some(&MINUS)) {
        brackets(right)
    } else {
        right
    };
    let mut of = parts(left);
    of.push(sign);
    of.extend(parts(right));
    Shape::Row { of }
}

/// `expression` with brackets if it holds less tightly than `least`.
fn held(expression: &Expression, least: Hold, angle: bool) -> Shape {
    if hold(expression) >= least {
        set(expression, angle)
    } else {
        brackets(set(expression, angle))
    }
}

/// A row whose last part is a function without brackets gets them, so that nothing that follows can
/// be read as belonging to the function: `sin(a) × b`, but `b × sin a`.
fn closed(shape: Shape) -> Shape {
    match shape {
        Shape::Call { word, of } if !matches!(*of, Shape::Brackets { .. }) => Shape::Call {
            word,
            of: Box::new(brackets(*of)),
        },
        Shape::Row { mut of } => {
            let last = of.pop().map(closed);
            of.extend(last);
            Shape::Row { of }
        }
        other => other,
    }
}

fn call(function: Function, arguments: &[Expression], angle: bool) -> Shape {
    let first = |angle| {
        let argument = arguments.first();
        Box::new(argument.map_or(Shape::Row { of: Vec::new() }, |a| set(a, angle)))
    };
    let (word, angles_in) = match function {
        Function::Sqrt | Function::Cbrt => {
            let index = (function == Function::Cbrt).then_some(3);
            let of = first(false);
            return Shape::Root { index, of };
        }
        Function::Abs => return Shape::Absolute { of: first(angle) },
        Function::Min | Function::Max | Function::Round => {
            let of = arguments.iter().map(|a| set(a, false)).collect();
            return Shape::Call {
                word: function.word(),
                of: Box::new(brackets(Shape::List { of })),
            };
        }
        Function::Sin | Function::Cos | Function::Tan => (function.word(), true),
        Function::Asin => ("arcsin", false),
        Function::Acos => ("arccos", false),
        Function::Atan => ("arctan", false),
    };
    let of = first(angles_in);
    let bare = arguments.first().is_some_and(|a| hold(a) == Hold::Whole);
    let of = if bare { of } else { Box::new(brackets(*of)) };
    Shape::Call { word, of }
}

fn brackets(shape: Shape) -> Shape {
    Shape::Brackets {
        of: Box::new(shape),
    }
}

fn parts(shape: Shape) -> Vec<Shape> {
    match shape {
        Shape::Row { of } => of,
        other => vec![other],
    }
}
