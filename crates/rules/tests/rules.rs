//! What the rulebook on file must hold, and what the loader must refuse.

#![allow(
    clippy::expect_used,
    clippy::panic,
    reason = "a test may stop at the first surprise, helpers included"
)]

#[path = "rules/asked.rs"]
mod asked;
#[path = "rules/bad.rs"]
mod bad;
#[path = "rules/built_in.rs"]
mod built_in;
#[path = "rules/coverage.rs"]
mod coverage;
#[path = "rules/diesel.rs"]
mod diesel;
#[path = "rules/limits.rs"]
mod limits;
#[path = "rules/local.rs"]
mod local;
#[path = "rules/rows.rs"]
mod rows;
