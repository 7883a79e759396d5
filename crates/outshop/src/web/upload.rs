//! A log from a file: it is sent, shown line by line, and saved only when that is asked for.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex};

use axum::Extension;
use axum::extract::{Multipart, RawForm, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use clap::ValueEnum;
use maud::{Markup, html};
use shop::book::PersonId;

use super::form::{Draft, fields, filled, value};
use super::page::{self, Drawn, View, kit};
use super::{Desk, Reader, on_thread, trouble};
use crate::logfile::{MOST_BYTES, Order, Told};
use crate::verb::import::{Plan, tell};
use crate::words::{self, log as say};
use crate::{Failure, Ids};

/// The largest body taken: a file, and the few fields beside it.
pub const MOST_BODY: usize = MOST_BYTES + 64 * 1024;
/// So many files are kept between being shown and being saved, of all readers together.
const KEPT: usize = 8;
/// The path of the page.
pub const PATH: &str = "/log/import";
/// What its form calls itself, for fields to be filled in again.
const VERB: &str = "import";

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

/// The page that asks for a file, and lists what came in.
pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let filled = |name: &str| match view.draft.value(VERB, name) {
        "" => view.asked(name).to_string(),
        value => value.to_string(),
    };
    let order = filled("dates");
    let saved = view
        .batches
        .iter()
        .find(|batch| batch.id.to_string() == view.asked("batch"));
    let body = html! {
        h1 { (say::FROM_FILE) }
        @if let Some(batch) = saved {
            p role="status" { b { (say::saved(usize::try_from(batch.entries).unwrap_or(0), &batch.id.to_string())) } }
        }
        p class="lead" { (say::TAKES) }
        form class="act" method="post" action=(PATH) enctype="multipart/form-data" {
            label for="file" { (say::FILE) }
            input type="file" id="file" name="file" accept=".csv,.txt,.tsv,.xlsx" required;
            label for="engine" { (say::ENGINE_OF_ALL) }
            input type="text" id="engine" name="engine" value=(filled("engine")) autocomplete="off";
            label for="dates" { (say::ORDER) }
            select id="dates" name="dates" {
                @for (word, name) in ORDERS { option value=(word) selected[*word == order] { (name) } }
            }
            label for="sheet" { (say::SHEET) }
            input type="text" id="sheet" name="sheet" value=(filled("sheet")) autocomplete="off";
            p class="quiet small" { (say::CHANGES_NOTHING) }
            button { (say::SHOW_FATES) }
        }
        (batches(view))
    };
    Ok(Drawn::new("/", say::FROM_FILE, body))
}

/// The choices of an order of day and month.
const ORDERS: &[(&str, &str)] = &[
    ("", say::NO_ORDER),
    ("day-month", say::DAY_MONTH),
    ("month-day", say::MONTH_DAY),
];

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
    let Some((fields, name, bytes)) = sent else {
        return on_thread(move || {
            let (why, status) = (say::NOT_SENT.to_string(), StatusCode::PAYLOAD_TOO_LARGE);
            page::refused(&desk, &reader, PATH, Vec::new(), why, status)
        })
        .await;
    };
    on_thread(move || {
        let file = match File::of_sent(PATH, &reader, &fields, name, bytes) {
            Ok(file) => file,
            Err(failure) => return refused(&desk, &reader, fields, &failure),
        };
        match plan(&desk, &reader, &file) {
            Ok(plan) => {
                desk.held.keep(file.clone());
                show(&desk, &reader, &file, &plan, None, StatusCode::OK)
            }
            Err(failure) => refused(&desk, &reader, fields, &failure),
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
            Some(other) if fields.len() < 8 => {
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

fn plan(desk: &Desk, reader: &Reader, file: &File) -> Result<Plan, Failure> {
    Plan::of_file(
        &mut desk.context(Some(&reader.name)),
        &file.name,
        &file.bytes,
        &file.told,
    )
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
        Ok(Some(Drawn::new("/", say::FATES, fates(file, plan))))
    });
    if status != StatusCode::OK {
        *response.status_mut() = status;
    }
    response
}

fn fates(file: &File, plan: &Plan) -> Markup {
    let [taken, _, _, refused] = plan.counts();
    html! {
        h1 { (say::FATES) }
        p class="lead" { (plan.name) ": " (say::sum(plan.counts(), plan.passed_over)) }
        @for (number, (days, doubt)) in &plan.adds { p { (say::adds(number, *days, *doubt)) } }
        @if !plan.not_read.is_empty() { p { (say::not_read(&plan.not_read)) } }
        @if taken > 0 {
            form class="act" method="post" action=(format!("{PATH}/save")) {
                (kit::hidden("token", &file.token))
                (kit::hidden("mark", &plan.mark()))
                @if refused > 0 {
                    label class="choice" { input type="checkbox" name="leave_out" value="yes" required; span { (say::LEAVE_OUT) } }
                }
                button { (say::SAVE_IT) }
            }
        } @else { p { b { (say::NOTHING_NEW) } } }
        p { a href=(PATH) { (say::FROM_FILE) } }
        div class="table" { table class="stack" {
            thead { tr { th class="num" { (say::LINE) } th { (say::ENGINE) } th { (say::DAY) } th { (say::FATE) } } }
            tbody { @for line in &plan.lines { tr {
                td class="num" data-label=(say::LINE) { (line.place) }
                td data-label=(say::ENGINE) { (line.engine) }
                td data-label=(say::DAY) { (line.day.map_or("-".to_string(), words::day)) }
                td data-label=(say::FATE) {
                    @let told = tell(line);
                    @if matches!(line.fate, shop::clock::Fate::Refused(_)) { span class="need" { (kit::worded(&told)) } } @else { (told) }
                }
            } } }
        } }
    }
}

/// Saves a file that was shown, if every line would still do what was shown.
pub async fn save(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let fields = fields(&body);
        let Some(file) = desk.held.find(PATH, value(&fields, "token"), reader.id) else {
            let failure = shop::Refusal::refused(say::FORGOTTEN);
            return refused(&desk, &reader, Vec::new(), &failure.into());
        };
        let plan = match plan(&desk, &reader, &file) {
            Ok(plan) => plan,
            Err(failure) => return refused(&desk, &reader, Vec::new(), &failure),
        };
        if plan.mark() != value(&fields, "mark") {
            let said = Some(say::CHANGED.to_string());
            return show(&desk, &reader, &file, &plan, said, StatusCode::CONFLICT);
        }
        let leave_out = value(&fields, "leave_out") == "yes";
        match plan.save(&mut desk.context(Some(&reader.name)), leave_out) {
            Ok(Some((_, batch))) => Redirect::to(&format!("{PATH}?batch={batch}")).into_response(),
            Ok(None) => show(&desk, &reader, &file, &plan, None, StatusCode::OK),
            Err(failure) => {
                let status = trouble::status(&failure);
                show(
                    &desk,
                    &reader,
                    &file,
                    &plan,
                    Some(failure.to_string()),
                    status,
                )
            }
        }
    })
    .await
}
