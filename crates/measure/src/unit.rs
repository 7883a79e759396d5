//! The units the shop writes and prints, each tied to SI by an exact factor.

use crate::dimension::Dimension;
use crate::exact::{self, Exact};
use crate::fraction::{self, Fraction};
use crate::house::House;
use crate::math;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, Zero};
use std::f64::consts::PI;

/// A unit of measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// The inch.
    Inch,
    /// The foot.
    Foot,
    /// The thousandth of an inch.
    Thou,
    /// The millimetre.
    Mm,
    /// The micrometre.
    Micrometre,
    /// The metre.
    M,
    /// The degree of angle.
    Degree,
    /// The minute of angle.
    ArcMinute,
    /// The radian.
    Radian,
    /// Taper on diameter, inches a foot; converts to the half angle.
    InchPerFoot,
    /// The n of "1 in n on diameter"; converts to the half angle.
    OneIn,
    /// Pounds-force a square inch by the gauge.
    PsiGauge,
    /// Kilopascals by the gauge.
    KPaGauge,
    /// Bar by the gauge.
    BarGauge,
    /// Pounds-force a square inch absolute.
    PsiAbsolute,
    /// Kilopascals absolute.
    KPaAbsolute,
    /// Bar absolute.
    BarAbsolute,
    /// Degrees Fahrenheit, on the scale.
    Fahrenheit,
    /// Degrees Celsius, on the scale.
    Celsius,
    /// Kelvins, on the scale.
    Kelvin,
    /// Fahrenheit degrees of difference.
    FahrenheitDegree,
    /// Celsius degrees of difference.
    CelsiusDegree,
    /// The pound-force.
    PoundForce,
    /// The newton.
    Newton,
    /// The kilonewton.
    KiloNewton,
    /// The pound-force inch.
    PoundInch,
    /// The pound-force foot.
    PoundFoot,
    /// The newton-metre.
    NewtonMetre,
    /// Pounds-force a square inch, of stress.
    Psi,
    /// Thousands of pounds-force a square inch, of stress.
    Ksi,
    /// The megapascal, of stress.
    MPa,
    /// The square inch.
    SqInch,
    /// The square foot.
    SqFoot,
    /// The square millimetre.
    SqMm,
    /// The avoirdupois pound.
    Pound,
    /// The kilogram.
    Kilogram,
    /// Feet a minute.
    FootPerMinute,
    /// Metres a minute.
    MetrePerMinute,
    /// Metres a second.
    MetrePerSecond,
    /// Miles an hour.
    MilePerHour,
    /// Kilometres an hour.
    KilometrePerHour,
    /// Pounds an hour.
    PoundPerHour,
    /// Pounds a minute.
    PoundPerMinute,
    /// Kilograms an hour.
    KilogramPerHour,
    /// Kilograms a second.
    KilogramPerSecond,
    /// Cubic feet a pound.
    CuFootPerPound,
    /// Cubic metres a kilogram.
    CuMetrePerKilogram,
    /// British thermal units a pound.
    BtuPerPound,
    /// Kilojoules a kilogram.
    KiloJoulePerKilogram,
    /// A pitch said as threads per inch; converts to the pitch, which is its reciprocal.
    ThreadsPerInch,
    /// A number of threads per inch, as itself.
    PerInch,
    /// A pure number.
    One,
    /// Parts in a hundred.
    Percent,
    /// A whole number of things.
    Each,
}

/// How a value in a unit becomes SI.
enum Conversion {
    /// SI is the value times the factor.
    Times(Exact),
    /// SI is the factor divided by the value.
    Into(Exact),
    /// SI is the value, moved by the offset, times the factor.
    Scale { offset: Exact, factor: Exact },
    /// The value times this many degrees, in radians.
    Degrees(f64),
    /// A taper on diameter, in/ft, as its half angle.
    TaperPerFoot,
    /// "1 in n" on diameter, as its half angle.
    OneIn,
}

