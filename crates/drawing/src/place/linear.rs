//! Places for a dimension from point to point.

use super::{ARROW, GAP, OFF, PAST, Placed, TAIL, angular, arrow, hidden, reach};
use crate::geometry::{Bounds, Path, Point};
use crate::label::Label;
use crate::view::{Dimension, Side};

/// From the part to the first line of dimensions.
const FIRST: f64 = 0.3;
/// From one line of dimensions to the next, and the same for texts that are thicker than one line.
const PITCH: f64 = 0.28;
const WIDE_PITCH: f64 = 0.44;
/// How many lines of dimensions are tried on one side.
const LANES: u32 = 16;
/// How far a text may be led away from its arrows.
const AWAY: [f64; 8] = [0.0, 0.25, 0.5, 0.9, 1.4, 2.0, 3.0, 4.5];
/// How far the thin lines of dimensions that stand at the feature are kept free, inches of paper.
const SPREAD: f64 = 1.1;
/// Far enough to leave any sheet.
const BEYOND: f64 = 1000.0;

/// The direction that is measured, and the one in which lines of dimensions are stacked.
fn ways(from: Point, to: Point, side: Side) -> (Point, Point) {
    let right = Point::new(1.0, 0.0);
    let up = Point::new(0.0, 1.0);
    match side {
        Side::Above => (right, up),
        Side::Below => (right, -up),
        Side::Left => (up, -right),
        Side::Right => (up, right),
        Side::Beside => {
            let way = (to - from).unit();
            (way, way.left())
        }
    }
}

/// What is measured.
pub(super) fn span(from: Point, to: Point, side: Side) -> f64 {
    (to - from).dot(ways(from, to, side).0).abs()
}

/// The thin lines a dimension will send out over the paper, wherever it comes to stand.
pub(super) fn rays(dimension: &Dimension) -> Vec<(Point, Point)> {
    match dimension {
        Dimension::Leader { .. } => Vec::new(),
        Dimension::Angle {
            vertex,
            start,
            sweep,
            ..
        } => angular::rays(*vertex, *start, *sweep),
        Dimension::Linear { from, to, side, .. } => {
            let (_, out) = ways(*from, *to, *side);
            // One that stands at the feature itself goes nowhere near so far.
            let far = if *side == Side::Beside {
                SPREAD
            } else {
                BEYOND
            };
            [*from, *to].map(|p| (p, p + out * far)).to_vec()
        }
    }
}

/// The level, along `out`, of the first line of dimensions: outside of the whole part, or, for one that stands at
/// the feature itself, outside of what lies beside it.
fn first(a: Point, b: Point, side: Side, part: &[Point]) -> f64 {
    let (along, out) = ways(a, b, side);
    let beside = |p: &&Point| (a.dot(along)..=b.dot(along)).contains(&p.dot(along));
    let reaches = part
        .iter()
        .filter(|p| side != Side::Beside || beside(p))
        .map(|p| p.dot(out));
    reaches.fold(a.dot(out).max(b.dot(out)), f64::max) + FIRST
}

/// Every place, the best first.
pub(super) fn offers(
    from: Point,
    to: Point,
    side: Side,
    label: &Label,
    part: &[Point],
) -> Vec<Placed> {
    let (along, out) = ways(from, to, side);
    // From here on `a` comes first along the measured way.
    let (a, b) = if from.dot(along) <= to.dot(along) {
        (from, to)
    } else {
        (to, from)
    };
    let first = first(a, b, side, part);
    let pitch = if 2.0 * reach(label, out) > PITCH - 0.06 {
        WIDE_PITCH
    } else {
        PITCH
    };
    let lane = |number: u32| Lane {
        a,
        b,
        along,
        out,
        level: first + pitch * f64::from(number),
        label,
        first_end: side == Side::Beside,
    };
    let near = (0..LANES).flat_map(|number| {
        let lane = lane(number);
        let mut offers = lane.between();
        offers.extend(lane.after(0.0));
        offers
    });
    let far = (0..LANES).flat_map(|number| {
        let lane = lane(number);
        AWAY.iter()
            .flat_map(|away| lane.after(*away))
            .collect::<Vec<_>>()
    });
    near.chain(far).collect()
}

/// One line on which the dimension may stand.
struct Lane<'a> {
    a: Point,
    b: Point,
    along: Point,
    out: Point,
    level: f64,
    label: &'a Label,
    /// Whether a text outside stands rather before the first arrow than past the second. A slanting dimension is
    /// drawn along a face that often meets others at its far end.
    first_end: bool,
}

impl Lane<'_> {
    /// The two points of the arrows.
    fn tips(&self) -> (Point, Point) {
        let down = |p: Point| self.along * p.dot(self.along) + self.out * self.level;
        (down(self.a), down(self.b))
    }

    fn extensions(&self) -> Vec<Path> {
        [self.a, self.b]
            .into_iter()
            .filter(|p| self.level - p.dot(self.out) > OFF)
            .map(|p| {
                let foot = self.along * p.dot(self.along);
                Path::line(p + self.out * OFF, foot + self.out * (self.level + PAST))
            })
            .collect()
    }

    fn placed(&self, lines: Vec<Path>, arrows: Vec<[Point; 3]>, center: Point) -> Placed {
        Placed {
            lines,
            extensions: self.extensions(),
            arrows,
            label: self.label.clone(),
            text: Bounds::around(center, self.label.width(), self.label.height()),
        }
    }

    /// The text between the arrows, in a gap of their line: in the middle, then to either side of it.
    fn between(&self) -> Vec<Placed> {
        let (a, b) = self.tips();
        let span = (b - a).length();
        let text = hidden(self.label, self.along) + 2.0 * GAP;
        let slack = span - text - 2.0 * (ARROW + 0.04);
        if slack < 0.0 {
            return Vec::new();
        }
        [0.0, 0.25, -0.25, 0.5, -0.5]
            .into_iter()
            .map(|part| {
                let center = a.middle(b) + self.along * (slack * part);
                let half = self.along * (text / 2.0);
                let lines = vec![Path::line(a, center - half), Path::line(center + half, b)];
                let arrows = vec![arrow(a, -self.along), arrow(b, self.along)];
                self.placed(lines, arrows, center)
            })
            .collect()
    }

    /// The text outside, past one arrow or the other, led `away` from it.
    fn after(&self, away: f64) -> Vec<Placed> {
        let (a, b) = self.tips();
        let roomy = (b - a).length() >= 2.0 * ARROW + 0.08;
        let beyond = reach(self.label, self.along) + GAP;
        let mut ways = [(a, b, self.along), (b, a, -self.along)];
        if self.first_end {
            ways.reverse();
        }
        ways.into_iter()
            .map(|(start, end, way)| {
                let tail = end + way * (TAIL + away);
                let (lines, arrows) = if roomy {
                    (
                        vec![Path::line(start, tail)],
                        vec![arrow(start, -way), arrow(end, way)],
                    )
                } else {
                    (
                        vec![
                            Path::line(start - way * TAIL, start),
                            Path::line(start, end),
                            Path::line(end, tail),
                        ],
                        vec![arrow(start, way), arrow(end, -way)],
                    )
                };
                self.placed(lines, arrows, tail + way * beyond)
            })
            .collect()
    }
}
