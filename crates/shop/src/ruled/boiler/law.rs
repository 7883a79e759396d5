//! The law's figures for a card: each asked for once, however many components stand on it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::House;
use physics::Given;
use rules::Rulebook;

use super::super::{Filled, Question, fill};
use crate::Refusal;
use crate::book::{Book, Locomotive};
use crate::locomotive::Law;

/// The figures of the rules that bind one engine on a day.
pub struct Figures<'a> {
    book: &'a Book,
    rules: &'a Rulebook,
    engine: &'a Locomotive,
    on: Date,
    asked: BTreeMap<(&'static str, String), Filled>,
}

impl<'a> Figures<'a> {
    pub fn of(
        book: &'a Book,
        rules: &'a Rulebook,
        engine: &'a Locomotive,
        on: Date,
    ) -> Figures<'a> {
        Figures {
            book,
            rules,
            engine,
            on,
            asked: BTreeMap::new(),
        }
    }

    /// The figure of an argument of a sheet under a word of the rulebook (`steel-plate`), or a fact (`rivet=steel`); what the
    /// rulebook says where it has none.
    pub fn figure(
        &mut self,
        sheet: &'static str,
        argument: &str,
        word: &str,
    ) -> Result<Result<Given, String>, Refusal> {
        let key = (sheet, word.to_owned());
        if !self.asked.contains_key(&key) {
            let (told, facts) = match word.split_once('=') {
                Some((name, says)) => (
                    Vec::new(),
                    BTreeMap::from([(name.to_owned(), says.to_owned())]),
                ),
                None if word.is_empty() => (Vec::new(), BTreeMap::new()),
                None => (vec![word.to_owned()], BTreeMap::new()),
            };
            let question = Question {
                sheet,
                given: &[],
                rules: None,
                engine: Some(self.engine),
                told: &told,
                facts: &facts,
                on: self.on,
                house: House::Inch,
            };
            let filled = fill(self.book, self.rules, question)?;
            self.asked.insert(key.clone(), filled);
        }
        let filled = self.asked.get(&key);
        let found = filled.and_then(|filled| filled.given.iter().find(|one| one.name == argument));
        Ok(found.cloned().ok_or_else(|| {
            let mut lines = filled.into_iter().flat_map(|filled| &filled.notices);
            let own = lines.find(|line| line.starts_with(&format!("{argument}:")));
            own.map_or_else(
                || format!("{argument}: no limit on file"),
                |line| line.trim_end_matches('.').to_owned(),
            )
        }))
    }

    /// The rule sets asked.
    pub fn sets(&self) -> Result<Vec<String>, Refusal> {
        let bound = Law::of(self.book, self.rules, self.engine).sets(self.on)?;
        Ok(bound
            .into_iter()
            .map(|bound| bound.set.to_string())
            .collect())
    }

    /// The rulings used, each once.
    pub fn used(&self) -> Vec<(String, u32)> {
        let mut all: Vec<_> = self
            .asked
            .values()
            .flat_map(|filled| filled.used.clone())
            .collect();
        all.sort();
        all.dedup();
        all
    }
}
