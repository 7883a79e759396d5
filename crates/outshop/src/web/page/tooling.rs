//! Tooling: all of it by number or by feature, and one tool with its checks, its shelf and its tag.

use maud::{Markup, html};
use shop::book::Tooling;
use shop::locomotive::{last_tool_check, tooling};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::tooling::{by_feature, by_number};
use crate::words::{self, instrument as checks, part as parts, tag, tool as say};

pub fn list(view: &View<'_>) -> Drawn {
    let all = by_number(view.book);
    let in_use: Vec<_> = all
        .iter()
        .copied()
        .filter(|kept| kept.out.is_none())
        .collect();
    let out: Vec<_> = all
        .iter()
        .copied()
        .filter(|kept| kept.out.is_some())
        .collect();
    let grouped = view.asked("by") == "feature";
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        @if all.is_empty() { p { (say::NONE) } } @else {
            p class="small" {
                @if grouped { a href="/tooling" { (say::BY_NUMBER) } " · " b aria-current="true" { (say::BY_FEATURE) } }
                @else { b aria-current="true" { (say::BY_NUMBER) } " · " a href="/tooling?by=feature" { (say::BY_FEATURE) } }
            }
        }
        @if grouped {
            @for (feature, tools) in by_feature(view.book) {
                section class="ruled" { h2 { (feature.unwrap_or(say::NO_FEATURE)) } (table(view, &tools)) }
            }
        } @else if !in_use.is_empty() { (table(view, &in_use)) }
        @if !out.is_empty() { section class="ruled" {
            h2 { (say::OUT) }
            ul class="plain" { @for kept in out { li {
                (link(kept)) " " (kept.what)
                @if let Some(out) = &kept.out { span class="quiet" { "; " (say::out(out, kit::name(view.book, out.by))) } }
            } } }
        } }
        (add(view))
    };
    Drawn::new("/work", say::TITLE, body)
}

fn link(kept: &Tooling) -> Markup {
    let number = tag::tool(kept.number);
    html! { a href=(format!("/tooling/{number}")) { b { (number) } } }
}

fn table(view: &View<'_>, tools: &[&Tooling]) -> Markup {
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (say::NUMBER) } th { (say::WHAT_COLUMN) } th { (say::SERVES) } th { (say::SHELF_COLUMN) } th { (say::CHECKED) } } }
            tbody { @for kept in tools { tr {
                td data-label=(say::NUMBER) { (link(kept)) }
                td data-label=(say::WHAT_COLUMN) { (kept.what) }
                td data-label=(say::SERVES) { (serves(view, kept)) @if !kept.features.is_empty() { " " span class="quiet" { (kept.features.join(", ")) } } }
                td data-label=(say::SHELF_COLUMN) { (kept.shelf) }
                td data-label=(say::CHECKED) { (checked(view, kept)) }
            } } }
        } }
    }
}

/// Its last check; one that found it wrong needs a person.
fn checked(view: &View<'_>, kept: &Tooling) -> Markup {
    let wrong = last_tool_check(kept, view.on).is_some_and(|check| !check.good);
    html! { span class=(if wrong { "need" } else { "" }) { (say::checked(kept, view.on)) } }
}

fn serves(view: &View<'_>, kept: &Tooling) -> Markup {
    let served = kept.serves().filter_map(|id| view.book.parts.get(&id));
    html! { @for (at, part) in served.enumerate() {
        @let number = kit::number(view.book, part.locomotive);
        @if at > 0 { ", " }
        a href=(kit::part_path(number, &part.name)) { (words::engine(number)) " " (part.name) }
    } }
}