impl Unit {
    /// The unit a number is printed in, and a bare number is read in, for this dimension and house.
    pub const fn of(dimension: Dimension, house: House) -> Unit {
        let (inch, metric) = match dimension {
            Dimension::Length => (Unit::Inch, Unit::Mm),
            Dimension::Angle => (Unit::Degree, Unit::Degree),
            Dimension::GaugePressure => (Unit::PsiGauge, Unit::KPaGauge),
            Dimension::AbsolutePressure => (Unit::PsiAbsolute, Unit::KPaAbsolute),
            Dimension::Temperature => (Unit::Fahrenheit, Unit::Celsius),
            Dimension::TemperatureRise => (Unit::FahrenheitDegree, Unit::CelsiusDegree),
            Dimension::Force => (Unit::PoundForce, Unit::Newton),
            Dimension::Torque => (Unit::PoundInch, Unit::NewtonMetre),
            Dimension::Stress => (Unit::Psi, Unit::MPa),
            Dimension::Area => (Unit::SqInch, Unit::SqMm),
            Dimension::Mass => (Unit::Pound, Unit::Kilogram),
            Dimension::Speed => (Unit::FootPerMinute, Unit::MetrePerMinute),
            Dimension::Flow => (Unit::PoundPerHour, Unit::KilogramPerHour),
            Dimension::SpecificVolume => (Unit::CuFootPerPound, Unit::CuMetrePerKilogram),
            Dimension::Heat => (Unit::BtuPerPound, Unit::KiloJoulePerKilogram),
            Dimension::Pitch => (Unit::ThreadsPerInch, Unit::Mm),
            Dimension::PerInch => (Unit::PerInch, Unit::PerInch),
            Dimension::Ratio => (Unit::One, Unit::One),
            Dimension::Count => (Unit::Each, Unit::Each),
        };
        match house {
            House::Inch => inch,
            House::Metric => metric,
        }
    }

