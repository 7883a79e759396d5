//! Holds a refusal to its class and to what it must name.

use shop::{Class, Refusal};

/// What a verb said.
pub type Said<T> = Result<T, Refusal>;

/// Holds a refusal to its class and to words it must say, in the sentence or the lines after it.
#[track_caller]
pub fn no<T>(said: Said<T>, class: Class, names: &[&str]) {
    let Err(no) = said else {
        panic!("it was not refused, though {names:?} was expected");
    };
    assert_eq!(no.class, class, "{no}");
    for name in names {
        assert!(no.to_string().contains(name), "`{name}` is not named: {no}");
    }
}
