//! What wears on a part, and its openings: what each size was left at, what it was found at next, the service days between.
//!
//! A re-cut lies between a found and a left, never inside an opening: so metal that was cut away is never taken for wear.

use jiff::civil::Date;
use measure::{Size, State};

use crate::book::{Book, Family, Feature, FeatureKind, Part, PartId, ReadingSet, Wears, Worst};
use crate::clock::{miles, stretch};
use crate::locomotive::{end, governing};

/// A size of a family that wear moves one way: a feature, or one less another.
#[derive(Debug, Clone, Copy)]
pub struct Wearing<'f> {
    /// Its word.
    pub name: &'f str,
    /// What it is.
    pub title: &'f str,
    /// Which way wear takes it: larger or smaller.
    pub larger: bool,
    of: Of<'f>,
}

#[derive(Debug, Clone, Copy)]
enum Of<'f> {
    Feature(&'f Feature),
    /// The larger and the smaller size, and the clearance as it is read on the pair.
    Difference(&'f Feature, &'f Feature, Option<&'f Feature>),
}

/// Every such size of a family, differences last. A size that goes either way has no rate.
pub fn wearing(family: &Family) -> Vec<Wearing<'_>> {
    let features = family.features.iter().filter_map(|feature| {
        let larger = match (feature.kind, feature.wears) {
            (FeatureKind::Size, Wears::Larger) => true,
            (FeatureKind::Size, Wears::Smaller) => false,
            _ => return None,
        };
        Some(Wearing {
            name: &feature.name,
            title: &feature.title,
            larger,
            of: Of::Feature(feature),
        })
    });
    // A clearance opens as either of the two wears; a size of which the worn part is taken grows alike.
    let differences = family.differences.iter().filter_map(|it| {
        let (large, small) = (family.feature(&it.larger)?, family.feature(&it.smaller)?);
        Some(Wearing {
            name: &it.name,
            title: &it.title,
            larger: true,
            of: Of::Difference(large, small, family.on_the_pair(it)),
        })
    });
    features.chain(differences).collect()
}

impl Wearing<'_> {
    /// The newest reading of it. `newest` are the sets of a part, the newest first.
    pub fn now(&self, newest: &[&ReadingSet]) -> Option<Reading> {
        let mut read = newest
            .iter()
            .filter_map(|set| Some((set.on, set.state, self.size(set)?)));
        read.next()
    }

    /// The governing size in a set; nothing where a place was not read.
    pub fn size(&self, set: &ReadingSet) -> Option<Size> {
        match self.of {
            Of::Feature(feature) => governing(feature, set),
            Of::Difference(large, small, pair) => {
                let ends = end(large, Worst::Largest, set).zip(end(small, Worst::Smallest, set));
                let less = ends.and_then(|(large, small)| large.checked_sub(small));
                // As in a verdict: either answers, and of both the wider.
                less.max(pair.and_then(|pair| governing(pair, set)))
            }
        }
    }
}

/// A day, as found or as left, and the size.
pub type Reading = (Date, State, Size);

/// One opening: it was found, after it had been left, or after nobody wrote how it was left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opening {
    /// The day it was left, and at what; nothing where nobody wrote it down.
    pub left: Option<(Date, Size)>,
    /// The day it was found, and at what.
    pub found: (Date, Size),
    /// Service days between.
    pub days: Option<u32>,
    /// Where those were counted; or why there are none, which is what would settle it.
    pub told: Vec<String>,
    /// Miles run between, or what would settle them; nothing where her fires were not read, or nobody wrote how it was left.
    pub miles: Option<Result<u32, String>>,
}

/// Every opening of a size, the oldest first. `newest` are the sets of the part, the newest first. Found twice with no job on
/// it closed between, it was put back as it was found: the later one counts from the earlier.
pub fn openings(
    book: &Book,
    id: PartId,
    part: &Part,
    size: Wearing<'_>,
    newest: &[&ReadingSet],
) -> Vec<Opening> {
    let mut all: Vec<Opening> = Vec::new();
    let mut left: Option<(Date, Size)> = None;
    // From the day it was opened to the day it was left she was apart: a paper may count from any of those days.
    let mut apart: Option<Date> = None;
    // Whether it was found since it was last left.
    let mut spent = false;
    for set in newest.iter().rev() {
        let Some(read) = size.size(set) else {
            continue;
        };
        match set.state {
            State::AsLeft => {
                let opened = all.last().map(|opening| opening.found.0);
                apart = Some(opened.unwrap_or(set.on));
                left = Some((set.on, read));
                spent = false;
            }
            State::AsFound => {
                if let (Some(day), true) = (all.last().map(|opening| opening.found.0), spent) {
                    // What was worked on and not read as it was left starts no rate.
                    left = match all.last() {
                        Some(opening) if !worked(book, id, day, set.on) => Some(opening.found),
                        _ => None,
                    };
                    apart = left.map(|(day, _)| day);
                }
                all.push(opening(book, part, left, apart, (set.on, read)));
                spent = true;
            }
        }
    }
    all
}

/// Whether a job on the part was closed after one day and not after another.
fn worked(book: &Book, id: PartId, after: Date, until: Date) -> bool {
    book.jobs.values().any(|job| {
        let of = book.findings.get(&job.plan.finding);
        let here = of.is_some_and(|finding| finding.part == id);
        here && job
            .closed
            .as_ref()
            .is_some_and(|(day, ..)| *day > after && *day <= until)
    })
}

fn opening(
    book: &Book,
    part: &Part,
    left: Option<(Date, Size)>,
    apart: Option<Date>,
    found: (Date, Size),
) -> Opening {
    let mut opening = Opening {
        left,
        found,
        days: None,
        told: Vec::new(),
        miles: None,
    };
    let Some((from, _)) = left else {
        let need = format!(
            "how it was left before it was found on {}: nobody wrote it down",
            found.0
        );
        opening.told.push(need);
        return opening;
    };
    // Found in the shop: that day's fire, if there was one, came after.
    let through = found.0.yesterday().unwrap_or(found.0);
    let whole = stretch(book, part.locomotive, from, through);
    let whole = whole.or_else(|need| match apart {
        Some(opened) if opened < from => {
            stretch(book, part.locomotive, opened, through).map_err(|_| need)
        }
        _ => Err(need),
    });
    opening.miles = miles(book, part.locomotive, from, through).map(|run| match run {
        Ok(0) => Err(format!("no mile run from {from} through {through}")),
        run => run,
    });
    match whole {
        Ok(come) if come.days == 0 => opening
            .told
            .push(format!("no service day from {from} through {through}")),
        Ok(come) => {
            opening.days = Some(come.days);
            opening.told = come.by;
        }
        Err(need) => opening.told.push(need),
    }
    opening
}
