//! The rulebook, readable as a book: rule, our reading, value, section, edition, and how it was read.

use std::collections::BTreeMap;

use maud::{Markup, html};
use rules::{Body, Kind, Origin, Rule, RuleSet, Source, Version};
use shop::book::{Edition, RuleSetKept};
use shop::clock::{State, due};
use shop::locomotive::{Law, engines};

use super::{Drawn, View, held, limit};
use crate::Failure;
use crate::verb::rule::said;
use crate::verb::rule_held;
use crate::words::{self, rule as say};

pub fn list(view: &View<'_>) -> Result<Drawn, Failure> {
    let chapters = [
        (say::WORDS, vec![Kind::Definition]),
        (
            say::CLOCKS,
            vec![Kind::Count, Kind::Calendar, Kind::WhicheverFirst],
        ),
        (say::ITEMS, vec![Kind::Item]),
        (
            say::LIMITS,
            vec![Kind::Limit, Kind::LimitTable, Kind::LimitFormula],
        ),
        (say::FILING, vec![Kind::Filing, Kind::Retention]),
    ];
    let sought = view.asked("q");
    let stopped = stopped(view)?;
    let all: Vec<_> = view
        .rules
        .rules()
        .filter(|r| has(view.rules.sources(), r, sought))
        .collect();
    let own = own_sets(view);
    let of_own = own
        .iter()
        .flat_map(|(_, _, set)| set.rules.rules().map(move |r| (set, r)));
    let found_own = of_own
        .filter(|(set, r)| has(set.rules.sources(), r, sought))
        .count();
    let body = html! {
        h1 { (say::THE_RULEBOOK) }
        p class="lead" { (say::LEAD) }
        form class="seek" method="get" action="/rulebook" {
            label for="seek-rule" { (say::SEEK) }
            input type="text" id="seek-rule" name="q" value=(sought) autocomplete="off";
            button { (say::FIND) }
            @if !sought.is_empty() { a href="/rulebook" { (say::ALL) } }
        }
        @if !sought.is_empty() { p { (say::found(all.len() + found_own, sought)) } }
        p class="small" { (held::counts(view)) }
        @for (name, kinds) in &chapters {
            @let here: Vec<_> = all.iter().copied().filter(|r| kinds.contains(&r.kind)).collect();
            @if !here.is_empty() {
                section class="ruled" {
                    h2 { (name) }
                    (lines(view, &here, &stopped))
                }
            }
        }
        (sets(view, &own, sought, &stopped))
    };
    Ok(Drawn::new("/rulebook", words::page::RULEBOOK, body))
}

/// Rules in a list: title, section, which engines each stops, its versions.
fn lines(view: &View<'_>, rules: &[&Rule], stopped: &BTreeMap<String, Vec<&str>>) -> Markup {
    html! {
        ul class="plain" { @for rule in rules { li {
            @let section = rule.versions.last().map_or("", |v| v.cite.section.as_str());
            a href=(format!("/rule/{}", rule.id)) { (rule.title) } " " span class="quiet" { (section) }
            @if let Some(engines) = stopped.get(&rule.id) { " " b class="need" { (say::stops(engines)) } }
            @if let Some(mark) = rule_held::mark(view.book, rule) { " " b class=(held::tone(mark)) { (mark) } }
            @for version in rule.versions.iter().rev() { div class="quiet small" { (say::in_a_line(version.number, version.in_force, &version.cite.edition, &version.mark.to_string())) } }
        } } }
    }
}

/// The sets of rules in the book, each with its newest text as read.
fn own_sets<'v>(view: &View<'v>) -> Vec<(&'v RuleSetKept, &'v Edition, &'v RuleSet)> {
    let kept = view.book.rule_sets.values();
    kept.filter_map(|kept| {
        let (_, newest) = kept.newest()?;
        Some((kept, newest, newest.rules(view.rules).ok()?))
    })
    .collect()
}

/// The rules this shop wrote, set by set, never among the law's.
fn sets(
    view: &View<'_>,
    own: &[(&RuleSetKept, &Edition, &RuleSet)],
    sought: &str,
    stopped: &BTreeMap<String, Vec<&str>>,
) -> Markup {
    let under = |set: &RuleSet| -> Vec<&str> {
        let her = engines(view.book).into_iter().filter(|(_, kept)| {
            let under = Law::of(view.book, view.rules, kept).is_under(&set.id, view.on);
            under.unwrap_or(false)
        });
        her.map(|(_, kept)| kept.number.as_str()).collect()
    };
    html! {
        @if !own.is_empty() {
            section class="ruled" {
                h2 { (say::OWN_SETS) }
                p { (say::OWN_LEAD) }
                @for (kept, _, set) in own {
                    @let here: Vec<_> = set.rules.rules().filter(|r| has(set.rules.sources(), r, sought)).collect();
                    @if !here.is_empty() {
                        h3 { (set.title) }
                        p { b { (say::whose(set.origin)) } " " (say::answers(&set.id, &set.answers)) " " (say::under(&under(set))) }
                        ul class="plain small" { @for (number, text) in (1u32..).zip(&kept.editions) { li {
                            (say::text_of_set(number, text.from, name(view, text), text.entry))
                        } } }
                        (lines(view, &here, stopped))
                    }
                }
            }
        }
    }
}

