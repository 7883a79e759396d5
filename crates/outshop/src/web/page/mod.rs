//! The pages: one file a place. Each draws from the book and gives a title and a body.

mod ahead;
mod apart;
mod before;
mod bench;
mod bench_survey;
mod boiler;
pub mod boiler_map;
mod boiler_work;
mod dates;
mod day;
mod blue;
mod card;
mod drawing;
mod drawn;
mod engine;
mod find;
mod finding;
mod first;
mod forecast;
mod held;
mod hydro;
mod inspection;
mod instrument;
mod job;
mod job_papers;
pub mod kit;
mod known;
mod lathe;
mod letter;
mod limit;
mod log;
mod look;
mod moved;
mod outside;
mod papers;
mod part;
mod part_form;
mod particular;
mod people;
mod plan;
mod rule;
mod sheet;
mod side;
mod spare;
mod moves;
mod tires;
mod yearly;
mod tooling;
mod work;
mod write_up;

use std::sync::Arc;

use crate::verb::ruled::ENGINE;
use axum::Extension;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use jiff::civil::Date;
use maud::{Markup, html};
use measure::House;
use rules::Rulebook;
use shop::book::{Authority, Book};
use shop::ruled::of_boiler;

use super::form::{Draft, fields, saved_before, value};
use super::frame::{self, Place};
use super::{Desk, Reader, may, trouble};
use crate::words::{self, trouble as say};
use crate::{Context, Failure};

/// What a page draws from.
pub struct View<'v> {
    /// The book as it stands.
    pub book: &'v Book,
    /// The rulebook.
    pub rules: &'static Rulebook,
    /// Today, or the day asked about.
    pub on: Date,
    /// House units, for every printer.
    pub house: House,
    /// Who is reading.
    pub reader: &'v Reader,
    /// A form that was refused, as it was filled in.
    pub draft: &'v Draft,
    /// The path of this page, for forms to come back to.
    pub path: &'v str,
    /// What stands after the question mark.
    pub query: Vec<(String, String)>,
    /// What came in together, where the page lists it.
    pub batches: Vec<store::Batch>,
    /// The desk, for what lies beside the book: copies made of it, devices.
    pub desk: &'v Desk,
}

impl View<'_> {
    /// Whether the reader holds an authority on the day of the page.
    pub fn may(&self, authority: Authority) -> bool {
        may(self.book, self.reader, authority, self.on)
    }

    /// What stands under a name after the question mark; empty if nothing does.
    pub fn asked(&self, name: &str) -> &str {
        value(&self.query, name).trim()
    }
}

/// A drawn page.
pub struct Drawn {
    /// Its title.
    pub title: String,
    /// Which place it belongs to, by path.
    pub here: &'static str,
    /// Its body.
    pub body: Markup,
}

impl Drawn {
    /// A page of a place.
    pub fn new(here: &'static str, title: impl Into<String>, body: Markup) -> Drawn {
        Drawn {
            title: title.into(),
            here,
            body,
        }
    }
}

/// Serves any page.
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    uri: Uri,
    headers: HeaderMap,
) -> Response {
    let drawn = tokio::task::spawn_blocking(move || {
        // Pages of the bench are kept on devices, with whatever stands on them.
        let before = (!uri.path().starts_with("/bench/"))
            .then(|| saved_before(&desk, &headers))
            .flatten();
        let (kept, forget) = before.unzip();
        let draft = Draft {
            kept,
            ..Draft::default()
        };
        let query = uri.query().unwrap_or("");
        let mut response = draw(&desk, &reader, uri.path(), query, &draft);
        if let Some(forget) = forget {
            response.headers_mut().append(header::SET_COOKIE, forget);
        }
        response
    })
    .await;
    drawn.unwrap_or_else(|e| {
        trouble::page(
            StatusCode::SERVICE_UNAVAILABLE,
            say::NOT_SHOWN,
            &e.to_string(),
            &[("/", say::THE_DAYS_AHEAD)],
        )
        .into_response()
    })
}

/// Draws the page of a path, with a refused form in it if there is one.
pub fn draw(desk: &Desk, reader: &Reader, path: &str, query: &str, draft: &Draft) -> Response {
    with(desk, reader, path, query, draft, dispatch)
}

