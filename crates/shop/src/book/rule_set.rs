//! A set of rules that the shop wrote, as the book keeps it: every text of it that was taken in, each from its day.

use jiff::civil::Date;
use rules::{RuleSet, Rulebook};
use serde::{Deserialize, Serialize};

use super::id::PersonId;
use super::read::Read;
use super::statement::RulesAdopted;

/// A set with its texts, in the order taken in.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct RuleSetKept {
    /// The texts, each holding from a later day than the one before it.
    pub editions: Vec<Edition>,
}

/// One text of a set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Edition {
    /// The first day it holds; it holds until the next one does.
    pub from: Date,
    /// The TOML text.
    pub text: String,
    /// Who took it in.
    pub by: PersonId,
    /// The entry.
    pub entry: u64,
    /// The text as read, once somebody asked.
    #[serde(skip)]
    read: Read<RuleSet>,
}

impl Edition {
    pub(super) fn new(stated: &RulesAdopted, by: PersonId, entry: u64) -> Edition {
        Edition {
            from: stated.from,
            text: stated.text.clone(),
            by,
            entry,
            read: Read::default(),
        }
    }

    /// The rules of this text.
    ///
    /// # Errors
    /// Its first fault. A text is read before it is taken in, so this fails only in a damaged book, or where a
    /// later build of the program took a name of the set for its own rulebook.
    pub fn rules(&self, built_in: &Rulebook) -> Result<&RuleSet, &str> {
        self.read.get(|| {
            RuleSet::read(&self.text, built_in).map_err(|faults| {
                let first = faults.into_iter().next();
                first.map_or_else(String::new, |fault| fault.at("line"))
            })
        })
    }
}

impl RuleSetKept {
    /// The text that holds on a day, with its number counted from 1; none before the first.
    pub fn on(&self, on: Date) -> Option<(u32, &Edition)> {
        let numbered = (1u32..).zip(&self.editions);
        numbered.filter(|(_, e)| e.from <= on).last()
    }

    /// The newest text, with its number.
    pub fn newest(&self) -> Option<(u32, &Edition)> {
        (1u32..).zip(&self.editions).last()
    }
}
