//! What is on the paper already, and whether a dimension may join it.

use super::{Placed, stands_in_the_way};
use crate::geometry::{Bounds, Path, Point};
use crate::hatch;
use crate::view::Mark;

/// How close a text may come to a line, inches of paper.
const CLEAR: f64 = 0.03;
/// How close a text may come to the lines of its own dimension.
const OWN: f64 = 0.02;
/// How close two texts may come.
const APART: f64 = 0.04;
/// How close the arrow lines of two dimensions may come.
const LANE: f64 = 0.03;

/// How much of each end of a line may stand on another.
const LET_GO: f64 = 0.02;

/// A straight line between two points.
type Stroke = (Point, Point);

/// All that is on the paper, in inches of paper.
pub(crate) struct Obstacles {
    /// Edges and axes of the part.
    edges: Vec<Stroke>,
    /// Outlines of lined metal, one list a region.
    metal: Vec<Vec<Stroke>>,
    /// Lines between arrows.
    lines: Vec<Stroke>,
    /// Thin lines from the part to the arrows.
    extensions: Vec<Stroke>,
    texts: Vec<Bounds>,
    /// Thin lines that are still to come.
    pub(crate) rays: Vec<Stroke>,
}

impl Obstacles {
    pub(crate) fn of(marks: &[Mark]) -> Obstacles {
        let mut edges = Vec::new();
        let mut metal = Vec::new();
        for mark in marks {
            match mark {
                Mark::Line(layer, path) if stands_in_the_way(*layer) => edges.extend(strokes(path)),
                Mark::Line(..) => {}
                Mark::Hatch(loops, _) => metal.push(loops.iter().flat_map(strokes).collect()),
                Mark::Solid([a, b, c]) => {
                    let sides = [(*a, *b), (*b, *c), (*c, *a)];
                    edges.extend(sides);
                    metal.push(sides.to_vec());
                }
            }
        }
        Obstacles {
            edges,
            metal,
            lines: Vec::new(),
            extensions: Vec::new(),
            texts: Vec::new(),
            rays: Vec::new(),
        }
    }

    /// The ends of all edges of the part.
    pub(crate) fn part(&self) -> Vec<Point> {
        self.edges.iter().flat_map(|(a, b)| [*a, *b]).collect()
    }

    /// Whether the text can be read, and hides no other: nothing but lines may cross.
    pub(crate) fn legible(&self, offer: &Placed) -> bool {
        let text = offer.text.grown(CLEAR);
        let apart = offer.text.grown(APART);
        let close = offer.text.grown(OWN);
        let clear = |strokes: &[Stroke]| !strokes.iter().any(|(a, b)| text.meets_line(*a, *b));
        let mut own = offer
            .lines
            .iter()
            .chain(&offer.extensions)
            .flat_map(strokes);
        clear(&self.edges)
            && clear(&self.lines)
            && clear(&self.extensions)
            && clear(&self.rays)
            && !self.texts.iter().any(|other| apart.overlaps(*other))
            && !self
                .metal
                .iter()
                .any(|region| hatch::inside(region, offer.text.center()))
            && own.all(|(a, b)| {
                !close.meets_line(a, b)
                    && !self
                        .texts
                        .iter()
                        .any(|other| other.grown(CLEAR).meets_line(a, b))
            })
    }

    /// Whether besides that its lines cross nothing that a reader could take for a part of it.
    pub(crate) fn free(&self, offer: &Placed) -> bool {
        self.legible(offer)
            && inner(offer).all(|line| {
                self.lines
                    .iter()
                    .map(|other| shortened(*other, LET_GO))
                    .all(|other| !near(line, other))
                    && !self.edges.iter().any(|other| cross(line, *other))
            })
    }

    /// Whether besides that a note's line keeps off all other dimensions. It may cross the part, to which it points.
    pub(crate) fn free_to_point(&self, offer: &Placed) -> bool {
        self.legible(offer)
            && inner(offer).all(|line| {
                let others = self.lines.iter().chain(&self.extensions);
                others
                    .map(|other| shortened(*other, LET_GO))
                    .all(|other| !near(line, other))
            })
    }

    pub(crate) fn add(&mut self, placed: &Placed) {
        self.lines.extend(placed.lines.iter().flat_map(strokes));
        for [tip, left, right] in &placed.arrows {
            self.lines
                .extend([(*left, *right), (*tip, left.middle(*right))]);
        }
        self.extensions
            .extend(placed.extensions.iter().flat_map(strokes));
        self.texts.push(placed.text);
    }
}

fn strokes(path: &Path) -> Vec<Stroke> {
    hatch::edges(path, 0.003)
}

/// The line without `by` at each end.
fn shortened((a, b): Stroke, by: f64) -> Stroke {
    let way = (b - a).unit() * by.min((b - a).length() / 2.0);
    (a + way, b - way)
}

/// The lines of an offer without their ends: arrows may stand on lines where they point.
fn inner(offer: &Placed) -> impl Iterator<Item = Stroke> + '_ {
    offer
        .lines
        .iter()
        .flat_map(strokes)
        .map(|line| shortened(line, LET_GO))
}

/// Whether two lines cross.
fn cross((a, b): Stroke, (c, d): Stroke) -> bool {
    let side = |from: Point, to: Point, p: Point| (to - from).cross(p - from);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Whether two lines cross or run closer than two lanes do.
fn near(one: Stroke, other: Stroke) -> bool {
    let far = |(a, b): Stroke, p: Point| {
        let way = b - a;
        let part = if way.dot(way) > 0.0 {
            ((p - a).dot(way) / way.dot(way)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        (p - (a + way * part)).length() > LANE
    };
    cross(one, other)
        || !(far(one, other.0) && far(one, other.1) && far(other, one.0) && far(other, one.1))
}
