//! The first page: which engine nothing stops on which promised day, and what stands between each one and steam.

use maud::{Markup, html};
use shop::book::{FindingState, Locomotive, LocomotiveId};
use shop::locomotive::engines;
use shop::report::{Ahead, Release, Stop, ahead};

use super::{Drawn, View, kit};
use crate::web::ribbon;
use crate::{Failure, words};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let mut all = Vec::new();
    for (id, kept) in engines(view.book) {
        all.push((id, kept, ahead(view.book, view.rules, id, view.on)?));
    }
    let body = html! {
        h1 { (headline(&all)) }
        p class="lead" { "The book's today is " (words::day(view.on)) ". " (logs(&all)) }
        @for (id, kept, ahead) in &all { (engine(view, *id, kept, ahead)) }
        @if all.is_empty() { p { "There is no engine in this book yet." } }
    };
    Ok(Drawn::new("/", words::page::AHEAD, body))
}

type Told<'b> = (LocomotiveId, &'b Locomotive, Ahead);

/// The next promised day, and how many engines nothing stops.
fn headline(all: &[Told<'_>]) -> String {
    let next = all
        .iter()
        .flat_map(|(.., ahead)| ahead.runs.iter().map(|run| run.day))
        .min();
    let Some(day) = next else {
        return "No run is promised.".into();
    };
    let promised: Vec<_> = all
        .iter()
        .filter(|(.., ahead)| ahead.runs.iter().any(|run| run.day == day))
        .collect();
    let clear = promised
        .iter()
        .filter(|(.., ahead)| {
            ahead
                .runs
                .iter()
                .any(|run| run.day == day && run.in_the_way.is_empty())
        })
        .count();
    let name = day.strftime("%A, %-d %B").to_string();
    match (promised.len(), clear) {
        (1, 1) => format!("{name}: nothing in this book stops the engine promised."),
        (1, _) => format!("{name}: something stops the engine promised."),
        (n, 0) => format!("{name}: something stops each of the {n} engines promised."),
        (n, c) if n == c => format!("{name}: nothing in this book stops the {n} engines promised."),
        (n, c) => format!("{name}: of {n} engines promised, nothing in this book stops {c}."),
    }
}

fn logs(all: &[Told<'_>]) -> String {
    let told: Vec<_> = all
        .iter()
        .map(|(_, kept, _)| match kept.log_through {
            Some(through) => format!(
                "No. {}: log closed through {}",
                kept.number,
                words::day(through)
            ),
            None => format!("No. {}: log never closed", kept.number),
        })
        .collect();
    if told.is_empty() {
        String::new()
    } else {
        format!("{}.", told.join("; "))
    }
}

fn engine(view: &View<'_>, id: LocomotiveId, kept: &Locomotive, ahead: &Ahead) -> Markup {
    let path = format!("/engine/{}", kept.number);
    html! {
        section class="ruled engine" {
            div {
                h2 { a href=(path) { "No. " (kept.number) } }
                p class="kind" { (kept.wheels) ", " (kit::gauge(kept.gauge, view.house)) }
            }
            (ribbon::draw(&kept.number, ahead, view.on))
            ol class="between" {
                @for stop in &ahead.stops { li { (between(view, stop)) } }
                @if ahead.stops.is_empty() {
                    li { (clear(kept, ahead, view)) }
                    @if let Some((day, why)) = &ahead.stopped_from {
                        li { (sentence(why)) ", before " b { (words::day(*day)) } ". " a href=(path) { "Every clock" } }
                    }
                }
                @for (number, what) in waiting(view, id) {
                    li { a class="need" href=(format!("/job/J-{number:03}")) { (what) } }
                }
            }
        }
    }
}

/// What stands in the way, as a link to where it is put right.
fn between(view: &View<'_>, stop: &Stop) -> Markup {
    let to = stop
        .what
        .as_deref()
        .and_then(|what| what.split_once(' '))
        .map(|(kind, number)| format!("/{kind}/{number}"));
    let open = stop.what.as_deref().is_some_and(|what| {
        view.book
            .findings
            .values()
            .any(|f| what.ends_with(&format!("F-{:03}", f.number)) && f.state == FindingState::Open)
    });
    match to {
        Some(to) => {
            html! { a class=(if open { "need" } else { "" }) href=(to) { (sentence(&stop.why)) } }
        }
        None => html! { (sentence(&stop.why)) },
    }
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

fn clear(kept: &Locomotive, ahead: &Ahead, view: &View<'_>) -> String {
    let how = match &ahead.release {
        Release::Stands {
            by,
            on,
            log_through,
        } => {
            format!(
                "released {} by {by}; log closed through {}",
                words::day(*on),
                words::day(*log_through)
            )
        }
        Release::None(why) => format!("but {why}"),
    };
    format!(
        "Nothing in this book stops No. {} on {} ({how}).",
        kept.number,
        words::day(view.on)
    )
}

/// Jobs of an engine that wait at a hold point.
fn waiting(view: &View<'_>, id: LocomotiveId) -> Vec<(u32, String)> {
    let mut waiting = Vec::new();
    for job in view
        .book
        .jobs
        .values()
        .filter(|j| j.locomotive == id && j.closed.is_none())
    {
        let held = job
            .plan
            .operations
            .iter()
            .zip(&job.operations)
            .find_map(|(plan, state)| {
                let hold = plan.hold.as_ref()?;
                let (_, doer, ..) = state.done.as_ref()?;
                state.cleared.is_none().then(|| {
                    format!(
                        "J-{:03} waits for somebody other than {} to look: {}",
                        job.number,
                        kit::name(view.book, *doer),
                        hold.look
                    )
                })
            });
        waiting.extend(held.map(|what| (job.number, what)));
    }
    waiting.sort();
    waiting
}
