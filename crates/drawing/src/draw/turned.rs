//! Turned parts: the upper half in section, the lower half as it is seen, the axis level.

use crate::geometry::{Path, Point, Transform};
use crate::hatch::Lean;
use crate::label::{Label, Tolerance};
use crate::layer::Layer;
use crate::view::{Mark, Side, View};
use measure::{House, Length};

/// A solid of revolution. Points are (along the axis, radius), inches, from left to right.
pub(super) struct Turned {
    /// The outside, from the left face to the right face.
    pub outside: Vec<Point>,
    /// The bore, from the left face to the right face; none for a solid part.
    pub bore: Vec<Point>,
    /// Which way its section is lined.
    pub lean: Lean,
    /// The stretch of the axis on which its outside lies within another part and is not seen from beside.
    pub covered: Option<(f64, f64)>,
    /// Whether another part fills the bore, so that its edges are not seen behind the cut.
    pub filled: bool,
}

impl Turned {
    /// Draws it into a view.
    pub(super) fn draw(&self, view: &mut View) {
        let axis = |p: Point| Point::new(p.x, 0.0);
        let ends = [self.outside.first(), self.outside.last()].map(|p| p.copied().map(axis));
        let inner: Vec<Point> = if self.bore.is_empty() {
            ends.into_iter().flatten().collect()
        } else {
            self.bore.clone()
        };
        let upper = Path::closed(
            self.outside
                .iter()
                .copied()
                .chain(inner.iter().rev().copied()),
        );
        view.marks.push(Mark::Hatch(vec![upper.clone()], self.lean));
        view.line(Layer::Outline, self.faces_and_outside(&inner));
        if !self.bore.is_empty() {
            view.line(Layer::Outline, Path::open(self.bore.iter().copied()));
            let down = Transform::mirror_top_bottom();
            let under = Path::open(self.bore.iter().copied()).transformed(down);
            view.line(Layer::Hidden, under);
            // Edges of the bore, seen behind the cut.
            for p in self.bore.iter().filter(|_| !self.filled) {
                view.line(Layer::Outline, Path::line(axis(*p), *p));
            }
        }
        self.lower(view);
    }

    /// The section's outline without the axis or the bore.
    fn faces_and_outside(&self, inner: &[Point]) -> Path {
        Path::open(
            inner
                .first()
                .copied()
                .into_iter()
                .chain(self.outside.iter().copied())
                .chain(inner.last().copied()),
        )
    }

    /// The lower half as it is seen: its outline, and a line for each edge that goes round it.
    fn lower(&self, view: &mut View) {
        let down = Transform::mirror_top_bottom();
        let seen = |x: f64| self.covered.is_none_or(|(from, to)| x <= from || x >= to);
        for pair in self.outside.windows(2) {
            for (from, to) in self.uncovered(pair[0], pair[1]) {
                view.line(Layer::Outline, Path::line(down.point(from), down.point(to)));
            }
        }
        for p in &self.outside {
            let highest = self
                .outside
                .iter()
                .filter(|q| q.x == p.x)
                .all(|q| q.y <= p.y);
            if highest && seen(p.x) {
                view.line(
                    Layer::Outline,
                    Path::line(Point::new(p.x, 0.0), down.point(*p)),
                );
            }
        }
    }

    /// What is left of an edge of the outside when the covered stretch is cut out of it.
    fn uncovered(&self, a: Point, b: Point) -> Vec<(Point, Point)> {
        let Some((from, to)) = self.covered.filter(|_| a.x < b.x) else {
            return vec![(a, b)];
        };
        let at = |x: f64| a + (b - a) * ((x - a.x) / (b.x - a.x));
        let mut left = Vec::new();
        if a.x < from {
            left.push((a, at(from.min(b.x))));
        }
        if b.x > to {
            left.push((at(to.max(a.x)), b));
        }
        left
    }
}

/// The axis from `from` to `to`, a little longer than the part.
pub(super) fn axis(view: &mut View, from: f64, to: f64) {
    let over = 0.07 * (to - from);
    view.line(
        Layer::Center,
        Path::line(Point::new(from - over, 0.0), Point::new(to + over, 0.0)),
    );
}

/// Dimensions the diameter at a point of the outside or the bore; `word` says of what.
pub(super) fn diameter(
    view: &mut View,
    at: Point,
    side: Side,
    word: &str,
    within: Option<Tolerance>,
    house: House,
) {
    let label = Label::kept(Length::inches(2.0 * at.y), within, "Ø ", house).named(word);
    view.linear(Point::new(at.x, -at.y), at, side, label);
}

/// Dimensions the length along the axis between two points; `word` says of what.
pub(super) fn along(
    view: &mut View,
    from: Point,
    to: Point,
    side: Side,
    word: &str,
    within: Option<Tolerance>,
    house: House,
) {
    let turn = |p: Point| {
        if side == Side::Below {
            Transform::mirror_top_bottom().point(p)
        } else {
            p
        }
    };
    let label = Label::kept(Length::inches(to.x - from.x), within, "", house).after(word);
    view.linear(turn(from), turn(to), side, label);
}
