//! Water and steam: the one door of this crate to the IAPWS Industrial Formulation 1997 (IF97).
//!
//! The equations are those of the library `seuif97`. Out of range it answers with a number below zero and
//! not with an error, so nothing reaches it here that was not held against the range first, and nothing
//! leaves that could be such an answer.

use measure::{AbsolutePressure, Heat, SpecificVolume, Temperature};

/// What IF97 is, for the cards.
pub const IF97: &str = "IAPWS-IF97";

/// Water and steam that boil together at one pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturated {
    /// The temperature at which water boils under this pressure.
    pub temperature: Temperature,
    /// The room a pound of the boiling water takes.
    pub water_volume: SpecificVolume,
    /// The room a pound of dry steam takes.
    pub steam_volume: SpecificVolume,
    /// The heat in a pound of the boiling water, above water at 32 °F.
    pub water_heat: Heat,
    /// The heat in a pound of dry steam, above the same.
    pub steam_heat: Heat,
}

/// A pressure for which this program has no steam.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what} was asked for; {expected}")]
pub struct SteamError {
    /// What was asked.
    pub what: String,
    /// What is on file.
    pub expected: &'static str,
}

/// The triple point and the end of the regions in which water and steam are each one equation, MPa.
const SATURATED: (f64, f64) = (0.000_611_213, 16.529_164);
const OF_SATURATED: &str =
    "boiling water and its steam are known here from 0.089 to 2397 psi absolute";

/// The boiling point, room and heat of water and dry steam under a pressure.
///
/// `pressure`: absolute, from 0.089 to 2397 psi (611.213 Pa to 16.529 MPa).
///
/// Source: IAPWS Release R7-97(2012), equations 7, 15 and 31, by the library `seuif97` 2.3.8; its heats begin at
/// water at the triple point, which is within 0.02 Btu/lb of the 32 °F of the old tables.
///
/// # Errors
/// [`SteamError`] outside that range.
pub fn saturated(pressure: AbsolutePressure) -> Result<Saturated, SteamError> {
    let mpa = pressure.to_kpa() / 1000.0;
    let fault = || SteamError {
        what: format!("steam at {:.1} psi absolute", pressure.to_psi()),
        expected: OF_SATURATED,
    };
    // No number fails this too.
    if !(SATURATED.0..=SATURATED.1).contains(&mpa) {
        return Err(fault());
    }
    let (celsius, water, steam) = (
        seuif97::px2t(mpa, 0.0),
        (seuif97::px2v(mpa, 0.0), seuif97::px2h(mpa, 0.0)),
        (seuif97::px2v(mpa, 1.0), seuif97::px2h(mpa, 1.0)),
    );
    let known = |value: f64| value.is_finite() && value > 0.0;
    // At the triple point itself water holds no heat and stands at 0.01 °C.
    let holds_heat = (-1.0..).contains(&water.1);
    if !holds_heat || ![celsius, water.0, steam.0, steam.1].into_iter().all(known) {
        return Err(fault());
    }
    Ok(Saturated {
        temperature: Temperature::celsius(celsius),
        water_volume: SpecificVolume::cu_m_per_kg(water.0),
        steam_volume: SpecificVolume::cu_m_per_kg(steam.0),
        water_heat: Heat::kj_per_kg(water.1),
        steam_heat: Heat::kj_per_kg(steam.1),
    })
}
