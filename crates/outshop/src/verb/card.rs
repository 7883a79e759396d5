//! `card`: lathe cards that the book keeps under a number, each revision as printed that day, so that a card on a wall can
//! be asked whether it still stands (`docs/decisions/0036-superseded-cards.md`).

use clap::{Args, Subcommand};
use measure::House;
use physics::Sheet;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Card as Kept, CardId, CardKept, Revision};
use shop::lathe::{changed, keep_card, revised};
use shop::locomotive::{card, job};

use super::ruled::{Asked, LATHE};
use super::setting::ForLathe;
use super::{name, saved};
use crate::words::{card as say, tag};
use crate::{Answer, Context, Failure};

/// Lathe cards with a number.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Card {
    /// Keep a worked sheet as a card with a number, or as a new revision of one.
    Keep(Keep),
    /// All of them.
    List,
    /// A card with its revisions, and whether the newest still stands.
    Show {
        /// Its number, such as C-001.
        number: String,
    },
    /// What is read off a card's bars: whether what hangs there still stands, and what changed since.
    Read {
        /// What was read, such as "C-001 R1" or "J-001 E412".
        code: String,
    },
}

/// Keep a card.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Keep {
    /// The sheet, such as thread.cutting.
    pub sheet: String,
    /// What goes in: name=value, as for the sheet.
    #[serde(default)]
    pub given: Vec<String>,
    /// The lathe whose settings stand on it, such as LA-001.
    #[arg(long)]
    #[serde(default)]
    pub lathe: Option<String>,
    /// The card that this is a new revision of, such as C-001.
    #[arg(long, requires = "because")]
    #[serde(default)]
    pub revises: Option<String>,
    /// With --revises: why.
    #[arg(long)]
    #[serde(default)]
    pub because: Option<String>,
}

/// A card as it is worked now, or as it was kept.
pub(crate) struct Worked {
    /// The sheet.
    pub sheet: Sheet,
    /// The settings.
    pub settings: Option<ForLathe>,
}

impl Worked {
    /// Works what was said for a card, in these units.
    pub(crate) fn of(
        context: &mut Context,
        id: &str,
        given: &[(String, String)],
        house: House,
    ) -> Result<Worked, Failure> {
        let asked = Asked::of(given);
        let (book, rules, on) = (context.book()?, context.rules()?, context.on()?);
        let sheet = asked.worked(&book, rules, id, on, house)?;
        let settings = match &asked.lathe {
            Some(number) => ForLathe::of(&book, number, &sheet, house)?,
            None => None,
        };
        Ok(Worked { sheet, settings })
    }

    /// As it is kept.
    pub(crate) fn text(&self) -> String {
        let settings = self.settings.as_ref().map(ForLathe::text);
        format!("{}{}", self.sheet.to_text(), settings.unwrap_or_default())
    }
}

/// How a card stands that somebody asks about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// Whether what hangs there may be worked to as the book stands.
    pub stands: bool,
    /// In sentences.
    pub said: Vec<String>,
    /// What is different now: what it was, what it is.
    pub changed: Vec<(String, String)>,
    /// The page of it.
    pub path: String,
}

impl Standing {
    /// Below one another.
    pub fn text(&self) -> String {
        let mut text: String = self.said.iter().map(|line| format!("{line}\n")).collect();
        for (was, is) in &self.changed {
            text.push_str(&format!("  {}\n", say::change(was, is)));
        }
        text
    }

    fn value(&self) -> Value {
        let changed = self.changed.iter();
        let changed: Vec<_> = changed
            .map(|(was, is)| json!({ "was": was, "is": is }))
            .collect();
        json!({ "stands": self.stands, "says": self.said, "changed": changed, "page": self.path })
    }
}

impl Card {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Card::Keep(it) => it.run(context),
            Card::List => {
                let book = context.book()?;
                let mut all: Vec<&Kept> = book.cards.values().collect();
                all.sort_by_key(|card| card.number);
                let mut text: String = all.iter().map(|card| format!("{}\n", line(card))).collect();
                if all.is_empty() {
                    text = format!("{}\n", say::NONE);
                }
                let list: Vec<Value> = all.iter().map(|card| value(card)).collect();
                Ok(Answer::done(text, json!(list)))
            }
            Card::Show { number } => {
                let book = context.book()?;
                let (_, kept) = card(&book, number)?;
                let mut text = format!("{}\n", line(kept));
                for (at, revision) in kept.revisions.iter().enumerate() {
                    let said = say::revision(at + 1, revision, name(&book, revision.by));
                    text.push_str(&format!("  {said}\n"));
                }
                let standing = now(context, kept)?;
                text.push_str(&standing.text());
                let mut shown = value(kept);
                if let Some(object) = shown.as_object_mut() {
                    object.insert("standing".into(), standing.value());
                }
                Ok(Answer {
                    text,
                    json: shown,
                    code: u8::from(!standing.stands),
                })
            }
            Card::Read { code } => {
                let standing = read(context, code)?;
                let standing = standing.ok_or_else(|| Failure::Input(say::no_code(code)))?;
                Ok(Answer {
                    text: standing.text(),
                    json: standing.value(),
                    code: u8::from(!standing.stands),
                })
            }
        }
    }
}

impl Keep {
    fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        let mut given = Vec::new();
        for typed in &self.given {
            given.push(super::pair(typed, "an argument of a sheet")?);
        }
        given.extend(self.lathe.iter().map(|it| (LATHE.to_owned(), it.clone())));
        let house = context.house();
        let text = Worked::of(context, &self.sheet, &given, house)?.text();
        let new = CardId(context.id()?);
        let made = match &self.revises {
            Some(number) => card(&context.book()?, number)?.0,
            None => new,
        };
        let receipt = context.save(|book, _, _| {
            let kept = CardKept {
                card: made,
                sheet: self.sheet.clone(),
                given: written(&given),
                house: say::house(house).into(),
                text: text.clone(),
                because: self.because.clone(),
            };
            keep_card(book, kept)
        })?;
        let book = context.book()?;
        let kept = book.cards.get(&made);
        let kept = kept.ok_or_else(|| Failure::Machine(say::NOT_THERE.into()))?;
        let named = json!({ "card": tag::card(kept.number), "revision": kept.revisions.len() });
        Ok(saved(&receipt, line(kept), named))
    }
}

