//! The units a shop thinks in.

use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;

/// The house units: what a bare number means and what is printed first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum House {
    /// Inches, pounds, psi and degrees Fahrenheit.
    Inch,
    /// Millimetres, newtons, kilopascals and degrees Celsius.
    Metric,
}

impl fmt::Display for House {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            House::Inch => "inch",
            House::Metric => "metric",
        })
    }
}

impl FromStr for House {
    type Err = UnknownHouse;

    fn from_str(text: &str) -> Result<House, UnknownHouse> {
        match text {
            "inch" => Ok(House::Inch),
            "metric" => Ok(House::Metric),
            _ => Err(UnknownHouse {
                text: text.chars().take(40).collect(),
            }),
        }
    }
}

/// A word that names no house.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` was given for the house units; `inch` or `metric` was expected")]
pub struct UnknownHouse {
    text: String,
}
