//! Reads formula text into the tree. A plain descent: sum, product, sign, power, atom.

use super::{Expression, Formula, Function, Number, Operation, Statement};

/// How deep brackets may nest. Formulas on cards use four or five; the bound keeps a hostile text
/// from exhausting the stack.
const DEEPEST: usize = 60;

/// Why a formula could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ParseError {
    /// Something stood where something else was expected.
    #[error("in '{text}' at place {place}: read '{found}', expected {expected}")]
    Unexpected {
        /// The text being read.
        text: String,
        /// The character at which reading stopped, counted from 1.
        place: usize,
        /// What stood there.
        found: String,
        /// What was expected there.
        expected: &'static str,
    },
    /// A function was given too few or too many arguments.
    #[error("in '{text}': {function} takes {least} to {most} arguments, read {count}")]
    Arguments {
        /// The text being read.
        text: String,
        /// The function's word.
        function: &'static str,
        /// The fewest it takes.
        least: usize,
        /// The most it takes.
        most: usize,
        /// How many were read.
        count: usize,
    },
    /// Brackets nested beyond reason.
    #[error("in '{text}': brackets are nested more than {DEEPEST} deep")]
    TooDeep {
        /// The text being read.
        text: String,
    },
}

/// Reads a whole formula: one `name = expression` on each line that is not blank.
///
/// # Errors
/// [`ParseError`] names the line, the place and what was expected there.
pub fn formula(text: &str) -> Result<Formula, ParseError> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    Ok(Formula {
        lines: lines.map(statement).collect::<Result<_, _>>()?,
    })
}

/// Reads one expression, all of it.
///
/// # Errors
/// [`ParseError`] says at which place reading stopped and what was expected there.
pub fn expression(text: &str) -> Result<Expression, ParseError> {
    let mut reader = Reader::new(text);
    let read = reader.sum()?;
    reader.end()?;
    Ok(read)
}

fn statement(text: &str) -> Result<Statement, ParseError> {
    let mut reader = Reader::new(text);
    let name = reader.name()?;
    if Function::from_word(&name).is_some() || name == "pi" {
        return Err(reader.unexpected_word(&name, "a name that is not a function's or pi"));
    }
    reader.sign('=', "'='")?;
    let expression = reader.sum()?;
    reader.end()?;
    Ok(Statement { name, expression })
}

struct Reader<'a> {
    text: &'a str,
    characters: Vec<char>,
    place: usize,
    depth: usize,
}

impl<'a> Reader<'a> {
    fn new(text: &'a str) -> Self {
        Reader {
            text,
            characters: text.chars().collect(),
            place: 0,
            depth: 0,
        }
    }

    fn peek(&mut self) -> Option<char> {
        while self
            .characters
            .get(self.place)
            .is_some_and(|c| c.is_whitespace())
        {
            self.place += 1;
        }
        self.characters.get(self.place).copied()
    }

    fn take_if(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.place += 1;
        }
        found
    }

    fn unexpected(&mut self, expected: &'static str) -> ParseError {
        let found = self.peek().map_or("the end".to_owned(), String::from);
        ParseError::Unexpected {
            text: self.text.to_owned(),
            place: self.place + 1,
            found,
            expected,
        }
    }

    fn unexpected_word(&self, word: &str, expected: &'static str) -> ParseError {
        ParseError::Unexpected {
            text: self.text.to_owned(),
            place: self.place + 1,
            found: word.to_owned(),
            expected,
        }
    }

    fn sign(&mut self, wanted: char, expected: &'static str) -> Result<(), ParseError> {
        if self.take_if(wanted) {
            Ok(())
        } else {
            Err(self.unexpected(expected))
        }
    }

    fn end(&mut self) -> Result<(), ParseError> {
        if self.peek().is_none() {
            Ok(())
        } else {
            Err(self.unexpected("a sign or the end"))
        }
    }

    fn name(&mut self) -> Result<String, ParseError> {
        if !self.peek().is_some_and(|c| c.is_ascii_alphabetic()) {
            return Err(self.unexpected("a name"));
        }
        Ok(self.run(|c| c.is_ascii_alphanumeric() || c == '_'))
    }

    fn run(&mut self, belongs: impl Fn(char) -> bool) -> String {
        let rest = self.characters.get(self.place..).unwrap_or_default();
        let taken: String = rest.iter().take_while(|c| belongs(**c)).collect();
        self.place += taken.chars().count();
        taken
    }

    fn sum(&mut self) -> Result<Expression, ParseError> {
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(ParseError::TooDeep {
                text: self.text.to_owned(),
            });
        }
        let mut left = self.product()?;
        loop {
            let operation = if self.take_if('+') {
                Operation::Add
            } else if self.take_if('-') {
                Operation::Subtract
            } else {
                self.depth -= 1;
                return Ok(left);
            };
            left = Expression::Binary(operation, Box::new(left), Box::new(self.product()?));
        }
    }

    fn product(&mut self) -> Result<Expression, ParseError> {
        let mut left = self.signed()?;
        loop {
            let operation = if self.take_if('*') {
                Operation::Multiply
            } else if self.take_if('/') {
                Operation::Divide
            } else {
                return Ok(left);
            };
            left = Expression::Binary(operation, Box::new(left), Box::new(self.signed()?));
        }
    }

    /// A sign binds looser than a power, as on paper: `-2^2` is minus four.
    fn signed(&mut self) -> Result<Expression, ParseError> {
        if !self.take_if('-') {
            return self.power();
        }
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(ParseError::TooDeep {
                text: self.text.to_owned(),
            });
        }
        let inner = self.signed()?;
        self.depth -= 1;
        Ok(Expression::Negative(Box::new(inner)))
    }

    fn power(&mut self) -> Result<Expression, ParseError> {
        let base = self.atom()?;
        if !self.take_if('^') {
            return Ok(base);
        }
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(ParseError::TooDeep {
                text: self.text.to_owned(),
            });
        }
        let exponent = self.signed()?;
        self.depth -= 1;
        Ok(Expression::Binary(
            Operation::Power,
            Box::new(base),
            Box::new(exponent),
        ))
    }

    fn atom(&mut self) -> Result<Expression, ParseError> {
        match self.peek() {
            Some('(') => {
                self.place += 1;
                let inner = self.sum()?;
                self.sign(')', "')'")?;
                Ok(inner)
            }
            Some(c) if c.is_ascii_digit() || c == '.' => self.number(),
            Some(c) if c.is_ascii_alphabetic() => self.word(),
            _ => Err(self.unexpected("a number, a name or '('")),
        }
    }

    fn number(&mut self) -> Result<Expression, ParseError> {
        let text = self.run(|c| c.is_ascii_digit() || c == '.');
        match text.parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(Expression::Number(Number { text, value })),
            _ => Err(self.unexpected_word(&text, "a plain decimal number")),
        }
    }

    fn word(&mut self) -> Result<Expression, ParseError> {
        let word = self.name()?;
        if word == "pi" {
            return Ok(Expression::Pi);
        }
        let Some(function) = Function::from_word(&word) else {
            return Ok(Expression::Symbol(word));
        };
        self.sign('(', "'(' after a function")?;
        let mut arguments = vec![self.sum()?];
        while self.take_if(',') {
            arguments.push(self.sum()?);
        }
        self.sign(')', "')'")?;
        let (least, most) = function.arguments();
        if (least..=most).contains(&arguments.len()) {
            return Ok(Expression::Call(function, arguments));
        }
        let (function, count) = (function.word(), arguments.len());
        Err(ParseError::Arguments {
            text: self.text.to_owned(),
            function,
            least,
            most,
            count,
        })
    }
}