/// Names and values as they are kept.
fn written(given: &[(String, String)]) -> Vec<String> {
    let said = given.iter().filter(|(_, value)| !value.trim().is_empty());
    said.map(|(name, value)| format!("{name}={}", value.trim()))
        .collect()
}

/// What was kept of a revision, as names and values.
pub(crate) fn given(revision: &Revision) -> Vec<(String, String)> {
    let parted = revision.given.iter().filter_map(|it| it.split_once('='));
    parted
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

/// The units of a revision.
pub(crate) fn house(revision: &Revision) -> House {
    if revision.house == say::house(House::Metric) {
        House::Metric
    } else {
        House::Inch
    }
}

/// The number and the revision, as the bars on the card have them.
pub(crate) fn code(number: u32, revision: usize) -> String {
    format!("{} R{revision}", tag::card(number))
}

/// What a card's bars say: of a lathe card its revision, of a job's card the entry through which it shows the job. None
/// where it is no such code.
///
/// # Errors
/// There is no such card or job, or no such revision of it.
pub fn read(context: &mut Context, code: &str) -> Result<Option<Standing>, Failure> {
    let Some((number, mark)) = parted(code) else {
        return Ok(None);
    };
    match mark {
        Mark::Revision(at) => {
            let book = context.book()?;
            let (_, kept) = card(&book, number)?;
            let number = tag::card(kept.number);
            let Some(held) = kept.revision(at) else {
                return Err(Failure::Input(say::no_revision(
                    &number,
                    at,
                    kept.revisions.len(),
                )));
            };
            let Some((newest, by)) = kept.newest().filter(|(newest, _)| *newest != at) else {
                return now(context, kept).map(Some);
            };
            let because = by.because.as_deref();
            Ok(Some(Standing {
                stands: false,
                said: vec![say::superseded(
                    &number,
                    at,
                    newest,
                    name(&book, by.by),
                    by.on,
                    because,
                )],
                changed: revised(held, by),
                path: format!("/card/{number}"),
            }))
        }
        Mark::Entry(entry) => {
            let book = context.book()?;
            let (id, kept) = job(&book, number)?;
            let number = tag::job(kept.number);
            let path = format!("/job/{number}");
            let stands = kept.last <= entry;
            let mut said = vec![if stands {
                say::job_stands(&number, entry)
            } else {
                say::job_moved(&number, entry, kept.last)
            }];
            if let Some((on, ..)) = &kept.closed {
                said.push(say::job_closed(&number, *on));
            }
            let changed = if stands {
                Vec::new()
            } else {
                super::entry::of_job_since(context, id, entry)?
            };
            Ok(Some(Standing {
                stands,
                said,
                changed,
                path,
            }))
        }
    }
}

/// What stands after the number on a card's bars.
enum Mark {
    Revision(usize),
    Entry(u64),
}

/// `C-001 R2`, `J-001 E412`.
fn parted(code: &str) -> Option<(&str, Mark)> {
    let (number, mark) = code.trim().split_once(char::is_whitespace)?;
    let mark = mark.trim();
    let after = |letter: char| {
        mark.strip_prefix(letter)
            .or(mark.strip_prefix(letter.to_ascii_lowercase()))
    };
    let first = number.chars().next()?.to_ascii_uppercase();
    match first {
        'C' => Some((number, Mark::Revision(after('R')?.parse().ok()?))),
        'J' => Some((number, Mark::Entry(after('E')?.parse().ok()?))),
        _ => None,
    }
}

/// The newest revision, worked again as the book stands now.
pub(crate) fn now(context: &mut Context, kept: &Kept) -> Result<Standing, Failure> {
    let number = tag::card(kept.number);
    let path = format!("/card/{number}");
    let Some((at, newest)) = kept.newest() else {
        return Err(Failure::Machine(say::NOT_THERE.into()));
    };
    let again = Worked::of(context, &kept.sheet, &given(newest), house(newest));
    let (stands, said, changed) = match again {
        Ok(again) if again.text() == newest.text => {
            (true, say::stands(&number, at, newest.on), Vec::new())
        }
        Ok(again) => {
            let changed = changed(&newest.text, &again.text());
            (
                changed.is_empty(),
                say::reads_otherwise(&number, at, changed.is_empty()),
                changed,
            )
        }
        Err(why) => (
            false,
            say::cannot_be_worked(&number, at, &why.to_string()),
            Vec::new(),
        ),
    };
    Ok(Standing {
        stands,
        said: vec![said],
        changed,
        path,
    })
}

fn line(kept: &Kept) -> String {
    let (number, revision) = (tag::card(kept.number), kept.revisions.len());
    let newest = kept.revisions.last();
    let given = newest.map(|it| it.given.join(" ")).unwrap_or_default();
    say::line(&number, revision, &kept.sheet, &given)
}

fn value(kept: &Kept) -> Value {
    let revisions = kept.revisions.iter().enumerate().map(|(at, it)| {
        json!({ "revision": at + 1, "given": it.given, "on": it.on.to_string(), "because": it.because, "text": it.text })
    });
    json!({
        "card": tag::card(kept.number), "sheet": kept.sheet,
        "revisions": revisions.collect::<Vec<_>>(), "last": kept.last,
    })
}
