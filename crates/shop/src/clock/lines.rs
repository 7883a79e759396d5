//! Lines of a log that come in many at once: what each would state, and why some state nothing.
//!
//! Nothing is guessed. A line that says the same as the book is not entered again; one that cannot be true beside
//! it is refused and says beside what; one that says nothing of a day leaves it blank, and a blank is not a cold day.

use std::collections::{BTreeMap, HashMap};

use jiff::civil::{Date, DateTime};
use rules::Rulebook;

use super::log::{NewFire, hour, log_day, log_fire};
use super::stated::has_a_log;
use crate::book::{
    Book, DayLogged, DayTold, Days, Fire, FireId, LocomotiveId, Statement, Stood, days_of_fire,
};
use crate::locomotive::engine;

/// One line as it was read.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LogLine {
    /// Where it stands: its line in the file, from 1.
    pub place: u32,
    /// The engine's number.
    pub engine: String,
    /// The day it is of, where one is written.
    pub day: Option<Date>,
    /// Fire lit.
    pub lit: Option<DateTime>,
    /// Pressure first above atmosphere.
    pub up: Option<DateTime>,
    /// Fire out.
    pub out: Option<DateTime>,
    /// Pressure gone.
    pub gone: Option<DateTime>,
    /// Miles run.
    pub miles: Option<u32>,
    /// Whether she was offered for use.
    pub offered: Option<bool>,
    /// Whether it says itself that the day was a service day.
    pub stood: Option<Stood>,
    /// The paper or file it comes from.
    pub told: String,
}

/// A line that does not read: where it stands, whose it is so far as known, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Where it stands.
    pub place: u32,
    /// The engine, as written.
    pub engine: String,
    /// Why, in a sentence.
    pub why: String,
}

/// What becomes of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fate {
    /// It is entered, and makes these days service days (least) or leaves them in doubt (most without least).
    Taken {
        /// What it states.
        statements: Vec<Statement>,
        /// The days.
        days: Days,
    },
    /// It is in the book already, or in an earlier line; where, in words.
    Again(String),
    /// It says nothing that counts; why, in a sentence.
    Nothing(String),
    /// It is refused; why, in a sentence.
    Refused(String),
}

/// A line and its fate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weighed {
    /// Where it stands.
    pub place: u32,
    /// The engine, as written.
    pub engine: String,
    /// The day it is of, or on which its fire begins.
    pub day: Option<Date>,
    /// Its fate.
    pub fate: Fate,
}

/// Weighs lines against the book and against each other, in their order. Nothing is entered.
///
/// The fires of every engine named must be in the book one by one.
///
/// # Arguments
/// `first`: the id of the first line; those after it get the ids that follow. `on`: today.
pub fn weigh(
    book: &Book,
    rules: &Rulebook,
    lines: &[Result<LogLine, Unread>],
    first: FireId,
    on: Date,
) -> Vec<Weighed> {
    let mut scales = Scales {
        book,
        rules,
        on,
        next: first.0,
        engines: BTreeMap::new(),
    };
    lines
        .iter()
        .map(|line| match line {
            Ok(line) => Weighed {
                place: line.place,
                engine: line.engine.clone(),
                day: line.begins(),
                fate: scales.weigh(line).unwrap_or_else(Fate::Refused),
            },
            Err(unread) => Weighed {
                place: unread.place,
                engine: unread.engine.clone(),
                day: None,
                fate: Fate::Refused(unread.why.clone()),
            },
        })
        .collect()
}

impl LogLine {
    /// The day it is of, or on which its fire begins or, with no beginning written, ends.
    fn begins(&self) -> Option<Date> {
        let start = self.lit.into_iter().chain(self.up).min();
        let end = self.out.into_iter().chain(self.gone).min();
        self.day.or(start.or(end).map(|at| at.date()))
    }
}

/// Where something is written: the entry of the book, or the line of this file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum At {
    Entry(u64),
    Line(u32),
}

impl std::fmt::Display for At {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            At::Entry(seq) => write!(to, "entry {seq}"),
            At::Line(place) => write!(to, "line {place}"),
        }
    }
}

type Times = [Option<DateTime>; 4];

/// What stands in one log already.
#[derive(Default)]
struct Standing {
    by_times: HashMap<Times, At>,
    by_beginning: HashMap<DateTime, At>,
    told: HashMap<Date, (Stood, At)>,
    proved: HashMap<Date, At>,
    in_doubt: HashMap<Date, At>,
    /// Fires whose beginning and end are both written, by their beginning.
    whole: BTreeMap<DateTime, (DateTime, At)>,
}

