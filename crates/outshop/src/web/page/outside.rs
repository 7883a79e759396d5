//! What others find on an engine: an inspector's special notice with its lifting, and a failure on the road.

use maud::{Markup, html};
use shop::book::{Locomotive, LocomotiveId, Occasion};
use shop::finding::unlifted;
use shop::locomotive::engine;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, moved as say, tag};

const VERB: &str = "finding record";
const NOTICE: &str = "special-notice";
const FAILURE: &str = "road-failure";

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let mut parts = view.book.parts.values().collect::<Vec<_>>();
    parts.retain(|p| p.locomotive == id);
    let mut parts: Vec<&str> = parts.iter().map(|p| p.name.as_str()).collect();
    parts.sort_unstable();
    let title = say::outside(&kept.number);
    let body = html! {
        h1 { (title) }
        p { a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) } " " a href=(format!("/move/{}", kept.number)) { (say::HER_MOVES) } }
        (stand(view, id))
        @if parts.is_empty() { p class="need" { (say::NO_PARTS) } }
        @else {
            (notice(view, kept, &parts))
            (failure(view, kept, &parts))
        }
    };
    Ok(Drawn::new("/", title, body))
}

/// Those in the book, newest first; a notice says whether it stands.
fn stand(view: &View<'_>, id: LocomotiveId) -> Markup {
    let mut all: Vec<_> = view.book.findings.values().collect();
    all.retain(|f| {
        f.locomotive == id && matches!(f.occasion, Occasion::SpecialNotice | Occasion::RoadFailure)
    });
    all.sort_by_key(|f| std::cmp::Reverse(f.number));
    html! {
        @if !all.is_empty() { section class="ruled" {
            h2 { (say::STANDING_NOTICES) }
            ul class="plain" { @for f in &all {
                @let tag = tag::finding(f.number);
                li {
                    a href=(format!("/finding/{tag}")) { (tag) } " " (words::part::found(f.found_on, &f.told))
                    @if let Some(why) = unlifted(f, view.on) { " " span class="need" { (kit::sentence(&why)) } }
                }
            } }
        } }
    }
}

/// The value of a field of one of the two forms, which share their verb.
fn value<'v>(view: &'v View<'_>, occasion: &str, name: &str) -> &'v str {
    if view.draft.value(VERB, "occasion") == occasion {
        view.draft.value(VERB, name)
    } else {
        ""
    }
}

fn line(view: &View<'_>, occasion: &str, name: &str, label: &str, hint: &str) -> Markup {
    let id = kit::id(occasion, name);
    html! {
        label for=(id) { (label) @if !hint.is_empty() { " " span class="quiet" { (hint) } } }
        input type="text" id=(id) name=(name) value=(value(view, occasion, name)) autocomplete="off";
    }
}

fn on_part(view: &View<'_>, occasion: &str, label: &str, parts: &[&str]) -> Markup {
    let (id, chosen) = (kit::id(occasion, "part"), value(view, occasion, "part"));
    html! {
        label for=(id) { (label) }
        select id=(id) name="part" {
            option value="" { (words::day::NOT_CHOSEN) }
            @for part in parts { option value=(part) selected[*part == chosen] { (part) } }
        }
    }
}

fn hidden(kept: &Locomotive, occasion: &str) -> Markup {
    html! { (kit::hidden("engine", &kept.number)) (kit::hidden("occasion", occasion)) (kit::hidden("then", "finding")) }
}

fn notice(view: &View<'_>, kept: &Locomotive, parts: &[&str]) -> Markup {
    let fields = html! {
        (hidden(kept, NOTICE))
        p class="small" { (say::NOTICE_MEANS) }
        (on_part(view, NOTICE, say::ON_PART, parts))
        (line(view, NOTICE, "told", say::SAYS, ""))
        (line(view, NOTICE, "given_by", say::GIVEN_BY, ""))
        (line(view, NOTICE, "office", say::OFFICE, ""))
        (line(view, NOTICE, "document", say::PAPER, ""))
    };
    kit::form(view, VERB, say::NOTICE_FORM, &fields, say::RECORD_NOTICE)
}

fn failure(view: &View<'_>, kept: &Locomotive, parts: &[&str]) -> Markup {
    let fields = html! {
        (hidden(kept, FAILURE))
        p class="small" { (say::FAILURE_MEANS) }
        (on_part(view, FAILURE, say::FAILED_PART, parts))
        (line(view, FAILURE, "told", say::WHAT_HAPPENED, say::WHAT_HAPPENED_HINT))
    };
    kit::form(view, VERB, say::FAILURE_FORM, &fields, say::RECORD_FAILURE)
}
