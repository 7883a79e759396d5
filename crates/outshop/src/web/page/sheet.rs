//! Worked sheets: the list of them, and any one as a form that shows its steps, its sources, its cautions.

use maud::{Markup, html};
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
                Some(Ok(sheet)) => (page(sheet)),
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

fn page(sheet: &Sheet) -> Markup {
    html! {
        @if !sheet.notices.is_empty() { div class="said" { @for notice in &sheet.notices { p { (notice) } } } }
        h2 { "Results" }
        @for result in &sheet.results { div class="result" { (shown(&result.value)) span class="quiet" { (result.meaning) } } }
        h2 { "Where each came from" }
        dl class="facts" { @for input in &sheet.inputs {
            dt { (input.symbol) }
            dd { span class="fig" { (input.entered) } " " (input.meaning) " " span class="quiet small" { (input.basis) } }
        } }
        h2 { "Worked" }
        div class="steps" { @for step in &sheet.steps {
            div { (step.formula) }
            div { "  = " (step.substituted) }
            div { "  = " (step.shown) @if !step.unit.is_empty() { " " (step.unit) } }
        } }
        h2 { "Cautions" }
        ul class="caution" { @for caution in &sheet.cautions { li { (caution) } } }
        h2 { "Sources" }
        ul class="small" { @for source in &sheet.sources { li { (source) } } }
    }
}
