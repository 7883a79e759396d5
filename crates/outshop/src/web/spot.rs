//! Where on a part to measure: a small picture of the place, drawn only where the words of all its places say how they lie.
//!
//! A picture that guesses would send the instrument to the wrong place. Where the words leave it open there is none, and
//! the word of the place stands alone.

use maud::{Markup, html};

use crate::words::pocket as say;

/// Stations along a pin, journal or bore: the words of each, and where it stands in the picture.
const ALONG: &[(&str, i32)] = &[("inner", 46), ("middle", 76), ("outer", 106)];
/// Ways across it, seen from its end: from and to, off the center.
const ACROSS: &[(&str, [i32; 4])] = &[
    ("vertical", [0, -36, 0, 36]),
    ("level", [-36, 0, 36, 0]),
    ("rising", [-25, 25, 25, -25]),
    ("falling", [-25, -25, 25, 25]),
];
/// Places on a ring seen from above, the front of the engine up.
const ABOVE: &[(&str, [i32; 2])] = &[
    ("front", [0, -30]),
    ("right", [30, 0]),
    ("back", [0, 30]),
    ("left", [-30, 0]),
];
/// Ways across a ring seen from above.
const PLAN: &[(&str, [i32; 4])] = &[
    ("fore-and-aft", [0, -36, 0, 36]),
    ("athwart", [-36, 0, 36, 0]),
];
/// Places round a course of a boiler, seen from behind.
const COURSE: &[(&str, [i32; 2])] = &[
    ("top", [0, -36]),
    ("left", [-36, 0]),
    ("bottom-left", [-25, 25]),
    ("bottom", [0, 36]),
    ("bottom-right", [25, 25]),
    ("right", [36, 0]),
];
/// Three places round a wheel, a third of a turn apart.
const ROUND: &[(&str, [i32; 2])] = &[
    ("first", [0, -36]),
    ("second", [31, 18]),
    ("third", [-31, 18]),
];
/// Three places of a stroke, the front to the right as on a right side.
const STROKE: &[(&str, i32)] = &[("back", 30), ("middle", 76), ("front", 122)];

/// The word of a place as the tables above have it: `inner end` is inner, `left side` left, `bottom left` one word.
fn word(place: &str) -> String {
    let plain = place.strip_suffix(" end").or(place.strip_suffix(" side"));
    plain.unwrap_or(place).replace(' ', "-")
}

/// How the places of one feature lie.
enum Lie {
    /// Stations along, ways across, or both.
    Pin,
    /// Round a ring seen from above.
    Above,
    /// Round a boiler course.
    Course,
    /// Round a wheel.
    Round,
    /// Along a stroke.
    Stroke,
}

/// What a table has for a word.
fn find<T: Copy>(table: &[(&str, T)], word: &str) -> Option<T> {
    let found = table.iter().find(|(known, _)| *known == word);
    found.map(|(_, it)| *it)
}

fn lie(places: &[String]) -> Option<Lie> {
    let words: Vec<String> = places.iter().map(|place| word(place)).collect();
    let all = |known: &dyn Fn(&str) -> bool| words.iter().all(|word| known(word));
    match words.len() {
        0 | 1 => None,
        _ if places.iter().all(|place| on_pin(place).is_some()) => Some(Lie::Pin),
        4 if all(&|word| find(ABOVE, word).is_some()) => Some(Lie::Above),
        2 if all(&|word| find(PLAN, word).is_some()) => Some(Lie::Above),
        3 if all(&|word| find(ROUND, word).is_some()) => Some(Lie::Round),
        3 if all(&|word| find(STROKE, word).is_some()) => Some(Lie::Stroke),
        5.. if all(&|word| find(COURSE, word).is_some()) => Some(Lie::Course),
        _ => None,
    }
}

/// The station and the way of a place on a pin: one of them, or both.
fn on_pin(place: &str) -> Option<(Option<i32>, Option<[i32; 4]>)> {
    let whole = word(place);
    if let Some(station) = find(ALONG, &whole) {
        return Some((Some(station), None));
    }
    if let Some(way) = find(ACROSS, &whole) {
        return Some((None, Some(way)));
    }
    let (station, way) = place.rsplit_once(' ')?;
    Some((Some(find(ALONG, station)?), Some(find(ACROSS, way)?)))
}

/// The picture of one place among all of its feature; none where their words do not say how they lie.
pub fn draw(places: &[String], place: &str) -> Option<Markup> {
    let here = word(place);
    let inside = match lie(places)? {
        Lie::Pin => pin(place)?,
        Lie::Above => html! {
            (ring(22, ABOVE, find(ABOVE, &here), find(PLAN, &here)))
            path class="s-ink" d="M150 34 V12 M144 20 L150 10 L156 20" stroke-width="2" {}
            text x="166" y="27" font-size="17" { (say::FRONT) }
        },
        Lie::Course => html! {
            (ring(32, COURSE, find(COURSE, &here), None))
            text x="136" y="54" font-size="17" { (say::FROM_BEHIND) }
        },
        Lie::Round => ring(7, ROUND, find(ROUND, &here), None),
        Lie::Stroke => stroke(find(STROKE, &here)?),
    };
    Some(html! {
        svg class="spot" viewBox="0 0 260 96" role="img" aria-label=(say::picture(place)) { (inside) }
    })
}

