//! The arithmetic of a rule that gives its figure by a formula: sums, products, quotients and `min`, of numbers and
//! named facts, worked exactly in fractions so that a reading meets the result without rounding.

use std::collections::{BTreeMap, BTreeSet};

use measure::Fraction;
use num_traits::{CheckedAdd as _, CheckedDiv as _, CheckedMul as _, CheckedSub as _};

/// A formula, read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Expression {
    Number(Fraction),
    Fact(String),
    Sum(Box<Expression>, Box<Expression>),
    Less(Box<Expression>, Box<Expression>),
    Times(Box<Expression>, Box<Expression>),
    Over(Box<Expression>, Box<Expression>),
    Least(Box<Expression>, Box<Expression>),
}

/// How deep brackets may nest; the law's formulas need two.
const DEEPEST: usize = 16;

/// The longest formula read: a tree of it stays shallow.
const LONGEST: usize = 200;

impl Expression {
    /// Reads a formula: `min(required_wall * 25/100, 1/2)`.
    pub(crate) fn read(text: &str) -> Result<Expression, String> {
        if text.len() > LONGEST {
            return Err(format!("it is longer than {LONGEST} letters"));
        }
        let mut reader = Reader { rest: text.trim() };
        let read = reader.sum(0)?;
        if reader.rest.is_empty() {
            Ok(read)
        } else {
            Err(format!("`{}` was not expected", reader.rest))
        }
    }

    /// The facts it needs.
    pub(crate) fn facts(&self) -> BTreeSet<&str> {
        let mut found = BTreeSet::new();
        self.gather(&mut found);
        found
    }

    fn gather<'a>(&'a self, into: &mut BTreeSet<&'a str>) {
        match self {
            Expression::Number(_) => {}
            Expression::Fact(name) => {
                into.insert(name);
            }
            Expression::Sum(a, b)
            | Expression::Less(a, b)
            | Expression::Times(a, b)
            | Expression::Over(a, b)
            | Expression::Least(a, b) => {
                a.gather(into);
                b.gather(into);
            }
        }
    }

    /// Works it out. A divisor of zero or less is refused: in every formula of the law it is a stress that is left
    /// over, and there is none.
    pub(crate) fn work(&self, facts: &BTreeMap<&str, Fraction>) -> Result<Fraction, String> {
        let large = || String::from("the numbers are too large to reckon with");
        let both =
            |a: &Expression, b: &Expression| Ok::<_, String>((a.work(facts)?, b.work(facts)?));
        match self {
            Expression::Number(n) => Ok(*n),
            Expression::Fact(name) => facts
                .get(name.as_str())
                .copied()
                .ok_or_else(|| format!("`{name}` is not given")),
            Expression::Sum(a, b) => {
                let (a, b) = both(a, b)?;
                a.checked_add(&b).ok_or_else(large)
            }
            Expression::Less(a, b) => {
                let (a, b) = both(a, b)?;
                a.checked_sub(&b).ok_or_else(large)
            }
            Expression::Times(a, b) => {
                let (a, b) = both(a, b)?;
                a.checked_mul(&b).ok_or_else(large)
            }
            Expression::Over(a, b) => {
                let (a, b) = both(a, b)?;
                if b <= Fraction::from_integer(0) {
                    return Err(format!("what it divides by comes to {b}, not above zero"));
                }
                a.checked_div(&b).ok_or_else(large)
            }
            Expression::Least(a, b) => {
                let (a, b) = both(a, b)?;
                Ok(a.min(b))
            }
        }
    }
}

struct Reader<'a> {
    rest: &'a str,
}

