//! Every open thing of an engine on one page, before each fire: oldest first, how often each was carried, and what
//! stands together because it is reached together.

use maud::{Markup, html};
use shop::book::{Finding, FindingState};
use shop::locomotive::engine;
use shop::report::{Open, Thing, open_things};

use super::{Drawn, View};
use crate::Failure;
use crate::words::{self, apart as say, tag};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let groups = open_things(view.book, id);
    let all = || groups.iter().flat_map(|group| &group.open);
    let carried = all().filter(|open| open.thing.is_carried()).count();
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" { (say::lead(all().count(), carried)) }
        p class="quiet small" { (say::MEANS) }
        @if groups.is_empty() { p { (say::NOTHING) } }
        @for group in &groups {
            section class="ruled" {
                h2 { @if group.apart.is_empty() { (say::NOT_SAID) } @else { (say::off(&group.apart)) } }
                @if group.apart.is_empty() { p class="quiet small" { (say::SAY_IT) } }
                ul class="plain" { @for open in &group.open { li { (one(view, &kept.number, open)) } } }
            }
        }
        p { a href=(format!("/day/{}", kept.number)) { (words::day::HER_DAY) } " · " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
    };
    Ok(Drawn::new("/work", title, body))
}

/// The job of a finding that is in work.
fn job_of(view: &View<'_>, number: u32) -> Option<String> {
    let mut findings = view.book.findings.values();
    let found = findings.find(|it| it.number == number)?;
    let job = view.book.jobs.get(&found.job?)?;
    Some(tag::job(job.number))
}

fn one(view: &View<'_>, engine: &str, open: &Open) -> Markup {
    let place = html! {
        @match open.thing {
            Thing::Finding { .. } => a href=(format!("/engine/{engine}/part/{}", super::kit::encode(&open.place))) { (open.place) },
            Thing::WriteUp { .. } => (open.place),
        }
    };
    let head = |path: String, tag: &str, need: bool| {
        html! { a class=(if need { "need" } else { "" }) href=(path) { (tag) } ", " (place) ": " (open.told) " " span class="quiet small" { (say::since(open.since)) } }
    };
    match &open.thing {
        Thing::WriteUp { number } => {
            let tag = tag::write_up(*number);
            html! { (head(format!("/write-up/{tag}"), &tag, true)) br; (words::paper::NOT_LOOKED_AT) }
        }
        Thing::Finding {
            number,
            state,
            recheck,
            ..
        } => {
            let tag = tag::finding(*number);
            let past = recheck.filter(|day| *day < view.on);
            let need = *state == FindingState::Open || past.is_some();
            let stands = say::carried(&open.thing).map(|said| words::sentence(&said));
            html! {
                (head(format!("/finding/{tag}"), &tag, need)) br;
                (stands.as_deref().unwrap_or(words::finding::state(*state)))
                @if let Some(job) = job_of(view, *number) { " " a href=(format!("/job/{job}")) { (job) } }
                @if let Some(day) = past { " " b { (say::past(day)) } }
            }
        }
    }
}

/// What else is open where something must come off for this finding anyway; nothing where nothing is, or where nobody
/// stated the way to it.
pub fn beside(view: &View<'_>, kept: &Finding) -> Markup {
    let is_it =
        |open: &Open| matches!(open.thing, Thing::Finding { number, .. } if number == kept.number);
    let groups = open_things(view.book, kept.locomotive);
    let group = groups
        .iter()
        .find(|group| !group.apart.is_empty() && group.open.iter().any(is_it));
    let others = group.map_or(&[][..], |group| &group.open[..]);
    let others: Vec<&Open> = others.iter().filter(|open| !is_it(open)).collect();
    let her = super::kit::number(view.book, kept.locomotive);
    html! {
        @if let (Some(group), false) = (group, others.is_empty()) {
            section class="ruled" {
                h2 { (say::BESIDE) }
                p class="quiet small" { (say::off(&group.apart)) ". " a href=(format!("/engine/{her}/open")) { (say::LINK) } }
                ul class="plain" { @for open in others { li { (one(view, her, open)) } } }
            }
        }
    }
}
