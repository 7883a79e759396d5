//! The move of an engine that does not comply: what is wrong with her, what was decided, how it ended.

use maud::{Markup, html};
use shop::book::{Authority, FindingState, Locomotive, LocomotiveId, Occasion};
use shop::locomotive::{Law, engine};
use shop::report::stops;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::web::print;
use crate::words::{self, moved as say, tag};

const DECIDE: &str = "move decide";
const END: &str = "move end";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let mut wrong = stops(view.book, view.rules, id, view.on)?;
    wrong.retain(|stop| !stop.is_inspection());
    let may = view.may(Authority::Approve);
    let open = kept.on_the_move();
    let title = say::head(&kept.number);
    let body = html! {
        h1 { (title) }
        p class="lead" { (say::MEANS) " " a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } }
        @if wrong.is_empty() { p { (say::NOTHING_WRONG) } }
        @else {
            h2 { (say::DEFECTS) }
            ol class="between" { @for stop in &wrong { li { (kit::sentence(&stop.why)) } } }
        }
        @if Law::of(view.book, view.rules, kept).any(|rule| rule.id.ends_with(".move.tag")) { (print::tag_link(&kept.number)) }
        @if open.is_some() { (ending(view, kept)) }
        @else if !may { p class="need" { (say::MAY_NOT) } }
        @else if !wrong.is_empty() { (deciding(view, id, kept)) }
        section class="ruled" {
            h2 { (say::HER_MOVES) }
            @if kept.moves.is_empty() { p { (say::NONE) } }
            ul class="plain" { @for made in kept.moves.iter().rev() { li {
                p class="told" { (say::decided(&kept.number, made, kit::name(view.book, made.by))) }
                @match &made.ended {
                    Some((end, told, on, by)) => p { (say::end(*end, told, *on, kit::name(view.book, *by))) },
                    None => p class="need" { (say::NOT_ENDED) },
                }
            } } }
        }
    };
    Ok(Drawn::new("/", title, body))
}

fn ending(view: &View<'_>, kept: &Locomotive) -> Markup {
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        (kit::choices(view, END, "how", say::END_IT, &means(say::END)))
        (kit::lines(view, END, "told", say::END_TOLD, ""))
    };
    kit::signed(view, END, say::END_IT, &fields, say::ENTER_END)
}

/// Each word of a list with what it means.
fn means<T>(list: &'static [(&'static str, T, &'static str)]) -> Vec<(&'static str, &'static str)> {
    list.iter()
        .map(|(word, _, means)| (*word, *means))
        .collect()
}

fn deciding(view: &View<'_>, id: LocomotiveId, kept: &Locomotive) -> Markup {
    let mut notices: Vec<_> = view.book.findings.values().collect();
    notices.retain(|f| {
        f.locomotive == id
            && f.occasion == Occasion::SpecialNotice
            && (f.lifted.is_none() || f.state != FindingState::Closed)
    });
    notices.sort_by_key(|f| f.number);
    let under: Vec<_> = means(say::UNDER)
        .into_iter()
        .filter(|(word, _)| *word != "special-notice" || !notices.is_empty())
        .collect();
    let chosen = view.draft.value(DECIDE, "finding");
    let line = |name: &str, label: &str, hint: &str| kit::line(view, DECIDE, name, label, hint);
    let mph = kit::id(DECIDE, "mph");
    let fields = html! {
        (kit::hidden("engine", &kept.number))
        (kit::choices(view, DECIDE, "under", say::STANDS_ON, &under))
        @if !notices.is_empty() {
            label for="move-notice" { (say::NOTICE) }
            select id="move-notice" name="finding" {
                option value="" { (words::day::NOT_CHOSEN) }
                @for f in &notices { @let tag = tag::finding(f.number); option value=(tag) selected[tag == chosen] { (words::inspection::finding(&tag, &f.told)) } }
            }
            (line("allows", say::ALLOWS, ""))
        }
        div class="grid2" { div { (line("from", say::FROM, "")) } div { (line("to", say::TO, "")) } }
        (kit::choices(view, DECIDE, "how", say::HOW_SHE_GOES, &means(say::HOW)))
        label for=(mph) { (say::MPH) }
        input type="text" inputmode="numeric" id=(mph) name="mph" value=(view.draft.value(DECIDE, "mph")) autocomplete="off";
        (line("limits", say::LIMITS, say::LIMITS_HINT))
        (line("told", say::TOLD, say::TOLD_HINT))
        fieldset {
            legend { (say::FOR_TAG) }
            (line("inspected_by", say::INSPECTED_BY, ""))
            div class="grid2" {
                div { (line("inspected_at", say::INSPECTED_AT, "")) }
                div { (kit::day(view, DECIDE, "inspected_on", say::INSPECTED_ON)) }
            }
        }
    };
    kit::signed(view, DECIDE, say::DECIDE, &fields, say::SIGN)
}
