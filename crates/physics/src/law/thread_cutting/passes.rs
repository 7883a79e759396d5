//! How many passes, and where each stands.

use measure::math;

/// Passes for a hand lathe: by the pitch as two makers print them for carbide in steel (the upper of
/// each band), times one and a half for high-speed steel by hand, and by the metal.
///
/// Sources: Widia 2017 p. 685 for the bands; the one and a half and the metals are common practice.
pub fn count(tpi: f64, form: &str, material: &str) -> u32 {
    // From the finest: passes for threads at least so fine; V forms, Acme and square, Stub Acme.
    const BANDS: [(f64, [f64; 3]); 9] = [
        (32.0, [5.0, 5.0, 4.0]),
        (24.0, [6.0, 6.0, 5.0]),
        (16.0, [8.0, 6.0, 5.0]),
        (12.0, [10.0, 8.0, 6.0]),
        (9.0, [12.0, 11.0, 8.0]),
        (6.0, [15.0, 13.0, 10.0]),
        (4.0, [16.0, 15.0, 12.0]),
        (2.0, [25.0, 20.0, 16.0]),
        (0.0, [30.0, 24.0, 20.0]),
    ];
    let column = match form {
        "acme" | "square" => 1,
        "stub-acme" => 2,
        _ => 0,
    };
    let band = BANDS.iter().find(|(finest, _)| tpi >= *finest);
    let carbide = band
        .and_then(|(_, counts)| counts.get(column))
        .copied()
        .unwrap_or(30.0);
    let metal = match material {
        "stainless" => 1.3,
        "brass" | "bronze" => 0.8,
        _ => 1.0,
    };
    (carbide * 1.5 * metal).ceil() as u32
}

/// Depth after each of `passes` cuts that together take `depth`: chips of equal area with a lighter
/// first one. Any unit; at least two passes are made.
///
/// Source: Sandvik threading manual p. 114 and Widia 2017 p. 685.
pub fn schedule(depth: f64, passes: u32) -> Vec<f64> {
    let passes = passes.max(2);
    let whole = f64::from(passes - 1);
    let share = |pass: u32| match pass {
        1 => 0.3,
        pass => f64::from(pass - 1),
    };
    (1..=passes)
        .map(|pass| depth * math::sqrt(share(pass) / whole))
        .collect()
}
