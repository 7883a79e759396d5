//! Code 128 against its own rules and against another encoder.

use barcoders::sym::code128::Code128;
use paper::barcode::{svg, widths};

/// Bars and spaces as modules: `1` is black.
fn modules(widths: &[u8]) -> Vec<u8> {
    let turns = widths.iter().enumerate();
    turns
        .flat_map(|(turn, width)| std::iter::repeat_n(u8::from(turn % 2 == 0), usize::from(*width)))
        .collect()
}

/// independent: barcoders 2.0.0, `Code128` with code set B ("Ɓ"), over every character we allow and enough texts
/// that each of the 103 values stands as a check character too.
#[test]
fn every_character_and_every_check_is_as_another_encoder_has_it() {
    let mut checks = std::collections::BTreeSet::new();
    let alone = (' '..='~').map(String::from);
    let pairs = (' '..='~').flat_map(|a| ['A', 'q', '7'].map(|b| format!("{a}{b}")));
    let real = ["J-001", "seat.correct", "thread.acme", "T-042"].map(String::from);
    for text in alone.chain(pairs).chain(real) {
        let ours = widths(&text).unwrap();
        let theirs = Code128::new(format!("\u{0181}{text}")).unwrap().encode();
        assert_eq!(modules(&ours), theirs, "{text}");
        let check: Vec<u8> = ours.iter().rev().skip(7).take(6).copied().collect();
        checks.insert(check);
    }
    assert_eq!(checks.len(), 103);
}

/// By ISO/IEC 15417 (from memory): each character is 11 modules wide, its bars are an even number of modules, the
/// stop is 13 wide; ten modules of nothing stand on either side.
#[test]
fn it_keeps_the_rules_of_the_symbology() {
    for text in ["J-001", "~", "seat.correct"] {
        let all = widths(text).unwrap();
        let (characters, stop) = all.split_at(all.len() - 7);
        for character in characters.chunks(6) {
            assert_eq!(character.iter().sum::<u8>(), 11);
            assert_eq!((character[0] + character[2] + character[4]) % 2, 0);
        }
        assert_eq!(stop.iter().sum::<u8>(), 13);
        let wide: u32 = all.iter().map(|w| u32::from(*w)).sum();
        let picture = svg(text).unwrap();
        assert!(
            picture.contains(&format!("viewBox=\"0 0 {} 44\"", wide + 20)),
            "{picture}"
        );
        assert!(picture.contains("d=\"M10 0"), "{picture}");
    }
}

#[test]
fn what_it_cannot_hold_is_refused_in_words() {
    for text in ["", "Nº 14", &"J".repeat(41)] {
        let why = widths(text).unwrap_err().to_string();
        assert!(why.contains("1 to 40 plain letters"), "{why}");
    }
}
