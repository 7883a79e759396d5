//! Lathes: all of them, and one with what is known of it and the form that says more.

use maud::{Markup, html};
use shop::locomotive::lathe;

use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::lathe::{by_number, stated};
use crate::words::{self, lathe as say, tag};

pub fn list(view: &View<'_>) -> Drawn {
    let all = by_number(view.book);
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::LEAD) }
        @if all.is_empty() { p { (say::NONE) } } @else {
            div class="table" { table class="stack" {
                thead { tr { th { (say::NUMBER) } th { (say::LATHE) } th { (say::STATED) } } }
                tbody { @for kept in all { tr {
                    @let number = tag::lathe(kept.number);
                    td data-label=(say::NUMBER) { a href=(format!("/lathe/{number}")) { b { (number) } } }
                    td data-label=(say::LATHE) { (kept.name) }
                    td data-label=(say::STATED) { (stated(kept, view.house)) }
                } } }
            } }
        }
        (add(view))
        p { a href="/sheets" { (words::page::SHEETS) } }
    };
    Drawn::new("/sheets", say::TITLE, body)
}

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (_, kept) = lathe(view.book, number)?;
    let number = tag::lathe(kept.number);
    let body = html! {
        h1 { (number) " " (kept.name) }
        p class="lead" { (stated(kept, view.house)) }
        section class="ruled" {
            h2 { (say::KNOWN) }
            dl class="facts" { @for (what, told) in say::known(kept, view.house) {
                dt { (what) }
                dd { @match told { Some(told) => (told), None => span class="quiet" { (say::NOT_KNOWN) } } }
            } }
        }
        (tell(view, &number))
        p { a href="/lathes" { (say::TITLE) } }
    };
    Ok(Drawn::new("/sheets", number.clone(), body))
}

fn add(view: &View<'_>) -> Markup {
    const VERB: &str = "lathe add";
    let fields = html! {
        (kit::hidden("then", "lathe"))
        (kit::line(view, VERB, "name", say::NAME, say::NAME_TELLS))
        (known(view, VERB))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::ADD) } (kit::form(view, VERB, say::ADD, &fields, say::ADD_IT)) } }
}

fn tell(view: &View<'_>, number: &str) -> Markup {
    const VERB: &str = "lathe tell";
    let fields = html! {
        p class="small" { (say::TELL_TELLS) }
        (kit::hidden("number", number))
        (known(view, VERB))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::TELL) } (kit::form(view, VERB, say::TELL, &fields, say::KEEP)) } }
}

fn known(view: &View<'_>, verb: &str) -> Markup {
    let line = |name: &str, label: &str, hint: &str| kit::line(view, verb, name, label, hint);
    let reads = [
        ("", words::sheet::NOT_SAID),
        ("radius", say::READS_RADIUS),
        ("diameter", say::READS_DIAMETER),
    ];
    let zeros = [
        ("", words::sheet::NOT_SAID),
        ("bed", say::ZERO_BED),
        ("cross", say::ZERO_CROSS),
    ];
    html! {
        (line("leadscrew", say::LEADSCREW, say::LEADSCREW_TELLS))
        (line("wheels", say::WHEELS, say::WHEELS_TELLS))
        (line("stud", say::STUD, say::STUD_TELLS))
        (line("span", say::SPAN, say::SPAN_TELLS))
        (line("spindle_ratio", say::SPINDLE, say::SPINDLE_TELLS))
        (line("thread_dial", say::THREAD_DIAL, say::THREAD_DIAL_TELLS))
        (line("speeds", say::SPEEDS, say::SPEEDS_TELLS))
        (kit::choices(view, verb, "cross_reads", say::CROSS_READS, &reads))
        (line("cross_graduation", say::CROSS, say::CROSS_TELLS))
        (line("compound_graduation", say::COMPOUND, say::COMPOUND_TELLS))
        div class="grid2" {
            div { (line("swing_bed", say::SWING_BED, say::SIZE_TELLS)) }
            div { (line("swing_slide", say::SWING_SLIDE, say::SIZE_TELLS)) }
        }
        (line("centers", say::CENTERS, say::SIZE_TELLS))
        (line("swivel_graduation", say::SWIVEL, say::SWIVEL_TELLS))
        (kit::choices(view, verb, "swivel_zero", say::ZERO, &zeros))
        (line("set_over", say::SET_OVER, say::SET_OVER_TELLS))
    }
}
