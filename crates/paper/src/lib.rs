//! Typeset documents: the only crate that knows a page.
//!
//! A card is plain words, numbers as they were written, formulas as shapes and drawings as SVG; it becomes a
//! PDF that keeps for decades, can be read aloud, carries its own data inside, and is the same bytes whenever
//! it is made from the same data. Templates are fixed; what people wrote goes in as data and is never markup.

mod about;
pub mod barcode;
mod error;
mod form;
mod job;
mod lathe;
mod letters;
mod plate;
mod press;
pub mod square;
mod tool_tag;
mod worked;
mod world;

pub use about::{About, Picture};
pub use error::PaperError;
pub use form::{Block, Form, FormPart, LookedAt};
pub use job::{
    Answered, Done, Fact, Feature, Hold, JobCard, JobPaper, Mark, Operation, Place, Ring, Ruling,
    Seen, Shelved, Signature, Sketch, Verdict,
};
pub use lathe::{LatheCard, OnLathe, WorkStep};
pub use plate::Plate;
pub use press::Printed;
pub use tool_tag::ToolTag;
pub use worked::{Came, Copied, Formula, Input, Line, Outcome, Step, Worked};
