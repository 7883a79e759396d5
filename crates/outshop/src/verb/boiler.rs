//! `boiler`: what a boiler is made of, the card of what each component would bear, and cards signed.

use std::collections::BTreeMap;
use std::path::PathBuf;

use clap::{Args, Subcommand};
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{BoilerEntered, Book, EntryId, LocomotiveId, Meta, PersonId, Statement};
use shop::locomotive::{BOILER_KINDS, BOILER_PLACES, FactAs, engine, enter_boiler};
use shop::ruled::boiler::{BoilerCard, Governing, Held, boiler_card, borne, sign_boiler_card};

use super::{boiler_map, name, pair, saved, survey, test_day, wrap};
use crate::logfile::{self, plain};
use crate::words::{self, boiler as say};
use crate::{Answer, Context, Failure};

/// The boiler: its components, what each would bear, the card of it.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Boiler {
    /// Enter a component, or more of one that stands: sizes and words with the paper they stand on.
    Enter(Enter),
    /// Show what a list of components would enter, line by line; with --write, enter it.
    Import(Import),
    /// Every component with the pressure it would bear, what that stood on, and what is missing.
    Card {
        /// Her number.
        engine: String,
    },
    /// Sign the card as it stands: a new edition, frozen. It approves no pressure.
    Sign {
        /// Her number.
        engine: String,
        /// Why there is a new one: the survey, the repair.
        #[arg(long, default_value = "")]
        #[serde(default)]
        because: String,
    },
    /// Enter a survey of a sheet, typed row by row or from a file, which is only shown without --write.
    Survey(survey::TakeSurvey),
    /// The newest survey of a sheet: thinnest, loss, life, when next, what to look at again.
    Surveyed {
        /// Her number.
        engine: String,
        /// The component.
        component: String,
    },
    /// Enter where the staybolts of a sheet are.
    Map(boiler_map::MapStays),
    /// Say what was found or done at staybolts.
    Stay(boiler_map::TellStays),
    /// The map of the staybolts: those that count as broken against the law, and what is to be renewed by when.
    Stays {
        /// Her number.
        engine: String,
    },
    /// The day of her hydrostatic and steam test: what is due and why, pressures, figures, what is looked at.
    TestDay {
        /// Her number.
        engine: String,
    },
    /// The kinds of component, what each is worked from, and the places of the card.
    Kinds,
}

/// Enter a component, or more of one that stands.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Enter {
    /// Her number.
    pub engine: String,
    /// The component, in the shop's words: `second course`.
    pub component: String,
    /// What it is worked as: course, stayed-sheet, stays, brace, segment, tube, dome and so on; `boiler kinds` lists them.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub kind: String,
    /// Where it is: barrel, crown, staybolts and so on; `boiler kinds` lists them.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub place: String,
    /// The drawing or paper that says so, or who measured it and with what.
    #[arg(long, default_value = "")]
    #[serde(default)]
    pub source: String,
    /// name=value with its unit, such as thickness=.571in; name=unknown takes back what was said.
    #[serde(default)]
    pub facts: Vec<String>,
}

/// Show what a list of components would enter; with --write, enter it.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Import {
    /// Her number.
    pub engine: String,
    /// The file, CSV or XLSX: columns component, kind, place, source, and one for each fact by its name.
    pub file: PathBuf,
    /// The sheet of a workbook that has several.
    #[arg(long)]
    pub sheet: Option<String>,
    /// Enter it. Without this nothing is changed.
    #[arg(long)]
    #[serde(default)]
    pub write: bool,
}

impl Boiler {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Boiler::Enter(it) => it.run(context),
            Boiler::Import(it) => it.run(context),
            Boiler::Card { engine } => show(context, engine),
            Boiler::Sign { engine, because } => sign(context, engine, because),
            Boiler::Survey(it) => it.run(context),
            Boiler::Surveyed { engine, component } => {
                boiler_map::surveyed(context, engine, component)
            }
            Boiler::Map(it) => it.run(context),
            Boiler::Stay(it) => it.run(context),
            Boiler::Stays { engine } => boiler_map::stays(context, engine),
            Boiler::TestDay { engine } => test_day::show(context, engine),
            Boiler::Kinds => Ok(kinds()),
        }
    }
}

