//! Ovality and taper, from the readings of one feature at its places: differences of what was read, nothing more.
//!
//! Places say how they lie by their own words: stations along the part, and ways round it. A feature whose places are
//! neither has no shape here.

use measure::Size;

use super::reading::sizes_in;
use crate::book::{Feature, ReadingSet};

/// Words for stations along a part.
const ALONG: &[&str] = &["inner end", "middle", "outer end", "inner", "outer"];
/// Words for ways round a part.
const ROUND: &[&str] = &[
    "vertical", "level", "rising", "falling", "first", "second", "third",
];

/// How far a feature is from round and from straight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shape {
    /// Largest less smallest round one station, at the worst of them, with its word (empty where there is one station).
    pub ovality: Option<(Size, String)>,
    /// Largest less smallest along one way, at the worst of them, with its word (empty where there is one way).
    pub taper: Option<(Size, String)>,
}

/// The shape of a feature in a set of readings; nothing where it has none or too few places were read.
pub fn shape(feature: &Feature, set: &ReadingSet) -> Option<Shape> {
    let read: Vec<(&str, &str, Size)> = sizes_in(feature, set)
        .filter_map(|(place, size)| {
            let (station, way) = lies(place)?;
            Some((station, way, size))
        })
        .collect();
    let ovality = spread(read.iter().map(|(station, _, size)| (*station, *size)));
    let taper = spread(read.iter().map(|(_, way, size)| (*way, *size)));
    // Round one station nothing runs along, and along one way nothing goes round.
    let ovality = ovality.filter(|_| read.iter().any(|(_, way, _)| !way.is_empty()));
    let taper = taper.filter(|_| read.iter().any(|(station, _, _)| !station.is_empty()));
    (ovality.is_some() || taper.is_some()).then_some(Shape { ovality, taper })
}

/// The station and the way that a place names; each empty where it names none.
fn lies(position: &str) -> Option<(&str, &str)> {
    if ALONG.contains(&position) {
        return Some((position, ""));
    }
    if ROUND.contains(&position) {
        return Some(("", position));
    }
    let (station, way) = position.rsplit_once(' ')?;
    (ALONG.contains(&station) && ROUND.contains(&way)).then_some((station, way))
}

/// The largest difference among sizes of one group, with the group's word; nothing where no group has two.
fn spread<'w>(sizes: impl Iterator<Item = (&'w str, Size)>) -> Option<(Size, String)> {
    let mut groups: Vec<(&str, Size, Size, usize)> = Vec::new();
    for (word, size) in sizes {
        match groups.iter_mut().find(|(known, ..)| *known == word) {
            Some((_, least, most, count)) => {
                *least = size.min(*least);
                *most = size.max(*most);
                *count += 1;
            }
            None => groups.push((word, size, size, 1)),
        }
    }
    groups
        .into_iter()
        .filter(|(.., count)| *count > 1)
        .filter_map(|(word, least, most, _)| Some((most.checked_sub(least)?, word.to_string())))
        .max_by_key(|(size, _)| *size)
}
