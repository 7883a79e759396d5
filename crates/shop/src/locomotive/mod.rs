//! What we keep: engines, their parts, tooling and people, found by the words people use.

mod find;
mod held;
mod law;
mod make;
mod people;
mod reading;
mod rule_sets;

pub use find::{engine, engines, finding, inspection, job, part, person, tooling};
pub use held::{
    Checking, NewHolding, checking, checking_of, held_before_it_changed, hold_rule, holdings,
};
pub use law::{Bound, Law, rule};
pub use make::{
    NewBook, NewEngine, NewPart, NewTooling, add_engine, add_part, add_tooling, family,
    held_before, new_book, take_readings,
};
pub use people::{add_person, state_authority, with_authority};
pub use reading::{Value, check_readings, value};
pub(crate) use rule_sets::admit_bind;
pub use rule_sets::{adopt_rules, bind_rules, read_rules};
