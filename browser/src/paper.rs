//! A printed page read back: how many sheets of paper, and what is written on each.

use lopdf::Document;

use crate::Wrong;

/// What came out of the printer.
#[derive(Debug)]
pub struct Paper {
    /// The text of each sheet of paper, blanks left out.
    pub sheets: Vec<String>,
}

impl Paper {
    /// Reads a PDF.
    ///
    /// # Errors
    /// If it does not read.
    pub fn read(pdf: &[u8]) -> Result<Paper, Wrong> {
        let document =
            Document::load_mem(pdf).map_err(|why| format!("The PDF does not read: {why}."))?;
        let sheets = document
            .get_pages()
            .keys()
            .map(|number| {
                let text = document
                    .extract_text(&[*number])
                    .map_err(|why| format!("Sheet {number} does not read: {why}."))?;
                Ok(text.split_whitespace().collect())
            })
            .collect::<Result<_, Wrong>>()?;
        Ok(Paper { sheets })
    }
}
