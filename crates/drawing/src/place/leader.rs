//! Places for a note with an arrow.

use super::{GAP, Placed, arrow};
use crate::geometry::{Bounds, Path, Point};
use crate::label::Label;
use std::f64::consts::PI;

/// The level bit of line next to the text.
const SHELF: f64 = 0.14;
/// How far off the note may lie.
const AWAY: [f64; 12] = [0.4, 0.55, 0.7, 0.9, 1.1, 1.35, 1.6, 2.0, 2.5, 3.2, 4.0, 5.0];
/// By how much the wanted direction may be missed, in steps of 15 degrees, the least first: a little, and where
/// nothing is free that way, any other.
const TURNS: [&[i32]; 2] = [&[0, 1, -1, 2, -2, 3, -3], &[5, -5, 8, -8, 12]];

/// Every place, the best first.
pub(super) fn offers(at: Point, toward: f64, label: &Label) -> Vec<Placed> {
    TURNS
        .iter()
        .flat_map(|turns| AWAY.iter().map(move |away| (turns, away)))
        .flat_map(|(turns, away)| {
            turns.iter().map(move |turn| {
                let way = Point::toward(toward + f64::from(*turn) * PI / 12.0);
                let elbow = at + way * *away;
                let side = Point::new(if way.x < 0.0 { -1.0 } else { 1.0 }, 0.0);
                let end = elbow + side * SHELF;
                let center = end + side * (GAP + label.width() / 2.0);
                Placed {
                    lines: vec![Path::open([at, elbow, end])],
                    extensions: Vec::new(),
                    arrows: vec![arrow(at, -way)],
                    label: label.clone(),
                    text: Bounds::around(center, label.width(), label.height()),
                }
            })
        })
        .collect()
}
