//! What stands on the law's papers of the shop and of each engine: owner, railroad, place; and what nobody stated.

use maud::{Markup, html};
use shop::book::{Authority, Locomotive, LocomotiveId, Particular};
use shop::locomotive::engines;
use shop::record::{PARTICULARS, SHOP_RULES};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::wall;
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
            (kit::engine_options(view, draft("engine")))
        }
    };
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::MEANS) }
        section class="ruled" { dl class="facts" { @for (word, means, _) in PARTICULARS {
            dt { (means) }
            @for (whose, said) in told(view, &all, word) {
                dd {
                    @if let Some(number) = whose { (words::engine(number)) ": " }
                    @match said {
                        Some(it) => { (say::line(&it.says, it.from, kit::name(view.book, it.by))) }
                        None => span class="quiet" { (say::NOT_STATED) },
                    }
                }
            }
        } } }
        @if may { (kit::form(view, VERB, say::STATE, &fields, say::STATE_IT)) } @else { p class="need" { (say::MAY_NOT) } }
        section class="ruled" {
            h2 { (say::OWN_RULES) }
            p class="quiet small" { (say::OWN_RULES_MEAN) }
            @for (word, means) in SHOP_RULES { (own_rule(view, word, means, may)) }
        }
    };
    Ok(Drawn::new("/", say::TITLE, body))
}

/// What is said of one word: once where it is the same of every engine, else of each.
fn told<'b>(
    view: &View<'b>,
    all: &[(LocomotiveId, &'b Locomotive)],
    word: &str,
) -> Vec<(Option<&'b str>, Option<&'b Particular>)> {
    let each = all.iter().map(|(_, kept)| {
        let said = view.book.particular(kept, word, view.on);
        (Some(kept.number.as_str()), said)
    });
    let each: Vec<_> = each.collect();
    let alike = each.windows(2).all(|two| match two {
        [one, other] => one.1 == other.1,
        _ => true,
    });
    match each.first() {
        Some((_, said)) if alike => vec![(None, *said)],
        _ => each,
    }
}

/// A rule of the shop's own work: whether it holds, since when and why, and the form that changes it.
fn own_rule(view: &View<'_>, word: &str, means: &str, may: bool) -> Markup {
    let shop = view.book.shop.as_ref();
    let holds = shop.and_then(|shop| shop.rule(word, view.on));
    let (verb, title, button) = match holds {
        Some(_) => ("shop drop", say::DROP, say::DROP_IT),
        None => ("shop require", say::REQUIRE, say::REQUIRE_IT),
    };
    let fields = html! {
        (kit::hidden("rule", word))
        (kit::line(view, verb, "because", say::BECAUSE, ""))
    };
    html! {
        p { (words::sentence(means)) "." }
        @match holds {
            Some(rule) => p {
                (say::holds(rule.on, kit::name(view.book, rule.by), &rule.told.because))
                @if let Some((path, _)) = wall::PAGES.iter().find(|(_, opens)| *opens == word) { " " a href=(path) { (words::wall::READ_IT) } }
            },
            None => p class="quiet" { (say::HOLDS_NOT) },
        }
        @if may { details open[view.draft.is_of(verb)] { summary { (title) } (kit::signed(view, verb, title, &fields, button)) } }
    }
}
