//! Temperature, and the rise of temperature, which is another thing: 70 °F is not 70 Fahrenheit degrees.

use crate::exact::{CELSIUS_ZERO, FAHRENHEIT_DEGREE, FAHRENHEIT_ZERO, ONE};
use crate::quantity::quantity;

/// A temperature on a scale, held in kelvins.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// From `value` in kelvins.
    pub const fn kelvin(value: f64) -> Temperature {
        Temperature(value)
    }

    /// From `value` in degrees Celsius.
    pub const fn celsius(value: f64) -> Temperature {
        Temperature(value + CELSIUS_ZERO.into_si(1.0))
    }

    /// From `value` in degrees Fahrenheit.
    pub const fn fahrenheit(value: f64) -> Temperature {
        Temperature(FAHRENHEIT_DEGREE.into_si(value + FAHRENHEIT_ZERO.into_si(1.0)))
    }

    /// The value in kelvins.
    pub const fn to_kelvin(self) -> f64 {
        self.0
    }

    /// The value in degrees Celsius.
    pub const fn to_celsius(self) -> f64 {
        self.0 - CELSIUS_ZERO.into_si(1.0)
    }

    /// The value in degrees Fahrenheit.
    pub const fn to_fahrenheit(self) -> f64 {
        FAHRENHEIT_DEGREE.out_of_si(self.0) - FAHRENHEIT_ZERO.into_si(1.0)
    }

    /// How far this temperature stands above `cold`; negative when it stands below.
    pub const fn rise_from(self, cold: Temperature) -> TemperatureRise {
        TemperatureRise::c_degrees(self.0 - cold.0)
    }
}

quantity! {
    /// A difference of temperature, held in kelvins.
    TemperatureRise {
        c_degrees, to_c_degrees, ONE, "Celsius degrees (kelvins)";
        f_degrees, to_f_degrees, FAHRENHEIT_DEGREE, "Fahrenheit degrees";
    }
}
