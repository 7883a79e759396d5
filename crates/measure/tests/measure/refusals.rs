//! What is refused, and that the sentence says what was read and what was expected.

use measure::{Dimension, House, Size, TextError, entered};

/// Each text is refused for this dimension with a sentence that quotes it and holds these words.
fn refused(dimension: Dimension, cases: &[(&str, &str)]) {
    for &(text, words) in cases {
        match entered(text, dimension, House::Inch) {
            Ok(value) => panic!("`{text}` was taken as {value:?}"),
            Err(error) => {
                let said = error.to_string();
                assert!(said.contains(words), "`{text}`: {said}");
                let head: String = text.trim().chars().take(30).collect();
                assert!(said.contains(&head), "`{text}` is not quoted: {said}");
            }
        }
    }
}

#[test]
fn broken_numbers() {
    let number = "does not read as one number; a length was expected, such as 1 1/4 in, .0049 in or 31.75 mm";
    refused(
        Dimension::Length,
        &[
            ("1/0 in", "divides by zero"),
            ("1 1/0 in", "divides by zero"),
            ("1//4 in", number),
            ("1/4/8 in", number),
            ("1.5/2 in", "mixes a decimal point and a fraction"),
            ("1/2.5 in", "mixes a decimal point and a fraction"),
            ("1.5 1/2 in", number),
            ("1 5/4 in", "a fraction of one or more after a whole number"),
            ("1 4/4 in", "a fraction of one or more after a whole number"),
            ("31,75 mm", "write a point"),
            ("1,000 in", "nothing for the thousands"),
            ("1 2 in", number),
            ("1.2.3 in", number),
            ("1 - 1/4 in", number),
            ("--1 in", number),
            (".", number),
            ("-", number),
            ("/4 in", number),
            ("in", number),
            ("nan", number),
            ("inf in", number),
            ("1e3 in", "where a unit was expected"),
            ("0x10", "where a unit was expected"),
            ("1234567890123456789 in", "18 digits"),
            ("0.1234567890123456789 in", "18 digits"),
            ("1/1234567890123456789 in", "18 digits"),
        ],
    );
    assert_eq!(
        entered("  ", Dimension::Length, House::Inch),
        Err(TextError::Empty {
            wanted: Dimension::Length
        })
    );
    let long = "9".repeat(10_000);
    let said = Size::parse(&long).unwrap_err().to_string();
    assert!(said.len() < 300 && said.contains("18 digits"), "{said}");
}

#[test]
fn units_missing_unknown_or_of_another_kind() {
    assert!(
        Size::parse("332")
            .unwrap_err()
            .to_string()
            .contains("`332` has no unit")
    );
    refused(
        Dimension::Length,
        &[
            (
                "5 psi",
                "is a gauge pressure by its unit; a length was expected",
            ),
            ("70 F", "is a temperature by its unit"),
            ("5 furlongs", "has `furlongs` where a unit was expected"),
            ("5 mil", "write thou or mm"),
            ("5 in in", "where a unit was expected"),
        ],
    );
    refused(
        Dimension::GaugePressure,
        &[
            ("180 psia", "absolute pressure"),
            (
                "3 in",
                "is a length by its unit; a gauge pressure was expected",
            ),
        ],
    );
    refused(
        Dimension::AbsolutePressure,
        &[
            ("14.7 psi", "psia"),
            ("14.7 psig", "plus the atmosphere"),
            ("1 bar", "bar absolute"),
            ("-1 psia", "below vacuum"),
        ],
    );
    refused(
        Dimension::Force,
        &[
            ("5 tons", "short, long or metric"),
            ("5 kg", "is a mass by its unit"),
        ],
    );
    refused(Dimension::Mass, &[("5 ton", "short, long or metric")]);
    refused(Dimension::Flow, &[("5 lb", "is a force by its unit")]);
    refused(Dimension::Speed, &[("25", "has no unit")]);
    refused(
        Dimension::Pitch,
        &[
            ("5", "has no unit"),
            ("0 TPI", "above zero"),
            ("-5 TPI", "above zero"),
        ],
    );
    refused(
        Dimension::PerInch,
        &[("0", "above zero"), ("5 mm", "is a length by its unit")],
    );
    refused(
        Dimension::Temperature,
        &[("-460 F", "absolute zero"), ("-1 K", "absolute zero")],
    );
    refused(
        Dimension::Count,
        &[
            ("2.5", "whole number"),
            ("-1", "whole number"),
            ("4 in", "is a length"),
        ],
    );
    refused(
        Dimension::Ratio,
        &[("0.15 in", "is a length by its unit; a ratio was expected")],
    );
}

#[test]
fn parts_that_do_not_fit_together() {
    refused(
        Dimension::Length,
        &[
            ("12' 13\"", "less than 12 inches"),
            ("12.5' 6\"", "whole feet"),
            ("12' 6 mm", "inches were expected"),
            ("12' -6 1/0\"", "divides by zero"),
            ("1/2 in · .4 in", "two sizes that differ"),
        ],
    );
    refused(
        Dimension::Angle,
        &[
            ("14° 60'", "below 60"),
            ("14.5° 30'", "whole degrees"),
            ("14° 30.5' 15\"", "whole minutes"),
            ("14° 30' 60\"", "below 60"),
            ("14° 30", "as in 14d30m"),
            ("14° 30 in", "as in 14d30m"),
            ("1:0", "above zero"),
            ("0:16", "above zero"),
            ("1:16 in", "where a unit was expected"),
            ("5 mm", "is a length by its unit; an angle was expected"),
            ("999999999999999999° 0' 0.000000000000000001\"", "digits"),
        ],
    );
}

#[test]
fn sizes_between_ticks_name_the_nearest() {
    for (text, nearest) in [
        ("1/3 in", "the nearest is 0.3333 in"),
        ("2/3 in", "the nearest is 0.6667 in"),
        (".00000001 in", "the nearest is 0.0000 in"),
        ("-1/3 in", "the nearest is -0.3333 in"),
        ("1/3 mm", "the nearest is 0.333 mm"),
        ("1/3 ft", ""),
    ] {
        match (Size::parse(text), nearest) {
            // A third of a foot is four inches: exact after all.
            (Ok(size), "") => assert_eq!(size.ticks(), 4 * Size::TICKS_PER_INCH),
            (Ok(size), _) => panic!("{text} was taken as {size:?}"),
            (Err(error), _) => {
                let said = error.to_string();
                assert!(
                    said.contains(nearest) && said.contains(text),
                    "{text}: {said}"
                );
            }
        }
    }
    assert!(
        Size::parse("999999999999999999 in")
            .unwrap_err()
            .to_string()
            .contains("larger than any size")
    );
    // As an input of a law a third of an inch is exact enough: it is held as a fraction.
    assert!(entered("1/3 in", Dimension::Length, House::Inch).is_ok());
}

#[test]
fn houses() {
    assert_eq!("inch".parse::<House>(), Ok(House::Inch));
    assert_eq!("metric".parse::<House>(), Ok(House::Metric));
    let said = "imperial".parse::<House>().unwrap_err().to_string();
    assert!(
        said.contains("imperial") && said.contains("inch") && said.contains("metric"),
        "{said}"
    );
}
