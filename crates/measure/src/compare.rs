//! Whether two numbers agree, looking both ways.

/// How far apart two numbers may stand and still agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// No further apart than this, in the unit of the numbers.
    Absolute(f64),
    /// No further apart than this share of the larger of the two.
    Relative(f64),
}

/// Whether `a` and `b` agree within `tolerance`. The order of the two does not matter, and nothing agrees with
/// what is not a number.
pub fn agrees(a: f64, b: f64, tolerance: Tolerance) -> bool {
    let apart = (a - b).abs();
    match tolerance {
        Tolerance::Absolute(limit) => apart <= limit,
        Tolerance::Relative(share) => apart <= share * a.abs().max(b.abs()),
    }
}
