//! A thickness survey read: its thinnest square, the squares to be looked at again, the pairing with the survey before it,
//! the rate and the life, the day of the next one, and an estimate of the thinnest place that nobody read.
//!
//! Nothing here raises a pressure: the estimate only says where measuring was too thin.

use jiff::civil::Date;
use measure::{House, Length};
use physics::law::boiler_remaining_life::{Reading, life, rate};
use physics::{Basis, Given, Worked};
use rules::Rulebook;

use super::line_of;
use crate::Refusal;
use crate::book::{Boiler, Book, LocomotiveId, Survey};
use crate::clock::due;
use crate::locomotive::{Cell, Squares, middle, searched, years};

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
    let built = built(boiler, component, on);
    let before = all.pop();
    let old = before.map(Squares::of);
    let was = aligned(before, newest);
    let doubtful = doubtful(&squares, built, &was);
    let paired = match (before, &old) {
        (Some(before), Some(old)) if alike(before, newest) => {
            pair(before, newest, old, &squares, required)
        }
        (Some(_), _) => {
            Err("a survey before it on the same rows and columns; the last one has others".into())
        }
        (None, _) => Err("an earlier survey on the same squares".into()),
    };
    let clocks = due(book, rules, id, on)?;
    // A clock says the first day that she stands; the survey is held by the day before it.
    let stands = clocks.iter().filter(|clock| clock.inspection == "1472");
    let stands = stands.filter_map(|clock| clock.stops_on).min();
    let legal = stands.map(|day| day.yesterday().unwrap_or(day));
    let next = next(&paired, newest.on, legal);
    let unread = unread(newest);
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

/// The thickness of a sheet as built, in inches, where it is known.
fn built(boiler: &Boiler, component: &str, on: Date) -> Option<f64> {
    let fact = boiler.component(component)?.fact("as_built", on)?;
    let read = measure::entered_with_unit(&fact.says, measure::Dimension::Length).ok()?;
    Some(Length::m(read.si).to_inches())
}

/// What an earlier survey read on the squares of a newer one, found by the names of row and column, in inches.
fn aligned(before: Option<&Survey>, newer: &Survey) -> Vec<Vec<Option<f64>>> {
    let old = before.map(|before| (before, Squares::of(before)));
    let at = |names: &[String], name: &String| names.iter().position(|it| it == name);
    let of = |row: &String, column: &String| {
        let (before, squares) = old.as_ref()?;
        squares.get(at(&before.rows, row)?, at(&before.columns, column)?)
    };
    let row = |row: &String| newer.columns.iter().map(|column| of(row, column)).collect();
    newer.rows.iter().map(row).collect()
}

/// A survey while it is being read, beside the newest one in the book.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// The newest survey of the component.
    pub last: Option<Survey>,
    /// What it read on each square of this one, in inches.
    pub was: Vec<Vec<Option<f64>>>,
    /// The sheet as built, in inches, where it is known.
    pub built: Option<f64>,
    /// Squares to be looked at again, of those read so far.
    pub again: Vec<Doubtful>,
}

impl Beside {
    /// Over which reading a square is to be looked at again, whatever its neighbors read, in inches; and why.
    pub fn most(&self, row: usize, column: usize) -> Option<(f64, Why)> {
        let was = self.was.get(row).and_then(|row| *row.get(column)?);
        let grown = was.map(|was| (was + ITSELF, Why::Grown));
        let built = self.built.map(|built| (built, Why::OverAsBuilt));
        grown
            .into_iter()
            .chain(built)
            .min_by(|one, other| one.0.total_cmp(&other.0))
    }
}

/// Holds a survey that is being read beside the newest one of its component.
pub fn beside_last(book: &Book, id: LocomotiveId, so_far: &Survey) -> Beside {
    let boiler = book.boilers.get(&id);
    let last = boiler.and_then(|boiler| boiler.surveys_of(&so_far.component, so_far.on).last());
    let was = aligned(last, so_far);
    let built = boiler.and_then(|boiler| built(boiler, &so_far.component, so_far.on));
    Beside {
        again: doubtful(&Squares::of(so_far), built, &was),
        last: last.cloned(),
        was,
        built,
    }
}

fn doubtful(squares: &Squares, built: Option<f64>, was: &[Vec<Option<f64>>]) -> Vec<Doubtful> {
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
        if was
            .get(row)
            .and_then(|row| *row.get(column)?)
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
                rules::days_after(on, days).ok_or_else(|| "a day that a calendar has".into())
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
fn unread(survey: &Survey) -> Result<(f64, usize, f64), String> {
    let searched = searched(survey)?;
    let given = |name: &str, text: String| Given {
        name: name.into(),
        text,
        basis: Basis::Reading("the survey".into()),
    };
    let given = [
        given("minima", searched.listed()),
        given("blocks", format!("{}", searched.all)),
    ];
    let worked = physics::find("boiler.least_wall")
        .and_then(|entry| Worked::new(entry, &given, House::Inch));
    let worked = worked.map_err(|why| why.to_string())?;
    match worked.answer.result("least") {
        Some(physics::answer::Outcome::Si(si)) => Ok((
            Length::m(*si).to_inches(),
            searched.minima.len(),
            searched.all,
        )),
        _ => Err("an answer of the sheet boiler.least_wall".into()),
    }
}