impl Standing {
    fn take(&mut self, line: &Fire, days: &Days, at: At) {
        match &line.day {
            Some(told) => {
                self.told.entry(told.day).or_insert((told.stood, at));
            }
            None => {
                let times = [line.lit, line.up, line.out, line.gone];
                self.by_times.entry(times).or_insert(at);
                if let Some(begins) = line.begins() {
                    self.by_beginning.entry(begins).or_insert(at);
                }
                if let (Some(lit), Some(out)) = (line.lit, line.out) {
                    self.whole.entry(lit).or_insert((out, at));
                }
            }
        }
        for day in days.least.iter() {
            self.proved.entry(day).or_insert(at);
        }
        if line.day.is_none() {
            for day in days.most.without(&days.least).iter() {
                self.in_doubt.entry(day).or_insert(at);
            }
        }
    }

    /// A fire that stood in part of the same time.
    fn beside(&self, lit: DateTime, out: DateTime) -> Option<(DateTime, DateTime, At)> {
        let (begun, (ended, at)) = self.whole.range(..out).next_back()?;
        (*ended > lit).then_some((*begun, *ended, *at))
    }
}

struct Scales<'b> {
    book: &'b Book,
    rules: &'b Rulebook,
    on: Date,
    next: u128,
    engines: BTreeMap<LocomotiveId, Standing>,
}