impl Enter {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut facts = BTreeMap::new();
        // A page sends them as lines of one field.
        let lines = self.facts.iter().flat_map(|typed| typed.lines());
        for typed in lines.filter(|typed| !typed.trim().is_empty()) {
            let (fact, says) = pair(typed, say::A_FACT)?;
            if facts.insert(fact.clone(), says).is_some() {
                return Err(Failure::Input(say::twice(&fact)));
            }
        }
        let receipt = context.save_of(&self.engine, |book, by, on| {
            let (id, _) = engine(book, &self.engine)?;
            let told = BoilerEntered {
                locomotive: id,
                component: self.component.clone(),
                kind: self.kind.clone(),
                place: self.place.clone(),
                facts: facts.clone(),
                source: self.source.clone(),
            };
            enter_boiler(book, told, by, on)
        })?;
        let told = say::entered(&self.engine, self.component.trim(), facts.len());
        Ok(saved(&receipt, told, json!({})))
    }
}

/// The part of the book that a card is worked from: hers, with the readings of parts named as components are, or as one of
/// them is.
///
/// # Errors
/// As [`Context::book_of`].
pub fn book_for(
    context: &mut Context,
    number: &str,
    component: Option<&str>,
) -> Result<Book, Failure> {
    let mut book = context.book_of(number)?;
    let (id, _) = engine(&book, number)?;
    let named = |name: &str| {
        let boiler = book.boilers.get(&id);
        component.is_none_or(|one| one == name)
            && boiler.is_some_and(|boiler| boiler.component(name).is_some())
    };
    let parts: Vec<_> = book
        .parts
        .iter()
        .filter(|(_, part)| part.locomotive == id && named(&part.name))
        .map(|(part, _)| *part)
        .collect();
    for part in parts {
        context.store()?.add_readings(&mut book, part)?;
    }
    Ok(book)
}

/// The card of an engine out of her book.
///
/// # Errors
/// As [`boiler_card`].
pub fn card_of(
    context: &mut Context,
    number: &str,
) -> Result<(Book, LocomotiveId, BoilerCard), Failure> {
    let (on, rules) = (context.on()?, context.rules()?);
    let book = book_for(context, number, None)?;
    let (id, _) = engine(&book, number)?;
    let card = boiler_card(&book, rules, id, on)?;
    Ok((book, id, card))
}

/// How far the book has come with her and her boiler.
pub(super) fn marks(book: &Book, id: LocomotiveId) -> (Option<u64>, Option<u64>) {
    let boiler = book.boilers.get(&id).map(|boiler| boiler.last);
    (boiler, book.locomotives.get(&id).map(|kept| kept.last))
}

fn sign(context: &mut Context, number: &str, because: &str) -> Result<Answer, Failure> {
    let (book, id, card) = card_of(context, number)?;
    // The readings the card stands on are not before the writer's eyes: that nothing has changed since, is.
    let seen = marks(&book, id);
    let receipt = context.save_of(number, |book, by, on| {
        if marks(book, id) != seen {
            return Err(shop::Refusal::refused(say::CHANGED).todo(say::LOOK_AGAIN));
        }
        sign_boiler_card(book, &card, id, because, by, on)
    })?;
    Ok(saved(
        &receipt,
        say::signed(number, &card.governs()),
        json!({ "governs": card.governs() }),
    ))
}

fn show(context: &mut Context, number: &str) -> Result<Answer, Failure> {
    let (book, id, card) = card_of(context, number)?;
    let kept = book.locomotives.get(&id);
    let number = kept.map_or(number, |kept| kept.number.as_str());
    let code = match card.held() {
        Held::Complies => 0,
        Held::Fails | Held::CannotTell => 1,
    };
    Ok(Answer {
        text: text(&book, number, &card),
        json: value(number, &card),
        code,
    })
}

/// The card beside the one signed last, a sentence each.
pub fn since(book: &Book, card: &BoilerCard) -> Vec<String> {
    let by = card.last.as_ref().map_or("", |last| name(book, last.by));
    say::since(card, by)
}

