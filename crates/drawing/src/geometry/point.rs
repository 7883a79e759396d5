//! A point, which is also a vector.

use measure::math;
use std::ops::{Add, Mul, Neg, Sub};

/// A point in the plane, or the way from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

impl Point {
    /// Where both axes start.
    pub const ORIGIN: Point = Point { x: 0.0, y: 0.0 };

    /// The point `x` to the right and `y` up.
    pub const fn new(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    /// The unit vector at `angle`, radians, counter-clockwise from the right.
    pub fn toward(angle: f64) -> Point {
        Point::new(math::cos(angle), math::sin(angle))
    }

    /// How long the vector is.
    pub fn length(self) -> f64 {
        math::sqrt(self.dot(self))
    }

    /// The direction of the vector, radians from -π to π, counter-clockwise from the right.
    pub fn angle(self) -> f64 {
        math::atan2(self.y, self.x)
    }

    /// The scalar product.
    pub fn dot(self, other: Point) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The vector product: above zero when `other` lies to the left of `self`.
    pub fn cross(self, other: Point) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The vector turned a quarter to the left.
    pub const fn left(self) -> Point {
        Point::new(-self.y, self.x)
    }

    /// The vector of length one in the same direction; a vector of no length stays as it is.
    pub fn unit(self) -> Point {
        let length = self.length();
        if length > 0.0 {
            self * (1.0 / length)
        } else {
            self
        }
    }

    /// The point half way to `other`.
    pub fn middle(self, other: Point) -> Point {
        (self + other) * 0.5
    }
}

impl Add for Point {
    type Output = Point;
    fn add(self, other: Point) -> Point {
        Point::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Point;
    fn sub(self, other: Point) -> Point {
        Point::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Point;
    fn mul(self, times: f64) -> Point {
        Point::new(self.x * times, self.y * times)
    }
}

impl Neg for Point {
    type Output = Point;
    fn neg(self) -> Point {
        Point::new(-self.x, -self.y)
    }
}
