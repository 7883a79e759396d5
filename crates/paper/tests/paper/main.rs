//! The crate's tests: one binary.

mod barcode;
mod cards;
mod file;
mod formulas;
mod hostile;
mod reading_back;
mod samples;
mod text;
