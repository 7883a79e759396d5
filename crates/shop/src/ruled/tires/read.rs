//! What is read of each driving tire: its thinnest place, its deepest hollow, its flange; and which wheel is whose mate.

use jiff::civil::Date;
use measure::State;

use crate::Refusal;
use crate::book::{Book, Feature, LocomotiveId, Part, PartId, ReadingSet, Side, Worst};
use crate::locomotive::{family, mirror, newest_of, size_of};

/// The family of the parts.
const FAMILY: &str = "driving-tire";

/// A size of a tire as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Read {
    /// As written.
    pub says: String,
    /// Where and when.
    pub from: String,
}

/// One wheel.
#[derive(Debug, Clone, PartialEq)]
pub struct TireWheel {
    /// The part.
    pub part: PartId,
    /// What the shop calls it.
    pub name: String,
    /// Diameter of its center.
    pub center: Option<Read>,
    /// The thinnest place of the tire.
    pub thickness: Option<Read>,
    /// The deepest hollow.
    pub hollow: Option<Read>,
    /// The thinnest place of the flange.
    pub flange: Option<Read>,
    /// What is missing of it.
    pub missing: Vec<String>,
    /// The sheet's words of it as it stands: diameter, tire, over its mate, hollow, flange, verdict; none while it or its mate
    /// is not known.
    pub stands: Vec<String>,
    /// What the cut makes of it: turned to, tire, off the radius, left above the least; none likewise.
    pub cut: Vec<String>,
}

/// The tires of an engine that are on her.
pub fn tires_of(book: &Book, id: LocomotiveId) -> Vec<PartId> {
    let hers = book.parts.iter().filter(|(_, part)| {
        part.locomotive == id && part.family == FAMILY && part.known.removed.is_none()
    });
    hers.map(|(part, _)| *part).collect()
}

fn is_left(part: &Part) -> Option<bool> {
    match part.known.side {
        Some(Side::Left) => Some(true),
        Some(Side::Right) => Some(false),
        Some(_) => None,
        None => part
            .name
            .to_lowercase()
            .split_whitespace()
            .find_map(|word| match word {
                "left" => Some(true),
                "right" => Some(false),
                _ => None,
            }),
    }
}

/// Left and right of each axle, in the order of the axles as far as it is told; and those without a mate.
pub(super) fn paired(book: &Book, id: LocomotiveId) -> (Vec<[PartId; 2]>, Vec<PartId>) {
    let all = tires_of(book, id);
    let mut pairs = Vec::new();
    let mut alone = Vec::new();
    for tire in &all {
        let Some(part) = book.parts.get(tire) else {
            continue;
        };
        let mate = mirror(book, *tire).filter(|(mate, _)| all.contains(mate));
        match (is_left(part), mate) {
            (Some(true), Some((mate, _))) => pairs.push((part.known.axle, [*tire, mate])),
            (Some(false), Some(_)) => {}
            _ => alone.push(*tire),
        }
    }
    pairs.sort_by_key(|(axle, [left, _])| (axle.unwrap_or(u32::MAX), *left));
    (pairs.into_iter().map(|(_, pair)| pair).collect(), alone)
}

/// The governing reading of a feature; what is missing, where a place of it was not read.
fn governing(feature: &Feature, newest: &[&ReadingSet]) -> Result<Read, String> {
    let set = newest_of(&feature.name, newest).ok_or_else(|| feature.title.clone())?;
    let read: Vec<_> = set
        .readings
        .iter()
        .filter(|it| it.feature == feature.name)
        .filter_map(|it| Some((size_of(feature, it)?, it)))
        .collect();
    let unread: Vec<&str> = feature
        .positions
        .iter()
        .filter(|place| !read.iter().any(|(_, it)| it.reading.position == **place))
        .map(String::as_str)
        .collect();
    if !unread.is_empty() {
        return Err(format!(
            "{} at {}, not read on {}",
            feature.title,
            unread.join(" and "),
            set.on
        ));
    }
    let governs = match feature.worst {
        Worst::Smallest => read.iter().min_by_key(|(size, _)| *size),
        Worst::Largest => read.iter().max_by_key(|(size, _)| *size),
    };
    let (_, it) = governs.ok_or_else(|| feature.title.clone())?;
    Ok(Read {
        says: it.reading.written(),
        from: format!("{}, {}", it.reading.position, set.on),
    })
}

/// A wheel as it was read, and whether its tire was read as it was left.
pub(super) struct Gathered {
    pub(super) wheel: TireWheel,
    pub(super) as_left: bool,
}

pub(super) fn gather(book: &Book, tire: PartId, on: Date) -> Result<Gathered, Refusal> {
    let part = book
        .parts
        .get(&tire)
        .ok_or_else(|| Refusal::input("There is no such tire in this book."))?;
    let family = family(book, &part.family)?;
    let sets = book.readings.newest_first(tire).unwrap_or_default();
    let sets: Vec<_> = sets.into_iter().filter(|set| set.on <= on).collect();
    let mut missing = Vec::new();
    let mut read = |name: &str, needed: bool| {
        let feature = family.features.iter().find(|it| it.name == name)?;
        match governing(feature, &sets) {
            Ok(read) => Some(read),
            Err(why) => {
                if needed {
                    missing.push(why);
                }
                None
            }
        }
    };
    let thickness = read("thickness", true);
    let hollow = read("hollow", true);
    let flange = read("flange-thickness", true);
    let center = part.facts.get("center-diameter").map(|says| Read {
        says: says.clone(),
        from: "as the part has it".into(),
    });
    if center.is_none() {
        missing.push("diameter of its wheel center".into());
    }
    let newest = newest_of("thickness", &sets);
    Ok(Gathered {
        as_left: newest.is_some_and(|set| set.state == State::AsLeft),
        wheel: TireWheel {
            part: tire,
            name: part.name.clone(),
            center,
            thickness,
            hollow,
            flange,
            missing,
            stands: Vec::new(),
            cut: Vec::new(),
        },
    })
}
