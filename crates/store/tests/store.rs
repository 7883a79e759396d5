//! Tests of the book: hostile statements, tampering, repeats, corrections, full disks, kills, past forms.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on must fail, in its helpers too"
)]

#[path = "store/world.rs"]
mod world;

#[path = "store/every_kind.rs"]
mod every_kind;

#[path = "store/correction.rs"]
mod correction;
#[path = "store/errors.rs"]
mod errors;
#[path = "store/foreign.rs"]
mod foreign;
#[path = "store/forms.rs"]
mod forms;
#[path = "store/full.rs"]
mod full;
#[path = "store/hostile.rs"]
mod hostile;
#[path = "store/kill.rs"]
mod kill;
#[path = "store/one_engine.rs"]
mod one_engine;
#[path = "store/one_fold.rs"]
mod one_fold;
#[path = "store/past.rs"]
mod past;
#[path = "store/repeat.rs"]
mod repeat;
#[path = "store/settings.rs"]
mod settings;
#[path = "store/tamper.rs"]
mod tamper;
