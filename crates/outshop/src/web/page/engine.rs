//! An engine: a plain side view touched by place, her clocks, what is open, her parts, her log.

use maud::{Markup, html};
use shop::book::{Authority, Locomotive, LocomotiveId};
use shop::clock::{Clock, State, days_of_fire};
use shop::locomotive::engine;
use shop::report::{Ahead, Release, ahead};

use super::{Drawn, View, kit};
use crate::web::ribbon;
use crate::{Failure, words};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let ahead = ahead(view.book, view.rules, id, view.on)?;
    let title = format!("No. {}", kept.number);
    let body = html! {
        h1 { (title) ", " (kept.wheels) }
        p class="lead" { (kit::gauge(kept.gauge, view.house)) "; rules " (kept.jurisdiction) "; "
            @match kept.mawp_psig { Some(psi) => { "allowed " (psi) " psi gauge by her card" } None => { "allowed pressure not on file" } } "." }
        (side_view(&kept.wheels))
        (ribbon::draw(&kept.number, &ahead, view.on))
        (stops(view, kept, &ahead))
        section class="ruled" { h2 { "Every clock, and why" } (clocks(&ahead.clocks)) }
        (parts(view, id, kept))
        (log(view, id, kept))
        (open_inspection(view, kept))
    };
    Ok(Drawn::new("/", title, body))
}

/// A plain side view with as many wheels as her arrangement has.
fn side_view(wheels: &str) -> Markup {
    let counts: Vec<u32> = wheels.split('-').filter_map(|n| n.parse().ok()).collect();
    let axles: Vec<u32> = counts.iter().map(|n| n / 2).collect();
    let (lead, drive, trail) = match axles.as_slice() {
        [lead, drive, trail] => (*lead, *drive, *trail),
        [lead, drive] => (*lead, *drive, 0),
        _ => return html! {},
    };
    let spread = 104.0;
    let start = 330.0 - f64::from(drive.saturating_sub(1)) * spread / 2.0;
    let rail = 196.0;
    let driver = 44.0;
    html! {
        div class="ribbon" {
            svg viewBox="0 0 760 214" role="img" aria-label=(format!("Side view of a {wheels}, smokebox to the left")) {
                line class="s-rule" x1="0" y1=(rail) x2="760" y2=(rail) stroke-width="2" {}
                g class="s-ink" stroke-width="2.2" stroke-linejoin="round" {
                    path d="M84 62 H180 V142 H84 Z" {}
                    path d="M100 62 V34 H124 V62" {}
                    path d="M180 66 H470 L480 60 V148 H180 Z" {}
                    path d="M246 66 V50 Q262 40 278 50 V66" {}
                    path d="M372 66 V52 Q386 44 400 52 V66" {}
                    path d="M480 40 H572 V160 H480 Z M470 34 H582" {}
                    path d="M500 54 H548 V92 H500 Z" {}
                    path d="M92 142 H196 V174 H92 Z" {}
                    path d="M600 84 H744 V166 H600 Z M600 166 H752" {}
                    path d="M572 172 H600" {}
                }
                g class="s-ink f-paper" stroke-width="2.4" {
                    @for n in 0..lead { circle cx=(132.0 + f64::from(n) * 46.0 - f64::from(lead.saturating_sub(1)) * 23.0) cy=(rail - 19.0) r="19" {} }
                    @for n in 0..drive { circle cx=(start + f64::from(n) * spread) cy=(rail - driver) r=(driver) {} }
                    @for n in 0..trail { circle cx=(524.0 + f64::from(n) * 46.0) cy=(rail - 22.0) r="22" {} }
                    @for n in 0..4 { circle cx=(618.0 + f64::from(n) * 38.0) cy=(rail - 16.0) r="16" {} }
                }
                @if drive > 0 {
                    @let last = start + f64::from(drive - 1) * spread;
                    line class="s-ink" x1=(start) y1=(rail - driver + 16.0) x2=(last) y2=(rail - driver + 16.0) stroke-width="5" {}
                    @for n in 0..drive { circle class="s-ink f-paper" cx=(start + f64::from(n) * spread) cy=(rail - driver + 16.0) r="5" stroke-width="2" {} }
                }
                g class="quiet" font-size="14" text-anchor="middle" {
                    text class="quiet" x="132" y="106" { "smokebox" }
                    text class="quiet" x="318" y="90" { "barrel" }
                    text class="quiet" x="440" y="90" { "firebox" }
                    text class="quiet" x="526" y="128" { "cab" }
                    text class="quiet" x="672" y="130" { "tender" }
                    text class="quiet" x="84" y="164" text-anchor="end" { "cylinder" }
                }
            }
        }
    }
}

