//! `person`: who is in the shop, and what each may do.

use clap::Subcommand;
use serde::Deserialize;
use serde_json::json;
use shop::book::PersonId;

use super::{authority, saved};
use crate::{Answer, Context, Failure};

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
    },
    /// Everybody in the book.
    List,
}

impl Person {
    /// Does it.
    ///
    /// # Errors
    /// [`Failure`].
    pub fn run(&self, context: &mut Context) -> Result<Answer, Failure> {
        match self {
            Person::Add { name, may } => {
                let may = may
                    .iter()
                    .map(|word| authority(word))
                    .collect::<Result<Vec<_>, _>>()?;
                let id = PersonId(context.id()?);
                let receipt = context
                    .save(|book, by, _| shop::locomotive::add_person(book, id, name, &may, by))?;
                let words: Vec<_> = may.iter().map(|a| a.word()).collect();
                let can = if words.is_empty() {
                    "holds no authority".into()
                } else {
                    format!("may {}", words.join(", "))
                };
                Ok(saved(
                    &receipt,
                    format!("{} is in the book and {can}.", name.trim()),
                    json!({ "person": id.to_string() }),
                ))
            }
            Person::List => {
                let book = context.book()?;
                let mut people: Vec<_> = book.persons.values().collect();
                people.sort_by(|a, b| a.name.cmp(&b.name));
                let mut text = String::new();
                for person in &people {
                    let words: Vec<_> = person.may.iter().map(|a| a.word()).collect();
                    text.push_str(&format!(
                        "{:<24} {}\n",
                        person.name,
                        if words.is_empty() {
                            "-".into()
                        } else {
                            words.join(", ")
                        }
                    ));
                }
                let list: Vec<_> = people
                    .iter()
                    .map(|p| json!({ "name": p.name, "may": p.may.iter().map(|a| a.word()).collect::<Vec<_>>() }))
                    .collect();
                Ok(Answer::done(text, json!(list)))
            }
        }
    }
}
