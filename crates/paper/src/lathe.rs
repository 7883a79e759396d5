//! The lathe card: one worked sheet as it is pinned over the machine.

use serde::Serialize;

use crate::about::{About, Picture};
use crate::job::Fact;
use crate::press::{Printed, set};
use crate::worked::Worked;
use crate::{PaperError, barcode};

/// One worked sheet on paper.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LatheCard {
    /// What stands on every page.
    pub about: About,
    /// The sheet.
    pub worked: Worked,
    /// The settings of the lathe it is cut on; none where no lathe was named.
    pub settings: Option<OnLathe>,
    /// The order of the work, which hangs at the machine as a page of its own; empty where the sheet has none.
    pub order: Vec<WorkStep>,
    /// Its drawings.
    pub pictures: Vec<Picture>,
}

/// The settings of one lathe.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OnLathe {
    /// Whose they are.
    pub title: String,
    /// What is set, and what to.
    pub settings: Vec<Fact>,
}

/// A step of the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WorkStep {
    /// What is done.
    pub what: String,
    /// Whether the machine is stopped here until it was looked at.
    pub hold: bool,
    /// What is measured and written down.
    pub blanks: Vec<String>,
    /// Cuts to be ticked off.
    pub cuts: Vec<String>,
}

#[derive(Serialize)]
struct Page<'c> {
    #[serde(flatten)]
    card: &'c LatheCard,
    barcode: String,
}

impl LatheCard {
    /// Sets the card.
    ///
    /// # Errors
    /// [`PaperError`].
    pub fn print(&self) -> Result<Printed, PaperError> {
        let barcode = barcode::svg(&self.about.bars)?;
        set(
            "lathe.typ",
            &Page {
                card: self,
                barcode,
            },
            self.about.as_of,
        )
    }
}
