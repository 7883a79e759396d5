//! Every paper that the law asks of an engine: what must stand on her, what goes where by when, what is kept how long.

use maud::html;
use shop::clock::{DutyOf, PaperState, days_without_daily, duties};
use shop::locomotive::{Law, engine};

use super::{Drawn, View, kit};
use crate::Failure;
use crate::words::{self, duties as say, paper, particular};

pub fn draw(view: &View<'_>, number: &str) -> Result<Drawn, Failure> {
    let (id, kept) = engine(view.book, number)?;
    let all = duties(view.book, view.rules, id, view.on)?;
    let no_daily = days_without_daily(view.book, view.rules, id, view.on)?;
    let boiler = Law::of(view.book, view.rules, kept).counts_service_days();
    let title = say::title(&kept.number);
    let overdue =
        |duty: &shop::clock::Duty| duty.stands.iter().any(|it| it.state == PaperState::Overdue);
    let body = html! {
        h1 { (title) }
        p class="lead" { (paper::GOVERNS) }
        p {
            a href=(format!("/print/duties/{}", kept.number)) { (say::PRINT) } " · "
            @if boiler { a href=(format!("/engine/{}/hydro", kept.number)) { (words::hydro::LINK) } " · " a href=(format!("/print/hydro/{}", kept.number)) { (say::PRINT_HYDRO) } " · " }
            a href=(format!("/engine/{}", kept.number)) { (words::engine(&kept.number)) }
        }
        @for of in DutyOf::ALL {
            @let hers: Vec<_> = all.iter().filter(|duty| duty.of == of).collect();
            section class="ruled" {
                h2 { (say::of(of)) }
                @if hers.is_empty() { p { (say::NONE) } }
                @for duty in &hers {
                    h3 { (words::sentence(&duty.what)) " " a class="small quiet" href=(format!("/rule/{}", duty.ruling.rule)) { (duty.ruling.cite.section) } }
                    p { (say::places(&duty.places)) ". " (kit::sentence(&duty.when)) }
                    p class=(if overdue(duty) { "need" } else { "quiet small" }) { (say::stands(duty)) }
                }
            }
        }
        section class="ruled" {
            h2 { (say::NOT_KNOWN) }
            @for line in say::missing(view.book, kept, &no_daily, view.on) { p { (line) } }
            p { a href="/shop" { (particular::TITLE) } }
            p class="quiet small" { (kit::worded(say::TO_RECORD)) }
            (kit::held(view, all.iter().map(|duty| &duty.ruling)))
        }
    };
    Ok(Drawn::new("/", title, body))
}
