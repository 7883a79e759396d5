//! What a dimension says.

use drawing::{Label, Tolerance};
use measure::{Angle, House, Length, Rounding};

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
    let inches = Length::inches;
    let nominal = inches(0.625);
    let of = |tolerance, house| Label::kept(nominal, Some(tolerance), "Ø ", house).lines;
    let over_under = Tolerance::OverUnder(inches(0.0), inches(0.0005));
    // From memory of ASME Y14.5: size and tolerance have one count of decimals; of two limits the greater stands over.
    for (tolerance, house, lines) in [
        (over_under, House::Inch, vec!["Ø .6250", "+.0000 -.0005"]),
        (
            Tolerance::Either(inches(0.0005)),
            House::Inch,
            vec!["Ø .6250 ±.0005"],
        ),
        (
            Tolerance::Either(inches(0.00025)),
            House::Inch,
            vec!["Ø .62500 ±.00025"],
        ),
        (
            Tolerance::Either(Length::mm(0.05)),
            House::Metric,
            vec!["Ø 15.875 ±0.050"],
        ),
        (
            Tolerance::Limits(inches(0.6245), nominal),
            House::Inch,
            vec!["Ø .6250", "Ø .6245"],
        ),
        (Tolerance::Reference, House::Inch, vec!["(Ø .6250)"]),
    ] {
        assert_eq!(of(tolerance, house), lines);
    }
    assert_eq!(
        Label::kept(nominal, None, "Ø ", House::Inch).lines,
        ["Ø 5/8", ".6250"]
    );
    let whole = Label::kept(
        inches(2.0),
        Some(Tolerance::Either(inches(0.001))),
        "",
        House::Inch,
    );
    assert_eq!(
        whole.lines,
        ["2.0000 ±.0010"],
        "a whole size shows how closely it is kept"
    );
}

#[test]
fn a_computed_size_is_rounded_the_way_it_is_told_and_a_stated_one_is_repeated() {
    let size = Length::inches(0.00891);
    let rounded = |way| Label::rounded(size, House::Inch, way).lines[0].clone();
    assert_eq!(rounded(Rounding::Up), ".0090");
    assert_eq!(rounded(Rounding::Down), ".0089");
    assert_eq!(Label::stated("0.0090", House::Inch).lines, [".0090"]);
    assert_eq!(Label::stated("0.229", House::Metric).lines, ["0.229"]);
    assert_eq!(
        Label::words("x").named("wall\nas found").lines,
        ["wall", "as found", "x"]
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
