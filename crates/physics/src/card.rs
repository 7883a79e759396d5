//! The card of a law: what a person must be told about a calculation before trusting it.
//!
//! A card is plain data that never changes while the program runs. Its formula is one string in the
//! grammar of [`crate::formula`]; the tests evaluate that string and hold it against the law's own
//! function, so the formula a person reads is the formula that was worked.

use crate::formula::{self, Formula, ParseError};
use measure::{Dimension, House, Rounding, Unit};

/// What a value is counted in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// A quantity the house knows how to convert.
    Of(Dimension),
    /// A book's own unit, used only inside the formula and never converted.
    Named(&'static str),
}

impl Measure {
    /// The symbol of the unit used under `house`.
    pub fn symbol(self, house: House) -> &'static str {
        match self {
            Measure::Of(dimension) => Unit::of(dimension, house).symbol(),
            Measure::Named(name) => name,
        }
    }

    /// The SI value `si` in the unit used under `house`; a book's own unit passes as it is.
    pub fn from_si(self, si: f64, house: House) -> f64 {
        match self {
            Measure::Of(dimension) => Unit::of(dimension, house).from_si(si),
            Measure::Named(_) => si,
        }
    }
}

/// The least and the most an argument may be, each written as a person would write it. Both ends
/// are allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Range {
    /// The least, with its unit.
    pub least: &'static str,
    /// The most, with its unit.
    pub most: &'static str,
}

/// What may be given for an argument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// A quantity within a range.
    Quantity(Dimension, Range),
    /// One word out of a list.
    Word(&'static [&'static str]),
    /// As many words, comma between, as there are roles; each out of one list.
    Words {
        /// The words allowed.
        choices: &'static [&'static str],
        /// What each place in the list stands for: `["outer", "inner"]`.
        roles: &'static [&'static str],
    },
    /// Quantities of one dimension, comma between, each within the range: the wheels of a lathe, the
    /// spans of a survey.
    List {
        /// What each of them measures.
        dimension: Dimension,
        /// The least and the most each may be.
        range: Range,
        /// How few and how many may be given.
        count: (usize, usize),
        /// Whether `?` may stand in a place where nobody knows the figure.
        gaps: bool,
    },
}

/// One argument of a law.
#[derive(Debug, Clone, Copy)]
pub struct Argument {
    /// The name typed: `found_half_angle`.
    pub name: &'static str,
    /// The letter or name that stands for it in the formula.
    pub symbol: &'static str,
    /// What it is, in the words of the trade.
    pub meaning: &'static str,
    /// What may be given.
    pub kind: Kind,
    /// Whether the law can say nothing without it.
    pub required: bool,
}

impl Argument {
    /// An argument that must be given: a quantity from `least` to `most`.
    pub const fn quantity(
        name: &'static str,
        symbol: &'static str,
        dimension: Dimension,
        least: &'static str,
        most: &'static str,
        meaning: &'static str,
    ) -> Argument {
        Argument {
            name,
            symbol,
            meaning,
            kind: Kind::Quantity(dimension, Range { least, most }),
            required: true,
        }
    }

    /// An argument that must be given: one word out of `choices`. It stands in no formula.
    pub const fn word(
        name: &'static str,
        choices: &'static [&'static str],
        meaning: &'static str,
    ) -> Argument {
        Argument {
            name,
            symbol: name,
            meaning,
            kind: Kind::Word(choices),
            required: true,
        }
    }

    /// An argument that must be given: as many quantities as `count` allows, each from `least` to `most`. It
    /// stands in no formula.
    pub const fn list(
        name: &'static str,
        dimension: Dimension,
        least: &'static str,
        most: &'static str,
        count: (usize, usize),
        meaning: &'static str,
    ) -> Argument {
        Argument {
            name,
            symbol: name,
            meaning,
            kind: Kind::List {
                dimension,
                range: Range { least, most },
                count,
                gaps: false,
            },
            required: true,
        }
    }

    /// The same list, in which `?` stands for a figure that nobody knows.
    pub const fn with_gaps(mut self) -> Argument {
        if let Kind::List {
            dimension,
            range,
            count,
            ..
        } = self.kind
        {
            self.kind = Kind::List {
                dimension,
                range,
                count,
                gaps: true,
            };
        }
        self
    }

    /// The same argument, which may be left out.
    pub const fn optional(mut self) -> Argument {
        self.required = false;
        self
    }

    /// The dimension, when the argument is a quantity.
    pub fn dimension(&self) -> Option<Dimension> {
        match self.kind {
            Kind::Quantity(dimension, _) => Some(dimension),
            _ => None,
        }
    }

    /// The words allowed, when the argument is a word; empty for quantities.
    pub fn choices(&self) -> &'static [&'static str] {
        match self.kind {
            Kind::Quantity(..) | Kind::List { .. } => &[],
            Kind::Word(choices) | Kind::Words { choices, .. } => choices,
        }
    }
}

/// A symbol of the formula that is neither an argument nor a result: a value from a table, or a
/// line worked on the way.
#[derive(Debug, Clone, Copy)]
pub struct Symbol {
    /// How the formula writes it.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// What it is counted in.
    pub measure: Measure,
    /// Where the line, or the table, comes from.
    pub source: &'static str,
}

impl Symbol {
    /// A symbol counted in a unit the house converts.
    pub const fn of(
        symbol: &'static str,
        dimension: Dimension,
        meaning: &'static str,
        source: &'static str,
    ) -> Symbol {
        Symbol {
            symbol,
            meaning,
            measure: Measure::Of(dimension),
            source,
        }
    }

