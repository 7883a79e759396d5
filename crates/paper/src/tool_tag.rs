//! The tag of a tool: its number large and as bars, what it is, what it serves, where it belongs. Three inches by one
//! and a half, to be cut out, laminated and tied on.

use serde::Serialize;

use crate::about::About;
use crate::press::{Printed, set};
use crate::{PaperError, barcode};

/// The tag of one tool.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ToolTag {
    /// Whose it is and its number; the number is drawn as bars.
    pub about: About,
    /// What it is.
    pub what: String,
    /// What it serves, and on which feature, one line each.
    pub serves: Vec<String>,
    /// Where it belongs, and its drawing.
    pub belongs: Vec<String>,
}

#[derive(Serialize)]
struct Page<'t> {
    #[serde(flatten)]
    tag: &'t ToolTag,
    barcode: String,
}

impl ToolTag {
    /// Sets the tag. Words that are too many for it are set smaller, down to what can still be read.
    ///
    /// # Errors
    /// [`PaperError`].
    pub fn print(&self) -> Result<Printed, PaperError> {
        let barcode = barcode::svg(&self.about.number)?;
        let page = Page { tag: self, barcode };
        set("tool-tag.typ", &page, self.about.as_of)
    }
}
