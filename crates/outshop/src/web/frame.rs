//! The frame of every page: where one stands, who is at the desk, what governs.

use maud::{DOCTYPE, Markup, html};

use super::Reader;
use crate::words;

/// Where a page stands.
#[derive(Debug, Clone, Copy)]
pub struct Place<'p> {
    /// The shop's name.
    pub shop: &'p str,
    /// Which of the places in the head of the page this is, by its path.
    pub here: &'p str,
    /// Who is at the desk.
    pub reader: Option<&'p Reader>,
    /// The day a demonstration book is held at.
    pub held: Option<jiff::civil::Date>,
}

/// The places to stand, by path.
const PLACES: &[(&str, &str)] = &[
    ("/", words::page::AHEAD),
    ("/dates", words::dates::TITLE),
    ("/work", words::page::WORK),
    ("/sheets", words::page::SHEETS),
    ("/rulebook", words::page::RULEBOOK),
];

/// A whole page.
pub fn page(place: &Place<'_>, title: &str, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(title))
            body {
                a class="skip" href="#main" { (words::page::SKIP) }
                header {
                @if let Some(held) = place.held {
                    p class="banner" role="note" { (words::page::demonstration(held)) }
                }
                div class="top" {
                    strong { (place.shop) }
                    nav aria-label=(words::page::PLACES) {
                        @for (path, name) in PLACES {
                            @if *path == place.here { a href=(path) aria-current="page" { (name) } } @else { a href=(path) { (name) } }
                        }
                    }
                    @if place.reader.is_some() && place.here != "/find" {
                        form class="find" method="get" action="/find" role="search" {
                            input type="text" name="q" aria-label=(words::find::WORDS) placeholder=(words::find::TITLE) autocomplete="off";
                            button class="plain" { (words::find::TITLE) }
                        }
                    }
                    @if let Some(reader) = place.reader {
                        span class="who" {
                            a href="/me" { (reader.name) }
                            @if reader.device.is_some() { a href="/switch" { (words::bench::SWITCH_SHORT) } }
                            form method="post" action="/out" { button class="plain" { (words::page::LEAVE) } }
                        }
                    }
                }
                }
                hr class="line";
                main id="main" { (body) }
                footer class="foot" { (words::STANDING) }
            }
        }
    }
}

/// A page outside the book: nobody is known yet, or nothing can be read.
pub fn bare(title: &str, body: &Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang="en" {
            (head(title))
            body {
                header class="top" { strong { (words::page::PROGRAM) } }
                hr class="line";
                main id="main" { (body) }
                footer class="foot" { (words::STANDING) }
            }
        }
    }
}

fn head(title: &str) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            title { (words::page::title(title)) }
            link rel="stylesheet" href="/asset/desk.css";
            link rel="icon" href="/asset/mark.svg" type="image/svg+xml";
        }
    }
}
