//! Every shape that a formula can have is set in type, in every form the grammar allows.

use crate::samples::{lathe, seat};
use crate::text::{run_on, text};
use paper::{Copied, LatheCard};

/// The formula of a sheet is exchanged for another in its printed text, and the card is printed from that.
fn with(line: &str) -> String {
    let page = seat()
        .to_text()
        .replace("w = l * sin(abs(a_w - a_f))", line);
    let worked = Copied::of("seat.correct", page).worked.expect("it is read");
    let card = LatheCard {
        worked,
        ..lathe(&seat())
    };
    let printed = card.print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    run_on(&text(&printed.bytes))
}

#[test]
fn every_kind_of_shape_is_set() {
    for (line, said) in [
        ("w = sqrt(l) + cbrt(l)", "√"),
        ("w = -l^2 * (l + t)", "−"),
        ("w = max(l, t, 3) + min(l, 2)", "max"),
        ("w = round(pi * l / 4, 3)", "round"),
        ("w = atan(l / (2 * t))", "arctan"),
        ("w = abs(l - alpha_w) * tan(30)", "tan"),
    ] {
        let text = with(line);
        assert!(text.contains(said), "{line}: {said}");
    }
}
