//! What a shop works every year: sheets, figures of law, and what is not on file.

use maud::html;
use shop::ruled::yearly::yearly;

use super::Drawn;
use crate::Failure;
use crate::words::year_work as say;

pub fn draw() -> Result<Drawn, Failure> {
    let [work, sheets, rules, lacks] = say::HEADS;
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        div class="table" { table class="stack" {
            thead { tr { th { (work) } th { (sheets) } th { (rules) } th { (lacks) } } }
            tbody { @for it in yearly()? { tr {
                td class="head" data-label=(work) { b { (it.work) } }
                td data-label=(sheets) {
                    @if it.sheets.is_empty() { span class="need" { (say::NO_SHEET) } }
                    @for id in &it.sheets { div { a href=(format!("/sheet/{id}")) { (id) } } }
                }
                td data-label=(rules) { @for id in &it.rules { div { a href=(format!("/rule/{id}")) { (id) } } } }
                td data-label=(lacks) { (it.lacks) }
            } } }
        } }
    };
    Ok(Drawn::new("/sheets", say::TITLE, body))
}
