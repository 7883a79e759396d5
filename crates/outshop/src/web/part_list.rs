//! A list of parts from a file: it is sent, shown line by line, and kept only when that is asked for.

use std::sync::Arc;

use axum::Extension;
use axum::extract::{Multipart, RawForm, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use shop::locomotive::engines;

use super::form::{Draft, fields, value};
use super::page::{self, Drawn, View, kit};
use super::upload::{File, batches, sent};
use super::{Desk, Reader, on_thread, trouble};
use crate::Failure;
use crate::verb::part_file::{Fate, Plan};
use crate::words::{self, log, part_list as say};

/// The path of the page.
pub const PATH: &str = "/parts/import";
/// What its form calls itself, for fields to be filled in again.
const VERB: &str = "parts";

/// The page that asks for a file, and lists what came in.
pub fn draw(view: &View<'_>) -> Drawn {
    let filled = |name: &str| match view.draft.value(VERB, name) {
        "" => view.asked(name).to_string(),
        value => value.to_string(),
    };
    let all = engines(view.book);
    let (of, sheet) = (filled("engine"), filled("sheet"));
    let mut saved = view.batches.iter();
    let saved = saved.find(|batch| batch.id.to_string() == view.asked("batch"));
    let body = html! {
        h1 { (say::TITLE) }
        @if let Some(batch) = saved {
            p role="status" { b { (log::saved(usize::try_from(batch.entries).unwrap_or(0), &batch.id.to_string())) } }
            @if all.len() == 1 { @for (_, kept) in &all { p { a href=(format!("/engine/{}", kit::encode(&kept.number))) { (words::engine(&kept.number)) } } } }
        }
        p class="lead" { (say::TAKES) }
        form class="act" method="post" action=(PATH) enctype="multipart/form-data" {
            label for="file" { (log::FILE) }
            input type="file" id="file" name="file" accept=".csv,.txt,.tsv,.xlsx" required;
            label for="engine" { (say::ENGINE_OF_ALL) }
            select id="engine" name="engine" {
                option value="" { (say::EACH_NAMES_ONE) }
                @for (_, kept) in &all { option value=(kept.number) selected[kept.number == of] { (words::engine(&kept.number)) } }
            }
            label for="sheet" { (log::SHEET) }
            input type="text" id="sheet" name="sheet" value=(sheet) autocomplete="off";
            p class="quiet small" { (log::CHANGES_NOTHING) }
            button { (log::SHOW_FATES) }
        }
        h2 { (say::SUCH_AS) }
        div class="table" { table class="stack" {
            thead { tr { @for column in say::COLUMNS { th { (column) } } } }
            tbody { @for line in say::LINES { tr { @for (column, cell) in say::COLUMNS.iter().zip(line) {
                td data-label=(column) { (cell) }
            } } } }
        } }
        details { summary { (say::FAMILIES) }
            dl class="facts" { @for (word, kept) in &view.book.families { @if let Ok(family) = kept.family() { dt { (word) } dd { (family.title) } } } }
        }
        (batches(view))
    };
    Drawn::new("/", say::TITLE, body)
}

/// Takes a file and shows what each of its lines would do.
pub async fn weigh(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    multipart: Result<Multipart, axum::extract::multipart::MultipartRejection>,
) -> Response {
    let sent = match multipart {
        Ok(multipart) => sent(multipart, VERB).await,
        Err(_) => None,
    };
    on_thread(move || {
        let Some((fields, name, bytes)) = sent else {
            let (why, status) = (log::NOT_SENT.to_string(), StatusCode::PAYLOAD_TOO_LARGE);
            return page::refused(&desk, &reader, PATH, Vec::new(), why, status);
        };
        let weighed = File::of_sent(PATH, &reader, &fields, name, bytes)
            .and_then(|file| Ok((plan(&desk, &reader, &file)?, file)));
        match weighed {
            Ok((plan, file)) => {
                desk.held.keep(file.clone());
                show(&desk, &reader, &file, &plan, None, StatusCode::OK)
            }
            Err(failure) => refused(&desk, &reader, fields, &failure),
        }
    })
    .await
}

/// Keeps a file that was shown, if every line would still do what was shown.
pub async fn save(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let fields = fields(&body);
        let Some(file) = desk.held.find(PATH, value(&fields, "token"), reader.id) else {
            let failure = shop::Refusal::refused(log::FORGOTTEN);
            return refused(&desk, &reader, Vec::new(), &failure.into());
        };
        let plan = match plan(&desk, &reader, &file) {
            Ok(plan) => plan,
            Err(failure) => return refused(&desk, &reader, Vec::new(), &failure),
        };
        let again = |said: String, status| show(&desk, &reader, &file, &plan, Some(said), status);
        if plan.mark() != value(&fields, "mark") {
            return again(log::CHANGED.into(), StatusCode::CONFLICT);
        }
        let leave_out = value(&fields, "leave_out") == "yes";
        match plan.save(&mut desk.context(Some(&reader.name)), leave_out) {
            Ok(Some((_, batch))) => Redirect::to(&format!("{PATH}?batch={batch}")).into_response(),
            Ok(None) => show(&desk, &reader, &file, &plan, None, StatusCode::OK),
            Err(failure) => again(failure.to_string(), trouble::status(&failure)),
        }
    })
    .await
}

