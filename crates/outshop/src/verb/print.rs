//! `print`: a card or a drawing as a file; the same papers that the pages hand out.

mod boiler_card;
mod boiler_map;
mod boiler_work;
mod calendar;
mod drawn;
mod before;
mod duties;
mod fields;
mod held;
mod hers;
mod hydro;
mod job;
mod job_papers;
mod order;
mod particulars;
mod phones;
mod report;
mod sheet;
mod tag;
mod tires;
mod tool_tag;
mod worksheet;
mod year;

#[cfg(test)]
mod boiler_work_test;
#[cfg(test)]
mod hydro_test;
#[cfg(test)]
mod papers_test;
#[cfg(test)]
mod shop_test;
#[cfg(test)]
mod year_test;

use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use jiff::civil::Date;
use paper::{About, Form, PaperError, Printed};
use serde::Deserialize;
use serde_json::json;
use sha2::{Digest, Sha256};
use shop::locomotive::Law;

use super::pair;
use super::ruled::LATHE;
use super::tires::Tires;
pub use calendar::calendar;

use crate::words::{self, print as say};
use crate::{Answer, Context, Failure};

/// Print a card, a paper of an inspection, a drawing, a calendar.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Print {
    /// A job card: what was found, decided and done, with places to write and sign. A PDF.
    Job {
        /// Its number, such as J-001.
        job: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// A lathe card that the book keeps under a number, as it stands in its newest revision. A PDF.
    Card {
        /// Its number, such as C-001.
        card: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// A lathe card: one worked sheet, its drawing, places to write what was measured. A PDF.
    Sheet {
        /// The sheet, such as seat.correct.
        id: String,
        /// What goes in: name=value, such as land=5/32in.
        #[serde(default)]
        arguments: Vec<String>,
        /// The job that keeps the sheet: its figures are printed as they were ordered, not worked again.
        #[arg(long, conflicts_with = "arguments")]
        job: Option<String>,
        /// The lathe whose settings stand on the card, such as LA-001: of a thread that is cut.
        #[arg(long, conflicts_with = "job")]
        lathe: Option<String>,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// A sheet to write on: every item of an inspection of an engine, with room for what was seen. A PDF.
    Worksheet {
        /// Her number.
        engine: String,
        /// The kind: daily, 31, 92, annual, fifth-annual, 1472; of a diesel, daily, qualified-daily, periodic.
        kind: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The report of an inspection: answers, defects, what the law's form asks, what is missing, where it goes. A PDF.
    Inspection {
        /// Its number, such as I-001.
        inspection: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The tag of an engine that does not comply, to be filled in and signed before she moves. A PDF.
    Tag {
        /// Her number.
        engine: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The tag of a tool: its number large and as a barcode, what it serves, its shelf. Three by one and a half inches. A PDF.
    ToolTag {
        /// Its number, such as T-001.
        tool: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// What to have ready before a coming inspection: part by part, with chance, hours and the day to order by. A PDF.
    Before {
        /// Her number.
        engine: String,
        /// The inspection: 31, 92, annual, fifth-annual or 1472.
        kind: String,
        /// Lead time to reckon with, in days; the longest that anything promised to us took, if left out.
        #[arg(long, value_name = "DAYS")]
        #[serde(default)]
        lead: Option<u32>,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// Every paper the law asks of an engine: what must stand on her, what goes where by when, what is kept. A PDF.
    Duties {
        /// Her number.
        engine: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The report of a year's service days, with the log behind it and the count since each inspection. A PDF.
    Year {
        /// Her number.
        engine: String,
        /// The year, such as 2025.
        year: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The day of the hydrostatic and the steam test, on one sheet: what is due, pressures, gauges, leaks by place. A PDF.
    Hydro {
        /// Her number.
        engine: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The boiler card: what each component would bear, on what, and what the law's card asks. A PDF.
    BoilerCard {
        /// Her number.
        engine: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The newest survey of a sheet of the boiler, as a map. A PDF.
    Survey {
        /// Her number.
        engine: String,
        /// The component.
        component: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The map of the staybolts, with what counts as broken and what is to be renewed. A PDF.
    StayMap {
        /// Her number.
        engine: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The proposal for the driving tires: each as it stands, one diameter for all, what it spends and moves. A PDF.
    Tires {
        /// Whose, and the cut.
        #[command(flatten)]
        #[serde(flatten)]
        of: Tires,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The report of work on a boiler that the law wants described: an alteration, or a welded or riveted repair. A PDF.
    BoilerWork {
        /// The job, such as J-001.
        job: String,
        /// Which it was: alteration, unstayed-repair or stayed-repair. A qualified person says.
        kind: String,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// The page for phones: how to take over the shop's certificate, with its fingerprint and a square code. A PDF.
    Phones {
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// Every deadline as a calendar file (RFC 5545), for any calendar program. A copy of the day: the book governs.
    Calendar {
        /// Her number; every engine if left out.
        #[arg(long)]
        engine: Option<String>,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
    /// A drawing to scale: seat, disc, nut, bushing, plug-gauge, mandrel, seat-lap or disc-lap. PDF, SVG or DXF, as the file's name ends.
    Drawing {
        /// Which: seat, disc, nut, bushing, plug-gauge, mandrel, seat-lap or disc-lap.
        drawing: String,
        /// Its sizes with their limits, and what its title block is to say: name=value, such as port=2-1/4in,
        /// "outside=3.004 +.0005 -.0000" or material=bronze; from=SHEET?NAME=VALUE&... takes what a worked sheet gives.
        #[serde(default)]
        arguments: Vec<String>,
        /// Where to.
        #[command(flatten)]
        #[serde(flatten)]
        to: To,
    },
}

/// Where a paper goes.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
pub struct To {
    /// The file to write; one named for what it shows if left out, in the folder where you are.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Write over a file that stands there.
    #[arg(long)]
    #[serde(default)]
    pub over: bool,
}

/// A paper, not yet anywhere.
pub struct Paper {
    /// A name for its file.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
    /// How many pages, where it has pages.
    pub pages: Option<usize>,
}

impl Print {
    /// Prints.
    ///
    /// # Errors
    /// [`Failure`]: nothing of that name, sizes that cannot be drawn, or a file that may not be written.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Print::Job { job, to } => to.write_card(|| job_card(context, job)),
            Print::Card { card, to } => to.write_card(|| kept_lathe_card(context, card)),
            Print::Worksheet { engine, kind, to } => {
                to.write_card(|| worksheet(context, engine, kind))
            }
            Print::Inspection { inspection, to } => to.write_card(|| report(context, inspection)),
            Print::Before {
                engine,
                kind,
                lead,
                to,
            } => to.write_card(|| before(context, engine, kind, *lead)),
            Print::Duties { engine, to } => to.write_card(|| duties(context, engine)),
            Print::ToolTag { tool, to } => to.write_card(|| tool_tag(context, tool)),
            Print::Tag { engine, to } => to.write_card(|| tag(context, engine)),
            Print::Year { engine, year, to } => to.write_card(|| yearly(context, engine, year)),
            Print::Hydro { engine, to } => to.write_card(|| hydro(context, engine)),
            Print::Survey {
                engine,
                component,
                to,
            } => to.write_card(|| survey_map(context, engine, component)),
            Print::StayMap { engine, to } => to.write_card(|| stay_map(context, engine)),
            Print::BoilerCard { engine, to } => to.write_card(|| boiler_card(context, engine)),
            Print::Tires { of, to } => to.write_card(|| tires_paper(context, of)),
            Print::BoilerWork { job, kind, to } => {
                to.write_card(|| boiler_work(context, job, kind))
            }
            Print::Phones { to } => to.write_card(|| phones(context)),
            Print::Sheet {
                id,
                arguments,
                job: Some(job),
                lathe: _,
                to,
            } => to.write_card(|| {
                if !arguments.is_empty() {
                    return Err(Failure::Input(say::KEPT_TAKES_NOTHING.into()));
                }
                kept_card(context, job, id)
            }),
            Print::Sheet {
                id,
                arguments,
                job: None,
                lathe,
                to,
            } => to.write_card(|| {
                let mut given = pairs(arguments, "an argument of a sheet")?;
                let lathe = lathe
                    .iter()
                    .map(|number| (LATHE.to_string(), number.clone()));
                given.extend(lathe);
                lathe_card(context, id, &given)
            }),
            Print::Calendar { engine, to } => match &to.out {
                Some(path)
                    if path
                        .extension()
                        .is_none_or(|e| !e.eq_ignore_ascii_case("ics")) =>
                {
                    Err(Failure::Input(say::only_ics(path)))
                }
                _ => to.write(|_| calendar(context, engine.as_deref())),
            },
            Print::Drawing {
                drawing,
                arguments,
                to,
            } => to.write(|out| {
                let given = pairs(arguments, "an argument of a drawing")?;
                drawn::print(context, drawing, &given, out)
            }),
        }
    }
}

fn pairs(typed: &[String], what: &str) -> Result<Vec<(String, String)>, Failure> {
    typed.iter().map(|typed| pair(typed, what)).collect()
}

impl To {
    /// As [`To::write`], of a card, which is a PDF and nothing else.
    fn write_card(&self, make: impl FnOnce() -> Result<Paper, Failure>) -> Result<Answer, Failure> {
        let is_pdf = |path: &PathBuf| {
            let ending = path.extension().and_then(|e| e.to_str());
            ending.is_some_and(|e| e.eq_ignore_ascii_case("pdf"))
        };
        match &self.out {
            Some(path) if !is_pdf(path) => Err(Failure::Input(say::only_pdf(path))),
            _ => self.write(|_| make()),
        }
    }

    /// Makes the paper and writes it. Nothing is written over unasked, and nothing is left half written.
    fn write(
        &self,
        make: impl FnOnce(Option<&Path>) -> Result<Paper, Failure>,
    ) -> Result<Answer, Failure> {
        let named = self.out.as_deref();
        if let Some(path) = named {
            self.may_write(path)?;
        }
        let paper = make(named)?;
        let path = named.map_or_else(|| PathBuf::from(&paper.name), Path::to_path_buf);
        self.may_write(&path)?;
        self.put(&path, &paper.bytes).map_err(|e| match e.kind() {
            ErrorKind::AlreadyExists => Failure::Input(say::stands_there(&path)),
            _ => Failure::Machine(say::cannot_write(&path, &e)),
        })?;
        let sum = sha256(&paper.bytes);
        let value =
            json!({ "path": path.display().to_string(), "pages": paper.pages, "sha256": sum });
        Ok(Answer::done(say::wrote(&path, paper.pages, &sum), value))
    }

    fn may_write(&self, path: &Path) -> Result<(), Failure> {
        if path.exists() && !self.over {
            return Err(Failure::Input(say::stands_there(path)));
        }
        Ok(())
    }

    /// A file beside it first, then its name: whoever looks sees the old paper or the new one, whole.
    fn put(&self, path: &Path, bytes: &[u8]) -> std::io::Result<()> {
        if !self.over {
            let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
            let written = file.write_all(bytes);
            if written.is_err() {
                let _ = std::fs::remove_file(path);
            }
            return written;
        }
        let mut beside = path.as_os_str().to_owned();
        beside.push(".part");
        let beside = PathBuf::from(beside);
        let moved = std::fs::write(&beside, bytes).and_then(|()| std::fs::rename(&beside, path));
        if moved.is_err() {
            let _ = std::fs::remove_file(&beside);
        }
        moved
    }
}

pub(super) fn sha256(bytes: &[u8]) -> String {
    let sum = Sha256::digest(bytes);
    sum.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl From<PaperError> for Failure {
    fn from(error: PaperError) -> Failure {
        Failure::Machine(error.to_string())
    }
}

impl Paper {
    /// A form set in type, its file named for what it is and its number.
    fn of_form(what: &str, form: &Form) -> Result<Paper, Failure> {
        let name = format!("{what}-{}", form.about.number);
        Ok(Paper::pdf(&name, form.print()?))
    }

    fn pdf(name: &str, printed: Printed) -> Paper {
        Paper {
            name: format!("{name}.pdf"),
            pages: Some(printed.pages),
            bytes: printed.bytes,
        }
    }
}

/// The job card of a job.
///
/// # Errors
/// If there is no such job, or the book does not read.
pub fn job_card(context: &mut Context, number: &str) -> Result<Paper, Failure> {
    let card = job::card(context, number)?;
    Ok(Paper::pdf(&card.about.number, card.print()?))
}

/// The lathe card of a worked sheet.
///
/// # Errors
/// What the sheet says of its arguments.
pub fn lathe_card(
    context: &mut Context,
    id: &str,
    given: &[(String, String)],
) -> Result<Paper, Failure> {
    let card = sheet::worked(context, id, given)?;
    Ok(Paper::pdf(&card.about.number, card.print()?))
}

/// A lathe card that the book keeps, in its newest revision.
///
/// # Errors
/// If there is no such card, or the book does not read.
pub fn kept_lathe_card(context: &mut Context, number: &str) -> Result<Paper, Failure> {
    let card = sheet::kept(context, number)?;
    Ok(Paper::pdf(&card.about.bars, card.print()?))
}

/// A drawing that a part is made from, in a form: pdf, svg or dxf.
///
/// # Errors
/// If there is no such drawing or form, or its sizes cannot be drawn.
pub fn drawing(
    context: &mut Context,
    word: &str,
    given: &[(String, String)],
    form: &str,
) -> Result<Paper, Failure> {
    drawn::in_form(context, word, given, form)
}

/// The lathe card of a sheet that a job keeps.
///
/// # Errors
/// If there is no such job, or it keeps no such sheet, or the book does not read.
pub fn kept_card(context: &mut Context, job: &str, id: &str) -> Result<Paper, Failure> {
    let card = job::lathe_card(context, job, id)?;
    let name = format!("{} {id}", card.about.number);
    Ok(Paper::pdf(&name, card.print()?))
}

/// The sheet to write on at an inspection of an engine.
///
/// # Errors
/// If there is no such engine or kind of inspection, or the book does not read.
pub fn worksheet(context: &mut Context, engine: &str, kind: &str) -> Result<Paper, Failure> {
    Paper::of_form("worksheet", &worksheet::paper(context, engine, kind)?)
}

/// The report of an inspection.
///
/// # Errors
/// If there is no such inspection, or the book does not read.
pub fn report(context: &mut Context, number: &str) -> Result<Paper, Failure> {
    Paper::of_form("report", &report::paper(context, number)?)
}

/// The tag of an engine that does not comply.
///
/// # Errors
/// If there is no such engine, her rulebook knows no tag, or the book does not read.
pub fn tag(context: &mut Context, engine: &str) -> Result<Paper, Failure> {
    Paper::of_form("tag", &tag::paper(context, engine)?)
}

/// The tag of a tool.
///
/// # Errors
/// If there is no such tool, it was taken out, or the book does not read.
pub fn tool_tag(context: &mut Context, number: &str) -> Result<Paper, Failure> {
    let tag = tool_tag::paper(context, number)?;
    let name = format!("tool-tag-{}", tag.about.number);
    Ok(Paper::pdf(&name, tag.print()?))
}

/// Every paper the law asks of an engine.
///
/// # Errors
/// If there is no such engine, or the book does not read.
pub fn before(
    context: &mut Context,
    engine: &str,
    kind: &str,
    lead: Option<u32>,
) -> Result<Paper, Failure> {
    Paper::of_form("before", &before::paper(context, engine, kind, lead)?)
}

/// As [`duties::paper`].
///
/// # Errors
/// [`Failure`].
pub fn duties(context: &mut Context, engine: &str) -> Result<Paper, Failure> {
    Paper::of_form("papers", &duties::paper(context, engine)?)
}

/// The report of a year's service days of an engine.
///
/// # Errors
/// If there is no such engine, her rules ask for none, it is no year, or the book does not read.
pub fn yearly(context: &mut Context, engine: &str, year: &str) -> Result<Paper, Failure> {
    Paper::of_form("year", &year::paper(context, engine, year)?)
}

/// The sheet for the day of the hydrostatic and the steam test.
///
/// # Errors
/// If there is no such engine, her rules ask for no such test, or the book does not read.
pub fn hydro(context: &mut Context, engine: &str) -> Result<Paper, Failure> {
    Paper::of_form("hydro", &hydro::paper(context, engine)?)
}

/// The newest survey of a component.
///
/// # Errors
/// If there is no such engine or survey, or the book does not read.
pub fn survey_map(context: &mut Context, engine: &str, component: &str) -> Result<Paper, Failure> {
    Paper::of_form("survey", &boiler_map::survey(context, engine, component)?)
}

/// The map of an engine's staybolts.
///
/// # Errors
/// If there is no such engine, or the book does not read.
pub fn stay_map(context: &mut Context, engine: &str) -> Result<Paper, Failure> {
    Paper::of_form("staybolts", &boiler_map::stays(context, engine)?)
}

/// The boiler card of an engine.
///
/// # Errors
/// If there is no such engine, or the book does not read.
pub fn boiler_card(context: &mut Context, engine: &str) -> Result<Paper, Failure> {
    Paper::of_form("boiler", &boiler_card::paper(context, engine)?)
}

/// The proposal for the driving tires of an engine.
///
/// # Errors
/// If there is no such engine, the cut does not read, or the book does not read.
pub fn tires_paper(context: &mut Context, asked: &Tires) -> Result<Paper, Failure> {
    Paper::of_form("tires", &tires::paper(context, asked)?)
}

/// Whether the rules that bind an engine ask for a report of each year's service days.
///
/// # Errors
/// If the day lies before the rulebook.
pub fn asks_for_years(law: &Law<'_>, on: Date) -> Result<bool, Failure> {
    Ok(year::asked(law.in_force(on)?).is_some())
}

/// To whom a paper goes, in words.
pub fn recipients_of(words: &[String]) -> String {
    report::recipients(words)
}

/// The kinds of boiler work that the rules which bind an engine want reported.
///
/// # Errors
/// If the day lies before the rulebook.
pub fn boiler_work_kinds(law: &Law<'_>, on: Date) -> Result<Vec<String>, Failure> {
    boiler_work::kinds(law, on)
}

/// The report of work on a boiler.
///
/// # Errors
/// If there is no such job, the law asks for no report of such work, or the book does not read.
pub fn boiler_work(context: &mut Context, job: &str, kind: &str) -> Result<Paper, Failure> {
    Paper::of_form("boiler-work", &boiler_work::paper(context, job, kind)?)
}

/// The page for phones.
///
/// # Errors
/// If the book or its keys do not read.
pub fn phones(context: &mut Context) -> Result<Paper, Failure> {
    Ok(Paper::pdf("phones", phones::paper(context)?.print()?))
}

/// What stands on every page of a paper: from the book, if one is named.
fn about(context: &mut Context, number: &str, title: String) -> Result<About, Failure> {
    let (shop, shows, on) = if context.globals().book.is_some() {
        let on = context.on()?;
        let (entry, hash) = context.store()?.head()?;
        let hash: String = hash.to_string().chars().take(16).collect();
        (context.store()?.shop()?, say::shows(entry, &hash), on)
    } else {
        (None, say::NO_BOOK.into(), context.on_without_book()?)
    };
    Ok(About {
        title,
        number: number.into(),
        bars: number.into(),
        as_of: on,
        as_of_read: words::day(on),
        shows,
        demonstration: shop
            .as_ref()
            .and_then(|s| s.demonstration)
            .map(words::page::demonstration),
        shop: shop.map(|s| s.name),
        standing: words::STANDING.into(),
    })
}
