//! Moving, turning, mirroring and scaling, without stretching.

use super::Point;
use measure::math;

/// A similarity: everything keeps its shape, though it may be turned, mirrored and scaled.
///
/// It takes the point (x, y) to `origin + x * across + y * up`, where `across` and `up` are square to each
/// other and equally long; every constructor keeps that so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transform {
    across: Point,
    up: Point,
    origin: Point,
}

impl Transform {
    /// Leaves everything where it is.
    pub const IDENTITY: Transform = Transform {
        across: Point::new(1.0, 0.0),
        up: Point::new(0.0, 1.0),
        origin: Point::ORIGIN,
    };

    /// Makes everything `times` as large, about the origin.
    pub const fn scale(times: f64) -> Transform {
        Transform {
            across: Point::new(times, 0.0),
            up: Point::new(0.0, times),
            origin: Point::ORIGIN,
        }
    }

    /// Moves everything by `way`.
    pub const fn shift(way: Point) -> Transform {
        Transform {
            origin: way,
            ..Transform::IDENTITY
        }
    }

    /// Turns everything counter-clockwise by `angle`, radians, about the origin.
    pub fn turn(angle: f64) -> Transform {
        let across = Point::toward(angle);
        Transform {
            across,
            up: across.left(),
            origin: Point::ORIGIN,
        }
    }

    /// Left becomes right: mirrors in the vertical axis.
    pub const fn mirror_left_right() -> Transform {
        Transform {
            across: Point::new(-1.0, 0.0),
            ..Transform::IDENTITY
        }
    }

    /// Top becomes bottom: mirrors in the horizontal axis.
    pub const fn mirror_top_bottom() -> Transform {
        Transform {
            up: Point::new(0.0, -1.0),
            ..Transform::IDENTITY
        }
    }

    /// This, and `next` after it.
    pub fn then(self, next: Transform) -> Transform {
        Transform {
            across: next.vector(self.across),
            up: next.vector(self.up),
            origin: next.point(self.origin),
        }
    }

    /// Where a point goes.
    pub fn point(self, p: Point) -> Point {
        self.origin + self.vector(p)
    }

    /// What a vector becomes; it is not moved.
    pub fn vector(self, v: Point) -> Point {
        self.across * v.x + self.up * v.y
    }

    /// How many times as large everything becomes.
    pub fn times(self) -> f64 {
        math::sqrt(self.across.dot(self.across))
    }

    /// Whether left and right hands change places.
    pub fn mirrors(self) -> bool {
        self.across.cross(self.up) < 0.0
    }
}
