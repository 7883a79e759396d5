//! The day of her hydrostatic and steam test: what is due and why, the pressures, the gauges on file and what each must show,
//! what complies or fails, where leaks are looked for, who signs. The same as on its paper.

use maud::{Markup, html};
use shop::book::Locomotive;
use shop::locomotive::engine;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::test_day::{Line, TestDay, must_show, test_day};
use crate::web::form::value;
use crate::web::trouble;
use crate::words::{self, hydro as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let day = test_day(view.book, view.rules, id, kept, view.on, view.house)?
        .ok_or_else(|| Failure::Input(say::none_asked(&kept.number)))?;
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p { a href=(format!("/print/hydro/{}", kept.number)) { (say::PRINT) } " · " a href=(format!("/engine/{}/papers", kept.number)) { (words::duties::title(&kept.number)) } " · " a href=(format!("/engine/{}/boiler", kept.number)) { (words::boiler::LINK) } }
        ul class="caution" { @for said in say::CAUTIONS { li { (said) } } }
        section class="ruled" { h2 { (say::WHY) } (lines(&day.why)) }
        section class="ruled" {
            h2 { (say::PRESSURES) }
            div class="table" { table {
                tbody { @for line in &day.pressures { tr { td { (line.what) " " (rule(line)) } td class="num" { (line.value.as_deref().unwrap_or_default()) } } } }
            } }
            p class="small quiet" { (say::PRESSURES_NOTE) }
            // Worked, their one notice is what the next line says of the whole day.
            @if day.pressures.is_empty() { @for said in &day.notices { p class="small need" { (said) } } }
            (kit::held(view, &day.used))
        }
        (gauges(view, kept, &day))
        section class="ruled" { h2 { (say::JUDGED) } (lines(&day.judged)) }
        section class="ruled" {
            h2 { (say::LEAKS) }
            p { (say::LEAKS_NOTE) }
            p class="small quiet" { @if day.entered { (say::PLACES_HERS) } @else { (say::PLACES_ANY) } }
            p { (words::sentence(&day.places.join("; "))) "." }
            p { (say::WRITE) }
        }
        section class="ruled" { h2 { (say::PAPERS) } (lines(&day.papers)) p { (say::SIGNERS) } }
    };
    Ok(Drawn::new("/", title, body))
}

fn lines(all: &[Line]) -> Markup {
    html! { ul class="plain" { @for line in all { li {
        (kit::sentence(&line.what)) @if let Some(value) = &line.value { ": " (value) } " " (rule(line))
    } } } }
}

/// The section, which leads to its rule.
fn rule(line: &Line) -> Markup {
    html! { @if let Some(rule) = &line.rule { a class="quiet small" href=(format!("/rule/{rule}")) { (line.section) } } }
}

/// The gauges on file; what any other must show, its head of water and its own error counted.
fn gauges(view: &View<'_>, kept: &Locomotive, day: &TestDay) -> Markup {
    let (head, error) = (value(&view.query, "head"), value(&view.query, "error"));
    let asked = !head.is_empty() || !error.is_empty();
    let shows = asked.then(|| must_show(view.book, view.rules, kept, view.on, head, error));
    html! {
        section class="ruled" {
            h2 { (say::GAUGES) }
            @if day.gauges.is_empty() { p { (say::NO_GAUGES) } }
            @for gauge in &day.gauges {
                h3 { (words::sentence(&gauge.what)) }
                p { (words::sentence(&gauge.tried)) }
                dl class="facts" { @for (what, told) in say::GAUGE_FACTS.iter().zip([&gauge.error, &gauge.head, &gauge.shows]) {
                    dt { (what) }
                    dd { @match told { Ok(says) => (says), Err(needs) => span class="need" { (needs) } } }
                } }
            }
            @if let Some(ladder) = &day.ladder { p class="small quiet" { (ladder) } }
            form class="act" method="get" {
                h2 { (say::CORRECT) }
                label for="gauge-head" { (say::HEAD) " " span class="quiet" { (say::HEAD_HINT) } }
                input type="text" id="gauge-head" name="head" value=(head) autocomplete="off";
                label for="gauge-error" { (say::ERROR) " " span class="quiet" { (say::ERROR_HINT) } }
                input type="text" id="gauge-error" name="error" value=(error) autocomplete="off";
                button { (say::CORRECT_IT) }
            }
            @match shows {
                None => {},
                Some(Ok(said)) => p class="said" { (said) },
                Some(Err(why)) => (trouble::said(&why.to_string())),
            }
        }
    }
}
