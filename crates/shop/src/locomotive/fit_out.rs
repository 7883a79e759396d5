//! The positions that an engine of a wheel arrangement has, added in one go: never a size, never a day.
//!
//! Which they are is data, `tables/fit-out/steam.toml`.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::find::engine_of;
use super::make::family;
use crate::Refusal;
use crate::book::{Book, LocomotiveId, PartAdded, PartId, PartKnown, Side, Statement};

const STEAM: &str = include_str!("../../../../tables/fit-out/steam.toml");

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    position: Vec<Position>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Position {
    each: Each,
    name: String,
    family: String,
    #[serde(default)]
    within: Option<String>,
    #[serde(default)]
    mates: Vec<String>,
    #[serde(default)]
    facts: BTreeMap<String, String>,
    #[serde(default)]
    pin: Option<Pin>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Each {
    Engine,
    Side,
    Twice,
    CoupledAxle,
    CoupledAxleSide,
    MainAxleSide,
    LeadingAxle,
    TrailingAxle,
}

/// Which rod's bearing it is; which pin that makes it hangs on the main axle, if somebody said which that is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Pin {
    Side,
    Main,
}

/// A position an engine has.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// What the part there is called.
    pub name: String,
    /// Its family's word.
    pub family: String,
    /// Which side.
    pub side: Option<Side>,
    /// Which axle.
    pub axle: Option<u32>,
    /// The name of the assembly it lies within.
    pub within: Option<String>,
    /// The names of parts it mates with.
    pub mates: Vec<String>,
    /// Facts that its position decides.
    pub facts: BTreeMap<String, String>,
}

/// Over which axles, sides and numbers a position is repeated.
type Spread<'s> = (Vec<Option<u32>>, &'s [Option<Side>], &'s [Option<u32>]);

/// The positions of a wheel arrangement, each after the assembly it lies within. `main_axle` is the coupled axle that
/// the main rod drives, counted from the front; where nobody says which, nothing is said of it.
///
/// # Errors
/// Input: not an arrangement of leading, coupled and trailing wheels with one set of coupled axles, such as 2-8-0; or a
/// main axle it does not have.
pub fn places(wheels: &str, main_axle: Option<u32>) -> Result<Vec<Place>, Refusal> {
    let wrong = || {
        Refusal::input(format!(
            "`{wheels}` is not an arrangement with one set of coupled axles: three even numbers of wheels were expected, such as 2-8-0."
        ))
    };
    let counts = wheels
        .trim()
        .trim_end_matches(['T', 't'])
        .split('-')
        .map(|count| count.parse::<u32>().ok().filter(|n| n % 2 == 0 && *n <= 16))
        .collect::<Option<Vec<_>>>()
        .ok_or_else(wrong)?;
    let [leading, coupled, trailing] = counts.as_slice() else {
        return Err(wrong());
    };
    let (leading, coupled, trailing) = (leading / 2, coupled / 2, trailing / 2);
    if coupled == 0 {
        return Err(wrong());
    }
    if main_axle.is_some_and(|axle| axle == 0 || axle > coupled) {
        return Err(Refusal::input(format!(
            "The main axle is one of her coupled axles: 1 to {coupled} were expected, counted from the front."
        )));
    }
    let table: Table = toml::from_str(STEAM)
        .map_err(|why| Refusal::input(format!("The table of positions does not read: {why}")))?;
    let sides = [Some(Side::Right), Some(Side::Left)];
    let mut all = Vec::new();
    for position in &table.position {
        let axles = |count: u32| (1..=count).map(Some).collect::<Vec<_>>();
        let (axles, sides, numbers): Spread<'_> = match position.each {
            Each::Engine => (vec![None], &[None], &[None]),
            Each::Side => (vec![None], &sides, &[None]),
            Each::Twice => (vec![None], &[None], &[Some(1), Some(2)]),
            Each::CoupledAxle => (axles(coupled), &[None], &[None]),
            Each::CoupledAxleSide => (axles(coupled), &sides, &[None]),
            Each::MainAxleSide => (vec![main_axle], &sides, &[None]),
            Each::LeadingAxle => (axles(leading), &[None], &[None]),
            Each::TrailingAxle => (axles(trailing), &[None], &[None]),
        };
        for axle in &axles {
            for side in sides {
                for number in numbers {
                    all.push(position.at(*axle, *side, *number, main_axle));
                }
            }
        }
    }
    Ok(all)
}

