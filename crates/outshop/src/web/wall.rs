//! What a shop lets anybody read without signing in, as on a sheet of paper on its wall: only what an officer chose, and
//! of it only engines, days and kinds of things. No name of a person, nothing that anybody wrote, no form.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use rules::Rulebook;
use shop::book::{Book, Locomotive};
use shop::clock::State as Stands;
use shop::locomotive::engines;
use shop::record::{WALL_AHEAD, WALL_DATES};
use shop::report::{Ahead, DateOf, ahead, deadlines};

use super::{Desk, door, frame, on_thread};
use crate::words::{self, dates, wall as say};
use crate::{Context, Failure};

/// The pages, each with the shop's rule that opens it.
pub const PAGES: &[(&str, &str)] = &[("/wall/ahead", WALL_AHEAD), ("/wall/dates", WALL_DATES)];

/// A page of the wall where the shop chose it; else the way to sign in.
pub async fn show(State(desk): State<Arc<Desk>>, request: Request) -> Response {
    let path = request.uri().path().to_string();
    let sign_in = door::way_in(&desk, request.headers());
    on_thread(move || match page(&desk, &path) {
        Ok(Some(page)) => {
            let mut response = page.into_response();
            // A screen on a wall has nobody who asks again.
            let again = HeaderValue::from_static("600");
            response.headers_mut().insert(header::REFRESH, again);
            response
        }
        Ok(None) => Redirect::to(sign_in).into_response(),
        Err(failure) => door::sorry(&failure),
    })
    .await
}

fn page(desk: &Desk, path: &str) -> Result<Option<Markup>, Failure> {
    let mut context = desk.context(None);
    let on = context.on()?;
    let chosen = {
        let book = context.book_of_shop()?;
        let shop = book.shop.as_ref();
        let chosen = |word: &str| shop.is_some_and(|shop| shop.rule(word, on).is_some());
        PAGES.iter().find(|(at, word)| *at == path && chosen(word))
    };
    let Some((_, word)) = chosen else {
        return Ok(None);
    };
    let (book, rules) = (context.book()?, context.rules()?);
    let (title, body) = if *word == WALL_AHEAD {
        (words::page::AHEAD, days_ahead(&mut context, &book, rules)?)
    } else {
        (dates::TITLE, due(&mut context, &book, rules)?)
    };
    let shop = book.shop.as_ref();
    let shop_name = shop.map_or(words::page::PROGRAM, |shop| shop.name.as_str());
    let body = html! {
        h1 { (title) }
        p class="lead" { (shop_name) ". " (words::ahead::today(on)) }
        (body)
        p class="quiet small" { (say::NO_MORE) " " a href="/in" { (words::door::SIGN_IN) } }
    };
    Ok(Some(frame::bare(title, &body)))
}

fn days_ahead(context: &mut Context, book: &Book, rules: &Rulebook) -> Result<Markup, Failure> {
    let on = context.on()?;
    let all: Vec<_> = engines(book)
        .into_iter()
        .map(|(id, kept)| Ok((kept, ahead(book, rules, id, on)?)))
        .collect::<Result<_, Failure>>()?;
    Ok(html! {
        @if all.is_empty() { p { (say::NO_ENGINE) } }
        @for (kept, ahead) in &all { (engine(kept, ahead)) }
    })
}

fn engine(kept: &Locomotive, ahead: &Ahead) -> Markup {
    let clocks = ahead.clocks.iter();
    let clocks: Vec<_> = clocks
        .filter(|clock| matches!(clock.state, Stands::Stops | Stands::CannotTell(_)))
        .collect();
    let tags: Vec<&str> = ahead
        .stops
        .iter()
        .filter_map(|stop| stop.what.as_deref())
        .collect();
    html! {
        section class="ruled" {
            h2 { (words::engine(&kept.number)) }
            @if ahead.stops.is_empty() { p { (say::NOTHING_STOPS) } }
            @else { ul class="plain" {
                @for clock in clocks { li { b { (clock.ruling.title) } ": " (if clock.state == Stands::Stops { words::engine::STOPS_HER } else { words::page::CANNOT_TELL }) } }
                @for tag in tags { li { (words::sentence(tag)) " " (say::IS_OPEN) } }
            } }
            @for run in &ahead.runs {
                p { b { (words::day(run.day)) } ": " (if run.in_the_way.is_empty() { say::PROMISED_CLEAR } else { say::PROMISED_STOPPED }) }
            }
        }
    }
}

fn due(context: &mut Context, book: &Book, rules: &Rulebook) -> Result<Markup, Failure> {
    let all = deadlines(book, rules, context.on()?, None)?;
    let of_law: Vec<_> = all
        .iter()
        .filter(|one| matches!(one.of, DateOf::Clock(_)))
        .collect();
    Ok(html! {
        @if of_law.is_empty() { p { (dates::NONE) } }
        @else { div class="table" { table class="stack threes" {
            thead { tr { th { (dates::DAY) } th { (dates::ENGINE) } th { (dates::WHAT) } } }
            tbody { @for one in of_law { tr {
                td data-label=(dates::DAY) { (if one.last.is_some() { dates::day(one) } else { dates::reach(one.reach).into() }) }
                td data-label=(dates::ENGINE) { (words::engine(&one.number)) }
                td data-label=(dates::WHAT) { b { (dates::what(one)) } }
            } } }
        } } }
    })
}
