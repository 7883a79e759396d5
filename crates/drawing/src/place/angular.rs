//! Places for a dimension between two directions.

use super::{ARROW, GAP, OFF, PAST, Placed, TAIL, arrow, hidden, reach};
use crate::geometry::{Bounds, Path, Point};
use crate::label::Label;

/// The smallest radius of the arc, inches of paper.
const FIRST: f64 = 0.6;
/// From one radius that is tried to the next.
const STEP: f64 = 0.15;
/// How many are tried.
const TRIES: u32 = 24;

/// Where the sides and the arc are likely to come: kept free of the texts of dimensions placed before.
pub(super) fn rays(vertex: Point, start: f64, sweep: f64) -> Vec<(Point, Point)> {
    let at = |angle: f64, radius: f64| vertex + Point::toward(angle) * radius;
    let far = FIRST + 4.0 * STEP;
    let sides = [start, start + sweep].map(|angle| (vertex, at(angle, far)));
    let arcs = (0..4).flat_map(|number| {
        let radius = FIRST + STEP * f64::from(number);
        Path::arc(vertex, radius, start, sweep)
            .flat(0.01)
            .windows(2)
            .map(|pair| (pair[0], pair[1]))
            .collect::<Vec<_>>()
    });
    sides.into_iter().chain(arcs).collect()
}

/// Every place, the best first.
pub(super) fn offers(
    vertex: Point,
    start: f64,
    sweep: f64,
    drawn: [f64; 2],
    label: &Label,
) -> Vec<Placed> {
    (0..TRIES)
        .flat_map(|number| {
            let arc = Arc {
                vertex,
                start,
                end: start + sweep,
                radius: FIRST + STEP * f64::from(number),
                drawn,
                label,
            };
            let mut offers: Vec<Placed> = arc.between().into_iter().collect();
            offers.push(arc.past(false));
            offers.push(arc.past(true));
            offers
        })
        .collect()
}

struct Arc<'a> {
    vertex: Point,
    start: f64,
    end: f64,
    radius: f64,
    drawn: [f64; 2],
    label: &'a Label,
}

impl Arc<'_> {
    fn at(&self, angle: f64) -> Point {
        self.vertex + Point::toward(angle) * self.radius
    }

    /// The way on along the arc, counter-clockwise, at an angle.
    fn onward(angle: f64) -> Point {
        Point::toward(angle).left()
    }

    fn piece(&self, from: f64, to: f64) -> Path {
        Path::arc(self.vertex, self.radius, from, to - from)
    }

    /// Thin lines from where a line is drawn already to just past the arc.
    fn extensions(&self) -> Vec<Path> {
        [(self.start, self.drawn[0]), (self.end, self.drawn[1])]
            .into_iter()
            .filter(|(_, drawn)| drawn + OFF < self.radius)
            .map(|(angle, drawn)| {
                let way = Point::toward(angle);
                // Where nothing is drawn the thin line begins at the vertex itself.
                let off = if drawn > 0.0 { drawn + OFF } else { 0.0 };
                Path::line(
                    self.vertex + way * off,
                    self.vertex + way * (self.radius + PAST),
                )
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

    fn arrows(&self, inward: bool) -> Vec<[Point; 3]> {
        let sign = if inward { -1.0 } else { 1.0 };
        // A head is straight and the arc is not: it is turned by half its own angle, so that its tail is on it.
        let half = ARROW / self.radius / 2.0 * sign;
        vec![
            arrow(self.at(self.start), -Arc::onward(self.start + half) * sign),
            arrow(self.at(self.end), Arc::onward(self.end - half) * sign),
        ]
    }

    /// The text in a gap of the arc, if it is long enough. An arc that bends round a box needs a wider gap than a
    /// straight line through it does.
    fn between(&self) -> Option<Placed> {
        let middle = (self.start + self.end) / 2.0;
        let gap = 1.15 * (hidden(self.label, Arc::onward(middle)) + 2.0 * GAP) / self.radius;
        let room = self.end - self.start - gap - 2.0 * (ARROW + 0.12) / self.radius;
        (room > 0.0).then(|| {
            let lines = vec![
                self.piece(self.start, middle - gap / 2.0),
                self.piece(middle + gap / 2.0, self.end),
            ];
            self.placed(lines, self.arrows(false), self.at(middle))
        })
    }

    /// The text outside, past the second direction or before the first.
    fn past(&self, before: bool) -> Placed {
        let tail = TAIL / self.radius;
        let roomy = (self.end - self.start) * self.radius >= 2.0 * ARROW + 0.08;
        let mut lines = vec![self.piece(self.start, self.end)];
        if before || !roomy {
            lines.push(self.piece(self.start - tail, self.start));
        }
        if !before || !roomy {
            lines.push(self.piece(self.end, self.end + tail));
        }
        let (angle, sign) = if before {
            (self.start - tail, -1.0)
        } else {
            (self.end + tail, 1.0)
        };
        let way = Arc::onward(angle) * sign;
        let center = self.at(angle) + way * (reach(self.label, way) + GAP);
        self.placed(lines, self.arrows(!roomy), center)
    }
}
