//! What is known of an engine from paper: inspections held before, days, facts, spells out of use, her parts. A blank
//! that stays blank is *cannot tell*, never a guess.

use maud::{Markup, html};
use rules::words::{EVENTS, FACTS, HAPPENINGS, OWN_WORK, Word, meaning};
use shop::book::{FactStated, Locomotive, LocomotiveId};
use shop::locomotive::{Law, engine, family};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, first as say};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let title = say::known(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" { (say::KNOWN_WHY) " " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        (held(view, kept))
        (days(view, kept))
        (facts(view, kept))
        (spells(view, kept))
        section class="ruled" {
            h2 { (say::COUNTS) }
            p { (say::COUNTS_WHY) " " a href=(format!("/engine/{}/log", kept.number)) { (words::log::WHOLE_LOG) } }
        }
        (parts(view, id, kept))
    };
    Ok(Drawn::new("/", title, body))
}

fn held(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "locomotive held";
    let known = Law::of(view.book, view.rules, kept).inspections(view.on);
    let known = known.unwrap_or_default();
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        label for="held-kind" { (words::engine::KIND) }
        select id="held-kind" name="kind" { @for (word, meaning) in &known { option value=(word) selected[view.draft.value(VERB, "kind") == *word] { (words::engine::kind(word, meaning)) } } }
        (kit::day(view, VERB, "day", say::HELD_ON))
        (kit::line(view, VERB, "document", say::DOCUMENT, say::DOCUMENT_SUCH_AS))
        (kit::line(view, VERB, "service_days", say::SERVICE_DAYS, say::IF_PAPER))
        (kit::day(view, VERB, "through", say::THROUGH))
        (kit::line(view, VERB, "annuals", say::ANNUALS, say::IF_PAPER))
    };
    html! {
        section class="ruled" id="held" {
            h2 { (say::HELD) }
            ul class="plain" { @for it in &kept.held_before { li { (say::held(&it.kind, it.held_on, it.service_days_since, &it.document)) } } }
            @if kept.held_before.is_empty() { p { (say::NONE_HELD) } }
            details open[view.draft.is_of(VERB)] { summary { (say::STATE_HELD) } (kit::form(view, VERB, say::STATE_HELD, &fields, say::STATE_IT)) }
        }
    }
}

fn days(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "locomotive day";
    let happened = HAPPENINGS
        .iter()
        .filter_map(|word| Some((*word, meaning(EVENTS, word)?)));
    let known: Vec<(&str, &str)> = happened.chain(OWN_WORK.iter().copied()).collect();
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        label for="day-what" { (say::WHAT_DAY) }
        select id="day-what" name="what" { @for (word, told) in &known { option value=(word) selected[view.draft.value(VERB, "what") == *word] { (words::sentence(told)) } } }
        (kit::day(view, VERB, "day", say::DAY))
        (kit::line(view, VERB, "document", say::DOCUMENT, say::DOCUMENT_SUCH_AS))
        (kit::line(view, VERB, "service_days", say::SERVICE_DAYS, say::IF_PAPER))
        (kit::day(view, VERB, "through", say::THROUGH))
    };
    html! {
        section class="ruled" id="days" {
            h2 { (say::DAYS) }
            ul class="plain" { @for it in &kept.days { li { (say::day(&it.what, it.day, &it.document)) } } }
            @if kept.days.is_empty() { p { (say::NONE_STATED) } }
            details open[view.draft.is_of(VERB)] { summary { (say::STATE_DAY) } (kit::form(view, VERB, say::STATE_DAY, &fields, say::STATE_IT)) }
        }
    }
}

fn facts(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "locomotive fact";
    let told = |it: &FactStated| say::fact(&it.fact, &it.value, it.from, &it.document);
    let form = |fact: &str, meaning: &str, answers: &[Word]| {
        let chosen = if view.draft.value(VERB, "fact") == fact {
            view.draft.value(VERB, "value")
        } else {
            ""
        };
        let id = format!("fact-{fact}");
        let fields = html! {
            (kit::hidden("engine", &kept.number)) (kit::hidden("fact", fact))
            label for=(id) { (words::sentence(meaning)) }
            select id=(id) name="value" { @for (word, meaning) in answers { option value=(word) selected[chosen == *word] { (words::sentence(meaning)) } } }
            label for=(format!("{id}-document")) { (say::DOCUMENT) }
            input type="text" id=(format!("{id}-document")) name="document" autocomplete="off" value=(if chosen.is_empty() { "" } else { view.draft.value(VERB, "document") });
        };
        kit::form(
            view,
            VERB,
            &words::sentence(meaning),
            &fields,
            say::STATE_IT,
        )
    };
    html! {
        section class="ruled" id="facts" {
            h2 { (say::FACTS) }
            p class="quiet small" { (say::FACTS_WHY) }
            ul class="plain" { @for it in &kept.facts { li { (told(it)) } } }
            @for (fact, meaning, answers) in FACTS {
                details open[view.draft.value(VERB, "fact") == *fact] { summary { (words::sentence(meaning)) } (form(fact, meaning, answers)) }
            }
        }
    }
}

fn spells(view: &View<'_>, kept: &Locomotive) -> Markup {
    const VERB: &str = "locomotive out-of-use";
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        (kit::day(view, VERB, "from", say::SPELL_FROM))
        (kit::day(view, VERB, "through", say::SPELL_THROUGH))
        (kit::line(view, VERB, "told", say::SPELL_TOLD, ""))
    };
    html! {
        @if shop::clock::has_a_log(view.book, view.rules, kept).is_err() {
            section class="ruled" id="spells" {
                h2 { (say::SPELLS) }
                details open[view.draft.is_of(VERB)] { summary { (say::STATE_SPELL) } (kit::form(view, VERB, say::STATE_SPELL, &fields, say::STATE_IT)) }
            }
        }
    }
}

fn parts(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    const VERB: &str = "part add";
    let mut of_her: Vec<_> = view
        .book
        .parts
        .values()
        .filter(|p| p.locomotive == id)
        .collect();
    of_her.sort_by(|a, b| a.name.cmp(&b.name));
    let families: Vec<_> = view
        .book
        .families
        .keys()
        .filter_map(|word| family(view.book, word).ok())
        .collect();
    let chosen = view.draft.value(VERB, "family");
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        (kit::line(view, VERB, "name", say::PART_NAME, say::PART_SUCH_AS))
        label for="part-family" { (say::FAMILY) }
        select id="part-family" name="family" { @for family in &families { option value=(family.family) selected[chosen == family.family] { (family.title) } } }
        p class="quiet small" { (say::PART_WHY) }
    };
    html! {
        section class="ruled" id="parts" {
            h2 { (say::PARTS_OF_HER) }
            @if of_her.is_empty() { p { (say::NO_PARTS) } }
            ul class="plain" { @for part in &of_her { li { a href=(kit::part_path(&kept.number, &part.name)) { (part.name) } } } }
            details open[view.draft.is_of(VERB) || of_her.is_empty()] { summary { (say::ADD_PART) } (kit::form(view, VERB, say::ADD_PART, &fields, say::ADD_IT)) }
            p { a href=(format!("/parts/import?engine={}", kit::encode(&kept.number))) { (crate::words::part_list::TITLE) } }
        }
    }
}
