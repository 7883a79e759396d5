//! Worked sheets: each law of the shop as a plain function, a card that explains it, and evidence.
//!
//! This crate knows no rule of law, no locomotive and no date. A number that comes from the law
//! enters as an argument like any other, with [`Basis::Ruling`] as its basis.
//!
//! [`run`] works any sheet by its id; [`catalogue`] lists them; [`evidence()`] and
//! [`evidence_matrix`] say how far each result has been proved, [`reasons`] why one was not. To add
//! a law: a folder under `law/` with its function, card and `evidence.csv`, and one line in
//! `catalogue.rs`.

pub mod answer;
pub mod atmosphere;
pub mod boiler;
pub mod card;
mod catalogue;
pub mod chance;
mod csv;
pub mod cylinder;
mod error;
mod evidence;
pub mod fit;
pub mod formula;
pub mod given;
pub mod handed_on;
pub mod law;
pub mod limit;
pub mod readings;
pub mod sheet;
pub mod steam;
pub mod tables;
pub mod thread;
mod unproven;
pub mod wear;
mod work;

pub use catalogue::{Entry, catalogue, find, run};
pub use error::SheetError;
pub use evidence::{Checked, EvidenceRow, Grade, Matrix, evidence, evidence_matrix};
pub use given::{Basis, Given, Inputs};
pub use sheet::{STANDING, Sheet, Shown};
pub use unproven::{Reason, reasons};
pub use work::Worked;
