//! Finds a place for every dimension of a view, so that no text lies on a text, on a line or on lined metal.
//!
//! Each dimension offers places in the order in which a draftsman would like them; the first that disturbs
//! nothing already there is taken. Where one has no undisturbed place, one in which only *lines* cross is taken;
//! a text is never put on anything.

mod angular;
mod leader;
mod linear;
mod obstacles;

use crate::geometry::{Bounds, Path, Point};
use crate::label::Label;
use crate::layer::Layer;
use crate::view::{Dimension, Mark, Side};
use obstacles::Obstacles;

/// Length of an arrowhead, inches of paper.
pub(crate) const ARROW: f64 = 0.13;
/// Between a line and the text that it leads to.
const GAP: f64 = 0.06;
/// Between a part and the thin line that goes out from it.
const OFF: f64 = 0.05;
/// How far a thin line goes on past the arrow.
const PAST: f64 = 0.07;
/// How far an arrow that comes from outside begins from its point.
const TAIL: f64 = 0.24;

/// A dimension in its place, in inches of paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The lines or the arc between the arrows.
    pub lines: Vec<Path>,
    /// Thin lines from the part to the arrows.
    pub extensions: Vec<Path>,
    /// Arrowheads, each from its point.
    pub arrows: Vec<[Point; 3]>,
    /// What it says.
    pub label: Label,
    /// Where that stands.
    pub text: Bounds,
}

impl Placed {
    /// All that it takes up.
    pub fn bounds(&self) -> Bounds {
        self.lines
            .iter()
            .chain(&self.extensions)
            .filter_map(Path::bounds)
            .fold(self.text, Bounds::with)
    }
}

/// Places the dimensions of a view, all in inches of paper, so that no more than a `room` of this width and height
/// is taken up. On failure: which one found no place in it.
pub(crate) fn place(
    marks: &[Mark],
    dimensions: &[Dimension],
    room: Point,
) -> Result<Vec<Placed>, usize> {
    let mut obstacles = Obstacles::of(marks);
    let part = obstacles.part();
    let nothing = Bounds::of(Point::ORIGIN, Point::ORIGIN);
    let mut taken_up = Bounds::over(part.iter().copied()).unwrap_or(nothing);
    let order = order(dimensions);
    let mut placed: Vec<Option<Placed>> = vec![None; dimensions.len()];
    for (turn, &index) in order.iter().enumerate() {
        // The thin lines of the dimensions to come run out past this one: its text keeps off them.
        obstacles.rays = order[turn + 1..]
            .iter()
            .flat_map(|&later| linear::rays(&dimensions[later]))
            .collect();
        let offers: Vec<Placed> = offers(&dimensions[index], &part)
            .into_iter()
            .filter(|offer| {
                let with = taken_up.with(offer.bounds());
                with.width() <= room.x && with.height() <= room.y
            })
            .collect();
        let taken = offers
            .iter()
            .find(|offer| match dimensions[index] {
                Dimension::Leader { .. } => obstacles.free_to_point(offer),
                _ => obstacles.free(offer),
            })
            .or_else(|| offers.iter().find(|offer| obstacles.legible(offer)));
        let Some(taken) = taken else {
            return Err(index);
        };
        obstacles.add(taken);
        taken_up = taken_up.with(taken.bounds());
        placed[index] = Some(taken.clone());
    }
    Ok(placed.into_iter().flatten().collect())
}

/// The order in which they are placed: the linear ones of each side from the shortest, then those that stand
/// at the feature itself.
fn order(dimensions: &[Dimension]) -> Vec<usize> {
    let key = |index: &usize| match &dimensions[*index] {
        Dimension::Linear {
            from,
            to,
            side: Side::Beside,
            ..
        } => (1, (*to - *from).length()),
        Dimension::Linear { from, to, side, .. } => (0, linear::span(*from, *to, *side)),
        Dimension::Angle { .. } => (2, 0.0),
        Dimension::Leader { .. } => (3, 0.0),
    };
    let mut order: Vec<usize> = (0..dimensions.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (key(a), key(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    order
}

fn offers(dimension: &Dimension, part: &[Point]) -> Vec<Placed> {
    match dimension {
        Dimension::Linear {
            from,
            to,
            side,
            label,
        } => linear::offers(*from, *to, *side, label, part),
        Dimension::Angle {
            vertex,
            start,
            sweep,
            drawn,
            label,
        } => angular::offers(*vertex, *start, *sweep, *drawn, label),
        Dimension::Leader { at, toward, label } => leader::offers(*at, *toward, label),
    }
}

/// The arrowhead with its point at `tip`, flying along `way`.
fn arrow(tip: Point, way: Point) -> [Point; 3] {
    let back = tip - way * ARROW;
    let side = way.left() * (ARROW / 6.0);
    [tip, back + side, back - side]
}

/// How far a box of the label's size reaches from its center in the direction `way`.
fn reach(label: &Label, way: Point) -> f64 {
    (way.x.abs() * label.width() + way.y.abs() * label.height()) / 2.0
}

/// How much of a line in the direction `way` through the middle of the label is hidden by it.
fn hidden(label: &Label, way: Point) -> f64 {
    let over = |size: f64, part: f64| {
        if part.abs() < 1e-9 {
            f64::INFINITY
        } else {
            size / part.abs()
        }
    };
    over(label.width(), way.x).min(over(label.height(), way.y))
}

/// Whether the text must keep clear of lines of this layer, and arrows be counted from them.
const fn stands_in_the_way(layer: Layer) -> bool {
    !matches!(layer, Layer::Hatch)
}
