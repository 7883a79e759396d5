//! The readings of parts as the book holds them: sets, each a row of its own.

use std::collections::{BTreeMap, BTreeSet};

use super::id::PartId;
use super::state::ReadingSet;

/// Sets of readings, by part and entry.
///
/// A shop's readings are the larger part of its book, and a question is of one part. So a book that was read from its
/// file holds the readings of those parts alone that were asked for, and says so: a part whose readings are not here
/// is not a part never measured.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Readings {
    all: BTreeMap<(PartId, u64), ReadingSet>,
    /// The parts whose readings are here; missing where every part's are.
    of: Option<BTreeSet<PartId>>,
}

impl Readings {
    /// No readings yet, and no part asked for.
    pub fn none_asked() -> Readings {
        Readings {
            all: BTreeMap::new(),
            of: Some(BTreeSet::new()),
        }
    }

    /// From now on every set of this part is here.
    pub fn asked(&mut self, part: PartId) {
        if let Some(of) = &mut self.of {
            of.insert(part);
        }
    }

    /// Of everything here, only what one part was asked for.
    pub fn only(&self, part: PartId) -> Readings {
        let sets = self.all.range((part, 0)..=(part, u64::MAX));
        Readings {
            all: sets.map(|(key, set)| (*key, set.clone())).collect(),
            of: Some(BTreeSet::from([part])),
        }
    }

    /// The sets of a part in the order entered, or nothing where they were not asked for.
    pub fn of(&self, part: PartId) -> Option<impl Iterator<Item = &ReadingSet>> {
        let here = self.of.as_ref().is_none_or(|of| of.contains(&part));
        here.then(|| {
            let sets = self.all.range((part, 0)..=(part, u64::MAX));
            sets.map(|(_, set)| set)
        })
    }

    /// The sets of a part by the day they were read, the newest first; of one day, the one entered last. An old
    /// notebook copied in late stands where it belongs. Nothing where they were not asked for.
    pub fn newest_first(&self, part: PartId) -> Option<Vec<&ReadingSet>> {
        let mut sets: Vec<_> = self.of(part)?.collect();
        sets.sort_by_key(|set| std::cmp::Reverse((set.on, set.entry)));
        Some(sets)
    }

    /// A set that is here.
    pub fn get(&self, part: PartId, entry: u64) -> Option<&ReadingSet> {
        self.all.get(&(part, entry))
    }

    /// Every set that is here, by part and entry.
    pub fn all(&self) -> impl Iterator<Item = (PartId, &ReadingSet)> {
        self.all.iter().map(|((part, _), set)| (*part, set))
    }

    /// The name of every set that is here.
    pub(super) fn keys(&self) -> impl Iterator<Item = (PartId, u64)> + '_ {
        self.all.keys().copied()
    }

    /// Takes a set in.
    pub(super) fn put(&mut self, part: PartId, set: ReadingSet) {
        self.all.insert((part, set.entry), set);
    }
}
