//! The file itself: the same bytes again, letters inside, made to be kept, its own data with it.

use crate::samples::{bare, job, lathe, seat};
use crate::text::{each, fonts, open, streams};
use hayro_syntax::object::Name;

#[test]
fn the_same_data_makes_the_same_bytes() {
    let first = job().print().unwrap();
    // Other papers between them change nothing.
    lathe(&seat()).print().unwrap();
    bare().print().unwrap();
    assert_eq!(first.bytes, job().print().unwrap().bytes);
}

#[test]
fn every_letter_is_inside_the_file() {
    for printed in [job().print().unwrap(), lathe(&seat()).print().unwrap()] {
        let fonts = fonts(&printed.bytes);
        assert!(fonts.len() >= 4, "{fonts:?}");
        for (name, inside) in fonts {
            assert!(inside, "{name}");
            assert!(name.contains("Cabin") || name.contains("Fira"), "{name}");
        }
    }
}

/// Marks of PDF/A-3 level A and PDF/UA-1 by ISO 19005-3, 6.6.4 and 6.7, and ISO 14289-1, 5 (from memory).
#[test]
fn the_file_says_what_it_conforms_to_and_carries_its_data() {
    let printed = job().print().unwrap();
    let streams = streams(&printed.bytes);
    let metadata = streams.iter().find(|s| s.starts_with(b"<?xpacket"));
    let metadata = String::from_utf8_lossy(metadata.expect("metadata")).into_owned();
    for mark in [
        "<pdfaid:part>3</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "<pdfuaid:part>1</pdfuaid:part>",
        "Re-cut seat and disc to 45°",
        "2026-05-04T00:00:00",
    ] {
        assert!(metadata.contains(mark), "{mark}");
    }
    let mut keys = std::collections::BTreeSet::new();
    each(&open(&printed.bytes), |dict| {
        keys.extend(
            dict.keys()
                .map(|key| String::from_utf8_lossy(&key).into_owned()),
        );
    });
    for key in [
        "StructTreeRoot",
        "OutputIntents",
        "AFRelationship",
        "Lang",
        "MarkInfo",
    ] {
        assert!(keys.contains(key), "{key}");
    }
    assert!(!keys.contains("JavaScript") && !keys.contains("JS"));
    // The data inside is the data, to the letter.
    let inside = streams
        .iter()
        .find_map(|s| serde_json::from_slice::<serde_json::Value>(s).ok());
    let inside = inside.expect("JSON inside the file");
    let card = serde_json::to_value(job()).unwrap();
    for (key, value) in card.as_object().unwrap() {
        assert_eq!(inside.get(key), Some(value), "{key}");
    }
}

/// Each picture and each formula is said in words too.
#[test]
fn pictures_and_formulas_are_said_in_words() {
    let printed = job().print().unwrap();
    let mut said = Vec::new();
    each(&open(&printed.bytes), |dict| {
        let kind = dict.get::<Name<'_>>("S");
        if matches!(kind.as_deref(), Some(b"Figure" | b"Formula")) {
            let words = dict.get::<hayro_syntax::object::String<'_>>("Alt");
            said.push(plain(words.expect("words for what is not text").as_bytes()));
        }
    });
    assert!(
        said.iter().any(|words| words == "Barcode: J-001"),
        "{said:?}"
    );
    assert!(
        said.iter()
            .any(|words| words.starts_with("w equals l times the sine of")),
        "{said:?}"
    );
    assert!(
        said.iter().any(|words| words == "A square with its name."),
        "{said:?}"
    );
}

/// A text string of a PDF: UTF-16 if it begins with its mark, else one byte a character.
fn plain(bytes: &[u8]) -> String {
    match bytes.strip_prefix(&[0xFE, 0xFF]) {
        Some(wide) => {
            let units: Vec<u16> = wide
                .chunks(2)
                .map(|two| u16::from_be_bytes([two[0], two[1]]))
                .collect();
            String::from_utf16_lossy(&units)
        }
        None => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}
