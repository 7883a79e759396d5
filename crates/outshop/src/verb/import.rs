//! `steam import` and `steam days`: lines of a log that come in many at once, weighed first and saved when told to.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::Args;
use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::Refusal;
use shop::book::{BatchId, Book, DaySet, FireId, LocomotiveId, Statement, Stood};
use shop::clock::{Fate, LogLine, Unread, Weighed, weigh};
use shop::locomotive::engine;
use store::Receipt;

use super::{date, saved};
use crate::logfile::{self, Order, Told};
use crate::words::log as say;
use crate::{Answer, Context, Failure};

/// Show what a log in a CSV or XLSX file would add, line by line; with --write, add it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Import {
    /// The file. Its columns are named by words such as engine, date, fire lit, pressure up, fire out, pressure
    /// gone, miles, offered for use, service day, in any order.
    pub file: PathBuf,
    /// The engine of lines that name none.
    #[arg(long)]
    pub engine: Option<String>,
    /// In which order its dates are written, where they do not begin with the year.
    #[arg(long, value_enum)]
    pub dates: Option<Order>,
    /// The sheet of a workbook that has several.
    #[arg(long)]
    pub sheet: Option<String>,
    /// Save it. Without this nothing is changed.
    #[arg(long)]
    #[serde(default)]
    pub write: bool,
    /// Save the other lines where some are refused; else a single one holds back all.
    #[arg(long, requires = "write")]
    #[serde(default)]
    pub leave_out: bool,
}

/// Say that these were service days, from a plain list without times.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Days {
    /// Her number.
    pub engine: String,
    /// The days, such as 2026-05-02, or from one through another, 2026-05-02..2026-05-04.
    #[arg(required = true)]
    pub days: Vec<String>,
    /// The paper they were read from, or who remembers them.
    #[arg(long)]
    pub told: String,
    /// What they were: service-day where left out, cannot-tell, or no-service-day.
    #[arg(long)]
    pub stood: Option<String>,
}

/// What lines would do, weighed against the book as it stood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// The file, or the list.
    pub name: String,
    /// The lines with their fates.
    pub lines: Vec<Weighed>,
    /// Words over columns that are not read.
    pub not_read: Vec<String>,
    /// Lines passed over.
    pub passed_over: usize,
    seen: Seen,
    /// Of each engine the service days these lines would add, and the days they leave in doubt.
    pub adds: BTreeMap<String, (usize, usize)>,
}

/// The engines that lines name, and the newest entry of each when they were weighed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Seen(Vec<(LocomotiveId, u64)>);

impl Seen {
    /// Notes the engine of a line. One that nobody knows is told at her lines.
    pub(super) fn note(&mut self, book: &Book, number: &str) {
        if let Ok((id, kept)) = engine(book, number)
            && !self.0.iter().any(|(known, _)| *known == id)
        {
            self.0.push((id, kept.last));
        }
    }

    /// Saves what the lines state as one batch; nothing where they state nothing.
    ///
    /// # Errors
    /// Refused: one of these engines was written of since. Nothing is saved then.
    pub(super) fn save(
        &self,
        context: &mut Context,
        statements: &[Statement],
    ) -> Result<Option<(Receipt, BatchId)>, Failure> {
        if statements.is_empty() {
            return Ok(None);
        }
        let (act, batch) = context.batch_act()?;
        let receipt = context.store()?.write(&act, |book, _| {
            let changed = |(id, last): &(LocomotiveId, u64)| {
                let kept = book.locomotives.get(id);
                kept.is_none_or(|kept| kept.last != *last)
            };
            if self.0.iter().any(changed) {
                return Err(Refusal::refused(
                    "The book has changed since these lines were weighed against it.",
                )
                .todo("look again what each line would do"));
            }
            Ok(statements.to_vec())
        })?;
        Ok(Some((receipt, batch)))
    }
}

