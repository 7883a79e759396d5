//! A size through its life as a picture: the column of what is left, every as left and as found, and where its rate leads.
//!
//! Nothing is reckoned here but places on paper: the lines ahead end where the sheet says that a limit is reached.

use jiff::civil::Date;
use maud::{Markup, html};
use measure::{House, Size, show};
use shop::route::{Forecast, quantity};

use super::column::lines;
use crate::words::wear as say;

const WIDE: f64 = 380.0;
const BAR: f64 = 34.0;
const TOP: f64 = 16.0;
const HIGH: f64 = 240.0;
/// Where the years begin and end, and where the service days ahead end.
const YEARS: (f64, f64) = (48.0, 150.0);
const AHEAD: f64 = 214.0;
const WORDS: f64 = 228.0;

/// The picture of one size. `built` is what it was new, `steps` the sizes it may be cut to next.
pub fn draw(it: &Forecast, built: Option<Size>, steps: &[Size], house: House) -> Markup {
    let limits = [it.rule_limit.as_ref().map(|(size, _)| *size), it.shop_limit];
    let read = it.openings.iter().flat_map(|opening| {
        let left = opening.left.map(|(_, size)| size);
        left.into_iter().chain([opening.found.1])
    });
    let now = it.now.2;
    let every: Vec<Size> = read
        .chain(limits.into_iter().flatten())
        .chain(built)
        .chain([now])
        .collect();
    let (Some(least), Some(most)) = (every.iter().min(), every.iter().max()) else {
        return html! {};
    };
    let span = (most.ticks() - least.ticks()).max(1) as f64;
    let y = |size: Size| TOP + 12.0 + (most.ticks() - size.ticks()) as f64 / span * (HIGH - 24.0);
    // What is left ends at the limit met first.
    let first = match it.larger {
        true => limits.into_iter().flatten().min(),
        false => limits.into_iter().flatten().max(),
    };
    let shown = |size: Size| {
        show::length(
            size.length(),
            house,
            decimals(house),
            show::Rounding::Nearest,
        )
    };
    let mut marks: Vec<(Size, String)> = Vec::new();
    let named = [
        (built, say::mark::BUILT),
        (Some(now), say::mark::NOW),
        (it.shop_limit, say::mark::SHOP),
        (limits[0], say::mark::LAW),
    ];
    for (size, word) in named {
        marks.extend(size.map(|size| (size, say::mark(word, &shown(size)))));
    }
    marks.sort_by_key(|(size, _)| std::cmp::Reverse(*size));
    let placed = lines(marks.iter().map(|(size, _)| y(*size)));
    let foot = placed
        .last()
        .map_or(TOP + HIGH, |last| last.max(TOP + HIGH));
    let days: Vec<Date> = it
        .openings
        .iter()
        .flat_map(|opening| {
            opening
                .left
                .map(|(day, _)| day)
                .into_iter()
                .chain([opening.found.0])
        })
        .chain([it.now.0])
        .collect();
    let (Some(from), Some(to)) = (days.iter().min(), days.iter().max()) else {
        return html! {};
    };
    let length = |from: Date, to: Date| from.until(to).map_or(0, |span| span.get_days());
    let whole = f64::from(length(*from, *to).max(1));
    let x = |day: Date| YEARS.0 + f64::from(length(*from, day)) / whole * (YEARS.1 - YEARS.0);
    let at = |(day, size): (Date, Size)| format!("{:.1},{:.1}", x(day), y(size));
    let (law, ours) = ("rule_limit", "shop_limit");
    let toward = limits[0]
        .map(|size| (size, law))
        .or(it.shop_limit.map(|size| (size, ours)));
    let lead = toward.and_then(|(size, name)| {
        let days =
            |what: &str| quantity(&it.sheet, &format!("{what}_{name}")).filter(|days| *days > 0.0);
        Some((size, days("days_to")?, days("soonest")))
    });
    let wall = format!("spent-{}", it.name).replace(|c: char| !c.is_ascii_alphanumeric(), "-");
    let wedge = format!("{wall}-ahead");
    html! {
        div class="ribbon figure" {
            svg viewBox=(format!("0 0 {WIDE} {}", foot + 56.0)) role="img" aria-label=(say::picture(&it.title, &shown(now))) {
                defs {
                    @for id in [&wall, &wedge] { pattern id=(id) width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" { line class="s-quiet" x1="0" y1="0" x2="0" y2="8" stroke-width="1.6" {} } }
                }
                @if let Some(limit) = first {
                    @let (over, under) = if it.larger { (TOP, y(limit)) } else { (y(limit), TOP + HIGH) };
                    rect x="2" y=(over) width=(BAR) height=((under - over).max(0.0)) fill=(format!("url(#{wall})")) {}
                    @let (top, end) = if it.larger { (y(limit), y(now)) } else { (y(now), y(limit)) };
                    rect class="f-fill" x="2" y=(top) width=(BAR) height=((end - top).max(0.0)) {}
                }
                rect class="s-quiet" x="2" y=(TOP) width=(BAR) height=(HIGH) stroke-width="1.4" stroke-dasharray="4 4" {}
                @for step in steps { line class="s-paper" x1="2" x2=(BAR + 2.0) y1=(y(*step)) y2=(y(*step)) stroke-width="1.6" {} }
                @for limit in limits.into_iter().flatten() { line class=(if Some(limit) == limits[0] { "s-ink" } else { "s-quiet" }) x1="2" x2=(AHEAD) y1=(y(limit)) y2=(y(limit)) stroke-width=(if Some(limit) == limits[0] { "2.2" } else { "1.2" }) {} }
                @for opening in &it.openings {
                    @if let Some(left) = opening.left { polyline class="s-ink" points=(format!("{} {}", at(left), at(opening.found))) stroke-width="2" {} }
                }
                @if let Some((limit, days, soonest)) = &lead {
                    @let start = at((it.now.0, now));
                    @let end = |days: f64, of: f64| YEARS.1 + (AHEAD - YEARS.1) * (days / of).min(1.0);
                    @if let Some(soon) = soonest {
                        polygon points=(format!("{start} {:.1},{l:.1} {:.1},{l:.1}", end(*soon, *days), end(*days, *days), l = y(*limit))) fill=(format!("url(#{wedge})")) {}
                    }
                    polyline class="s-ink" points=(format!("{start} {:.1},{:.1}", end(*days, *days), y(*limit))) stroke-width="1.6" stroke-dasharray="6 5" {}
                }
                @for opening in &it.openings {
                    @for point in opening.left.into_iter().chain([opening.found]) { circle class="dot" cx=(format!("{:.1}", x(point.0))) cy=(format!("{:.1}", y(point.1))) r="4.5" stroke-width="2" {} }
                }
                circle class="dot" cx=(format!("{:.1}", x(it.now.0))) cy=(format!("{:.1}", y(now))) r="4.5" stroke-width="2" {}
                @for ((size, text), line) in marks.iter().zip(&placed) {
                    polyline class="s-quiet" points=(format!("{AHEAD},{at:.1} {},{line:.1}", WORDS - 5.0, at = y(*size))) stroke-width="1" {}
                    text x=(WORDS) y=(line + 5.0) font-size="16" { (text) }
                }
                line class="s-quiet" x1=(YEARS.0) x2=(AHEAD) y1=(foot + 4.0) y2=(foot + 4.0) stroke-width="1" {}
                text class="quiet" x=(YEARS.0 - 6.0) y=(foot + 24.0) font-size="16" { (from.year()) }
                @if to.year() > from.year() + 2 { text class="quiet" x=(YEARS.1) y=(foot + 24.0) font-size="16" text-anchor="end" { (to.year()) } }
                @if let Some((_, days, _)) = &lead { text class="quiet" x=(YEARS.1 + 14.0) y=(foot + 24.0) font-size="16" { (say::days_on(*days)) } }
                text class="quiet" x="2" y=(foot + 48.0) font-size="16" { (say::LEGEND) }
            }
        }
    }
}

/// As fine as the marks need: the tenth of a thousandth of an inch, or the hundredth of a millimetre.
fn decimals(house: House) -> u32 {
    match house {
        House::Inch => 4,
        House::Metric => 2,
    }
}
