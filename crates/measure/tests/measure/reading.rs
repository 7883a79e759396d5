//! Readings: kept as written, turned into a number only with their unit.

use measure::{Dimension, Reading, Size, State, TextError};

fn reading(text: &str, unit_text: &str) -> Reading {
    Reading::new(
        text,
        unit_text,
        "top",
        "A. Fitter",
        "B. Clerk",
        State::AsFound,
    )
}

#[test]
fn a_reading_is_a_size_only_with_its_unit() {
    let expected = Size::parse("1.2495 in").unwrap();
    assert_eq!(reading("1.2495", "in").size(), Ok(expected));
    assert_eq!(reading("1.2495\"", "").size(), Ok(expected));
    assert_eq!(reading("1.24950", "\"").size(), Ok(expected));
    assert!(matches!(
        reading("1.2495", "").size(),
        Err(TextError::UnitMissing { .. })
    ));
    // A unit written twice is not guessed at.
    assert!(reading("1.2495 in", "mm").size().is_err());
}

#[test]
fn a_reading_comes_back_from_json_to_the_letter() {
    let mut written = reading("1-¼", "in.");
    written.instrument = Some("micrometer M-07".to_string());
    written.part_temperature = Some("70 F".to_string());
    let json = serde_json::to_string(&written).unwrap();
    assert!(
        json.contains("\"as-found\"") && json.contains("1-¼") && !json.contains("measured_on"),
        "{json}"
    );
    assert_eq!(serde_json::from_str::<Reading>(&json).unwrap(), written);
    assert_eq!(written.size(), Size::parse("1.25 in"));
}

#[test]
fn other_readings_and_the_warmth_of_the_part() {
    let gauge = reading("180", "psig")
        .entered(Dimension::GaugePressure)
        .unwrap();
    assert!(!gauge.unit_assumed);
    assert!(
        reading("180", "")
            .entered(Dimension::GaugePressure)
            .is_err()
    );
    // Nothing written about the temperature is nothing known, not 68 F.
    let mut part = reading("1", "in");
    assert_eq!(part.part_temperature(), Ok(None));
    part.part_temperature = Some("70 F".to_string());
    assert!(part.part_temperature().unwrap().is_some());
    part.part_temperature = Some("warm".to_string());
    assert!(part.part_temperature().is_err());
}
