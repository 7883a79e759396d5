//! A thickness survey read: its thinnest square, the squares to be looked at again, the pairing with the survey before it,
//! the rate and the life, the day of the next one, and an estimate of the thinnest place that nobody read.
//!
//! Nothing here raises a pressure: the estimate only says where measuring was too thin.

use jiff::civil::Date;
use jiff::{SpanRound, Unit as Span};
use measure::{House, Length};
use physics::law::boiler_remaining_life::{Reading, life, rate};
use physics::law::boiler_survey::{FEWEST, MOST, asked_for, fitted, in_all};
use physics::{Basis, Given, Worked};
use rules::Rulebook;

use super::line_of;
use crate::Refusal;
use crate::book::{Book, LocomotiveId, Survey};
use crate::clock::due;

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

    fn get(&self, row: usize, column: usize) -> Option<f64> {
        match self.rows.get(row)?.get(column)? {
            Cell::Read(inches) => Some(*inches),
            _ => None,
        }
    }

    fn each(&self) -> impl Iterator<Item = (usize, usize, Cell)> + '_ {
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
    fn around(&self, row: usize, column: usize) -> Option<f64> {
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

fn middle(all: &mut [f64]) -> f64 {
    all.sort_unstable_by(f64::total_cmp);
    let half = all.len() / 2;
    let at = |at: usize| all.get(at).copied().unwrap_or(f64::NAN);
    if all.len() % 2 == 1 {
        at(half)
    } else {
        (at(half.saturating_sub(1)) + at(half)) / 2.0
    }
}

/// A square to be looked at again: row, column, why. It is never dropped.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doubtful {
    /// Its row.
    pub row: usize,
    /// Its column.
    pub column: usize,
    /// Why.
    pub why: Why,
}

/// Why a reading is doubtful.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Thicker than the sheet as built.
    OverAsBuilt,
    /// Far from those round it.
    FarFromNeighbors,
    /// Thicker than at the survey before.
    Grown,
}

/// How many times the usual scatter round its neighbors makes a reading doubtful. Common practice, without a source.
const FAR: f64 = 6.0;
/// A difference that an ultrasonic reading can have by itself, in inches; common practice, without a source.
const ITSELF: f64 = 0.010;

/// What the squares come to beside the survey before.
#[derive(Debug, Clone, PartialEq)]
pub struct Paired {
    /// The day of the survey before.
    pub before: Date,
    /// Squares read in both.
    pub squares: usize,
    /// The greatest loss: inches, row, column.
    pub worst: (f64, usize, usize),
    /// The middle loss.
    pub usual: f64,
    /// The years between.
    pub years: f64,
    /// The square that comes first to the thickness required: row, column, loss a year, years left from this survey.
    pub first: Option<(usize, usize, f64, f64)>,
}

/// A survey read.
#[derive(Debug, Clone, PartialEq)]
pub struct SurveyRead {
    /// Its squares.
    pub squares: Squares,
    /// Read, not read, without plate.
    pub counts: [usize; 3],
    /// Thinnest: inches, row, column.
    pub thinnest: Option<(f64, usize, usize)>,
    /// The thickness that the set pressure asks, inches, where it can be told.
    pub required: Option<f64>,
    /// Readings to be looked at again.
    pub doubtful: Vec<Doubtful>,
    /// Beside the survey before; why not, where not.
    pub paired: Result<Paired, String>,
    /// The last day by the law, where a clock says one.
    pub legal: Option<Date>,
    /// When to survey again at the latest: half the life, never later than the law's day; what is missing, where it cannot be told.
    pub next: Result<Date, String>,
    /// The estimate of the thinnest place nobody read, inches, with blocks fitted and blocks in all; why not, where not.
    pub unread: Result<(f64, usize, f64), String>,
}