/// A mark of lines with what was said of each.
pub(super) fn mark(lines: impl Iterator<Item = (u32, String)>) -> String {
    let mut told = Vec::new();
    for (place, said) in lines {
        told.extend(place.to_be_bytes());
        told.extend(said.as_bytes());
        told.push(0);
    }
    let mut mark = super::print::sha256(&told);
    mark.truncate(32);
    mark
}

impl Plan {
    /// Weighs the lines of a file.
    ///
    /// # Errors
    /// As [`logfile::read`].
    pub fn of_file(
        context: &mut Context,
        name: &str,
        bytes: &[u8],
        told: &Told,
    ) -> Result<Plan, Failure> {
        let read = logfile::read(name, bytes, told)?;
        let mut plan = Plan::of_lines(context, name, &read.lines)?;
        plan.not_read = read.not_read;
        plan.passed_over = read.passed_over;
        Ok(plan)
    }

    fn of_lines(
        context: &mut Context,
        name: &str,
        lines: &[Result<LogLine, Unread>],
    ) -> Result<Plan, Failure> {
        let on = context.on()?;
        let rules = context.rules()?;
        let first = FireId(context.id()?);
        let book = context.book()?;
        let mut seen = Seen::default();
        for line in lines.iter().flatten() {
            seen.note(&book, &line.engine);
        }
        let ids: Vec<_> = seen.0.iter().map(|(id, _)| *id).collect();
        let book = context.store()?.book_with_fires_of_each(&ids)?;
        let lines = weigh(&book, rules, lines, first, on);
        let adds = adds(&book, &lines, &ids);
        Ok(Plan {
            name: name.to_string(),
            lines,
            not_read: Vec::new(),
            passed_over: 0,
            seen,
            adds,
        })
    }

    /// How many lines have which fate: taken, again, nothing, refused.
    pub fn counts(&self) -> [usize; 4] {
        let mut counts = [0; 4];
        for line in &self.lines {
            let at = match line.fate {
                Fate::Taken { .. } => 0,
                Fate::Again(_) => 1,
                Fate::Nothing(_) => 2,
                Fate::Refused(_) => 3,
            };
            if let Some(count) = counts.get_mut(at) {
                *count += 1;
            }
        }
        counts
    }

    /// A mark of every line's fate, the same whenever they are the same: what somebody was shown.
    pub fn mark(&self) -> String {
        mark(self.lines.iter().map(|line| (line.place, tell(line))))
    }

    /// Saves what is taken, as one batch.
    ///
    /// # Errors
    /// Input: lines are refused and are not to be left out. Refused: a log of these engines has changed since it
    /// was weighed. Nothing is saved then.
    pub fn save(
        &self,
        context: &mut Context,
        leave_out: bool,
    ) -> Result<Option<(Receipt, BatchId)>, Failure> {
        let [_, _, _, refused] = self.counts();
        if refused > 0 && !leave_out {
            return Err(Failure::Input(say::held_back(
                refused,
                self.lines.iter().filter_map(|line| match &line.fate {
                    Fate::Refused(why) => Some((line.place, why.as_str())),
                    _ => None,
                }),
            )));
        }
        let taken = self.lines.iter().filter_map(|line| match &line.fate {
            Fate::Taken { statements, .. } => Some(statements),
            _ => None,
        });
        let statements: Vec<Statement> = taken.flatten().cloned().collect();
        self.seen.save(context, &statements)
    }

    /// The lines with their fates, for programs.
    pub fn value(&self) -> Value {
        let lines: Vec<Value> = self.lines.iter().map(line_value).collect();
        let [taken, again, nothing, refused] = self.counts();
        let adds: serde_json::Map<String, Value> = self
            .adds
            .iter()
            .map(|(number, (days, doubt))| {
                (
                    number.clone(),
                    json!({ "service_days": days, "in_doubt": doubt }),
                )
            })
            .collect();
        json!({
            "file": self.name, "lines": lines, "taken": taken, "again": again, "nothing": nothing, "refused": refused,
            "passed_over": self.passed_over, "columns_not_read": self.not_read, "adds": adds,
        })
    }

