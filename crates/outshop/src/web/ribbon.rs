//! The days ahead of one engine as a ribbon: solid while nothing stops her, hatched where the log is not
//! closed or a fact is missing, ending at the day something stops her.

use jiff::civil::Date;
use maud::{Markup, html};
use shop::report::Ahead;

use crate::words::{self, ahead as say};

/// How a ribbon is laid out.
#[derive(Debug, Clone, Copy)]
struct Cut {
    width: f64,
    days: i64,
    /// A line is drawn each so many days.
    line: i64,
    /// A date is written each so many days: as often as there is room for the longest one.
    date: i64,
}

const WIDE: Cut = Cut {
    width: 900.0,
    days: 28,
    line: 7,
    date: 7,
};
const NARROW: Cut = Cut {
    width: 360.0,
    days: 16,
    line: 4,
    date: 8,
};

/// The ribbon, once for a desk and once for a phone; the style sheet shows the one that fits.
pub fn draw(number: &str, ahead: &Ahead, on: Date) -> Markup {
    html! {
        div class="ribbon wide" { (cut(number, ahead, on, WIDE, "wide")) }
        div class="ribbon narrow" { (cut(number, ahead, on, NARROW, "narrow")) }
    }
}

fn cut(number: &str, ahead: &Ahead, on: Date, cut: Cut, kind: &str) -> Markup {
    let step = (cut.width - 16.0) / cut.days as f64;
    let at = |day: Date| {
        let days = on.until(day).map(|span| span.get_days()).unwrap_or(0);
        8.0 + f64::from(days).clamp(0.0, cut.days as f64) * step
    };
    let end = rules::days_after(on, cut.days).unwrap_or(on);
    let stop = ahead.stopped_from.as_ref().filter(|(day, _)| *day <= end);
    let runs_to = stop.map_or(end, |(day, _)| *day);
    let hatch = format!("hatch-{number}-{kind}");
    let fill = if ahead.unsure {
        format!("url(#{hatch})")
    } else {
        String::new()
    };
    let marks = (0..=cut.days).step_by(usize::try_from(cut.line).unwrap_or(7));
    html! {
        svg viewBox=(format!("0 0 {} 88", cut.width)) role="img" aria-label=(say::ribbon(number, ahead.unsure, stop)) {
            defs {
                pattern id=(hatch) width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
                    line class="s-quiet" x1="0" y1="0" x2="0" y2="7" stroke-width="1.8" {}
                }
            }
            @for offset in marks {
                @let day = rules::days_after(on, offset).unwrap_or(on);
                @let x = at(day);
                @let last = offset + cut.line > cut.days;
                line class="s-rule" x1=(x) y1="22" x2=(x) y2="60" stroke-width="1" {}
                @if offset % cut.date == 0 {
                    text class="quiet" x=(if last { x } else { x + 3.0 }) y="15" font-size="15" text-anchor=(if last { "end" } else { "start" }) {
                        (words::short_day(day))
                    }
                }
            }
            @if runs_to > on {
                @if ahead.unsure {
                    rect x=(at(on)) y="35" width=(at(runs_to) - at(on)) height="12" fill=(fill) {}
                    rect class="s-quiet" x=(at(on)) y="35" width=(at(runs_to) - at(on)) height="12" stroke-width="1" {}
                } @else {
                    rect class="f-fill" x=(at(on)) y="35" width=(at(runs_to) - at(on)) height="12" {}
                }
            }
            @if runs_to < end {
                line class="s-rule" x1=(at(runs_to)) y1="41" x2=(at(end)) y2="41" stroke-width="2" stroke-dasharray="2 6" {}
            }
            @for run in ahead.runs.iter().filter(|run| run.day < end) {
                @let x = at(run.day) + step / 2.0;
                @let held = !run.in_the_way.is_empty();
                circle class=(if held { "s-need f-paper" } else { "s-ink f-paper" }) cx=(x) cy="41" r="8" stroke-width="2.4" {
                    title { (say::run(&run.what, run.day, &run.in_the_way)) }
                }
                @if held { path class="s-need" d=(format!("M{} 46 L{} 36", x - 5.0, x + 5.0)) stroke-width="2.4" {} }
            }
            @if let Some((day, why)) = stop {
                @let x = at(*day);
                @let right = x > cut.width * 0.55;
                line class="s-ink" x1=(x) y1="26" x2=(x) y2="66" stroke-width="2.6" {}
                text x=(if right { x - 6.0 } else { x + 6.0 }) y="80" font-size="15" text-anchor=(if right { "end" } else { "start" }) { (why) }
            }
        }
    }
}
