//! Instruments: all of them with their last check, and one with its checks and every reading in doubt.

use maud::{Markup, html};
use shop::locomotive::{doubted, doubts, instrument};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, instrument as say, part as parts};

pub fn list(view: &View<'_>) -> Drawn {
    let mut all: Vec<_> = view.book.instruments.values().collect();
    all.sort_by_key(|kept| (kept.number.len(), kept.number.clone()));
    const VERB: &str = "instrument add";
    let fields = html! {
        (kit::line(view, VERB, "number", say::NUMBER, say::NUMBER_TELLS))
        (kit::line(view, VERB, "what", say::WHAT, say::WHAT_TELLS))
        (kit::line(view, VERB, "range", say::RANGE, say::RANGE_TELLS))
        (kit::line(view, VERB, "shelf", say::SHELF, ""))
    };
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        @if all.is_empty() { p { (say::NONE) } }
        ul class="plain" { @for kept in all { li {
            a href=(format!("/instrument/{}", kit::encode(&kept.number))) { b { (kept.number) } } " " (say::line(kept))
        } } }
        details open[view.draft.is_of(VERB)] { summary { (say::ADD) } (kit::form(view, VERB, say::ADD, &fields, say::ADD_IT)) }
    };
    Drawn::new("/work", say::TITLE, body)
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = instrument(view.book, number)?;
    let body = html! {
        h1 { (kept.number) }
        p class="lead" { (say::line(kept)) }
        @for doubt in doubts(kept) { p class="need" { (words::sentence(&say::doubt(&doubt))) } }
        (in_doubt(view, kept))
        section class="ruled" {
            h2 { (say::CHECKS) }
            @if kept.checks.is_empty() { p { (words::sentence(say::NEVER_CHECKED)) } }
            ul class="plain" { @for check in kept.checks.iter().rev() { li { (say::check(check, kit::name(view.book, check.by))) } } }
        }
        (check(view, &kept.number))
        p { a href="/instruments" { (say::TITLE) } }
    };
    Ok(Drawn::new("/work", kept.number.clone(), body))
}

fn in_doubt(view: &View<'_>, kept: &shop::book::Instrument) -> Markup {
    let all = doubted(view.book, kept);
    html! {
        @if !all.is_empty() {
            section class="ruled" {
                h2 { (say::in_doubt(all.len())) }
                div class="table" { table class="stack" {
                    thead { tr { th { (say::DAY) } th { (say::PART) } th { (say::READING) } th { (say::STATE) } } }
                    tbody { @for (part, set, read) in &all {
                        @let part = view.book.parts.get(part);
                        @let number = part.map_or("?", |part| kit::number(view.book, part.locomotive));
                        @let name = part.map_or("?", |part| part.name.as_str());
                        tr {
                            td data-label=(say::DAY) { (words::day(set.on)) }
                            td data-label=(say::PART) { a href=(format!("{}#entry-{}", kit::part_path(number, name), set.entry)) { (words::engine(number)) " " (name) } }
                            td data-label=(say::READING) { (read.feature) " " span class="quiet" { (read.reading.position) } " " span class="fig" { (read.reading.written()) } }
                            td data-label=(say::STATE) { (words::state(set.state)) }
                        }
                    } }
                } }
            }
        }
    }
}

fn check(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "instrument check";
    let chosen = view.draft.value(VERB, "choice");
    let fields = html! {
        (kit::hidden("number_text", number))
        label class="choice" { input type="radio" name="choice" value="good" checked[chosen == "good"] required; span { (say::GOOD) } }
        label class="choice" { input type="radio" name="choice" value="wrong" checked[chosen == "wrong"]; span { (say::WRONG) } }
        (kit::line(view, VERB, "against", say::AGAINST, say::AGAINST_TELLS))
        (kit::line(view, VERB, "error", say::ERROR, say::ERROR_TELLS))
        (kit::line(view, VERB, "told", parts::SEEN, ""))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::CHECK) } (kit::form(view, VERB, say::CHECK, &fields, say::KEEP_CHECK)) } }
}
