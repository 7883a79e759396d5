//! Paths of straight lines and arcs: one shape for lines, arcs, circles, polylines and closed outlines.

use super::{Bounds, Point, Transform};
use measure::math;
use std::f64::consts::{PI, TAU};

/// A corner of a path and how the path goes on from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vertex {
    /// Where the corner is.
    pub at: Point,
    /// The bulge of the segment that starts here: the tangent of a quarter of the angle it turns through.
    /// Zero is straight, one a half circle, above zero turns counter-clockwise.
    pub bulge: f64,
}

/// A connected run of lines and arcs, open or closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// The corners in order. Of an open path the last bulge means nothing.
    pub vertices: Vec<Vertex>,
    /// Whether a last segment leads back to the first corner.
    pub closed: bool,
}

/// One segment of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// A straight line.
    Line {
        /// Where it starts.
        from: Point,
        /// Where it ends.
        to: Point,
    },
    /// An arc of a circle.
    Arc {
        /// The middle of the circle.
        center: Point,
        /// Its radius.
        radius: f64,
        /// The direction from the center to the start of the arc, radians.
        start: f64,
        /// The angle turned through, radians, counter-clockwise above zero.
        sweep: f64,
    },
}

impl Segment {
    /// The point at `part` of the way, 0 at the start and 1 at the end.
    pub fn at(self, part: f64) -> Point {
        match self {
            Segment::Line { from, to } => from + (to - from) * part,
            Segment::Arc {
                center,
                radius,
                start,
                sweep,
            } => center + Point::toward(start + sweep * part) * radius,
        }
    }

    /// How long it is.
    pub fn length(self) -> f64 {
        match self {
            Segment::Line { from, to } => (to - from).length(),
            Segment::Arc { radius, sweep, .. } => radius * sweep.abs(),
        }
    }
}

impl Path {
    /// The straight line from `from` to `to`.
    pub fn line(from: Point, to: Point) -> Path {
        Path::open([from, to])
    }

    /// Straight lines through these points, in order.
    pub fn open(points: impl IntoIterator<Item = Point>) -> Path {
        Path {
            vertices: corners(points),
            closed: false,
        }
    }

    /// The closed outline with these corners.
    pub fn closed(points: impl IntoIterator<Item = Point>) -> Path {
        Path {
            vertices: corners(points),
            closed: true,
        }
    }

    /// The arc round `center`, of `radius`, from the direction `start` through `sweep`; both in radians,
    /// counter-clockwise, `sweep` short of a full turn.
    pub fn arc(center: Point, radius: f64, start: f64, sweep: f64) -> Path {
        let end = |angle: f64| center + Point::toward(angle) * radius;
        Path {
            vertices: vec![
                Vertex {
                    at: end(start),
                    bulge: math::tan(sweep / 4.0),
                },
                Vertex {
                    at: end(start + sweep),
                    bulge: 0.0,
                },
            ],
            closed: false,
        }
    }

    /// The circle round `center`.
    pub fn circle(center: Point, radius: f64) -> Path {
        let side = Point::new(radius, 0.0);
        Path {
            vertices: vec![
                Vertex {
                    at: center + side,
                    bulge: 1.0,
                },
                Vertex {
                    at: center - side,
                    bulge: 1.0,
                },
            ],
            closed: true,
        }
    }

    /// Its segments in order. Neighbouring corners at one place have none between them.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + '_ {
        let count = self.vertices.len();
        let ends = if self.closed {
            count
        } else {
            count.saturating_sub(1)
        };
        self.vertices
            .iter()
            .zip(self.vertices.iter().cycle().skip(1))
            .take(ends)
            .filter(|(a, b)| a.at != b.at)
            .map(|(a, b)| segment(*a, b.at))
    }

    /// If the path is one full circle: its center and radius.
    pub fn as_circle(&self) -> Option<(Point, f64)> {
        match self.vertices.as_slice() {
            [a, b] if self.closed && a.bulge == b.bulge && a.bulge.abs() == 1.0 => {
                Some((a.at.middle(b.at), (b.at - a.at).length() / 2.0))
            }
            _ => None,
        }
    }

    /// How long it is along its lines and arcs.
    pub fn length(&self) -> f64 {
        self.segments().map(Segment::length).sum()
    }

    /// Points along the path, close enough that straight lines between them stay within `sag` of it.
    pub fn flat(&self, sag: f64) -> Vec<Point> {
        let mut points = Vec::new();
        for segment in self.segments() {
            if points.is_empty() {
                points.push(segment.at(0.0));
            }
            let steps = match segment {
                Segment::Line { .. } => 1,
                Segment::Arc { radius, sweep, .. } => steps(radius, sweep, sag),
            };
            points.extend((1..=steps).map(|step| segment.at(f64::from(step) / f64::from(steps))));
        }
        if points.is_empty() {
            points.extend(self.vertices.first().map(|v| v.at));
        }
        points
    }

    /// The box it lies in; none for a path of no corners.
    pub fn bounds(&self) -> Option<Bounds> {
        let ends = self.vertices.iter().map(|v| v.at);
        // An arc reaches further than its ends where it passes right, top, left or bottom of its circle.
        let reaches = self.segments().flat_map(|segment| match segment {
            Segment::Line { .. } => Vec::new(),
            Segment::Arc {
                center,
                radius,
                start,
                sweep,
            } => (0..4)
                .map(|quarter| f64::from(quarter) * PI / 2.0)
                .filter(|angle| turned(start, *angle, sweep) <= sweep.abs())
                .map(|angle| center + Point::toward(angle) * radius)
                .collect(),
        });
        Bounds::over(ends.chain(reaches))
    }

    /// The path after `transform`.
    pub fn transformed(&self, transform: Transform) -> Path {
        let sign = if transform.mirrors() { -1.0 } else { 1.0 };
        Path {
            vertices: self
                .vertices
                .iter()
                .map(|v| Vertex {
                    at: transform.point(v.at),
                    bulge: v.bulge * sign,
                })
                .collect(),
            closed: self.closed,
        }
    }
}