fn add(view: &View<'_>) -> Markup {
    const VERB: &str = "tooling add";
    let fields = html! {
        (kit::hidden("then", "tooling"))
        (kit::line(view, VERB, "what", say::WHAT, say::WHAT_TELLS))
        div class="grid2" {
            div { (kit::line(view, VERB, "engine", say::ENGINE, "")) }
            div { (kit::line(view, VERB, "part", say::PART, say::PART_TELLS)) }
        }
        (kit::line(view, VERB, "features", say::FEATURE, say::FEATURE_TELLS))
        (kit::line(view, VERB, "drawing", say::DRAWING, ""))
        (kit::line(view, VERB, "shelf", say::SHELF, say::SHELF_TELLS))
        (kit::line(view, VERB, "job", say::JOB, ""))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::ADD) } (kit::form(view, VERB, say::ADD, &fields, say::ADD_IT)) } }
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = tooling(view.book, number)?;
    let number = tag::tool(kept.number);
    let body = html! {
        h1 { (number) }
        p class="lead" { (kept.what) }
        @if let Some(out) = &kept.out { p class="need" { (words::sentence(&say::out(out, kit::name(view.book, out.by)))) } }
        @if last_tool_check(kept, view.on).is_some_and(|check| !check.good) { p class="need" { (words::sentence(&say::checked(kept, view.on))) } }
        dl class="facts" {
            dt { (say::SHELF_COLUMN) } dd { (kept.shelf) }
            dt { (say::SERVES) } dd { (serves(view, kept)) }
            dt { (say::FEATURES) } dd { @if kept.features.is_empty() { span class="quiet" { (say::NO_FEATURE) } } @else { (kept.features.join(", ")) } }
            @if let Some(drawing) = &kept.drawing { dt { (say::DRAWING) } dd { (drawing) } }
            @if let Some(job) = kept.job.and_then(|id| view.book.jobs.get(&id)) {
                @let job = tag::job(job.number);
                dt { (say::MADE_FOR) } dd { a href=(format!("/job/{job}")) { (job) } }
            }
        }
        p { a href=(format!("/print/tool-tag/{number}")) { (say::PRINT_TAG) } }
        section class="ruled" {
            h2 { (checks::CHECKS) }
            @if kept.checks.is_empty() { p { (words::sentence(checks::NEVER_CHECKED)) } }
            ul class="plain" { @for check in kept.checks.iter().rev() { li { (checks::check(check, kit::name(view.book, check.by))) } } }
        }
        @if kept.out.is_none() { (check(view, &number)) (moved(view, &number, say::MOVE)) (tell(view, &number)) (take_out(view, &number)) }
        @else { (moved(view, &number, say::BACK)) }
        p { a href="/tooling" { (say::TITLE) } }
    };
    Ok(Drawn::new("/work", number.clone(), body))
}

fn check(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "tooling check";
    let chosen = view.draft.value(VERB, "choice");
    let fields = html! {
        (kit::hidden("number", number))
        label class="choice" { input type="radio" name="choice" value="good" checked[chosen == "good"] required; span { (checks::GOOD) } }
        label class="choice" { input type="radio" name="choice" value="wrong" checked[chosen == "wrong"]; span { (checks::WRONG) } }
        (kit::line(view, VERB, "against", checks::AGAINST, say::AGAINST_TELLS))
        (kit::line(view, VERB, "error", checks::ERROR, say::ERROR_TELLS))
        (kit::line(view, VERB, "told", parts::SEEN, ""))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (checks::CHECK) } (kit::form(view, VERB, checks::CHECK, &fields, checks::KEEP_CHECK)) } }
}

fn moved(view: &View<'_>, number: &str, title: &str) -> Markup {
    const VERB: &str = "tooling move";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "shelf", say::SHELF, say::SHELF_TELLS))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (title) } (kit::form(view, VERB, title, &fields, say::MOVE_IT)) } }
}

fn tell(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "tooling tell";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "features", say::FEATURE, say::FEATURE_TELLS))
        (kit::line(view, VERB, "drawing", say::DRAWING, ""))
        div class="grid2" {
            div { (kit::line(view, VERB, "part", say::ANOTHER_PART, say::PART_TELLS)) }
            div { (kit::line(view, VERB, "engine", say::ENGINE, "")) }
        }
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::TELL) } (kit::form(view, VERB, say::TELL, &fields, say::KEEP)) } }
}

fn take_out(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "tooling take-out";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "because", say::BECAUSE, say::BECAUSE_TELLS))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::TAKE_OUT) } (kit::form(view, VERB, say::TAKE_OUT, &fields, say::TAKE_OUT_IT)) } }
}
