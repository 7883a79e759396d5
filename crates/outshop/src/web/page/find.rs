//! What says all of some words, kind by kind, with the place where it says so.

use maud::html;

use super::card::stands;
use super::{Drawn, View, kit};
use crate::Failure;
use crate::verb::card::read;
use crate::verb::find::find;
use crate::words::find as say;

pub fn draw(view: &View<'_>) -> Result<Drawn, Failure> {
    let asked = view.asked("q");
    let mut context = view.desk.context(Some(&view.reader.name));
    // What a hand reader puts here may be the bars of a card.
    let standing = read(&mut context, asked);
    let of_card = !matches!(standing, Ok(None));
    let groups = if asked.is_empty() || of_card {
        Ok(Vec::new())
    } else {
        find(&mut context, asked)
    };
    let said = groups.as_ref().err().map(ToString::to_string);
    let groups = groups.unwrap_or_default();
    let body = html! {
        h1 { (say::TITLE) }
        form class="seek" method="get" action="/find" role="search" {
            label for="find-words" { (say::WORDS) }
            input type="text" id="find-words" name="q" value=(asked) autocomplete="off";
            button { (say::TITLE) }
        }
        @match &standing {
            Ok(Some(standing)) => (stands(standing, true)),
            Ok(None) => {}
            Err(why) => p class="need" { (kit::worded(&why.to_string())) },
        }
        @if of_card {} @else if let Some(said) = said { p class="need" { (kit::worded(&said)) } }
        @else if asked.is_empty() { p class="lead" { (say::LEAD) } }
        @else if groups.is_empty() { p { (kit::worded(&say::nothing(asked))) } }
        @for group in &groups {
            section class="ruled" {
                h2 { (say::head(group.title, group.count)) }
                ul class="plain" { @for it in &group.shown { li {
                    a href=(it.path) { (it.name) }
                    @if let Some((field, said)) = &it.said { br; span class="quiet small" { (say::stands(field, said)) } }
                } } }
                @if group.count > group.shown.len() { p class="quiet" { (say::more(group.count - group.shown.len())) } }
            }
        }
    };
    Ok(Drawn::new("/find", say::TITLE, body))
}
