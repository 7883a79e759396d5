//! `boiler survey`: a survey of a sheet, typed row by row or read from a file, which is shown line by line first.
//!
//! Every survey is a batch of its own, so that `entry withdraw` takes it back whole.

use std::path::PathBuf;

use clap::Args;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use shop::book::{
    BatchId, BoilerSurveyed, EntryId, LocomotiveId, Meta, PersonId, Statement, Survey,
};
use shop::locomotive::{
    MOST_READINGS, admit_survey, admit_survey_head, engine, row_faults, take_survey,
};
use shop::ruled::boiler::{SurveyRead, survey_read};
use store::Receipt;

use super::boiler::{book_for, marks};
use super::boiler_map::text_of;
use super::import::mark;
use super::{pair, saved, wrap};
use crate::logfile::{self, Cell};
use crate::words::{boiler_map as of_map, survey as say};
use crate::{Answer, Context, Failure, Globals};

/// Enter a survey of a sheet, typed or from a file.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakeSurvey {
    /// Her number.
    pub engine: String,
    /// The component of her boiler.
    pub component: String,
    /// Rows as typed: name=readings with a space between; - where nothing was read, x where there is no plate.
    #[serde(default)]
    pub rows: Vec<String>,
    /// Names of the columns, a comma between; counted from 1 if left out.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub columns: String,
    /// A CSV or XLSX file instead: the first line names the columns, the first value of each line its row.
    #[arg(long, conflicts_with = "rows")]
    pub file: Option<PathBuf>,
    /// The sheet of a workbook that has several.
    #[arg(long)]
    pub sheet: Option<String>,
    /// The unit of every reading: in or mm.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub unit: String,
    /// The side of a square, such as 12in.
    #[arg(long)]
    pub square: Option<String>,
    /// The width of the spot that one reading sees, such as 3/8in.
    #[arg(long)]
    pub spot: Option<String>,
    /// Where the squares begin, who read them and with what.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub source: String,
    /// The gauge it was read with, if it is not said there.
    #[arg(long)]
    pub instrument: Option<String>,
    /// What the gauge was checked on before and after, and what it showed.
    #[arg(long)]
    pub checked: Option<String>,
    /// How warm the plate was.
    #[arg(long)]
    pub part_temperature: Option<String>,
    /// A word on a square: row,column=words.
    #[arg(long = "remark")]
    #[serde(default)]
    pub remarks: Vec<String>,
    /// Enter what a file holds. Without this a file is only shown.
    #[arg(long)]
    #[serde(default)]
    pub write: bool,
}

/// A line of a file: where it stands, the row it names, and what was read on it or all that is wrong with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its line in the file, from 1.
    pub place: u32,
    /// The row.
    pub row: String,
    /// Squares read, not read and without plate; else every fault.
    pub fate: Result<[usize; 3], Vec<String>>,
}

/// A file weighed against the book as it stood.
pub struct Plan {
    /// The file.
    pub file: String,
    /// Her number.
    pub engine: String,
    /// Its lines.
    pub lines: Vec<Line>,
    /// The survey as it would be entered, read beside the one before it; nothing while a line is refused.
    pub comes_to: Option<(Survey, SurveyRead)>,
    /// The newest survey of the component in the book by that day.
    pub last: Option<(Survey, SurveyRead)>,
    told: BoilerSurveyed,
    on: Date,
    seen: (Option<u64>, Option<u64>),
}

/// A survey as typed: names of the columns, and of each row its name and its squares.
type Typed = (Vec<String>, Vec<(String, String)>);

