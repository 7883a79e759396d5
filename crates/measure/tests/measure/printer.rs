//! What the printer prints.

use measure::show::{self, Rounding};
use measure::{Angle, Fraction, House, Length, Pitch, Size, Unit, fraction};

fn size(text: &str) -> Size {
    Size::parse(text).unwrap()
}

#[test]
fn sizes_in_both_houses() {
    for (text, inch, metric) in [
        ("5/32 in", "5/32 in · .15625 in", "3.96875 mm"),
        ("1 1/4 in", "1 1/4 in · 1.2500 in", "31.75 mm"),
        ("-1 13/16 in", "-1 13/16 in · -1.8125 in", "-46.0375 mm"),
        ("2 in", "2 in", "50.8 mm"),
        ("0 in", "0 in", "0 mm"),
        (".0049 in", ".0049 in", "0.12446 mm"),
        ("-.0049 in", "-.0049 in", "-0.12446 mm"),
        ("1.0005 in", "1.0005 in", "25.4127 mm"),
        ("1/128 in", "1/128 in · .0078125 in", "0.1984375 mm"),
        // 1/25.4 = 0.03937...: a size that never ends in decimal inches.
        ("1 mm", "1 mm ≈ .0394 in", "1 mm"),
        ("-1 mm", "-1 mm ≈ -.0394 in", "-1 mm"),
    ] {
        assert_eq!(show::size(size(text), House::Inch), inch);
        assert_eq!(show::size(size(text), House::Metric), metric);
    }
}

/// One inch is 25.4 mm by definition, so 17/64 in is 6.746875 mm.
#[test]
fn what_somebody_wrote_stands_first() {
    for (written, inch, metric) in [
        ("17/64in", "17/64 in · .265625 in", "17/64in (6.746875 mm)"),
        (" .0490 in ", ".0490 in", ".0490 in (1.2446 mm)"),
        ("31.75 mm", "31.75 mm (1 1/4 in · 1.2500 in)", "31.75 mm"),
        ("1 mm", "1 mm ≈ .0394 in", "1 mm"),
        ("25400 um", "25400 um (1 in)", "25.4 mm"),
    ] {
        let read = size(written.trim());
        assert_eq!(show::size_as_written(written, read, House::Inch), inch);
        assert_eq!(show::size_as_written(written, read, House::Metric), metric);
    }
    assert_eq!(show::written_in("1/4\""), Some(House::Inch));
    assert_eq!(show::written_in("6 mm"), Some(House::Metric));
    assert_eq!(show::written_in("1/4"), None);
    assert_eq!(show::written_in("45 deg"), None);
}

#[test]
fn fractions_only_when_exact() {
    assert_eq!(show::fraction_in(size("1.25 in")).as_deref(), Some("1 1/4"));
    assert_eq!(
        show::fraction_in(size("-1.8125 in")).as_deref(),
        Some("-1 13/16")
    );
    assert_eq!(
        show::fraction_in(size("1/128 in")).as_deref(),
        Some("1/128")
    );
    assert_eq!(show::fraction_in(size(".1562 in")), None);
    // A 256th is written by nobody.
    assert_eq!(
        show::fraction_in(Size::from_ticks(Size::TICKS_PER_INCH / 256)),
        None
    );
    assert_eq!(show::decimal_in(size("1 1/4 in")), "1.2500");
    assert_eq!(show::decimal_in(size("1/64 in")), ".015625");
    assert_eq!(show::decimal_in(size("1/8 in")), ".1250");
    assert_eq!(show::decimal_mm(size("1/8 in")), "3.175");
}

#[test]
fn numbers_round_as_the_pencil_does() {
    for (value, decimals, rounding, expected) in [
        (0.125, 2, Rounding::Nearest, "0.13"),
        (-0.125, 2, Rounding::Nearest, "-0.13"),
        (2.675, 2, Rounding::Nearest, "2.68"),
        (1.005, 2, Rounding::Nearest, "1.01"),
        (0.1 + 0.2, 1, Rounding::Up, "0.3"),
        (0.1 + 0.2, 1, Rounding::Down, "0.3"),
        (0.31, 1, Rounding::Up, "0.4"),
        (0.39, 1, Rounding::Down, "0.3"),
        (-0.31, 1, Rounding::Up, "-0.3"),
        (-0.31, 1, Rounding::Down, "-0.4"),
        (9.99, 1, Rounding::Nearest, "10.0"),
        (99.5, 0, Rounding::Nearest, "100"),
        (0.4, 0, Rounding::Nearest, "0"),
        (0.5, 0, Rounding::Nearest, "1"),
        (-0.001, 2, Rounding::Nearest, "0.00"),
        (-0.001, 2, Rounding::Down, "-0.01"),
        (1e-9, 3, Rounding::Up, "0.001"),
        (0.04, 1, Rounding::Nearest, "0.0"),
        (0.06, 1, Rounding::Nearest, "0.1"),
        (123456.0, 0, Rounding::Nearest, "123456"),
        (1e16, 1, Rounding::Nearest, "10000000000000000.0"),
        (0.0, 3, Rounding::Up, "0.000"),
        (-0.0, 1, Rounding::Down, "0.0"),
        (f64::NAN, 1, Rounding::Nearest, "not a number"),
        (f64::INFINITY, 1, Rounding::Nearest, "infinite"),
        (f64::NEG_INFINITY, 1, Rounding::Nearest, "minus infinite"),
    ] {
        assert_eq!(
            show::number(value, decimals, rounding),
            expected,
            "{value} {decimals} {rounding:?}"
        );
    }
}

