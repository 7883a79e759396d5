//! A press chart, drawn for a page and for paper: tons against travel, with the window of the fit.

use maud::{Markup, html};
use measure::fraction::to_f64;
use shop::job::PressChart;

use crate::words::job::papers as say;

const WIDE: f64 = 380.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 366.0;
const TOP: f64 = 14.0;
const FOOT: f64 = 190.0;

/// The chart as a picture on a page.
pub fn draw(chart: &PressChart) -> Markup {
    html! { div class="ribbon figure" { (svg(chart, None)) } }
}

/// The chart by itself. On paper it brings its own style; on a page it wears the page's.
pub fn svg(chart: &PressChart, style: Option<&str>) -> Markup {
    let tons: Vec<f64> = chart.points.iter().map(|(_, tons)| to_f64(*tons)).collect();
    let travel: Vec<f64> = chart
        .points
        .iter()
        .map(|(at, _)| at.ticks() as f64)
        .collect();
    let window = chart
        .window
        .map(|(least, most)| (to_f64(least), to_f64(most)));
    let most = tons
        .iter()
        .copied()
        .chain(window.map(|(_, most)| most))
        .fold(0.0, f64::max)
        .max(1.0);
    let far = travel.iter().copied().fold(0.0, f64::max).max(1.0);
    let x = |at: f64| LEFT + at / far * (RIGHT - LEFT);
    let y = |tons: f64| FOOT - tons / most * (FOOT - TOP);
    let points: Vec<String> = travel
        .iter()
        .zip(&tons)
        .map(|(at, tons)| format!("{:.1},{:.1}", x(*at), y(*tons)))
        .collect();
    html! {
            svg xmlns="http://www.w3.org/2000/svg" viewBox=(format!("0 0 {WIDE} 230")) role="img" aria-label=(say::chart(points.len())) {
                @if let Some(style) = style { style { (style) } }
                @if let Some((least, most)) = window {
                    rect class="s-quiet" x=(LEFT) width=(RIGHT - LEFT) y=(y(most)) height=((y(least) - y(most)).max(0.0)) stroke-width="1.2" stroke-dasharray="5 4" {}
                }
                line class="s-ink" x1=(LEFT) x2=(RIGHT) y1=(FOOT) y2=(FOOT) stroke-width="1.4" {}
                line class="s-ink" x1=(LEFT) x2=(LEFT) y1=(TOP) y2=(FOOT) stroke-width="1.4" {}
                polyline class="s-ink" points=(points.join(" ")) stroke-width="2" {}
                @for point in travel.iter().zip(&tons) { circle class="dot" cx=(format!("{:.1}", x(*point.0))) cy=(format!("{:.1}", y(*point.1))) r="4.5" stroke-width="2" {} }
                text x="2" y=(TOP + 12.0) font-size="16" { (format!("{most:.0}")) }
                text x="2" y=(FOOT) font-size="16" { (say::TONS) }
                text x=(RIGHT) y="214" font-size="16" text-anchor="end" { (say::TRAVEL) }
            }
    }
}
