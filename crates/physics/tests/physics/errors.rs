//! Bad input is answered with a sentence: what was read, what was expected.

use crate::typed;
use measure::House;
use physics::{catalogue, run};

fn said(id: &str, pairs: &[(&str, &str)]) -> String {
    run(id, &typed(pairs), House::Inch).unwrap_err().to_string()
}

#[test]
fn an_unknown_sheet_names_its_neighbours() {
    assert_eq!(
        said("seat.corect", &[]),
        "there is no sheet 'seat.corect'; did you mean seat.correct?"
    );
    assert!(said("zzzzzzzzzzzzzzzzzzzzzzzzzzzzzz", &[]).contains("sheet --list"));
    assert!(said("", &[]).contains("there is no sheet"));
}

#[test]
fn arguments_at_fault_are_named() {
    let good = [
        ("found_half_angle", "44deg"),
        ("wanted_half_angle", "45deg"),
        ("land", "1/8 in"),
        ("port", "2 in"),
    ];
    let with = |extra: (&'static str, &'static str)| {
        let mut pairs: Vec<_> = good
            .iter()
            .copied()
            .filter(|(n, _)| *n != extra.0)
            .collect();
        pairs.push(extra);
        said("seat.correct", &pairs)
    };
    let unknown = with(("lnad", "1/8"));
    assert!(
        unknown.contains("no argument 'lnad'") && unknown.contains("land, port, [wall]"),
        "{unknown}"
    );
    let missing = said("seat.correct", &good[..2]);
    assert!(
        missing.contains("needs land (") && missing.contains("; port ("),
        "{missing}"
    );
    let twice = said("seat.correct", &[good[0], good[0]]);
    assert!(twice.contains("'found_half_angle' twice"), "{twice}");
    let unit = with(("land", "30 psi"));
    assert!(
        unit.starts_with("seat.correct, land: ") && unit.contains("psi"),
        "{unit}"
    );
    let flat = with(("wanted_half_angle", "90deg"));
    assert!(
        flat.contains("outside the range 10 deg to 80 deg") && flat.contains("faced square"),
        "{flat}"
    );
    let word = with(("design", "both"));
    assert!(
        word.contains("read 'both', expected one of matched, differential"),
        "{word}"
    );
    let words = said(
        "seat.correct",
        &[("found_half_angle", "nonsense"), good[1], good[2], good[3]],
    );
    assert!(
        words.starts_with("seat.correct, found_half_angle: "),
        "{words}"
    );
}

/// Whatever is typed, an answer or a sentence comes back: nothing falls over, nothing is blank.
#[test]
fn hostile_text_is_answered_with_a_sentence() {
    let texts = [
        "",
        " ",
        "0",
        "-1",
        "1e999",
        "NaN",
        "inf",
        "1/0",
        "99999999999999999999999999",
        "½",
        "1 1/4 in",
        "90deg",
        "0deg",
        "-45deg",
        "45deg",
        "a,b",
        ",",
        "steel",
        "steel,bronze,steel",
        "2G",
        "\u{0}",
        "🚂",
        "0.0000000001 in",
        "1000000 in",
        "1/3 in",
        "0 F",
        "-40 C",
        "5000 F",
    ];
    for entry in catalogue() {
        for argument in entry.card.arguments {
            for text in texts {
                let pairs: Vec<(&str, &str)> = entry
                    .card
                    .arguments
                    .iter()
                    .map(|a| (a.name, if a.name == argument.name { text } else { "1" }))
                    .collect();
                if let Err(error) = run(entry.card.id, &typed(&pairs), House::Metric) {
                    let said = error.to_string();
                    assert!(said.len() > 20, "{said}");
                    assert!(!error.is_ours(), "{pairs:?}: {said}");
                }
            }
        }
    }
}
