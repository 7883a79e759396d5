//! How statements about parts, readings, instruments and photographs change the book: the part of the projector that
//! `fold` hands them to.

use super::fold::{Meta, Touched};
use super::rows::{RowKind, readings_key};
use super::state::{Book, CheckMade, Instrument, Part, PartSaid, Photo, ReadingSet};
use super::statement::{
    FeatureFacts, FeatureTold, InstrumentAdded, InstrumentChecked, PartAdded, PartKnown, PartTold,
    PhotoAdded, PhotoOf,
};
use super::{LocomotiveId, PartId};

/// Why a statement does not fit the book before it.
pub(super) enum Unfit {
    /// It speaks of a thing that no earlier statement made.
    Unknown(String),
    /// It makes a thing that stands already.
    Twice(String),
}

fn unknown(what: &str) -> Unfit {
    Unfit::Unknown(what.into())
}

impl Book {
    pub(super) fn add_part(
        &mut self,
        it: &PartAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        if !self.families.contains_key(&it.family) {
            return Err(Unfit::Unknown(format!("the family `{}`", it.family)));
        }
        let known = it.known.clone().unwrap_or_default();
        self.parts_stand(&known)?;
        let features = it.features.iter();
        let part = Part {
            locomotive: it.locomotive,
            family: it.family.clone(),
            name: it.name.clone(),
            facts: it.facts.clone(),
            features: features
                .map(|(name, facts)| (name.clone(), facts.into()))
                .collect(),
            known,
            said: Vec::new(),
            read: None,
            last: meta.seq,
        };
        if self.parts.insert(it.id, part).is_some() {
            return Err(Unfit::Twice(format!("the part {}", it.name)));
        }
        touched.note(RowKind::Locomotive, it.locomotive);
        touched.note(RowKind::Part, it.id);
        Ok(())
    }

    pub(super) fn tell_part(
        &mut self,
        it: &PartTold,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        self.parts_stand(&it.known)?;
        let part = self.parts.get_mut(&it.part);
        let part = part.ok_or_else(|| unknown("a part"))?;
        part.last = part.last.max(meta.seq);
        part.known.take(&it.known);
        let facts = it.facts.iter().map(|(k, v)| (k.clone(), v.clone()));
        part.facts.extend(facts);
        for (name, told) in &it.features {
            part.features.entry(name.clone()).or_default().take(told);
        }
        part.said.push(PartSaid {
            entry: meta.seq,
            on: meta.done_on,
            by: meta.person,
            of: it.speaks_of(),
            document: it.document.clone(),
        });
        touched.note(RowKind::Part, it.part);
        Ok(())
    }

    /// The parts that a statement names must stand.
    fn parts_stand(&self, known: &PartKnown) -> Result<(), Unfit> {
        let mut named = known.within.iter().chain(&known.mates);
        match named.find(|id| !self.parts.contains_key(id)) {
            Some(_) => Err(unknown("another part")),
            None => Ok(()),
        }
    }

    /// Takes a set of readings into the life of a part.
    pub(super) fn read_part(
        &mut self,
        part: PartId,
        set: ReadingSet,
        touched: &mut Touched,
    ) -> Result<(), String> {
        let kept = self.parts.get_mut(&part).ok_or("a part")?;
        kept.last = kept.last.max(set.entry);
        kept.was_read(&set);
        touched.note(RowKind::Part, part);
        touched.note(RowKind::Readings, readings_key(part, set.entry));
        self.readings.put(part, set);
        Ok(())
    }

    pub(super) fn add_instrument(
        &mut self,
        it: &InstrumentAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let made = Instrument {
            number: it.number.clone(),
            what: it.what.clone(),
            range: it.range.clone(),
            shelf: it.shelf.clone(),
            checks: Vec::new(),
            last: meta.seq,
        };
        if self.instruments.insert(it.id, made).is_some() {
            return Err(Unfit::Twice(format!("the instrument {}", it.number)));
        }
        touched.note(RowKind::Instrument, it.id);
        Ok(())
    }

    pub(super) fn check_instrument(
        &mut self,
        it: &InstrumentChecked,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let kept = self.instruments.get_mut(&it.instrument);
        let kept = kept.ok_or_else(|| unknown("an instrument"))?;
        kept.last = kept.last.max(meta.seq);
        kept.checks.push(CheckMade {
            on: meta.done_on,
            by: meta.person,
            good: it.good,
            error: it.error.clone(),
            against: it.against.clone(),
            told: it.told.clone(),
            entry: meta.seq,
        });
        touched.note(RowKind::Instrument, it.instrument);
        Ok(())
    }