    /// The symbol printed after a number; empty for a pure number. The parser reads it back for its dimension.
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::Inch => "in",
            Unit::Foot => "ft",
            Unit::Thou => "thou",
            Unit::Mm => "mm",
            Unit::Micrometre => "µm",
            Unit::M => "m",
            Unit::Degree => "°",
            Unit::ArcMinute => "′",
            Unit::Radian => "rad",
            Unit::InchPerFoot => "in/ft",
            Unit::OneIn => "on 1",
            Unit::PsiGauge => "psig",
            Unit::KPaGauge => "kPa gauge",
            Unit::BarGauge => "bar gauge",
            Unit::PsiAbsolute => "psia",
            Unit::KPaAbsolute => "kPa absolute",
            Unit::BarAbsolute => "bar absolute",
            Unit::Fahrenheit => "°F",
            Unit::Celsius => "°C",
            Unit::Kelvin => "K",
            Unit::FahrenheitDegree => "F°",
            Unit::CelsiusDegree => "C°",
            Unit::PoundForce => "lbf",
            Unit::Newton => "N",
            Unit::KiloNewton => "kN",
            Unit::PoundInch => "lbf·in",
            Unit::PoundFoot => "lbf·ft",
            Unit::NewtonMetre => "N·m",
            Unit::Psi => "psi",
            Unit::Ksi => "ksi",
            Unit::MPa => "MPa",
            Unit::SqInch => "sq in",
            Unit::SqFoot => "sq ft",
            Unit::SqMm => "mm²",
            Unit::Pound => "lb",
            Unit::Kilogram => "kg",
            Unit::FootPerMinute => "ft/min",
            Unit::MetrePerMinute => "m/min",
            Unit::MetrePerSecond => "m/s",
            Unit::MilePerHour => "mph",
            Unit::KilometrePerHour => "km/h",
            Unit::PoundPerHour => "lb/h",
            Unit::PoundPerMinute => "lb/min",
            Unit::KilogramPerHour => "kg/h",
            Unit::KilogramPerSecond => "kg/s",
            Unit::CuFootPerPound => "cu ft/lb",
            Unit::CuMetrePerKilogram => "m³/kg",
            Unit::BtuPerPound => "Btu/lb",
            Unit::KiloJoulePerKilogram => "kJ/kg",
            Unit::ThreadsPerInch | Unit::PerInch => "TPI",
            Unit::One | Unit::Each => "",
            Unit::Percent => "%",
        }
    }

    /// What the unit measures. Inches and millimetres answer *length*, though a pitch may be said in them too.
    pub const fn dimension(self) -> Dimension {
        match self {
            Unit::Inch | Unit::Foot | Unit::Thou | Unit::Mm | Unit::Micrometre | Unit::M => {
                Dimension::Length
            }
            Unit::Degree | Unit::ArcMinute | Unit::Radian | Unit::InchPerFoot | Unit::OneIn => {
                Dimension::Angle
            }
            Unit::PsiGauge | Unit::KPaGauge | Unit::BarGauge => Dimension::GaugePressure,
            Unit::PsiAbsolute | Unit::KPaAbsolute | Unit::BarAbsolute => {
                Dimension::AbsolutePressure
            }
            Unit::Fahrenheit | Unit::Celsius | Unit::Kelvin => Dimension::Temperature,
            Unit::FahrenheitDegree | Unit::CelsiusDegree => Dimension::TemperatureRise,
            Unit::PoundForce | Unit::Newton | Unit::KiloNewton => Dimension::Force,
            Unit::PoundInch | Unit::PoundFoot | Unit::NewtonMetre => Dimension::Torque,
            Unit::Psi | Unit::Ksi | Unit::MPa => Dimension::Stress,
            Unit::SqInch | Unit::SqFoot | Unit::SqMm => Dimension::Area,
            Unit::Pound | Unit::Kilogram => Dimension::Mass,
            Unit::FootPerMinute
            | Unit::MetrePerMinute
            | Unit::MetrePerSecond
            | Unit::MilePerHour
            | Unit::KilometrePerHour => Dimension::Speed,
            Unit::PoundPerHour
            | Unit::PoundPerMinute
            | Unit::KilogramPerHour
            | Unit::KilogramPerSecond => Dimension::Flow,
            Unit::CuFootPerPound | Unit::CuMetrePerKilogram => Dimension::SpecificVolume,
            Unit::BtuPerPound | Unit::KiloJoulePerKilogram => Dimension::Heat,
            Unit::ThreadsPerInch => Dimension::Pitch,
            Unit::PerInch => Dimension::PerInch,
            Unit::One | Unit::Percent => Dimension::Ratio,
            Unit::Each => Dimension::Count,
        }
    }

    const fn conversion(self) -> Conversion {
        use Conversion::*;
        match self {
            Unit::Inch => Times(exact::INCH),
            Unit::Foot => Times(exact::FOOT),
            Unit::Thou => Times(exact::THOU),
            Unit::Mm => Times(exact::MILLIMETRE),
            Unit::Micrometre => Times(exact::MICROMETRE),
            Unit::M => Times(exact::ONE),
            Unit::Degree => Degrees(1.0),
            Unit::ArcMinute => Degrees(1.0 / 60.0),
            Unit::Radian => Times(exact::ONE),
            Unit::InchPerFoot => TaperPerFoot,
            Unit::OneIn => OneIn,
            Unit::PsiGauge | Unit::PsiAbsolute | Unit::Psi => Times(exact::PSI),
            Unit::KPaGauge | Unit::KPaAbsolute => Times(exact::KILO),
            Unit::BarGauge | Unit::BarAbsolute => Times(exact::BAR),
            Unit::Fahrenheit => Scale {
                offset: exact::FAHRENHEIT_ZERO,
                factor: exact::FAHRENHEIT_DEGREE,
            },
            Unit::Celsius => Scale {
                offset: exact::CELSIUS_ZERO,
                factor: exact::ONE,
            },
            Unit::Kelvin | Unit::CelsiusDegree => Times(exact::ONE),
            Unit::FahrenheitDegree => Times(exact::FAHRENHEIT_DEGREE),
            Unit::PoundForce => Times(exact::POUND_FORCE),
            Unit::Newton => Times(exact::ONE),
            Unit::KiloNewton => Times(exact::KILO),
            Unit::PoundInch => Times(exact::POUND_INCH),
            Unit::PoundFoot => Times(exact::POUND_FOOT),
            Unit::NewtonMetre => Times(exact::ONE),
            Unit::Ksi => Times(exact::KSI),
            Unit::MPa => Times(exact::MEGA),
            Unit::SqInch => Times(exact::SQUARE_INCH),
            Unit::SqFoot => Times(exact::SQUARE_FOOT),
            Unit::SqMm => Times(exact::SQUARE_MILLIMETRE),
            Unit::Pound => Times(exact::POUND),
            Unit::Kilogram => Times(exact::ONE),
            Unit::FootPerMinute => Times(exact::FOOT_PER_MINUTE),
            Unit::MetrePerMinute => Times(exact::METRE_PER_MINUTE),
            Unit::MetrePerSecond => Times(exact::ONE),
            Unit::MilePerHour => Times(exact::MILE_PER_HOUR),
            Unit::KilometrePerHour => Times(exact::KILOMETRE_PER_HOUR),
            Unit::PoundPerHour => Times(exact::POUND_PER_HOUR),
            Unit::PoundPerMinute => Times(exact::POUND_PER_MINUTE),
            Unit::KilogramPerHour => Times(exact::KILOGRAM_PER_HOUR),
            Unit::KilogramPerSecond | Unit::CuMetrePerKilogram => Times(exact::ONE),
            Unit::CuFootPerPound => Times(exact::CUBIC_FOOT_PER_POUND),
            Unit::BtuPerPound => Times(exact::BTU_PER_POUND),
            Unit::KiloJoulePerKilogram => Times(exact::KILO),
            Unit::ThreadsPerInch => Into(exact::INCH),
            Unit::PerInch => Times(exact::PER_INCH),
            Unit::One | Unit::Each => Times(exact::ONE),
            Unit::Percent => Times(exact::PERCENT),
        }
    }

    /// `value` in this unit, as SI (m, rad, Pa, K, N, N·m, m², kg, m/s, kg/s, m³/kg, J/kg, 1/m, 1).
    pub fn to_si(self, value: f64) -> f64 {
        match self.conversion() {
            Conversion::Times(factor) => factor.into_si(value),
            Conversion::Into(factor) => factor.into_si(1.0) / value,
            Conversion::Scale { offset, factor } => factor.into_si(value + offset.into_si(1.0)),
            Conversion::Degrees(degrees) => value * degrees * PI / 180.0,
            Conversion::TaperPerFoot => math::atan2(value, 24.0),
            Conversion::OneIn => math::atan2(1.0, 2.0 * value),
        }
    }

    /// The SI value `si`, in this unit.
    pub fn from_si(self, si: f64) -> f64 {
        match self.conversion() {
            Conversion::Times(factor) => factor.out_of_si(si),
            Conversion::Into(factor) => factor.into_si(1.0) / si,
            Conversion::Scale { offset, factor } => factor.out_of_si(si) - offset.into_si(1.0),
            Conversion::Degrees(degrees) => si * 180.0 / PI / degrees,
            Conversion::TaperPerFoot => 24.0 * math::tan(si),
            Conversion::OneIn => 1.0 / (2.0 * math::tan(si)),
        }
    }

    /// `value` in this unit as SI, by exact arithmetic as far as it goes, so that one quantity entered in two
    /// units gives one `f64`. Only a number too long for exact arithmetic falls back on floating point.
    pub(crate) fn exact_to_si(self, value: Fraction) -> f64 {
        let exact = match self.conversion() {
            Conversion::Times(factor) => value.checked_mul(&factor.fraction()),
            Conversion::Into(_) if value.is_zero() => None,
            Conversion::Into(factor) => factor.fraction().checked_div(&value),
            Conversion::Scale { offset, factor } => value
                .checked_add(&offset.fraction())
                .and_then(|moved| moved.checked_mul(&factor.fraction())),
            Conversion::Degrees(_) | Conversion::TaperPerFoot | Conversion::OneIn => None,
        };
        match exact {
            Some(si) => fraction::to_f64(si),
            None => self.to_si(fraction::to_f64(value)),
        }
    }
}