impl TakeSurvey {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match &self.file {
            Some(file) => {
                let (name, bytes) = super::import::read(file, logfile::MOST_BYTES)?;
                Plan::of_file(context, &name, &bytes, self)?.run(context, self.write)
            }
            None => self.take_typed(context),
        }
    }

    fn take_typed(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (columns, rows) = self.typed()?;
        let book = context.book_of(&self.engine)?;
        let (id, _) = engine(&book, &self.engine)?;
        let told = self.told(id, columns, rows)?;
        let receipt = enter(context, &self.engine, &told, |_| true)?.0;
        Ok(entered(&receipt, &self.engine, &told))
    }

    /// What is stated: the gauge, its check, the warmth of the plate and the words on squares stand in the source.
    fn told(
        &self,
        locomotive: LocomotiveId,
        columns: Vec<String>,
        rows: Vec<(String, String)>,
    ) -> Result<BoilerSurveyed, Failure> {
        let mut told = BoilerSurveyed {
            locomotive,
            component: self.component.trim().to_owned(),
            rows: rows.iter().map(|(name, _)| name.clone()).collect(),
            columns,
            cells: rows.into_iter().map(|(_, cells)| cells).collect(),
            unit: self.unit.trim().to_owned(),
            square: text_of(&self.square),
            spot: text_of(&self.spot),
            source: self.source.trim().to_owned(),
        };
        // Without a place where the squares begin nothing else makes a source.
        if !told.source.is_empty() {
            let remarks = self.remarks(&told)?;
            told.source = say::source(
                &told.source,
                text_of(&self.instrument).as_deref(),
                text_of(&self.checked).as_deref(),
                text_of(&self.part_temperature).as_deref(),
                &remarks,
            );
        }
        Ok(told)
    }

    /// Words on squares: row, column and what was said; each names a square of the survey.
    fn remarks(&self, told: &BoilerSurveyed) -> Result<Vec<(String, String, String)>, Failure> {
        let lines = self.remarks.iter().flat_map(|typed| typed.lines());
        let lines = lines.filter(|typed| !typed.trim().is_empty());
        let read = lines.map(|typed| {
            let (square, words) = pair(typed, say::A_REMARK)?;
            let named = square
                .split_once(',')
                .map(|(row, column)| (row.trim(), column.trim()));
            let known = named.filter(|(row, column)| {
                told.rows.iter().any(|it| it == row) && told.columns.iter().any(|it| it == column)
            });
            match known {
                Some((row, column)) => Ok((row.to_owned(), column.to_owned(), words)),
                None => Err(Failure::Input(say::no_square(typed))),
            }
        });
        read.collect()
    }

    fn typed(&self) -> Result<Typed, Failure> {
        let mut rows = Vec::new();
        for typed in self
            .rows
            .iter()
            .flat_map(|typed| typed.lines())
            .filter(|line| !line.trim().is_empty())
        {
            let (name, readings) = pair(typed, of_map::A_ROW)?;
            rows.push((name, squares(&readings).join(" ")));
        }
        let wide = rows
            .first()
            .map_or(0, |(_, cells)| cells.split(' ').count());
        let named = names(&self.columns);
        let columns = if named.is_empty() {
            (1..=wide).map(|at| at.to_string()).collect()
        } else {
            named
        };
        Ok((columns, rows))
    }
}

/// The squares of a row as typed, with blanks, commas or semicolons between.
pub fn squares(typed: &str) -> Vec<&str> {
    let tokens = typed.split([' ', ',', ';', '\t']);
    tokens.filter(|it| !it.is_empty()).collect()
}

/// Names with a comma between; `1..12` stands for all numbers from the one to the other.
pub fn names(typed: &str) -> Vec<String> {
    let names = typed.split(',').map(str::trim);
    let each = names.filter(|it| !it.is_empty()).flat_map(|name| {
        let ends = name.split_once("..");
        let ends = ends.and_then(|(a, b)| Some((a.parse::<u32>().ok()?, b.parse::<u32>().ok()?)));
        match ends {
            Some((from, to)) if from <= to && to - from < 1000 => {
                (from..=to).map(|it| it.to_string()).collect()
            }
            _ => vec![name.to_owned()],
        }
    });
    each.collect()
}

