//! The crate's tests: one binary.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on must fail, in its helpers too"
)]

mod barcode;
mod cards;
mod file;
mod form;
mod formulas;
mod hostile;
mod reading_back;
mod samples;
mod text;