/// Reads the newest survey of a component on a day; nothing where there is none.
///
/// # Errors
/// As [`super::boiler_card`].
pub fn survey_read(
    book: &Book,
    rules: &Rulebook,
    id: LocomotiveId,
    component: &str,
    on: Date,
) -> Result<Option<(Survey, SurveyRead)>, Refusal> {
    let Some(boiler) = book.boilers.get(&id) else {
        return Ok(None);
    };
    let mut all: Vec<&Survey> = boiler.surveys_of(component, on).collect();
    let Some(newest) = all.pop() else {
        return Ok(None);
    };
    let squares = Squares::of(newest);
    let line = line_of(book, rules, id, component, on)?;
    let required = line.and_then(|line| line.required);
    let built = boiler
        .component(component)
        .and_then(|it| it.fact("as_built", on))
        .and_then(|fact| {
            Some(
                measure::entered_with_unit(&fact.says, measure::Dimension::Length)
                    .ok()?
                    .si,
            )
        })
        .map(|si| Length::m(si).to_inches());
    let before = all.pop();
    let old = before.map(Squares::of);
    let doubtful = doubtful(&squares, built, old.as_ref());
    let paired = match (before, &old) {
        (Some(before), Some(old)) if alike(before, newest) => {
            pair(before, newest, old, &squares, required)
        }
        (Some(_), _) => Err("the survey before has other rows or columns".into()),
        (None, _) => Err("an earlier survey on the same squares".into()),
    };
    let clocks = due(book, rules, id, on)?;
    // A clock says the first day that she stands; the survey is held by the day before it.
    let stands = clocks.iter().filter(|clock| clock.inspection == "1472");
    let stands = stands.filter_map(|clock| clock.stops_on).min();
    let legal = stands.map(|day| day.yesterday().unwrap_or(day));
    let next = next(&paired, newest.on, legal);
    let unread = unread(newest, &squares);
    let read = SurveyRead {
        counts: squares.counts(),
        thinnest: squares.thinnest(),
        squares,
        required,
        doubtful,
        paired,
        legal,
        next,
        unread,
    };
    Ok(Some((newest.clone(), read)))
}

fn alike(one: &Survey, other: &Survey) -> bool {
    one.rows == other.rows && one.columns == other.columns
}

fn doubtful(squares: &Squares, built: Option<f64>, old: Option<&Squares>) -> Vec<Doubtful> {
    let mut away = Vec::new();
    for (row, column, cell) in squares.each() {
        if let (Cell::Read(inches), Some(around)) = (cell, squares.around(row, column)) {
            away.push((row, column, (inches - around).abs()));
        }
    }
    let mut sizes: Vec<f64> = away.iter().map(|it| it.2).collect();
    let usual = if sizes.is_empty() {
        0.0
    } else {
        middle(&mut sizes)
    };
    let far = (FAR * usual).max(ITSELF);
    let mut all: Vec<Doubtful> = away
        .into_iter()
        .filter(|it| it.2 > far)
        .map(|(row, column, _)| Doubtful {
            row,
            column,
            why: Why::FarFromNeighbors,
        })
        .collect();
    for (row, column, cell) in squares.each() {
        let Cell::Read(inches) = cell else { continue };
        if built.is_some_and(|built| inches > built) {
            all.push(Doubtful {
                row,
                column,
                why: Why::OverAsBuilt,
            });
        }
        if old
            .and_then(|old| old.get(row, column))
            .is_some_and(|was| inches > was + ITSELF)
        {
            all.push(Doubtful {
                row,
                column,
                why: Why::Grown,
            });
        }
    }
    all
}

/// Years of 365.25 days between two days.
fn years(from: Date, to: Date) -> f64 {
    let span = from.until((Span::Day, to)).ok();
    let days = span.and_then(|span| {
        span.round(SpanRound::new().largest(Span::Day).relative(from))
            .ok()
    });
    days.map_or(0.0, |days| f64::from(days.get_days()) / 365.25)
}

