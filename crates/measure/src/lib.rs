//! Quantities, units, exact sizes and readings: the only place in the house where a conversion factor exists.
//!
//! Three kinds of number live here and are kept apart on purpose:
//!
//! * [`Fraction`]: what a person wrote, exactly.
//! * [`Size`]: a reading or a limit, in whole ticks of 2.5 nm, so that one meets the other as integers.
//! * [`Length`], [`Angle`], [`GaugePressure`] and their kin: floating SI, for use inside a law.
//!
//! [`entered`] is the one parser and [`show`] the one printer; what the printer prints, the parser reads back.

mod angle;
mod compare;
mod dimension;
mod exact;
mod house;
mod length;
mod mechanics;
mod number;
mod pitch;
mod pressure;
mod quantity;
mod reading;
mod size;
mod spelling;
mod temperature;
mod text;
mod text_error;
mod ton;
mod unit;

pub mod fraction;
pub mod math;
pub mod show;

pub use angle::Angle;
pub use compare::{Tolerance, agrees};
pub use dimension::Dimension;
pub use fraction::Fraction;
pub use house::{House, UnknownHouse};
pub use length::Length;
pub use mechanics::{Area, Flow, Force, Heat, Mass, SpecificVolume, Speed, Stress, Torque};
pub use pitch::{Pitch, PitchError};
pub use pressure::{AbsolutePressure, AltitudeError, GaugePressure};
pub use reading::{Reading, State};
pub use show::Rounding;
pub use size::{Size, SizeError};
pub use temperature::{Temperature, TemperatureRise};
pub use text::{Entered, entered, entered_with_unit};
pub use text_error::TextError;
pub use ton::Ton;
pub use unit::Unit;
