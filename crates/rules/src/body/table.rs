//! Limits that depend on one or two facts of the engine, laid out as the law prints them.

use measure::Fraction;

use super::{AtValue, Compare, Limit, LimitValue};
use crate::{RulebookError, words};

/// How one side of a table is divided.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Bands {
    /// Bands by their upper edges, rising. An edge belongs to the band below it.
    Edges {
        /// The upper edges, in the axis' unit.
        upper: Vec<Fraction>,
        /// Whether one more band lies above the last edge. If not, the law prints nothing there, and we say so.
        open: bool,
    },
    /// Words of `words::TABLE_WORDS`.
    Words(Vec<String>),
}

/// One side of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Axis {
    /// The fact, as a lower-case word with underscores: `axle_load`.
    pub name: String,
    /// Its unit; empty for words.
    pub unit: String,
    /// How it is divided.
    pub bands: Bands,
}

/// A place on one side of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place<'a> {
    /// A number in the axis' unit.
    Number(Fraction),
    /// A word of the axis.
    Word(&'a str),
}

impl From<Fraction> for Place<'_> {
    fn from(number: Fraction) -> Self {
        Place::Number(number)
    }
}

impl<'a> From<&'a str> for Place<'a> {
    fn from(word: &'a str) -> Self {
        Place::Word(word)
    }
}

impl std::fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Place::Number(n) => write!(f, "{n}"),
            Place::Word(w) => write!(f, "`{w}`"),
        }
    }
}

impl Axis {
    /// How many bands it has.
    pub fn count(&self) -> usize {
        match &self.bands {
            Bands::Edges { upper, open } => upper.len() + usize::from(*open),
            Bands::Words(words) => words.len(),
        }
    }

    /// The bands as a person reads them: "to 44", "over 74", "New York 2a".
    pub fn labels(&self) -> Vec<String> {
        match &self.bands {
            Bands::Edges { upper, open } => {
                let mut labels: Vec<_> = upper.iter().map(|edge| format!("to {edge}")).collect();
                if let (true, Some(last)) = (open, upper.last()) {
                    labels.push(format!("over {last}"));
                }
                labels
            }
            Bands::Words(words) => words
                .iter()
                .map(|w| {
                    words::meaning(words::TABLE_WORDS, w)
                        .unwrap_or(w)
                        .to_owned()
                })
                .collect(),
        }
    }

    /// Which band holds a place, or why none does.
    fn band(&self, place: Place<'_>) -> Result<usize, String> {
        match (&self.bands, place) {
            (Bands::Edges { upper, open }, Place::Number(value)) => {
                if value <= Fraction::from_integer(0) {
                    return Err("the table needs it above zero".into());
                }
                let band = upper.iter().take_while(|edge| value > **edge).count();
                match upper.last() {
                    Some(last) if !open && band == upper.len() => {
                        Err(format!("the law's table ends at {last} {}", self.unit))
                    }
                    _ => Ok(band),
                }
            }
            (Bands::Words(words), Place::Word(word)) => words
                .iter()
                .position(|w| w == word)
                .ok_or_else(|| format!("the table has {}", words.join(", "))),
            (Bands::Edges { .. }, Place::Word(_)) => {
                Err(format!("the table needs it as a number of {}", self.unit))
            }
            (Bands::Words(words), Place::Number(_)) => {
                Err(format!("the table has {}", words.join(", ")))
            }
        }
    }
}

/// Figures by one or two facts of the engine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitTable {
    /// What is measured (see [`Limit::quantity`]).
    pub quantity: String,
    /// What is limited.
    pub subject: String,
    /// How and where it is measured.
    pub measured: String,
    /// Circumstances under which the table applies (see [`Limit::when`]).
    pub when: Vec<String>,
    /// On which side a reading must lie.
    pub compare: Compare,
    /// Whether the value itself passes.
    pub at_value: AtValue,
    /// The unit of the cells; "in" for lengths.
    pub unit: String,
    /// Whether a reading outside it keeps the engine out of service.
    pub grounds: bool,
    /// The fact that picks the row.
    pub rows: Axis,
    /// The fact that picks the column, if two decide.
    pub columns: Option<Axis>,
    /// The figures as written and as exact values, row by row.
    pub cells: Vec<Vec<(String, LimitValue)>>,
}

impl LimitTable {
    /// The limit at one place of a table with rows and columns.
    ///
    /// # Arguments
    /// `row`, `column`: the two facts, in their axes' units (for tires: pounds per driving axle; inches).
    ///
    /// # Errors
    /// When a fact lies outside the table (zero or less, beyond its end, no word of it), or the table has no columns.
    pub fn limit_at<'a>(
        &self,
        row: impl Into<Place<'a>>,
        column: impl Into<Place<'a>>,
    ) -> Result<Limit, RulebookError> {
        let column = column.into();
        let Some(columns) = &self.columns else {
            return Err(self.outside(&self.rows, column, "this table has rows only".into()));
        };
        let across = columns
            .band(column)
            .map_err(|why| self.outside(columns, column, why))?;
        self.cell(row.into(), across)
    }

    /// The limit in one row of a table without columns.
    ///
    /// # Errors
    /// As [`LimitTable::limit_at`]; or the table has columns too.
    pub fn limit_in<'a>(&self, row: impl Into<Place<'a>>) -> Result<Limit, RulebookError> {
        let row = row.into();
        match &self.columns {
            None => self.cell(row, 0),
            Some(columns) => Err(self.outside(
                &self.rows,
                row,
                format!("the table needs the {} too", columns.name.replace('_', " ")),
            )),
        }
    }

    fn cell(&self, row: Place<'_>, across: usize) -> Result<Limit, RulebookError> {
        let down = self
            .rows
            .band(row)
            .map_err(|why| self.outside(&self.rows, row, why))?;
        let cell = self.cells.get(down).and_then(|cells| cells.get(across));
        let (written, value) =
            cell.ok_or_else(|| self.outside(&self.rows, row, "the table has no such cell".into()))?;
        Ok(self.limit_of(written, value))
    }

    /// One cell as a limit of its own.
    pub(crate) fn limit_of(&self, written: &str, value: &LimitValue) -> Limit {
        Limit {
            quantity: self.quantity.clone(),
            subject: self.subject.clone(),
            measured: self.measured.clone(),
            when: self.when.clone(),
            compare: self.compare,
            value: value.clone(),
            written: written.to_owned(),
            at_value: self.at_value,
            unit: self.unit.clone(),
            grounds: self.grounds,
            together_with: None,
        }
    }

    fn outside(&self, axis: &Axis, given: Place<'_>, why: String) -> RulebookError {
        let unit = match given {
            Place::Number(_) if !axis.unit.is_empty() => format!(" {}", axis.unit),
            _ => String::new(),
        };
        RulebookError::OutsideTable {
            subject: self.subject.clone(),
            axis: axis.name.replace('_', " "),
            given: format!("{given}{unit}"),
            why,
        }
    }
}
