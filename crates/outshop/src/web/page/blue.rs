//! Blue checks of a job: a row of rings, the oldest first, and the form that states the next.

use maud::{Markup, html};
use measure::math;
use shop::book::{BluedFace, Job, Touch};
use shop::proof::BLUE;

use super::{View, kit};
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
                @let of_face: Vec<_> = kept.blues.iter().filter(|blue| blue.face == face).collect();
                @if !of_face.is_empty() {
                    h3 { (say::face(face)) }
                    ol class="rings" { @for blue in of_face { li {
                        (ring(&blue.touches, &say::picture(blue)))
                        p { b { (blue.after) } br; (say::round(&blue.touches)) (say::widths(blue, view.house)) }
                        @if let Some(told) = &blue.told { p class="told small" { (told) } }
                        @if let Some(photo) = blue.photo.and_then(|id| view.book.photos.get(&id)) { @let number = tag::photo(photo.number); p { a href=(format!("/photo/{number}")) { (number) } } }
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

/// Half the width of the picture, and the radius of the ring in it.
const HALF: f64 = 60.0;
const RADIUS: f64 = 44.0;

/// A face seen from above, the front at the top: a thin circle for the land, a broad stroke where it touches.
fn ring(touches: &[Touch], told: &str) -> Markup {
    let whole = |touch: &Touch| touch.from == 0 && touch.to == 360;
    let from = -HALF;
    let wide = 2.0 * HALF;
    html! {
        svg class="ring" role="img" aria-label=(told) viewBox=(format!("{from} {from} {wide} {wide}")) width="120" height="120" {
            circle class="land" cx="0" cy="0" r=(RADIUS) {}
            @for touch in touches {
                @if whole(touch) { circle class="touch" cx="0" cy="0" r=(RADIUS) {} } @else { path class="touch" d=(arc(*touch)) {} }
            }
            path class="front" d="M0 -58V-50" {}
        }
    }
}

fn arc(touch: Touch) -> String {
    let (from, to) = (f64::from(touch.from), f64::from(touch.to));
    let swept = if to > from {
        to - from
    } else {
        to + 360.0 - from
    };
    let at = |degrees: f64| {
        let (x, y) = (
            RADIUS * math::sin_deg(degrees),
            -RADIUS * math::cos_deg(degrees),
        );
        format!("{x:.2} {y:.2}")
    };
    let large = u8::from(swept > 180.0);
    format!("M{}A{RADIUS} {RADIUS} 0 {large} 1 {}", at(from), at(to))
}
