//! Pages for when something is wrong: what happened, what was not saved, and ways out.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use maud::html;

use super::frame::{self, Place};
use super::page::kit::worded;
use crate::Failure;
use crate::words::trouble as say;

/// A page of trouble with ways out.
pub fn page(
    status: StatusCode,
    what: &str,
    why: &str,
    ways: &[(&str, &str)],
) -> (StatusCode, maud::Markup) {
    let body = html! {
        h1 { (what) }
        @for line in why.lines() { p { (worded(line.trim_start_matches("  - "))) } }
        h2 { (say::WAYS_OUT) }
        ul { @for (to, name) in ways { li { a href=(to) { (name) } } } }
    };
    (status, frame::bare(what, &body))
}

/// No such page.
pub async fn no_such_page() -> Response {
    page(
        StatusCode::NOT_FOUND,
        say::NO_PAGE,
        say::NO_PAGE_WHY,
        &[
            ("/", say::THE_DAYS_AHEAD),
            ("/work", say::OPEN_WORK),
            ("/rulebook", say::THE_RULEBOOK),
        ],
    )
    .into_response()
}

/// The status of a failure: refused 409, input 422, the book or the machine 503.
pub fn status(failure: &Failure) -> StatusCode {
    match failure.code() {
        1 => StatusCode::CONFLICT,
        2 => StatusCode::UNPROCESSABLE_ENTITY,
        _ => StatusCode::SERVICE_UNAVAILABLE,
    }
}

/// A page for a failure that no form can show.
pub fn of(failure: &Failure, place: &Place<'_>) -> Response {
    let body = html! {
        h1 { (say::NOT_SHOWN) }
        (said(&failure.to_string()))
        h2 { (say::WAYS_OUT) }
        ul {
            li { a href="/" { (say::THE_DAYS_AHEAD) } }
            li { a href="/work" { (say::OPEN_WORK) } }
        }
    };
    (status(failure), frame::page(place, say::NOT_SHOWN, &body)).into_response()
}

/// A failure's sentence as a person reads it, with its list.
pub fn said(text: &str) -> maud::Markup {
    let (list, lines): (Vec<_>, Vec<_>) = text.lines().partition(|line| line.starts_with("  - "));
    html! {
        div class="said" role="alert" {
            @for line in &lines { p { (worded(line)) } }
            @if !list.is_empty() { ul { @for line in list { li { (worded(line.trim_start_matches("  - "))) } } } }
        }
    }
}