impl Position {
    fn at(
        &self,
        axle: Option<u32>,
        side: Option<Side>,
        number: Option<u32>,
        main: Option<u32>,
    ) -> Place {
        let filled = |text: &String| {
            text.replace("{side}", side.map_or("", Side::word))
                .replace("{axle}", &axle.map_or(String::new(), |n| n.to_string()))
                .replace("{number}", &number.map_or(String::new(), |n| n.to_string()))
        };
        let mut facts = self.facts.clone();
        let pin = match (self.pin, main) {
            (Some(Pin::Main), _) => Some("main-rod"),
            (Some(Pin::Side), Some(main)) if axle == Some(main) => Some("side-main-pin"),
            (Some(Pin::Side), Some(_)) => Some("side-other-pin"),
            // Nobody said which pin the main rod drives, so which limit holds is not known.
            (Some(Pin::Side), None) | (None, _) => None,
        };
        facts.extend(pin.map(|word| ("pin".to_string(), word.to_string())));
        Place {
            name: filled(&self.name),
            family: self.family.clone(),
            side,
            axle,
            within: self.within.as_ref().map(filled),
            mates: self.mates.iter().map(filled).collect(),
            facts,
        }
    }
}

/// Adds the positions that an engine lacks; a part she has by that name stays as it is. `first` is the id of the first
/// part to be made, the others follow it.
///
/// # Errors
/// As [`places`]; refused where a family is not in the book; input where she has every one of them.
pub fn fit_out(
    book: &Book,
    engine: LocomotiveId,
    main_axle: Option<u32>,
    first: PartId,
) -> Result<Vec<Statement>, Refusal> {
    let kept = engine_of(book, engine)?;
    let places = places(&kept.wheels, main_axle)?;
    let mut missing: Vec<&str> = places
        .iter()
        .map(|place| place.family.as_str())
        .filter(|word| !book.families.contains_key(*word))
        .collect();
    missing.sort_unstable();
    missing.dedup();
    if !missing.is_empty() {
        return Err(Refusal::refused(format!(
            "This book does not have the part families {}: it was made by an older program.",
            missing.join(", ")
        ))
        .todo(format!("outshop part adopt {}", missing.join(" "))));
    }
    let mut named: BTreeMap<String, PartId> = book
        .parts
        .iter()
        .filter(|(_, part)| part.locomotive == engine)
        .map(|(id, part)| (part.name.to_lowercase(), *id))
        .collect();
    let mut made = Vec::new();
    for (at, place) in places.iter().enumerate() {
        if named.contains_key(&place.name.to_lowercase()) {
            continue;
        }
        family(book, &place.family)?;
        let id = PartId(first.0.wrapping_add(at as u128));
        let of = |name: &String| named.get(&name.to_lowercase()).copied();
        made.push(Statement::PartAdded(PartAdded {
            id,
            locomotive: engine,
            family: place.family.clone(),
            name: place.name.clone(),
            facts: place.facts.clone(),
            features: BTreeMap::new(),
            known: Some(PartKnown {
                side: place.side,
                axle: place.axle,
                within: place.within.as_ref().and_then(of),
                mates: place.mates.iter().filter_map(of).collect(),
                ..PartKnown::default()
            }),
        }));
        named.insert(place.name.to_lowercase(), id);
    }
    if made.is_empty() {
        return Err(Refusal::input(
            "She has a part at every one of these positions already.",
        ));
    }
    Ok(made)
}
