//! On the page of a rule: who held each version against the official text, and the form to do so.

use maud::{Markup, html};
use rules::{Rule, Version};
use shop::book::Authority;
use shop::locomotive::{Checking, checking, held_before_it_changed, holdings};

use super::{View, kit};
use crate::verb::rule::every;
use crate::verb::rule_held::standing;
use crate::words::{self, held as say};

const VERB: &str = "rule hold";

/// What this shop's people make of a version, each one's word, and the form.
pub fn of(view: &View<'_>, rule: &Rule, version: &Version) -> Markup {
    let stands = checking(view.book, &rule.id, version);
    let all = holdings(view.book, &rule.id, version);
    let older = held_before_it_changed(view.book, &rule.id, version);
    let may = view.may(Authority::Inspect);
    let number = version.number.to_string();
    // Of several forms on the page only the one that was refused is filled in again.
    let refused = view.draft.is_of(VERB) && view.draft.value(VERB, "version") == number;
    let fields = html! {
        p class="quiet small" { (say::ASK_MEANS) }
        (kit::hidden("id", &rule.id))
        (kit::hidden("version", &number))
        (field(view, refused, &number, "against", say::AGAINST, say::AGAINST_HINT, false))
        (field(view, refused, &number, "agrees", say::SEEN, say::SEEN_HINT, true))
        (field(view, refused, &number, "differs", say::DIFFERS, say::DIFFERS_HINT, true))
        // The page has a form for each version, and each its own field.
        (kit::sign_with(&format!("{VERB}-{number}")))
    };
    html! {
        h3 { (say::HELD) }
        p class=(tone_of(&stands)) { (words::sentence(&standing(view.book, &stands))) }
        @if all.is_empty() { p class="quiet small" { (say::NOBODY) } }
        @else { ul class="plain small" { @for held in &all { li {
            (say::word(kit::name(view.book, held.by), held.on, held.told.agrees, &held.told.against, &held.told.seen, held.entry))
        } } } }
        @if !older.is_empty() { ul class="plain small quiet" { @for held in &older { li {
            (say::of_another_wording(kit::name(view.book, held.by), held.on))
        } } } }
        @if may { (kit::form(view, VERB, say::ASK, &fields, say::SIGN)) }
        @else { p class="quiet small" { (kit::worded(say::WHO_MAY)) } }
    }
}

/// A field of the form of one version: the page has a form for each.
fn field(
    view: &View<'_>,
    refused: bool,
    version: &str,
    name: &str,
    label: &str,
    hint: &str,
    long: bool,
) -> Markup {
    let id = format!("{}-{version}", kit::id(VERB, name));
    let value = if refused {
        view.draft.value(VERB, name)
    } else {
        ""
    };
    html! {
        label for=(id) { (label) " " span class="quiet" { (hint) } }
        @if long { textarea id=(id) name=(name) { (value) } }
        @else { input type="text" id=(id) name=(name) value=(value) autocomplete="off"; }
    }
}

/// How a standing looks; the words say the same.
fn tone_of(stands: &Checking<'_>) -> &'static str {
    match stands {
        Checking::Checked(_) => "quiet",
        Checking::Not(_) | Checking::Differs(_) => "need",
    }
}

/// The same of a short mark in a list.
pub fn tone(mark: &str) -> &'static str {
    if mark == say::DIFFERENT {
        "need"
    } else {
        "quiet"
    }
}

/// How many versions stand how, in a sentence.
pub fn counts(view: &View<'_>) -> String {
    let (mut differ, mut one, mut checked, mut nobody) = (0, 0, 0, 0);
    for rule in every(view.book, view.rules) {
        for version in &rule.versions {
            match checking(view.book, &rule.id, version) {
                Checking::Differs(_) => differ += 1,
                Checking::Not(Some(_)) => one += 1,
                Checking::Checked(_) => checked += 1,
                Checking::Not(None) => nobody += 1,
            }
        }
    }
    say::counts(differ, one, checked, nobody)
}
