//! Every way a shop writes a size, and the ticks it comes to.

use measure::{Dimension, Fraction, House, Size, Unit, entered};

/// Ticks of a number of inches over a denominator, by the definition of the tick.
fn inches(over: i64, under: i64) -> i64 {
    assert_eq!(
        over * Size::TICKS_PER_INCH % under,
        0,
        "{over}/{under} in is not whole"
    );
    over * Size::TICKS_PER_INCH / under
}

#[test]
fn the_tick_is_what_it_says() {
    // 2.5 nm: 25.4 mm in an inch, so 25.4 mm / 2.5 nm ticks in an inch.
    assert_eq!(Size::TICKS_PER_INCH * 10, Size::TICKS_PER_MM * 254);
    // A 128th, a ten-thousandth and a micrometre are whole.
    assert_eq!(Size::TICKS_PER_INCH % 128, 0);
    assert_eq!(Size::TICKS_PER_INCH % 10_000, 0);
    assert_eq!(Size::TICKS_PER_MM % 1_000, 0);
}

#[test]
fn every_way_of_writing_one() {
    let cases: &[(&str, i64)] = &[
        ("1 1/4 in", inches(5, 4)),
        ("1-1/4in", inches(5, 4)),
        ("1 1/4\"", inches(5, 4)),
        ("1 1/4 inches", inches(5, 4)),
        ("1.25in", inches(5, 4)),
        ("1.25 IN.", inches(5, 4)),
        ("5/4 in", inches(5, 4)),
        (".0049 in", inches(49, 10_000)),
        ("0.0049\"", inches(49, 10_000)),
        ("4.9 thou", inches(49, 10_000)),
        ("4.9thou", inches(49, 10_000)),
        ("5/32\"", inches(5, 32)),
        ("5⁄32 in", inches(5, 32)),
        ("½ in", inches(1, 2)),
        ("½\"", inches(1, 2)),
        ("1½ in", inches(3, 2)),
        ("1 ½″", inches(3, 2)),
        ("1-½”", inches(3, 2)),
        ("31.75 mm", inches(5, 4)),
        ("31.75mm", inches(5, 4)),
        ("31750 µm", inches(5, 4)),
        ("31750 um", inches(5, 4)),
        ("0.03175 m", inches(5, 4)),
        ("12'6\"", inches(150, 1)),
        ("12' 6\"", inches(150, 1)),
        ("12'-6\"", inches(150, 1)),
        ("12′ 6″", inches(150, 1)),
        ("12’ 6”", inches(150, 1)),
        ("12' 6''", inches(150, 1)),
        ("12'6", inches(150, 1)),
        ("12ft 6in", inches(150, 1)),
        ("12 FT. 6 IN.", inches(150, 1)),
        ("12 feet 6 inches", inches(150, 1)),
        ("12' 6 1/2\"", inches(301, 2)),
        ("12'-6½\"", inches(301, 2)),
        ("12.5 ft", inches(150, 1)),
        ("12'", inches(144, 1)),
        ("-1 13/16 in", inches(-29, 16)),
        ("−1 13/16 in", inches(-29, 16)),
        ("-1-13/16in", inches(-29, 16)),
        ("- 1 13/16 in", inches(-29, 16)),
        ("-12' 6\"", inches(-150, 1)),
        ("-.002 in", inches(-2, 1_000)),
        ("+.002 in", inches(2, 1_000)),
        ("  1\u{a0}1/4   in  ", inches(5, 4)),
        ("5. in", inches(5, 1)),
        ("0 in", 0),
        ("1 0/4 in", inches(1, 1)),
    ];
    for (text, ticks) in cases {
        match Size::parse(text) {
            Ok(size) => assert_eq!(size.ticks(), *ticks, "{text}"),
            Err(error) => panic!("{text}: {error}"),
        }
    }
}

#[test]
fn a_bare_number_takes_the_house_unit_and_says_so() {
    let inch = entered("1 1/4", Dimension::Length, House::Inch).unwrap();
    assert_eq!(
        (inch.unit, inch.unit_assumed, inch.exact),
        (Unit::Inch, true, Some(Fraction::new(5, 4)))
    );
    let metric = entered("1.25", Dimension::Length, House::Metric).unwrap();
    assert_eq!((metric.unit, metric.unit_assumed), (Unit::Mm, true));
    assert_eq!(metric.size().unwrap().ticks(), 500_000);
    let said = entered(" 1 1/4 in", Dimension::Length, House::Metric).unwrap();
    assert_eq!(
        (said.unit, said.unit_assumed, said.text.as_str()),
        (Unit::Inch, false, " 1 1/4 in")
    );
    assert_eq!(
        Size::parse_in("5/32", House::Inch).unwrap().ticks(),
        inches(5, 32)
    );
    assert_eq!(
        Size::parse_in("5", House::Metric).unwrap().ticks(),
        5 * Size::TICKS_PER_MM
    );
}

#[test]
fn inch_and_metric_entry_of_one_size_give_one_number() {
    for (a, b) in [
        ("1 1/4 in", "31.75 mm"),
        (".1 in", "2.54 mm"),
        ("12'", "3657.6 mm"),
        ("4.9 thou", "124.46 um"),
    ] {
        let a = entered(a, Dimension::Length, House::Inch).unwrap();
        let b = entered(b, Dimension::Length, House::Metric).unwrap();
        assert_eq!(a.size().unwrap(), b.size().unwrap());
        // To the last bit, so that a law cannot tell them apart.
        assert_eq!(a.si.to_bits(), b.si.to_bits());
        assert_eq!(a.size().unwrap().length().to_m().to_bits(), a.si.to_bits());
    }
}

#[test]
fn arithmetic_says_when_it_does_not_fit() {
    let inch = Size::from_ticks(Size::TICKS_PER_INCH);
    let most = Size::from_ticks(i64::MAX);
    assert_eq!(inch.checked_add(inch), inch.checked_times(2));
    assert_eq!(inch.checked_sub(inch), Some(Size::ZERO));
    assert_eq!(inch.checked_neg().map(Size::abs), Some(inch));
    assert_eq!(most.checked_add(inch), None);
    assert_eq!(most.checked_times(2), None);
    assert_eq!(Size::from_ticks(i64::MIN).checked_neg(), None);
    assert_eq!(Size::from_ticks(i64::MIN).checked_sub(inch), None);
    assert_eq!(Size::from_ticks(i64::MIN).abs(), most);
}

#[test]
fn a_law_s_length_is_brought_to_the_nearest_tick() {
    let third = measure::Length::inches(1.0 / 3.0);
    // 10 160 000 / 3 = 3 386 666.67.
    assert_eq!(Size::nearest_to(third), Some(Size::from_ticks(3_386_667)));
    assert_eq!(Size::nearest_to(measure::Length::m(f64::NAN)), None);
    assert_eq!(Size::nearest_to(measure::Length::m(f64::INFINITY)), None);
    assert_eq!(Size::nearest_to(measure::Length::m(1e15)), None);
}

#[test]
fn a_size_is_its_ticks_in_json() {
    let size = Size::parse("1/128 in").unwrap();
    assert_eq!(serde_json::to_string(&size).unwrap(), "79375");
    assert_eq!(serde_json::from_str::<Size>("79375").unwrap(), size);
    assert!(serde_json::from_str::<Size>("79375.5").is_err());
}