    /// A symbol counted in a book's own unit.
    pub const fn named(
        symbol: &'static str,
        unit: &'static str,
        meaning: &'static str,
        source: &'static str,
    ) -> Symbol {
        Symbol {
            symbol,
            meaning,
            measure: Measure::Named(unit),
            source,
        }
    }
}

/// How many decimal places a result is shown to in each house.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decimals {
    /// Under the inch house.
    pub inch: u32,
    /// Under the metric house.
    pub metric: u32,
}

/// What a result is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ResultKind {
    /// A quantity, shown to so many places, rounded in the direction that does not flatter.
    Quantity(Dimension, Decimals, Rounding),
    /// Words.
    Text,
    /// A small table.
    Table,
}

/// One result of a law.
#[derive(Debug, Clone, Copy)]
pub struct ResultSpec {
    /// The stable name under `results`.
    pub name: &'static str,
    /// How the formula writes it; empty when no line of the formula gives it, as with words, tables
    /// and what was counted in a search.
    pub symbol: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// A quantity, words or a table.
    pub kind: ResultKind,
    /// Where the line that gives it comes from.
    pub source: &'static str,
}

impl ResultSpec {
    /// A quantity that a line of the formula gives, shown to `decimals` places (inch house, metric
    /// house), rounded to the nearest.
    pub const fn quantity(
        name: &'static str,
        symbol: &'static str,
        dimension: Dimension,
        decimals: (u32, u32),
        meaning: &'static str,
        source: &'static str,
    ) -> ResultSpec {
        let decimals = Decimals {
            inch: decimals.0,
            metric: decimals.1,
        };
        ResultSpec {
            name,
            symbol,
            meaning,
            kind: ResultKind::Quantity(dimension, decimals, Rounding::Nearest),
            source,
        }
    }

    /// Words that no line of the formula gives.
    pub const fn text(
        name: &'static str,
        meaning: &'static str,
        source: &'static str,
    ) -> ResultSpec {
        ResultSpec {
            name,
            symbol: "",
            meaning,
            kind: ResultKind::Text,
            source,
        }
    }

    /// A small table that no line of the formula gives.
    pub const fn table(
        name: &'static str,
        meaning: &'static str,
        source: &'static str,
    ) -> ResultSpec {
        ResultSpec {
            name,
            symbol: "",
            meaning,
            kind: ResultKind::Table,
            source,
        }
    }

    /// The same quantity, rounded so that it cannot flatter.
    pub const fn rounded(mut self, direction: Rounding) -> ResultSpec {
        if let ResultKind::Quantity(dimension, decimals, _) = self.kind {
            self.kind = ResultKind::Quantity(dimension, decimals, direction);
        }
        self
    }
}

/// Whether the formula says all that the law does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClosedForm {
    /// Every quantity among the results is a line of the formula.
    Yes,
    /// Something is looked up or searched for; the words say what, and table tests hold it instead.
    No(&'static str),
}

/// A book, standard or practice that a law rests on.
#[derive(Debug, Clone, Copy)]
pub struct Source {
    /// Author or body, title and edition.
    pub work: &'static str,
    /// Page, section or table.
    pub locator: &'static str,
    /// What was taken from it, and how far it was seen.
    pub used_for: &'static str,
}

/// Everything a person must be told about one law.
#[derive(Debug)]
pub struct Card {
    /// The stable id: `seat.correct`.
    pub id: &'static str,
    /// Raised when the law's answers change.
    pub version: u32,
    /// A few words for a list.
    pub title: &'static str,
    /// What it is for, in a sentence or two.
    pub purpose: &'static str,
    /// The formula, one statement a line.
    pub formula: &'static str,
    /// The units the formula's own constants are in; none when any one set of units will do.
    pub book_units: Option<House>,
    /// What may be given.
    pub arguments: &'static [Argument],
    /// The symbols whose values come out of a table.
    pub table_values: &'static [Symbol],
    /// The symbols worked on the way to the results.
    pub lines: &'static [Symbol],
    /// What comes out.
    pub results: &'static [ResultSpec],
    /// The cases the evidence is counted by: thread classes, or which way a cut pivots.
    pub branches: &'static [&'static str],
    /// Where the law holds, and where it stops.
    pub validity: &'static str,
    /// What it rests on.
    pub sources: &'static [Source],
    /// What can hurt a person or spoil a part.
    pub cautions: &'static [&'static str],
    /// Whether the formula says all that the law does.
    pub closed_form: ClosedForm,
}

impl Card {
    /// The formula as a tree.
    ///
    /// # Errors
    /// A card whose formula cannot be read; the tests read every one.
    pub fn tree(&self) -> Result<Formula, ParseError> {
        formula::formula(self.formula)
    }

    /// The argument called `name`.
    pub fn argument(&self, name: &str) -> Option<&'static Argument> {
        self.arguments.iter().find(|argument| argument.name == name)
    }

    /// The units in which the formula is worked for a reader of `house`.
    pub fn frame(&self, house: House) -> House {
        self.book_units.unwrap_or(house)
    }

    /// What the value on a line of the formula is, what it is counted in and where the line is from.
    pub fn line(&self, symbol: &str) -> Option<Symbol> {
        let worked = self
            .lines
            .iter()
            .find(|line| line.symbol == symbol)
            .copied();
        worked.or_else(|| {
            let result = self.results.iter().find(|result| result.symbol == symbol)?;
            let ResultKind::Quantity(dimension, _, _) = result.kind else {
                return None;
            };
            let measure = Measure::Of(dimension);
            Some(Symbol {
                symbol: result.symbol,
                meaning: result.meaning,
                measure,
                source: result.source,
            })
        })
    }
}
