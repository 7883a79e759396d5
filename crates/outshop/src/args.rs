//! What was typed: options that every verb takes, and one request type a verb.
//!
//! The same request types are read from JSON (and, with the pages, from forms), so that every door asks
//! the same question.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand};
use jiff::civil::Date;
use measure::House;
use serde::Deserialize;
use shop::book::{BatchId, EntryId};

use crate::verb;
use crate::{Answer, Context, Failure};

/// Keeps a locomotive shop's memory, counts the law's clocks, and works its sums.
///
/// One shop's whole record is one file, the book. Reading verbs change nothing; every writing verb is
/// somebody's statement and is kept for ever. What the law says comes from the rulebook inside the
/// program, with its citation. The program advises: it approves nothing, and it never says that an
/// engine may run.
#[derive(Debug, Parser)]
#[command(name = "outshop", version, max_term_width = 100, subcommand_value_name = "VERB", subcommand_help_heading = "Verbs", after_long_help = EXITS)]
struct Line {
    #[command(flatten)]
    globals: Globals,
    #[command(subcommand)]
    request: Request,
}

const EXITS: &str = "Exit codes: 0 done; 1 the answer is no, or cannot tell (a limit fails, a check differs, a fact is missing, \
a signature lacks authority); 2 what was entered is wrong; 3 the book or the machine failed. Where the code is not 0 \
nothing was saved.\n\nAdvice only. The law in force, the code, the drawing and the responsible officer govern.";

/// Options that every verb takes.
#[derive(Debug, Clone, Default, Args)]
#[command(next_help_heading = "Options of every verb")]
pub struct Globals {
    /// The book: one shop's whole record.
    #[arg(
        long = "book",
        id = "global-book",
        global = true,
        value_name = "FILE",
        env = "OUTSHOP_BOOK"
    )]
    pub book: Option<PathBuf>,
    /// The day: asked about by a reading verb, on which the work was done for a writing one. Today if left out.
    #[arg(
        long = "on",
        id = "global-on",
        global = true,
        value_name = "YYYY-MM-DD"
    )]
    pub on: Option<Date>,
    /// Who states it. Every entry is somebody's.
    #[arg(
        long = "by",
        id = "global-by",
        global = true,
        value_name = "NAME",
        env = "OUTSHOP_BY"
    )]
    pub by: Option<String>,
    /// Answer in JSON.
    #[arg(long = "json", id = "global-json", global = true)]
    pub json: bool,
    /// House units, for what is printed and for bare numbers given to a sheet.
    #[arg(
        long = "house",
        id = "global-house",
        global = true,
        value_name = "inch|metric"
    )]
    pub house: Option<House>,
    /// The device this is entered on.
    #[arg(
        long = "device",
        id = "global-device",
        global = true,
        value_name = "WORD",
        default_value = "desk",
        hide = true
    )]
    pub device: String,
    /// The id of the entry, made by the device; the same id twice is saved once.
    #[arg(
        long = "id",
        id = "global-id",
        global = true,
        value_name = "ID",
        hide = true
    )]
    pub id: Option<EntryId>,
    /// The batch this entry belongs to.
    #[arg(
        long = "batch",
        id = "global-batch",
        global = true,
        value_name = "ID",
        hide = true
    )]
    pub batch: Option<BatchId>,
}

