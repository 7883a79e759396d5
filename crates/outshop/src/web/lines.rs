//! A file of lines: it is sent, shown line by line, and kept only when that is asked for. What its lines are is for
//! the page that it was sent to.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex};

use axum::Extension;
use axum::extract::{Multipart, RawForm, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use clap::ValueEnum;
use maud::{Markup, html};
use shop::book::{BatchId, PersonId};
use store::Receipt;

use super::form::{Draft, fields, filled, value};
use super::page::{self, Drawn, View, kit};
use super::{Desk, Reader, on_thread, trouble};
use crate::logfile::{MOST_BYTES, Order, Told};
use crate::words::log as say;
use crate::{Context, Failure, Ids};

/// The largest body taken: a file, and the few fields beside it.
pub const MOST_BODY: usize = MOST_BYTES + 64 * 1024;
/// The most fields that are read beside a file.
const MOST_FIELDS: usize = 16;
/// So many files are kept between being shown and being saved, of all readers together.
const KEPT: usize = 8;

/// Lines of a file, weighed against the book as it stood.
pub(super) trait Lines: Sized {
    /// The path of the page that takes them, and below it `save`.
    const PATH: &'static str;
    /// What its form calls itself, for fields to be filled in again.
    const VERB: &'static str;
    /// What this page calls its own.
    const NAMES: Names;

    /// Weighs a file.
    fn of(context: &mut Context, file: &File) -> Result<Self, Failure>;

    /// A mark of every line's fate, the same whenever they are the same: what somebody was shown.
    fn mark(&self) -> String;

    /// Saves what is new in them, as one batch; nothing where nothing is.
    fn save(
        &self,
        context: &mut Context,
        leave_out: bool,
    ) -> Result<Option<(Receipt, BatchId)>, Failure>;

    /// What each would do, in words.
    fn fates(&self) -> Fates<'_>;

    /// Where to go once it is saved.
    fn after(&self, batch: BatchId) -> String {
        format!("{}?batch={batch}", Self::PATH)
    }
}

/// Words of one page.
pub(super) struct Names {
    /// Over what a line is of, beside its engine.
    pub(super) of: &'static str,
    /// On the button.
    pub(super) save_it: &'static str,
    /// Where there is nothing to save.
    pub(super) nothing_new: &'static str,
    /// The way back to another file.
    pub(super) another: &'static str,
}

/// What the lines would do.
pub(super) struct Fates<'p> {
    /// How many do what.
    pub(super) sum: String,
    /// What they add, in a sentence each.
    pub(super) adds: Vec<String>,
    /// Words over columns that are not read.
    pub(super) not_read: &'p [String],
    /// Whether any is new.
    pub(super) news: bool,
    /// How many are refused.
    pub(super) refused: usize,
    /// Each of them.
    pub(super) lines: Vec<Fate<'p>>,
    /// What the page shows of them together, under the lines.
    pub(super) together: Option<Markup>,
}

/// What becomes of a line.
pub(super) struct Fate<'p> {
    /// Its line in the file, from 1.
    pub(super) place: u32,
    /// The engine, as written.
    pub(super) engine: &'p str,
    /// What it is of.
    pub(super) of: String,
    /// What becomes of it.
    pub(super) told: String,
    /// Whether it is refused.
    pub(super) refused: bool,
}

/// Files that were shown and may yet be saved.
#[derive(Debug, Default)]
pub struct Held(Mutex<VecDeque<File>>);

/// A file as it was sent, and by whom.
#[derive(Debug, Clone)]
pub(super) struct File {
    pub(super) token: String,
    /// The path of the page it was sent to: a log is no list of parts.
    to: &'static str,
    of: PersonId,
    pub(super) name: String,
    pub(super) bytes: Arc<Vec<u8>>,
    pub(super) told: Told,
    /// All that was sent beside it.
    pub(super) fields: Vec<(String, String)>,
}

impl File {
    /// A file that somebody sent to a page, with what they told of it beside.
    ///
    /// # Errors
    /// Input: none was chosen. The machine's.
    pub(super) fn of_sent(
        to: &'static str,
        reader: &Reader,
        fields: &[(String, String)],
        name: String,
        bytes: Vec<u8>,
    ) -> Result<File, Failure> {
        if bytes.is_empty() && name.is_empty() {
            return Err(Failure::Input(say::NO_FILE.into()));
        }
        Ok(File {
            token: format!("{:032x}", Ids::Random.draw()?),
            to,
            of: reader.id,
            name,
            bytes: Arc::new(bytes),
            told: Told {
                engine: filled(fields, "engine"),
                order: filled(fields, "dates").and_then(|word| Order::from_str(&word, false).ok()),
                sheet: filled(fields, "sheet"),
            },
            fields: fields.to_vec(),
        })
    }
}

