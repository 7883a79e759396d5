//! Readings that cannot be, or hardly: each is asked about before it enters the book.
//!
//! A question is not a refusal of the person's word. Who insists, and says why, is believed; the reading is kept as
//! written and carries the question wherever it is shown. What is asked and how far a size may stray is common
//! practice of measuring, without a source.

use jiff::civil::Date;
use measure::{Size, State};

use super::people::said;
use super::reading::{newest_of, size_of, sizes_in};
use crate::Refusal;
use crate::book::{
    Book, Circumstances, EngineState, Family, Feature, FeatureReading, Part, PartId, Questioned,
    ReadingSet, Wears,
};

/// How a set of readings was taken, as it is to be kept, and whether questions about it are insisted on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Taking {
    /// On which day; a set of a later day is not held against it. Every set is where no day is given.
    pub on: Option<Date>,
    /// How the part or the engine was supported.
    pub supported: Option<String>,
    /// The state of the engine.
    pub standing: Option<EngineState>,
    /// Why a reading that is questioned is right all the same.
    pub insist: Option<String>,
    /// In a job, which may have put metal on or a new piece in.
    pub in_job: bool,
}

/// A size this much larger or smaller than it was has likely lost or gained a place of its decimal.
const SLIP: i64 = 8;
/// No single reading of ours is larger than so many inches without a fraction or a decimal.
const LARGE: i64 = 100;

/// What must be asked about readings before they are kept: empty where nothing must.
pub fn questions<'r>(
    family: &Family,
    part: &Part,
    earlier: &[&'r ReadingSet],
    readings: &'r [FeatureReading],
    state: State,
    taking: &Taking,
) -> Vec<Questioned> {
    let mut asked: Vec<Questioned> = Vec::new();
    let mut ask = |reading: &FeatureReading, why: String| {
        let same =
            |q: &Questioned| q.feature == reading.feature && q.position == reading.reading.position;
        if !asked.iter().any(same) {
            asked.push(Questioned {
                feature: reading.feature.clone(),
                position: reading.reading.position.clone(),
                asked: why,
            });
        }
    };
    // A job may have put metal on, or a new piece in: what it left is held against nothing before it.
    let renewed = taking.in_job && state == State::AsLeft;
    for reading in readings {
        let Some((feature, size)) = sized(family, reading) else {
            continue;
        };
        let written = reading.reading.written();
        let known = known_sizes(part, feature, earlier);
        if let Some(fraction) = lost_bar(&written, size, &known) {
            ask(
                reading,
                format!("{written} may have lost its fraction bar: was {fraction} meant?"),
            );
            continue;
        }
        if renewed {
            continue;
        }
        let pair = family.differences.iter().find(|d| d.name == feature.name);
        // A clearance is held against those read since one of its two sizes was: one of them may be a new piece.
        let since = pair.and_then(|pair| {
            let sizes = [&pair.larger, &pair.smaller];
            earlier.iter().position(|set| {
                let of_it = |r: &FeatureReading| sizes.contains(&&r.feature);
                set.readings.iter().any(of_it)
            })
        });
        let against = earlier.get(..since.map_or(earlier.len(), |at| at + 1));
        let last = last_at(
            feature,
            &reading.reading.position,
            against.unwrap_or_default(),
        );
        let Some((was, set)) = last else { continue };
        let Some(before) = size_of(feature, was) else {
            continue;
        };
        let slipped =
            |one: Size, other: Size| one > Size::ZERO && other.ticks() / SLIP >= one.ticks();
        if slipped(size, before) || slipped(before, size) {
            ask(
                reading,
                format!(
                    "{written} is far from the {} of {}: has a place of the decimal slipped?",
                    was.reading.written(),
                    set.on
                ),
            );
            continue;
        }
        let allowance = resolution(&written) + resolution(&was.reading.written());
        let grown = match feature.wears {
            Wears::Smaller => size.ticks() - before.ticks(),
            Wears::Larger => before.ticks() - size.ticks(),
            Wears::Either => 0,
        };
        if grown > allowance {
            let (on, was) = (set.on, was.reading.written());
            let why = if pair.is_some() {
                format!(
                    "{written} says that the clearance has closed since {on}, when it was {was}: it wears open, and no job took it up."
                )
            } else {
                format!(
                    "{written} says that metal has grown since {on}, when it was {was}: it wears the other way, and no job put metal on."
                )
            };
            ask(reading, why);
        }
    }
    for difference in &family.differences {
        // As read now; else as last read.
        let of = |name: &str| -> Vec<(&FeatureReading, Size)> {
            let sizes = |of: &'r [FeatureReading]| -> Vec<(&'r FeatureReading, Size)> {
                let named = of.iter().filter(|r| r.feature == name);
                named
                    .filter_map(|r| Some((r, sized(family, r)?.1)))
                    .collect()
            };
            let here = sizes(readings);
            match newest_of(name, earlier) {
                Some(set) if here.is_empty() => sizes(&set.readings),
                _ => here,
            }
        };
        let (outer, inner) = (of(&difference.larger), of(&difference.smaller));
        let (Some((large, bore)), Some((small, pin))) = (
            outer.iter().max_by_key(|(_, size)| *size),
            inner.iter().min_by_key(|(_, size)| *size),
        ) else {
            continue;
        };
        if bore >= pin {
            continue;
        }
        let why = format!(
            "the {} at {} is smaller than the {} at {} that goes into it.",
            large.reading.written(),
            large.reading.position,
            small.reading.written(),
            small.reading.position
        );
        for (reading, _) in outer.iter().chain(&inner) {
            if readings.iter().any(|r| r == *reading) {
                ask(reading, why.clone());
            }
        }
    }
    asked
}

