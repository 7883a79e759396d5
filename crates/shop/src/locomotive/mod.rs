//! What we keep: engines, their parts, tooling and people, found by the words people use.

mod find;
mod make;
mod reading;

pub use find::{engine, engines, finding, inspection, job, part, person, tooling, with_authority};
pub use make::{
    NewBook, NewEngine, NewPart, NewTooling, add_engine, add_part, add_person, add_tooling, family,
    held_before, new_book, take_readings,
};
pub use reading::{Value, check_readings, value};
