//! From data to a finished file: an archival PDF that holds its own data, the same bytes for the same data.

use std::sync::OnceLock;

use jiff::civil::Date;
use rayon::{ThreadPool, ThreadPoolBuilder};
use serde::Serialize;
use serde_json::Value;
use typst::diag::SourceDiagnostic;
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::PaperError;
use crate::letters::readable;
use crate::world::{Desk, has_letters};

/// What a finished file conforms to: archival with its source data inside, and readable aloud
/// (`docs/decisions/0012-papers.md`).
const STANDARDS: [PdfStandard; 2] = [PdfStandard::A_3a, PdfStandard::Ua_1];

/// What was worked out for a document is forgotten when it is done: no two cards are alike, and memory stays flat.
const KEPT: usize = 0;

/// How deep the typesetter may nest.
const STACK: usize = 8 << 20;

/// A finished document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// The PDF.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What the typesetter found odd; a test holds that there is nothing.
    pub oddities: Vec<String>,
}

/// Sets a document: `record` is what the template draws from, and what the file carries inside as JSON.
///
/// # Errors
/// [`PaperError`], a fault of ours.
pub fn set<T: Serialize>(template: &str, record: &T, as_of: Date) -> Result<Printed, PaperError> {
    let failed = |why: String| PaperError::Set(why);
    let record = serde_json::to_value(record).map_err(|e| failed(e.to_string()))?;
    let page = readable(record.clone(), &has_letters()?);
    let desk = Desk::of(template, text(&page)?, text(&record)?)?;
    bed()?.install(|| {
        let printed = print(&desk, as_of);
        typst::comemo::evict(KEPT);
        printed
    })
}

/// The one thread that sets type. The typesetter would take every core, and each thread keeps memory of its own: a
/// card is set in a tenth of a second on one, and a server that printed from many held a third more for ever after.
fn bed() -> Result<&'static ThreadPool, PaperError> {
    static BED: OnceLock<Result<ThreadPool, PaperError>> = OnceLock::new();
    let made = BED.get_or_init(|| {
        ThreadPoolBuilder::new()
            .num_threads(1)
            .stack_size(STACK)
            .build()
            .map_err(|e| PaperError::Set(e.to_string()))
    });
    made.as_ref().map_err(Clone::clone)
}

fn print(desk: &Desk, as_of: Date) -> Result<Printed, PaperError> {
    let failed = |why: String| PaperError::Set(why);
    let set = typst::compile::<PagedDocument>(desk);
    let document = set.output.map_err(|e| failed(told(&e)))?;
    let options = PdfOptions {
        creator: Smart::Custom(Some("Outshop".into())),
        timestamp: stamp(as_of),
        standards: PdfStandards::new(&STANDARDS).map_err(|e| failed(e.message().to_string()))?,
        ..PdfOptions::default()
    };
    let bytes = typst_pdf::pdf(&document, &options).map_err(|e| failed(told(&e)))?;
    Ok(Printed {
        bytes,
        pages: document.pages().len(),
        oddities: set.warnings.iter().map(one).collect(),
    })
}

fn text(value: &Value) -> Result<String, PaperError> {
    serde_json::to_string_pretty(value).map_err(|e| PaperError::Set(e.to_string()))
}

/// Midnight at the start of the day for which the data is true.
fn stamp(as_of: Date) -> Option<Timestamp> {
    let (month, day) = (as_of.month().unsigned_abs(), as_of.day().unsigned_abs());
    let midnight = Datetime::from_ymd_hms(i32::from(as_of.year()), month, day, 0, 0, 0)?;
    Some(Timestamp::new_utc(midnight))
}

fn told(errors: &[SourceDiagnostic]) -> String {
    let all: Vec<_> = errors.iter().map(one).collect();
    all.join("; ")
}

fn one(what: &SourceDiagnostic) -> String {
    let mut text = what.message.to_string();
    for hint in &what.hints {
        text.push_str(&format!(" ({})", hint.v));
    }
    text
}
