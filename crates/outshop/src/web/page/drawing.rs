//! Drawings that a part is made from: the list, and one as a form that shows the part and gives its files.

use maud::{Markup, html};
use physics::handed_on::HandedOn;

use super::{Drawn, View, drawn, kit};
use crate::Failure;
use crate::part_drawing::{self, Asked, KINDS, Kind, TITLE};
use crate::verb::handed_on::FROM;
use crate::web::form::value;
use crate::web::trouble;
use crate::words::{self, drawing as say, handed_on};

pub fn list() -> Drawn {
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        ul class="plain" { @for kind in &KINDS {
            li { a href=(format!("/drawing/{}", kind.word)) { (kind.title) } " " span class="quiet small" { (kind.word) } }
        } }
        p { a href="/sheets" { (words::page::SHEETS) } }
    };
    Drawn::new("/sheets", say::TITLE, body)
}

pub fn draw(view: &View<'_>, word: &str) -> Result<Drawn, Failure> {
    let kind = part_drawing::kind(word)?;
    let asked = Asked::of(
        kind,
        &view.query,
        view.book,
        view.rules,
        view.on,
        view.house,
    )?;
    let wanting = asked.wanting(kind);
    let body = html! {
        h1 { (kind.title) }
        p class="lead" { (say::LEAD) }
        @if !asked.steps.is_empty() { p class="kinds" { (handed_on::GOES_ON) ": "
            @for (n, step) in asked.steps.iter().enumerate() { @if n > 0 { " · " } a href=(format!("/sheet/{}", step.named)) { (step.sheet.card.title) } }
        } }
        @if !asked.all.is_empty() && !wanting.is_empty() { p class="need" { (say::still(&wanting)) } }
        div class="sheet" {
            (inputs(view, kind, &asked))
            div id="drawn" {
                @if !wanting.is_empty() { p class="quiet" { (say::FILL_IN) } } @else { (shown(view, kind, &asked)) }
            }
        }
    };
    Ok(Drawn::new("/sheets", kind.title, body))
}

fn shown(view: &View<'_>, kind: &Kind, asked: &Asked) -> Markup {
    let shop = view.book.shop.as_ref().map(|shop| shop.name.clone());
    let made = match asked.draw(kind, view.house, shop, view.on) {
        Ok(made) => made,
        Err(why) => return trouble::said(&why.to_string()),
    };
    let query: Vec<_> = view
        .query
        .iter()
        .filter(|(_, value)| !value.trim().is_empty())
        .collect();
    let query = serde_html_form::to_string(&query).unwrap_or_default();
    let file = |form: &str| format!("/print/drawing/{}/{form}?{query}", kind.word);
    html! {
        (drawn::shown(&[Ok(made.drawing)]))
        p class="kinds" { (say::FILES)
            " " a href=(file("pdf")) { (say::PDF) } " · " a href=(file("svg")) { (say::SVG) } " · " a href=(file("dxf")) { (say::DXF) }
        }
        h2 { (say::UNSTATED) }
        @if made.unstated.is_empty() { p { (say::ALL_STATED) } } @else {
            p class="small" { (say::UNSTATED_TELLS) }
            ul { @for what in &made.unstated { li { (what) } } }
        }
    }
}

fn inputs(view: &View<'_>, kind: &Kind, asked: &Asked) -> Markup {
    html! {
        form class="act" method="get" action=(format!("/drawing/{}#drawn", kind.word)) {
            @if let Some(last) = asked.steps.last() { (kit::hidden(FROM, &last.named)) }
            h2 { (say::SIZES) }
            p class="small quiet" { (say::SIZES_TELL) }
            @for size in kind.sizes { (line(view, size.name, size.meaning, size.required, asked.handed_on(size.name))) }
            h2 { (say::BLOCK) }
            @for (name, meaning) in TITLE { (line(view, name, meaning, false, None)) }
            button { (say::DRAW) }
        }
    }
}

fn line(
    view: &View<'_>,
    name: &str,
    meaning: &str,
    required: bool,
    from: Option<&HandedOn>,
) -> Markup {
    let id = kit::id("drawing", name);
    let handed_text = from.map_or("", |one| one.text.as_str());
    let typed = match value(&view.query, name).trim() {
        "" => handed_text,
        typed => typed,
    };
    html! {
        label for=(id) { (meaning) " " span class="quiet" { (words::sheet::argument(name, required)) } }
        @if let Some(one) = from { p class="small" { @if typed == handed_text { (handed_on::whence(one)) } @else { (handed_on::instead(one)) } } }
        input type="text" id=(id) name=(name) value=(typed) required[required] autocomplete="off";
    }
}