impl Held {
    pub(super) fn keep(&self, file: File) {
        let mut files = self
            .0
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        files.push_back(file);
        while files.len() > KEPT {
            files.pop_front();
        }
    }

    pub(super) fn find(&self, to: &str, token: &str, of: PersonId) -> Option<File> {
        let files = self
            .0
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        files
            .iter()
            .find(|file| file.to == to && file.token == token && file.of == of)
            .cloned()
    }
}

/// What came in together, with the way to take it back.
pub(super) fn batches(view: &View<'_>) -> Markup {
    html! {
        section class="ruled" {
            h2 { (say::BATCHES) }
            @if view.batches.is_empty() { p { (say::NO_BATCH) } }
            ul class="plain" { @for batch in view.batches.iter().rev() { li {
                @let id = batch.id.to_string();
                (say::batch(&id, batch.entries, batch.first, batch.last, batch.recorded_at.get(..10).unwrap_or(""), kit::name(view.book, batch.by)))
                @if batch.withdrawn { " " b { (say::TAKEN_BACK) } } @else {
                    details { summary { (say::TAKE_BACK) }
                        @let fields = html! {
                            (kit::hidden("batch", &id))
                            @let field = format!("because-{id}");
                            label for=(field) { (say::BECAUSE) }
                            input type="text" id=(field) name="because" autocomplete="off" required;
                        };
                        (kit::form(view, "entry withdraw", say::TAKE_BACK, &fields, say::TAKE_BACK))
                    }
                }
            } } }
        }
    }
}

/// What stands in a field of the form that asks for a file: as it was sent, else as the page was asked for.
pub(super) fn stood<'v, P: Lines>(view: &'v View<'_>, name: &str) -> &'v str {
    match view.draft.value(P::VERB, name) {
        "" => view.asked(name),
        value => value,
    }
}

/// That a file came in, where the page was asked to say so.
pub(super) fn came_in(view: &View<'_>) -> Option<Markup> {
    let mut saved = view.batches.iter();
    let batch = saved.find(|batch| batch.id.to_string() == view.asked("batch"))?;
    let entries = usize::try_from(batch.entries).unwrap_or(0);
    Some(html! { p role="status" { b { (say::saved(entries, &batch.id.to_string())) } } })
}

/// Takes a file and shows what each of its lines would do.
pub(super) async fn weigh<P: Lines>(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    multipart: Result<Multipart, axum::extract::multipart::MultipartRejection>,
) -> Response {
    let sent = match multipart {
        Ok(multipart) => sent(multipart, P::VERB).await,
        Err(_) => None,
    };
    on_thread(move || {
        let Some((fields, name, bytes)) = sent else {
            let (why, status) = (say::NOT_SENT.to_string(), StatusCode::PAYLOAD_TOO_LARGE);
            return page::refused(&desk, &reader, P::PATH, Vec::new(), why, status);
        };
        let weighed = File::of_sent(P::PATH, &reader, &fields, name, bytes)
            .and_then(|file| Ok((lines_of::<P>(&desk, &reader, &file)?, file)));
        match weighed {
            Ok((lines, file)) => {
                let response = show(&desk, &reader, &file, &lines, None, StatusCode::OK);
                desk.held.keep(file);
                response
            }
            Err(failure) => refused::<P>(&desk, &reader, fields, &failure),
        }
    })
    .await
}

/// Saves a file that was shown, if every line would still do what was shown.
pub(super) async fn save<P: Lines>(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let fields = fields(&body);
        let Some(file) = desk.held.find(P::PATH, value(&fields, "token"), reader.id) else {
            let failure = shop::Refusal::refused(say::FORGOTTEN);
            return refused::<P>(&desk, &reader, Vec::new(), &failure.into());
        };
        let lines = match lines_of::<P>(&desk, &reader, &file) {
            Ok(lines) => lines,
            Err(failure) => return refused::<P>(&desk, &reader, Vec::new(), &failure),
        };
        let again = |said: String, status| show(&desk, &reader, &file, &lines, Some(said), status);
        if lines.mark() != value(&fields, "mark") {
            return again(say::CHANGED.into(), StatusCode::CONFLICT);
        }
        let leave_out = value(&fields, "leave_out") == "yes";
        match lines.save(&mut desk.context(Some(&reader.name)), leave_out) {
            Ok(Some((_, batch))) => Redirect::to(&lines.after(batch)).into_response(),
            Ok(None) => show(&desk, &reader, &file, &lines, None, StatusCode::OK),
            Err(failure) => again(failure.to_string(), trouble::status(&failure)),
        }
    })
    .await
}

