//! The papers and permits of a job on its page: what is kept, that zero must be proven first, and a form for the next.

use maud::{Markup, html};
use shop::book::{Job, JobPaper};
use shop::job::{chart, opens_pressure, papers_wanted, window_sheet, zero_proven};

use super::{View, kit};
use crate::press_chart;
use crate::words::{self, job::cost as money, job::papers as say};

const VERB: &str = "job paper";

/// The section.
pub fn draw(view: &View<'_>, kept: &Job, title: &str) -> Markup {
    let next = kept.operations.iter().position(|step| step.done.is_none());
    let waits = kept.closed.is_none()
        && next.is_some_and(|at| opens_pressure(view.book, kept, at))
        && zero_proven(kept, view.on).is_none();
    html! {
        section class="ruled" id="papers" {
            h2 { (say::TITLE) }
            @if waits {
                p class="need" { (say::ZERO_ASKED) }
                @let fields = html! {
                    (kit::hidden("job", title)) (kit::hidden("kind", JobPaper::ZeroProven.word()))
                    (kit::lines(view, VERB, "told", say::HOW, say::HOW_TELLS))
                };
                (kit::signed(view, VERB, say::PROVE_ZERO, &fields, say::SIGN_ZERO))
            }
            @if kept.papers.is_empty() { p { (say::NONE) } }
            ul class="plain" { @for it in &kept.papers { li {
                b { (words::sentence(say::kind(it.kept.kind))) } ": " (say::line(it, kit::name(view.book, it.by)))
                @if it.kept.kind == JobPaper::PressChart { @if let Ok(read) = chart(&it.kept) {
                    (press_chart::draw(&read))
                    p { (say::pressed(read.pressed(), it.kept.window.as_ref())) }
                    @for told in say::window_told(view.book, kept, &it.kept) { p class="small" { (told) } }
                    p class="small" { @for (at, (travel, tons)) in it.kept.points.iter().enumerate() { @if at > 0 { "; " } span class="fig" { (travel) " " (tons) } } }
                } }
            } }
            @for it in papers_wanted(view.book, kept, view.on) { li {
                b { (words::sentence(say::kind(it.kind))) } ": " span class="need" { (say::wanted_before(it.before)) }
            } } }
            @if let (Some(sheet), None) = (window_sheet(kept), &kept.closed) { p class="small quiet" { (say::sheet_gives(&sheet)) } }
            @if kept.closed.is_none() && !waits {
                @let fields = html! {
                    (kit::hidden("job", title))
                    ul class="caution" { @for line in say::CAUTIONS { li { (line) } } }
                    label for="paper-kind" { (say::KIND) }
                    select id="paper-kind" name="kind" { @for kind in JobPaper::ALL { option value=(kind.word()) selected[view.draft.value(VERB, "kind") == kind.word()] { (say::kind(kind)) } } }
                    (kit::lines(view, VERB, "told", say::SAYS, ""))
                    (kit::line(view, VERB, "document", say::DOCUMENT, ""))
                    (kit::day(view, VERB, "until", say::UNTIL))
                    (kit::line(view, VERB, "cost", say::COST, ""))
                    (kit::lines(view, VERB, "points", say::POINTS, say::POINTS_TELL))
                    div class="grid2" {
                        div { (kit::line(view, VERB, "least", say::LEAST, "")) }
                        div { (kit::line(view, VERB, "most", say::MOST, "")) }
                    }
                    (kit::choices(view, VERB, "ton", say::TON, &say::TON_CHOICES))
                    (kit::line(view, VERB, "card", say::CARD, say::CARD_TELLS))
                };
                details open[view.draft.is_of(VERB)] { summary { (say::KEEP) } (kit::signed(view, VERB, say::KEEP, &fields, say::KEEP_IT)) }
            }
        }
    }
}

/// What the job cost, as far as anybody kept it.
pub fn cost(view: &View<'_>, kept: &Job) -> Markup {
    let cost = shop::job::cost(kept);
    let lines = money::lines(&cost, |person| kit::name(view.book, person).to_owned());
    html! {
        section class="ruled" id="cost" {
            h2 { (money::TITLE) }
            @if lines.is_empty() { p { (money::NONE) } }
            dl class="facts" { @for (what, told) in &lines { dt { (what) } dd { (told) } } }
        }
    }
}
