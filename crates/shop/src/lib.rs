//! The work itself, in the order it is done: from a locomotive to the record of how she was left.
//!
//! Nothing here reads a file, asks the time, draws a random number or speaks SQL: the same
//! arguments give the same answer for ever. Each stage offers one principal verb, a plain function
//! that takes the [`book::Book`] as it stands and gives back [`book::Statement`]s to be entered, or
//! a [`Refusal`] that says what is missing. A stage may use the stages above it in this list, never
//! those below.

pub mod book;
pub mod locomotive;
pub mod lathe;
pub mod clock;
pub mod inspection;
pub mod finding;
pub mod verdict;
pub mod boiler_work;
pub mod route;
pub mod decision;
pub mod design;
pub mod job;
pub mod proof;
pub mod record;
pub mod report;
pub mod ruled;

mod refusal;

pub use refusal::{Class, Refusal};