    fn text(&self) -> String {
        let mut text = format!("{}\n", self.name);
        text.push_str(&format!(
            "  {:>5}  {:<8} {:<10}  fate\n",
            "line", "engine", "day"
        ));
        for line in &self.lines {
            let day = line.day.map_or("-".to_string(), |day| day.to_string());
            let head = format!("  {:>5}  {:<8} {day:<10}  ", line.place, line.engine);
            let told = super::wrap(&tell(line), head.chars().count(), 110);
            text.push_str(&format!("{head}{told}\n"));
        }
        text.push_str(&format!(
            "  {}\n",
            say::sum(self.counts(), self.passed_over)
        ));
        for (number, (days, doubt)) in &self.adds {
            text.push_str(&format!("  {}\n", say::adds(number, *days, *doubt)));
        }
        if !self.not_read.is_empty() {
            text.push_str(&format!("  {}\n", say::not_read(&self.not_read)));
        }
        text
    }
}

/// The fate of a line in words.
pub fn tell(line: &Weighed) -> String {
    match &line.fate {
        Fate::Taken { days, .. } => say::taken(&days.least, &days.most),
        Fate::Again(at) => say::again(at),
        Fate::Nothing(why) => why.clone(),
        Fate::Refused(why) => say::refused(why),
    }
}

fn line_value(line: &Weighed) -> Value {
    let list = |days: &DaySet| days.iter().map(|day| day.to_string()).collect::<Vec<_>>();
    let (fate, why, least, most) = match &line.fate {
        Fate::Taken { days, .. } => ("taken", None, list(&days.least), list(&days.most)),
        Fate::Again(at) => ("again", Some(at.clone()), Vec::new(), Vec::new()),
        Fate::Nothing(why) => ("nothing", Some(why.clone()), Vec::new(), Vec::new()),
        Fate::Refused(why) => ("refused", Some(why.clone()), Vec::new(), Vec::new()),
    };
    json!({
        "line": line.place, "engine": line.engine, "day": line.day.map(|day| day.to_string()), "fate": fate,
        "why": why, "least": least, "most": most,
    })
}

/// Of each engine the service days that taken lines add to her log, and the days they leave in doubt.
fn adds(
    book: &Book,
    lines: &[Weighed],
    engines: &[LocomotiveId],
) -> BTreeMap<String, (usize, usize)> {
    let mut all = BTreeMap::new();
    for id in engines {
        let Some(kept) = book.locomotives.get(id) else {
            continue;
        };
        let (mut least, mut most) = (DaySet::default(), DaySet::default());
        let of_her = lines
            .iter()
            .filter(|line| engine(book, &line.engine).is_ok_and(|(named, _)| named == *id));
        for line in of_her {
            if let Fate::Taken { days, .. } = &line.fate {
                least.add(&days.least);
                most.add(&days.most);
            }
        }
        let log = book.logs.get(id).cloned().unwrap_or_default();
        let doubt = most.without(&least).without(&log.most).len();
        all.insert(
            kept.number.clone(),
            (least.without(&log.least).len(), doubt),
        );
    }
    all
}

impl Import {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (name, bytes) = read(&self.file, logfile::MOST_BYTES)?;
        let told = Told {
            engine: self.engine.clone(),
            order: self.dates,
            sheet: self.sheet.clone(),
        };
        let plan = Plan::of_file(context, &name, &bytes, &told)?;
        let mut value = plan.value();
        let [_, _, _, refused] = plan.counts();
        let mut put = |name: &str, it: Value| {
            if let Value::Object(map) = &mut value {
                map.insert(name.into(), it);
            }
        };
        put("written", json!(self.write));
        if !self.write {
            let text = format!("{}{}\n", plan.text(), say::DRY);
            return Ok(Answer {
                text,
                json: value,
                // What is wrong with a line is the input's fault, as it would be with --write.
                code: if refused > 0 { 2 } else { 0 },
            });
        }
        match plan.save(context, self.leave_out)? {
            None => Ok(Answer::done(
                format!("{}{}\n", plan.text(), say::NOTHING_NEW),
                value,
            )),
            Some((receipt, batch)) => {
                put("batch", json!(batch.to_string()));
                let told = format!("{}{}", plan.text(), say::came_in(&batch.to_string()));
                Ok(saved(&receipt, told, value))
            }
        }
    }
}

