//! Photographs and scans at the desk: shown on a part's page, served from the book, and put in by a form.

use std::sync::Arc;

use axum::Extension;
use axum::extract::multipart::MultipartRejection;
use axum::extract::{Multipart, Path, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use shop::book::{FindingId, JobId, LetterId, PartId, Photo, PhotoOf};
use store::MOST_SCAN;

use super::form::{back, filled};
use super::lines::sent;
use super::page::{self, View, kit};
use super::{Desk, Reader, on_thread, trouble};
use crate::verb::photo::Of;
use crate::words::{part as say, tag};
use crate::{Failure, words};

/// The largest body taken: a file, and the few fields beside it.
pub const MOST_BODY: usize = MOST_SCAN + 64 * 1024;
/// What its form calls itself, for fields to be filled in again.
const VERB: &str = "photo-add";

/// The photographs of a part, and the form that adds one.
pub fn of_part(view: &View<'_>, id: PartId, number: &str, name: &str) -> Markup {
    let sets = view.book.readings.newest_first(id).unwrap_or_default();
    let photos = photos(view, |it| it.part == Some(id));
    let fields = html! {
        (kit::hidden("engine", number)) (kit::hidden("part", name))
        label for="photo-entry" { (say::SHOWS) }
        select id="photo-entry" name="entry" {
            option value="" { (say::THE_PART) }
            @for set in sets.iter().take(12) { option value=(set.entry) { (say::readings_of(set.on, set.state)) } }
        }
    };
    section(view, say::PHOTOS, say::NO_PHOTO, &photos, &fields)
}

/// The photographs of a finding, and the form that adds one.
pub fn of_finding(view: &View<'_>, id: FindingId, number: &str) -> Markup {
    let photos = photos(view, |it| it.added.of == PhotoOf::Finding { finding: id });
    let fields = kit::hidden("finding", number);
    section(view, say::PHOTOS, say::NO_PHOTO, &photos, &fields)
}

/// The photographs of a job's proofs, and the form that adds one; nothing where the job asks for no proof.
pub fn of_job(view: &View<'_>, id: JobId, number: &str, proofs: &[String]) -> Markup {
    let photos = photos(
        view,
        |it| matches!(&it.added.of, PhotoOf::Proof { job, .. } if *job == id),
    );
    let fields = html! {
        (kit::hidden("job", number))
        label for="photo-proof" { (say::PROOF_SHOWN) }
        select id="photo-proof" name="proof" { @for proof in proofs { option value=(proof) selected[view.draft.value(VERB, "proof") == proof] { (proof) } } }
    };
    html! { @if !proofs.is_empty() { (section(view, say::PHOTOS, say::NO_PHOTO, &photos, &fields)) } }
}

/// The scans of a letter, and the form that adds one.
pub fn of_letter(view: &View<'_>, id: LetterId, number: &str) -> Markup {
    let photos = photos(view, |it| it.added.letter == Some(id));
    let fields = kit::hidden("letter", number);
    section(
        view,
        words::letter::SCANS,
        words::letter::NO_SCAN,
        &photos,
        &fields,
    )
}

fn photos<'v>(view: &View<'v>, wanted: impl Fn(&Photo) -> bool) -> Vec<&'v Photo> {
    let mut photos: Vec<_> = view.book.photos.values().filter(|it| wanted(it)).collect();
    photos.sort_by_key(|it| std::cmp::Reverse(it.number));
    photos
}

