//! Lathe cards with a number: all of them, the field for what their bars say, and one with its revisions.

use maud::{Markup, html};
use physics::Sheet;
use shop::book::Card;
use shop::locomotive::card;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::card::{Standing, code, given, now, read};
use crate::words::{self, card as say, tag};

pub fn list(view: &View<'_>) -> Drawn {
    let mut all: Vec<&Card> = view.book.cards.values().collect();
    all.sort_by_key(|card| card.number);
    let asked = view.asked("code");
    let mut context = view.desk.context(Some(&view.reader.name));
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        form class="act" method="get" action="/cards" {
            label for="card-code" { (say::READ) }
            p class="small quiet" { (say::READ_TELLS) }
            input type="text" id="card-code" name="code" value=(asked) autocomplete="off";
            button { (say::READ_IT) }
        }
        @if !asked.is_empty() { @match read(&mut context, asked) {
            Ok(Some(standing)) => (stands(&standing, true)),
            Ok(None) => p class="need" { (kit::worded(&say::no_code(asked))) },
            Err(why) => p class="need" { (kit::worded(&why.to_string())) },
        } }
        @if all.is_empty() { p { (say::NONE) } } @else {
            div class="table" { table class="stack" {
                thead { tr { th { (say::CARD) } th { (say::SHEET) } th { (say::REVISION) } th { (say::KEPT) } } }
                tbody { @for kept in all { tr {
                    @let number = tag::card(kept.number);
                    td data-label=(say::CARD) { a href=(format!("/card/{number}")) { b { (number) } } }
                    td data-label=(say::SHEET) { (kept.sheet) }
                    td data-label=(say::REVISION) { (kept.revisions.len()) }
                    td data-label=(say::KEPT) { @if let Some((_, it)) = kept.newest() { (words::day(it.on)) ", " (kit::name(view.book, it.by)) } }
                } } }
            } }
        }
        p { a href="/sheets" { (words::page::SHEETS) } }
    };
    Drawn::new("/sheets", say::TITLE, body)
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = card(view.book, number)?;
    let number = tag::card(kept.number);
    let standing = now(&mut view.desk.context(Some(&view.reader.name)), kept)?;
    let again = kept
        .newest()
        .map(|(_, it)| serde_html_form::to_string(given(it)).unwrap_or_default());
    let body = html! {
        h1 { (number) " " (kept.sheet) }
        section class="ruled" {
            h2 { (say::STANDS) }
            (stands(&standing, false))
            p { a href=(format!("/print/card/{number}")) { (say::PRINT) } }
            @if let Some(again) = again { p { a href=(format!("/sheet/{}?{again}", kept.sheet)) { (say::WORK) } } }
        }
        section class="ruled" {
            h2 { (say::REVISIONS) }
            ol { @for (at, it) in kept.revisions.iter().enumerate() { li {
                p { b { (code(kept.number, at + 1)) } " " (words::day(it.on)) ", " (kit::name(view.book, it.by)) @if let Some(because) = &it.because { ": " (because) } }
                p class="small" { (it.given.join(" ")) }
                details { summary { (say::AS_PRINTED) } pre class="steps" tabindex="0" { (it.text) } }
            } } }
        }
        p { a href="/cards" { (say::TITLE) } }
    };
    Ok(Drawn::new("/sheets", number.clone(), body))
}

/// How a card stands, and what is different now.
pub fn stands(standing: &Standing, with_link: bool) -> Markup {
    html! {
        @for line in &standing.said { p class=(if standing.stands { "told" } else { "need" }) { (line) } }
        @if !standing.changed.is_empty() {
            h3 { (say::CHANGED) }
            div class="table" { table class="stack" {
                thead { tr { th { (say::WAS) } th { (say::IS) } } }
                tbody { @for (was, is) in &standing.changed { tr {
                    td data-label=(say::WAS) { (was) }
                    td data-label=(say::IS) { (is) }
                } } }
            } }
        }
        @if with_link { p { a href=(standing.path) { (standing.path.trim_start_matches("/card/").trim_start_matches("/job/")) } } }
    }
}

/// The form that keeps a worked sheet as a card.
pub fn keep(view: &View<'_>, sheet: &Sheet) -> Markup {
    const VERB: &str = "card keep";
    let said: Vec<_> = view
        .query
        .iter()
        .filter(|(name, value)| !value.trim().is_empty() && name != crate::verb::ruled::LATHE)
        .map(|(name, value)| format!("{name}={}", value.trim()))
        .collect();
    let lathe = view.asked(crate::verb::ruled::LATHE);
    let fields = html! {
        p class="small" { (say::KEEP_TELLS) }
        (kit::hidden("then", "card"))
        (kit::hidden("sheet", sheet.card.id))
        @for one in &said { (kit::hidden("given", one)) }
        @if !lathe.is_empty() { (kit::hidden("lathe", lathe)) }
        (kit::line(view, VERB, "revises", say::REVISES, say::REVISES_TELLS))
        (kit::line(view, VERB, "because", say::BECAUSE, ""))
    };
    let query = serde_html_form::to_string(&view.query).unwrap_or_default();
    // Not as other forms: the page is one that was asked something, and comes back with it.
    html! { details open[view.draft.is_of(VERB)] { summary { (say::KEEP) }
        form class="act" method="post" action="/do" {
            h2 { (say::KEEP) }
            input type="hidden" name="verb" value=(VERB);
            input type="hidden" name="back" value=(format!("{}?{query}", view.path));
            (fields)
            button { (say::KEEP_IT) }
        }
    } }
}