pub(super) type Sent = (Vec<(String, String)>, String, Vec<u8>);

/// What was sent: the fields, the file's name and what is in it; nothing where it did not come through whole.
pub(super) async fn sent(mut multipart: Multipart, verb: &str) -> Option<Sent> {
    let mut fields = vec![("verb".to_string(), verb.to_string())];
    let (mut name, mut bytes) = (String::new(), Vec::new());
    loop {
        let Some(field) = multipart.next_field().await.ok()? else {
            return Some((fields, name, bytes));
        };
        match field.name() {
            Some("file") => {
                name = plain_name(field.file_name().unwrap_or_default());
                bytes = field.bytes().await.ok()?.to_vec();
            }
            Some(other) if fields.len() < MOST_FIELDS => {
                let other = other.to_string();
                fields.push((other, field.text().await.ok()?));
            }
            _ => drop(field.bytes().await.ok()?),
        }
    }
}

/// A file's own name, without the folders some browsers send with it.
fn plain_name(sent: &str) -> String {
    let own = sent.rsplit(['/', '\\']).next().unwrap_or_default();
    own.chars().filter(|c| !c.is_control()).take(120).collect()
}

fn lines_of<P: Lines>(desk: &Desk, reader: &Reader, file: &File) -> Result<P, Failure> {
    P::of(&mut desk.context(Some(&reader.name)), file)
}

/// The form again, with what was said of it.
fn refused<P: Lines>(
    desk: &Desk,
    reader: &Reader,
    fields: Vec<(String, String)>,
    failure: &Failure,
) -> Response {
    let (why, status) = (failure.to_string(), trouble::status(failure));
    page::refused(desk, reader, P::PATH, fields, why, status)
}

fn show<P: Lines>(
    desk: &Desk,
    reader: &Reader,
    file: &File,
    lines: &P,
    said: Option<String>,
    status: StatusCode,
) -> Response {
    let draft = Draft {
        said,
        ..Draft::default()
    };
    let mut response = page::with(desk, reader, P::PATH, "", &draft, |_| {
        Ok(Some(Drawn::new("/", say::FATES, fates(file, lines))))
    });
    if status != StatusCode::OK {
        *response.status_mut() = status;
    }
    response
}

fn fates<P: Lines>(file: &File, lines: &P) -> Markup {
    let (fates, names) = (lines.fates(), P::NAMES);
    html! {
        h1 { (say::FATES) }
        p class="lead" { (file.name) ": " (fates.sum) }
        @for said in &fates.adds { p { (said) } }
        @if !fates.not_read.is_empty() { p { (say::not_read(fates.not_read)) } }
        @if fates.news {
            form class="act" method="post" action=(format!("{}/save", P::PATH)) {
                (kit::hidden("token", &file.token))
                (kit::hidden("mark", &lines.mark()))
                @if fates.refused > 0 {
                    label class="choice" { input type="checkbox" name="leave_out" value="yes" required; span { (say::LEAVE_OUT) } }
                }
                button { (names.save_it) }
            }
        } @else { p { b { (names.nothing_new) } } }
        p { a href=(P::PATH) { (names.another) } }
        div class="table" { table class="stack" {
            thead { tr { th class="num" { (say::LINE) } th { (say::ENGINE) } th { (names.of) } th { (say::FATE) } } }
            tbody { @for line in &fates.lines { tr {
                td class="num" data-label=(say::LINE) { (line.place) }
                td data-label=(say::ENGINE) { (line.engine) }
                td data-label=(names.of) { (line.of) }
                td data-label=(say::FATE) {
                    @if line.refused { span class="need" { (kit::worded(&line.told)) } } @else { (line.told) }
                }
            } } }
        } }
        @if let Some(together) = &fates.together { (together) }
    }
}
