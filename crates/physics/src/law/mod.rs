//! The laws, one a folder: a plain function, a card, and the evidence beside it.

pub mod seat_correct;