impl<'a> Reader<'a> {
    fn take(&mut self, sign: char) -> bool {
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest.trim_start();
                true
            }
            None => false,
        }
    }

    fn expect(&mut self, sign: char) -> Result<(), String> {
        if self.take(sign) {
            Ok(())
        } else {
            Err(format!("`{sign}` was expected before `{}`", self.rest))
        }
    }

    fn sum(&mut self, depth: usize) -> Result<Expression, String> {
        if depth > DEEPEST {
            return Err("its brackets nest too deep".into());
        }
        let mut read = self.product(depth)?;
        loop {
            if self.take('+') {
                read = Expression::Sum(Box::new(read), Box::new(self.product(depth)?));
            } else if self.take('-') {
                read = Expression::Less(Box::new(read), Box::new(self.product(depth)?));
            } else {
                return Ok(read);
            }
        }
    }

    fn product(&mut self, depth: usize) -> Result<Expression, String> {
        let mut read = self.piece(depth)?;
        loop {
            if self.take('*') {
                read = Expression::Times(Box::new(read), Box::new(self.piece(depth)?));
            } else if self.take('/') {
                read = Expression::Over(Box::new(read), Box::new(self.piece(depth)?));
            } else {
                return Ok(read);
            }
        }
    }

    fn piece(&mut self, depth: usize) -> Result<Expression, String> {
        if self.take('(') {
            let inside = self.sum(depth + 1)?;
            self.expect(')')?;
            return Ok(inside);
        }
        let word = self.word(|c| c.is_ascii_lowercase() || c == '_');
        if word == "min" {
            self.expect('(')?;
            let a = self.sum(depth + 1)?;
            self.expect(',')?;
            let b = self.sum(depth + 1)?;
            self.expect(')')?;
            return Ok(Expression::Least(Box::new(a), Box::new(b)));
        }
        if !word.is_empty() {
            return Ok(Expression::Fact(word.to_owned()));
        }
        let number = self.word(|c| c.is_ascii_digit() || c == '.');
        plain(number).map(Expression::Number).ok_or_else(|| {
            format!(
                "a number, a fact or a bracket was expected at `{number}{}`",
                self.rest
            )
        })
    }

    fn word(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let end = self
            .rest
            .find(|c: char| !belongs(c))
            .unwrap_or(self.rest.len());
        let (word, rest) = self.rest.split_at(end);
        self.rest = rest.trim_start();
        word
    }
}

/// A whole number or a plain decimal of few digits, exactly: `7500`, `0.25`.
pub(crate) fn plain(text: &str) -> Option<Fraction> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |t: &str| !t.is_empty() && t.len() <= 9 && t.chars().all(|c| c.is_ascii_digit());
    if !digits(whole) || (text.contains('.') && (!digits(part) || part.len() > 6)) {
        return None;
    }
    let scale = 10_i128.checked_pow(u32::try_from(part.len()).ok()?)?;
    let number: i128 = format!("{whole}{part}").parse().ok()?;
    Some(Fraction::new(number, scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn worked(text: &str, facts: &[(&'static str, i128)]) -> Result<Fraction, String> {
        let facts = facts
            .iter()
            .map(|(name, n)| (*name, Fraction::from_integer(*n)))
            .collect();
        Expression::read(text)?.work(&facts)
    }

    #[test]
    fn products_bind_before_sums_and_both_go_from_the_left() {
        assert_eq!(worked("2 + 3 * 4", &[]), Ok(Fraction::from_integer(14)));
        assert_eq!(worked("(2 + 3) * 4", &[]), Ok(Fraction::from_integer(20)));
        assert_eq!(worked("10 - 4 - 3", &[]), Ok(Fraction::from_integer(3)));
        assert_eq!(worked("24 / 4 / 3", &[]), Ok(Fraction::from_integer(2)));
        assert_eq!(worked("0.6 * 5", &[]), Ok(Fraction::from_integer(3)));
        assert_eq!(
            worked("min(w / 4, 1/2)", &[("w", 1)]),
            Ok(Fraction::new(1, 4))
        );
        assert_eq!(
            worked("min(w / 4, 1/2)", &[("w", 3)]),
            Ok(Fraction::new(1, 2))
        );
    }

    #[test]
    fn what_cannot_be_read_or_worked_is_said() {
        for bad in [
            "", "2 +", "(2", "2)", "min(1)", "2 ** 3", "1.2.3", "A", "2 3", "1.",
        ] {
            assert!(Expression::read(bad).is_err(), "{bad}");
        }
        assert!(Expression::read(&"(".repeat(100)).is_err());
        assert!(Expression::read(&"1 + ".repeat(100)).is_err_and(|e| e.contains("longer")));
        assert_eq!(worked("2 * p", &[]), Err("`p` is not given".into()));
        assert!(worked("1 / (p - 2)", &[("p", 2)]).is_err_and(|e| e.contains("not above zero")));
        assert!(worked("1 / (p - 3)", &[("p", 2)]).is_err_and(|e| e.contains("not above zero")));
        assert!(worked("p * p", &[("p", i128::MAX)]).is_err_and(|e| e.contains("too large")));
    }
}
