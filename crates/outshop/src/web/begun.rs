//! A survey that is being read at the bench: its squares so far and how they are read, kept beside the book until it is
//! entered. Without scripts a page sends it line by line to here; with them it waits on the device
//! (`docs/decisions/0042-a-survey-at-the-bench.md`).

use std::collections::BTreeMap;
use std::sync::Arc;

use axum::Extension;
use axum::extract::{RawForm, State};
use axum::response::{IntoResponse, Redirect, Response};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use shop::book::{BoilerSurveyed, EntryId, PersonId, Survey};
use shop::locomotive::{admit_survey_head, engine, is_square};

use super::form::{self, fields, filled, value};
use super::page::{self, kit};
use super::{Desk, Reader, on_thread, trouble};
use crate::verb::boiler::Boiler;
use crate::verb::survey::{TakeSurvey, names, squares};
use crate::words::survey as say;
use crate::{Failure, Globals, Ids, Request};

/// Where the forms of the page go.
pub const PATH: &str = "/bench/survey";
/// What the form that begins one calls itself, for its fields to be filled in again.
pub const BEGIN: &str = "survey-begin";
/// The same of the form of one line, and of the one that takes a line as text.
pub const LINE: &str = "survey-line";
pub const TEXT: &str = "survey-text";

/// A survey that was begun.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Begun {
    /// The id its entry will have: one that is entered twice is saved once.
    pub id: String,
    /// The day it was begun on, which is the day it will have been read on.
    pub on: Date,
    /// Whether it is read down the columns, and not along the rows.
    pub down: bool,
    /// Names of the rows.
    pub rows: Vec<String>,
    /// Names of the columns.
    pub columns: Vec<String>,
    /// The squares as written, row by row; empty where nobody has said anything.
    pub cells: Vec<Vec<String>>,
    /// Words on squares, by row and column with a comma between.
    pub words: BTreeMap<String, String>,
    /// What is told of it beside its squares.
    pub take: TakeSurvey,
}

/// The path of the page of a component.
pub fn path(number: &str, component: &str) -> String {
    format!(
        "/bench/{}/boiler/{}/survey",
        kit::encode(number),
        kit::encode(component)
    )
}

impl Begun {
    /// What a person has begun on a page.
    pub fn of(desk: &Desk, person: PersonId, path: &str) -> Result<Option<Begun>, Failure> {
        let text = desk.keys()?.draft(person, path)?;
        Ok(text.and_then(|text| serde_json::from_str(&text).ok()))
    }

    fn keep(&self, desk: &Desk, person: PersonId, path: &str) -> Result<(), Failure> {
        let text = serde_json::to_string(self).map_err(|e| Failure::Machine(e.to_string()))?;
        Ok(desk.keys()?.keep_draft(person, path, &text)?)
    }

    /// How many lines it is read in: rows, or columns where it is read down them.
    pub fn lines(&self) -> usize {
        if self.down {
            self.columns.len()
        } else {
            self.rows.len()
        }
    }

    /// The name of a line.
    pub fn line_name(&self, line: usize) -> &str {
        let names = if self.down { &self.columns } else { &self.rows };
        names.get(line).map_or("", String::as_str)
    }

    /// The name of a square within its line: of its column, or of its row where it is read down the columns.
    pub fn across(&self, row: usize, column: usize) -> &str {
        let name = if self.down {
            self.rows.get(row)
        } else {
            self.columns.get(column)
        };
        name.map_or("", String::as_str)
    }

    /// The squares of a line, in the order in which they are read: row and column.
    pub fn squares(&self, line: usize) -> Vec<(usize, usize)> {
        if self.down {
            (0..self.rows.len()).map(|row| (row, line)).collect()
        } else {
            (0..self.columns.len())
                .map(|column| (line, column))
                .collect()
        }
    }

    /// What stands on a square.
    pub fn cell(&self, row: usize, column: usize) -> &str {
        let cell = self.cells.get(row).and_then(|row| row.get(column));
        cell.map_or("", String::as_str)
    }

    /// The names of a square, as a word on it is kept under.
    pub fn square_name(&self, row: usize, column: usize) -> String {
        let name = |names: &[String], at: usize| names.get(at).cloned().unwrap_or_default();
        format!("{},{}", name(&self.rows, row), name(&self.columns, column))
    }

