//! Blue checks of a job: a row of rings, the oldest first, and the form that states the next.

use maud::{Markup, html};
use shop::book::{BluedFace, Job};
use shop::proof::BLUE;

use super::{View, kit};
use crate::blue_ring::ring;
use crate::words::{blue as say, tag};

/// The section of a job whose seat is lapped; nothing for another.
pub fn of_job(view: &View<'_>, kept: &Job, title: &str) -> Markup {
    if kept.blues.is_empty() && !kept.plan.proofs.iter().any(|proof| proof == BLUE) {
        return html! {};
    }
    html! {
        section class="ruled" id="blue" {
            h2 { (say::TITLE) }
            p class="small" { (say::LEAD) }
            @if kept.blues.is_empty() { p { (say::NONE) } }
            @for face in BluedFace::ALL {
                @let of_face: Vec<_> = kept.blues.iter().filter(|blue| blue.seen.face == face).collect();
                @if !of_face.is_empty() {
                    h3 { (say::face(face)) }
                    ol class="rings" { @for blue in of_face { @let seen = &blue.seen; li {
                        (ring(&seen.touches, &say::picture(seen), None))
                        p { b { (seen.after) } br; (say::round(&seen.touches)) (say::widths(seen, view.house)) }
                        @if let Some(told) = &seen.told { p class="told small" { (told) } }
                        @if let Some(photo) = seen.photo.and_then(|id| view.book.photos.get(&id)) { @let number = tag::photo(photo.number); p { a href=(format!("/photo/{number}")) { (number) } } }
                        p class="quiet small" { (say::seen(blue.on, kit::name(view.book, blue.by))) }
                    } } }
                }
            }
            @if kept.closed.is_none() { (state(view, title)) }
        }
    }
}

fn state(view: &View<'_>, title: &str) -> Markup {
    const VERB: &str = "blue";
    let faces = BluedFace::ALL.map(|face| (face.word(), say::face(face)));
    let fields = html! {
        (kit::hidden("job", title))
        (kit::choices(view, VERB, "face", say::FACE, &faces))
        (kit::line(view, VERB, "after", say::AFTER, say::AFTER_TELLS))
        (kit::line(view, VERB, "touches", say::TOUCHES, say::TOUCHES_TELLS))
        (kit::line(view, VERB, "width", say::WIDTH, say::WIDTH_TELLS))
        (kit::line(view, VERB, "wanted", say::WANTED, say::WANTED_TELLS))
        (kit::line(view, VERB, "photo", say::PHOTO, say::PHOTO_TELLS))
        (kit::lines(view, VERB, "told", say::TOLD, ""))
    };
    html! { details open[view.draft.is_of(VERB)] { summary { (say::STATE) } (kit::form(view, VERB, say::STATE, &fields, say::KEEP)) } }
}
