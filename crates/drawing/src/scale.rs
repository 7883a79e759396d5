//! Standard scales.

use std::fmt;

/// Paper against part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// So much on paper ...
    pub paper: u32,
    /// ... is so much of the part.
    pub part: u32,
}

impl Scale {
    /// The scales that are used, from the largest. One, two and five times the powers of ten, as standards for
    /// technical drawings have them (from memory of ISO 5455).
    pub const STANDARD: [Scale; 16] = [
        Scale::up(200),
        Scale::up(100),
        Scale::up(50),
        Scale::up(20),
        Scale::up(10),
        Scale::up(5),
        Scale::up(2),
        Scale::up(1),
        Scale::down(2),
        Scale::down(5),
        Scale::down(10),
        Scale::down(20),
        Scale::down(50),
        Scale::down(100),
        Scale::down(200),
        Scale::down(500),
    ];

    /// Full size.
    pub const FULL: Scale = Scale::up(1);

    const fn up(times: u32) -> Scale {
        Scale {
            paper: times,
            part: 1,
        }
    }

    const fn down(times: u32) -> Scale {
        Scale {
            paper: 1,
            part: times,
        }
    }

    /// How many times as large the part is on paper.
    pub fn times(self) -> f64 {
        f64::from(self.paper) / f64::from(self.part)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.paper, self.part)
    }
}