    /// Squares read, squares said not to be read or without plate, and all.
    pub fn counts(&self) -> [usize; 3] {
        let all = self.rows.len() * self.columns.len();
        let said = self.cells.iter().flatten().filter(|it| !it.is_empty());
        let (marks, read): (Vec<_>, Vec<_>) = said.partition(|it| matches!(it.as_str(), "-" | "x"));
        [read.len(), marks.len(), all]
    }

    /// The rows as a survey keeps them; a square of which nobody said anything was not read.
    fn texts(&self) -> Vec<String> {
        let row = |row: &Vec<String>| {
            let cells = row.iter().map(|it| if it.is_empty() { "-" } else { it });
            cells.collect::<Vec<_>>().join(" ")
        };
        self.cells.iter().map(row).collect()
    }

    /// It as a survey, to be held beside the one before.
    pub fn survey(&self) -> Survey {
        Survey {
            component: self.take.component.trim().to_owned(),
            rows: self.rows.clone(),
            columns: self.columns.clone(),
            cells: self.texts(),
            unit: self.take.unit.clone(),
            square: self.take.square.clone(),
            spot: self.take.spot.clone(),
            source: self.take.source.clone(),
            on: self.on,
            by: PersonId(0),
            entry: u64::MAX,
        }
    }

    /// What is asked of the book once it is all read.
    fn request(&self) -> Request {
        let rows = self.rows.iter().zip(self.texts());
        let words = self.words.iter().filter(|(_, words)| !words.is_empty());
        Request::Boiler(Boiler::Survey(TakeSurvey {
            rows: rows
                .map(|(name, cells)| format!("{name}={cells}"))
                .collect(),
            columns: self.columns.join(","),
            remarks: words
                .map(|(square, words)| format!("{square}={words}"))
                .collect(),
            ..self.take.clone()
        }))
    }
}

/// Does what a form of the page asks, then shows the page again: nothing of it is an entry but the last.
pub async fn act(
    State(desk): State<Arc<Desk>>,
    Extension(reader): Extension<Reader>,
    RawForm(body): RawForm,
) -> Response {
    on_thread(move || {
        let fields = fields(&body);
        let path = path(value(&fields, "engine"), value(&fields, "component"));
        match done(&desk, &reader, &fields, &path) {
            Ok(response) => response,
            Err(failure) => {
                let (why, status) = (failure.to_string(), trouble::status(&failure));
                let back = match filled(&fields, "line") {
                    Some(line) => format!("{path}?line={line}"),
                    None => path,
                };
                page::refused(&desk, &reader, &back, fields, why, status)
            }
        }
    })
    .await
}

fn done(
    desk: &Desk,
    reader: &Reader,
    fields: &[(String, String)],
    path: &str,
) -> Result<Response, Failure> {
    let go = |to: String| Ok(Redirect::to(&to).into_response());
    let verb = value(fields, "verb");
    if verb == BEGIN {
        begin(desk, reader, fields)?.keep(desk, reader.id, path)?;
        return go(path.to_string());
    }
    let begun = Begun::of(desk, reader.id, path)?;
    let mut begun = begun.ok_or_else(|| Failure::Input(say::NOTHING_BEGUN.into()))?;
    match verb {
        LINE | TEXT => {
            let line = value(fields, "line").parse().unwrap_or(usize::MAX);
            if line >= begun.lines() {
                return Err(Failure::Input(say::NO_LINE.into()));
            }
            if verb == TEXT {
                text(&mut begun, line, value(fields, "text"))?;
            } else {
                one_by_one(&mut begun, line, fields)?;
            }
            begun.keep(desk, reader.id, path)?;
            go(format!("{path}?line={}", (line + 1).min(begun.lines() - 1)))
        }
        "survey-enter" => {
            let mut context = desk.context(Some(&reader.name));
            let id: EntryId = begun
                .id
                .parse()
                .map_err(|_| Failure::Machine(say::NOTHING_BEGUN.into()))?;
            context.speak(Globals {
                id: Some(id),
                on: Some(begun.on),
                ..desk.globals(Some(&reader.name))
            });
            let answer = begun.request().run(&mut context)?;
            desk.keys()?.end_draft(reader.id, path)?;
            let to = format!(
                "/engine/{}/boiler/{}",
                kit::encode(&begun.take.engine),
                kit::encode(&begun.take.component)
            );
            Ok(form::went(desk, reader, &answer, &to))
        }
        "survey-drop" => {
            if value(fields, "sure") != "yes" {
                return Err(Failure::Input(say::NOT_SURE.into()));
            }
            desk.keys()?.end_draft(reader.id, path)?;
            go(path.to_string())
        }
        _ => Err(Failure::Input(crate::words::form::NO_VERB.into())),
    }
}

