//! Before the opening: what a coming inspection will probably need, with chance, hours and the day to order by.

use maud::{Markup, html};
use shop::locomotive::{engine, read_lead};
use shop::route::{Before, before};

use super::{Drawn, View, kit, sheet};
use crate::Failure;
use crate::words::{self, before as say, tag};

pub fn draw(view: &View<'_>, number: &str, kind: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let typed = view.asked(say::LEAD);
    // What was typed and cannot be meant is refused and stays; the rest is shown without it.
    let (lead, wrong) = match read_lead(typed) {
        Ok(days) => (Some(days), None),
        Err(why) => (None, Some(why.what).filter(|_| !typed.trim().is_empty())),
    };
    let told = before(view.book, view.rules, (id, kind), lead, view.on, view.house)?;
    let title = say::title(&kept.number, kind);
    let print = match lead {
        Some(days) => format!("/print/before/{}/{kind}?{}={days}", kept.number, say::LEAD),
        None => format!("/print/before/{}/{kind}", kept.number),
    };
    let body = html! {
        h1 { (title) }
        p class="lead" { (say::when(&told)) }
        p { (say::MEANS) }
        p { a href=(print) { (say::PRINT) } " · " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        @if let Some(why) = &wrong { (crate::web::trouble::said(why)) }
        section class="ruled" {
            h2 { (say::LIKELY) }
            @if told.likely.is_empty() { p { (say::NOTHING) } } @else { (likely(view, &kept.number, &told)) }
            form class="act" method="get" action=(view.path) {
                p class="small" { (say::lead(&told)) }
                label for="before-lead" { (say::LEAD_TIME) }
                input type="text" inputmode="numeric" id="before-lead" name=(say::LEAD) value=(typed) autocomplete="off";
                button { (say::RECKON) }
            }
        }
        section class="ruled" {
            h2 { (say::WHOLE) }
            p { (say::whole(&told)) }
            p { a href=(sheet::path(&told.whole)) { (words::wear::SHEET) } }
        }
        @if !told.wanting.is_empty() { section class="ruled" {
            h2 { (say::NOT_KNOWN) }
            ul { @for why in &told.wanting { li { (kit::sentence(why)) } } }
        } }
    };
    Ok(Drawn::new("/", title, body))
}

fn likely(view: &View<'_>, number: &str, told: &Before) -> Markup {
    let [part, chance, from, hours, order] = say::HEADS;
    html! {
        div class="table" { table class="stack" {
            thead { tr { @for head in say::HEADS { th { (head) } } } }
            tbody { @for it in &told.likely { tr {
                td data-label=(part) { a href=(kit::part_path(number, &it.name)) { (it.name) } }
                td data-label=(chance) { b { (say::chance(it)) } }
                td data-label=(from) {
                    @for line in say::from(it) { div { (line) } }
                    div class="small" {
                        @if let Some(number) = it.open { @let tag = tag::finding(number); a href=(format!("/finding/{tag}")) { (tag) } " " }
                        @if let Some(wear) = &it.wear { a href=(sheet::path(&wear.sheet)) { (wear.sheet.card.id) } " " }
                        @if let Some((_, sheet)) = &it.seen { a href=(sheet::path(sheet)) { (sheet.card.id) } }
                    }
                }
                td data-label=(hours) { (say::hours(it)) }
                td data-label=(order) { (say::order_by(it, view.on)) @if let Some(own) = say::own_lead(it) { div class="small" { (own) } } }
            } } }
        } }
    }
}

/// The links to these pages of an engine, for the inspections that are coming.
pub fn links(number: &str, kinds: &[&str]) -> Markup {
    html! { p class="kinds" { (say::READY) @for kind in kinds { " " a href=(format!("/engine/{number}/before/{kind}")) { (say::link(kind)) } } } }
}