fn pair(
    before: &Survey,
    newest: &Survey,
    old: &Squares,
    new: &Squares,
    required: Option<f64>,
) -> Result<Paired, String> {
    let years = years(before.on, newest.on);
    if years <= 0.0 {
        return Err("an earlier survey, of another day".into());
    }
    let mut losses = Vec::new();
    let mut worst: Option<(f64, usize, usize)> = None;
    let mut first: Option<(usize, usize, f64, f64)> = None;
    for (row, column, cell) in new.each() {
        let (Cell::Read(now), Some(was)) = (cell, old.get(row, column)) else {
            continue;
        };
        let loss = was - now;
        losses.push(loss);
        if worst.is_none_or(|(most, ..)| loss > most) {
            worst = Some((loss, row, column));
        }
        let at = |inches: f64, age: f64| Reading {
            thickness: Length::inches(inches),
            age,
        };
        let yearly = rate(at(was, years), at(now, 0.0));
        let left = required
            .and_then(|required| life(Length::inches(now), Length::inches(required), yearly));
        if let Some(left) = left
            && first.is_none_or(|(.., least)| left < least)
        {
            first = Some((row, column, yearly.to_inches(), left));
        }
    }
    let worst = worst.ok_or("squares read in both surveys")?;
    Ok(Paired {
        before: before.on,
        squares: losses.len(),
        worst,
        usual: middle(&mut losses),
        years,
        first,
    })
}

/// Half of the life that is left, never later than the law's day.
fn next(paired: &Result<Paired, String>, on: Date, legal: Option<Date>) -> Result<Date, String> {
    let by_life = match paired {
        Err(why) => Err(why.clone()),
        Ok(paired) => match paired.first {
            None => {
                Err("the thickness that the set pressure asks, and a loss to reckon with".into())
            }
            Some((.., left)) => {
                // Whole days, rounded down; no plate lasts a thousand years.
                let days = (left.min(1000.0) / 2.0 * 365.25).floor() as i64;
                on.checked_add(jiff::Span::new().days(days))
                    .map_err(|e| e.to_string())
            }
        },
    };
    match (by_life, legal) {
        (Ok(day), Some(legal)) => Ok(day.min(legal)),
        (Ok(_), None) => Err("the law's own day, which no clock of hers says".into()),
        (Err(why), Some(legal)) => Err(format!("{why}; the law's day is {legal}")),
        (Err(why), None) => Err(why),
    }
}

/// The estimate of the thinnest place that nobody read, by blocks of squares that were read whole.
fn unread(survey: &Survey, squares: &Squares) -> Result<(f64, usize, f64), String> {
    let size = |text: &Option<String>, what: &str| -> Result<Length, String> {
        let text = text.as_deref().ok_or_else(|| what.to_owned())?;
        let read = measure::entered_with_unit(text, measure::Dimension::Length)
            .map_err(|e| e.to_string())?;
        Ok(Length::m(read.si))
    };
    let side = size(&survey.square, "the side of a square")?;
    let spot = size(&survey.spot, "the width of the spot that one reading sees")?;
    let rows: Vec<Vec<Option<f64>>> = squares.read_rows();
    let (wide, minima) = fitted(&rows).ok_or_else(|| {
        format!("{FEWEST} blocks of squares read whole; there are fewer, or more than {MOST}")
    })?;
    let [read, not_read, _] = squares.counts();
    let all = asked_for(in_all(read + not_read, wide, side, spot), minima.len());
    let list: Vec<String> = minima
        .iter()
        .map(|inches| format!("{inches:.4} in"))
        .collect();
    let given = |name: &str, text: String| Given {
        name: name.into(),
        text,
        basis: Basis::Reading("the survey".into()),
    };
    let given = [
        given("minima", list.join(", ")),
        given("blocks", format!("{all}")),
    ];
    let worked = physics::find("boiler.least_wall")
        .and_then(|entry| Worked::new(entry, &given, House::Inch));
    let worked = worked.map_err(|why| why.to_string())?;
    match worked.answer.result("least") {
        Some(physics::answer::Outcome::Si(si)) => {
            Ok((Length::m(*si).to_inches(), minima.len(), all))
        }
        _ => Err("an answer of the sheet boiler.least_wall".into()),
    }
}
