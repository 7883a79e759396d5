//! Trigonometry, roots and powers that give the same bits on every machine.
//!
//! The standard library hands these to whatever C library the machine has, so that a sheet printed in one shop
//! could differ in the last digit from the same sheet in another. Angles are in radians unless the name says
//! `deg`. Outside its domain a function returns NaN, as IEEE 754 has it; a law checks its range first.

use std::f64::consts::PI;

/// The sine of `x`, radians.
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// The cosine of `x`, radians.
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// The tangent of `x`, radians.
pub fn tan(x: f64) -> f64 {
    libm::tan(x)
}

/// The angle, radians, from -π/2 to π/2, whose sine is `x`; `x` from -1 to 1.
pub fn asin(x: f64) -> f64 {
    libm::asin(x)
}

/// The angle, radians, from 0 to π, whose cosine is `x`; `x` from -1 to 1.
pub fn acos(x: f64) -> f64 {
    libm::acos(x)
}

/// The angle, radians, between -π/2 and π/2, whose tangent is `x`.
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// The angle, radians, from -π to π, of the point `x` along and `y` up.
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// The square root of `x`, not below zero.
pub fn sqrt(x: f64) -> f64 {
    libm::sqrt(x)
}

/// The cube root of `x`, of its sign.
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}

/// `base` raised to `exponent`; a negative base wants a whole exponent.
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}

/// e raised to `x`.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// The natural logarithm of `x`, above zero.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// The logarithm of `x` to base ten, `x` above zero.
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}

/// The sine of `x`, degrees.
pub fn sin_deg(x: f64) -> f64 {
    sin(x * PI / 180.0)
}

/// The cosine of `x`, degrees.
pub fn cos_deg(x: f64) -> f64 {
    cos(x * PI / 180.0)
}

/// The tangent of `x`, degrees.
pub fn tan_deg(x: f64) -> f64 {
    tan(x * PI / 180.0)
}