/// Enters a survey as a batch of its own, while the book stands as it was `seen`.
fn enter(
    context: &mut Context,
    number: &str,
    told: &BoilerSurveyed,
    seen: impl Fn((Option<u64>, Option<u64>)) -> bool,
) -> Result<(Receipt, BatchId), Failure> {
    let id = match context.globals().id {
        Some(id) => id,
        None => EntryId(context.id()?),
    };
    // The batch bears the number of its entry: one that is sent again is the same batch.
    let batch = context.globals().batch.unwrap_or(BatchId(id.0));
    context.speak(Globals {
        id: Some(id),
        batch: Some(batch),
        ..context.globals().clone()
    });
    let receipt = context.save_of(number, |book, by, on| {
        if !seen(marks(book, told.locomotive)) {
            return Err(shop::Refusal::refused(crate::words::boiler::CHANGED)
                .todo(crate::words::boiler::LOOK_AGAIN));
        }
        take_survey(book, told.clone(), by, on)
    })?;
    Ok((receipt, batch))
}

fn entered(receipt: &Receipt, number: &str, told: &BoilerSurveyed) -> Answer {
    let shown = of_map::taken(number, &told.component, told.rows.len(), told.columns.len());
    let squares = told.rows.len() * told.columns.len();
    saved(
        receipt,
        shown,
        json!({ "squares": squares, "written": true }),
    )
}

impl Plan {
    /// Weighs a file against the book of a context, on the day of the context. Nobody need speak yet.
    ///
    /// # Errors
    /// Input: it does not read as a table, there is no such component, or what is told of the survey does not do.
    /// Refused: whoever speaks may not inspect.
    pub fn of_file(
        context: &mut Context,
        file: &str,
        bytes: &[u8],
        take: &TakeSurvey,
    ) -> Result<Plan, Failure> {
        let (on, rules) = (context.on()?, context.rules()?);
        let component = take.component.trim();
        let mut book = book_for(context, &take.engine, Some(component))?;
        let (id, kept) = engine(&book, &take.engine)?;
        let number = kept.number.clone();
        let (columns, rows) = table(file, bytes, take.sheet.as_deref())?;
        let named = |rows: &[(u32, String, Row)]| -> Vec<(String, String)> {
            let cells = |row: &Row| row.clone().unwrap_or_default();
            rows.iter()
                .map(|(_, name, row)| (name.clone(), cells(row)))
                .collect()
        };
        let told = take.told(id, columns, named(&rows))?;
        let twice = |at: usize, name: &str| rows.iter().take(at).any(|(_, known, _)| known == name);
        let head = BoilerSurveyed {
            rows: rows
                .iter()
                .enumerate()
                .filter(|(at, (_, name, _))| !twice(*at, name) && !name.is_empty())
                .map(|(_, (_, name, _))| name.clone())
                .collect(),
            ..told.clone()
        };
        admit_survey_head(&book, &head)?;
        let weighed = rows.iter().enumerate().map(|(at, (place, name, row))| {
            let mut faults = Vec::new();
            if name.is_empty() {
                faults.push(say::NO_NAME.to_owned());
            } else if twice(at, name) {
                faults.push(say::row_twice(name));
            }
            let counts = match row {
                Err(all) => {
                    faults.extend(all.iter().cloned());
                    [0; 3]
                }
                Ok(cells) => {
                    faults.extend(row_faults(name, cells, &told.columns, &told.unit));
                    counted(cells)
                }
            };
            Line {
                place: *place,
                row: name.clone(),
                fate: if faults.is_empty() {
                    Ok(counts)
                } else {
                    Err(faults)
                },
            }
        });
        let lines: Vec<Line> = weighed.collect();
        let last = survey_read(&book, rules, id, component, on)?;
        let seen = marks(&book, id);
        let mut plan = Plan {
            file: file.to_owned(),
            engine: number,
            lines,
            comes_to: None,
            last,
            told,
            on,
            seen,
        };
        if plan.refused() > 0 {
            return Ok(plan);
        }
        // A dry run needs no name: what it would enter is nobody's yet.
        let told = match context.by() {
            Ok(name) => {
                let by = shop::locomotive::person(&book, name)?.0;
                take_survey(&book, plan.told.clone(), by, on)?;
                context.own_act()?;
                plan.told.clone()
            }
            Err(_) => admit_survey(&book, plan.told.clone())?,
        };
        // As if it were the newest of its day.
        let meta = Meta {
            seq: u64::MAX,
            id: EntryId(0),
            batch: None,
            person: PersonId(0),
            done_on: on,
        };
        book.apply(meta, &Statement::BoilerSurveyed(told))
            .map_err(|why| {
                shop::Refusal::refused(crate::words::boiler::cannot_take(&why.to_string()))
            })?;
        plan.comes_to = survey_read(&book, rules, id, component, on)?;
        Ok(plan)
    }

