//! `letter`: letters to and from an authority, a supplier, a hired inspector; what was promised by when.

use clap::{Args, Subcommand};
use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Book, Letter as Kept, LetterAnswered, LetterId, LetterLogged, Promised, Way};
use shop::locomotive::{LetterStanding, engine, finding, job, letter, letter_stands};

use super::{date, name, saved};
use crate::words::{self, letter as say, tag};
use crate::{Answer, Context, Failure};

/// Letters.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Letter {
    /// Put a letter in the log; --on is the day it was written or came.
    Log(Log),
    /// Say what came of what a letter promised.
    Answer {
        /// Its number, such as L-001.
        number: String,
        /// What came of it.
        #[arg(long)]
        told: String,
        /// The letter that answers it, if one does.
        #[arg(long)]
        #[serde(default)]
        letter: Option<String>,
    },
    /// All of them, what is overdue first.
    List(List),
    /// One of them.
    Show {
        /// Its number, such as L-001.
        number: String,
    },
}

/// Put a letter in the log.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Log {
    /// Which way it went: to or from.
    pub way: String,
    /// With whom: an authority, a supplier, a hired inspector.
    pub whom: String,
    /// What it says, in a sentence.
    #[arg(long)]
    pub what: String,
    /// The day it was written or came, where it is another than --on or today.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub dated: Option<String>,
    /// The engine it is about.
    #[arg(long)]
    pub engine: Option<String>,
    /// The finding it is about.
    #[arg(long)]
    pub finding: Option<String>,
    /// The job it is about.
    #[arg(long)]
    pub job: Option<String>,
    /// What we promise in it, or it asks of us.
    #[arg(long, conflicts_with = "they_promise")]
    pub we_promise: Option<String>,
    /// What they promise in it, or we ask of them.
    #[arg(long)]
    pub they_promise: Option<String>,
    /// The last day of what is promised.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub until: Option<String>,
}

/// Which letters are listed.
#[derive(Debug, Clone, Default, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct List {
    /// Only those about this engine.
    #[arg(long)]
    pub engine: Option<String>,
    /// Only those whose promise is open.
    #[arg(long)]
    #[serde(default)]
    pub open: bool,
}

impl Letter {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Letter::Log(it) => it.run(context),
            Letter::Answer {
                number,
                told,
                letter: by,
            } => {
                let receipt = context.save(|book, _, _| {
                    let by = by.as_deref().map(|by| letter(book, by)).transpose()?;
                    let answered = LetterAnswered {
                        letter: letter(book, number)?.0,
                        by: by.map(|(id, _)| id),
                        told: told.clone(),
                    };
                    shop::locomotive::answer_letter(book, answered)
                })?;
                told_of(context, &receipt, number)
            }
            Letter::List(it) => it.answer(context),
            Letter::Show { number } => {
                let (book, on) = (context.book()?, context.on()?);
                let (id, kept) = letter(&book, number)?;
                let mut text = format!("{}\n", line(&book, kept, on));
                for told in more(&book, id, kept) {
                    text.push_str(&format!("  {told}\n"));
                }
                let overdue = letter_stands(kept, on) == LetterStanding::Overdue;
                Ok(Answer {
                    text,
                    json: value(&book, id, kept, on),
                    code: u8::from(overdue),
                })
            }
        }
    }
}

impl Log {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut ways = Way::ALL.into_iter();
        let way = ways.find(|way| way.word() == self.way.trim());
        let way = way.ok_or_else(|| Failure::Input(say::no_way(&self.way)))?;
        let until = self.until.as_deref().map(date).transpose()?;
        let promised = match (&self.we_promise, &self.they_promise) {
            (Some(what), None) => Some((true, what.clone())),
            (None, Some(what)) => Some((false, what.clone())),
            (None, None) if until.is_none() => None,
            (None, None) => return Err(Failure::Input(say::UNTIL_WHAT.into())),
            _ => return Err(Failure::Input(say::ONE_PROMISE.into())),
        };
        let promised = promised.map(|(ours, what)| Promised { ours, what, until });
        let id = LetterId(context.id()?);
        let asked = context.globals().clone();
        if let Some(dated) = &self.dated {
            let on = Some(date(dated)?);
            context.speak(crate::Globals {
                on,
                ..asked.clone()
            });
        }
        let receipt = context.save(|book, _, on| {
            let letter = LetterLogged {
                id,
                way,
                with: self.whom.clone(),
                what: self.what.clone(),
                locomotive: (self.engine.as_deref())
                    .map(|it| engine(book, it).map(|(id, _)| id))
                    .transpose()?,
                finding: (self.finding.as_deref())
                    .map(|it| finding(book, it).map(|(id, _)| id))
                    .transpose()?,
                job: (self.job.as_deref())
                    .map(|it| job(book, it).map(|(id, _)| id))
                    .transpose()?,
                promised: promised.clone(),
            };
            shop::locomotive::log_letter(book, letter, on)
        });
        context.speak(asked);
        let receipt = receipt?;
        let number = context.book()?.letters.get(&id).map_or(0, |it| it.number);
        told_of(context, &receipt, &tag::letter(number))
    }
}