/// Asks what must be asked; gives what is to be kept beside the readings, or nothing where there is nothing to keep.
///
/// # Errors
/// Input: something is questioned and nobody insists on it; or the set is insisted on without a reason.
pub fn admit(
    book: &Book,
    (id, part): (PartId, &Part),
    family: &Family,
    state: State,
    readings: &[FeatureReading],
    taking: &Taking,
) -> Result<Option<Circumstances>, Refusal> {
    let earlier = book.readings.newest_first(id).unwrap_or_default();
    let before = |set: &&ReadingSet| taking.on.is_none_or(|on| set.on <= on);
    let earlier: Vec<_> = earlier.into_iter().filter(before).collect();
    let questioned = questions(family, part, &earlier, readings, state, taking);
    let insisted = taking.insist.as_deref().map(str::trim);
    if !questioned.is_empty() && insisted.is_none_or(str::is_empty) {
        let mut refusal = Refusal::input(
            "Is that right? Nothing was saved; insist on it and say why, or put it right.",
        );
        for one in &questioned {
            refusal = refusal.todo(format!("{}@{}: {}", one.feature, one.position, one.asked));
        }
        return Err(refusal);
    }
    let insisted = insisted.filter(|_| !questioned.is_empty());
    let kept = Circumstances {
        supported: taking.supported.as_deref().and_then(said),
        standing: taking.standing,
        insisted: insisted.map(str::to_string),
        questioned,
    };
    Ok((kept != Circumstances::default()).then_some(kept))
}

/// A reading's feature and its size; nothing where it is an angle.
fn sized<'f>(family: &'f Family, reading: &FeatureReading) -> Option<(&'f Feature, Size)> {
    let feature = family.measured_as(&reading.feature)?;
    Some((feature, size_of(feature, reading)?))
}

/// The newest reading of a feature at a place, with the set it stands in.
fn last_at<'s>(
    feature: &Feature,
    position: &str,
    earlier: &[&'s ReadingSet],
) -> Option<(&'s FeatureReading, &'s ReadingSet)> {
    earlier.iter().find_map(|set| {
        let here =
            |r: &&FeatureReading| r.feature == feature.name && r.reading.position == position;
        set.readings.iter().find(here).map(|read| (read, *set))
    })
}

/// Every size of a feature that the book has: as built, drawn, our limit, and its newest readings.
fn known_sizes(part: &Part, feature: &Feature, earlier: &[&ReadingSet]) -> Vec<Size> {
    let facts = part.features.get(&feature.name);
    let told = facts.into_iter().flat_map(|f| {
        [&f.as_built, &f.drawn, &f.shop_limit]
            .into_iter()
            .flatten()
            .filter_map(|text| Size::parse(text).ok())
    });
    let newest = newest_of(&feature.name, earlier).into_iter();
    let read = newest.flat_map(|set| sizes_in(feature, set));
    told.chain(read.map(|(_, size)| size)).collect()
}

/// The fraction that a whole number may have been, `3/32` for 332, where the number is larger than anything we
/// measure or far from every size the book has of the feature while the fraction is near one.
fn lost_bar(written: &str, size: Size, known: &[Size]) -> Option<String> {
    let digits: String = written.chars().take_while(char::is_ascii_digit).collect();
    let rest = written.get(digits.len()..)?.trim_start();
    if rest.starts_with(|c: char| c == '.' || c == '/' || c == '-' || c.is_ascii_digit()) {
        return None;
    }
    let fraction = ["64", "32", "16", "8", "4", "2"].iter().find_map(|under| {
        let over = digits.strip_suffix(under)?;
        let (over_number, under_number) = (over.parse::<u32>().ok()?, under.parse::<u32>().ok()?);
        let proper = over_number % 2 == 1 && over_number < under_number;
        proper.then(|| (format!("{over}/{under}"), over_number, under_number))
    });
    let (text, over, under) = fraction?;
    let meant = Size::TICKS_PER_INCH * i64::from(over) / i64::from(under);
    let near =
        |one: i64, other: i64| one <= other.saturating_mul(3) && other <= one.saturating_mul(3);
    let misread = known
        .iter()
        .any(|known| near(known.ticks(), meant) && !near(known.ticks(), size.ticks()));
    let large = size.ticks() > LARGE * Size::TICKS_PER_INCH;
    (large || misread).then_some(text)
}

/// How finely a size is written, in ticks: a fraction to a sixty-fourth of an inch or its own finer denominator, a
/// decimal to two of its last place, a whole number to a sixty-fourth or to a millimeter: somebody read it off a rule.
pub fn resolution(written: &str) -> i64 {
    let inch = Size::TICKS_PER_INCH;
    if let Some((_, under)) = written.split_once('/') {
        let digits: String = under.chars().take_while(char::is_ascii_digit).collect();
        return inch / digits.parse::<i64>().unwrap_or(64).clamp(64, 1024);
    }
    let unit = if written.contains("mm") {
        Size::TICKS_PER_MM
    } else {
        inch
    };
    let places = written.split_once('.').map_or(0, |(_, decimals)| {
        decimals.chars().take_while(char::is_ascii_digit).count()
    });
    if places == 0 {
        return if unit == inch { inch / 64 } else { unit };
    }
    let places = u32::try_from(places).unwrap_or(0).min(9);
    2 * unit / 10i64.pow(places)
}
