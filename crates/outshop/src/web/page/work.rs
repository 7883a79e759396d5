//! Open work: every finding, job and inspection that is not done, oldest first, and what is carried.

use maud::html;
use shop::book::FindingState;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, tag, work as say};

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let book = view.book;
    let mut findings: Vec<_> = book.findings.values().collect();
    findings.sort_by_key(|f| (f.found_on, f.number));
    let open: Vec<_> = findings
        .iter()
        .filter(|f| {
            matches!(
                f.state,
                FindingState::Open | FindingState::Decided | FindingState::InWork
            )
        })
        .collect();
    let carried: Vec<_> = findings
        .iter()
        .filter(|f| f.state == FindingState::Carried)
        .collect();
    let closed: Vec<_> = findings
        .iter()
        .filter(|f| f.state == FindingState::Closed)
        .collect();
    let mut inspections: Vec<_> = book.inspections.values().collect();
    inspections.sort_by_key(|i| (!i.is_open(), i.number));
    let mut written: Vec<_> = book
        .locomotives
        .keys()
        .flat_map(|id| shop::finding::open_symptoms(book, *id))
        .collect();
    written.sort_by_key(|(_, told)| told.number);
    let row = |f: &shop::book::Finding| {
        let part = book.parts.get(&f.part).map_or("?", |p| p.name.as_str());
        html! {
            li {
                @let tag = tag::finding(f.number);
                a class=(if f.state == FindingState::Open { "need" } else { "" }) href=(format!("/finding/{tag}")) { (say::finding(&tag, kit::number(book, f.locomotive), part)) }
                ": " (f.told)
                @if let Some(job) = f.job.and_then(|id| book.jobs.get(&id)) { " " a href=(format!("/job/{}", tag::job(job.number))) { (tag::job(job.number)) } }
                @if let Some(day) = f.decision.as_ref().and_then(|d| d.recheck) { " " span class="quiet" { (say::recheck(day)) } }
                " " span class="quiet small" { (say::found(f.found_on, kit::name(book, f.found_by))) }
            }
        }
    };
    let body = html! {
        h1 { (words::page::WORK) }
        p class="lead" { (say::lead(open.len(), carried.len())) }
        p class="small" { a href="/bench/" { (words::pocket::TITLE) } ": " (words::pocket::AT_BENCH_WHY) }
        section class="ruled" {
            h2 { (say::NOT_PUT_RIGHT) }
            @if open.is_empty() { p { (say::NONE) } }
            ul class="plain" { @for f in &open { (row(f)) } }
        }
        @if !written.is_empty() { section class="ruled" {
            h2 { (words::day::OPEN_WRITE_UPS) }
            ul class="plain" { @for (report, told) in &written { li {
                @let tag = tag::write_up(told.number);
                a class="need" href=(format!("/write-up/{tag}")) { (words::day::write_up(&tag, kit::number(book, report.locomotive))) }
                ": " (words::day::symptom(&told.symptom)) " " span class="quiet small" { (words::day::written(report.on, kit::name(book, report.by))) }
            } } }
        } }
        section class="ruled" {
            h2 { (say::INSPECTIONS) }
            ul class="plain" {
                @for i in &inspections {
                    @let left = i.items.iter().filter(|item| !i.answers.contains_key(&item.rule)).count();
                    li {
                        @let tag = tag::inspection(i.number);
                        a href=(format!("/inspection/{tag}")) { (say::inspection(&tag, kit::number(book, i.locomotive), &i.kind)) }
                        @match i.closed {
                            Some((day, by)) => { (say::closed(day, kit::name(book, by))) }
                            None if !i.is_open() => { ": " (words::inspection::not_completed(book, i)) }
                            None => { (say::opened(i.opened_on, left)) }
                        }
                    }
                }
                @if inspections.is_empty() { li { (say::NO_INSPECTION) } }
            }
        }
        section class="ruled" {
            h2 { (say::CARRIED) }
            @if carried.is_empty() { p { (say::NOTHING_CARRIED) } }
            ul class="plain" { @for f in &carried { (row(f)) } }
        }
        details {
            summary { (say::PUT_RIGHT) " " span class="quiet" { (say::folded(closed.len())) } }
            ul class="plain" { @for f in &closed { (row(f)) } }
        }
    };
    Ok(Drawn::new("/work", words::page::WORK, body))
}
