//! A sheet's printed text is read back to the last word, or not at all.

use crate::samples::sheets;
use paper::{Copied, Worked};
use serde_json::Value;

fn words(value: &Value, all: &mut String) {
    match value {
        Value::String(text) => {
            all.push_str(text);
            all.push('\n');
        }
        Value::Array(list) => list.iter().for_each(|v| words(v, all)),
        Value::Object(map) => {
            for (key, value) in map {
                // Shapes say again what the text beside them says.
                if key != "shape" && key != "spoken" {
                    words(value, all);
                }
            }
        }
        _ => {}
    }
}

/// Every row of evidence of every sheet, in both houses: each word of the page stands in what was read.
#[test]
fn every_word_of_every_sheet_is_read_back() {
    let headings = [
        "WORKED", "SHEET", "Purpose", "ASSUMED,", "NOT", "GIVEN", "Formula", "Where", "Worked",
        "Results", "Notices", "Cautions", "Holds", "for", "Sources",
    ];
    for entry in physics::catalogue() {
        for sheet in sheets(entry.card.id) {
            let text = sheet.to_text();
            let read = Worked::of(&sheet).unwrap_or_else(|| panic!("not read:\n{text}"));
            let mut all = String::new();
            words(&serde_json::to_value(&read).unwrap(), &mut all);
            for word in text.split_whitespace() {
                let bare = word.trim_matches(['(', ')', '[', ']', ':', ',']);
                let known = headings.contains(&word) || ["=", "-", "not", "given"].contains(&bare);
                assert!(
                    known || all.contains(bare),
                    "`{word}` of {} is lost",
                    entry.card.id
                );
            }
            assert_eq!(read.steps.len(), sheet.steps.len());
            assert_eq!(read.inputs.len(), sheet.inputs.len());
            assert_eq!(read.not_given, sheet.not_given);
            for (read, input) in read.inputs.iter().zip(&sheet.inputs) {
                assert_eq!(
                    (read.symbol.as_str(), read.entered.as_str()),
                    (input.symbol, input.entered.as_str())
                );
                assert_eq!(read.basis, input.basis.to_string());
                assert_eq!(read.meaning, input.meaning);
            }
            for (read, step) in read.steps.iter().zip(&sheet.steps) {
                assert_eq!(
                    (&read.formula.text, &read.substituted.text),
                    (&step.formula, &step.substituted)
                );
                assert_eq!(read.source, step.source);
            }
            for (read, result) in read.results.iter().zip(&sheet.results) {
                assert_eq!(read.name, result.name);
            }
            assert_eq!(read.notices, sheet.notices);
            assert_eq!(read.cautions, sheet.cautions);
            assert_eq!(read.sources, sheet.sources);
        }
    }
}

/// A text of a form nobody here knows is kept as it is.
#[test]
fn a_text_that_is_not_understood_is_kept_as_it_stands() {
    let whole = crate::samples::seat().to_text();
    assert!(Copied::of("seat.correct", whole.clone()).worked.is_some());
    for (was, is) in [
        ("Results", "Outcome"),
        ("\n  w = l", "\n w = l"),
        ("(entered)", "(entered"),
        ("WORKED SHEET", "SHEET"),
        ("= 0.15625 * sin", "= 0.15625 ** sin"),
    ] {
        let other = whole.replacen(was, is, 1);
        assert_ne!(other, whole, "{was}");
        let copied = Copied::of("seat.correct", other.clone());
        assert_eq!((copied.worked, copied.text), (None, other), "{was}");
    }
}
