//! `person`: who is in the shop, who is authorised for what, by whom and until when.

use clap::{Args, Subcommand};
use jiff::civil::Date;
use serde::Deserialize;
use serde_json::{Value, json};
use shop::book::{Authority, AuthorityStated, Book, Person as Kept, PersonAdded, PersonId};

use super::{authority, date, name, saved};
use crate::{Answer, Context, Failure, words};

/// People and what they may do.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Person {
    /// Add a person; only an officer may.
    Add {
        /// The name they sign with.
        name: String,
        /// What they may do: inspect, repair, approve.
        #[arg(long, value_delimiter = ',')]
        #[serde(default)]
        may: Vec<String>,
        /// Their trade, in the shop's words, such as machinist or apprentice. It gives no authority.
        #[arg(long)]
        #[serde(default)]
        trade: Option<String>,
    },
    /// State that somebody is given an authority, by which document and until when; only an officer may.
    Authorise(Authorise),
    /// Take an authority back; only an officer may.
    Withdraw(Withdraw),
    /// Everybody in the book.
    List,
    /// One person: each authority, by whom, by which document, from when and until when.
    Show {
        /// The name they sign with.
        name: String,
    },
}

/// Give an authority.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Authorise {
    /// The name they sign with.
    pub name: String,
    /// Which: inspect, repair or approve.
    pub authority: String,
    /// The document that gives it: a letter, a certificate, a minute.
    #[arg(long)]
    #[serde(default)]
    pub document: String,
    /// The first day it is held; the day of the statement if left out.
    #[arg(long)]
    pub from: Option<String>,
    /// The last day it is held; without an end if left out.
    #[arg(long)]
    pub until: Option<String>,
    /// What it is limited to, in the words of the document.
    #[arg(long)]
    pub within: Option<String>,
}

/// Take an authority back.
#[derive(Debug, Clone, PartialEq, Eq, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Withdraw {
    /// The name they sign with.
    pub name: String,
    /// Which: inspect, repair or approve.
    pub authority: String,
    /// Why, or which document says so.
    #[arg(long)]
    #[serde(default)]
    pub because: String,
    /// The first day it is held no more; the day of the statement if left out.
    #[arg(long)]
    pub from: Option<String>,
}

impl Person {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Person::Add { name, may, trade } => {
                let may = may
                    .iter()
                    .map(|word| authority(word))
                    .collect::<Result<Vec<_>, _>>()?;
                let id = PersonId(context.id()?);
                let receipt = context.save(|book, by, on| {
                    let new = PersonAdded {
                        id,
                        name: name.clone(),
                        may: may.clone(),
                        trade: trade.clone(),
                    };
                    shop::locomotive::add_person(book, new, by, on)
                })?;
                let can = if may.is_empty() {
                    "holds no authority".into()
                } else {
                    format!("may {}", listed(&may))
                };
                Ok(saved(
                    &receipt,
                    format!("{} is in the book and {can}.", name.trim()),
                    json!({ "person": id.to_string() }),
                ))
            }
            Person::Authorise(it) => {
                let from = it.from.as_deref().map(date).transpose()?;
                let through = it.until.as_deref().map(date).transpose()?;
                let of = Stated {
                    name: &it.name,
                    word: &it.authority,
                    given: true,
                    from,
                    through,
                    within: it.within.clone(),
                    document: &it.document,
                };
                of.state(context)
            }
            Person::Withdraw(it) => {
                let from = it.from.as_deref().map(date).transpose()?;
                let of = Stated {
                    name: &it.name,
                    word: &it.authority,
                    given: false,
                    from,
                    through: None,
                    within: None,
                    document: &it.because,
                };
                of.state(context)
            }
            Person::List => {
                let (book, on) = (context.book()?, context.on()?);
                let mut people: Vec<_> = book.persons.values().collect();
                people.sort_by(|a, b| a.name.cmp(&b.name));
                let mut text = String::new();
                for person in &people {
                    let may = person.may(on);
                    let held = if may.is_empty() {
                        "-".into()
                    } else {
                        listed(&may)
                    };
                    let trade = person.trade.as_deref();
                    let trade = trade.map_or(String::new(), |trade| format!(" ({trade})"));
                    text.push_str(&format!("{:<24} {held}{trade}\n", person.name));
                }
                let list: Vec<_> = people
                    .iter()
                    .map(|p| json!({ "name": p.name, "may": p.may(on).iter().map(|a| a.word()).collect::<Vec<_>>() }))
                    .collect();
                Ok(Answer::done(text, json!(list)))
            }
            Person::Show { name } => {
                let (book, on) = (context.book()?, context.on()?);
                let (_, person) = shop::locomotive::person(&book, name)?;
                Ok(show(&book, person, on))
            }
        }
    }
}

fn listed(may: &[Authority]) -> String {
    let words: Vec<_> = may.iter().map(|a| a.word()).collect();
    words.join(", ")
}

fn show(book: &Book, person: &Kept, on: Date) -> Answer {
    let trade = person.trade.as_deref();
    let trade = trade.map_or(String::new(), |trade| format!(", {trade}"));
    let mut text = format!("{}{trade}\n", person.name);
    let mut list = Vec::new();
    for authority in Authority::ALL {
        let told = words::people::standing(book, person, authority, on);
        text.push_str(&format!("  {:<8} {told}\n", authority.word()));
        list.push(json!({ "authority": authority.word(), "held": person.holds(authority, on), "told": told }));
    }
    if !person.stated.is_empty() {
        text.push_str("Stated, in the order entered\n");
    }
    for kept in &person.stated {
        let told = words::people::stated(kept, name(book, kept.by));
        text.push_str(&format!("  entry {:<5} {told}\n", kept.entry));
    }
    Answer::done(
        text,
        json!({ "name": person.name, "trade": person.trade, "authorities": list, "stated": person.stated.iter().map(stated).collect::<Vec<_>>() }),
    )
}

fn stated(kept: &shop::book::AuthorityKept) -> Value {
    json!({
        "entry": kept.entry, "authority": kept.authority.word(), "given": kept.given, "from": kept.from.to_string(),
        "until": kept.through.map(|d| d.to_string()), "within": kept.within, "document": kept.document,
    })
}

/// An authority to be given or taken back, as asked.
struct Stated<'a> {
    name: &'a str,
    word: &'a str,
    given: bool,
    from: Option<Date>,
    through: Option<Date>,
    within: Option<String>,
    document: &'a str,
}

impl Stated<'_> {
    fn state(&self, context: &mut Context) -> Result<Answer, Failure> {
        let which = authority(self.word)?;
        let receipt = context.save(|book, by, on| {
            let (person, _) = shop::locomotive::person(book, self.name)?;
            let new = AuthorityStated {
                person,
                authority: which,
                given: self.given,
                from: self.from.unwrap_or(on),
                through: self.through,
                within: self.within.clone(),
                document: self.document.to_string(),
            };
            shop::locomotive::state_authority(book, new, by, on)
        })?;
        let (book, on) = (context.book()?, context.on()?);
        let (_, person) = shop::locomotive::person(&book, self.name)?;
        let told = words::people::standing(&book, person, which, on);
        Ok(saved(
            &receipt,
            format!("{}, `{}`: {told}.", person.name, which.word()),
            json!({ "held": person.holds(which, on) }),
        ))
    }
}
