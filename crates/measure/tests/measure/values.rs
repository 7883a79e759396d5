//! Values other than sizes: angles, pressures, temperatures, forces, threads, ratios and counts.

use measure::{
    AbsolutePressure, Angle, Dimension, Entered, Fraction, GaugePressure, House, Pitch, Tolerance,
    Unit, agrees, entered,
};

fn read(text: &str, dimension: Dimension) -> Entered {
    entered(text, dimension, House::Inch).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// Each text comes to this exact value in this unit.
fn exactly(dimension: Dimension, cases: &[(&str, (i128, i128), Unit)]) {
    for &(text, (over, under), unit) in cases {
        let value = read(text, dimension);
        assert_eq!(value.exact, Some(Fraction::new(over, under)), "{text}");
        assert_eq!(value.unit, unit, "{text}");
        assert_eq!(value.dimension, dimension, "{text}");
    }
}

#[test]
fn angles() {
    exactly(
        Dimension::Angle,
        &[
            ("14.5deg", (29, 2), Unit::Degree),
            ("14.5°", (29, 2), Unit::Degree),
            ("14 1/2 degrees", (29, 2), Unit::Degree),
            ("14d30m", (29, 2), Unit::Degree),
            ("14° 30'", (29, 2), Unit::Degree),
            ("14º30′", (29, 2), Unit::Degree),
            ("14 deg 30 min", (29, 2), Unit::Degree),
            // 14 + 30/60 + 15/3600 = 52215/3600.
            ("14d30m15s", (52_215, 3_600), Unit::Degree),
            ("14° 30' 15\"", (52_215, 3_600), Unit::Degree),
            ("14° 30' 15''", (52_215, 3_600), Unit::Degree),
            ("-0° 45'", (-3, 4), Unit::Degree),
            ("14.5", (29, 2), Unit::Degree),
            ("45'", (45, 1), Unit::ArcMinute),
            ("0.25 rad", (1, 4), Unit::Radian),
            ("3/4 in/ft", (3, 4), Unit::InchPerFoot),
            (".75 in per ft", (3, 4), Unit::InchPerFoot),
            ("0.625\"/ft", (5, 8), Unit::InchPerFoot),
            ("1:16", (16, 1), Unit::OneIn),
            ("1 in 16", (16, 1), Unit::OneIn),
            ("3/4 in 12", (16, 1), Unit::OneIn),
        ],
    );
    assert!(read("14.5", Dimension::Angle).unit_assumed);
    // Three ways of saying one cone give one half angle.
    let half = Angle::from_taper_per_foot(0.75).to_radians();
    for text in ["3/4 in/ft", "1:16", "1 in 16"] {
        assert!(
            agrees(
                read(text, Dimension::Angle).si,
                half,
                Tolerance::Relative(1e-14)
            ),
            "{text}"
        );
    }
    assert!(agrees(
        read("45'", Dimension::Angle).si,
        Angle::degrees(0.75).to_radians(),
        Tolerance::Relative(1e-14)
    ));
}

#[test]
fn pressures() {
    exactly(
        Dimension::GaugePressure,
        &[
            ("180psig", (180, 1), Unit::PsiGauge),
            ("180 psi", (180, 1), Unit::PsiGauge),
            ("180", (180, 1), Unit::PsiGauge),
            ("1240 kPa", (1240, 1), Unit::KPaGauge),
            ("1240 kPag", (1240, 1), Unit::KPaGauge),
            ("12.5 bar(g)", (25, 2), Unit::BarGauge),
            ("12.5 bar gauge", (25, 2), Unit::BarGauge),
            ("-5 psig", (-5, 1), Unit::PsiGauge),
        ],
    );
    exactly(
        Dimension::AbsolutePressure,
        &[
            ("14.7psia", (147, 10), Unit::PsiAbsolute),
            ("101.325 kPa(a)", (101_325, 1_000), Unit::KPaAbsolute),
            ("1 bara", (1, 1), Unit::BarAbsolute),
            ("0 psia", (0, 1), Unit::PsiAbsolute),
        ],
    );
    let psig = read("180 psig", Dimension::GaugePressure).si;
    assert!(agrees(
        psig,
        GaugePressure::psi(180.0).to_pascals(),
        Tolerance::Relative(1e-15)
    ));
    assert_eq!(
        read("101.325 kPa absolute", Dimension::AbsolutePressure).si,
        AbsolutePressure::STANDARD.to_pascals()
    );
}

#[test]
fn temperatures_and_rises() {
    exactly(
        Dimension::Temperature,
        &[
            ("70F", (70, 1), Unit::Fahrenheit),
            ("70 °F", (70, 1), Unit::Fahrenheit),
            ("70 deg F", (70, 1), Unit::Fahrenheit),
            ("-40 C", (-40, 1), Unit::Celsius),
            ("294.15 K", (29_415, 100), Unit::Kelvin),
        ],
    );
    exactly(
        Dimension::TemperatureRise,
        &[
            ("310F", (310, 1), Unit::FahrenheitDegree),
            ("310 Fdeg", (310, 1), Unit::FahrenheitDegree),
            ("310 F°", (310, 1), Unit::FahrenheitDegree),
            ("310", (310, 1), Unit::FahrenheitDegree),
            ("172 C", (172, 1), Unit::CelsiusDegree),
        ],
    );
    assert_eq!(read("32 F", Dimension::Temperature).si, 273.15);
    assert_eq!(read("0 C", Dimension::Temperature).si, 273.15);
    assert_eq!(read("180 F", Dimension::TemperatureRise).si, 100.0);
}

#[test]
fn forces_and_their_kin() {
    exactly(
        Dimension::Force,
        &[
            ("1200 lb", (1200, 1), Unit::PoundForce),
            ("5.3 kN", (53, 10), Unit::KiloNewton),
        ],
    );
    exactly(
        Dimension::Torque,
        &[
            ("450 lb-in", (450, 1), Unit::PoundInch),
            ("450 in.lb", (450, 1), Unit::PoundInch),
            ("60 ft-lbs", (60, 1), Unit::PoundFoot),
            ("80 N.m", (80, 1), Unit::NewtonMetre),
            ("80 N·m", (80, 1), Unit::NewtonMetre),
        ],
    );
    exactly(
        Dimension::Stress,
        &[
            ("55000 psi", (55_000, 1), Unit::Psi),
            ("55 ksi", (55, 1), Unit::Ksi),
            ("380 N/mm²", (380, 1), Unit::MPa),
        ],
    );
    exactly(
        Dimension::Area,
        &[
            ("2 1/2 sq. in.", (5, 2), Unit::SqInch),
            ("2.5 in²", (5, 2), Unit::SqInch),
            ("2.5 in^2", (5, 2), Unit::SqInch),
            ("1600 mm2", (1600, 1), Unit::SqMm),
            ("3 sq ft", (3, 1), Unit::SqFoot),
        ],
    );
    exactly(
        Dimension::Mass,
        &[
            ("42 lb", (42, 1), Unit::Pound),
            ("19 kg", (19, 1), Unit::Kilogram),
        ],
    );
    exactly(
        Dimension::Speed,
        &[
            ("90 ft/min", (90, 1), Unit::FootPerMinute),
            ("25mph", (25, 1), Unit::MilePerHour),
            ("0.5 m/s", (1, 2), Unit::MetrePerSecond),
        ],
    );
    exactly(
        Dimension::Flow,
        &[
            ("3020 lb/hr", (3020, 1), Unit::PoundPerHour),
            ("239.9 lb/min", (2399, 10), Unit::PoundPerMinute),
            ("1400 kg/h", (1400, 1), Unit::KilogramPerHour),
        ],
    );
    exactly(
        Dimension::SpecificVolume,
        &[
            ("2.29 ft³/lb", (229, 100), Unit::CuFootPerPound),
            ("0.143 m3/kg", (143, 1000), Unit::CuMetrePerKilogram),
        ],
    );
    exactly(
        Dimension::Heat,
        &[
            ("970.4 Btu/lb", (9704, 10), Unit::BtuPerPound),
            ("2787 kJ/kg", (2787, 1), Unit::KiloJoulePerKilogram),
        ],
    );
    // Sixty pounds an hour are one a minute.
    assert_eq!(
        read("60 lb/h", Dimension::Flow).si.to_bits(),
        read("1 lb/min", Dimension::Flow).si.to_bits()
    );
    // The pound by its dimension: a force in newtons here, a mass in kilograms there.
    assert_eq!(read("1 lb", Dimension::Force).si, 4.4482216152605);
    assert_eq!(read("1 lb", Dimension::Mass).si, 0.45359237);
}

#[test]
fn threads() {
    exactly(
        Dimension::Pitch,
        &[
            ("5 TPI", (5, 1), Unit::ThreadsPerInch),
            ("11-1/2 tpi", (23, 2), Unit::ThreadsPerInch),
            ("5/in", (5, 1), Unit::ThreadsPerInch),
            ("0.2in", (1, 5), Unit::Inch),
            ("3 mm", (3, 1), Unit::Mm),
        ],
    );
    assert_eq!(
        read("5 TPI", Dimension::Pitch).si.to_bits(),
        read(".2 in", Dimension::Pitch).si.to_bits()
    );
    exactly(
        Dimension::PerInch,
        &[
            ("5", (5, 1), Unit::PerInch),
            ("11 1/2", (23, 2), Unit::PerInch),
            ("11.5tpi", (23, 2), Unit::PerInch),
        ],
    );
    assert!(!read("5", Dimension::PerInch).unit_assumed);
    // Twelve to the inch is no whole number of ticks, which is why a pitch is a fraction.
    let twelfth = Pitch::from_tpi(Fraction::from_integer(12)).unwrap();
    assert_eq!(twelfth.inches(), Fraction::new(1, 12));
    assert_eq!(Pitch::from_mm(Fraction::new(254, 120)).unwrap(), twelfth);
    assert_eq!(serde_json::to_string(&twelfth).unwrap(), "\"1/12\"");
    assert_eq!(serde_json::from_str::<Pitch>("\"1/12\"").unwrap(), twelfth);
    for broken in [
        "\"0\"",
        "\"1/0\"",
        "\"-1/12\"",
        "\"a\"",
        "\"1/-170141183460469231731687303715884105728\"",
        "0.2",
    ] {
        assert!(serde_json::from_str::<Pitch>(broken).is_err(), "{broken}");
    }
    for bad in [Fraction::new(0, 1), Fraction::new(-1, 5)] {
        assert!(
            Pitch::from_tpi(bad).is_err()
                && Pitch::from_inches(bad).is_err()
                && Pitch::from_mm(bad).is_err()
        );
    }
}

#[test]
fn ratios_and_counts() {
    exactly(
        Dimension::Ratio,
        &[
            ("0.15", (3, 20), Unit::One),
            ("1/4", (1, 4), Unit::One),
            ("15%", (15, 1), Unit::Percent),
        ],
    );
    assert_eq!(read("15%", Dimension::Ratio).si, 0.15);
    assert!(!read("0.15", Dimension::Ratio).unit_assumed);
    exactly(
        Dimension::Count,
        &[("4", (4, 1), Unit::Each), ("0", (0, 1), Unit::Each)],
    );
}

#[test]
fn every_example_in_the_messages_is_accepted() {
    for dimension in Dimension::ALL {
        for text in dimension.examples() {
            read(text, dimension);
        }
    }
}

#[test]
fn every_unit_goes_to_si_and_back_and_its_symbol_is_read() {
    for dimension in Dimension::ALL {
        for house in [House::Inch, House::Metric] {
            let unit = Unit::of(dimension, house);
            assert_eq!(
                unit.dimension(),
                if unit == Unit::Mm {
                    Dimension::Length
                } else {
                    dimension
                }
            );
            assert!(
                agrees(
                    unit.from_si(unit.to_si(7.0)),
                    7.0,
                    Tolerance::Relative(1e-13)
                ),
                "{unit:?}"
            );
            let value = entered(&format!("7 {}", unit.symbol()), dimension, house).unwrap();
            assert_eq!(value.unit, unit);
            assert!(
                agrees(value.si, unit.to_si(7.0), Tolerance::Relative(1e-15)),
                "{unit:?}"
            );
            assert!(agrees(value.value(), 7.0, Tolerance::Absolute(0.0)));
        }
    }
}