fn begin(desk: &Desk, reader: &Reader, fields: &[(String, String)]) -> Result<Begun, Failure> {
    let told = |name: &str| filled(fields, name);
    let down = match value(fields, "direction") {
        "along" => false,
        "down" => true,
        _ => return Err(Failure::Input(say::NO_DIRECTION.into())),
    };
    let take = TakeSurvey {
        engine: told("engine").unwrap_or_default(),
        component: told("component").unwrap_or_default(),
        unit: told("unit").unwrap_or_default(),
        square: told("square"),
        spot: told("spot"),
        source: told("source").unwrap_or_default(),
        instrument: told("instrument"),
        checked: told("checked"),
        part_temperature: told("part_temperature"),
        ..TakeSurvey::default()
    };
    let (rows, columns) = (
        names(value(fields, "rows")),
        names(value(fields, "columns")),
    );
    if let Some(name) = rows.iter().chain(&columns).find(|name| name.contains('=')) {
        return Err(Failure::Input(say::no_name(name)));
    }
    let mut context = desk.context(Some(&reader.name));
    let book = context.book_of(&take.engine)?;
    let (id, _) = engine(&book, &take.engine)?;
    let head = BoilerSurveyed {
        locomotive: id,
        component: take.component.clone(),
        rows: rows.clone(),
        columns: columns.clone(),
        cells: Vec::new(),
        unit: take.unit.clone(),
        square: take.square.clone(),
        spot: take.spot.clone(),
        source: take.source.clone(),
    };
    admit_survey_head(&book, &head)?;
    Ok(Begun {
        id: EntryId(Ids::Random.draw()?).to_string(),
        on: context.on()?,
        down,
        cells: vec![vec![String::new(); columns.len()]; rows.len()],
        rows,
        columns,
        words: BTreeMap::new(),
        take,
    })
}

/// Takes a line as text: as many squares as it has.
fn text(begun: &mut Begun, line: usize, text: &str) -> Result<(), Failure> {
    let typed = squares(text);
    let places = begun.squares(line);
    if typed.len() != places.len() {
        return Err(Failure::Input(say::not_so_many(typed.len(), places.len())));
    }
    let said = places
        .into_iter()
        .zip(typed.iter().map(|it| (*it).to_owned()));
    write(begun, said.collect())
}

/// Takes a line square by square, with a word on any.
fn one_by_one(begun: &mut Begun, line: usize, fields: &[(String, String)]) -> Result<(), Failure> {
    let places = begun.squares(line);
    let at = |name: &str, n: usize| value(fields, &format!("{name}:{n}")).trim().to_owned();
    let said = places
        .iter()
        .enumerate()
        .map(|(n, place)| (*place, at("cell", n)));
    write(begun, said.collect())?;
    for (n, (row, column)) in places.into_iter().enumerate() {
        let (square, words) = (begun.square_name(row, column), at("word", n));
        if words.is_empty() {
            begun.words.remove(&square);
        } else {
            begun.words.insert(square, words);
        }
    }
    Ok(())
}

/// Writes squares down; one that does not read holds back all of its line, which comes back as it was filled in.
fn write(begun: &mut Begun, said: Vec<((usize, usize), String)>) -> Result<(), Failure> {
    let wrong = said
        .iter()
        .filter(|(_, token)| !token.is_empty() && !is_square(token, &begun.take.unit));
    let wrong: Vec<String> = wrong
        .map(|((row, column), token)| {
            let name = |names: &[String], at: usize| names.get(at).cloned().unwrap_or_default();
            say::wrong_square(
                token,
                &name(&begun.rows, *row),
                &name(&begun.columns, *column),
            )
        })
        .collect();
    if !wrong.is_empty() {
        return Err(Failure::Input(say::line_refused(&wrong)));
    }
    for ((row, column), token) in said {
        if let Some(cell) = begun.cells.get_mut(row).and_then(|row| row.get_mut(column)) {
            *cell = token;
        }
    }
    Ok(())
}
