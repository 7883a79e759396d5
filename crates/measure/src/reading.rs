//! What a person measured, kept exactly as written.

use crate::dimension::Dimension;
use crate::size::Size;
use crate::text::{Entered, entered_with_unit};
use crate::text_error::TextError;
use serde::{Deserialize, Serialize};

/// Whether a reading was taken before the work or after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// Before anything was done.
    AsFound,
    /// When the work was done.
    AsLeft,
}

/// One measurement, as it was written down. Nothing here is turned into a number until somebody asks, and then
/// only with its unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reading {
    /// The figures as written: `1 1/4`, `.0049`.
    pub text: String,
    /// The unit as written; empty when it stands in `text` already, as in `1 1/4"`.
    pub unit_text: String,
    /// What it was measured with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<String>,
    /// Where on the part: "top, 2 in from the seat".
    pub position: String,
    /// How warm the part was, as written, with its unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part_temperature: Option<String>,
    /// Who measured.
    pub measured_by: String,
    /// Who typed it in.
    pub typed_by: String,
    /// When it was measured, as written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub measured_on: Option<String>,
    /// As found or as left.
    pub state: State,
}

impl Reading {
    /// A reading with nothing said of instrument, temperature or day.
    pub fn new(
        text: &str,
        unit_text: &str,
        position: &str,
        measured_by: &str,
        typed_by: &str,
        state: State,
    ) -> Reading {
        Reading {
            text: text.to_string(),
            unit_text: unit_text.to_string(),
            instrument: None,
            position: position.to_string(),
            part_temperature: None,
            measured_by: measured_by.to_string(),
            typed_by: typed_by.to_string(),
            measured_on: None,
            state,
        }
    }

    /// The figures and the unit as one text.
    pub fn written(&self) -> String {
        format!("{} {}", self.text, self.unit_text)
            .trim()
            .to_string()
    }

    /// The reading as an exact size. A bare number is refused: no house unit is ever assumed for a reading.
    ///
    /// # Errors
    /// As [`Size::parse`].
    pub fn size(&self) -> Result<Size, TextError> {
        Size::parse(&self.written())
    }

    /// The reading as a value of another dimension (a gauge, a temperature), its unit required.
    ///
    /// # Errors
    /// As [`entered_with_unit`].
    pub fn entered(&self, dimension: Dimension) -> Result<Entered, TextError> {
        entered_with_unit(&self.written(), dimension)
    }

    /// The temperature of the part, when it was written down.
    ///
    /// # Errors
    /// As [`entered_with_unit`].
    pub fn part_temperature(&self) -> Result<Option<Entered>, TextError> {
        self.part_temperature
            .as_deref()
            .map(|text| entered_with_unit(text, Dimension::Temperature))
            .transpose()
    }
}
