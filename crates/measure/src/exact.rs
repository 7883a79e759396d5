//! Conversion factors, each derived in code from a definition that is exact by agreement.
//!
//! No factor is typed in as a string of digits: the inch, the pound and standard gravity are, and the rest is
//! built from them, as exact fractions, when the program is compiled.

use crate::fraction::Fraction;

/// An exact ratio that can be built in a constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Exact {
    over: i128,
    under: i128,
}

impl Exact {
    /// The ratio `over / under`; `under` is never zero in this file, which is the only place that builds one.
    const fn new(over: i128, under: i128) -> Exact {
        let (mut a, mut b) = (over, under);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        Exact {
            over: over / a,
            under: under / a,
        }
    }

    const fn times(self, other: Exact) -> Exact {
        Exact::new(self.over * other.over, self.under * other.under)
    }

    const fn per(self, other: Exact) -> Exact {
        Exact::new(self.over * other.under, self.under * other.over)
    }

    /// The same ratio as a fraction.
    pub(crate) fn fraction(self) -> Fraction {
        Fraction::new(self.over, self.under)
    }

    /// `value` times the ratio. Multiplying first and dividing once keeps 1 1/4 in at 0.03175 m to the last bit.
    pub(crate) const fn into_si(self, value: f64) -> f64 {
        value * self.over as f64 / self.under as f64
    }

    /// `value` divided by the ratio.
    pub(crate) const fn out_of_si(self, value: f64) -> f64 {
        value * self.under as f64 / self.over as f64
    }
}

/// One: for units that are SI already.
pub(crate) const ONE: Exact = Exact::new(1, 1);
/// The percent: one part in a hundred.
pub(crate) const PERCENT: Exact = Exact::new(1, 100);
/// A thousand.
pub(crate) const KILO: Exact = Exact::new(1_000, 1);
/// A million.
pub(crate) const MEGA: Exact = Exact::new(1_000_000, 1);

/// The inch, m: exactly 25.4 mm (international yard and pound agreement, 1959).
pub(crate) const INCH: Exact = Exact::new(254, 10_000);
/// The foot, m: twelve inches.
pub(crate) const FOOT: Exact = Exact::new(12, 1).times(INCH);
/// The thousandth of an inch, m.
pub(crate) const THOU: Exact = INCH.per(KILO);
/// The millimetre, m.
pub(crate) const MILLIMETRE: Exact = ONE.per(KILO);
/// The micrometre, m.
pub(crate) const MICROMETRE: Exact = ONE.per(MEGA);
/// The statute mile, m: 5,280 feet.
pub(crate) const MILE: Exact = Exact::new(5_280, 1).times(FOOT);

/// The avoirdupois pound, kg: exactly 0.453 592 37 kg (international yard and pound agreement, 1959).
pub(crate) const POUND: Exact = Exact::new(45_359_237, 100_000_000);
/// Standard gravity, m/s²: exactly 9.806 65 (3rd General Conference on Weights and Measures, 1901).
pub(crate) const GRAVITY: Exact = Exact::new(980_665, 100_000);
/// The pound-force, N: a pound under standard gravity.
pub(crate) const POUND_FORCE: Exact = POUND.times(GRAVITY);

/// The pound-force inch, N·m.
pub(crate) const POUND_INCH: Exact = POUND_FORCE.times(INCH);
/// The pound-force foot, N·m.
pub(crate) const POUND_FOOT: Exact = POUND_FORCE.times(FOOT);
/// The square inch, m².
pub(crate) const SQUARE_INCH: Exact = INCH.times(INCH);
/// The square foot, m².
pub(crate) const SQUARE_FOOT: Exact = FOOT.times(FOOT);
/// The square millimetre, m².
pub(crate) const SQUARE_MILLIMETRE: Exact = MILLIMETRE.times(MILLIMETRE);
/// The pound-force on a square inch, Pa.
pub(crate) const PSI: Exact = POUND_FORCE.per(SQUARE_INCH);
/// A thousand pounds-force on a square inch, Pa.
pub(crate) const KSI: Exact = KILO.times(PSI);
/// The bar, Pa: exactly 100 000.
pub(crate) const BAR: Exact = Exact::new(100_000, 1);

/// A minute, s.
const MINUTE: Exact = Exact::new(60, 1);
/// An hour, s.
const HOUR: Exact = Exact::new(3_600, 1);
/// The foot a minute, m/s.
pub(crate) const FOOT_PER_MINUTE: Exact = FOOT.per(MINUTE);
/// The metre a minute, m/s.
pub(crate) const METRE_PER_MINUTE: Exact = ONE.per(MINUTE);
/// The mile an hour, m/s.
pub(crate) const MILE_PER_HOUR: Exact = MILE.per(HOUR);
/// The kilometre an hour, m/s.
pub(crate) const KILOMETRE_PER_HOUR: Exact = KILO.per(HOUR);

/// The pound an hour, kg/s.
pub(crate) const POUND_PER_HOUR: Exact = POUND.per(HOUR);
/// The pound a minute, kg/s.
pub(crate) const POUND_PER_MINUTE: Exact = POUND.per(MINUTE);
/// The kilogram an hour, kg/s.
pub(crate) const KILOGRAM_PER_HOUR: Exact = ONE.per(HOUR);
/// The cubic foot a pound, m³/kg.
pub(crate) const CUBIC_FOOT_PER_POUND: Exact = SQUARE_FOOT.times(FOOT).per(POUND);
/// The British thermal unit a pound, J/kg: exactly 2 326 (5th International Conference on the Properties of Steam,
/// 1956; the unit of the International Table).
pub(crate) const BTU_PER_POUND: Exact = Exact::new(2_326, 1);

/// The Fahrenheit degree as a step, K: five ninths.
pub(crate) const FAHRENHEIT_DEGREE: Exact = Exact::new(5, 9);
/// Absolute zero lies this far below 0 °F, in Fahrenheit degrees: 273.15 K is 32 °F exactly.
pub(crate) const FAHRENHEIT_ZERO: Exact = Exact::new(45_967, 100);
/// Absolute zero lies this far below 0 °C, in kelvins (by the definition of the Celsius temperature).
pub(crate) const CELSIUS_ZERO: Exact = Exact::new(27_315, 100);
/// One in each inch, 1/m.
pub(crate) const PER_INCH: Exact = ONE.per(INCH);
