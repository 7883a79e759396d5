//! What readings come to: the governing one of a feature, and what lies between the two sizes of a pair.

use std::collections::BTreeMap;

use measure::{House, Size, show};

use super::{Bench, Verdict};
use crate::Refusal;
use crate::book::{Difference, Feature, FeatureReading, Worst};
use crate::locomotive::{last_check, names, resolution, value};

/// What the readings of a size come to, and which places were not read.
#[derive(Default)]
pub(super) struct Read {
    /// Of what was read, the governing end and the other one.
    pub(super) ends: Option<[End; 2]>,
    pub(super) missing: Vec<String>,
}

/// A size that was read, with its text where one person wrote it; a difference has none.
#[derive(Clone)]
pub(super) struct End {
    pub(super) size: Size,
    written: Option<String>,
    /// What is to be said of it beside.
    told: Option<String>,
}

impl End {
    pub(super) fn words(&self, house: House) -> String {
        match &self.told {
            Some(told) => format!("{}; {told}", self.bare(house)),
            None => self.bare(house),
        }
    }

    fn bare(&self, house: House) -> String {
        match &self.written {
            Some(text) => show::size_as_written(text, self.size, house),
            None => show::size(self.size, house),
        }
    }
}

impl Read {
    /// The governing size, where every place was read.
    pub(super) fn words(&self, house: House) -> String {
        match &self.ends {
            Some([governing, _]) if self.missing.is_empty() => governing.words(house),
            _ => "not read".into(),
        }
    }

    /// The verdict where nothing read fails.
    pub(super) fn complete(&self) -> Verdict {
        match &self.ends {
            Some(_) if self.missing.is_empty() => Verdict::Complies,
            _ => Verdict::CannotTell(self.missing.clone()),
        }
    }
}

impl Bench<'_> {
    /// The governing reading of a feature; every place must be read.
    pub(super) fn worst(&self, feature: &Feature, worst: Worst) -> Result<Read, Refusal> {
        let mut sizes = BTreeMap::new();
        for reading in self
            .question
            .readings
            .iter()
            .filter(|r| r.feature == feature.name)
        {
            let written = reading.reading.written();
            if let Some(size) = value(feature, &written)?.size() {
                let end = End {
                    size,
                    written: Some(written),
                    told: None,
                };
                sizes.insert(reading.reading.position.as_str(), end);
            }
        }
        let missing = feature
            .positions
            .iter()
            .filter(|place| !sizes.contains_key(place.as_str()))
            .map(|place| format!("the {} at {place}", feature.title))
            .collect();
        let least = sizes.values().min_by_key(|end| end.size).cloned();
        let most = sizes.values().max_by_key(|end| end.size).cloned();
        let ends = match worst {
            Worst::Largest => most.zip(least),
            Worst::Smallest => least.zip(most),
        };
        Ok(Read {
            ends: ends.map(|(governing, other)| [governing, other]),
            missing,
        })
    }

    /// What lies between two sizes: as it was read on the pair itself, as one less the other, or both. Either answers
    /// where it is whole; where both are there, the wider counts, and it is said where they differ by more than can
    /// be read.
    pub(super) fn clearance(&self, pair: &Difference, outdated: bool) -> Result<Read, Refusal> {
        let itself = match self.family.on_the_pair(pair) {
            Some(it) => self.worst(it, Worst::Largest)?,
            None => Read::default(),
        };
        let Some([most, least]) = itself.ends else {
            return self.difference(&pair.larger, &pair.smaller);
        };
        let mut most = most;
        most.told = Some("read on the pair".into());
        let alone = Read {
            ends: Some([most.clone(), least.clone()]),
            missing: itself.missing,
        };
        if outdated {
            return Ok(alone);
        }
        let less = self.difference(&pair.larger, &pair.smaller)?;
        let Some([wide, tight]) = less.ends else {
            return Ok(alone);
        };
        let mut governing = if wide.size > most.size {
            wide.clone()
        } else {
            most.clone()
        };
        let apart = most.size.ticks().abs_diff(wide.size.ticks());
        // Only wholes are held against each other: a place not read may be the loose one.
        if alone.missing.is_empty()
            && less.missing.is_empty()
            && apart > self.fineness(pair).unsigned_abs()
        {
            let house = self.question.house;
            governing.told = Some(format!(
                "{} read on the pair, {} as one size less the other: they differ by more than they were read to, so measure again",
                most.bare(house),
                wide.bare(house)
            ));
        }
        Ok(Read {
            ends: Some([
                governing,
                if tight.size < least.size {
                    tight
                } else {
                    least
                },
            ]),
            missing: if less.missing.is_empty() {
                Vec::new()
            } else {
                alone.missing
            },
        })
    }

    /// How far a clearance read on the pair may lie from one size less the other, in ticks: by how finely all three
    /// are written, and by the error last found of each registered instrument they name.
    fn fineness(&self, pair: &Difference) -> i64 {
        let of = |name: &str| {
            let all = self.question.readings.iter().filter(|r| r.feature == name);
            let each = all.map(|r| resolution(&r.reading.written()) + self.error(r));
            each.max().unwrap_or(0)
        };
        of(&pair.name) + of(&pair.larger) + of(&pair.smaller)
    }

    /// The error last found of the registered instrument that a reading names, in ticks; none where none is known.
    fn error(&self, reading: &FeatureReading) -> i64 {
        let mut known = self.book.instruments.values();
        let named = known.find(|kept| names(reading, kept)).and_then(last_check);
        let error = named.and_then(|check| Size::parse(check.error.as_deref()?.trim()).ok());
        error.map_or(0, |error| error.ticks().abs())
    }

    fn difference(&self, larger: &str, smaller: &str) -> Result<Read, Refusal> {
        let of = |name: &str, worst| match self.family.feature(name) {
            Some(feature) => self.worst(feature, worst),
            None => Ok(Read {
                ends: None,
                missing: vec![format!("the {name}")],
            }),
        };
        let (large, small) = (of(larger, Worst::Largest)?, of(smaller, Worst::Smallest)?);
        let far = || Refusal::input("The readings are too far apart to be of one part.");
        let less = |from: &End, take: &End| {
            let size = from.size.checked_sub(take.size)?;
            Some(End {
                size,
                written: None,
                told: None,
            })
        };
        let ends = match (large.ends, small.ends) {
            (Some([largest, large]), Some([smallest, small])) => Some([
                less(&largest, &smallest).ok_or_else(far)?,
                less(&large, &small).ok_or_else(far)?,
            ]),
            _ => None,
        };
        let mut missing = large.missing;
        missing.extend(small.missing);
        Ok(Read { ends, missing })
    }
}
