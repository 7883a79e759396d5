//! The tests of the measure crate, one module a topic.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a helper of a test fails as the test does"
)]

#[path = "measure/factors.rs"]
mod factors;
#[path = "measure/printer.rs"]
mod printer;
#[path = "measure/properties.rs"]
mod properties;
#[path = "measure/quantities.rs"]
mod quantities;
#[path = "measure/reading.rs"]
mod reading;
#[path = "measure/refusals.rs"]
mod refusals;
#[path = "measure/sizes.rs"]
mod sizes;
#[path = "measure/values.rs"]
mod values;