fn text(book: &Book, number: &str, card: &BoilerCard) -> String {
    let mut text = format!("{}\n", say::title(number));
    let mut line = |indent: usize, said: &str| {
        let said = wrap(said, indent, 118);
        text.push_str(&format!("{}{said}\n", " ".repeat(indent)));
    };
    line(2, &say::rules(&card.rules));
    line(2, &say::set(card.set_psig));
    line(
        2,
        &format!(
            "{}: {}",
            words::sentence(card.held().word()),
            card.governs()
        ),
    );
    for one in &card.lines {
        line(
            2,
            &format!(
                "{}: {}. {}",
                one.component,
                borne(one.bears),
                say::against(one, card.set_psig)
            ),
        );
        for it in say::stood_on(&one.stood_on) {
            line(6, &it);
        }
        for it in &one.missing {
            line(6, &say::missing(it));
        }
        for it in &one.notices {
            line(6, it);
        }
    }
    for (_, means) in &card.nothing_of {
        line(2, &say::nothing_of(means));
    }
    for (component, seen) in &card.not_fitted {
        line(2, &say::not_fitted(component, seen));
    }
    for said in say::level(card.level.as_ref()) {
        line(2, &said);
    }
    line(2, say::FIELDS_LACKING);
    for field in card.fields.iter().filter(|field| field.has.is_none()) {
        line(6, &say::lacks(field));
    }
    let mut indent = 2;
    for said in since(book, card) {
        line(indent, &said);
        indent = 6;
    }
    for said in say::CAUTIONS {
        line(2, said);
    }
    text
}

fn value(number: &str, card: &BoilerCard) -> Value {
    let last = card.last.as_ref();
    let (governing, psi) = match &card.governing {
        Governing::Told(psi, name) => (Some(name), Some(*psi)),
        Governing::NotAbove(psi, name) => (Some(name), Some(*psi)),
        Governing::CannotTell => (None, None),
    };
    let lines = card.lines.iter().map(|line| {
        json!({
            "component": line.component, "kind": line.kind, "place": line.place,
            "bears": borne(line.bears), "psi": line.bears.bound(), "told": matches!(line.bears, shop::ruled::boiler::Bears::Told(_)),
            "against_set_pressure": line.held.word(), "times_set_pressure": line.times, "factor": line.factor,
            "thinnest": line.thinnest.as_ref().map(|(says, from)| json!({ "says": says, "basis": from })),
            "stood_on": line.stood_on.iter().map(|it| json!({ "sheet": it.sheet, "name": it.name, "says": it.says, "basis": it.basis })).collect::<Vec<_>>(),
            "missing": line.missing, "notices": line.notices,
        })
    });
    json!({
        "engine": number, "rules": card.rules, "set_psig": card.set_psig,
        "verdict": card.held().word(), "governs": card.governs(), "governing": governing, "governing_psi": psi,
        "governing_known": matches!(card.governing, Governing::Told(..)),
        "components": lines.collect::<Vec<_>>(),
        "nothing_entered_of": card.nothing_of.iter().map(|(word, _)| word).collect::<Vec<_>>(),
        "not_fitted": card.not_fitted.iter().map(|(component, _)| component).collect::<Vec<_>>(),
        "level": card.level.as_ref().map(|level| json!({ "glass": level.glass, "cock": level.cock, "worked_since": level.worked_since })),
        "fields": card.fields.iter().map(|it| json!({ "asks": it.asks, "read_on_the_form": it.read, "has": it.has, "lacks": it.lacks })).collect::<Vec<_>>(),
        "used": card.used.iter().map(|(rule, version)| json!({ "rule": rule, "version": version })).collect::<Vec<_>>(),
        "edition": last.map(|last| last.card.edition), "differs": last.map(|_| &card.differs),
        "cautions": say::CAUTIONS,
    })
}

fn kinds() -> Answer {
    let mut text = String::new();
    let mut list = Vec::new();
    for kind in BOILER_KINDS {
        text.push_str(&format!("{}: {}\n", kind.word, kind.means));
        let mut facts = Vec::new();
        for fact in kind.facts {
            let takes = match fact.takes {
                FactAs::Argument(sheet, _) => say::argument_of(sheet),
                FactAs::Word(words) => words.join(", "),
                FactAs::Count => say::A_COUNT.to_owned(),
                FactAs::Text => say::ANY_WORDS.to_owned(),
            };
            text.push_str(&format!(
                "  {:<20} {}\n",
                fact.name,
                wrap(&format!("{}; {takes}", fact.means), 23, 118)
            ));
            facts.push(json!({ "name": fact.name, "means": fact.means, "takes": takes }));
        }
        list.push(json!({ "kind": kind.word, "means": kind.means, "facts": facts }));
    }
    text.push_str(say::PLACES);
    for (word, means) in BOILER_PLACES {
        text.push_str(&format!("  {word:<20} {means}\n"));
    }
    Answer::done(
        text,
        json!({ "kinds": list, "places": BOILER_PLACES.iter().map(|(word, _)| word).collect::<Vec<_>>() }),
    )
}