    /// How many lines are refused.
    pub fn refused(&self) -> usize {
        self.lines.iter().filter(|line| line.fate.is_err()).count()
    }

    /// Squares read, not read and without plate, of lines that read.
    pub fn counts(&self) -> [usize; 3] {
        let read = self.lines.iter().filter_map(|line| line.fate.as_ref().ok());
        read.fold([0; 3], |[a, b, c], [x, y, z]| [a + x, b + y, c + z])
    }

    /// Whether the book has this very survey already: the same day, the same squares.
    pub fn again(&self) -> bool {
        self.last.as_ref().is_some_and(|(last, _)| {
            last.on == self.on
                && last.unit == self.told.unit
                && (&last.rows, &last.columns, &last.cells)
                    == (&self.told.rows, &self.told.columns, &self.told.cells)
        })
    }

    /// The component.
    pub fn component(&self) -> &str {
        &self.told.component
    }

    /// The day it was read.
    pub fn day(&self) -> Date {
        self.on
    }

    /// What it would be, in a line.
    pub fn shown(&self) -> String {
        of_map::taken(
            &self.engine,
            &self.told.component,
            self.told.rows.len(),
            self.told.columns.len(),
        )
    }

    /// A mark of every line's fate, the same whenever they are the same: what somebody was shown.
    pub fn mark(&self) -> String {
        let lines = self.lines.iter().map(|line| (line.place, line.told()));
        // What it comes to hangs on the book too.
        mark(lines.chain([(0, format!("{:?}", self.seen))]))
    }

    /// Enters it, as one batch. A line that is refused holds back all: a survey without one of its rows would be another.
    ///
    /// # Errors
    /// Input: lines are refused. Refused: her boiler was written of since it was weighed, or the survey is in the book.
    pub fn save(&self, context: &mut Context) -> Result<(Receipt, BatchId), Failure> {
        if self.refused() > 0 {
            return Err(Failure::Input(say::held_back(self.refused())));
        }
        if self.again() {
            return Err(shop::Refusal::refused(say::AGAIN).into());
        }
        context.speak(Globals {
            on: Some(self.on),
            ..context.globals().clone()
        });
        let seen = self.seen;
        enter(context, &self.engine, &self.told, |now| now == seen)
    }