/// A wavy line: where a view ends and the metal goes on.
pub(crate) fn wavy(from: Point, to: Point) -> Path {
    const WAVES: u32 = 4;
    let at = |number: u32| from + (to - from) * (f64::from(number) / f64::from(WAVES));
    let bulge = |number: u32| match number {
        WAVES => 0.0,
        n if n % 2 == 0 => 0.18,
        _ => -0.18,
    };
    Path {
        vertices: (0..=WAVES)
            .map(|number| Vertex {
                at: at(number),
                bulge: bulge(number),
            })
            .collect(),
        closed: false,
    }
}

fn corners(points: impl IntoIterator<Item = Point>) -> Vec<Vertex> {
    points
        .into_iter()
        .map(|at| Vertex { at, bulge: 0.0 })
        .collect()
}

/// The segment that leaves corner `a` for the point `to`.
fn segment(a: Vertex, to: Point) -> Segment {
    if a.bulge == 0.0 {
        return Segment::Line { from: a.at, to };
    }
    let sweep = 4.0 * math::atan(a.bulge);
    let chord = to - a.at;
    // Half the chord over the tangent of half the sweep is the center's distance from the chord.
    let center = a.at.middle(to) + chord.left() * ((1.0 - a.bulge * a.bulge) / (4.0 * a.bulge));
    Segment::Arc {
        center,
        radius: (a.at - center).length(),
        start: (a.at - center).angle(),
        sweep,
    }
}

/// How far one turns from `start` to `angle` in the sense of `sweep`, from 0 to a full turn.
fn turned(start: f64, angle: f64, sweep: f64) -> f64 {
    let way = if sweep < 0.0 {
        start - angle
    } else {
        angle - start
    };
    way.rem_euclid(TAU)
}

/// How many chords keep within `sag` of an arc.
fn steps(radius: f64, sweep: f64, sag: f64) -> u32 {
    let cosine = (1.0 - sag / radius).clamp(0.0, 1.0);
    let step = 2.0 * math::acos(cosine);
    if step <= 0.0 {
        return 256;
    }
    // Between 2 and 256 the cast loses nothing but the fraction.
    (sweep.abs() / step).ceil().clamp(2.0, 256.0) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() < 1e-12
    }

    #[test]
    fn an_arc_keeps_its_center_and_radius_through_its_bulge() {
        for (start, sweep) in [(0.3, 1.0), (2.0, -2.5), (-1.0, 3.5), (0.0, -6.0)] {
            let arc = Path::arc(Point::new(2.0, -1.0), 1.5, start, sweep);
            let Some(Segment::Arc {
                center,
                radius,
                sweep: turned,
                ..
            }) = arc.segments().next()
            else {
                panic!("no arc");
            };
            assert!(close(center.x, 2.0) && close(center.y, -1.0) && close(radius, 1.5));
            assert!(close(turned, sweep), "{turned} {sweep}");
        }
    }

    #[test]
    fn a_circle_reaches_all_four_sides_and_is_two_pi_r_long() {
        let circle = Path::circle(Point::new(1.0, 2.0), 3.0);
        let bounds = circle.bounds().unwrap();
        assert!(close(bounds.min.x, -2.0) && close(bounds.max.x, 4.0));
        assert!(close(bounds.min.y, -1.0) && close(bounds.max.y, 5.0));
        assert!(close(circle.length(), 6.0 * PI));
        assert_eq!(circle.as_circle(), Some((Point::new(1.0, 2.0), 3.0)));
    }

    #[test]
    fn an_arc_reaches_only_the_sides_it_passes() {
        let bounds = Path::arc(Point::ORIGIN, 1.0, PI / 4.0, PI / 2.0)
            .bounds()
            .unwrap();
        assert!(close(bounds.max.y, 1.0), "passes the top");
        assert!(close(bounds.max.x, math::sqrt(0.5)), "not the right");
    }

    #[test]
    fn a_flat_arc_stays_within_its_sag() {
        let arc = Path::arc(Point::ORIGIN, 2.0, 0.0, 3.0);
        for pair in arc.flat(0.001).windows(2) {
            assert!(2.0 - pair[0].middle(pair[1]).length() <= 0.001 + 1e-12);
        }
    }

    #[test]
    fn a_mirrored_arc_turns_the_other_way_about_the_mirrored_center() {
        let arc = Path::arc(Point::new(1.0, 0.0), 1.0, 0.0, 1.0)
            .transformed(Transform::mirror_left_right());
        let Some(Segment::Arc { center, sweep, .. }) = arc.segments().next() else {
            panic!("no arc");
        };
        assert!(close(center.x, -1.0) && close(sweep, -1.0));
    }
}
