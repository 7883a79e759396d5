//! What a crew wrote up, and what came of it once somebody who may inspect had looked.

use maud::html;
use shop::book::FindingState;
use shop::finding::symptom;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, day as say, tag};

const VERB: &str = "writeup answer";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, report, _, told) = symptom(view.book, number)?;
    let title = tag::write_up(told.number);
    let her = kit::number(view.book, report.locomotive);
    let mut findings: Vec<_> = view.book.findings.values().collect();
    findings.retain(|f| f.locomotive == report.locomotive && f.state != FindingState::Closed);
    findings.sort_by_key(|f| f.number);
    let fields = html! {
        (kit::hidden("write_up", &title))
        label class="choice" { input type="checkbox" name="no_defect" value="yes" checked[view.draft.value(VERB, "no_defect") == "yes"]; span { (say::NO_DEFECT) } }
        label for="answer-finding" { (say::OR_FINDING) }
        select id="answer-finding" name="finding" {
            option value="" { (say::NOT_CHOSEN) }
            @for f in &findings {
                @let tag = tag::finding(f.number);
                option value=(tag) selected[view.draft.value(VERB, "finding") == tag] { (words::inspection::finding(&tag, &f.told)) }
            }
        }
        p class="quiet small" { (say::RECORD_FIRST) " " a href=(format!("/engine/{her}")) { (say::HER_PARTS) } }
        (kit::lines(view, VERB, "seen", words::inspection::SEEN, ""))
    };
    let body = html! {
        h1 { (say::write_up(&title, her)) }
        p class="lead" { (say::written(report.on, kit::name(view.book, report.by))) " " a href=(format!("/day/{her}")) { (say::HER_DAY) } }
        p class="told" { (words::sentence(&say::symptom(&told.symptom))) }
        @if let Some(more) = &report.told { p { (more) } }
        @match &told.looked {
            Some(it) => {
                p {
                    (say::came_of_it(it.on, kit::name(view.book, it.by), &it.seen)) " "
                    @match it.finding.and_then(|id| view.book.findings.get(&id)) {
                        Some(f) => a href=(format!("/finding/{}", tag::finding(f.number))) { (tag::finding(f.number)) },
                        None => b { (say::NO_DEFECT) },
                    }
                }
            }
            None => { p class="need" { (words::sentence(say::NOT_LOOKED_AT)) } (kit::form(view, VERB, say::ANSWER, &fields, say::ANSWER_IT)) }
        }
    };
    Ok(Drawn::new("/work", title, body))
}