/// One request.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Request {
    /// Make the demonstration book and serve it on this machine.
    Demo(verb::demo::Demo),
    /// Serve the book's pages on this machine.
    Serve(verb::serve::Serve),
    /// Make a new book.
    New(verb::new::New),
    /// Prove that the book is what was entered.
    Check(verb::check::Check),
    /// Copy the book and its keys while it is in use, prove the copy, and keep so many.
    Backup(verb::backup::Backup),
    /// Make the book again from a copy, or prove that it could be.
    Restore(verb::backup::Restore),
    /// Put an earlier entry right, or show the entries.
    #[command(subcommand)]
    Entry(verb::entry::Entry),
    /// People and what they may do.
    #[command(subcommand)]
    Person(verb::person::Person),
    /// What stands on the law's papers of the shop and its engines: owner, railroad, place; rules of its own work.
    #[command(subcommand)]
    Shop(verb::particular::Shop),
    /// Engines.
    #[command(subcommand)]
    Locomotive(verb::locomotive::Locomotive),
    /// Parts: what is measured, what was last left, metal left.
    #[command(subcommand)]
    Part(verb::part::Part),
    /// Families of parts that the shop writes itself, from files.
    #[command(subcommand)]
    Family(verb::family_file::Family),
    /// The boiler: its components, what each would bear, the card of it.
    #[command(subcommand)]
    Boiler(verb::boiler::Boiler),
    /// The driving tires together: each by the law, one diameter for all, metal spent, life, the day to order.
    Tires(verb::tires::Tires),
    /// What a shop works every year: the sheets for it, the rules that bound it, and what is not on file.
    Yearly(verb::yearly::YearWork),
    /// Readings of a part, as found or as left.
    #[command(subcommand)]
    Reading(verb::part::Reading),
    /// Laps, mandrels, gauges: numbered, with a shelf, what they serve and when they were checked.
    #[command(subcommand)]
    Tooling(verb::tooling::Tooling),
    /// Spares: blanks, glasses, gaskets, bar; what lies there, what came and went, what is held for a job.
    #[command(subcommand)]
    Spare(verb::spare::Spare),
    /// Lathes: leadscrew, change wheels, thread dial, speeds, dials, swing, as somebody stated them.
    #[command(subcommand)]
    Lathe(verb::lathe::Lathe),
    /// Lathe cards with a number: each revision as printed, and whether what hangs on the wall still stands.
    #[command(subcommand)]
    Card(verb::card::Card),
    /// Letters to and from authorities, suppliers, hired inspectors; what was promised by when.
    #[command(subcommand)]
    Letter(verb::letter::Letter),
    /// Instruments: numbered, checked, and what was measured with one found wrong.
    #[command(subcommand)]
    Instrument(verb::instrument::Instrument),
    /// Photographs and scans, kept in the book.
    #[command(subcommand)]
    Photo(verb::photo::Photo),
    /// The log: fires, the days it is closed for, runs promised.
    #[command(subcommand)]
    Steam(verb::steam::Steam),
    /// Every clock of one or all engines, why, and which promised runs it stops.
    Due(verb::due::Due),
    /// Open, answer and close an inspection.
    #[command(subcommand)]
    Inspect(verb::inspect::Inspect),
    /// The crew's report of a day, and what came of it.
    #[command(subcommand)]
    Writeup(verb::day::Writeup),
    /// Decide on the move of an engine that does not comply, and say how it ended.
    #[command(subcommand)]
    Move(verb::moved::Move),
    /// Find what says all of these words, wherever it stands: parts, readings, findings, jobs, letters, rules, sheets.
    Find(verb::find::Find),
    /// Record a finding; see its verdict and its routes.
    #[command(subcommand)]
    Finding(verb::finding::Finding),
    /// Sign a choice among the routes of a finding.
    Decide(verb::finding::Decide),
    /// Make, follow and close a job.
    #[command(subcommand)]
    Job(verb::job::Job),
    /// State a blue check of a seat that is lapped: where it touches, how wide, after which grit.
    Blue(verb::blue::Blue),
    /// Record a proof of a job.
    Prove(verb::job::Prove),
    /// Sign a job.
    Sign(verb::job::Sign),
    /// Hand an engine to service.
    Release(verb::release::Release),
    /// Work a sheet.
    Sheet(verb::sheet::Sheet),
    /// What the law asks of welding or riveting on a boiler: approval first, tests, report.
    BoilerWork(verb::boiler_work::BoilerWork),
    /// Print a card or a drawing.
    #[command(subcommand)]
    Print(verb::print::Print),
    /// A rule, its versions, its citation; who held it against the official text; rules the shop writes itself.
    Rule(verb::rule::Rule),
}

impl Request {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`], a sentence and an exit code.
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let answer = self.answer(context)?;
        Ok(verb::past::told(answer, context.take_past()))
    }

    fn answer(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Request::Demo(it) => it.run(context),
            Request::Serve(it) => it.run(context),
            Request::New(it) => it.run(context),
            Request::Check(it) => it.run(context),
            Request::Backup(it) => it.run(context),
            Request::Restore(it) => it.run(context),
            Request::Entry(it) => it.run(context),
            Request::Person(it) => it.run(context),
            Request::Shop(it) => it.run(context),
            Request::Locomotive(it) => it.run(context),
            Request::Part(it) => it.run(context),
            Request::Family(it) => it.run(context),
            Request::Boiler(it) => it.run(context),
            Request::Tires(it) => it.run(context),
            Request::Yearly(it) => it.run(context),
            Request::Reading(it) => it.run(context),
            Request::Tooling(it) => it.run(context),
            Request::Spare(it) => it.run(context),
            Request::Lathe(it) => it.run(context),
            Request::Card(it) => it.run(context),
            Request::Letter(it) => it.run(context),
            Request::Instrument(it) => it.run(context),
            Request::Photo(it) => it.run(context),
            Request::Steam(it) => it.run(context),
            Request::Due(it) => it.run(context),
            Request::Inspect(it) => it.run(context),
            Request::Writeup(it) => it.run(context),
            Request::Move(it) => it.run(context),
            Request::Find(it) => it.run(context),
            Request::Finding(it) => it.run(context),
            Request::Decide(it) => it.run(context),
            Request::Job(it) => it.run(context),
            Request::Blue(it) => it.run(context),
            Request::Prove(it) => it.run(context),
            Request::Sign(it) => it.run(context),
            Request::Release(it) => it.run(context),
            Request::Sheet(it) => it.run(context),
            Request::BoilerWork(it) => it.run(context),
            Request::Print(it) => it.run(context),
            Request::Rule(it) => it.run(context),
        }
    }

    /// Reads a request from JSON: `{"steam": {"log": {"engine": "14", ...}}}`.
    ///
    /// # Errors
    /// What does not read.
    pub fn from_json(text: &str) -> Result<Request, Failure> {
        serde_json::from_str(text)
            .map_err(|e| Failure::Input(format!("The request does not read: {e}.")))
    }
}

/// Every verb with its parts, as typed: `steam log`, `due`.
pub fn verbs() -> Vec<String> {
    let line = Line::command();
    let mut all = Vec::new();
    for verb in line.get_subcommands() {
        let parts: Vec<_> = verb
            .get_subcommands()
            .map(|part| format!("{} {}", verb.get_name(), part.get_name()))
            .collect();
        if parts.is_empty() || !verb.is_subcommand_required_set() {
            all.push(verb.get_name().to_string());
        }
        all.extend(parts);
    }
    all
}

/// Reads arguments.
///
/// # Errors
/// What clap says: a usage error, or help that was asked for.
pub fn parse(args: impl IntoIterator<Item = OsString>) -> Result<(Globals, Request), clap::Error> {
    let matches = Line::command().try_get_matches_from(args)?;
    let line = Line::from_arg_matches(&matches)?;
    Ok((line.globals, line.request))
}
