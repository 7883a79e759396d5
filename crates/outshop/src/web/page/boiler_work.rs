//! Welding and riveting on a boiler: the questions as a form, the answer by stage.

use maud::{Markup, html};
use shop::boiler_work::{Before, Question, Stage};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::boiler_work::{BoilerWork, Worked, goes};
use crate::web::form::value;
use crate::words::{self, boiler_work as say};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let mut asked = BoilerWork::default();
    for (word, text) in &view.query {
        asked.put(word, text);
    }
    let worked = (asked != BoilerWork::default())
        .then(|| asked.worked(view.book, view.rules, view.on, view.house));
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        div class="sheet" {
            (form(view))
            div { @match &worked {
                None => p class="quiet" { (say::FILL_IN) },
                Some(Ok(worked)) => (answer(worked)),
                Some(Err(why)) => (crate::web::trouble::said(&why.to_string())),
            } }
        }
        p class="quiet small" { (say::WHOSE) }
    };
    Ok(Drawn::new("/sheets", say::TITLE, body))
}

fn form(view: &View<'_>) -> Markup {
    html! {
        form class="act" method="get" action="/boiler-work" {
            h2 { (say::ASKED) }
            @for question in Question::ALL {
                @let id = kit::id("boiler-work", question.word());
                @let typed = value(&view.query, question.word());
                label for=(id) { (words::sentence(question.asks())) }
                @if question.choices().is_empty() {
                    input type="text" id=(id) name=(question.word()) value=(typed) autocomplete="off";
                } @else {
                    select id=(id) name=(question.word()) {
                        option value="" { (say::NOT_KNOWN) }
                        @for choice in question.choices() { option selected[typed == *choice] { (choice) } }
                        @if !typed.is_empty() && !question.choices().contains(&typed) { option selected { (typed) } }
                    }
                }
            }
            @let id = kit::id("boiler-work", "engine");
            label for=(id) { (say::ENGINE) }
            select id=(id) name="engine" {
                option value="" { (say::NOT_KNOWN) }
                (kit::engine_options(view, value(&view.query, "engine")))
            }
            button { (say::ASK) }
        }
    }
}

fn answer(worked: &Worked) -> Markup {
    let before = worked.asked.before();
    let class = match before {
        Before::NoApproval => "said",
        Before::Forbidden | Before::Approval | Before::CannotTell(_) => "need",
    };
    html! {
        p class=(class) { (say::before(&before)) }
        @for stage in [Stage::Never, Stage::Approval, Stage::Standard, Stage::Test, Stage::Report, Stage::Keep] {
            @let of_it: Vec<_> = worked.asked.duties.iter().filter(|duty| duty.stage == stage).collect();
            @if !of_it.is_empty() {
                h2 { (say::stage(stage)) }
                div class="table" { table class="stack" {
                    thead { tr { th { (say::ASKS) } th { (say::STANDS_IN) } } }
                    tbody { @for duty in of_it { tr {
                        td data-label=(say::ASKS) {
                            b { (duty.ruling.title) } ". " (duty.says())
                            @if let Some(goes) = goes(duty) { " " (words::sentence(&goes)) }
                            @if !duty.open.is_empty() { p class="need" { (words::sentence(&say::hangs_on(&duty.open))) } }
                        }
                        td data-label=(say::STANDS_IN) { a href=(format!("/rule/{}", duty.ruling.rule)) { (duty.ruling.cite.section) } " " span class="quiet small" { (duty.ruling.mark) } }
                    } } }
                } }
                @if stage == Stage::Test { @if let Some(pressure) = &worked.pressure { p { (pressure) } } }
                @if stage == Stage::Report { p class="quiet small" { (say::SIGNER) } }
            }
        }
        ul class="caution" { li { (say::CAUTION) } li { (words::STANDING) } }
    }
}