fn plan(desk: &Desk, reader: &Reader, file: &File) -> Result<Plan, Failure> {
    let (engine, sheet) = (file.told.engine.as_deref(), file.told.sheet.as_deref());
    let mut context = desk.context(Some(&reader.name));
    Plan::of_file(&mut context, &file.name, &file.bytes, engine, sheet)
}

/// The form again, with what was said of it.
fn refused(
    desk: &Desk,
    reader: &Reader,
    fields: Vec<(String, String)>,
    failure: &Failure,
) -> Response {
    let (why, status) = (failure.to_string(), trouble::status(failure));
    page::refused(desk, reader, PATH, fields, why, status)
}

fn show(
    desk: &Desk,
    reader: &Reader,
    file: &File,
    plan: &Plan,
    said: Option<String>,
    status: StatusCode,
) -> Response {
    let draft = Draft {
        fields: Vec::new(),
        said,
        kept: None,
    };
    let mut response = page::with(desk, reader, PATH, "", &draft, |_| {
        Ok(Some(Drawn::new("/", log::FATES, fates(file, plan))))
    });
    if status != StatusCode::OK {
        *response.status_mut() = status;
    }
    response
}

fn fates(file: &File, plan: &Plan) -> Markup {
    let [adds, tells, _, refused] = plan.counts();
    html! {
        h1 { (log::FATES) }
        p class="lead" { (file.name) ": " (say::sum(plan.counts())) }
        @if !plan.not_read.is_empty() { p { (log::not_read(&plan.not_read)) } }
        @if adds + tells > 0 {
            form class="act" method="post" action=(format!("{PATH}/save")) {
                (kit::hidden("token", &file.token))
                (kit::hidden("mark", &plan.mark()))
                p class="quiet small" { (log::CHANGES_NOTHING) }
                @if refused > 0 {
                    label class="choice" { input type="checkbox" name="leave_out" value="yes" required; span { (log::LEAVE_OUT) } }
                }
                button { (say::SAVE_IT) }
            }
        } @else { p { b { (say::NOTHING_NEW) } } }
        p { a href=(PATH) { (say::ANOTHER) } }
        div class="table" { table class="stack" {
            thead { tr { th class="num" { (log::LINE) } th { (log::ENGINE) } th { (say::PART) } th { (log::FATE) } } }
            tbody { @for line in &plan.lines { tr {
                td class="num" data-label=(log::LINE) { (line.place) }
                td data-label=(log::ENGINE) { (line.engine) }
                td data-label=(say::PART) { (line.part) }
                td data-label=(log::FATE) {
                    @if matches!(line.fate, Fate::Refused(_)) { span class="need" { (kit::worded(&line.told())) } } @else { (line.told()) }
                }
            } } }
        } }
    }
}
