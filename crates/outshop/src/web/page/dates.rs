//! Every deadline on one page: what cannot be told, what is past, what is to come, with the way to each reason.

use maud::{Markup, html};
use shop::locomotive::engine;
use shop::report::{Deadline, Reach, deadlines};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, dates as say, tag};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let wanted = view.asked("engine");
    let only = if wanted.is_empty() {
        None
    } else {
        Some(engine(view.book, wanted)?.0)
    };
    let all = deadlines(view.book, view.rules, view.on, only)?;
    let number = (!wanted.is_empty()).then_some(wanted);
    let calendar = match number {
        Some(number) => format!("/print/calendar/{}", kit::encode(number)),
        None => "/print/calendar".into(),
    };
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::lead(view.on, number)) }
        form class="seek" method="get" action="/dates" {
            label for="dates-engine" { (say::ENGINE) }
            select id="dates-engine" name="engine" {
                option value="" selected[wanted.is_empty()] { (say::EVERY_ENGINE) }
                (kit::engine_options(view, wanted))
            }
            button { (say::SHOW) }
        }
        p class="small" { a href=(calendar) { (say::CALENDAR) } }
        (super::letter::due(view, only))
        @if all.is_empty() { p { (say::NONE) } }
        @for reach in [Reach::CannotTell, Reach::Past, Reach::Ahead, Reach::NoDay] {
            @let here: Vec<&Deadline> = all.iter().filter(|one| one.reach == reach).collect();
            @if !here.is_empty() { (section(reach, &here)) }
        }
    };
    Ok(Drawn::new("/dates", say::TITLE, body))
}

fn section(reach: Reach, here: &[&Deadline]) -> Markup {
    let pressing = matches!(reach, Reach::CannotTell | Reach::Past);
    html! {
        section class="ruled" {
            h2 { (say::reach(reach)) }
            div class="table" { table class="stack" {
                thead { tr { th { (say::DAY) } th { (say::ENGINE) } th { (say::WHAT) } th { (say::WHY) } th { (say::RULE) } } }
                tbody { @for one in here { tr {
                    td class="whole" data-label=(say::DAY) { span class=(if pressing { "need" } else { "" }) { (say::day(one)) } }
                    td class="whole" data-label=(say::ENGINE) { a href=(format!("/engine/{}", one.number)) { (words::engine(&one.number)) } }
                    td data-label=(say::WHAT) { b { (say::what(one)) } }
                    td data-label=(say::WHY) {
                        (kit::sentence(&one.why)) " "
                        @if let Some(number) = one.finding { a href=(format!("/finding/{}", tag::finding(number))) { (tag::finding(number)) } }
                        @else if !say::names_itself(one) { a href=(format!("/ahead/{}", one.number)) { (say::LOOK_AHEAD) } }
                    }
                    td class="whole" data-label=(say::RULE) { @if let Some(ruling) = &one.ruling { a href=(format!("/rule/{}", ruling.rule)) { (ruling.cite.section) } } }
                } } }
            } }
        }
    }
}
