//! Papers at the desk: the same files that the verb `print` writes, shown by the browser.

use std::sync::Arc;

use axum::Extension;
use axum::extract::State;
use axum::http::{StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};

use super::form::{fields, value};
use super::frame::Place;
use super::{Desk, Reader, page, trouble};
use crate::verb::print::{
    Paper, before, boiler_card, boiler_work, calendar, drawing, duties, hydro, job_card, kept_card,
    kept_lathe_card, lathe_card, phones, report, stay_map, survey_map, tag, tires_paper, tool_tag,
    worksheet, yearly,
};
use crate::verb::tires::Tires;
use crate::{Failure, words};

/// The link to a paper, from the page that shows the same: `job/J-001`, `sheet/seat.correct?land=5/32in`.
pub fn link(to: &str) -> Markup {
    html! { p { a href=(format!("/print/{to}")) { (words::print::CARD) } } }
}

/// The link to the lathe card of a sheet that a job keeps.
pub fn kept_link(job: &str, sheet: &str) -> Markup {
    html! { p { a href=(format!("/print/job/{job}/{sheet}")) { (words::print::kept(sheet)) } } }
}

/// The links to the papers of an inspection: the sheet to write on while it is open, and the report.
pub fn inspection_links(engine: &str, kind: &str, number: &str, open: bool) -> Markup {
    html! { p {
        @if open { a href=(format!("/print/worksheet/{engine}/{kind}")) { (words::paper::PRINT_SHEET) } " " }
        a href=(format!("/print/inspection/{number}")) { (words::paper::PRINT_REPORT) }
    } }
}

/// The links to the sheets to write on of an engine.
pub fn sheet_links(engine: &str, kinds: &[&str]) -> Markup {
    html! { p class="kinds" { (words::paper::SHEETS) @for kind in kinds { " " a href=(format!("/print/worksheet/{engine}/{kind}")) { (kind) } } } }
}

/// The link to the tag of an engine that something stops.
pub fn tag_link(engine: &str) -> Markup {
    html! { p { a href=(format!("/print/tag/{engine}")) { (words::paper::PRINT_TAG) } } }
}

/// The link to the boiler card of an engine.
pub fn boiler_link(engine: &str) -> Markup {
    html! { p { a href=(format!("/print/boiler-card/{engine}")) { (words::boiler::PRINT) } } }
}

/// The link to the paper of a survey.
pub fn survey_link(engine: &str, component: &str) -> Markup {
    let component = page::kit::encode(component);
    html! { p { a href=(format!("/print/survey/{engine}/{component}")) { (words::boiler_map::PRINT_SURVEY) } } }
}

/// The link to the paper of the staybolts.
pub fn stays_link(engine: &str) -> Markup {
    html! { p { a href=(format!("/print/stay-map/{engine}")) { (words::boiler_map::PRINT_MAP) } } }
}

/// The link to the card of a sheet with these values.
pub fn sheet_link(id: &str, query: &[(String, String)]) -> Markup {
    let query = serde_html_form::to_string(query).unwrap_or_default();
    html! { p { a href=(format!("/print/sheet/{id}?{query}")) { (words::print::of_sheet(id)) } } }
}

/// Gives a paper. Setting a page computes, so it is done off the threads that answer.
pub async fn show(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    uri: Uri,
) -> Response {
    let set = tokio::task::spawn_blocking(move || {
        let made = make(&desk, &reader, uri.path(), uri.query().unwrap_or(""));
        made.unwrap_or_else(|failure| refused(&reader, &failure))
    })
    .await;
    set.unwrap_or_else(|e| refused_plainly(&e.to_string()))
}

fn make(desk: &Desk, reader: &Reader, path: &str, query: &str) -> Result<Response, Failure> {
    let mut context = desk.context(Some(&reader.name));
    let decoded: Vec<String> = path.split('/').skip(2).map(page::decode).collect();
    let parts: Vec<&str> = decoded.iter().map(String::as_str).collect();
    let paper = match parts.as_slice() {
        ["job", number] => job_card(&mut context, number)?,
        ["job", number, sheet] => kept_card(&mut context, number, sheet)?,
        ["card", number] => kept_lathe_card(&mut context, number)?,
        ["worksheet", number, kind] => worksheet(&mut context, number, kind)?,
        ["inspection", number] => report(&mut context, number)?,
        ["before", number, kind] => {
            let typed = fields(query.as_bytes());
            let lead = value(&typed, words::before::LEAD).trim();
            let lead = match lead {
                "" => None,
                typed => Some(shop::locomotive::read_lead(typed)?),
            };
            before(&mut context, number, kind, lead)?
        }
        ["duties", number] => duties(&mut context, number)?,
        ["year", number, year] => yearly(&mut context, number, year)?,
        ["hydro", number] => hydro(&mut context, number)?,
        ["tires", number] => {
            let asked = fields(query.as_bytes());
            let typed =
                |name: &str| Some(value(&asked, name).to_owned()).filter(|it| !it.is_empty());
            let asked = Tires {
                engine: (*number).to_owned(),
                clean_up: typed("clean_up"),
                lead_weeks: match typed("lead_weeks") {
                    None => None,
                    Some(weeks) => {
                        let weeks = weeks.parse().ok();
                        Some(weeks.ok_or_else(|| Failure::Input(words::tires::WEEKS.into()))?)
                    }
                },
            };
            tires_paper(&mut context, &asked)?
        }
        ["survey", number, component] => survey_map(&mut context, number, component)?,
        ["stay-map", number] => stay_map(&mut context, number)?,
        ["boiler-card", number] => boiler_card(&mut context, number)?,
        ["boiler-work", job, kind] => boiler_work(&mut context, job, kind)?,
        ["tag", number] => tag(&mut context, number)?,
        ["tool-tag", number] => tool_tag(&mut context, number)?,
        ["phones"] => phones(&mut context)?,
        ["calendar"] => calendar(&mut context, None)?,
        ["calendar", number] => calendar(&mut context, Some(number))?,
        ["drawing", word, form] => drawing(&mut context, word, &fields(query.as_bytes()), form)?,
        ["sheet", id] => lathe_card(&mut context, id, &fields(query.as_bytes()))?,
        _ => return Err(Failure::Input(format!("{}.", words::trouble::NO_PAGE))),
    };
    Ok(answer(paper))
}

fn answer(paper: Paper) -> Response {
    let name: String = paper
        .name
        .chars()
        .filter(|c| c.is_ascii_alphanumeric() || "-._".contains(*c))
        .collect();
    let (kind, how) = match name.rsplit('.').next() {
        Some("ics") => ("text/calendar; charset=utf-8", "attachment"),
        Some("svg") => ("image/svg+xml", "inline"),
        Some("dxf") => ("image/vnd.dxf", "attachment"),
        _ => ("application/pdf", "inline"),
    };
    let headers = [
        (header::CONTENT_TYPE, kind.to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("{how}; filename=\"{name}\""),
        ),
    ];
    (headers, paper.bytes).into_response()
}

fn refused(reader: &Reader, failure: &Failure) -> Response {
    let place = Place {
        shop: words::page::PROGRAM,
        here: "",
        reader: Some(reader),
        held: None,
    };
    trouble::of(failure, &place)
}

fn refused_plainly(why: &str) -> Response {
    let ways = [("/", words::page::AHEAD)];
    trouble::page(
        StatusCode::SERVICE_UNAVAILABLE,
        words::trouble::NOT_SHOWN,
        why,
        &ways,
    )
    .into_response()
}
