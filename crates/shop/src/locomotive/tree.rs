//! The parts of an engine as a tree, by position: what is part of what, what mates with what, what mirrors what.

use std::collections::BTreeSet;

use crate::book::{Book, LocomotiveId, Part, PartId, Side};

/// A part at its place in the tree.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InTree<'b> {
    /// The part.
    pub id: PartId,
    /// What is known of it.
    pub part: &'b Part,
    /// How many assemblies it lies within.
    pub depth: usize,
}

/// The parts of an engine, each after the assembly it is part of; side by side by axle, side, place and name. A part
/// whose assemblies run in a circle, which a correction may have left, stands at the top.
pub fn tree(book: &Book, engine: LocomotiveId) -> Vec<InTree<'_>> {
    let mut hers: Vec<_> = book
        .parts
        .iter()
        .filter(|(_, part)| part.locomotive == engine)
        .collect();
    hers.sort_by_key(|(_, part)| order(part));
    let mut seen = BTreeSet::new();
    let mut all = Vec::with_capacity(hers.len());
    let top = |(_, part): &&(&PartId, &Part)| {
        let above = part.known.within.and_then(|id| book.parts.get(&id));
        above.is_none_or(|above| above.locomotive != engine)
    };
    for (id, part) in hers.iter().filter(top) {
        grow(&hers, (**id, part), 0, &mut seen, &mut all);
    }
    for (id, part) in &hers {
        grow(&hers, (**id, part), 0, &mut seen, &mut all);
    }
    all
}

fn grow<'b>(
    hers: &[(&'b PartId, &'b Part)],
    (id, part): (PartId, &'b Part),
    depth: usize,
    seen: &mut BTreeSet<PartId>,
    all: &mut Vec<InTree<'b>>,
) {
    if !seen.insert(id) {
        return;
    }
    all.push(InTree { id, part, depth });
    for (below, part) in hers {
        if part.known.within == Some(id) {
            grow(hers, (**below, part), depth + 1, seen, all);
        }
    }
}

fn order(part: &Part) -> (u32, Option<Side>, String, String) {
    let known = &part.known;
    (
        known.axle.unwrap_or(0),
        known.side,
        known.at.clone().unwrap_or_default(),
        part.name.to_lowercase(),
    )
}

/// Whether a part is another, or lies somewhere within it.
pub fn is_within(book: &Book, part: PartId, above: PartId) -> bool {
    above_of(book, part).any(|id| id == above)
}

/// A part, its assembly, the assembly of that, and so on to the top.
pub fn above_of(book: &Book, part: PartId) -> impl Iterator<Item = PartId> + '_ {
    let mut seen = BTreeSet::new();
    std::iter::successors(Some(part), |id| book.parts.get(id)?.known.within)
        .take_while(move |id| seen.insert(*id))
}

/// The parts that lie directly within one, in the order of the tree.
pub fn below(book: &Book, part: PartId) -> Vec<(PartId, &Part)> {
    let mut below: Vec<_> = book
        .parts
        .iter()
        .filter(|(_, other)| other.known.within == Some(part))
        .map(|(id, other)| (*id, other))
        .collect();
    below.sort_by_key(|(_, other)| order(other));
    below
}

/// The parts that mate with one: those it names, and those that name it.
pub fn mates(book: &Book, part: PartId) -> Vec<(PartId, &Part)> {
    let named = book.parts.get(&part).map(|it| it.known.mates.as_slice());
    let named = named.unwrap_or_default();
    let mut mates: Vec<_> = book
        .parts
        .iter()
        .filter(|(id, other)| {
            **id != part && (named.contains(id) || other.known.mates.contains(&part))
        })
        .map(|(id, other)| (*id, other))
        .collect();
    mates.sort_by_key(|(_, other)| order(other));
    mates
}

/// The same part on the other side, if there is one and no more than one: of its family, on its axle, at its place.
/// Where no side was told, the word in the name says it.
pub fn mirror(book: &Book, part: PartId) -> Option<(PartId, &Part)> {
    let this = book.parts.get(&part)?;
    let hers = || {
        book.parts.iter().filter(|(id, other)| {
            **id != part && other.locomotive == this.locomotive && other.family == this.family
        })
    };
    let mut found = match this.known.side {
        Some(side) => {
            let wanted = Some(side.mirror()?);
            let same = |other: &Part| {
                other.known.side == wanted
                    && other.known.axle == this.known.axle
                    && other.known.at == this.known.at
            };
            hers().filter(|(_, other)| same(other)).collect::<Vec<_>>()
        }
        None => {
            let turned = turned(&this.name)?;
            hers()
                .filter(|(_, other)| other.name.eq_ignore_ascii_case(&turned))
                .collect()
        }
    };
    let (id, other) = found.pop()?;
    found.is_empty().then_some((*id, other))
}

/// A name with its one word for a side turned round.
fn turned(name: &str) -> Option<String> {
    let mut turned = 0;
    let words: Vec<&str> = name
        .split(' ')
        .map(|word| {
            let other = match word.to_lowercase().as_str() {
                "right" => "left",
                "left" => "right",
                _ => return word,
            };
            turned += 1;
            other
        })
        .collect();
    (turned == 1).then(|| words.join(" "))
}
