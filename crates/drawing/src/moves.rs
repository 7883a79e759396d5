//! What moves what, drawn as a tree: the changed size on top, under each size those that it moves, with an arrow for the way and
//! the amount in words. A size with a limit on it is heavy and says so; nothing hangs on color.

use crate::chart::{open, text};
use std::fmt::Write;

/// One size of the tree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Move {
    /// How many relations lie between the changed size and it; 0 for the changed one.
    pub deep: usize,
    /// What it is.
    pub words: String,
    /// Which way and by how much, in words.
    pub amount: String,
    /// Whether it goes up, in the sense of its plus; nothing where nobody can tell.
    pub up: Option<bool>,
    /// The limit that lies on it, in words; empty for none.
    pub limit: String,
}

/// The tree, each size behind the one that moves it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MoveTree {
    /// What it shows, for one who cannot see it.
    pub told: String,
    /// Its sizes.
    pub moves: Vec<Move>,
}

/// Height of a row, and how far one that is moved stands in from the one that moves it, in pixels.
const HIGH: f64 = 46.0;
const IN: f64 = 20.0;

impl MoveTree {
    /// The tree as an SVG element.
    pub fn svg(&self) -> String {
        let longest = |it: &Move| {
            let below = it.amount.chars().count() + it.limit.chars().count() + 3;
            let wide = it.words.chars().count().max(below);
            it.deep as f64 * IN + 34.0 + 7.8 * wide as f64
        };
        let wide = self.moves.iter().map(longest).fold(240.0, f64::max) + 8.0;
        let high = HIGH * self.moves.len() as f64 + 6.0;
        let mut out = String::with_capacity(400 + 400 * self.moves.len());
        open(&mut out, wide, high, &self.told);
        for (at, it) in self.moves.iter().enumerate() {
            let (x, y) = (6.0 + it.deep as f64 * IN, HIGH * at as f64 + 22.0);
            let above = self.moves.get(..at).unwrap_or_default();
            let mover = above.iter().rposition(|before| before.deep < it.deep);
            if let Some(mover) = mover {
                // From under its mover's arrow down, then in to its own.
                let (from, top) = (x - IN + 6.0, HIGH * mover as f64 + 30.0);
                let _ = writeln!(
                    out,
                    "<path d=\"M{from:.1} {top:.1}V{:.1}H{:.1}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"1\"/>",
                    y - 5.0,
                    x - 1.0
                );
            }
            arrow(&mut out, x + 6.0, y - 5.0, it.up);
            let weight = if it.limit.is_empty() {
                "normal"
            } else {
                "bold"
            };
            text(&mut out, x + 20.0, y, "start", weight, &it.words);
            let below = if it.limit.is_empty() {
                it.amount.clone()
            } else {
                format!("{} · {}", it.amount, it.limit)
            };
            text(&mut out, x + 20.0, y + 17.0, "start", "normal", &below);
        }
        out.push_str("</svg>\n");
        out
    }
}

/// An arrow up, an arrow down, or a question mark.
fn arrow(out: &mut String, x: f64, y: f64, up: Option<bool>) {
    let Some(up) = up else {
        text(out, x, y + 5.0, "middle", "bold", "?");
        return;
    };
    let (tip, foot) = if up { (-9.0, 9.0) } else { (9.0, -9.0) };
    let back = if up { 6.0 } else { -6.0 };
    let _ = writeln!(
        out,
        "<path d=\"M{x:.1} {:.1}V{:.1}M{:.1} {:.1}L{x:.1} {:.1}L{:.1} {:.1}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"/>",
        y + foot,
        y + tip,
        x - 4.5,
        y + tip + back,
        y + tip,
        x + 4.5,
        y + tip + back
    );
}
