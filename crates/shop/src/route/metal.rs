//! Metal left: what may still be cut or worn away before a limit, in re-cuts.

use jiff::civil::Date;
use measure::Size;
use measure::State;

use crate::book::{Family, Part, ReadingSet, Worst};
use crate::locomotive::{governing, newest_of};

/// Metal left on one feature of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MetalLeft {
    /// The feature.
    pub feature: String,
    /// What it is.
    pub title: String,
    /// As built, if known.
    pub as_built: Option<Size>,
    /// The newest governing size.
    pub now: Size,
    /// The day it was read.
    pub on: Date,
    /// As found or as left.
    pub state: State,
    /// Our own limit.
    pub shop_limit: Size,
    /// What is left before it; negative where it is past.
    pub left: Size,
    /// Whole re-cuts left, if the usual step is known.
    pub re_cuts: Option<i64>,
}

/// Metal left on every feature the family reckons it on and whose newest readings and shop limit are
/// known. A feature with a place not read in its newest set is left out: missing never helps. `newest` are the part's
/// sets of readings, the newest first.
pub fn metal_left(family: &Family, part: &Part, newest: &[&ReadingSet]) -> Vec<MetalLeft> {
    family
        .features
        .iter()
        .filter(|f| f.metal)
        .filter_map(|feature| {
            let facts = part.features.get(&feature.name)?;
            let size = |text: &Option<String>| text.as_deref().and_then(|t| Size::parse(t).ok());
            let shop_limit = size(&facts.shop_limit)?;
            let newest = newest_of(&feature.name, newest)?;
            let now = governing(feature, newest)?;
            let left = match feature.worst {
                Worst::Smallest => now.checked_sub(shop_limit)?,
                Worst::Largest => shop_limit.checked_sub(now)?,
            };
            let step = size(&facts.step).filter(|step| *step > Size::ZERO);
            Some(MetalLeft {
                feature: feature.name.clone(),
                title: feature.title.clone(),
                as_built: size(&facts.as_built),
                now,
                on: newest.on,
                state: newest.state,
                shop_limit,
                left,
                re_cuts: step.map(|step| left.ticks().max(0) / step.ticks()),
            })
        })
        .collect()
}