#[test]
fn exact_fractions_round_the_same_way() {
    for (over, under, places, rounding, expected) in [
        (5, 32, 4, Rounding::Nearest, "0.1563"),
        (5, 32, 4, Rounding::Down, "0.1562"),
        (-5, 32, 4, Rounding::Nearest, "-0.1563"),
        (-5, 32, 4, Rounding::Up, "-0.1562"),
        (1, 3, 2, Rounding::Up, "0.34"),
        (2, 1, 2, Rounding::Up, "2.00"),
        (999, 1000, 2, Rounding::Nearest, "1.00"),
        (7, 2, 0, Rounding::Nearest, "4"),
        (-1, 1000, 2, Rounding::Nearest, "0.00"),
    ] {
        assert_eq!(
            fraction::decimal(Fraction::new(over, under), places, rounding),
            expected
        );
    }
    assert_eq!(fraction::mixed(Fraction::new(-29, 16)), "-1 13/16");
    assert_eq!(fraction::mixed(Fraction::new(-5, 32)), "-5/32");
    assert_eq!(fraction::mixed(Fraction::new(8, 4)), "2");
    // 12.171 in is 12 11/64 in to the nearest 64th: 0.171 x 64 = 10.94.
    let nearest = fraction::nearest(Fraction::new(12_171, 1_000), 64).unwrap();
    assert_eq!(fraction::mixed(nearest), "12 11/64");
    assert_eq!(
        fraction::nearest(Fraction::new(-12_171, 1_000), 64),
        Some(-nearest)
    );
    assert_eq!(
        fraction::nearest(Fraction::new(1, 8), 4),
        Some(Fraction::new(1, 4)),
        "a tie goes away from zero"
    );
    assert_eq!(fraction::nearest(Fraction::new(1, 8), 0), None);
    assert_eq!(
        fraction::nearest(Fraction::from_integer(i128::MAX), 64),
        None
    );
    assert_eq!(fraction::places_needed(Fraction::new(1, 128)), Some(7));
    assert_eq!(fraction::places_needed(Fraction::new(1, 3)), None);
}

#[test]
fn angles() {
    assert_eq!(
        show::degrees(Angle::degrees(14.5), 1, Rounding::Nearest),
        "14.5°"
    );
    assert_eq!(show::degrees_minutes(Angle::degrees(14.5)), "14° 30'");
    assert_eq!(show::degrees_minutes(Angle::degrees(-0.75)), "-0° 45'");
    assert_eq!(show::degrees_minutes(Angle::degrees(59.9999)), "60° 00'");
    assert_eq!(show::degrees_minutes(Angle::degrees(0.0)), "0° 00'");
    assert_eq!(
        show::degrees_minutes(Angle::degrees(f64::NAN)),
        "not a number"
    );
}

#[test]
fn pitches_in_both_houses() {
    let tpi = |over, under| Pitch::from_tpi(Fraction::new(over, under)).unwrap();
    assert_eq!(show::pitch(tpi(5, 1), House::Inch), "5 TPI");
    assert_eq!(show::pitch(tpi(23, 2), House::Inch), "11 1/2 TPI");
    assert_eq!(show::pitch(tpi(5, 1), House::Metric), "5.08 mm");
    // 25.4 / 12 never ends; even a metric shop says twelve to the inch.
    assert_eq!(show::pitch(tpi(12, 1), House::Metric), "12 TPI");
    let metric = Pitch::from_mm(Fraction::from_integer(3)).unwrap();
    assert_eq!(show::pitch(metric, House::Inch), "3 mm");
}

#[test]
fn values_carry_their_unit() {
    let psig = Unit::PsiGauge;
    assert_eq!(
        show::value(psig.to_si(180.0), psig, 1, Rounding::Nearest),
        "180.0 psig"
    );
    assert_eq!(
        show::value(0.25, Unit::Percent, 0, Rounding::Nearest),
        "25%"
    );
    assert_eq!(show::value(0.25, Unit::One, 2, Rounding::Nearest), "0.25");
    assert_eq!(
        show::value(Unit::OneIn.to_si(16.0), Unit::OneIn, 1, Rounding::Nearest),
        "1 in 16.0"
    );
    assert_eq!(
        show::value(Unit::Celsius.to_si(21.0), Unit::Celsius, 1, Rounding::Up),
        "21.0 °C"
    );
    assert_eq!(
        show::length(Length::inches(0.125), House::Inch, 4, Rounding::Nearest),
        ".1250 in"
    );
    assert_eq!(
        show::length(Length::inches(-0.125), House::Inch, 3, Rounding::Nearest),
        "-.125 in"
    );
    assert_eq!(
        show::length(Length::inches(0.125), House::Metric, 2, Rounding::Up),
        "3.18 mm"
    );
}
