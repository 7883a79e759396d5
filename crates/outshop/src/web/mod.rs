//! The desk: local pages, drawn on this machine, over the same verbs as the command line.
//!
//! A page reads the book afresh, so that entries made elsewhere are seen. A form becomes the same
//! request as typed words do, and goes through the same function. Pages load nothing from outside and
//! work without scripts.

mod asset;
mod begun;
mod bench;
mod column;
mod copy;
mod door;
pub mod form;
mod frame;
mod guard;
mod lines;
mod link;
mod page;
mod part_list;
mod passphrase;
mod photo;
mod pocket;
mod print;
mod ribbon;
mod spot;
mod survey_file;
mod trouble;
mod upload;
mod wall;
mod wear;

use std::path::PathBuf;
use std::sync::Arc;

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::StatusCode;
use axum::middleware::{from_fn, from_fn_with_state};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use jiff::civil::Date;
use measure::House;
use shop::book::{Authority, Book, PersonId};

use crate::verb::{import, part_file, survey};
use crate::{Clock, Context, Failure, Globals, Ids, words};

pub use door::one_time_link;
pub(crate) use page::kit::{encode, part_path};

/// What the pages of one book share.
#[derive(Debug)]
pub struct Desk {
    book: PathBuf,
    clock: Option<Clock>,
    secure: bool,
    held: lines::Held,
}

impl Desk {
    /// The desk of a book; a stated clock is for tests. Over https a browser keeps its cookies for https.
    pub fn of(book: PathBuf, clock: Option<Clock>, secure: bool) -> Arc<Desk> {
        Arc::new(Desk {
            book,
            clock,
            secure,
            held: lines::Held::default(),
        })
    }

    /// What every verb is told here, with who speaks.
    fn globals(&self, by: Option<&str>) -> Globals {
        Globals {
            book: Some(self.book.clone()),
            by: by.map(str::to_string),
            device: "desk".into(),
            ..Globals::default()
        }
    }

    /// A context in which this person speaks.
    fn context(&self, by: Option<&str>) -> Context {
        let globals = self.globals(by);
        match &self.clock {
            Some(clock) => Context::stated(globals, clock.clone(), Ids::Random),
            None => Context::of(globals),
        }
    }

    /// Whether a reader may approve today.
    fn approves(&self, reader: &Reader) -> Result<bool, Failure> {
        let mut context = self.context(Some(&reader.name));
        let (book, on) = (context.book_of_shop()?, context.on()?);
        Ok(may(&book, reader, Authority::Approve, on))
    }

    /// Seconds since 1970, for tokens.
    fn seconds(&self) -> Result<i64, Failure> {
        let clock = match &self.clock {
            Some(clock) => clock.clone(),
            None => Clock::Machine,
        };
        Ok(clock.read("UTC")?.0.as_second())
    }
}

/// Who is at the desk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reader {
    /// Their id.
    pub id: PersonId,
    /// The name they sign with.
    pub name: String,
    /// The units they read in, if they chose any; else the shop's.
    pub house: Option<House>,
    /// The enrolled device they sit at, by its name.
    pub device: Option<String>,
}

/// Whether a reader holds an authority on a day.
fn may(book: &Book, reader: &Reader, authority: Authority, on: Date) -> bool {
    let person = book.persons.get(&reader.id);
    person.is_some_and(|person| person.holds(authority, on))
}

/// The pages of a desk.
pub fn router(desk: Arc<Desk>) -> Router {
    let inside = Router::new()
        .route("/", get(page::show))
        .route("/{*rest}", get(page::show))
        .route("/print/{*rest}", get(print::show))
        .route(
            upload::PATH,
            get(page::show)
                .post(lines::weigh::<import::Plan>)
                .layer(DefaultBodyLimit::max(lines::MOST_BODY)),
        )
        .route("/log/import/save", post(lines::save::<import::Plan>))
        .route(
            part_list::PATH,
            get(page::show)
                .post(lines::weigh::<part_file::Plan>)
                .layer(DefaultBodyLimit::max(lines::MOST_BODY)),
        )
        .route("/parts/import/save", post(lines::save::<part_file::Plan>))
        .route(
            survey_file::PATH,
            get(page::show)
                .post(lines::weigh::<survey::Plan>)
                .layer(DefaultBodyLimit::max(lines::MOST_BODY)),
        )
        .route("/surveys/import/save", post(lines::save::<survey::Plan>))
        .route("/photo/{number}", get(photo::show))
        .route(
            "/photo",
            post(photo::add).layer(DefaultBodyLimit::max(photo::MOST_BODY)),
        )
        .route("/do", post(form::act))
        .route("/me", get(door::me).post(door::set_passphrase))
        .route("/me/units", post(door::set_house))
        .route("/me/link", post(link::give))
        .route(begun::PATH, post(begun::act))
        .route("/bench/enrol", post(bench::enrol))
        .route("/bench/revoke", post(bench::revoke))
        .route("/bench/code", post(bench::set_code))
        .route(copy::PATH, get(page::show).post(copy::now))
        .route(copy::DRILL, post(copy::drill))
        .route("/out", post(door::leave))
        .layer(from_fn_with_state(desk.clone(), pocket::know_reader))
        .layer(from_fn_with_state(desk.clone(), door::need_reader));
    Router::new()
        .merge(inside)
        .route("/in", get(door::ask).post(door::with_passphrase))
        .route("/switch", get(bench::switch).post(bench::switch_to))
        .route("/in/{token}", get(door::link).post(door::with_link))
        .route("/wall/ahead", get(wall::show))
        .route("/wall/dates", get(wall::show))
        .route("/asset/{name}", get(asset::serve))
        .route(asset::WORKER, get(asset::worker))
        .route(pocket::PATH, post(pocket::send))
        .fallback(trouble::no_such_page)
        .layer(from_fn(guard::same_origin))
        .layer(from_fn(guard::headers))
        .with_state(desk)
}

/// Does what takes a while off the threads that answer.
async fn on_thread(work: impl FnOnce() -> Response + Send + 'static) -> Response {
    tokio::task::spawn_blocking(work).await.unwrap_or_else(|e| {
        trouble::page(
            StatusCode::SERVICE_UNAVAILABLE,
            words::trouble::NOT_DONE,
            &e.to_string(),
            &[("/", words::trouble::THE_DAYS_AHEAD)],
        )
        .into_response()
    })
}
