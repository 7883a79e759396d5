//! An inspection being answered: every item says what was seen, and there is no one word for all.

use maud::{Markup, html};
use shop::book::{Answer, FindingState, Inspection};
use shop::inspection::unmet;
use shop::locomotive::inspection;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::print;
use crate::words::{inspection as say, tag};

const VERB: &str = "inspect answer";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = inspection(view.book, number)?;
    let title = tag::inspection(kept.number);
    let missing = unmet(view.book, kept);
    let open = kept
        .items
        .iter()
        .filter(|i| !kept.answers.contains_key(&i.rule))
        .count();
    let body = html! {
        h1 { (say::head(&title, &kept.kind, kit::number(view.book, kept.locomotive))) }
        p class="lead" {
            (say::opened(kept.opened_on, kit::name(view.book, kept.opened_by)))
            @match kept.closed {
                Some((day, by)) => { (say::closed(day, kit::name(view.book, by))) }
                None if !kept.is_open() => b { (say::not_completed(view.book, kept)) },
                None => { (say::left(open, kept.items.len())) }
            }
        }
        (print::inspection_links(kit::number(view.book, kept.locomotive), &kept.kind, &title, kept.is_open()))
        @if kept.is_open() { (next(view, kept, &title)) }
        section class="ruled" {
            h2 { (say::ITEMS) }
            ol { @for item in &kept.items { li id=(anchor(&item.rule)) { (answered(view, kept, &item.rule, &item.text, &item.section)) } } }
        }
        @if kept.is_open() {
            section class="ruled" {
                h2 { (say::CLOSE) }
                @if missing.is_empty() { p { (say::ALL_ANSWERED) } (kit::signed(view, "inspect close", say::CLOSE_IT, &html! { (kit::hidden("inspection", &title)) (kit::made(view, "inspect close")) }, say::CLOSE)) }
                @else { ul { @for line in &missing { li { (line) } } } (kit::put_away(view, kept)) }
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
            None => p { span class="verdict unknown" { (say::NOT_ANSWERED) } @if kept.is_open() { " " a href=(format!("{}?item={rule}", view.path)) { (say::ANSWER_IT) } } },
            Some(given) => p class="told" {
                @match &given.answer {
                    Answer::Good | Answer::NotFitted => { span class="verdict complies" { (say::answer(given)) } }
                    Answer::Defect { finding } => {
                        @let found = view.book.findings.get(finding);
                        @let settled = found.is_some_and(|f| matches!(f.state, FindingState::Closed | FindingState::Carried));
                        span class=(if settled { "verdict complies" } else { "verdict fails" }) { (say::answer(given)) }
                        @if let Some(f) = found { " " a href=(format!("/finding/{}", tag::finding(f.number))) { (tag::finding(f.number)) } }
                    }
                }
                " " (given.seen) " " span class="quiet small" { (say::by(given.on, kit::name(view.book, given.by))) }
            },
        }
    }
}

/// The form for the item asked for, else the next one nobody has answered.
fn next(view: &View<'_>, kept: &Inspection, title: &str) -> Markup {
    let drafted = view.draft.value(VERB, "item");
    let asked = if drafted.is_empty() {
        view.asked("item")
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
            legend { (say::IT_IS) }
            label class="choice" { input type="radio" name="choice" value="good" checked[choice == "good"]; span { (say::GOOD_MEANS) } }
            label class="choice" { input type="radio" name="choice" value="fair" checked[choice == "fair"]; span { (say::FAIR_MEANS) } }
            @if item.fitting.is_some() { label class="choice" { input type="radio" name="choice" value="not_fitted" checked[choice == "not_fitted"]; span { (say::NOT_FITTED_MEANS) } } }
        }
        @if !findings.is_empty() {
            label for="answer-defect" { (say::OR_DEFECT) }
            select id="answer-defect" name="defect" {
                option value="" { (say::NO_DEFECT) }
                @for f in &findings { @let tag = tag::finding(f.number);
                    option value=(tag) selected[view.draft.value(VERB, "defect") == tag] { (say::finding(&tag, view.book.parts.get(&f.part).map_or("?", |p| p.name.as_str()))) } }
            }
        }
        (kit::lines(view, VERB, "seen", say::SEEN, ""))
    };
    kit::form(
        view,
        VERB,
        &say::item(at + 1, kept.items.len()),
        &fields,
        say::ANSWER_IT,
    )
}