fn stops(view: &View<'_>, kept: &Locomotive, ahead: &Ahead) -> Markup {
    let officer = view
        .book
        .persons
        .get(&view.reader.id)
        .is_some_and(|p| p.may.contains(&Authority::Approve));
    html! {
        section class="ruled" {
            @if ahead.stops.is_empty() {
                h2 { "Nothing in this book stops her" }
                @match &ahead.release {
                    Release::Stands { by, on, log_through } => p { "Released " (words::day(*on)) " by " (by) "; log closed through " (words::day(*log_through)) "." },
                    Release::None(why) => {
                        p { "But " (why) "." }
                        @if officer { (kit::form(view, "release", "Hand her to service", &kit::hidden("engine", &kept.number), "Sign the release")) }
                    }
                }
            } @else {
                h2 { "What stops her" }
                ol class="between" { @for stop in &ahead.stops { li {
                    @match stop.what.as_deref().and_then(|what| what.split_once(' ')) {
                        Some((kind, number)) => a href=(format!("/{kind}/{number}")) { (stop.why) },
                        None => (stop.why),
                    }
                } } }
            }
            @if !ahead.runs.is_empty() {
                h3 { "Promised" }
                ul class="plain" { @for run in &ahead.runs { li {
                    b { (words::day(run.day)) } " " (run.what) ": "
                    @if run.in_the_way.is_empty() { "nothing in this book stops her" } @else { span class="need" { (run.in_the_way.join("; ")) } }
                } } }
            }
        }
    }
}

fn clocks(clocks: &[Clock]) -> Markup {
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { "Clock" } th { "State" } th class="num" { "Left" } th { "Why" } th { "Rule" } } }
            tbody { @for clock in clocks { tr {
                td data-label="Clock" { b { (clock.inspection) } }
                td data-label="State" { @match &clock.state {
                    State::Runs => span class="verdict complies" { "runs" },
                    State::Stops => span class="verdict fails" { "stops her" },
                    State::CannotTell(_) => span class="verdict unknown" { "cannot tell" },
                    State::EachDay => "each day",
                } }
                td class="num" data-label="Left" { (clock.left.map_or("-".to_string(), |left| left.to_string())) }
                td data-label="Why" { (clock.why) }
                td data-label="Rule" { a href=(format!("/rule/{}", clock.ruling.rule)) { (clock.ruling.cite.section) } }
            } } }
        } }
    }
}

fn parts(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let mut parts: Vec<_> = view
        .book
        .parts
        .values()
        .filter(|p| p.locomotive == id)
        .collect();
    parts.sort_by(|a, b| a.name.cmp(&b.name));
    html! {
        section class="ruled" {
            h2 { "Parts in the book" }
            ul class="plain" { @for part in &parts { li { a href=(kit::part_path(&kept.number, &part.name)) { (part.name) } " " span class="quiet small" { (part.family) } } } }
            @if parts.is_empty() { p { "None yet." } }
        }
    }
}

fn log(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let mut fires: Vec<_> = view
        .book
        .fires
        .values()
        .filter(|f| f.locomotive == id)
        .collect();
    fires.sort_by_key(|f| std::cmp::Reverse(f.lit.or(f.up)));
    let hour = |at: Option<jiff::civil::DateTime>| {
        at.map_or("not written".to_string(), |at| {
            at.strftime("%-d %b %Y %H:%M").to_string()
        })
    };
    const VERB: &str = "steam log";
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        div class="grid2" {
            div { (kit::line(view, VERB, "lit", "Fire lit", "such as 2026-05-02T06:30")) }
            div { (kit::line(view, VERB, "up", "Pressure up", "")) }
            div { (kit::line(view, VERB, "out", "Fire out", "")) }
            div { (kit::line(view, VERB, "gone", "Pressure gone", "")) }
        }
        (kit::line(view, VERB, "miles", "Miles", ""))
        p class="quiet small" { "What nobody wrote down is left blank, never guessed." }
    };
    let close = html! {
        (kit::hidden("engine", &kept.number))
        @if kept.log_through.is_none() { (kit::day(view, "steam close", "from", "From")) }
        (kit::day(view, "steam close", "through", "Through"))
    };
    html! {
        section class="ruled" {
            h2 { "Log" }
            p { @match (kept.log_from, kept.log_through) {
                (Some(from), Some(through)) => { "Closed from " (words::day(from)) " through " (words::day(through)) "." }
                _ => { "Never closed." }
            } }
            div class="table" { table class="stack" {
                thead { tr { th { "Fire lit" } th { "Pressure up" } th { "Fire out" } th { "Pressure gone" } th class="num" { "Service days" } } }
                tbody { @for fire in fires.iter().take(8) {
                    @let days = days_of_fire(fire, view.on);
                    tr {
                        td data-label="Fire lit" { (hour(fire.lit)) } td data-label="Pressure up" { (hour(fire.up)) } td data-label="Fire out" { (hour(fire.out)) } td data-label="Pressure gone" { (hour(fire.gone)) }
                        td class="num" data-label="Service days" { @if days.least.len() == days.most.len() { (days.least.len()) } @else { (days.least.len()) " to " (days.most.len()) } }
                    }
                } }
            } }
            details { summary { "Log a fire" } (kit::form(view, VERB, "Log a fire", &fields, "Log it")) }
            details { summary { "Close the log" } (kit::form(view, "steam close", "The log holds every fire through a day", &close, "Close it")) }
        }
    }
}

fn open_inspection(view: &View<'_>, kept: &Locomotive) -> Markup {
    let fields = html! {
        (kit::hidden("engine", &kept.number)) (kit::hidden("then", "inspection"))
        label for="open-kind" { "Kind" }
        select id="open-kind" name="kind" { @for (word, meaning) in rules::words::INSPECTIONS { option value=(word) { (word) ": " (meaning) } } }
    };
    html! { details { summary { "Open an inspection" } (kit::form(view, "inspect open", "Open an inspection", &fields, "Open it")) } }
}
