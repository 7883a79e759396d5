//! The one integration binary of the program: what a person at the shop's door sees, run against the
//! program as built.

mod casebook;
