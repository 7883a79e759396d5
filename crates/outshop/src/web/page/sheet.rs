//! Worked sheets: the list of them, and any one as a form that shows its steps, its sources, its cautions.

use maud::{Markup, PreEscaped, html};
use measure::{Angle, Length};
use physics::card::Card;
use physics::{Given, Sheet, Shown};

use super::{Drawn, View, kit};
use crate::{Failure, words};

pub fn list() -> Result<Drawn, Failure> {
    let body = html! {
        h1 { "Worked sheets" }
        p class="lead" { "Each prints what goes in and where it came from, the formula, the numbers in place, the result, and what it rests on. A second person with a pencil can redo it." }
        ul class="plain" { @for entry in physics::catalogue() {
            li { a href=(format!("/sheet/{}", entry.card.id)) { (entry.card.title) } " " span class="quiet small" { (entry.card.id) } p class="small" { (entry.card.purpose) } }
        } }
    };
    Ok(Drawn::new("/sheets", words::page::SHEETS, body))
}

pub fn draw(view: &View<'_>, id: &str) -> Result<Drawn, Failure> {
    let card = physics::find(id)?.card;
    let given: Vec<_> = view
        .query
        .iter()
        .filter(|(_, value)| !value.trim().is_empty())
        .map(|(name, value)| Given::typed(name, value))
        .collect();
    let worked = if given.is_empty() {
        None
    } else {
        Some(physics::run(id, &given, view.house))
    };
    let body = html! {
        h1 { (card.title) }
        p class="lead" { (card.purpose) }
        div class="sheet" {
            (inputs(view, card))
            div { @match &worked {
                None => p class="quiet" { "Fill in what is known and work it. A bare number takes the house unit, and the sheet says so." },
                Some(Ok(sheet)) => { (page(sheet, &drawn(view, sheet))) }
                Some(Err(e)) => (crate::web::trouble::said(&e.to_string())),
            } }
        }
    };
    Ok(Drawn::new("/sheets", card.title, body))
}

fn inputs(view: &View<'_>, card: &Card) -> Markup {
    let typed = |name: &str| {
        view.query
            .iter()
            .find(|(known, _)| known == name)
            .map_or("", |(_, value)| value.as_str())
    };
    html! {
        form class="act" method="get" action=(format!("/sheet/{}", card.id)) {
            h2 { "What goes in" }
            @for argument in card.arguments {
                @let id = kit::id("sheet", argument.name);
                label for=(id) { (argument.meaning) " " span class="quiet" { (argument.name) @if !argument.required { ", may be left out" } } }
                @if argument.choices().is_empty() || argument.name == "materials" {
                    input type="text" id=(id) name=(argument.name) value=(typed(argument.name)) required[argument.required] autocomplete="off";
                    @if !argument.choices().is_empty() { p class="quiet small" { "Words: " (argument.choices().join(", ")) } }
                } @else {
                    select id=(id) name=(argument.name) {
                        @if !argument.required { option value="" { "not said" } }
                        @for choice in argument.choices() { option selected[typed(argument.name) == *choice] { (choice) } }
                    }
                }
            }
            button { "Work it" }
        }
    }
}

fn shown(value: &Shown) -> Markup {
    match value {
        Shown::Quantity { shown, unit, .. } => {
            html! { b { (shown) @if !unit.is_empty() { " " (unit) } } }
        }
        Shown::Text(text) => {
            html! { @if text.starts_with("cannot tell") { span class="verdict unknown" { (text) } } @else { strong { (text) } } }
        }
        Shown::Table { columns, rows } => html! {
            div class="table" { table {
                thead { tr { @for column in columns { th { (column) } } } }
                tbody { @for row in rows { tr { @for cell in row { td { (cell) } } } } }
            } }
        },
    }
}

fn page(sheet: &Sheet, drawn: &Markup) -> Markup {
    html! {
        @if !sheet.notices.is_empty() { div class="said" { @for notice in &sheet.notices { p { (notice) } } } }
        h2 { "Results" }
        @for result in &sheet.results { div class="result" { (shown(&result.value)) span class="quiet" { (result.meaning) } } }
        (drawn)
        h2 { "Where each came from" }
        dl class="facts" { @for input in &sheet.inputs {
            dt { (input.symbol) }
            dd { span class="fig" { (input.entered) } " " (input.meaning) " " span class="quiet small" { (input.basis) } }
        } }
        h2 { "Worked" }
        div class="steps" tabindex="0" role="group" aria-label="Worked" { @for step in &sheet.steps {
            (PreEscaped(step.mathml()))
            // The same in plain signs: to be typed again, and for a browser that cannot set mathematics.
            p { (step.formula) br; "= " (step.substituted) br; "= " (step.shown) @if !step.unit.is_empty() { " " (step.unit) } }
        } }
        h2 { "Cautions" }
        ul class="caution" { @for caution in &sheet.cautions { li { (caution) } } }
        h2 { "Sources" }
        ul class="small" { @for source in &sheet.sources { li { (source) } } }
    }
}

/// The drawing of what a sheet computes, where there is one: to scale, dimensioned, changing with the numbers.
fn drawn(view: &View<'_>, sheet: &Sheet) -> Markup {
    let svg = match sheet.card.id {
        "seat.correct" => seat(view, sheet),
        _ => return html! {},
    };
    html! {
        h2 { "Drawn to scale" }
        @match svg {
            Ok(svg) => div class="ribbon drawn" { (PreEscaped(svg)) },
            Err(why) => p { "This case cannot be drawn: " (why) },
        }
    }
}

/// The seat before and after, from the sheet's own inputs.
fn seat(view: &View<'_>, sheet: &Sheet) -> Result<String, String> {
    let input = |name: &str| {
        sheet
            .inputs
            .iter()
            .find(|i| i.name == name)
            .and_then(|i| match i.value {
                Shown::Quantity { si, .. } => si,
                _ => None,
            })
    };
    let need = |name: &str| input(name).ok_or_else(|| format!("it needs {name}"));
    let seat = drawing::SeatSection {
        port: Length::m(need("port")?),
        land: Length::m(need("land")?),
        found_half_angle: Angle::radians(need("found_half_angle")?),
        wanted_half_angle: Angle::radians(need("wanted_half_angle")?),
        wall: input("wall").map(Length::m),
        body_outside: None,
        disc_outside: None,
    };
    let title = drawing::Title {
        shop: view.book.shop.as_ref().map(|s| s.name.clone()),
        drawing: "Valve seat, before and after".into(),
        as_of: Some(view.on.to_string()),
        sheets: vec![sheet.card.id.to_string()],
        ..drawing::Title::default()
    };
    let drawing = drawing::seat_section(&seat, view.house, title).map_err(|e| e.to_string())?;
    drawing
        .lay_out()
        .map(|laid| laid.svg())
        .map_err(|e| e.to_string())
}
