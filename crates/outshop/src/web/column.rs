//! Metal left as a column: as built at the top, what is there now, what is ours to spend, what is not.

use maud::{Markup, html};
use measure::{House, Size, show};
use shop::route::MetalLeft;

use crate::words::part as say;

const WIDE: f64 = 380.0;
const BAR: f64 = 60.0;
const TOP: f64 = 20.0;
const HIGH: f64 = 230.0;
/// How far apart lines of words stand at the least.
const LINE: f64 = 21.0;

/// The column of one feature.
pub fn draw(left: &MetalLeft, house: House) -> Markup {
    let shown = |size: Size| show::size(size, house);
    let most = left.as_built.unwrap_or(left.now).max(left.now);
    let y = |size: Size| {
        let share = if most.ticks() == 0 {
            0.0
        } else {
            size.ticks() as f64 / most.ticks() as f64
        };
        TOP + (1.0 - share) * HIGH
    };
    let built = left
        .as_built
        .map(|size| (size, say::as_built(&shown(size))));
    let now = (left.now, say::now(&shown(left.now)));
    let limit = (left.shop_limit, say::shop_limit(&shown(left.shop_limit)));
    let mut marks: Vec<_> = built.into_iter().chain([now, limit]).collect();
    marks.sort_by_key(|(size, _)| std::cmp::Reverse(*size));
    let lines = lines(marks.iter().map(|(size, _)| y(*size)));
    let foot = lines.last().map_or(TOP + HIGH, |last| last.max(TOP + HIGH));
    let wall = format!("wall-{}", left.title).replace(|c: char| !c.is_ascii_alphanumeric(), "-");
    html! {
        div class="ribbon figure" {
            svg viewBox=(format!("0 0 {WIDE} {}", foot + 34.0)) role="img" aria-label=(say::column(&shown(left.left))) {
                defs { pattern id=(wall) width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" { line class="s-quiet" x1="0" y1="0" x2="0" y2="8" stroke-width="1.6" {} } }
                rect x="2" y=(y(left.shop_limit)) width=(BAR) height=(TOP + HIGH - y(left.shop_limit)) fill=(format!("url(#{wall})")) {}
                rect class="f-fill" x="2" y=(y(left.now)) width=(BAR) height=((y(left.shop_limit) - y(left.now)).max(0.0)) {}
                rect class="s-quiet" x="2" y=(TOP) width=(BAR) height=(HIGH) stroke-width="1.4" stroke-dasharray="4 4" {}
                @for ((size, text), line) in marks.iter().zip(&lines) {
                    polyline class="s-ink" points=(format!("2,{at} {bar},{at} {end},{line}", at = y(*size), bar = BAR + 6.0, end = BAR + 14.0)) stroke-width="2" {}
                    text x=(BAR + 20.0) y=(line + 5.0) font-size="16" { (text) }
                }
                text class="quiet" x="2" y=(foot + 26.0) font-size="15" { (say::HATCHED) }
            }
        }
    }
}

/// Where the words of each mark stand: beside it, or below the words before it where those would be in the way.
pub fn lines(marks: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut lines: Vec<f64> = Vec::new();
    for mark in marks {
        let free = lines.last().map_or(mark, |last| last + LINE);
        lines.push(mark.max(free));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_marks_that_nearly_meet_stand_apart() {
        assert_eq!(lines([20.0, 22.0, 23.0].into_iter()), [20.0, 41.0, 62.0]);
        assert_eq!(lines([20.0, 90.0, 250.0].into_iter()), [20.0, 90.0, 250.0]);
    }
}