/// The page of a path with a form in it that was refused, as it was filled in, and why.
pub fn refused(
    desk: &Desk,
    reader: &Reader,
    path: &str,
    fields: Vec<(String, String)>,
    why: String,
    status: StatusCode,
) -> Response {
    let said = Some(why);
    // A page that was asked something is asked it again.
    let (path, query) = path.split_once('?').unwrap_or((path, ""));
    let mut response = draw(
        desk,
        reader,
        path,
        query,
        &Draft {
            fields,
            said,
            kept: None,
        },
    );
    *response.status_mut() = status;
    response
}

/// As [`draw`], with a body of its own.
pub fn with(
    desk: &Desk,
    reader: &Reader,
    path: &str,
    query: &str,
    draft: &Draft,
    body: impl FnOnce(&View<'_>) -> Result<Option<Drawn>, Failure>,
) -> Response {
    let nowhere = Place {
        shop: words::page::PROGRAM,
        here: "",
        reader: Some(reader),
        held: None,
    };
    let mut context = desk.context(Some(&reader.name));
    let query = fields(query.as_bytes());
    let read = (|| -> Result<_, Failure> {
        let book = book_for(&mut context, path, &query)?;
        let house = reader.house.unwrap_or_else(|| context.house());
        let from_files = [
            super::upload::PATH,
            super::part_list::PATH,
            super::survey_file::PATH,
        ];
        let batches = if from_files.contains(&path) {
            context.store()?.batches()?
        } else {
            Vec::new()
        };
        Ok((book, context.rules()?, context.on()?, house, batches))
    })();
    let (book, rules, on, house, batches) = match read {
        Ok(read) => read,
        Err(failure) => return trouble::of(&failure, &nowhere),
    };
    let view = View {
        book: &book,
        rules,
        on,
        house,
        reader,
        draft,
        path,
        query,
        batches,
        desk,
    };
    let shop = book.shop.as_ref();
    let place = |here| Place {
        shop: shop.map_or(words::page::PROGRAM, |s| s.name.as_str()),
        here,
        reader: Some(reader),
        held: shop.and_then(|s| s.demonstration),
    };
    match body(&view) {
        Ok(Some(drawn)) => {
            let body = html! {
                @if let Some(said) = &draft.said { (trouble::said(said)) }
                @if let Some(kept) = &draft.kept { div class="kept" role="status" { p { (kit::worded(kept)) } } }
                (drawn.body)
            };
            frame::page(&place(drawn.here), &drawn.title, &body).into_response()
        }
        Ok(None) => {
            let ways = [
                ("/", say::THE_DAYS_AHEAD),
                ("/work", say::OPEN_WORK),
                ("/rulebook", say::THE_RULEBOOK),
            ];
            trouble::page(StatusCode::NOT_FOUND, say::NO_PAGE, say::NO_PAGE_WHY, &ways)
                .into_response()
        }
        Err(failure) => {
            let mut response = trouble::of(&failure, &place(""));
            if failure.code() == 2 {
                *response.status_mut() = StatusCode::NOT_FOUND;
            }
            response
        }
    }
}

/// The part of the book that the page of a path shows: one engine's, where the page is hers alone.
fn book_for(
    context: &mut Context,
    path: &str,
    query: &[(String, String)],
) -> Result<Book, Failure> {
    let decoded: Vec<String> = path.split('/').skip(1).map(decode).collect();
    let parts: Vec<&str> = decoded.iter().map(String::as_str).collect();
    let of_engine = match parts.as_slice() {
        ["engine", number, "part", name] => context.book_of_part_with_fires(number, name),
        ["engine", number, "part", name, "plan", _] | ["bench", number, name, _] => {
            context.book_of_part(number, name)
        }
        // Only these show her fires one by one.
        ["engine", number] | ["engine", number, "log"] | ["day", number] => {
            context.book_with_fires_of(number)
        }
        ["sheet", id] if !of_boiler(id).is_empty() => {
            match query
                .iter()
                .find(|(name, it)| name == ENGINE && !it.is_empty())
            {
                Some((_, number)) => crate::verb::boiler::book_for(context, number, None),
                None => return context.book(),
            }
        }
        ["engine", number, "boiler"] => crate::verb::boiler::book_for(context, number, None),
        ["engine", number, "boiler", component] => {
            crate::verb::boiler::book_for(context, number, Some(component))
        }
        ["engine", number, "stays" | "hydro"] | ["bench", number, "boiler", _, "survey"] => {
            context.book_of(number)
        }
        ["engine", number, "tires"] => crate::verb::tires::book_for(context, number),
        ["engine", number, "before", _] => context.book_with_all_readings_of(number),
        ["finding", number] => context.book_with_readings_of_finding(number),
        ["instruments"] | ["find"] => context.book_of_shop(),
        ["instrument", number] => context.book_with_readings_that_say(number),
        _ => return context.book(),
    };
    // A number that nobody has is said by the page.
    of_engine.or_else(|_| context.book())
}

fn dispatch(view: &View<'_>) -> Result<Option<Drawn>, Failure> {
    let decoded: Vec<String> = view.path.split('/').skip(1).map(decode).collect();
    let parts: Vec<&str> = decoded.iter().map(String::as_str).collect();
    let drawn = match parts.as_slice() {
        [""] => ahead::draw(view)?,
        ["dates"] => dates::draw(view)?,
        ["day", number] => day::draw(view, number)?,
        ["write-up", number] => write_up::draw(view, number)?,
        ["move", number] => moved::draw(view, number)?,
        ["notice", number] => outside::draw(view, number)?,
        ["shop"] => particular::draw(view)?,
        ["ahead", number] => look::draw(view, number)?,
        ["work"] => work::draw(view)?,
        ["engine", number] => engine::draw(view, number)?,
        ["engine", number, "known"] => known::draw(view, number)?,
        ["first-hour"] => first::draw(view)?,
        ["engine", number, "log"] => log::draw(view, number)?,
        ["log", "import"] => super::upload::draw(view),
        ["parts", "import"] => super::part_list::draw(view),
        ["surveys", "import"] => super::survey_file::draw(view),
        ["people"] => people::draw(view)?,
        ["copies"] => super::copy::draw(view)?,
        ["engine", number, "open"] => apart::draw(view, number)?,
        ["engine", number, "boiler"] => boiler::draw(view, number)?,
        ["engine", number, "stays"] => boiler_map::stays(view, number)?,
        ["engine", number, "tires"] => tires::draw(view, number)?,
        ["engine", number, "hydro"] => hydro::draw(view, number)?,
        ["engine", number, "boiler", component] => {
            let Some(drawn) = boiler_map::survey(view, number, component)? else {
                return Ok(None);
            };
            drawn
        }
        ["engine", number, "papers"] => papers::draw(view, number)?,
        ["engine", number, "part", name] => part::draw(view, number, name)?,
        ["engine", number, "part", name, "plan", size] => plan::draw(view, number, name, size)?,
        ["engine", number, "before", kind] => before::draw(view, number, kind)?,
        ["bench", ""] => bench::list(view),
        ["bench", number, "boiler", component, "survey"] => {
            let Some(drawn) = bench_survey::draw(view, number, component)? else {
                return Ok(None);
            };
            drawn
        }
        ["bench", number, name, feature] => {
            let Some(drawn) = bench::draw(view, number, name, feature)? else {
                return Ok(None);
            };
            drawn
        }
        ["find"] => find::draw(view)?,
        ["instruments"] => instrument::list(view),
        ["instrument", number] => instrument::draw(view, number)?,
        ["spares"] => spare::list(view),
        ["spare", number] => spare::draw(view, number)?,
        ["lathes"] => lathe::list(view),
        ["lathe", number] => lathe::draw(view, number)?,
        ["cards"] => card::list(view),
        ["card", number] => card::draw(view, number)?,
        ["letters"] => letter::list(view),
        ["letter", number] => letter::draw(view, number)?,
        ["tooling"] => tooling::list(view),
        ["tooling", number] => tooling::draw(view, number)?,
        ["inspection", number] => inspection::draw(view, number)?,
        ["finding", number] => finding::draw(view, number)?,
        ["job", number] => job::draw(view, number)?,
        ["drawings"] => drawing::list(),
        ["drawing", word] => drawing::draw(view, word)?,
        ["sheets"] => sheet::list()?,
        ["sheet", id] => sheet::draw(view, id)?,
        ["yearly"] => yearly::draw()?,
        ["boiler-work"] => boiler_work::draw(view)?,
        ["rulebook"] => rule::list(view)?,
        ["rule", id] => rule::draw(view, id)?,
        _ => return Ok(None),
    };
    Ok(Some(drawn))
}

/// A part of a path as it was meant: `%20` is a blank.
pub(super) fn decode(part: &str) -> String {
    let read = fields(format!("x={}", part.replace('+', "%2B")).as_bytes());
    read.into_iter()
        .next()
        .map_or(String::new(), |(_, value)| value)
}
