//! Upright boxes: what something takes up, and whether two things meet.

use super::Point;

/// A box whose sides lie along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The lower left corner.
    pub min: Point,
    /// The upper right corner.
    pub max: Point,
}

impl Bounds {
    /// The box with these two opposite corners, in whichever order.
    pub fn of(a: Point, b: Point) -> Bounds {
        Bounds {
            min: Point::new(a.x.min(b.x), a.y.min(b.y)),
            max: Point::new(a.x.max(b.x), a.y.max(b.y)),
        }
    }

    /// The box of this `width` and `height` round `center`.
    pub fn around(center: Point, width: f64, height: f64) -> Bounds {
        let half = Point::new(width / 2.0, height / 2.0);
        Bounds::of(center - half, center + half)
    }

    /// The smallest box with all of these points in it; none for no points.
    pub fn over(points: impl IntoIterator<Item = Point>) -> Option<Bounds> {
        points
            .into_iter()
            .map(|p| Bounds::of(p, p))
            .reduce(Bounds::with)
    }

    /// The smallest box with both in it.
    pub fn with(self, other: Bounds) -> Bounds {
        Bounds {
            min: Point::new(self.min.x.min(other.min.x), self.min.y.min(other.min.y)),
            max: Point::new(self.max.x.max(other.max.x), self.max.y.max(other.max.y)),
        }
    }

    /// How wide it is.
    pub fn width(self) -> f64 {
        self.max.x - self.min.x
    }

    /// How high it is.
    pub fn height(self) -> f64 {
        self.max.y - self.min.y
    }

    /// Its middle.
    pub fn center(self) -> Point {
        self.min.middle(self.max)
    }

    /// Grown by `margin` on every side (shrunk, when it is below zero).
    pub fn grown(self, margin: f64) -> Bounds {
        let by = Point::new(margin, margin);
        Bounds {
            min: self.min - by,
            max: self.max + by,
        }
    }

    /// Whether the two share any area.
    pub fn overlaps(self, other: Bounds) -> bool {
        self.min.x < other.max.x
            && other.min.x < self.max.x
            && self.min.y < other.max.y
            && other.min.y < self.max.y
    }

    /// Whether the point lies in the box.
    pub fn holds(self, p: Point) -> bool {
        (self.min.x..=self.max.x).contains(&p.x) && (self.min.y..=self.max.y).contains(&p.y)
    }

    /// Whether the other box lies wholly in this one.
    pub fn encloses(self, other: Bounds) -> bool {
        self.holds(other.min) && self.holds(other.max)
    }

    /// Whether any of the straight line from `a` to `b` lies in the box.
    ///
    /// The line is cut, side by side of the box, to the stretch that could lie in it; what is left, if
    /// anything, does.
    pub fn meets_line(self, a: Point, b: Point) -> bool {
        let way = b - a;
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (start, step, low, high) in [
            (a.x, way.x, self.min.x, self.max.x),
            (a.y, way.y, self.min.y, self.max.y),
        ] {
            if step == 0.0 {
                if start < low || start > high {
                    return false;
                }
                continue;
            }
            let (first, second) = ((low - start) / step, (high - start) / step);
            enter = enter.max(first.min(second));
            leave = leave.min(first.max(second));
        }
        enter <= leave
    }
}
