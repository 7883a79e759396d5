//! Copies of the book: when the last was made and where, and a button that makes one into the folder that was named.

use std::sync::Arc;

use axum::Extension;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::html;

use super::form::Draft;
use super::page::{self, Drawn};
use super::{Desk, Reader, link, trouble};
use crate::verb::backup::{Backed, Backup, day_of};
use crate::words::backup as say;
use crate::{Failure, Request};

/// The path of the page.
pub const PATH: &str = "/copies";

/// Serves the page.
pub async fn show(State(desk): State<Arc<Desk>>, Extension(reader): Extension<Reader>) -> Response {
    let drawn = tokio::task::spawn_blocking(move || draw(&desk, &reader, None)).await;
    drawn.unwrap_or_else(|e| super::door::sorry(&Failure::Machine(e.to_string())))
}

fn draw(desk: &Desk, reader: &Reader, said: Option<String>) -> Response {
    let draft = Draft {
        said,
        ..Draft::default()
    };
    page::with(desk, reader, PATH, "", &draft, |view| {
        let backed = desk.backed()?;
        let zone = view
            .book
            .shop
            .as_ref()
            .map_or("UTC", |s| s.time_zone.as_str());
        let officer = link::may_give(view.book, reader.id, view.on);
        let book = desk.book.display().to_string();
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
                p { (say::AFTERWARDS) }
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
                p class="typed" { (say::type_drill(&book)) }
            }
        };
        Ok(Some(Drawn::new("", say::TITLE, body)))
    })
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

/// Copies into the folder that was named at the machine; a page never says where to.
pub async fn now(State(desk): State<Arc<Desk>>, Extension(reader): Extension<Reader>) -> Response {
    let done = tokio::task::spawn_blocking(move || {
        let mut context = desk.context(Some(&reader.name));
        let asked = (|| -> Result<bool, Failure> {
            let (book, on) = (context.book()?, context.on()?);
            if !link::may_give(&book, reader.id, on) {
                return Ok(false);
            }
            let backup = Backup {
                to: None,
                every: None,
                newest: None,
                months: None,
            };
            Request::Backup(backup).run(&mut context)?;
            Ok(true)
        })();
        match asked {
            Ok(true) => Redirect::to(PATH).into_response(),
            Ok(false) => {
                let mut page = draw(&desk, &reader, Some(say::OFFICER_ONLY.into()));
                *page.status_mut() = StatusCode::FORBIDDEN;
                page
            }
            Err(failure) => {
                let mut page = draw(&desk, &reader, Some(failure.to_string()));
                *page.status_mut() = trouble::status(&failure);
                page
            }
        }
    })
    .await;
    done.unwrap_or_else(|e| super::door::sorry(&Failure::Machine(e.to_string())))
}