fn told_of(
    context: &mut Context,
    receipt: &store::Receipt,
    number: &str,
) -> Result<Answer, Failure> {
    let (book, on) = (context.book()?, context.on()?);
    let (_, kept) = letter(&book, number)?;
    let shown = json!({ "letter": tag::letter(kept.number) });
    Ok(saved(receipt, line(&book, kept, on), shown))
}

/// All letters: what is overdue first, then what is open, then the newest.
pub(crate) fn by_need(book: &Book, on: Date) -> Vec<(LetterId, &Kept)> {
    let mut all: Vec<_> = book.letters.iter().map(|(id, kept)| (*id, kept)).collect();
    all.sort_by_key(|(_, kept)| {
        let stands = letter_stands(kept, on).min(LetterStanding::Answered);
        let until = kept.logged.promised.as_ref().and_then(|it| it.until);
        let until = until.filter(|_| stands < LetterStanding::Answered);
        (stands, until, std::cmp::Reverse((kept.on, kept.number)))
    });
    all
}

impl List {
    fn answer(&self, context: &mut Context) -> Result<Answer, Failure> {
        let (book, on) = (context.book()?, context.on()?);
        let only = self.engine.as_deref();
        let only = only.map(|number| engine(&book, number)).transpose()?;
        let mut text = String::new();
        let mut list = Vec::new();
        for (id, kept) in by_need(&book, on) {
            let hers = only.as_ref().is_none_or(|(id, _)| kept.engine == Some(*id));
            let open = letter_stands(kept, on) <= LetterStanding::NoDay;
            if hers && (open || !self.open) {
                text.push_str(&format!("{}\n", line(&book, kept, on)));
                list.push(value(&book, id, kept, on));
            }
        }
        if list.is_empty() {
            text.push_str(&format!("{}\n", say::NONE));
        }
        Ok(Answer::done(text, json!(list)))
    }
}

/// A letter in one line.
pub(crate) fn line(book: &Book, kept: &Kept, on: Date) -> String {
    let mut told = format!("{}  {}", tag::letter(kept.number), say::head(kept));
    let about = about(book, kept);
    if !about.is_empty() {
        told.push_str(&format!(" ({})", about.join(", ")));
    }
    if let Some(promise) = promise(book, kept, on) {
        told.push_str(&format!("; {promise}"));
    }
    told
}

/// What a letter is about, in numbers people know.
pub(crate) fn about(book: &Book, kept: &Kept) -> Vec<String> {
    let engine = kept.engine.and_then(|id| book.locomotives.get(&id));
    let finding = kept.logged.finding.and_then(|id| book.findings.get(&id));
    let job = kept.logged.job.and_then(|id| book.jobs.get(&id));
    let engine = engine.map(|it| words::engine(&it.number));
    let finding = finding.map(|it| tag::finding(it.number));
    engine
        .into_iter()
        .chain(finding)
        .chain(job.map(|it| tag::job(it.number)))
        .collect()
}

/// What it promises and how that stands.
pub(crate) fn promise(book: &Book, kept: &Kept, on: Date) -> Option<String> {
    let promised = kept.logged.promised.as_ref()?;
    let stands = letter_stands(kept, on);
    let answered = kept.answered.as_ref().map(|it| {
        let by = it.letter.and_then(|id| book.letters.get(&id));
        say::answered(it, by.map(|by| tag::letter(by.number)), name(book, it.by))
    });
    Some(say::promise(promised, stands, answered))
}

/// Scans of a letter, by number.
pub(crate) fn scans(book: &Book, id: LetterId) -> Vec<&shop::book::Photo> {
    let all = book.photos.values();
    let mut all: Vec<_> = all.filter(|it| it.added.letter == Some(id)).collect();
    all.sort_by_key(|it| it.number);
    all
}

fn more(book: &Book, id: LetterId, kept: &Kept) -> Vec<String> {
    let mut told = vec![say::entered(name(book, kept.entered_by))];
    for scan in scans(book, id) {
        told.push(say::scan(&tag::photo(scan.number), &scan.added.told));
    }
    told
}

fn value(book: &Book, id: LetterId, kept: &Kept, on: Date) -> Value {
    let it = &kept.logged;
    json!({
        "letter": tag::letter(kept.number), "on": kept.on.to_string(), "way": it.way.word(), "with": it.with, "what": it.what,
        "about": about(book, kept),
        "promised": it.promised.as_ref().map(|p| json!({
            "whose": if p.ours { "ours" } else { "theirs" }, "what": p.what, "until": p.until.map(|d| d.to_string()),
        })),
        "state": say::state(letter_stands(kept, on)),
        "answered": kept.answered.as_ref().map(|a| json!({ "on": a.on.to_string(), "by": name(book, a.by), "told": a.told })),
        "scans": scans(book, id).iter().map(|scan| tag::photo(scan.number)).collect::<Vec<_>>(),
    })
}
