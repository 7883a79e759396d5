//! The one integration binary of the program: what a person at the shop's door sees, run against the
//! program as built.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly, its helpers too"
)]

mod bench;
mod handed_on;
mod job_papers;
mod cards;
mod casebook;
mod contract;
mod copies;
mod day;
mod decisions;
mod demonstration;
mod doors;
mod drawn;
mod failures;
mod finding_page;
mod finding_words;
mod findings;
mod held;
mod https;
mod local_rules;
mod looking;
mod moved;
mod memory;
mod pages;
mod parts;
mod own_family;
mod people;
mod print;
mod run;
mod seasons;
mod lathes;
mod shelves;
mod surveys;
mod tooling;
