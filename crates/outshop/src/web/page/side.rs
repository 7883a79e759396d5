//! The side view of an engine, touched by place; the same places as a list; and her parts, by place, by name, or all.

use maud::{Markup, html};
use shop::book::{FindingState, Locomotive, LocomotiveId, Part, PartId, Place};
use shop::locomotive::family;

use super::{View, kit};
use crate::words::{engine as say, tag};

/// A part of hers with the place its family names.
struct Placed<'b> {
    id: PartId,
    part: &'b Part,
    place: Option<Place>,
}

/// What is asked of her parts.
enum Asked<'v> {
    All,
    At(Place),
    Named(&'v str),
}

fn asked<'v>(view: &'v View<'_>) -> Asked<'v> {
    let place = view.asked("place");
    let place = Place::ALL.into_iter().find(|p| p.word() == place);
    match (place, view.asked("part")) {
        (Some(place), _) => Asked::At(place),
        (None, "") => Asked::All,
        (None, name) => Asked::Named(name),
    }
}

/// Her parts, by name.
fn hers<'b>(view: &View<'b>, engine: LocomotiveId) -> Vec<Placed<'b>> {
    let mut hers: Vec<_> = view
        .book
        .parts
        .iter()
        .filter(|(_, part)| part.locomotive == engine)
        .map(|(id, part)| Placed {
            id: *id,
            part,
            place: family(view.book, &part.family).ok().and_then(|f| f.place),
        })
        .collect();
    hers.sort_by(|a, b| a.part.name.cmp(&b.part.name));
    hers
}

/// Findings of a part that are not put right and not carried, by number.
fn open_findings(view: &View<'_>, part: PartId) -> Vec<u32> {
    let mut open: Vec<_> = view
        .book
        .findings
        .values()
        .filter(|f| f.part == part)
        .filter(|f| !matches!(f.state, FindingState::Closed | FindingState::Carried))
        .map(|f| f.number)
        .collect();
    open.sort_unstable();
    open
}

/// The side view with its places, and the places as a list.
pub fn places(view: &View<'_>, engine: LocomotiveId, kept: &Locomotive) -> Markup {
    let drawing = side_view(&kept.number, &kept.wheels);
    let Some(drawing) = drawing else {
        return html! {};
    };
    let hers = hers(view, engine);
    let chosen = match asked(view) {
        Asked::At(place) => Some(place),
        _ => None,
    };
    html! {
        (drawing)
        nav class="places" aria-label=(say::PLACES) {
            @for place in Place::ALL {
                @let there: Vec<_> = hers.iter().filter(|p| p.place == Some(place)).collect();
                @let open = there.iter().map(|p| open_findings(view, p.id).len()).sum();
                a href=(path(&kept.number, place)) class=(if open > 0 { "need" } else { "" }) aria-current=[(chosen == Some(place)).then_some("true")] { (say::place_link(place, there.len(), open)) }
            }
        }
    }
}

fn path(number: &str, place: Place) -> String {
    format!("/engine/{number}?place={}#parts", place.word())
}

/// Her parts: those of the place touched, those a search found, or all.
pub fn parts(view: &View<'_>, engine: LocomotiveId, kept: &Locomotive) -> Markup {
    let asked = asked(view);
    let (title, none, sought) = match &asked {
        Asked::All => (say::PARTS.into(), say::NO_PARTS.into(), ""),
        Asked::At(place) => (say::parts_at(*place), say::NO_PARTS_THERE.into(), ""),
        Asked::Named(name) => (say::found(name), say::not_found(name), *name),
    };
    let lower = sought.to_lowercase();
    let shown: Vec<_> = hers(view, engine)
        .into_iter()
        .filter(|placed| match &asked {
            Asked::All => true,
            Asked::At(place) => placed.place == Some(*place),
            Asked::Named(_) => placed.part.name.to_lowercase().contains(&lower),
        })
        .collect();
    let by_side = matches!(asked, Asked::At(Place::Motion | Place::Wheels));
    html! {
        section class="ruled" id="parts" {
            h2 { (title) }
            @if shown.is_empty() { p { (none) } }
            @if by_side {
                @for (name, side) in [(say::RIGHT_SIDE, Some("right")), (say::LEFT_SIDE, Some("left")), (say::NO_SIDE, None)] {
                    @let here: Vec<_> = shown.iter().filter(|p| side_of(&p.part.name) == side).collect();
                    @if !here.is_empty() { h3 { (name) } (list(view, kept, here)) }
                }
            } @else { (list(view, kept, shown.iter().collect())) }
            p class="small" {
                a href=(format!("/engine/{}/known#parts", kit::encode(&kept.number))) { (crate::words::first::ADD_PART) } " · "
                a href=(format!("/parts/import?engine={}", kit::encode(&kept.number))) { (crate::words::part_list::TITLE) }
            }
            form class="seek" method="get" action=(format!("/engine/{}#parts", kept.number)) {
                label for="seek-part" { (say::FIND_PART) }
                input type="text" id="seek-part" name="part" value=(sought) autocomplete="off";
                button { (say::FIND) }
                @if !matches!(asked, Asked::All) { a href=(format!("/engine/{}#parts", kept.number)) { (say::ALL_PARTS) } }
            }
        }
    }
}

/// Which side a part is on, where its name says so in a word of its own.
fn side_of(name: &str) -> Option<&'static str> {
    let mut sides = name
        .split(|c: char| !c.is_alphanumeric())
        .filter_map(|word| match word.to_lowercase().as_str() {
            "right" => Some("right"),
            "left" => Some("left"),
            _ => None,
        });
    // A name that says both says neither.
    let first = sides.next()?;
    sides.all(|side| side == first).then_some(first)
}

