//! A part's life: metal left as a column, every as found and as left, tooling that fits it, and a finding to record.

use maud::{Markup, html};
use measure::{Size, State, show};
use shop::book::{Family, Part, PartId, ReadingSet};
use shop::locomotive::{engine, family, part};
use shop::route::{MetalLeft, metal_left};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::column;
use crate::words::{self, part as say, tag};

pub fn draw(view: &View<'_>, number: &str, name: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let (part_id, part) = part(view.book, id, name)?;
    let family = family(view.book, &part.family)?;
    let metal = metal_left(&family, part);
    let body = html! {
        h1 { (say::head(&part.name)) a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        p class="lead" { (family.title) }
        @for left in &metal { (column(view, left)) }
        section class="ruled" {
            h2 { (say::FACTS) }
            dl class="facts" { @for fact in &family.facts { dt { (fact.name) } dd { (part.facts.get(&fact.name).map_or(say::NOT_KNOWN, String::as_str)) " " span class="quiet small" { (fact.title) } } } }
        }
        (readings(view, &family, part))
        (measure(view, &family, part, &kept.number))
        (tooling(view, part_id))
        (findings(view, part_id))
        (record(view, &family, part, &kept.number))
    };
    Ok(Drawn::new("/", say::title(&part.name, &kept.number), body))
}

/// The metal column, with what it says in words.
fn column(view: &View<'_>, left: &MetalLeft) -> Markup {
    let shown = |size: Size| show::size(size, view.house);
    html! {
        section class="ruled" {
            h2 { (say::metal_left(&shown(left.left), left.re_cuts)) }
            p { (say::was(&left.title, &shown(left.now), left.state, left.on)) }
            (column::draw(left, view.house))
        }
    }
}

fn readings(view: &View<'_>, family: &Family, part: &Part) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::FOUND_AND_LEFT) }
            @if part.readings.is_empty() { p { (say::NEVER_MEASURED) } }
            @for set in part.newest_first() {
                h3 { (say::set(set.on, set.state)) " " span class="quiet small" { (say::by(kit::name(view.book, set.by), set.entry)) } }
                dl class="facts" { @for feature in &family.features {
                    @let of_it: Vec<_> = set.readings.iter().filter(|r| r.feature == feature.name).collect();
                    @if !of_it.is_empty() {
                        dt { (feature.title) }
                        dd { @for (at, r) in of_it.iter().enumerate() { @if at > 0 { ", " } span class="quiet" { (r.reading.position) } " " span class="fig" { (r.reading.written()) } } }
                    }
                } }
            }
        }
    }
}

/// Readings outside a job: how it is found, or how it goes back.
fn measure(view: &View<'_>, family: &Family, part: &Part, number: &str) -> Markup {
    const VERB: &str = "reading take";
    let left = view.draft.value(VERB, "as_left") == "yes";
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", &part.name))
        p class="quiet small" { (words::job::AS_WRITTEN) }
        fieldset {
            legend { (say::AS_WHAT) }
            label class="choice" { input type="radio" name="as_left" value="" checked[!left]; span { (words::state(State::AsFound)) } }
            label class="choice" { input type="radio" name="as_left" value="yes" checked[left]; span { (words::state(State::AsLeft)) } }
        }
        @for feature in &family.features {
            fieldset {
                legend { (feature.title) " " span class="quiet" { (feature.how) } }
                div class="grid2" { @for place in &feature.positions {
                    div { (kit::line(view, VERB, &format!("at:{}@{place}", feature.name), place, "")) }
                } }
            }
        }
    };
    html! {
        section class="ruled" id="measure" {
            details open[view.draft.is_of(VERB) || part.readings.is_empty()] { summary { (say::MEASURE) } (kit::form(view, VERB, say::MEASURE, &fields, words::job::KEEP_THEM)) }
        }
    }
}

fn tooling(view: &View<'_>, id: PartId) -> Markup {
    let mut tools: Vec<_> = view
        .book
        .tooling
        .values()
        .filter(|t| t.part == id)
        .collect();
    tools.sort_by_key(|t| t.number);
    html! {
        section class="ruled" {
            h2 { (say::TOOLING) }
            @if tools.is_empty() { p { (say::NO_TOOLING) } }
            ul class="plain" { @for tool in &tools { li { b { (tag::tool(tool.number)) } " " (say::tool(&tool.what, &tool.shelf)) } } }
        }
    }
}

fn findings(view: &View<'_>, id: PartId) -> Markup {
    let mut found: Vec<_> = view
        .book
        .findings
        .values()
        .filter(|f| f.part == id)
        .collect();
    found.sort_by_key(|f| std::cmp::Reverse(f.number));
    html! {
        @if !found.is_empty() {
            section class="ruled" {
                h2 { (say::FINDINGS) }
                ul class="plain" { @for f in &found { li { a href=(format!("/finding/{}", tag::finding(f.number))) { (tag::finding(f.number)) } " " (say::found(f.found_on, &f.told)) } } }
            }
        }
    }
}

fn record(view: &View<'_>, family: &Family, part: &Part, number: &str) -> Markup {
    const VERB: &str = "finding record";
    let mut inspections: Vec<_> = view
        .book
        .inspections
        .values()
        .filter(|i| i.locomotive == part.locomotive && i.is_open())
        .collect();
    inspections.sort_by_key(|i| i.number);
    let ticked = |word: &str| {
        view.draft.is_of(VERB)
            && view
                .draft
                .fields
                .iter()
                .any(|(name, value)| name == "shows" && value == word)
    };
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", &part.name)) (kit::hidden("then", "finding")) (kit::hidden("occasion", "write-up"))
        (kit::lines(view, VERB, "told", say::SEEN, say::SEEN_TELLS))
        label for="record-at" { (say::FOUND_AT) }
        select id="record-at" name="at" {
            option value="" { (say::A_WRITE_UP) }
            @for i in &inspections {
                @let tag = tag::inspection(i.number);
                option value=(tag) selected[view.draft.value(VERB, "at") == tag] { (say::inspection(&i.kind, &tag)) }
            }
        }
        @if !family.conditions.is_empty() {
            fieldset {
                legend { (say::IT) }
                @for condition in &family.conditions { label class="choice" { input type="checkbox" name="shows" value=(condition.word) checked[ticked(&condition.word)]; span { (condition.title) } } }
            }
        }
        p class="quiet small" { (say::AS_WRITTEN) }
        @for feature in &family.features {
            fieldset {
                legend { (feature.title) " " span class="quiet" { (feature.how) } }
                div class="grid2" { @for place in &feature.positions {
                    @let field = format!("at:{}@{place}", feature.name);
                    @let before = last_left(part, &feature.name, place).map(|was| say::last_left(&was)).unwrap_or_default();
                    div { (kit::line(view, VERB, &field, place, &before)) }
                } }
            }
        }
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::RECORD) } (kit::form(view, VERB, say::RECORD, &fields, say::RECORD_IT)) } }
}

fn last_left(part: &Part, feature: &str, place: &str) -> Option<String> {
    let left = |set: &&ReadingSet| set.state == State::AsLeft;
    let sets = part.newest_first().into_iter().filter(left);
    sets.flat_map(|set| &set.readings)
        .find(|r| r.feature == feature && r.reading.position == place)
        .map(|r| r.reading.written())
}