fn section(view: &View<'_>, title: &str, none: &str, photos: &[&Photo], fields: &Markup) -> Markup {
    html! {
        section class="ruled" {
            h2 { (title) }
            @if photos.is_empty() { p { (none) } }
            @else {
                ul class="photos" { @for it in photos { li {
                    @let path = format!("/photo/{}", tag::photo(it.number));
                    @let shown = match &it.added.of {
                        PhotoOf::Readings { entry, .. } => Some(format!("#entry-{entry}")),
                        _ => None,
                    };
                    a href=(path) {
                        @if it.added.media.starts_with("image/") { img src=(path) alt=(it.added.told) loading="lazy"; }
                        @else { (it.added.name) }
                    }
                    p class="small" {
                        (say::photo(&tag::photo(it.number), &it.added.told, it.on, kit::name(view.book, it.by)))
                        @if let Some(shown) = shown { " " a href=(shown) { (say::READINGS_IT_SHOWS) } }
                        @if let PhotoOf::Proof { proof, .. } = &it.added.of { " " span class="quiet" { (proof) } }
                    }
                } } }
            }
            details open[view.draft.is_of(VERB)] {
                summary { (say::ADD_PHOTO) }
                form class="act" method="post" action="/photo" enctype="multipart/form-data" {
                    (kit::hidden("verb", VERB)) (kit::hidden("back", view.path))
                    label for="photo-file" { (say::FILE) }
                    input type="file" id="photo-file" name="file" accept="image/jpeg,image/png,image/webp,application/pdf" required;
                    (fields)
                    (kit::line(view, VERB, "told", say::SEEN_ON_IT, ""))
                    button { (say::KEEP_IT) }
                }
            }
        }
    }
}

/// Serves what a photograph shows, as the kind of file it is.
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    Path(number): Path<String>,
) -> Response {
    on_thread(move || {
        let found = (|| -> Result<Response, Failure> {
            let mut context = desk.context(Some(&reader.name));
            let kept = context.store()?.photo_of(&number)?;
            let kept =
                kept.ok_or_else(|| Failure::Input(format!("{}.", words::trouble::NO_PAGE)))?;
            let bytes = context.store()?.scan_of(&kept.added.sha256)?;
            let bytes = bytes.ok_or_else(|| Failure::Machine(say::gone(&number)))?;
            let headers = [
                (header::CONTENT_TYPE, kept.added.media.clone()),
                // What lies under a number never changes; only who is signed in may keep it.
                (header::CACHE_CONTROL, "private, max-age=86400".to_string()),
                (
                    header::CONTENT_DISPOSITION,
                    format!("inline; filename=\"{}\"", tag::photo(kept.number)),
                ),
            ];
            Ok((headers, bytes).into_response())
        })();
        found.unwrap_or_else(|failure| {
            let status = match failure.code() {
                2 => StatusCode::NOT_FOUND,
                _ => trouble::status(&failure),
            };
            let ways = [("/", words::trouble::THE_DAYS_AHEAD)];
            trouble::page(status, words::trouble::NO_PAGE, &failure.to_string(), &ways)
                .into_response()
        })
    })
    .await
}

/// Puts a photograph in the book and goes back to the page it was sent from.
pub async fn add(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    multipart: Result<Multipart, MultipartRejection>,
) -> Response {
    let came = match multipart {
        Ok(multipart) => sent(multipart, VERB).await,
        Err(_) => None,
    };
    on_thread(move || {
        let Some((fields, name, bytes)) = came else {
            let ways = [("/", words::trouble::THE_DAYS_AHEAD)];
            let status = StatusCode::PAYLOAD_TOO_LARGE;
            return trouble::page(status, words::trouble::NOT_DONE, say::NOT_SENT, &ways)
                .into_response();
        };
        let value = |name: &str| filled(&fields, name);
        let back = back(&fields);
        let of = Of {
            told: value("told").unwrap_or_default(),
            engine: value("engine"),
            part: value("part"),
            entry: value("entry").and_then(|entry| entry.parse().ok()),
            finding: value("finding"),
            job: value("job"),
            proof: value("proof"),
            letter: value("letter"),
        };
        let saved = if bytes.is_empty() {
            Err(Failure::Input(say::NO_FILE.into()))
        } else {
            of.save(&mut desk.context(Some(&reader.name)), &name, &bytes)
        };
        match saved {
            Ok(_) => Redirect::to(&back).into_response(),
            Err(failure) => {
                let (why, status) = (failure.to_string(), trouble::status(&failure));
                page::refused(&desk, &reader, &back, fields, why, status)
            }
        }
    })
    .await
}
