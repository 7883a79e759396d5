//! The rulebook, readable as a book: rule, our reading, value, section, edition, and how it was read.

use maud::html;
use rules::{Body, Kind};

use super::{Drawn, View};
use crate::verb::rule::said;
use crate::{Failure, words};

pub fn list(view: &View<'_>) -> Result<Drawn, Failure> {
    let chapters = [
        ("Words", vec![Kind::Definition]),
        (
            "Clocks",
            vec![Kind::Count, Kind::Calendar, Kind::WhicheverFirst],
        ),
        ("Items looked at", vec![Kind::Item]),
        ("Limits", vec![Kind::Limit, Kind::LimitTable]),
        (
            "Notices, reports and keeping",
            vec![Kind::Filing, Kind::Retention],
        ),
    ];
    let body = html! {
        h1 { "The rulebook" }
        p class="lead" { "What the law says, rule by rule, as this program has it: our own short reading with its section and edition. The official text governs; look there before anyone leans on a figure." }
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
        p class="lead" { (rule.id) ", rulebook " (rule.jurisdiction) }
        @for version in rule.versions.iter().rev() {
            section class="ruled" {
                h2 { "Version " (version.number) ", in force from " (version.in_force) @if let Some(until) = version.until { " through " (until) } }
                p class="told" { (version.reading) }
                dl class="facts" {
                    dt { "It comes to" } dd { (said(&version.body)) }
                    dt { "Section" } dd { (version.cite.section) }
                    dt { "Text" } dd { (view.rules.sources().get(&version.cite.source).map_or(version.cite.source.as_str(), |s| s.title.as_str())) ", " (version.cite.edition) }
                    dt { "How it was read" } dd { (version.mark) }
                    dt { "In force from" } dd { (version.in_force) ": " (version.dates_mark) }
                    dt { "Last checked" } dd { (version.checked.on) " by " (version.checked.by) }
                }
                @if let Body::LimitTable(table) = &version.body {
                    div class="table" {
                        table {
                            thead { tr {
                                th { (table.rows.name.replace('_', " ")) " up to, " (table.rows.unit) }
                                @for edge in &table.columns.upper_edges { th class="num" { "to " (edge.to_string()) } }
                                th class="num" { "over" }
                            } }
                            tbody { @for (at, row) in table.cells.iter().enumerate() { tr {
                                td { (table.rows.upper_edges.get(at).map_or("over".to_string(), |edge| edge.to_string())) }
                                @for (written, _) in row { td class="num" { (written.trim_end_matches(" in")) } }
                            } } }
                        }
                    }
                    p class="quiet small" { "Across: " (table.columns.name.replace('_', " ")) ", " (table.columns.unit) ". A size on an edge belongs to the lower band." }
                }
            }
        }
    };
    Ok(Drawn::new("/rulebook", rule.title.clone(), body))
}
