//! The squares of a survey of a sheet: read out of what is kept, taken together in blocks, and one place followed through
//! the surveys of the years.

use jiff::civil::Date;
use jiff::{SpanRound, Unit as Span};
use measure::Length;
use physics::law::boiler_least_wall::FEWEST;
use physics::law::boiler_survey::{MOST, asked_for, fitted, in_all};

use crate::book::{Boiler, Survey};

/// A square.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell {
    /// Read, in inches.
    Read(f64),
    /// Not read.
    NotRead,
    /// No plate there.
    NoPlate,
}

/// A survey as squares.
#[derive(Debug, Clone, PartialEq)]
pub struct Squares {
    /// Each row's squares.
    pub rows: Vec<Vec<Cell>>,
}

impl Squares {
    /// The squares of a survey as kept.
    pub fn of(survey: &Survey) -> Squares {
        let metric = survey.unit == "mm";
        let cell = |token: &str| match token {
            "x" => Cell::NoPlate,
            token => token.parse::<f64>().map_or(Cell::NotRead, |value| {
                let length = if metric {
                    Length::mm(value)
                } else {
                    Length::inches(value)
                };
                Cell::Read(length.to_inches())
            }),
        };
        let row = |text: &String| text.split(' ').map(cell).collect();
        Squares {
            rows: survey.cells.iter().map(row).collect(),
        }
    }

    /// What was read on a square, inches.
    pub fn get(&self, row: usize, column: usize) -> Option<f64> {
        match self.rows.get(row)?.get(column)? {
            Cell::Read(inches) => Some(*inches),
            _ => None,
        }
    }

    /// Every square with its row and column.
    pub fn each(&self) -> impl Iterator<Item = (usize, usize, Cell)> + '_ {
        let rows = self.rows.iter().enumerate();
        rows.flat_map(|(row, cells)| {
            cells
                .iter()
                .enumerate()
                .map(move |(column, cell)| (row, column, *cell))
        })
    }

    /// The thinnest square read: inches, row, column.
    pub fn thinnest(&self) -> Option<(f64, usize, usize)> {
        let read = self.each().filter_map(|(row, column, cell)| match cell {
            Cell::Read(inches) => Some((inches, row, column)),
            _ => None,
        });
        read.min_by(|one, other| one.0.total_cmp(&other.0))
    }

    /// How many squares are read, not read, and without plate.
    pub fn counts(&self) -> [usize; 3] {
        let mut counts = [0; 3];
        for (_, _, cell) in self.each() {
            let at = match cell {
                Cell::Read(_) => 0,
                Cell::NotRead => 1,
                Cell::NoPlate => 2,
            };
            if let Some(count) = counts.get_mut(at) {
                *count += 1;
            }
        }
        counts
    }

    /// The squares in inches, row by row; nothing for one that has no reading.
    fn read_rows(&self) -> Vec<Vec<Option<f64>>> {
        let read = |cell: &Cell| match cell {
            Cell::Read(inches) => Some(*inches),
            _ => None,
        };
        let rows = self.rows.iter();
        rows.map(|row| row.iter().map(read).collect()).collect()
    }

    /// The middle of the readings round a square, itself left out.
    pub fn around(&self, row: usize, column: usize) -> Option<f64> {
        let mut near = [0.0; 8];
        let mut count = 0;
        for down in 0..3 {
            for across in 0..3 {
                if (down, across) != (1, 1)
                    && let (Some(row), Some(column)) = (
                        (row + down).checked_sub(1),
                        (column + across).checked_sub(1),
                    )
                    && let Some(inches) = self.get(row, column)
                    && let Some(place) = near.get_mut(count)
                {
                    *place = inches;
                    count += 1;
                }
            }
        }
        let near = near.get_mut(..count)?;
        (count >= 3).then(|| middle(near))
    }
}

/// The middle of some values.
pub fn middle(all: &mut [f64]) -> f64 {
    all.sort_unstable_by(f64::total_cmp);
    let half = all.len() / 2;
    let at = |at: usize| all.get(at).copied().unwrap_or(f64::NAN);
    if all.len() % 2 == 1 {
        at(half)
    } else {
        (at(half.saturating_sub(1)) + at(half)) / 2.0
    }
}

/// Years of 365.25 days between two days.
pub fn years(from: Date, to: Date) -> f64 {
    let span = from.until((Span::Day, to)).ok();
    let days = span.and_then(|span| {
        span.round(SpanRound::new().largest(Span::Day).relative(from))
            .ok()
    });
    days.map_or(0.0, |days| f64::from(days.get_days()) / 365.25)
}

/// What blocks of a survey were searched.
#[derive(Debug, Clone, PartialEq)]
pub struct Searched {
    /// The thinnest reading of each, inches.
    pub minima: Vec<f64>,
    /// How many blocks the plate would make in all, were all of it searched as the spots were.
    pub all: f64,
}

impl Searched {
    /// The readings as an argument of a sheet.
    pub fn listed(&self) -> String {
        let each = self.minima.iter().map(|inches| format!("{inches:.4} in"));
        each.collect::<Vec<_>>().join(", ")
    }
}

/// The blocks of squares that were read whole: the largest blocks of which there are thirty, no more than a sheet takes.
///
/// # Errors
/// What is missing for it, as words.
pub fn searched(survey: &Survey) -> Result<Searched, String> {
    let squares = Squares::of(survey);
    let size = |text: &Option<String>, what: &str| -> Result<Length, String> {
        let text = text.as_deref().ok_or_else(|| what.to_owned())?;
        let read = measure::entered_with_unit(text, measure::Dimension::Length)
            .map_err(|e| e.to_string())?;
        Ok(Length::m(read.si))
    };
    let side = size(&survey.square, "the side of a square")?;
    let spot = size(&survey.spot, "the width of the spot that one reading sees")?;
    let (wide, minima) = fitted(&squares.read_rows()).ok_or_else(|| {
        format!("{FEWEST} blocks of squares read whole; there are fewer, or more than {MOST}")
    })?;
    let [read, not_read, _] = squares.counts();
    let all = asked_for(in_all(read + not_read, wide, side, spot), minima.len());
    Ok(Searched { minima, all })
}

/// One square through the surveys: the thinnest of the newest, and what each survey by a day read there.
#[derive(Debug, Clone, PartialEq)]
pub struct Followed {
    /// The names of its row and its column.
    pub square: (String, String),
    /// The day of each survey that read it and what it read, inches; the oldest first, the newest survey last.
    pub read: Vec<(Date, f64)>,
}

/// Follows the thinnest square of the newest survey of a component by a day; nothing where there is none.
pub fn followed(boiler: &Boiler, component: &str, on: Date) -> Option<Followed> {
    let all: Vec<_> = boiler.surveys_of(component, on).collect();
    let newest = all.last()?;
    let (_, row, column) = Squares::of(newest).thinnest()?;
    let square = (
        newest.rows.get(row)?.clone(),
        newest.columns.get(column)?.clone(),
    );
    let read = all.iter().filter_map(|survey| {
        let row = survey.rows.iter().position(|it| *it == square.0)?;
        let column = survey.columns.iter().position(|it| *it == square.1)?;
        Some((survey.on, Squares::of(survey).get(row, column)?))
    });
    let read = read.collect();
    Some(Followed { square, read })
}
