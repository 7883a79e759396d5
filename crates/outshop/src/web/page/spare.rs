//! Spares: what lies there, and one spare with its ledger and the forms that move it.

use maud::{Markup, html};
use shop::book::{MoveOf, Spare, UsedOn};
use shop::locomotive::{ledger, spare};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::spare::{by_need, lines, needs, standing};
use crate::words::{spare as say, tag};

pub fn list(view: &View<'_>) -> Drawn {
    let all = by_need(view.book, view.on);
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        @if all.is_empty() { p { (say::NONE) } } @else {
            div class="table" { table class="stack" {
                thead { tr { th { (say::NUMBER) } th { (say::SPARE) } th { (say::THERE) } th { (say::SHELF_COLUMN) } } }
                tbody { @for kept in all { tr {
                    @let number = tag::spare(kept.number);
                    td data-label=(say::NUMBER) { a href=(format!("/spare/{number}")) { b { (number) } } }
                    td data-label=(say::SPARE) { (say::what(kept)) }
                    td data-label=(say::THERE) { (there(view, kept)) }
                    td data-label=(say::SHELF_COLUMN) { (kept.known.shelf.as_deref().unwrap_or_default()) }
                } } }
            } }
        }
        (add(view))
    };
    Drawn::new("/work", say::TITLE, body)
}

/// How many lie there; what needs a person stands out.
fn there(view: &View<'_>, kept: &Spare) -> Markup {
    let wrong = needs(view.book, kept, view.on, view.house);
    let all = standing(view.book, kept, view.on, view.house);
    html! { @for (at, told) in all.iter().enumerate() {
        @if at > 0 { "; " }
        span class=(if wrong.contains(told) { "need" } else { "" }) { (told) }
    } }
}

/// How many spares need a person, as a line for the first page; nothing where none does.
pub fn short(view: &View<'_>) -> Markup {
    let needing = view.book.spares.values();
    let count = needing
        .filter(|kept| !needs(view.book, kept, view.on, view.house).is_empty())
        .count();
    html! { @if count > 0 { p { a class="need" href="/spares" { (say::need(count)) } } } }
}

fn known(view: &View<'_>, verb: &str) -> Markup {
    html! {
        div class="grid2" {
            div { (kit::line(view, verb, "material", say::MATERIAL, "")) }
            div { (kit::line(view, verb, "size", say::SIZE, say::SIZE_TELLS)) }
            div { (kit::line(view, verb, "drawing", say::DRAWING, "")) }
            div { (kit::line(view, verb, "shelf", say::SHELF, "")) }
        }
        (kit::line(view, verb, "least", say::LEAST, ""))
    }
}

fn add(view: &View<'_>) -> Markup {
    const VERB: &str = "spare add";
    let ways = [("pieces", say::PIECES), ("length", say::LENGTH)];
    let fields = html! {
        (kit::hidden("then", "spare"))
        (kit::line(view, VERB, "what", say::WHAT, say::WHAT_TELLS))
        (kit::choices(view, VERB, "counted", say::COUNTED, &ways))
        (known(view, VERB))
    };
    fold(view, VERB, say::ADD, &fields, say::ADD_IT)
}

fn fold(view: &View<'_>, verb: &str, title: &str, fields: &Markup, button: &str) -> Markup {
    html! { details open[view.draft.is_of(verb)] { summary { (title) } (kit::form(view, verb, title, fields, button)) } }
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = spare(view.book, number)?;
    let number = tag::spare(kept.number);
    let differs = ledger(view.book, kept, view.on).differs.is_some();
    let all = lines(view.book, kept, view.house);
    let body = html! {
        h1 { (number) " " (say::what(kept)) }
        p class="lead" { (there(view, kept)) }
        p { @if let Some(shelf) = &kept.known.shelf { (shelf) "; " } (say::known(kept, view.house).join("; ")) }
        section class="ruled" {
            h2 { (say::LEDGER) }
            @if all.is_empty() { p { (say::NO_MOVE) } }
            ul class="plain" { @for told in &all { li { (told) } } }
        }
        (receive(view, kept, &number)) (used(view, kept, &number)) (hold(view, kept, &number)) (count(view, kept, &number))
        @if differs { (settle(view, &number)) }
        (tell(view, &number))
        p { a href="/spares" { (say::TITLE) } }
    };
    Ok(Drawn::new("/work", number.clone(), body))
}

fn receive(view: &View<'_>, kept: &Spare, number: &str) -> Markup {
    const VERB: &str = "spare receive";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "many", say::MANY, say::many_tells(kept.counted)))
        (kit::line(view, VERB, "from", say::FROM, say::FROM_TELLS))
        (kit::line(view, VERB, "certificate", say::CERTIFICATE, ""))
        (kit::line(view, VERB, "told", say::TOLD, ""))
    };
    fold(view, VERB, say::RECEIVE, &fields, say::RECEIVE_IT)
}

fn used(view: &View<'_>, kept: &Spare, number: &str) -> Markup {
    const VERB: &str = "spare use";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "many", say::MANY, say::many_tells(kept.counted)))
        div class="grid2" {
            div { (kit::line(view, VERB, "job", say::JOB, say::JOB_TELLS)) }
            div { (kit::line(view, VERB, "engine", say::ENGINE, "")) }
        }
        (kit::line(view, VERB, "told", say::TOLD, ""))
    };
    fold(view, VERB, say::USE, &fields, say::USE_IT)
}

fn hold(view: &View<'_>, kept: &Spare, number: &str) -> Markup {
    const VERB: &str = "spare hold";
    let tells = format!("{}; {}", say::many_tells(kept.counted), say::HOLD_TELLS);
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "many", say::HOLD_MANY, &tells))
        (kit::line(view, VERB, "job", say::FOR_JOB, ""))
    };
    fold(view, VERB, say::HOLD, &fields, say::HOLD_IT)
}

fn count(view: &View<'_>, kept: &Spare, number: &str) -> Markup {
    const VERB: &str = "spare count";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "many", say::MANY, say::many_tells(kept.counted)))
        (kit::line(view, VERB, "told", say::TOLD, ""))
    };
    fold(view, VERB, say::COUNT, &fields, say::COUNT_IT)
}

fn settle(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "spare settle";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::line(view, VERB, "because", say::BECAUSE, say::BECAUSE_TELLS))
    };
    fold(view, VERB, say::SETTLE, &fields, say::SETTLE_IT)
}

fn tell(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "spare tell";
    let fields = html! { (kit::hidden("number", number)) (known(view, VERB)) };
    fold(view, VERB, say::TELL, &fields, say::KEEP)
}

/// The spares held for a job and used on it; nothing where there are none.
pub fn of_job(view: &View<'_>, id: shop::book::JobId) -> Markup {
    let is_on = |of: &MoveOf| match of {
        MoveOf::Held { job } => *job == id,
        MoveOf::Used {
            used: UsedOn::Job { job },
        } => *job == id,
        _ => false,
    };
    let mut all: Vec<_> = view
        .book
        .spares
        .values()
        .filter(|kept| kept.moves.iter().any(|it| is_on(&it.of)))
        .collect();
    all.sort_by_key(|kept| kept.number);
    html! { @if !all.is_empty() { section class="ruled" {
        h2 { (say::OF_JOB) }
        ul class="plain" { @for kept in all { li {
            @let number = tag::spare(kept.number);
            a href=(format!("/spare/{number}")) { b { (number) } } " " (say::what(kept)) ": " (there(view, kept))
        } } }
    } } }
}
