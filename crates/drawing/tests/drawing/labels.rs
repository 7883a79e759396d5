//! What a dimension says.

use drawing::{Label, Tolerance};
use measure::{Angle, House, Length};

#[test]
fn a_size_is_written_as_the_shop_writes_it() {
    // Arithmetic: 5/32 = .15625; 1/128 = .0078125; 1 in = 25.4 mm exactly.
    for (inches, inch, metric) in [
        (5.0 / 32.0, "5/32 · .15625", "3.969"),
        (1.5, "1 1/2 · 1.5000", "38.1"),
        (2.0, "2", "50.8"),
        (0.0049, ".0049", "0.124"),
        (0.123_456, ".1235", "3.136"),
        (1.0 / 128.0, "1/128 · .0078125", "0.198"),
    ] {
        let length = Length::inches(inches);
        assert_eq!(Label::length(length, House::Inch).lines, [inch]);
        assert_eq!(Label::length(length, House::Metric).lines, [metric]);
    }
}

#[test]
fn a_fraction_may_stand_over_its_decimals() {
    let label = Label::stacked_diameter(Length::inches(1.8125), House::Inch);
    assert_eq!(label.lines, ["Ø 1 13/16", "1.8125"]);
}

#[test]
fn a_tolerance_stands_in_a_line_of_its_own() {
    let label = Label::diameter(Length::inches(0.625), House::Inch);
    let over_under = Tolerance::OverUnder(Length::inches(0.0), Length::inches(0.0005));
    assert_eq!(
        label.clone().within(over_under, House::Inch).lines,
        ["Ø 5/8 · .6250", "+.0000 -.0005"]
    );
    let either = Tolerance::Either(Length::mm(0.05));
    assert_eq!(
        label.within(either, House::Metric).lines,
        ["Ø 5/8 · .6250", "±0.050"]
    );
}

#[test]
fn an_angle_has_no_idle_zeros() {
    for (degrees, shown) in [
        (45.0, "45°"),
        (14.5, "14.5°"),
        (14.036, "14.04°"),
        (30.0, "30°"),
    ] {
        assert_eq!(Label::angle(Angle::degrees(degrees)).lines, [shown]);
    }
}

#[test]
fn a_dust_of_arithmetic_does_not_hide_a_fraction() {
    let label = Label::length(Length::inches(0.1 + 0.2 - 0.3 + 0.375), House::Inch);
    assert_eq!(label.lines, ["3/8 · .3750"]);
}
