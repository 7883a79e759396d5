//! The log of an engine as the book holds it: fires one by one, and the days they touched all together.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::day_set::DaySet;
use super::fire_days::days_of_fire;
use super::id::{FireId, LocomotiveId};
use super::state::Fire;

/// The fires of the logs, one by one.
///
/// A long log holds many, and the clocks need no more than the days they touched ([`EngineLog`]). So a book that
/// was read from its file holds the fires of those engines alone that were asked for, and says so: an engine whose
/// fires are not here is not an engine without fires.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Fires {
    all: BTreeMap<(LocomotiveId, FireId), Fire>,
    /// The engines whose fires are here; missing where every engine's are.
    of: Option<BTreeSet<LocomotiveId>>,
}

impl Fires {
    /// No fires yet, and no engine asked for.
    pub fn none_asked() -> Fires {
        Fires {
            all: BTreeMap::new(),
            of: Some(BTreeSet::new()),
        }
    }

    /// From now on every fire of this engine is here.
    pub fn asked(&mut self, engine: LocomotiveId) {
        if let Some(of) = &mut self.of {
            of.insert(engine);
        }
    }

    /// The fires of an engine, or nothing where they were not asked for.
    pub fn of(&self, engine: LocomotiveId) -> Option<impl Iterator<Item = (FireId, &Fire)>> {
        let here = self.of.as_ref().is_none_or(|of| of.contains(&engine));
        let from = (engine, FireId(0));
        let through = (engine, FireId(u128::MAX));
        here.then(|| {
            self.all
                .range(from..=through)
                .map(|((_, id), fire)| (*id, fire))
        })
    }

    /// A fire that is here.
    pub fn get(&self, engine: LocomotiveId, id: FireId) -> Option<&Fire> {
        self.all.get(&(engine, id))
    }

    /// How many are here.
    pub fn len(&self) -> usize {
        self.all.len()
    }

    /// Whether none is here.
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// Every fire that is here, by engine and id.
    pub(super) fn keys(&self) -> impl Iterator<Item = (LocomotiveId, FireId)> + '_ {
        self.all.keys().copied()
    }

    /// Takes a fire in, and gives back the one that stood in its place.
    pub(super) fn put(&mut self, id: FireId, fire: Fire) -> Option<Fire> {
        self.all.insert((fire.locomotive, id), fire)
    }
}

/// What the fires of one engine add up to: the days they touched.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct EngineLog {
    /// Days proved to be service days by fires with an end written.
    pub least: DaySet,
    /// Days those fires do not rule out; holds every day of `least`.
    pub most: DaySet,
    /// Fires with no end written: they may be burning still, so what they touch depends on the day asked about.
    pub unended: BTreeMap<FireId, Fire>,
}

impl EngineLog {
    /// Adds a fire.
    pub(super) fn take(&mut self, id: FireId, fire: &Fire) {
        if fire.day.is_none() && fire.out.is_none() && fire.gone.is_none() {
            self.unended.insert(id, fire.clone());
        } else {
            // With an end written the day asked about does not matter.
            let days = days_of_fire(fire, Date::MIN);
            self.least.add(&days.least);
            self.most.add(&days.most);
        }
    }
}
