//! The rulebook, readable as a book: rule, our reading, value, section, edition, and how it was read.

use maud::{Markup, html};
use rules::{Body, Kind};

use super::{Drawn, View};
use crate::Failure;
use crate::verb::rule::said;
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
    let body = html! {
        h1 { (say::THE_RULEBOOK) }
        p class="lead" { (say::LEAD) }
        @for (name, kinds) in &chapters {
            section class="ruled" {
                h2 { (name) }
                ul class="plain" {
                    @for rule in view.rules.rules().filter(|r| kinds.contains(&r.kind)) {
                        @let section = rule.versions.last().map_or("", |v| v.cite.section.as_str());
                        li { a href=(format!("/rule/{}", rule.id)) { (rule.title) } " " span class="quiet small" { (section) } }
                    }
                }
            }
        }
    };
    Ok(Drawn::new("/rulebook", words::page::RULEBOOK, body))
}

pub fn draw(view: &View<'_>, id: &str) -> Result<Drawn, Failure> {
    let rule = view.rules.rule(id)?;
    let body = html! {
        h1 { (rule.title) }
        p class="lead" { (say::lead(&rule.id, &rule.jurisdiction)) }
        @for version in rule.versions.iter().rev() {
            section class="ruled" {
                h2 { (say::version(version.number, version.in_force, version.until)) }
                p class="told" { (version.reading) }
                dl class="facts" {
                    dt { (say::COMES_TO) } dd { (said(&version.body)) }
                    dt { (say::SECTION) } dd { (version.cite.section) }
                    dt { (say::TEXT) } dd { (say::text(view.rules.sources().get(&version.cite.source).map_or(version.cite.source.as_str(), |s| s.title.as_str()), &version.cite.edition)) }
                    dt { (say::HOW_READ) } dd { (version.mark) }
                    dt { (say::IN_FORCE_FROM) } dd { (say::in_force(version.in_force, &version.dates_mark.to_string())) }
                    dt { (say::LAST_CHECKED) } dd { (say::checked(version.checked.on, &version.checked.by)) }
                }
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
