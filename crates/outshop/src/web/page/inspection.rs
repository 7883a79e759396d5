//! An inspection being answered: every item says what was seen, and there is no one word for all.

use maud::{Markup, html};
use shop::book::{Answer, FindingState, Inspection};
use shop::inspection::unmet;
use shop::locomotive::inspection;

use super::{Drawn, View, kit};
use crate::{Failure, words};

const VERB: &str = "inspect answer";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = inspection(view.book, number)?;
    let title = format!("I-{:03}", kept.number);
    let missing = unmet(view.book, kept);
    let open = kept
        .items
        .iter()
        .filter(|i| !kept.answers.contains_key(&i.rule))
        .count();
    let body = html! {
        h1 { (title) ": the " (kept.kind) " of No. " (kit::number(view.book, kept.locomotive)) }
        p class="lead" {
            "Opened " (words::day(kept.opened_on)) " by " (kit::name(view.book, kept.opened_by)) ". "
            @match kept.closed {
                Some((day, by)) => { "Closed " (words::day(day)) " and signed by " (kit::name(view.book, by)) "." }
                None => { (open) " of " (kept.items.len()) " items are not answered." }
            }
        }
        @if kept.closed.is_none() { (next(view, kept, &title)) }
        section class="ruled" {
            h2 { "Items" }
            ol { @for item in &kept.items { li id=(anchor(&item.rule)) { (answered(view, kept, &item.rule, &item.text, &item.section)) } } }
        }
        @if kept.closed.is_none() {
            section class="ruled" {
                h2 { "Close and sign" }
                @if missing.is_empty() { p { "Every item is answered." } (kit::form(view, "inspect close", "Close it", &kit::hidden("inspection", &title), "Close and sign")) }
                @else { ul { @for line in &missing { li { (line) } } } }
            }
        }
    };
    Ok(Drawn::new("/work", title, body))
}

fn anchor(rule: &str) -> String {
    kit::id("item", rule)
}

fn answered(view: &View<'_>, kept: &Inspection, rule: &str, text: &str, section: &str) -> Markup {
    html! {
        p { (text) " " a class="small quiet" href=(format!("/rule/{rule}")) { (section) } }
        @match kept.answers.get(rule) {
            None => p { span class="verdict unknown" { "not answered" } @if kept.closed.is_none() { " " a href=(format!("{}?item={rule}", view.path)) { "Answer it" } } },
            Some(given) => p class="told" {
                @match &given.answer {
                    Answer::Good => { span class="verdict complies" { "good" } }
                    Answer::NotFitted => { span class="verdict complies" { "not fitted" } }
                    Answer::Defect { finding } => {
                        @let found = view.book.findings.get(finding);
                        @let settled = found.is_some_and(|f| matches!(f.state, FindingState::Closed | FindingState::Carried));
                        span class=(if settled { "verdict complies" } else { "verdict fails" }) { "defect" }
                        @if let Some(f) = found { " " a href=(format!("/finding/F-{:03}", f.number)) { "F-" (format!("{:03}", f.number)) } }
                    }
                }
                " " (given.seen) " " span class="quiet small" { (words::day(given.on)) " by " (kit::name(view.book, given.by)) }
            },
        }
    }
}

/// The form for the item asked for, else the next one nobody has answered.
fn next(view: &View<'_>, kept: &Inspection, title: &str) -> Markup {
    let drafted = view.draft.value(VERB, "item");
    let asked = if drafted.is_empty() {
        view.query
            .iter()
            .find(|(name, _)| name == "item")
            .map_or("", |(_, v)| v.as_str())
    } else {
        drafted
    };
    let chosen = kept.items.iter().enumerate().find(|(_, i)| i.rule == asked);
    let item = chosen.or_else(|| {
        kept.items
            .iter()
            .enumerate()
            .find(|(_, i)| !kept.answers.contains_key(&i.rule))
    });
    let Some((at, item)) = item else {
        return html! {};
    };
    let mut findings: Vec<_> = view
        .book
        .findings
        .values()
        .filter(|f| f.locomotive == kept.locomotive && f.state != FindingState::Closed)
        .collect();
    findings.sort_by_key(|f| f.number);
    let choice = view.draft.value(VERB, "choice");
    let fields = html! {
        (kit::hidden("inspection", title))
        (kit::hidden("item", &item.rule))
        p { (item.text) " " span class="quiet small" { (item.section) } }
        fieldset {
            legend { "It is" }
            label class="choice" { input type="radio" name="choice" value="good" checked[choice == "good"]; span { "good: looked at, no defect" } }
            @if item.fitting.is_some() { label class="choice" { input type="radio" name="choice" value="not_fitted" checked[choice == "not_fitted"]; span { "not fitted on this engine" } } }
        }
        @if !findings.is_empty() {
            label for="answer-defect" { "or a defect, recorded as" }
            select id="answer-defect" name="defect" {
                option value="" { "no defect" }
                @for f in &findings { option value=(format!("F-{:03}", f.number)) selected[view.draft.value(VERB, "defect") == format!("F-{:03}", f.number)] { "F-" (format!("{:03}", f.number)) ": " (view.book.parts.get(&f.part).map_or("?", |p| p.name.as_str())) } }
            }
        }
        (kit::lines(view, VERB, "seen", "What was seen", ""))
    };
    kit::form(
        view,
        VERB,
        &format!("Item {} of {}", at + 1, kept.items.len()),
        &fields,
        "Answer it",
    )
}