/// Reads a file, and not more of it than is taken: `most` bytes, and one by which it is seen to be larger. Gives its own
/// name, and what is in it.
pub(super) fn read(path: &std::path::Path, most: usize) -> Result<(String, Vec<u8>), Failure> {
    use std::io::Read;
    let no =
        |why: std::io::Error| Failure::Input(format!("{} cannot be read: {why}.", path.display()));
    let file = std::fs::File::open(path).map_err(no)?;
    if file.metadata().map_err(no)?.is_dir() {
        return Err(Failure::Input(format!(
            "{} is a folder: a file was expected.",
            path.display()
        )));
    }
    let mut bytes = Vec::new();
    file.take(most as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(no)?;
    let name = path.file_name().map_or("the file".into(), |name| {
        name.to_string_lossy().into_owned()
    });
    Ok((name, bytes))
}

impl Days {
    pub(super) fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let stood = match self.stood.as_deref() {
            None => Stood::ServiceDay,
            Some(word) => Stood::ALL
                .into_iter()
                .find(|stood| stood.word() == word.trim())
                .ok_or_else(|| {
                    Failure::Input(format!(
                        "`{word}` is not what a day was: service-day, cannot-tell or no-service-day were expected."
                    ))
                })?,
        };
        if self.told.trim().is_empty() {
            return Err(Failure::Input(
                "Say which paper the days were read from, or who remembers them.".into(),
            ));
        }
        let days = listed(&self.days)?;
        let lines: Vec<_> = (1..)
            .zip(&days)
            .map(|(place, day)| {
                Ok(LogLine {
                    place,
                    engine: self.engine.trim().to_string(),
                    day: Some(*day),
                    stood: Some(stood),
                    told: self.told.trim().to_string(),
                    ..LogLine::default()
                })
            })
            .collect();
        // The engine is asked for by itself: one sentence says that nobody knows her, not one a day.
        engine(&context.book()?, &self.engine)?;
        let plan = Plan::of_lines(context, "the list", &lines)?;
        let [taken, again, ..] = plan.counts();
        match plan.save(context, false)? {
            None => Ok(Answer::done(
                format!("{}\n", say::NOTHING_NEW),
                plan.value(),
            )),
            Some((receipt, batch)) => {
                let mut value = plan.value();
                if let Value::Object(map) = &mut value {
                    map.insert("batch".into(), json!(batch.to_string()));
                }
                let told = say::days_listed(self.engine.trim(), taken, again, stood);
                Ok(saved(&receipt, told, value))
            }
        }
    }
}

/// Days as listed, oldest first, each once.
fn listed(words: &[String]) -> Result<Vec<Date>, Failure> {
    let mut days = DaySet::default();
    let words = words
        .iter()
        .flat_map(|word| word.split([',', ';', ' ', '\n', '\r', '\t']))
        .filter(|word| !word.is_empty());
    for word in words {
        match word.split_once("..") {
            None => days.insert(date(word)?),
            Some((from, through)) => {
                let (from, through) = (date(from)?, date(through)?);
                let long = from.until(through).map_or(-1, |span| span.get_days());
                if !(0..=366).contains(&long) {
                    return Err(Failure::Input(format!(
                        "`{word}` is no list of days: a first day and a later one of the same twelve months were expected, such as \
                         2026-05-02..2026-05-04."
                    )));
                }
                days.add_span(from, through);
            }
        }
    }
    if days.is_empty() {
        return Err(Failure::Input("Say which days.".into()));
    }
    Ok(days.iter().collect())
}
