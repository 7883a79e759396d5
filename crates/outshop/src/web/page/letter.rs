//! Letters: all of them with what they promise, and one with its scans and its answer.

use maud::{Markup, html};
use shop::book::{Letter, LetterId, LocomotiveId};
use shop::locomotive::{LetterStanding, letter, letter_stands, open_letters};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::letter::{about, by_need, promise};
use crate::web::photo;
use crate::words::{self, letter as say, tag};

pub fn list(view: &View<'_>) -> Drawn {
    let all = by_need(view.book, view.on);
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        @if all.is_empty() { p { (say::NONE_YET) } }
        ul class="plain" { @for (_, kept) in &all { li {
            (link(kept)) " " (say::head(kept))
            @for told in about(view.book, kept) { " " span class="quiet" { (told) } }
            (promised(view, kept))
        } } }
        (log(view))
    };
    Drawn::new("/work", say::TITLE, body)
}

fn link(kept: &Letter) -> Markup {
    let number = tag::letter(kept.number);
    html! { a href=(format!("/letter/{number}")) { b { (number) } } }
}

/// What it promises; one that is overdue needs a person.
fn promised(view: &View<'_>, kept: &Letter) -> Markup {
    let overdue = letter_stands(kept, view.on) == LetterStanding::Overdue;
    html! { @if let Some(told) = promise(view.book, kept, view.on) { br; span class=(if overdue { "need" } else { "" }) { (words::sentence(&told)) } } }
}

fn fold(view: &View<'_>, verb: &str, title: &str, fields: &Markup, button: &str) -> Markup {
    html! { details open[view.draft.is_of(verb)] { summary { (title) } (kit::form(view, verb, title, fields, button)) } }
}

fn log(view: &View<'_>) -> Markup {
    const VERB: &str = "letter log";
    let ways = [("from", say::CAME), ("to", say::WENT)];
    let fields = html! {
        (kit::hidden("then", "letter"))
        (kit::choices(view, VERB, "way", say::WAY, &ways))
        (kit::line(view, VERB, "whom", say::WITH, say::WITH_TELLS))
        (kit::lines(view, VERB, "what", say::WHAT, ""))
        (kit::day(view, VERB, "dated", say::DATED))
        div class="grid2" {
            div { (kit::line(view, VERB, "engine", say::ENGINE, "")) }
            div { (kit::line(view, VERB, "finding", say::FINDING, "")) }
        }
        (kit::line(view, VERB, "job", say::JOB, ""))
        (kit::line(view, VERB, "we_promise", say::WE_PROMISE, ""))
        (kit::line(view, VERB, "they_promise", say::THEY_PROMISE, ""))
        (kit::day(view, VERB, "until", say::UNTIL))
    };
    fold(view, VERB, say::LOG, &fields, say::LOG_IT)
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = letter(view.book, number)?;
    let number = tag::letter(kept.number);
    let open = letter_stands(kept, view.on) <= LetterStanding::NoDay;
    let body = html! {
        h1 { (number) }
        p class="lead" { (say::head(kept)) }
        p class="quiet small" { (say::entered(kit::name(view.book, kept.entered_by))) }
        (of_things(view, kept))
        @if promise(view.book, kept, view.on).is_some() { p { (promised(view, kept)) } }
        @if open { (answer(view, &number)) }
        (photo::of_letter(view, id, &number))
        p { a href="/letters" { (say::TITLE) } }
    };
    Ok(Drawn::new("/work", number.clone(), body))
}

/// The ways to what it is about.
fn of_things(view: &View<'_>, kept: &Letter) -> Markup {
    let book = view.book;
    html! { p {
        @if let Some(engine) = kept.engine.and_then(|id| book.locomotives.get(&id)) { a href=(format!("/engine/{}", engine.number)) { (words::engine(&engine.number)) } " " }
        @if let Some(finding) = kept.logged.finding.and_then(|id| book.findings.get(&id)) { @let number = tag::finding(finding.number); a href=(format!("/finding/{number}")) { (number) } " " }
        @if let Some(job) = kept.logged.job.and_then(|id| book.jobs.get(&id)) { @let number = tag::job(job.number); a href=(format!("/job/{number}")) { (number) } }
    } }
}

fn answer(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "letter answer";
    let fields = html! {
        (kit::hidden("number", number))
        (kit::lines(view, VERB, "told", say::TOLD, ""))
        (kit::line(view, VERB, "letter", say::BY_LETTER, say::BY_LETTER_TELLS))
    };
    fold(view, VERB, say::ANSWER, &fields, say::ANSWER_IT)
}

/// What is promised in letters and not answered, for the page of deadlines; nothing where nothing is.
pub fn due(view: &View<'_>, only: Option<LocomotiveId>) -> Markup {
    let all = open_letters(view.book, view.on, only);
    html! { @if !all.is_empty() { section class="ruled" {
        h2 { (say::DUE) }
        div class="table" { table class="stack" {
            thead { tr { th { (words::dates::DAY) } th { (say::OWED) } th { (words::dates::WHAT) } th { (say::NUMBER) } } }
            tbody { @for (kept, stands) in all { @if let Some(promised) = &kept.logged.promised { tr {
                td class="whole" data-label=(words::dates::DAY) { span class=(if stands == LetterStanding::Overdue { "need" } else { "" }) { (say::until(promised)) } }
                td class="whole" data-label=(say::OWED) { (say::owed(promised)) }
                td data-label=(words::dates::WHAT) { (promised.what) }
                td data-label=(say::NUMBER) { (link(kept)) " " (say::head(kept)) @for told in about(view.book, kept) { " " span class="quiet" { (told) } } }
            } } } }
        } }
    } } }
}

/// The letters about a finding or a job; nothing where there are none.
pub fn about_it(view: &View<'_>, is_about: impl Fn(&Letter) -> bool) -> Markup {
    let all: Vec<(LetterId, &Letter)> = by_need(view.book, view.on)
        .into_iter()
        .filter(|(_, kept)| is_about(kept))
        .collect();
    html! { @if !all.is_empty() { section class="ruled" {
        h2 { (say::TITLE) }
        ul class="plain" { @for (_, kept) in &all { li { (link(kept)) " " (say::head(kept)) (promised(view, kept)) } } }
    } } }
}
