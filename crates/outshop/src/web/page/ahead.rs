//! The first page: which engine nothing stops on which promised day, and what stands between each one and steam.

use maud::{Markup, html};
use shop::book::{FindingState, Locomotive, LocomotiveId};
use shop::locomotive::engines;
use shop::report::{Ahead, Stop, ahead};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::ribbon;
use crate::words::{self, ahead as say, tag};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let mut all = Vec::new();
    for (id, kept) in engines(view.book) {
        all.push((id, kept, ahead(view.book, view.rules, id, view.on)?));
    }
    let body = html! {
        h1 { (headline(&all)) }
        p class="lead" { (say::today(view.on)) " " (logs(&all)) }
        @for (id, kept, ahead) in &all { (engine(view, *id, kept, ahead)) }
        @if all.is_empty() { p { (say::NO_ENGINE) } p { a class="need" href="/first-hour" { (words::first::TITLE) } } }
        (super::spare::short(view))
        (copies(view)?)
    };
    Ok(Drawn::new("/", words::page::AHEAD, body))
}

/// That the book wants copying, if it does; a demonstration holds nothing to lose.
fn copies(view: &View<'_>) -> Result<Markup, Failure> {
    let demonstration = view
        .book
        .shop
        .as_ref()
        .is_some_and(|s| s.demonstration.is_some());
    let wanting = if demonstration {
        None
    } else {
        view.desk.backed()?.wanting()
    };
    Ok(html! {
        @if let Some(wanting) = wanting {
            p { a class="need" href="/copies" { (wanting) } }
        }
        p class="small" {
            a href="/copies" { (words::backup::COPIES) } " · " a href="/people" { (words::people::TITLE) } " · "
            a href="/instruments" { (words::instrument::TITLE) } " · " a href="/tooling" { (words::tool::TITLE) } " · "
            a href="/spares" { (words::spare::TITLE) } " · " a href="/lathes" { (words::lathe::TITLE) } " · " a href="/letters" { (words::letter::TITLE) } " · " a href="/shop" { (words::particular::TITLE) } " · "
            a href="/first-hour" { (words::first::TITLE) }
        }
    })
}

type Told<'b> = (LocomotiveId, &'b Locomotive, Ahead);

/// The next promised day, and how many engines nothing stops.
fn headline(all: &[Told<'_>]) -> String {
    let next = all
        .iter()
        .flat_map(|(.., ahead)| ahead.runs.iter().map(|run| run.day))
        .min();
    let on_it = |(.., ahead): &&Told<'_>| ahead.runs.iter().any(|run| Some(run.day) == next);
    let clear = |(.., ahead): &&Told<'_>| {
        let mut runs = ahead.runs.iter();
        runs.any(|run| Some(run.day) == next && run.in_the_way.is_empty())
    };
    say::headline(
        next,
        all.iter().filter(on_it).count(),
        all.iter().filter(clear).count(),
    )
}

fn logs(all: &[Told<'_>]) -> String {
    let closed: Vec<_> = all
        .iter()
        .map(|(_, kept, _)| (kept.number.as_str(), kept.log_through))
        .collect();
    say::logs(&closed)
}

fn engine(view: &View<'_>, id: LocomotiveId, kept: &Locomotive, ahead: &Ahead) -> Markup {
    let path = format!("/engine/{}", kept.number);
    html! {
        section class="ruled engine" {
            div {
                h2 { a href=(path) { (words::engine(&kept.number)) } }
                p class="kind" { (kept.wheels) ", " (words::page::gauge(kept.gauge, view.house)) }
                p class="small" { a href=(format!("/day/{}", kept.number)) { (words::day::HER_DAY) } }
                p class="small" { a href=(format!("/ahead/{}", kept.number)) { (say::LOOK_AHEAD) } }
            }
            (ribbon::draw(&kept.number, ahead, view.on))
            ol class="between" {
                @for stop in &ahead.stops { li { (between(view, stop)) } }
                @if ahead.stops.is_empty() {
                    li { (say::clear(&kept.number, &ahead.release, view.on)) }
                    @if let Some((day, why)) = &ahead.stopped_from {
                        li { (say::first(why, *day)) " " a href=(path) { (say::EVERY_CLOCK) } }
                    }
                }
                @for (number, what) in waiting(view, id) {
                    li { a class="need" href=(format!("/job/{}", tag::job(number))) { (what) } }
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
            .any(|f| what.ends_with(&tag::finding(f.number)) && f.state == FindingState::Open)
    });
    match to {
        Some(to) => {
            html! { a class=(if open { "need" } else { "" }) href=(to) { (kit::sentence(&stop.why)) } }
        }
        None => html! { (kit::sentence(&stop.why)) },
    }
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
                    say::waits(
                        &tag::job(job.number),
                        kit::name(view.book, *doer),
                        &hold.look,
                    )
                })
            });
        waiting.extend(held.map(|what| (job.number, what)));
    }
    waiting.sort();
    waiting
}
