//! Section lining: slanting lines cut to the shape of the metal.

use crate::geometry::{Bounds, Path, Point};
use measure::math;
use std::f64::consts::FRAC_1_SQRT_2;

/// Which way the lines lean. Parts that touch are lined opposite ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lean {
    /// Up to the right, at 45 degrees.
    Right,
    /// Up to the left.
    Left,
}

/// How far an arc may be from the straight lines it is taken for, in the unit of the loops.
const SAG: f64 = 0.002;

/// The distance between lines, inches of paper, for metal of this size: small parts are lined closer, so that
/// they are seen to be lined, large ones wider, so that they do not turn gray.
pub fn spacing(bounds: Bounds) -> f64 {
    let size = math::sqrt((bounds.width() * bounds.height()).max(0.0));
    (size * 0.07).clamp(0.055, 0.13)
}

/// The lines of a section.
///
/// `loops`: closed outlines, in any order and sense; a loop inside another is a hole in it. `spacing`: square
/// from line to line, in the unit of the loops; nothing is drawn for one that is not above zero. The lines lie on
/// one grid through the origin, so that two regions of one part match.
pub fn hatch(loops: &[Path], lean: Lean, spacing: f64) -> Vec<(Point, Point)> {
    if spacing.is_nan() || spacing <= 0.0 {
        return Vec::new();
    }
    let along = match lean {
        Lean::Right => Point::new(FRAC_1_SQRT_2, FRAC_1_SQRT_2),
        Lean::Left => Point::new(-FRAC_1_SQRT_2, FRAC_1_SQRT_2),
    };
    let across = along.left();
    let edges: Vec<(Point, Point)> = loops
        .iter()
        .flat_map(|outline| edges(outline, SAG))
        .collect();
    let levels = edges
        .iter()
        .flat_map(|(a, b)| [a.dot(across), b.dot(across)]);
    let (low, high) = levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| {
        (low.min(level), high.max(level))
    });
    if !(low.is_finite() && high.is_finite()) {
        return Vec::new();
    }
    let mut lines = Vec::new();
    let mut step = (low / spacing).ceil();
    while step * spacing < high {
        let level = step * spacing;
        let mut crossings: Vec<f64> = edges
            .iter()
            .filter_map(|&(a, b)| {
                let (from, to) = (a.dot(across), b.dot(across));
                // Half open, so that a corner on the line counts once where the outline passes through it
                // and twice or never where it only touches.
                ((from <= level) != (to <= level)).then(|| {
                    let part = (level - from) / (to - from);
                    (a + (b - a) * part).dot(along)
                })
            })
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            if pair[1] > pair[0] {
                let at = |way: f64| along * way + across * level;
                lines.push((at(pair[0]), at(pair[1])));
            }
        }
        step += 1.0;
    }
    lines
}

/// The straight edges of an outline; arcs are taken for chords within `sag` of them.
pub(crate) fn edges(outline: &Path, sag: f64) -> Vec<(Point, Point)> {
    outline
        .flat(sag)
        .windows(2)
        .map(|pair| (pair[0], pair[1]))
        .collect()
}

/// Whether the point lies in the metal bounded by these edges: an odd number of them lie to its right.
pub(crate) fn inside(edges: &[(Point, Point)], p: Point) -> bool {
    edges
        .iter()
        .filter(|(a, b)| (a.y <= p.y) != (b.y <= p.y))
        .filter(|(a, b)| a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) > p.x)
        .count()
        % 2
        == 1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Path {
        let h = side / 2.0;
        Path::closed([
            Point::new(-h, -h),
            Point::new(h, -h),
            Point::new(h, h),
            Point::new(-h, h),
        ])
    }

    /// Lines at one spacing stand for an area: their length times the spacing.
    fn area(loops: &[Path], lean: Lean) -> f64 {
        let spacing = 0.001;
        hatch(loops, lean, spacing)
            .iter()
            .map(|(a, b)| (*b - *a).length() * spacing)
            .sum()
    }

    #[test]
    fn the_lines_cover_a_square_less_its_round_hole() {
        // Plane geometry: 4 - pi/4.
        let loops = [square(2.0), Path::circle(Point::ORIGIN, 0.5)];
        let wanted = 4.0 - std::f64::consts::PI / 4.0;
        for lean in [Lean::Right, Lean::Left] {
            let covered = area(&loops, lean);
            assert!((covered - wanted).abs() < 0.005, "{covered} {wanted}");
        }
    }

    #[test]
    fn no_line_enters_the_hole() {
        let loops = [square(2.0), Path::circle(Point::ORIGIN, 0.5)];
        for (a, b) in hatch(&loops, Lean::Right, 0.05) {
            for part in 1..100 {
                let p = a + (b - a) * (f64::from(part) / 100.0);
                assert!(p.length() > 0.5 - 2.0 * SAG, "{p:?}");
            }
        }
    }

    #[test]
    fn the_two_leans_cross_squarely() {
        let (a, b) = hatch(&[square(1.0)], Lean::Right, 0.3)[0];
        let (c, d) = hatch(&[square(1.0)], Lean::Left, 0.3)[0];
        assert!((b - a).dot(d - c).abs() < 1e-12);
    }

    #[test]
    fn nothing_to_line_gives_no_lines() {
        assert!(hatch(&[], Lean::Right, 0.1).is_empty());
        assert!(hatch(&[square(1.0)], Lean::Right, 0.0).is_empty());
        assert!(hatch(&[square(1.0)], Lean::Right, f64::NAN).is_empty());
    }
}