fn list(view: &View<'_>, kept: &Locomotive, parts: Vec<&Placed<'_>>) -> Markup {
    html! {
        ul class="plain" { @for placed in parts { li {
            a href=(kit::part_path(&kept.number, &placed.part.name)) { (placed.part.name) } " "
            span class="quiet small" { @match &placed.part.read {
                Some(read) => (say::last_read(read.on, read.state)),
                None => (say::NEVER_READ),
            } }
            @for number in open_findings(view, placed.id) { " " a class="need" href=(format!("/finding/{}", tag::finding(number))) { (tag::finding(number)) } }
        } } }
    }
}

/// A plain side view with as many wheels as her arrangement has; nothing for one that is not said in wheels.
fn side_view(number: &str, wheels: &str) -> Option<Markup> {
    let counts: Vec<u32> = wheels.split('-').filter_map(|n| n.parse().ok()).collect();
    let axles: Vec<u32> = counts.iter().map(|n| n / 2).collect();
    let (lead, drive, trail) = match axles.as_slice() {
        [lead, drive, trail] => (*lead, *drive, *trail),
        [lead, drive] => (*lead, *drive, 0),
        _ => return None,
    };
    let spread = 104.0;
    let start = 330.0 - f64::from(drive.saturating_sub(1)) * spread / 2.0;
    let (rail, driver) = (196.0, 44.0);
    let to = |place, inside: Markup| {
        html! { a href=(path(number, place)) aria-label=(say::place(place)) { title { (say::place(place)) } (inside) } }
    };
    let boiler = |place, outline: &str, x: u32, y: u32| {
        to(
            place,
            html! {
                path class="s-ink hit" d=(outline) stroke-width="2.2" stroke-linejoin="round" {}
                text class="quiet place" x=(x) y=(y) font-size="15" text-anchor="middle" { (say::short_place(place)) }
            },
        )
    };
    let running = html! {
        g class="s-ink f-paper hit" stroke-width="2.4" {
            @for n in 0..lead { circle cx=(132.0 + f64::from(n) * 46.0 - f64::from(lead.saturating_sub(1)) * 23.0) cy=(rail - 19.0) r="19" {} }
            @for n in 0..drive { circle cx=(start + f64::from(n) * spread) cy=(rail - driver) r=(driver) {} }
            @for n in 0..trail { circle cx=(524.0 + f64::from(n) * 46.0) cy=(rail - 22.0) r="22" {} }
        }
    };
    let motion = html! {
        path class="s-ink f-paper hit" d="M92 142 H196 V174 H92 Z" stroke-width="2.2" stroke-linejoin="round" {}
        @if drive > 0 {
            @let last = start + f64::from(drive - 1) * spread;
            line class="s-ink" x1=(start) y1=(rail - driver + 16.0) x2=(last) y2=(rail - driver + 16.0) stroke-width="5" {}
            line class="s-ink" x1="196" y1="160" x2=(start + spread.min(last - start)) y2=(rail - driver + 16.0) stroke-width="4" {}
            @for n in 0..drive { circle class="s-ink f-paper" cx=(start + f64::from(n) * spread) cy=(rail - driver + 16.0) r="5" stroke-width="2" {} }
        }
        text class="quiet place" x="86" y="164" font-size="15" text-anchor="end" { (say::short_place(Place::Motion)) }
    };
    let tender = html! {
        path class="s-ink hit" d="M600 84 H744 V166 H600 Z M600 166 H752" stroke-width="2.2" stroke-linejoin="round" {}
        g class="s-ink f-paper" stroke-width="2.4" { @for n in 0..4 { circle cx=(618.0 + f64::from(n) * 38.0) cy=(rail - 16.0) r="16" {} } }
        text class="quiet place" x="672" y="130" font-size="15" text-anchor="middle" { (say::short_place(Place::Tender)) }
    };
    Some(html! {
        div class="ribbon side" {
            svg viewBox="0 0 760 214" role="group" aria-label=(say::side_view(wheels)) {
                line class="s-rule" x1="0" y1=(rail) x2="760" y2=(rail) stroke-width="2" {}
                (boiler(Place::Smokebox, "M84 62 H100 V34 H124 V62 H180 V142 H84 Z", 132, 106))
                (boiler(Place::Barrel, "M180 66 H246 V50 Q262 40 278 50 V66 H372 V52 Q386 44 400 52 V66 V148 H180 Z", 290, 90))
                (boiler(Place::Firebox, "M400 66 H470 L480 60 V148 H400 Z", 440, 90))
                (boiler(Place::Cab, "M480 40 V34 H572 V160 H480 Z M466 34 H586 M500 52 H548 V84 H500 Z", 526, 106))
                path class="s-ink" d="M572 172 H600" stroke-width="2.2" {}
                (to(Place::Wheels, running))
                (to(Place::Motion, motion))
                (to(Place::Tender, tender))
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_side_is_told_only_where_the_name_says_one() {
        assert_eq!(side_of("right feed check"), Some("right"));
        assert_eq!(side_of("Left main driver tire"), Some("left"));
        assert_eq!(side_of("main rod brass, right"), Some("right"));
        for name in [
            "throttle",
            "bright stay",
            "left-over stock right",
            "cleft pin",
        ] {
            assert_eq!(side_of(name), None, "{name}");
        }
    }

    #[test]
    fn an_engine_not_said_in_wheels_has_no_side_view() {
        assert!(side_view("14", "2-8-0").is_some());
        assert!(side_view("803", "B-B").is_none());
    }
}
