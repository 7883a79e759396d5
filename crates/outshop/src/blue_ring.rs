//! A ring of blue, drawn for a page and for paper.

use maud::{Markup, html};
use measure::math;
use shop::book::Touch;

/// The space of names that a picture which leaves the page must say.
const SVG: &str = "http://www.w3.org/2000/svg";

/// Half the width of the picture, and the radius of the ring in it.
const HALF: f64 = 60.0;
const RADIUS: f64 = 44.0;

/// A face seen from above, the front at the top: a thin circle for the land, a broad stroke where it touches. On paper it
/// brings its own style; on a page it wears the page's.
pub fn ring(touches: &[Touch], told: &str, style: Option<&str>) -> Markup {
    let whole = |touch: &Touch| touch.from == 0 && touch.to == 360;
    let from = -HALF;
    let wide = 2.0 * HALF;
    html! {
        svg xmlns=(SVG) class="ring" role="img" aria-label=(told) viewBox=(format!("{from} {from} {wide} {wide}")) width="120" height="120" {
            @if let Some(style) = style { style { (style) } }
            circle class="land" cx="0" cy="0" r=(RADIUS) {}
            @for touch in touches {
                @if whole(touch) { circle class="touch" cx="0" cy="0" r=(RADIUS) {} } @else { path class="touch" d=(arc(*touch)) {} }
            }
            path class="front" d="M0 -58V-50" {}
        }
    }
}

fn arc(touch: Touch) -> String {
    let (from, to) = (f64::from(touch.from), f64::from(touch.to));
    let swept = if to > from {
        to - from
    } else {
        to + 360.0 - from
    };
    let at = |degrees: f64| {
        let (x, y) = (
            RADIUS * math::sin_deg(degrees),
            -RADIUS * math::cos_deg(degrees),
        );
        format!("{x:.2} {y:.2}")
    };
    let large = u8::from(swept > 180.0);
    format!("M{}A{RADIUS} {RADIUS} 0 {large} 1 {}", at(from), at(to))
}
