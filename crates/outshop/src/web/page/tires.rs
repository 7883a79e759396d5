//! The driving tires of an engine: each as it stands, one diameter for all, what that spends and moves, how long it lasts.

use maud::{Markup, PreEscaped, html};
use shop::locomotive::engine;
use shop::ruled::tires::{TirePlan, TireSet, TireWheel, tire_set};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::rule_held;
use crate::verb::tires::picture;
use crate::web::form::value;
use crate::web::trouble;
use crate::words::{self, tires as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let (clean_up, weeks) = (
        value(&view.query, "clean_up"),
        value(&view.query, "lead_weeks"),
    );
    let plan = TirePlan {
        clean_up: Some(clean_up.to_owned()).filter(|it| !it.is_empty()),
        lead_weeks: weeks.parse().ok(),
    };
    let wrong = !weeks.is_empty() && plan.lead_weeks.is_none();
    let worked = tire_set(view.book, view.rules, id, view.on, &plan);
    // What was typed is refused and stays; the rest is shown without it.
    let (set, said) = match worked {
        Ok(set) => (set, wrong.then(|| say::WEEKS.to_owned())),
        Err(why) => (
            tire_set(view.book, view.rules, id, view.on, &TirePlan::default())?,
            Some(why.to_string()),
        ),
    };
    let title = say::title(&kept.number);
    let mut asked: Vec<(&str, &str)> = Vec::new();
    for (name, typed) in [("clean_up", clean_up), ("lead_weeks", weeks)] {
        if !typed.is_empty() {
            asked.push((name, typed));
        }
    }
    let paper = format!(
        "/print/tires/{}?{}",
        kept.number,
        serde_html_form::to_string(&asked).unwrap_or_default()
    );
    let body = html! {
        h1 { (title) }
        @if let Some(said) = &said { (trouble::said(said)) }
        p { a href=(paper) { (say::PRINT) } " · " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } " · " a href="/sheet/running.tire_set" { (say::SHEET) } }
        @for said in say::CAUTIONS { p class="small quiet" { (said) } }
        section class="ruled" {
            h2 { (say::WHEELS) }
            @for said in say::stands(&set) { p { (said) } }
            (table(&set, say::WHEEL_HEADS, say::wheel))
            (missing(&set))
            @if let Some(line) = rule_held::line(view.book, view.rules, set.used.iter().map(|(rule, version)| (rule.as_str(), *version))) { p class="small need" { (line) } }
        }
        (form(clean_up, weeks))
        section class="ruled" {
            h2 { (say::CUT) }
            @for said in say::proposal(&set) { p { (said) } }
            @if set.wheels.iter().any(|it| !it.cut.is_empty()) { (table(&set, say::CUT_HEADS, say::cut)) }
        }
        section class="ruled" { h2 { (say::LASTS) } ul class="plain" { @for said in say::lasts(&set) { li { (said) } } } }
        @if let Some(tree) = picture(&set) {
            section class="ruled" {
                h2 { (say::MOVES) }
                p class="small quiet" { (say::ARROWS) }
                div class="drawn map" tabindex="0" role="group" aria-label=(tree.told) { (PreEscaped(tree.svg())) }
            }
        }
        @for said in &set.notices { p class="small need" { (said) } }
    };
    Ok(Drawn::new("/", title, body))
}

fn table(set: &TireSet, heads: &[&str], cells: fn(&TireWheel) -> Vec<String>) -> Markup {
    html! {
        div class="table" { table class="stack threes" {
            thead { tr { @for head in heads { th { (head) } } } }
            tbody { @for wheel in &set.wheels { tr { @for (at, (head, cell)) in heads.iter().zip(cells(wheel)).enumerate() {
                td data-label=(head) { @if at == 0 { b { (cell) } } @else { (cell) } }
            } } } }
        } }
    }
}

fn missing(set: &TireSet) -> Markup {
    html! { @if !set.missing.is_empty() {
        h3 { (say::MISSING) }
        ul class="plain" { @for it in &set.missing { li class="need" { (kit::sentence(it)) } } }
    } }
}

fn form(clean_up: &str, weeks: &str) -> Markup {
    html! {
        form class="act" method="get" {
            h2 { (say::ASK) }
            label for="tires-clean-up" { (say::CLEAN_UP) " " span class="quiet" { (say::CLEAN_UP_HINT) } }
            input type="text" id="tires-clean-up" name="clean_up" value=(clean_up) autocomplete="off";
            label for="tires-lead" { (say::LEAD) }
            input type="text" inputmode="numeric" id="tires-lead" name="lead_weeks" value=(weeks) autocomplete="off";
            button { (say::ASK_IT) }
        }
    }
}
