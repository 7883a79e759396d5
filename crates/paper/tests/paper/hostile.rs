//! What people type is data: no sign of any language does anything, and nothing is lost without a mark.

use crate::samples::{job, operation};
use crate::text::{run_on, text};
use paper::Fact;

fn with(words: &str) -> String {
    let mut card = job();
    card.title = words.into();
    card.found = vec![Fact::of("Told", words)];
    card.operations = vec![operation(words)];
    card.features[0].places[0].found = Some(words.into());
    card.about.title = words.into();
    let printed = card.print().unwrap();
    assert_eq!(printed.oddities, Vec::<String>::new());
    run_on(&text(&printed.bytes))
}

#[test]
fn signs_of_a_language_are_printed_as_they_are() {
    for words in [
        "#panic(\"no\") #{1 + 1} #read(\"/etc/passwd\") $x^2$",
        "*bold* _not_ `code` = heading - list / term: 3 + 4 ~ @ref <label>",
        "back\\slash \\n \\u{41} \"quotes\" 'single' [brackets] {braces}",
        "// no comment /* nor this */ -- --- ...",
        "</svg><script>alert(1)</script> &amp; %PDF-1.7 endobj",
    ] {
        let text = with(words);
        // A book's fraction stroke aside, every sign is there.
        assert!(text.contains(&run_on(words)), "{words} is not in {text}");
    }
}

#[test]
fn what_has_no_letter_is_written_by_its_number() {
    let text = with("schöne Łódź μ Ω ½ × 中 \u{1F682} \u{202E}gnol \u{E000} a\u{0}b");
    for said in [
        "schöneŁódź",
        "½×",
        "[U+4E2D]",
        "[U+1F682]",
        "[U+202E]gnol",
        "[U+E000]",
        "a[U+0000]b",
    ] {
        assert!(text.contains(said), "{said} is not in {text}");
    }
}

#[test]
fn a_very_long_note_is_printed_whole() {
    let note = (1..=400)
        .map(|n| format!("w{n}x"))
        .collect::<Vec<_>>()
        .join(" ");
    assert!(note.len() > 2000);
    let text = with(&note);
    for n in 1..=400 {
        assert!(text.contains(&format!("w{n}x")), "word {n}");
    }
    // One word without an end is broken somewhere and not lost: its letters are counted.
    let text = with(&"q".repeat(2000));
    assert!(
        text.matches('q').count() >= 3 * 2000,
        "{}",
        text.matches('q').count()
    );
}
