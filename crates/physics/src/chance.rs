//! Student's t, for the sheets that reckon from a handful of readings.
//!
//! With whole degrees of freedom the distribution is a finite sum of sines and cosines (Abramowitz and Stegun,
//! *Handbook of Mathematical Functions*, 26.7.3 and 26.7.4), so no series is cut short and no table is kept. Held
//! against scipy in `tests/physics/wear.rs`.

use measure::math;
use std::f64::consts::PI;

/// The chance that Student's t with `freedom` degrees of freedom comes out above `t`. With no degree of freedom
/// nothing is known: the chance is then 1, which flatters nobody.
pub fn beyond(t: f64, freedom: u32) -> f64 {
    if freedom == 0 || t.is_nan() {
        return 1.0;
    }
    let within = within(t.abs(), freedom);
    let tail = ((1.0 - within) / 2.0).clamp(0.0, 0.5);
    if t >= 0.0 { tail } else { 1.0 - tail }
}

/// The chance that t lies between `-t` and `t`, for `t` not below zero.
fn within(t: f64, freedom: u32) -> f64 {
    let theta = math::atan(t / math::sqrt(f64::from(freedom)));
    let (sine, cosine) = (math::sin(theta), math::cos(theta));
    let odd = freedom % 2 == 1;
    if freedom == 1 {
        return 2.0 * theta / PI;
    }
    let mut term = if odd { cosine } else { 1.0 };
    let mut sum = term;
    let mut at = if odd { 3 } else { 2 };
    while at < freedom {
        let order = f64::from(at);
        term *= cosine * cosine * (order - 1.0) / order;
        sum += term;
        at += 2;
    }
    if odd {
        2.0 / PI * (theta + sine * sum)
    } else {
        sine * sum
    }
}

/// The t above which lies the chance `tail`, with `freedom` degrees of freedom. None where there is none: no degree of
/// freedom, or a tail that is not between 0 and one half.
pub fn quantile(tail: f64, freedom: u32) -> Option<f64> {
    if freedom == 0 || !(tail > 0.0 && tail < 0.5) {
        return None;
    }
    let (mut low, mut high) = (0.0, 1.0);
    while beyond(high, freedom) > tail {
        low = high;
        high *= 2.0;
        if high > 1e12 {
            return None;
        }
    }
    // Halving to the last bit: the tail falls as t grows.
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if beyond(middle, freedom) > tail {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(high)
}

/// How many standard deviations one of `count` values may lie from their mean before it is an outlier by Grubbs' test,
/// where `tail` is the chance left to one value on one side: the level of the test over `count`, or over twice as many
/// where either side is looked at (NIST/SEMATECH e-Handbook, 1.3.5.17). None below three values.
pub fn grubbs(count: u32, tail: f64) -> Option<f64> {
    let freedom = count.checked_sub(2)?;
    let t = quantile(tail, freedom)?;
    let (n, square) = (f64::from(count), t * t);
    Some((n - 1.0) / math::sqrt(n) * math::sqrt(square / (f64::from(freedom) + square)))
}
