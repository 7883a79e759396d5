//! Copies of the book: when the last was made and where, and a button that makes one into the folder that was named.

use std::sync::Arc;

use axum::Extension;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::html;
use shop::book::Authority;

use super::page::{self, Drawn, View, kit};
use super::{Desk, Reader, on_thread, trouble};
use crate::verb::backup::{Backed, Backup, Restore, day_of};
use crate::words::backup as say;
use crate::{Failure, Request};

/// The path of the page.
pub const PATH: &str = "/copies";
/// Where a drill is asked for.
pub const DRILL: &str = "/copies/drill";

/// The page: the last copies, how one is made, and whether it could be restored.
pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    with(view, None)
}

/// The same with what a drill told.
fn with(view: &View<'_>, told: Option<&str>) -> Result<Drawn, Failure> {
    let backed = view.desk.backed()?;
    let zone = view
        .book
        .shop
        .as_ref()
        .map_or("UTC", |s| s.time_zone.as_str());
    let officer = view.may(Authority::Approve);
    let book = view.desk.book.display().to_string();
    let body = html! {
        h1 { (say::TITLE) }
        p class="lead" { (say::WHY) }
        @if let Some(wanting) = backed.wanting() { p class="need" { (wanting) } }
        section class="ruled" {
            h2 { (say::LAST) }
            @if backed.copies.is_empty() { p { (say::NONE_YET) } }
            ul class="plain" { @for copy in &backed.copies { li { (say::one(&day_of(copy, zone), copy)) } } }
            p class="quiet small" { (say::rule(backed.keep)) }
            @if backed.copies.first().is_some_and(|last| last.same_disk) { p class="need" { (say::SAME_DISK) } }
        }
        section class="ruled" {
            h2 { (say::HOW) }
            p { (say::TYPE) }
            p class="typed" { (say::type_copy(&book)) }
            p { (kit::worded(say::AFTERWARDS)) }
            @if officer {
                @match &backed.folder {
                    Some(folder) => form class="act" method="post" action=(PATH) { h2 { (say::NOW) } p { (folder) } button { (say::COPY_IT) } },
                    None => p class="quiet small" { (say::FIRST_AT_MACHINE) },
                }
            }
        }
        section class="ruled" {
            h2 { (say::DRILL) }
            p { (say::DRILL_WHY) }
            @if let Some(told) = told { div class="kept" role="status" { @for line in told.lines() { p { (kit::worded(line.trim())) } } } }
            @if officer && !backed.copies.is_empty() {
                form class="act" method="post" action=(DRILL) { button { (say::DRILL_IT) } }
                p class="quiet small" { (say::OR_AT_MACHINE) }
            }
            p class="typed" { (say::type_drill(&book)) }
        }
    };
    Ok(Drawn::new("", say::TITLE, body))
}

impl Desk {
    /// How the book stands to its copies.
    ///
    /// # Errors
    /// If the keys cannot be read.
    pub fn backed(&self) -> Result<Backed, Failure> {
        let now = self.context(None).now()?.as_second();
        Backed::of(&self.book, now)
    }
}

/// Makes the book again from the newest copy, beside and away again, and tells what came of it.
pub async fn drill(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
) -> Response {
    on_thread(move || {
        let asked = (|| -> Result<Option<(String, u8)>, Failure> {
            if !desk.approves(&reader)? {
                return Ok(None);
            }
            let copies = desk.backed()?.copies;
            let newest = copies
                .first()
                .ok_or_else(|| Failure::Input(say::NOTHING_TO_DRILL.into()))?;
            let drill = Restore {
                copy: newest.place.clone().into(),
                drill: true,
            };
            let mut context = desk.context(Some(&reader.name));
            let answer = Request::Restore(drill).run(&mut context)?;
            Ok(Some((answer.text, answer.code)))
        })();
        let (why, status) = match asked {
            Ok(Some((text, code))) => {
                let draft = super::form::Draft::default();
                let mut response = page::with(&desk, &reader, PATH, "", &draft, |view| {
                    Ok(Some(with(view, Some(&text))?))
                });
                if code != 0 {
                    *response.status_mut() = StatusCode::CONFLICT;
                }
                return response;
            }
            Ok(None) => (say::OFFICER_ONLY.to_string(), StatusCode::FORBIDDEN),
            Err(failure) => (failure.to_string(), trouble::status(&failure)),
        };
        page::refused(&desk, &reader, PATH, Vec::new(), why, status)
    })
    .await
}

/// Copies into the folder that was named at the machine; a page never says where to.
pub async fn now(State(desk): State<Arc<Desk>>, Extension(reader): Extension<Reader>) -> Response {
    on_thread(move || {
        let asked = (|| -> Result<bool, Failure> {
            if !desk.approves(&reader)? {
                return Ok(false);
            }
            let backup = Backup {
                to: None,
                every: None,
                newest: None,
                months: None,
            };
            Request::Backup(backup).run(&mut desk.context(Some(&reader.name)))?;
            Ok(true)
        })();
        let (why, status) = match asked {
            Ok(true) => return Redirect::to(PATH).into_response(),
            Ok(false) => (say::OFFICER_ONLY.to_string(), StatusCode::FORBIDDEN),
            Err(failure) => (failure.to_string(), trouble::status(&failure)),
        };
        page::refused(&desk, &reader, PATH, Vec::new(), why, status)
    })
    .await
}
