//! The pages in a real browser, as a person meets them.
#![allow(
    clippy::unwrap_used,
    reason = "a test may fail loudly, its helpers too"
)]

mod bench;
mod boiler;
mod keyboard;
mod printed;
mod routes;
mod scripts;
mod season_day;
mod shop;
mod sitting;
mod survey;
mod thread;
mod walk;