    pub(super) fn add_photo(
        &mut self,
        it: &PhotoAdded,
        meta: Meta,
        touched: &mut Touched,
    ) -> Result<(), Unfit> {
        let (locomotive, part) = self.shown_on(it)?;
        let number = self.count(|s| &mut s.photos);
        let made = Photo {
            number: number.ok_or_else(|| unknown("the shop"))?,
            added: it.clone(),
            locomotive,
            part,
            on: meta.done_on,
            by: meta.person,
            last: meta.seq,
        };
        if self.photos.insert(it.id, made).is_some() {
            return Err(Unfit::Twice("the photograph".into()));
        }
        touched.note(RowKind::Shop, "");
        touched.note(RowKind::Photo, it.id);
        Ok(())
    }

    /// The engine and the part that a photograph is of, if it is of any.
    fn shown_on(&self, it: &PhotoAdded) -> Result<(Option<LocomotiveId>, Option<PartId>), Unfit> {
        let part = match &it.of {
            PhotoOf::Letter => {
                let letter = it.letter.and_then(|id| self.letters.get(&id));
                let letter = letter.ok_or_else(|| unknown("a letter"))?;
                return Ok((letter.engine, None));
            }
            // The set may have been put right since, under another number; the part stands.
            PhotoOf::Part { part } | PhotoOf::Readings { part, .. } => *part,
            PhotoOf::Finding { finding } => {
                let finding = self.findings.get(finding);
                finding.ok_or_else(|| unknown("a finding"))?.part
            }
            PhotoOf::Proof { job, .. } => {
                let job = self.jobs.get(job).ok_or_else(|| unknown("a job"))?;
                let finding = self.findings.get(&job.plan.finding);
                finding.ok_or_else(|| unknown("a finding"))?.part
            }
        };
        let kept = self.parts.get(&part).ok_or_else(|| unknown("a part"))?;
        Ok((Some(kept.locomotive), Some(part)))
    }
}

impl From<&FeatureFacts> for FeatureTold {
    fn from(facts: &FeatureFacts) -> FeatureTold {
        FeatureTold {
            as_built: facts.as_built.clone(),
            shop_limit: facts.shop_limit.clone(),
            step: facts.step.clone(),
            ..FeatureTold::default()
        }
    }
}

/// Takes what is told; what is not stays.
pub(super) fn take<T: Clone>(known: &mut Option<T>, told: &Option<T>) {
    if told.is_some() {
        known.clone_from(told);
    }
}

fn take_list<T: Clone>(known: &mut Vec<T>, told: &[T]) {
    if !told.is_empty() {
        *known = told.to_vec();
    }
}

fn add_to<T: Clone + PartialEq>(known: &mut Vec<T>, told: &[T]) {
    for one in told {
        if !known.contains(one) {
            known.push(one.clone());
        }
    }
}

impl FeatureTold {
    fn take(&mut self, told: &FeatureTold) {
        take(&mut self.drawn, &told.drawn);
        take(&mut self.as_built, &told.as_built);
        take(&mut self.shop_limit, &told.shop_limit);
        take(&mut self.step, &told.step);
        take_list(&mut self.steps, &told.steps);
    }
}

impl PartKnown {
    fn take(&mut self, told: &PartKnown) {
        take(&mut self.side, &told.side);
        take(&mut self.axle, &told.axle);
        take(&mut self.at, &told.at);
        take(&mut self.within, &told.within);
        take(&mut self.material, &told.material);
        take(&mut self.drawing, &told.drawing);
        take(&mut self.donor, &told.donor);
        take_list(&mut self.reach, &told.reach);
        add_to(&mut self.mates, &told.mates);
        add_to(&mut self.also, &told.also);
        // A part that is fitted again is no longer off, unless the same statement says so.
        if told.fitted.is_some() {
            self.removed = None;
        }
        take(&mut self.fitted, &told.fitted);
        take(&mut self.removed, &told.removed);
    }
}

impl PartTold {
    /// What it speaks of, in the words of its fields, facts and features.
    pub fn speaks_of(&self) -> Vec<String> {
        let known = &self.known;
        let fields = [
            ("side", known.side.is_some()),
            ("axle", known.axle.is_some()),
            ("at", known.at.is_some()),
            ("within", known.within.is_some()),
            ("material", known.material.is_some()),
            ("drawing", known.drawing.is_some()),
            ("reach", !known.reach.is_empty()),
            ("mates", !known.mates.is_empty()),
            ("also", !known.also.is_empty()),
            ("fitted", known.fitted.is_some()),
            ("removed", known.removed.is_some()),
            ("donor", known.donor.is_some()),
        ];
        let told = fields.iter().filter(|(_, told)| *told);
        let told = told.map(|(name, _)| (*name).to_string());
        let facts = self.facts.keys().cloned();
        told.chain(facts)
            .chain(self.features.keys().cloned())
            .collect()
    }
}
