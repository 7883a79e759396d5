//! A drawing by itself on a page of its own size.

use serde::Serialize;

use crate::PaperError;
use crate::about::{About, Picture};
use crate::press::{Printed, set};

/// A drawing as a document.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plate {
    /// What stands on the page.
    pub about: About,
    /// The drawing.
    pub picture: Picture,
}

impl Plate {
    /// Sets the drawing at its true scale.
    ///
    /// # Errors
    /// [`PaperError`].
    pub fn print(&self) -> Result<Printed, PaperError> {
        set("plate.typ", self, self.about.as_of)
    }
}
