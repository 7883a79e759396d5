//! Tons that a press gauge is marked in: there are two, and which of them a gauge means only the gauge says.

use serde::{Deserialize, Serialize};

use crate::Force;

/// Which ton.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ton {
    /// Of 2,000 pounds.
    Short,
    /// Of 2,240 pounds.
    Long,
}

impl Ton {
    /// Both.
    pub const ALL: [Ton; 2] = [Ton::Short, Ton::Long];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Ton::Short => "short",
            Ton::Long => "long",
        }
    }

    /// Pounds in one.
    pub fn pounds(self) -> u32 {
        match self {
            Ton::Short => 2_000,
            Ton::Long => 2_240,
        }
    }

    /// A force in such tons.
    pub fn of(self, force: Force) -> f64 {
        force.to_lbf() / f64::from(self.pounds())
    }
}
