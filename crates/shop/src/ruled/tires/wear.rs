//! How fast driving tires wear, by what was left and found and by the days of her log, and how many days she runs in a year.

use jiff::civil::Date;
use measure::Size;

use super::TireWheel;
use crate::book::{Book, LocomotiveId};
use crate::clock::{of_year, own_service_days, service_days};
use crate::locomotive::{family, worn};

/// How fast the tread wears.
#[derive(Debug, Clone, PartialEq)]
pub struct TireWear {
    /// The wheel that wears fastest.
    pub name: String,
    /// What went off its radius, inches.
    pub inches: f64,
    /// In how many service days, the fewest that it can have been.
    pub days: usize,
    /// The most that it can have been: where that is more, her log does not know.
    pub most: usize,
    /// From the day it was left to the day it was found.
    pub between: (Date, Date),
}

/// The fastest that any of them wore, over the fewest service days it can have been.
pub(super) fn wear_of(
    book: &Book,
    id: LocomotiveId,
    wheels: &[TireWheel],
    on: Date,
) -> Result<TireWear, String> {
    let mut fastest: Option<TireWear> = None;
    let mut open = false;
    for wheel in wheels {
        let Some(part) = book.parts.get(&wheel.part) else {
            continue;
        };
        let Ok(family) = family(book, &part.family) else {
            continue;
        };
        let sets = book.readings.newest_first(wheel.part).unwrap_or_default();
        let sets: Vec<_> = sets.into_iter().filter(|set| set.on <= on).collect();
        let Some(feature) = family.features.iter().find(|it| it.name == "thickness") else {
            continue;
        };
        let Some(newest) = worn(feature, &sets).into_iter().next() else {
            continue;
        };
        let (left, found) = (newest.left.0, newest.found.0);
        let days = service_days(book, id, left, found);
        // A day of which the log knows nothing may have been none: fewer days are a faster rate.
        let fewest = days.least.len();
        if newest.went <= Size::ZERO {
            continue;
        }
        if fewest == 0 {
            open = true;
            continue;
        }
        let inches = newest.went.inches();
        let inches = measure::fraction::to_f64(inches);
        let faster = fastest
            .as_ref()
            .is_none_or(|known| inches / fewest as f64 > known.inches / known.days as f64);
        if faster {
            fastest = Some(TireWear {
                name: wheel.name.clone(),
                inches,
                days: fewest,
                most: days.most.len(),
                between: (left, found),
            });
        }
    }
    fastest.ok_or_else(|| match open {
        true => "the service days between its turning and its reading, in her log".into(),
        false => "a tire read as it was left, and read again after it ran".into(),
    })
}

/// The most service days of a year, of the last three whose every day somebody vouched for.
pub(super) fn days_of_a_year(book: &Book, id: LocomotiveId, on: Date) -> Result<usize, String> {
    let years = (1..=3).map(|back| on.year() - back);
    let each = years.filter_map(|year| {
        let days = of_year(book, id, year, on, own_service_days);
        (days.least == days.most).then_some(days.most.len())
    });
    each.max()
        .filter(|days| *days > 0)
        .ok_or_else(|| "a year of her log that is closed, of the last three".to_owned())
}
