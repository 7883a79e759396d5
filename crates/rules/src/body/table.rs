//! Limits that depend on two facts of the engine, laid out as the law prints them: bands by bands.

use measure::Fraction;

use super::{AtValue, Compare, Limit, LimitValue};
use crate::RulebookError;

/// One side of a table: bands by their upper edges, the last band open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Axis {
    /// The fact, as a lower-case word with underscores: `axle_load`.
    pub name: String,
    /// Its unit.
    pub unit: String,
    /// Upper edges in that unit, rising. An edge belongs to the band below it; above the last comes one more band.
    pub upper_edges: Vec<Fraction>,
}

impl Axis {
    /// Which band holds a value.
    fn band(&self, value: Fraction) -> usize {
        self.upper_edges
            .iter()
            .take_while(|edge| value > **edge)
            .count()
    }
}

/// Lengths by two facts of the engine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitTable {
    /// What is limited.
    pub subject: String,
    /// How and where it is measured.
    pub measured: String,
    /// On which side a reading must lie.
    pub compare: Compare,
    /// Whether the value itself passes.
    pub at_value: AtValue,
    /// Whether a reading outside it keeps the engine out of service.
    pub grounds: bool,
    /// The fact that picks the row.
    pub rows: Axis,
    /// The fact that picks the column.
    pub columns: Axis,
    /// The lengths as written and as exact sizes, row by row.
    pub cells: Vec<Vec<(String, measure::Size)>>,
}

impl LimitTable {
    /// The limit at one place of the table.
    ///
    /// # Arguments
    /// `row`, `column`: the two facts, in their axes' units (for tires: pounds per driving axle; inches).
    ///
    /// # Errors
    /// When a fact is zero or less, which no engine has.
    pub fn limit_at(&self, row: Fraction, column: Fraction) -> Result<Limit, RulebookError> {
        let outside = |axis: &Axis, given: Fraction| RulebookError::OutsideTable {
            subject: self.subject.clone(),
            axis: axis.name.replace('_', " "),
            given: format!("{given} {}", axis.unit),
        };
        for (axis, given) in [(&self.rows, row), (&self.columns, column)] {
            if given <= Fraction::from_integer(0) {
                return Err(outside(axis, given));
            }
        }
        let cell = self
            .cells
            .get(self.rows.band(row))
            .and_then(|cells| cells.get(self.columns.band(column)));
        let (written, size) = cell.ok_or_else(|| outside(&self.rows, row))?;
        Ok(Limit {
            subject: self.subject.clone(),
            measured: self.measured.clone(),
            when: Vec::new(),
            compare: self.compare,
            value: LimitValue::Size(*size),
            written: written.clone(),
            at_value: self.at_value,
            unit: String::from("in"),
            grounds: self.grounds,
            together_with: None,
        })
    }
}
