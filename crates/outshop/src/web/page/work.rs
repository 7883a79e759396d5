//! Open work: every finding, job and inspection that is not done, oldest first, and what is carried.

use maud::html;
use shop::book::FindingState;

use super::{Drawn, View, kit};
use crate::{Failure, words};

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
    inspections.sort_by_key(|i| (i.closed.is_some(), i.number));
    let row = |f: &shop::book::Finding| {
        let part = book.parts.get(&f.part).map_or("?", |p| p.name.as_str());
        html! {
            li {
                a class=(if f.state == FindingState::Open { "need" } else { "" }) href=(format!("/finding/F-{:03}", f.number)) { "F-" (format!("{:03}", f.number)) ", No. " (kit::number(book, f.locomotive)) ", " (part) }
                ": " (f.told)
                @if let Some(job) = f.job.and_then(|id| book.jobs.get(&id)) { " " a href=(format!("/job/J-{:03}", job.number)) { "J-" (format!("{:03}", job.number)) } }
                @if let Some(day) = f.decision.as_ref().and_then(|d| d.recheck) { " " span class="quiet" { "To be looked at again " (words::day(day)) "." } }
                span class="quiet small" { " Found " (words::day(f.found_on)) " by " (kit::name(book, f.found_by)) "." }
            }
        }
    };
    let body = html! {
        h1 { "Open work" }
        p class="lead" { (words::count(open.len(), "finding is", "findings are")) " not put right; " (words::count(carried.len(), "is", "are")) " carried." }
        section class="ruled" {
            h2 { "Findings not put right, oldest first" }
            @if open.is_empty() { p { "None." } }
            ul class="plain" { @for f in &open { (row(f)) } }
        }
        section class="ruled" {
            h2 { "Inspections" }
            ul class="plain" {
                @for i in &inspections {
                    @let left = i.items.iter().filter(|item| !i.answers.contains_key(&item.rule)).count();
                    li {
                        a href=(format!("/inspection/I-{:03}", i.number)) { "I-" (format!("{:03}", i.number)) ", No. " (kit::number(book, i.locomotive)) ", the " (i.kind) }
                        @match i.closed {
                            Some((day, by)) => { " closed " (words::day(day)) " by " (kit::name(book, by)) }
                            None => { ", opened " (words::day(i.opened_on)) ": " (words::count(left, "item is", "items are")) " not answered" }
                        }
                    }
                }
                @if inspections.is_empty() { li { "None in this book." } }
            }
        }
        section class="ruled" {
            h2 { "Carried" }
            @if carried.is_empty() { p { "Nothing is carried." } }
            ul class="plain" { @for f in &carried { (row(f)) } }
        }
        details {
            summary { "Put right " span class="quiet" { "(" (closed.len()) ")" } }
            ul class="plain" { @for f in &closed { (row(f)) } }
        }
    };
    Ok(Drawn::new("/work", words::page::WORK, body))
}