impl Import {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (file, bytes) = super::import::read(&self.file, logfile::MOST_BYTES)?;
        let on = context.on()?;
        let mut book = context.book_of(&self.engine)?;
        let by = match context.by() {
            Ok(by) => shop::locomotive::person(&book, by)?.0,
            Err(_) => PersonId(0),
        };
        let (id, _) = engine(&book, &self.engine)?;
        let seen = marks(&book, id);
        let rows = logfile::rows(&file, &bytes, self.sheet.as_deref())?;
        let mut rows = rows.iter().filter(|row| !logfile::blank(row));
        let heading: Vec<String> = rows
            .next()
            .map(|row| {
                row.cells
                    .iter()
                    .map(|cell| plain(&cell.written()).replace(' ', "_"))
                    .collect()
            })
            .unwrap_or_default();
        if !heading.iter().any(|word| word == "component") {
            return Err(Failure::Input(say::no_heading(&file)));
        }
        let (mut text, mut statements, mut refused, mut lines) =
            (format!("{file}\n"), Vec::new(), 0, Vec::new());
        for row in rows {
            let mut told = BoilerEntered {
                locomotive: id,
                component: String::new(),
                kind: String::new(),
                place: String::new(),
                facts: BTreeMap::new(),
                source: String::new(),
            };
            for (word, cell) in heading.iter().zip(&row.cells) {
                let says = cell.written();
                match word.as_str() {
                    _ if says.is_empty() => {}
                    "component" => told.component = says,
                    "kind" => told.kind = says,
                    "place" => told.place = says,
                    "source" => told.source = says,
                    fact => drop(told.facts.insert(fact.to_owned(), says)),
                }
            }
            if told.source.is_empty() {
                told.source = say::file_line(&file, row.place);
            }
            let component = told.component.clone();
            let fate = match (&row.wrong, weigh(&mut book, told, by, on)) {
                (Some(why), _) => Err(why.clone()),
                (None, Err(why)) => Err(why.to_string()),
                (None, Ok(made)) => Ok(made),
            };
            let said = match fate {
                Ok(made) => {
                    statements.extend(made);
                    say::ENTERS.to_owned()
                }
                Err(why) => {
                    refused += 1;
                    say::refused(&why)
                }
            };
            text.push_str(&format!(
                "  {:>4}  {component:<28} {}\n",
                row.place,
                wrap(&said, 36, 118)
            ));
            lines.push(json!({ "line": row.place, "component": component, "said": said }));
        }
        let mut value = json!({ "file": file, "enters": statements.len(), "refused": refused, "written": self.write, "lines": lines });
        if refused > 0 && self.write {
            return Err(Failure::Input(format!("{text}{}", say::LINES_REFUSED)));
        }
        if !self.write || statements.is_empty() {
            text.push_str(say::NOTHING_CHANGED);
            let code = if refused > 0 { 2 } else { 0 };
            return Ok(Answer {
                text,
                json: value,
                code,
            });
        }
        let (act, batch) = context.batch_act()?;
        let receipt = context.store()?.write_of(&act, id, |book, _| {
            if marks(book, id) != seen {
                return Err(shop::Refusal::refused(say::CHANGED).todo(say::LOOK_AGAIN));
            }
            Ok(statements.clone())
        })?;
        if let Value::Object(map) = &mut value {
            map.insert("batch".into(), json!(batch.to_string()));
        }
        text.push_str(&say::batch(&batch.to_string()));
        Ok(saved(&receipt, text, value))
    }
}

/// Enters a line into a book of this weighing, so that later lines see it.
fn weigh(
    book: &mut Book,
    told: BoilerEntered,
    by: PersonId,
    on: jiff::civil::Date,
) -> Result<Vec<Statement>, shop::Refusal> {
    // A dry run needs no name: what it would enter is nobody's yet.
    let made = match by {
        PersonId(0) => shop::locomotive::admit_boiler(book, told, on)
            .map(|it| vec![Statement::BoilerEntered(it)]),
        by => enter_boiler(book, told, by, on),
    }?;
    for statement in &made {
        let meta = Meta {
            seq: 0,
            id: EntryId(0),
            batch: None,
            person: by,
            done_on: on,
        };
        book.apply(meta, statement)
            .map_err(|why| shop::Refusal::refused(say::cannot_take(&why.to_string())))?;
    }
    Ok(made)
}