/// A pin from the side, its wheel at the left, with the station; and from its end, with the way across.
fn pin(place: &str) -> Option<Markup> {
    let (station, way) = on_pin(place)?;
    let center = if station.is_some() { 206 } else { 130 };
    Some(html! {
        @if let Some(x) = station {
            path class="s-ink" d="M26 6 V90 M26 22 H126 V74 H26 M126 14 H136 V82 H126 Z" stroke-width="2" {}
            @for (_, other) in ALONG { @if *other != x { line class="s-rule" x1=(other) y1="22" x2=(other) y2="74" stroke-width="1.5" stroke-dasharray="4 4" {} } }
            line class="s-need" x1=(x) y1="12" x2=(x) y2="84" stroke-width="3.5" {}
            path class="f-need" d=(format!("M{} 8 h10 l-5 12 z M{} 88 h10 l-5 -12 z", x - 5, x - 5)) {}
        }
        @if let Some([x1, y1, x2, y2]) = way {
            g transform=(format!("translate({center} 48)")) {
                circle class="s-ink" cx="0" cy="0" r="30" stroke-width="2" {}
                circle class="s-rule" cx="0" cy="0" r="4" stroke-width="1.5" {}
                line class="s-need" x1=(x1) y1=(y1) x2=(x2) y2=(y2) stroke-width="3.5" {}
                circle class="f-need" cx=(x1) cy=(y1) r="6" {}
                circle class="f-need" cx=(x2) cy=(y2) r="6" {}
            }
        }
    })
}

/// Something round, with what lies inside it and its places about it: one of them marked, or a way across.
fn ring(
    inner: i32,
    places: &[(&str, [i32; 2])],
    here: Option<[i32; 2]>,
    way: Option<[i32; 4]>,
) -> Markup {
    html! {
        g transform="translate(76 50)" {
            circle class="s-ink" cx="0" cy="0" r="36" stroke-width="2" {}
            circle class="s-ink" cx="0" cy="0" r=(inner) stroke-width="1.5" {}
            @match way {
                Some([x1, y1, x2, y2]) => line class="s-need" x1=(x1) y1=(y1) x2=(x2) y2=(y2) stroke-width="3.5" {},
                None => { @for (_, [x, y]) in places { circle class="f-paper s-quiet" cx=(x) cy=(y) r="4" stroke-width="1.5" {} } },
            }
            @if let Some([x, y]) = here { circle class="f-need" cx=(x) cy=(y) r="8" {} }
        }
    }
}

/// A guide with the three places of the stroke.
fn stroke(here: i32) -> Markup {
    html! {
        path class="s-ink" d="M8 34 H144 M8 62 H144" stroke-width="3" {}
        @for (_, other) in STROKE { @if *other != here { rect class="s-rule" x=(other - 15) y="36" width="30" height="24" stroke-width="1.5" stroke-dasharray="4 4" {} } }
        rect class="f-need" x=(here - 15) y="36" width="30" height="24" {}
        path class="s-ink" d="M166 48 H186 M178 42 L188 48 L178 54" stroke-width="2" {}
        text x="196" y="54" font-size="17" { (say::FRONT) }
    }
}

#[cfg(test)]
mod tests {
    use super::draw;

    /// Every place of every family is either drawn with all its neighbours or, where its words leave it open, with none.
    #[test]
    fn a_feature_is_drawn_at_every_place_or_at_none() {
        let mut drawn = Vec::new();
        for text in shop::book::Family::BUILT_IN {
            let family = shop::book::Family::read(text).unwrap();
            for feature in family.features {
                let pictures: Vec<_> = feature
                    .positions
                    .iter()
                    .map(|place| draw(&feature.positions, place).map(|p| p.into_string()))
                    .collect();
                let some = pictures.iter().flatten().count();
                assert!(some == 0 || some == pictures.len(), "{}", feature.name);
                let mut each: Vec<_> = pictures.into_iter().flatten().collect();
                each.sort();
                each.dedup();
                assert!(
                    each.len() == some,
                    "{}: two places look alike",
                    feature.name
                );
                if some > 0 {
                    drawn.push(feature.name);
                }
            }
        }
        for known in [
            "journal",
            "seat-land",
            "seat-half-angle",
            "thickness",
            "pin",
        ] {
            assert!(drawn.iter().any(|name| name == known), "{known}: {drawn:?}");
        }
        // Top and bottom of what: a bore upright, or round a plug? Nobody is sent there by a picture.
        assert!(draw(&["top".into(), "bottom".into()], "top").is_none());
        assert!(draw(&["rod".into()], "rod").is_none());
    }
}
