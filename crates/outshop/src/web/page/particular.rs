//! What stands on the law's papers of the shop and of each engine: owner, railroad, place; and what nobody stated.

use maud::html;
use shop::book::Authority;
use shop::locomotive::engines;
use shop::record::PARTICULARS;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, particular as say};

const VERB: &str = "shop state";

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let may = view.may(Authority::Approve);
    let all = engines(view.book);
    let draft = |name: &str| view.draft.value(VERB, name);
    let fields = html! {
        label for="state-what" { (say::WHAT) }
        select id="state-what" name="what" { @for (word, means, _) in PARTICULARS { option value=(word) selected[draft("what") == *word] { (means) } } }
        (kit::line(view, VERB, "says", say::SAYS, ""))
        label for="state-engine" { (say::OF) }
        select id="state-engine" name="engine" {
            option value="" { (say::ALL) }
            @for (_, kept) in &all { option value=(kept.number) selected[draft("engine") == kept.number] { (words::engine(&kept.number)) } }
        }
    };
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::MEANS) }
        @for (_, kept) in &all {
            section class="ruled" {
                h2 { (words::engine(&kept.number)) }
                dl class="facts" { @for (word, means, _) in PARTICULARS {
                    dt { (means) }
                    dd { @match view.book.particular(kept, word, view.on) {
                        Some(it) => { (say::line(&it.says, it.from, kit::name(view.book, it.by))) }
                        None => span class="quiet" { (say::NOT_STATED) },
                    } }
                } }
            }
        }
        @if may { (kit::form(view, VERB, say::STATE, &fields, say::STATE_IT)) } @else { p class="need" { (say::MAY_NOT) } }
    };
    Ok(Drawn::new("/", say::TITLE, body))
}
