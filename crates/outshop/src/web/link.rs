//! A link for somebody else: an officer lets a person in who has no passphrase yet, without stopping the program.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{RawForm, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use jiff::civil::Date;
use maud::{Markup, html};
use shop::book::{Authority, Book};

use super::{Desk, Reader, door, form, frame, may, trouble};
use crate::Failure;
use crate::words::door as say;

/// The form that asks for one; nothing for those who may not give it.
pub fn form(book: &Book, reader: &Reader, on: Date) -> Markup {
    if !may(book, reader, Authority::Approve, on) {
        return html! {};
    }
    let mut others: Vec<_> = book
        .persons
        .iter()
        .filter(|(id, _)| **id != reader.id)
        .map(|(_, person)| person.name.as_str())
        .collect();
    others.sort_unstable();
    html! {
        @if !others.is_empty() {
            form class="act" method="post" action="/me/link" {
                h2 { (say::LET_IN) }
                p class="quiet small" { (say::LET_IN_WHY) }
                label for="for" { (say::NAME) }
                select id="for" name="for" { @for name in &others { option { (name) } } }
                button { (say::MAKE_LINK) }
            }
        }
    }
}

/// Makes one and shows it.
pub async fn give(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    let fields = form::fields(&body);
    let name = form::value(&fields, "for");
    let sorry = |status, why: &str| {
        trouble::page(status, say::NO_LINK, why, &[("/me", &reader.name)]).into_response()
    };
    match made(&desk, &reader, name) {
        Ok(Some(page)) => page.into_response(),
        Ok(None) => sorry(StatusCode::FORBIDDEN, say::OFFICER_ONLY),
        Err(failure) => sorry(trouble::status(&failure), &failure.to_string()),
    }
}

/// The page of a link; none if this reader may not give one.
fn made(desk: &Desk, reader: &Reader, name: &str) -> Result<Option<Markup>, Failure> {
    let mut context = desk.context(Some(&reader.name));
    let book = context.book()?;
    if !may(&book, reader, Authority::Approve, context.on()?) {
        return Ok(None);
    }
    let link = door::one_time_link(&mut context, name, desk.seconds()?)?;
    let body = html! {
        h1 { (say::link_for(name)) }
        p class="lead" { (say::LINK_WORKS) }
        p { (say::HAND_OVER) }
        p { a href=(link) { (say::sign_in_as(name)) } }
    };
    let shop = book.shop.as_ref();
    let place = frame::Place {
        shop: shop.map_or(crate::words::page::PROGRAM, |s| s.name.as_str()),
        here: "/me",
        reader: Some(reader),
        held: shop.and_then(|s| s.demonstration),
    };
    Ok(Some(frame::page(&place, &say::link_for(name), &body)))
}
