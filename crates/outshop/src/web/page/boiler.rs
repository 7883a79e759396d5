//! Her boiler: what each component would bear, on what, and what is missing; the water over the crown; the law's card.

use maud::{Markup, html};
use physics::law::boiler_governing::ID as GOVERNING;
use shop::book::{Authority, LocomotiveId};
use shop::locomotive::{BOILER_KINDS, BOILER_PLACES, engine};
use shop::ruled::boiler::{BoilerCard, CardLine, Held, boiler_card, borne};

use super::sheet::of_engine;
use super::{Drawn, View, bench_survey, kit};
use crate::Failure;
use crate::verb::boiler::since;
use crate::web::{print, survey_file};
use crate::words::{self, boiler as say};

const ENTER: &str = "boiler enter";
const SIGN: &str = "boiler sign";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let card = boiler_card(view.book, view.rules, id, view.on)?;
    let title = say::title(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" { (held(card.held())) " " (card.governs()) }
        p { (say::set(card.set_psig)) " " (say::rules(&card.rules)) }
        @if !card.lines.is_empty() { p { a href=(of_engine(GOVERNING, &kept.number)) { (say::AS_SHEET) } } }
        @for said in say::CAUTIONS { p class="small quiet" { (said) } }
        (print::boiler_link(&kept.number))
        p { a href=(format!("/engine/{}/hydro", kept.number)) { (words::hydro::LINK) } }
        section class="ruled" { h2 { (say::COMPONENTS) } (lines(&card)) }
        @if !card.nothing_of.is_empty() { section class="ruled" {
            h2 { (say::NOT_ENTERED) }
            ul class="plain" { @for (_, means) in &card.nothing_of { li class="need" { (say::nothing_of(means)) } } }
        } }
        section class="ruled" {
            h2 { (words::boiler_map::SURVEYS) }
            @let surveyed = surveyed(view, id);
            @if surveyed.is_empty() { p class="quiet" { (words::boiler_map::NO_SURVEYS) } }
            @else { ul class="plain" { @for name in &surveyed { li { a href=(format!("/engine/{}/boiler/{}", kept.number, kit::encode(name))) { (words::boiler_map::survey_title(&kept.number, name)) } } } } }
            @if view.may(Authority::Inspect) {
                (bench_survey::ways(view, &kept.number))
                p { (survey_file::way(&kept.number, "")) }
            }
            p { a href=(format!("/engine/{}/stays", kept.number)) { (words::boiler_map::STAYS_LINK) } }
        }
        section class="ruled" { h2 { (say::LEVELS) } ul class="plain" { @for said in say::level(card.level.as_ref()) { li { (said) } } } }
        section class="ruled" {
            h2 { (say::SINCE) }
            ul class="plain" { @for said in since(view.book, &card) { li { (said) } } }
            @if view.may(Authority::Approve) {
                @let fields = html! { (kit::hidden("engine", &kept.number)) p class="small" { (say::SIGN_MEANS) } (kit::line(view, SIGN, "because", say::BECAUSE, "")) };
                details open[view.draft.is_of(SIGN)] { summary { (say::SIGN) } (kit::signed(view, SIGN, say::SIGN, &fields, say::SIGN_IT)) }
            }
        }
        section class="ruled" { h2 { (say::FIELDS) } (fields(&card)) }
        @if !card.not_fitted.is_empty() { section class="ruled" {
            h2 { (say::WITHOUT) }
            ul class="plain" { @for (component, seen) in &card.not_fitted { li { (say::not_fitted(component, seen)) } } }
        } }
        @if view.may(Authority::Inspect) { (enter(view, &kept.number)) }
    };
    Ok(Drawn::new("/", title, body))
}

/// The components that have a survey.
fn surveyed(view: &View<'_>, id: LocomotiveId) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for survey in view
        .book
        .boilers
        .get(&id)
        .into_iter()
        .flat_map(|boiler| &boiler.surveys)
    {
        if survey.on <= view.on && !all.contains(&survey.component) {
            all.push(survey.component.clone());
        }
    }
    all
}

fn held(held: Held) -> Markup {
    let class = match held {
        Held::Complies => "complies",
        Held::Fails => "fails",
        Held::CannotTell => "unknown",
    };
    html! { span class=(format!("verdict {class}")) { (held.word()) } }
}

fn lines(card: &BoilerCard) -> Markup {
    let [component, bears, at_set, stood, missing] =
        [0, 1, 2, 3, 4].map(|at| say::HEADS.get(at).copied().unwrap_or(""));
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (component) } th class="num" { (bears) } th { (at_set) } th { (missing) } } }
            tbody { @for line in &card.lines { tr {
                td class="head" data-label=(component) { b { (line.component) } }
                td class="num" data-label=(bears) { (borne(line.bears)) }
                td data-label=(at_set) { (held(line.held)) @if let Some(said) = beside(line, card) { " " span class="small" { (said) } } }
                td data-label=(missing) {
                    @if line.missing.is_empty() { span class="quiet" { (say::NOTHING) } " " }
                    @for it in &line.missing { span class="need" { (it) } br; " " }
                    @for it in &line.notices { " " span class="small" { (it) } br; }
                    @if !line.stood_on.is_empty() { details class="in" { summary { (stood) } ul class="plain small" { @for it in say::stood_on(&line.stood_on) { li { (it) } } } } }
                }
            } } }
        } }
    }
}

fn beside(line: &CardLine, card: &BoilerCard) -> Option<String> {
    line.times?;
    let said = say::against(line, card.set_psig);
    said.split_once(", ").map(|(_, rest)| rest.to_owned())
}

fn fields(card: &BoilerCard) -> Markup {
    let [asks, has, known] = [0, 1, 2].map(|at| say::FIELD_HEADS.get(at).copied().unwrap_or(""));
    html! {
        div class="table" { table class="stack" {
            thead { tr { th { (asks) } th { (has) } th { (known) } } }
            tbody { @for field in &card.fields { tr {
                td data-label=(asks) { (words::sentence(field.asks)) }
                td data-label=(has) class=(if field.has.is_some() { "" } else { "need" }) { (say::has(field)) }
                td data-label=(known) class="small quiet" { (if field.read { say::READ_ON_FORM } else { say::FROM_MEMORY }) }
            } } }
        } }
    }
}

fn enter(view: &View<'_>, number: &str) -> Markup {
    let chosen = |name: &str| view.draft.value(ENTER, name).to_owned();
    let fields = html! {
        (kit::hidden("engine", number))
        (kit::line(view, ENTER, "component", say::COMPONENT, ""))
        label for="boiler-kind" { (say::KIND) }
        select id="boiler-kind" name="kind" {
            option value="" { (say::AS_IT_STANDS) }
            @for kind in BOILER_KINDS { option value=(kind.word) selected[chosen("kind") == kind.word] { (kind.means) } }
        }
        label for="boiler-place" { (say::PLACE) }
        select id="boiler-place" name="place" {
            option value="" { (say::AS_IT_STANDS) }
            @for (word, means) in BOILER_PLACES { option value=(word) selected[chosen("place") == *word] { (means) } }
        }
        (kit::lines(view, ENTER, "facts", say::FACTS, say::FACTS_HINT))
        (kit::line(view, ENTER, "source", say::SOURCE, ""))
    };
    html! { details open[view.draft.is_of(ENTER)] { summary { (say::ENTER) } (kit::form(view, ENTER, say::ENTER, &fields, say::ENTER_IT)) } }
}
