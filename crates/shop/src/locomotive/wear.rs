//! What wear took: from each as-left to the as-found after it, by what was read and nothing else.

use jiff::civil::Date;
use measure::{Size, State};

use super::reading::sizes_in;
use crate::book::{Family, Feature, FeatureReading, ReadingSet, Wears, Worst};

/// A feature between two times it was measured: as it was left, and as it was found next.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Worn {
    /// The day it was left, and the governing size then.
    pub left: (Date, Size),
    /// The day it was found, and the governing size then.
    pub found: (Date, Size),
    /// What went, the way the feature wears; negative where it seems to have grown.
    pub went: Size,
}

/// The governing size of a feature in a set; nothing where a place of it was not read.
pub fn governing(feature: &Feature, set: &ReadingSet) -> Option<Size> {
    end(feature, feature.worst, set)
}

/// The largest or the smallest size of a feature in a set, whichever governs it; nothing where a place of it was not read.
pub fn end(feature: &Feature, worst: Worst, set: &ReadingSet) -> Option<Size> {
    let sizes: Vec<(&str, Size)> = sizes_in(feature, set).collect();
    let read = |place: &String| sizes.iter().any(|(known, _)| known == place);
    if !feature.positions.iter().all(read) {
        return None;
    }
    let sizes = sizes.into_iter().map(|(_, size)| size);
    match worst {
        Worst::Smallest => sizes.min(),
        Worst::Largest => sizes.max(),
    }
}

/// Every such pair of a feature, the newest first. `newest` are the sets of a part, the newest first. A feature that
/// may go either way has none.
pub fn worn(feature: &Feature, newest: &[&ReadingSet]) -> Vec<Worn> {
    let mut pairs = Vec::new();
    let mut left: Option<(Date, Size)> = None;
    for set in newest.iter().rev() {
        let Some(size) = governing(feature, set) else {
            continue;
        };
        match set.state {
            State::AsLeft => left = Some((set.on, size)),
            State::AsFound => {
                // Found twice without work between, the later one counts from the same day it was left.
                let Some((day, was)) = left else { continue };
                let went = match feature.wears {
                    Wears::Smaller => was.checked_sub(size),
                    Wears::Larger => size.checked_sub(was),
                    Wears::Either => None,
                };
                pairs.extend(went.map(|went| Worn {
                    left: (day, was),
                    found: (set.on, size),
                    went,
                }));
            }
        }
    }
    pairs.reverse();
    pairs
}

/// What a part is now, so far as anybody read it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AsItIs {
    /// The newest reading of each feature and clearance at each place. A clearance is not among them where one of its
    /// two sizes was read after it: something was taken apart since.
    pub readings: Vec<FeatureReading>,
    /// Clearances read on the pair after both sizes were: what those sizes leave between them is of an earlier day.
    pub outdated: Vec<String>,
}

/// What a part is now. `newest` are its sets, the newest first.
pub fn as_it_is(family: &Family, newest: &[&ReadingSet]) -> AsItIs {
    let mut readings: Vec<FeatureReading> = Vec::new();
    for reading in newest.iter().flat_map(|set| &set.readings) {
        let there = |known: &FeatureReading| {
            known.feature == reading.feature && known.reading.position == reading.reading.position
        };
        if !readings.iter().any(there) {
            readings.push(reading.clone());
        }
    }
    let mut outdated = Vec::new();
    let last = |name: &str| {
        let read = |set: &&ReadingSet| set.readings.iter().any(|r| r.feature == name);
        newest.iter().position(read)
    };
    for pair in &family.differences {
        let sizes = [last(&pair.larger), last(&pair.smaller)];
        let (Some(itself), Some(size)) = (last(&pair.name), sizes.into_iter().flatten().min())
        else {
            continue;
        };
        if size < itself {
            readings.retain(|r| r.feature != pair.name);
        } else if itself < size {
            outdated.push(pair.name.clone());
        }
    }
    AsItIs { readings, outdated }
}