impl Scales<'_> {
    fn weigh(&mut self, line: &LogLine) -> Result<Fate, String> {
        let (id, kept) = engine(self.book, &line.engine).map_err(|no| no.to_string())?;
        has_a_log(self.book, self.rules, kept).map_err(|no| no.to_string())?;
        if !self.engines.contains_key(&id) {
            let standing = self.standing(id)?;
            self.engines.insert(id, standing);
        }
        let begun = line.lit.is_some() || line.up.is_some();
        if begun {
            self.fire(id, line)
        } else {
            self.day(id, line)
        }
    }

    fn standing(&self, id: LocomotiveId) -> Result<Standing, String> {
        let fires = self.book.fires.of(id);
        let fires = fires.ok_or("The fires of this engine were not read one by one.")?;
        let mut standing = Standing::default();
        for (_, fire) in fires {
            standing.take(fire, &days_of_fire(fire, self.on), At::Entry(fire.entry));
        }
        Ok(standing)
    }

    fn id(&mut self) -> FireId {
        let id = FireId(self.next);
        self.next = self.next.wrapping_add(1);
        id
    }

    /// A line with a beginning.
    fn fire(&mut self, locomotive: LocomotiveId, line: &LogLine) -> Result<Fate, String> {
        let new = NewFire {
            id: self.id(),
            locomotive,
            lit: line.lit,
            up: line.up,
            out: line.out,
            gone: line.gone,
            miles: line.miles,
            offered: line.offered,
        };
        let mut statements = log_fire(new, self.on).map_err(|no| no.to_string())?;
        let fire = Fire {
            locomotive,
            lit: line.lit,
            up: line.up,
            out: line.out,
            gone: line.gone,
            miles: line.miles,
            offered: line.offered,
            day: None,
            entry: 0,
        };
        let mut days = days_of_fire(&fire, self.on);
        let begins = fire.begins().unwrap_or_default();
        let standing = self.engines.entry(locomotive).or_default();
        let times = [line.lit, line.up, line.out, line.gone];
        if let Some(at) = standing.by_times.get(&times) {
            return Ok(Fate::Again(at.to_string()));
        }
        if let Some(at) = standing.by_beginning.get(&begins) {
            return Err(format!(
                "{at} holds a fire that begins at {} too, with other times: put that one right, or this line.",
                hour(begins)
            ));
        }
        if let (Some(lit), Some(out)) = (line.lit, line.out)
            && let Some((begun, ended, at)) = standing.beside(lit, out)
        {
            return Err(format!(
                "{at} holds a fire from {} to {}: one firebox does not hold two fires at a time.",
                hour(begun),
                hour(ended)
            ));
        }
        let written = || {
            list(if days.least.is_empty() {
                &days.most
            } else {
                &days.least
            })
        };
        match line.stood {
            Some(Stood::NoServiceDay) if !days.most.is_empty() => {
                let how = if days.least.is_empty() {
                    "may have been one"
                } else {
                    "was one"
                };
                return Err(format!(
                    "The line says no service day, and by its times {} {how}.",
                    written()
                ));
            }
            Some(Stood::ServiceDay) if days.most.is_empty() => {
                return Err(
                    "The line says it was a service day, and by its times fire and pressure never stood together."
                        .into(),
                );
            }
            Some(Stood::ServiceDay) if days.least.is_empty() => {
                // The times leave it open, and the line itself says so: both are kept.
                let day = line.begins().filter(|day| days.most.contains(*day));
                let day = day.ok_or_else(|| {
                    format!(
                        "The line says it was a service day, and by its times that was {}: write which day it is of.",
                        written()
                    )
                })?;
                let told = self.told(locomotive, line, day, Stood::ServiceDay);
                statements.extend(log_day(told, self.on).map_err(|no| no.to_string())?);
                days.least.insert(day);
            }
            _ => {}
        }
        let standing = self.engines.entry(locomotive).or_default();
        standing.take(&fire, &days, At::Line(line.place));
        Ok(Fate::Taken { statements, days })
    }

    /// A line without a beginning.
    fn day(&mut self, locomotive: LocomotiveId, line: &LogLine) -> Result<Fate, String> {
        let ended = line.out.is_some() || line.gone.is_some();
        let day = line
            .begins()
            .ok_or("The line has neither a day nor a time: it is not known when this was.")?;
        let ran = line.miles.is_some_and(|miles| miles > 0) || line.offered == Some(true);
        let stood = match line.stood {
            Some(stood) => stood,
            None if ended || ran => Stood::CannotTell,
            None => {
                return Ok(Fate::Nothing(
                    "Nothing is told of this day, and a blank is not a cold day: closing the log is what says that she was cold.".into(),
                ));
            }
        };
        let told = self.told(locomotive, line, day, stood);
        let told_words = told.told.clone();
        let statements = log_day(told, self.on).map_err(|no| no.to_string())?;
        let standing = self.engines.entry(locomotive).or_default();
        if let Some((stands, at)) = standing.told.get(&day) {
            if *stands == stood {
                return Ok(Fate::Again(at.to_string()));
            }
            return Err(format!(
                "{at} says `{}` of {day} and this line `{}`: put that one right, or this line.",
                stands.word(),
                stood.word()
            ));
        }
        match (
            stood,
            standing.proved.get(&day),
            standing.in_doubt.get(&day),
        ) {
            (Stood::NoServiceDay, Some(at), _) => {
                return Err(format!(
                    "The line says no service day, and by the times of {at} {day} was one."
                ));
            }
            (Stood::NoServiceDay, None, Some(at)) => {
                return Err(format!(
                    "The line says no service day, and by the times of {at} {day} may have been one: put the missing time right there."
                ));
            }
            (_, Some(at), _) => return Ok(Fate::Again(format!("{at}, a service day already"))),
            (Stood::CannotTell, None, Some(at)) => {
                return Ok(Fate::Again(format!("{at}, in doubt already")));
            }
            _ => {}
        }
        let fire = Fire {
            locomotive,
            lit: None,
            up: None,
            out: None,
            gone: None,
            miles: line.miles,
            offered: line.offered,
            day: Some(DayTold {
                day,
                stood,
                told: told_words,
            }),
            entry: 0,
        };
        let days = days_of_fire(&fire, self.on);
        standing.take(&fire, &days, At::Line(line.place));
        Ok(Fate::Taken { statements, days })
    }

    fn told(
        &mut self,
        locomotive: LocomotiveId,
        line: &LogLine,
        day: Date,
        stood: Stood,
    ) -> DayLogged {
        let ends = [("fire out", line.out), ("pressure gone", line.gone)];
        let begun = line.lit.is_some() || line.up.is_some();
        let mut told = line.told.trim().to_string();
        for (what, at) in ends.iter().filter(|_| !begun) {
            if let Some(at) = at {
                told.push_str(&format!("; {what} {}", hour(*at)));
            }
        }
        DayLogged {
            id: self.id(),
            locomotive,
            day,
            stood,
            miles: line.miles.filter(|_| !begun),
            offered: line.offered.filter(|_| !begun),
            told,
        }
    }
}

fn list(days: &crate::book::DaySet) -> String {
    let days: Vec<_> = days.iter().map(|day| day.to_string()).collect();
    days.join(" and ")
}
