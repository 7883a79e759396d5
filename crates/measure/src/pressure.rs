//! Pressure by the gauge and pressure from vacuum: two types, and a crossing that asks for the atmosphere.

use crate::exact::{BAR, KILO, ONE, PSI};
use crate::length::Length;
use crate::math;
use crate::quantity::quantity;
use crate::show::{self, Rounding};

quantity! {
    /// A pressure above the atmosphere of the day, held in pascals; below zero in a vacuum.
    GaugePressure {
        pascals, to_pascals, ONE, "pascals";
        psi, to_psi, PSI, "pounds-force a square inch by the gauge";
        kpa, to_kpa, KILO, "kilopascals by the gauge";
        bar, to_bar, BAR, "bar by the gauge";
    }
}

quantity! {
    /// A pressure above vacuum, held in pascals.
    AbsolutePressure {
        pascals, to_pascals, ONE, "pascals";
        psi, to_psi, PSI, "pounds-force a square inch absolute";
        kpa, to_kpa, KILO, "kilopascals absolute";
        bar, to_bar, BAR, "bar absolute";
    }
}

impl GaugePressure {
    /// The same pressure from vacuum, given the atmosphere where the gauge hangs.
    pub const fn absolute(self, atmosphere: AbsolutePressure) -> AbsolutePressure {
        AbsolutePressure(self.0 + atmosphere.0)
    }
}

impl AbsolutePressure {
    /// The standard atmosphere at sea level: exactly 101 325 Pa (10th General Conference on Weights and
    /// Measures, 1954). It is no default: a sheet uses it only when the shop says the engine stands at sea level.
    pub const STANDARD: AbsolutePressure = AbsolutePressure(101_325.0);

    /// The same pressure as a gauge shows it, given the atmosphere where the gauge hangs.
    pub const fn gauge(self, atmosphere: AbsolutePressure) -> GaugePressure {
        GaugePressure(self.0 - atmosphere.0)
    }

    /// The pressure of the standard atmosphere at a height above sea level.
    ///
    /// `altitude`: as surveyed or read from a map, from 3,280 ft below sea level to 36,152 ft above it (the top of
    /// the lowest layer). The weather moves the true pressure by a few percent either way of this.
    ///
    /// h = r z / (r + z), p = 101 325 Pa (1 - 0.0065 h / 288.15) ^ (g M / (R 0.0065)), z and h in metres: z is the
    /// height by tape, h the geopotential height in which the standard is written.
    ///
    /// Source: U.S. Standard Atmosphere, 1976: r 6 356 766 m, sea-level temperature 288.15 K, lapse 6.5 K/km to
    /// 11 km, g 9.80665 m/s², M 28.9644 kg/kmol, R 8314.32 J/(kmol K). The constants were read in notes that cite
    /// it and the ICAO Standard Atmosphere (Doc 7488/2), which is the same in this layer; not in the book itself.
    ///
    /// # Errors
    /// [`AltitudeError`] outside that range, or when the altitude is no number.
    pub fn at_altitude(altitude: Length) -> Result<AbsolutePressure, AltitudeError> {
        const RADIUS: f64 = 6_356_766.0;
        const TEMPERATURE: f64 = 288.15;
        const LAPSE: f64 = 0.0065;
        const EXPONENT: f64 = 9.80665 * 28.9644 / (8314.32 * LAPSE);
        let z = altitude.to_m();
        let h = RADIUS * z / (RADIUS + z);
        // NaN, and a height at the far side of the earth, fail this too.
        if !(-1_000.0..=11_000.0).contains(&h) {
            return Err(AltitudeError {
                feet: show::number(altitude.to_ft(), 0, Rounding::Nearest),
            });
        }
        let ratio = 1.0 - LAPSE * h / TEMPERATURE;
        Ok(AbsolutePressure(101_325.0 * math::pow(ratio, EXPONENT)))
    }
}

/// An altitude for which this program has no atmosphere.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "an altitude of {feet} ft was given; the standard atmosphere here runs from 3,280 ft below sea level to 36,152 ft above it"
)]
pub struct AltitudeError {
    feet: String,
}
