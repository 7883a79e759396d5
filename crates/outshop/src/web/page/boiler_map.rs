//! A survey of a sheet developed flat, and the map of the staybolts.

use maud::{Markup, PreEscaped, html};
use shop::book::Authority;
use shop::locomotive::{STAY_STATES, engine};
use shop::ruled::boiler::{bolt_map, survey_read};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::{begun, print, survey_file};
use crate::words::{self, boiler_map as say};

const TAKE: &str = "boiler survey";
const TELL: &str = "boiler stay";

/// A picture that may be wider than the page: it scrolls by itself, with the keyboard too.
pub fn picture(svg: String, told: &str) -> Markup {
    html! { div class="drawn map" tabindex="0" role="group" aria-label=(told) { (PreEscaped(svg)) } }
}

/// The newest survey of a component.
pub fn survey(view: &View<'_>, number: &str, component: &str) -> Result<Option<Drawn>, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let known = view
        .book
        .boilers
        .get(&id)
        .and_then(|boiler| boiler.component(component));
    if known.is_none() {
        return Ok(None);
    }
    let read = survey_read(view.book, view.rules, id, component, view.on)?;
    let title = say::survey_title(&kept.number, component);
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        (kit::hidden("component", component))
        (kit::line(view, TAKE, "columns", say::COLUMNS, ""))
        (kit::lines(view, TAKE, "rows", say::ROWS, say::ROWS_HINT))
        div class="grid2" {
            div { (kit::line(view, TAKE, "unit", say::UNIT, "")) }
            div { (kit::line(view, TAKE, "square", say::SQUARE, "")) }
            div { (kit::line(view, TAKE, "spot", say::SPOT, "")) }
        }
        (kit::line(view, TAKE, "source", say::SOURCE, ""))
    };
    let body = html! {
        h1 { (title) }
        p class="small" { a href=(format!("/engine/{}/boiler", kept.number)) { (words::boiler::LINK) } }
        @match &read {
            None => p class="need" { (say::no_survey(&kept.number, component)) },
            Some((survey, read)) => {
                section class="ruled" { h2 { (say::COMES_TO) } ul class="plain" { @for said in say::survey(survey, read) { li { (said) } } } }
                section class="ruled" {
                    h2 { (say::AS_READ) }
                    p class="small quiet" { (say::MARKS) }
                    @for map in say::pictures(survey, read) { (picture(map.svg(), &map.told)) }
                }
                (print::survey_link(&kept.number, component))
            }
        }
        @for said in say::SURVEY_CAUTIONS { p class="small quiet" { (said) } }
        @if view.may(Authority::Inspect) {
            p { a href=(begun::path(&kept.number, component)) { (words::survey::READ_AT_BENCH) } }
            p { (survey_file::way(&kept.number, component)) }
            details open[view.draft.is_of(TAKE)] { summary { (say::TAKE) } (kit::form(view, TAKE, say::TAKE, &fields, say::TAKE_IT)) }
        }
    };
    Ok(Some(Drawn::new("/", title, body)))
}

/// The map of her staybolts.
pub fn stays(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let map = bolt_map(view.book, view.rules, id, view.on)?;
    let title = say::map_title(&kept.number);
    let renew = say::renew(&map);
    let chosen = |name: &str| view.draft.value(TELL, name).to_owned();
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        label for="stay-sheet" { (say::SHEET) }
        select id="stay-sheet" name="sheet" { @for sheet in &map.sheets { option value=(sheet.sheet) selected[chosen("sheet") == sheet.sheet] { (sheet.sheet) } } }
        (kit::line(view, TELL, "which", say::BOLTS, say::BOLTS_HINT))
        label for="stay-state" { (say::STATE) }
        select id="stay-state" name="state" { @for (word, means, _) in STAY_STATES { option value=(word) selected[chosen("state") == *word] { (means) } } }
        (kit::line(view, TELL, "at", say::AT, ""))
        (kit::line(view, TELL, "size", say::SIZE, ""))
        (kit::line(view, TELL, "told", say::TOLD, ""))
    };
    let body = html! {
        h1 { (title) }
        p class="small" { a href=(format!("/engine/{}/boiler", kept.number)) { (words::boiler::LINK) } }
        section class="ruled" {
            h2 { (say::VERDICT) }
            p { (kit::verdict(&map.verdict)) }
            ul class="plain" { @for said in say::map(&map) { li { (said) } } }
            (kit::held(view, map.limits.iter().map(|it| &it.ruling)))
        }
        @if !renew.is_empty() { section class="ruled" { h2 { (say::TO_RENEW) } ul class="plain" { @for said in &renew { li class="need" { (said) } } } } }
        p class="small quiet" { (say::STAY_MARKS) }
        @for sheet in &map.sheets {
            section class="ruled" {
                h2 { (words::sentence(&sheet.sheet)) }
                @let drawn = say::stay_picture(sheet);
                (picture(drawn.svg(), &drawn.told))
                ul class="plain small" { @for said in say::remarkable(sheet) { li { (said) } } }
            }
        }
        p { a href="/sheet/thread.staybolt" { (say::NEXT_SIZE) } }
        (print::stays_link(&kept.number))
        @for said in say::CAUTIONS { p class="small quiet" { (said) } }
        @if view.may(Authority::Inspect) && !map.sheets.is_empty() {
            details open[view.draft.is_of(TELL)] { summary { (say::TELL) } (kit::form(view, TELL, say::TELL, &fields, say::TELL_IT)) }
        }
    };
    Ok(Drawn::new("/", title, body))
}