    fn run(&self, context: &mut Context, write: bool) -> Result<Answer, Failure> {
        let mut text = format!("{}\n", self.file);
        for line in &self.lines {
            let head = format!("  {:>5}  {:<12} ", line.place, line.row);
            let told = wrap(&line.told(), head.chars().count(), 118);
            text.push_str(&format!("{head}{told}\n"));
        }
        let [read, not_read, no_plate] = self.counts();
        text.push_str(&format!(
            "{}; {}\n",
            self.shown(),
            say::counts(self.counts())
        ));
        if let Some((survey, read)) = &self.comes_to {
            for said in of_map::survey(survey, read) {
                text.push_str(&format!("  {}\n", wrap(&said, 2, 118)));
            }
        }
        let value = json!({
            "file": self.file, "engine": self.engine, "component": self.told.component, "on": self.on.to_string(),
            "squares": self.told.rows.len() * self.told.columns.len(), "read": read, "not_read": not_read, "no_plate": no_plate,
            "refused": self.refused(), "written": false,
            "lines": self.lines.iter().map(|line| {
                json!({ "line": line.place, "row": line.row, "faults": line.fate.as_ref().err() })
            }).collect::<Vec<Value>>(),
        });
        let refused = self.refused() > 0;
        if refused && write {
            return Err(Failure::Input(format!(
                "{text}{}",
                say::held_back(self.refused())
            )));
        }
        if !write {
            text.push_str(if refused {
                say::NOT_AS_IT_STANDS
            } else {
                of_map::NOTHING_CHANGED
            });
            let code = if refused { 2 } else { 0 };
            return Ok(Answer {
                text,
                json: value,
                code,
            });
        }
        let (receipt, _) = self.save(context)?;
        Ok(entered(&receipt, &self.engine, &self.told))
    }
}

impl Line {
    /// What becomes of it, in words.
    pub fn told(&self) -> String {
        match &self.fate {
            Ok(counts) => say::counts(*counts),
            Err(faults) => say::refused(faults),
        }
    }
}

fn counted(cells: &str) -> [usize; 3] {
    cells
        .split(' ')
        .fold([0; 3], |[read, not, none], token| match token {
            "-" => [read, not + 1, none],
            "x" => [read, not, none + 1],
            _ => [read + 1, not, none],
        })
}

/// The squares of a row as the form has them, or all that is wrong with the row as a table.
type Row = Result<String, Vec<String>>;
/// The names of the columns, and of each line its place in the file, its row's name and its squares.
type Table = (Vec<String>, Vec<(u32, String, Row)>);

/// The table of a file: names of the columns, and of each line its place, its row's name and its squares.
fn table(file: &str, bytes: &[u8], sheet: Option<&str>) -> Result<Table, Failure> {
    let all = logfile::rows(file, bytes, sheet)?;
    if all.len() > MOST_READINGS {
        return Err(Failure::Input(say::too_long(file, MOST_READINGS)));
    }
    let mut all = all.iter().filter(|row| !logfile::blank(row));
    let heading = all
        .next()
        .ok_or_else(|| Failure::Input(of_map::empty_file(file)))?;
    if let Some(why) = &heading.wrong {
        return Err(Failure::Input(of_map::wrong_line(file, heading.place, why)));
    }
    let mut columns: Vec<String> = heading.cells.iter().skip(1).map(Cell::written).collect();
    while columns.last().is_some_and(String::is_empty) {
        columns.pop();
    }
    let rows = all.map(|row| {
        let name = row.cells.first().map(Cell::written).unwrap_or_default();
        let mut faults: Vec<String> = row.wrong.iter().cloned().collect();
        let mut tokens = Vec::with_capacity(columns.len());
        for (at, cell) in row.cells.iter().skip(1).enumerate() {
            match (columns.get(at), cell) {
                (None, Cell::Empty) => {}
                (None, Cell::Text(text)) if text.trim().is_empty() => {}
                (None, _) if row.wrong.is_some() => {}
                (None, _) => faults.push(say::beyond(columns.len(), &cell.written())),
                (Some(_), Cell::Empty) => tokens.push("-".to_owned()),
                (Some(column), Cell::Text(_) | Cell::Number(_)) => match cell.written() {
                    said if said.is_empty() => tokens.push("-".to_owned()),
                    said if said.contains(' ') => faults.push(say::no_reading(column, &said)),
                    said => tokens.push(said),
                },
                // A day, a yes or an error of the workbook is no square left out.
                (Some(column), _) => faults.push(say::no_value(column)),
            }
        }
        tokens.resize(columns.len().max(tokens.len()), "-".into());
        let squares = if faults.is_empty() {
            Ok(tokens.join(" "))
        } else {
            Err(faults)
        };
        (row.place, name, squares)
    });
    let rows: Vec<_> = rows.collect();
    Ok((columns, rows))
}
