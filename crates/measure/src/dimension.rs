//! The dimensions an argument may have, with the words and the example an error message needs.

use serde::{Deserialize, Serialize};

/// What kind of thing a value measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Dimension {
    /// A length.
    Length,
    /// An angle. Written as a taper (in/ft, 1:16, 1 in 16) it is the *half* angle of a cone tapered so on diameter.
    Angle,
    /// A pressure above the atmosphere.
    GaugePressure,
    /// A pressure above vacuum.
    AbsolutePressure,
    /// A temperature on a scale.
    Temperature,
    /// A difference of temperature.
    TemperatureRise,
    /// A force.
    Force,
    /// A torque.
    Torque,
    /// A stress.
    Stress,
    /// An area.
    Area,
    /// A mass.
    Mass,
    /// A speed.
    Speed,
    /// A flow by weight: steam or water in so much time.
    Flow,
    /// The room that a pound of steam or water takes.
    SpecificVolume,
    /// The heat in a pound of steam or water, or that it takes to make one.
    Heat,
    /// The axial distance between neighbouring threads.
    Pitch,
    /// Threads per inch.
    PerInch,
    /// A pure ratio: an efficiency, a coefficient of friction.
    Ratio,
    /// A whole number of things.
    Count,
}

impl Dimension {
    /// Every dimension, in the order above.
    pub const ALL: [Dimension; 19] = [
        Dimension::Length,
        Dimension::Angle,
        Dimension::GaugePressure,
        Dimension::AbsolutePressure,
        Dimension::Temperature,
        Dimension::TemperatureRise,
        Dimension::Force,
        Dimension::Torque,
        Dimension::Stress,
        Dimension::Area,
        Dimension::Mass,
        Dimension::Speed,
        Dimension::Flow,
        Dimension::SpecificVolume,
        Dimension::Heat,
        Dimension::Pitch,
        Dimension::PerInch,
        Dimension::Ratio,
        Dimension::Count,
    ];

    /// Its name in a sentence, with its article: "a length".
    pub const fn words(self) -> &'static str {
        match self {
            Dimension::Length => "a length",
            Dimension::Angle => "an angle",
            Dimension::GaugePressure => "a gauge pressure",
            Dimension::AbsolutePressure => "an absolute pressure",
            Dimension::Temperature => "a temperature",
            Dimension::TemperatureRise => "a rise of temperature",
            Dimension::Force => "a force",
            Dimension::Torque => "a torque",
            Dimension::Stress => "a stress",
            Dimension::Area => "an area",
            Dimension::Mass => "a mass",
            Dimension::Speed => "a speed",
            Dimension::Flow => "a flow by weight",
            Dimension::SpecificVolume => "a volume for each pound",
            Dimension::Heat => "a heat for each pound",
            Dimension::Pitch => "a pitch",
            Dimension::PerInch => "a number of threads per inch",
            Dimension::Ratio => "a ratio",
            Dimension::Count => "a whole number",
        }
    }

    /// How one may be written; each of these is accepted by the parser.
    pub const fn examples(self) -> &'static [&'static str] {
        match self {
            Dimension::Length => &["1 1/4 in", ".0049 in", "31.75 mm"],
            Dimension::Angle => &["14.5 deg", "14d30m", "3/4 in/ft", "1:16"],
            Dimension::GaugePressure => &["180 psig", "12.5 bar gauge"],
            Dimension::AbsolutePressure => &["14.7 psia", "101.3 kPa absolute"],
            Dimension::Temperature => &["70 F", "21 C"],
            Dimension::TemperatureRise => &["310 F", "172 C"],
            Dimension::Force => &["1200 lb", "5.3 kN"],
            Dimension::Torque => &["450 lb-in", "60 lb-ft", "80 N.m"],
            Dimension::Stress => &["55000 psi", "55 ksi", "380 MPa"],
            Dimension::Area => &["2.5 sq in", "1600 mm2"],
            Dimension::Mass => &["42 lb", "19 kg"],
            Dimension::Speed => &["90 ft/min", "25 mph", "0.5 m/s"],
            Dimension::Flow => &["3020 lb/h", "50 lb/min", "1400 kg/h"],
            Dimension::SpecificVolume => &["2.29 cu ft/lb", "0.143 m3/kg"],
            Dimension::Heat => &["1198 Btu/lb", "2787 kJ/kg"],
            Dimension::Pitch => &["5 TPI", ".2 in", "3 mm"],
            Dimension::PerInch => &["5", "11 1/2", "11.5 TPI"],
            Dimension::Ratio => &["0.15", "15%", "1/4"],
            Dimension::Count => &["4"],
        }
    }
}