/// Who took a text in.
fn name<'v>(view: &View<'v>, text: &Edition) -> &'v str {
    let person = view.book.persons.get(&text.by);
    person.map_or("?", |person| person.name.as_str())
}

/// Whether a rule has what is sought in its title, its id, its section or our reading of it.
fn has(sources: &BTreeMap<String, Source>, rule: &Rule, sought: &str) -> bool {
    let sought = sought.to_lowercase();
    let holds = |text: &str| text.to_lowercase().contains(&sought);
    let of_version = |v: &Version| {
        let source = sources.get(&v.cite.source);
        holds(&v.cite.section) || holds(&v.reading) || source.is_some_and(|s| holds(&s.title))
    };
    holds(&rule.title) || holds(&rule.id) || rule.versions.iter().any(of_version)
}

/// The engines that a clock of each rule stops today, by rule.
fn stopped<'b>(view: &View<'b>) -> Result<BTreeMap<String, Vec<&'b str>>, Failure> {
    let mut stopped: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for (id, kept) in engines(view.book) {
        let clocks = due(view.book, view.rules, id, view.on)?;
        for clock in clocks.iter().filter(|c| c.state == State::Stops) {
            let engines = stopped.entry(clock.ruling.rule.clone()).or_default();
            engines.push(&kept.number);
        }
    }
    Ok(stopped)
}

pub fn draw(view: &View<'_>, id: &str) -> Result<Drawn, Failure> {
    let rule = shop::locomotive::rule(view.book, view.rules, id)
        .map_err(|no| Failure::Input(no.to_string()))?;
    let own = own_sets(view)
        .into_iter()
        .find(|(_, _, set)| set.id == rule.jurisdiction && rule.origin != Origin::Law);
    let sources = own.map_or(view.rules.sources(), |(_, _, set)| set.rules.sources());
    let body = html! {
        h1 { (rule.title) }
        @match own {
            None => { p class="lead" { (say::lead(&rule.id, &rule.jurisdiction)) } }
            Some((_, _, set)) => { p class="lead" { (say::lead_of_set(&rule.id, &set.title)) " " b { (say::whose(set.origin)) } } }
        }
        @if let Some(engines) = stopped(view)?.get(&rule.id) { p { b class="need" { (say::stops(engines)) } } }
        (limit::draw(view, rule))
        @for version in rule.versions.iter().rev() {
            section class="ruled" {
                h2 { (say::version(version.number, version.in_force, version.until)) }
                p class="told" { (version.reading) }
                dl class="facts" {
                    dt { (say::COMES_TO) } dd { (said(&version.body)) }
                    dt { (say::SECTION) } dd { (version.cite.section) }
                    dt { (say::TEXT) } dd { (say::text(sources.get(&version.cite.source).map_or(version.cite.source.as_str(), |s| s.title.as_str()), &version.cite.edition)) }
                    dt { (say::HOW_READ) } dd { (version.mark) }
                    dt { (say::IN_FORCE_FROM) } dd { (say::in_force(version.in_force, &version.dates_mark.to_string())) }
                    dt { (say::LAST_CHECKED) } dd { (say::checked(version.checked.on, &version.checked.by)) }
                }
                (held::of(view, rule, version))
                @if let Body::LimitTable(table) = &version.body { (cells(table)) }
                @else { (cases(version)) }
            }
        }
    };
    Ok(Drawn::new("/rulebook", rule.title.clone(), body))
}

/// A limit table as the law lays it out.
fn cells(table: &rules::LimitTable) -> Markup {
    html! {
        div class="table" tabindex="0" role="group" aria-label=(say::THE_TABLE) {
            table {
                thead { tr {
                    th { (say::rows(&table.rows.name, &table.rows.unit)) }
                    @if let Some(columns) = &table.columns {
                        @for label in columns.labels() { th class="num" { (label) } }
                    } @else {
                        th class="num" { (table.unit) }
                    }
                } }
                tbody { @for (label, row) in table.rows.labels().iter().zip(&table.cells) { tr {
                    td { (label) }
                    @for (written, _) in row { td class="num" { (written.trim_end_matches(" in")) } }
                } } }
            }
        }
        @if let Some(columns) = table.columns.as_ref().filter(|c| !c.unit.is_empty()) {
            p class="quiet small" { (say::across(&columns.name, &columns.unit)) }
        }
    }
}

/// What a reading a step below, at and above the value comes out as.
fn cases(version: &rules::Version) -> Markup {
    let cases = version.cases();
    html! {
        @if !cases.is_empty() {
            h3 { (say::CASES) }
            div class="table" tabindex="0" role="group" aria-label=(say::CASES) {
                table {
                    thead { tr { th { (say::READING) } th { (say::COMES_OUT) } } }
                    tbody { @for case in &cases { tr { td { (case.reading) } td { (case.verdict()) } } } }
                }
            }
        }
    }
}
