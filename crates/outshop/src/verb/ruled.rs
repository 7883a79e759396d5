//! A worked sheet with the figures of law it asks for: which engine or rulebook is meant stands among its arguments, and is
//! parted from them here, for every door alike.

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::House;
use physics::{Basis, Given, Sheet, Shown};
use rules::Rulebook;
use shop::book::Book;
use shop::lathe::{FILLED, fills};
use shop::locomotive::lathe;
use shop::ruled::{Question, asks_law, figures_of, fill, of_boiler};

use super::boiler::book_for;
use super::handed_on::{FROM, Over, TAKEN};
use super::rule_held;
use crate::words::{setting, sheet as say, tag};
use crate::{Context, Failure};

/// The name under which an engine is said.
pub const ENGINE: &str = "engine";
/// The name under which a rulebook is said.
pub const RULES: &str = "rules";
/// The name under which a circumstance is said.
pub const SO: &str = "so";
/// The name under which the lathe is said whose settings are wanted.
pub const LATHE: &str = "lathe";
/// Before the name of a fact.
pub const FACT: &str = "fact-";

/// What was typed for a sheet, and whose law it is to be worked by.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Asked {
    /// The sheet's own arguments.
    pub given: Vec<Given>,
    /// The engine's number.
    pub engine: Option<String>,
    /// The rulebook or set, where no engine is meant.
    pub rules: Option<String>,
    /// The lathe whose settings are wanted beside the sheet.
    pub lathe: Option<String>,
    /// Circumstances that are so.
    pub so: Vec<String>,
    /// Facts of tables and formulas that the sheet does not know.
    pub facts: BTreeMap<String, String>,
    /// The sheet that this one goes on from, as [`super::handed_on`] names it.
    pub from: Option<String>,
    /// The line taken of this sheet's own list, for the one that goes on from it.
    pub taken: Option<usize>,
}

impl Asked {
    /// Parts names and values; a value left blank is not said.
    pub fn of(pairs: &[(String, String)]) -> Asked {
        let mut asked = Asked::default();
        for (name, value) in pairs {
            let value = value.trim();
            if value.is_empty() {
                continue;
            }
            match name.as_str() {
                ENGINE => asked.engine = Some(value.to_string()),
                RULES => asked.rules = Some(value.to_string()),
                LATHE => asked.lathe = Some(value.to_string()),
                FROM => asked.from = Some(value.to_string()),
                TAKEN => asked.taken = value.parse().ok(),
                SO => asked.so.push(value.to_string()),
                other => match other.strip_prefix(FACT) {
                    Some(fact) => {
                        asked.facts.insert(fact.to_string(), value.to_string());
                    }
                    None => asked.given.push(Given::typed(other, value)),
                },
            }
        }
        asked
    }

    /// Whether a law is meant.
    pub fn is_by_law(&self) -> bool {
        self.engine.is_some() || self.rules.is_some()
    }

    /// Works the sheet as this process's book and day have it.
    ///
    /// # Errors
    /// As [`Asked::worked`].
    pub fn work(&self, context: &mut Context, id: &str) -> Result<Sheet, Failure> {
        let house = context.house();
        if !self.is_by_law() && self.lathe.is_none() {
            return self.worked(&Book::default(), context.rules()?, id, Date::MAX, house);
        }
        let rules = context.rules()?;
        let there = context.globals().book.as_ref().is_some_and(|b| b.is_file());
        let on_boiler = self.engine.as_ref().filter(|_| !of_boiler(id).is_empty());
        let (book, on) = if let Some(number) = on_boiler {
            // Her boiler card stands on readings of its components, which the rest of the book is read without.
            (book_for(context, number, None)?, context.on()?)
        } else if there || self.engine.is_some() || self.lathe.is_some() {
            (context.book()?, context.on()?)
        } else {
            (Book::default(), context.on_without_book()?)
        };
        self.worked(&book, rules, id, on, house)
    }

    /// Works the sheet; by the law of the day where an engine or a rulebook is said.
    ///
    /// # Errors
    /// What the sheet says of its arguments, with what the rulebook could not give; an engine or a rulebook that is not
    /// there.
    pub fn worked(
        &self,
        book: &Book,
        rules: &Rulebook,
        id: &str,
        on: Date,
        house: House,
    ) -> Result<Sheet, Failure> {
        let over = Over::into(id, self.from.as_deref(), book, rules, on, house)?;
        let mut given = over.with(&self.given);
        given.extend(self.of_lathe(book, id, &given)?);
        let mut sheet = self.alone(book, rules, id, &given, on, house)?;
        sheet.notices.extend(over.notices(&self.given));
        Ok(sheet)
    }

    /// What the lathe said has, for what nobody typed, where the sheet asks it.
    fn of_lathe(&self, book: &Book, id: &str, typed: &[Given]) -> Result<Vec<Given>, Failure> {
        let Some(number) = self.lathe.as_deref().filter(|_| FILLED.contains(&id)) else {
            return Ok(Vec::new());
        };
        let (_, kept) = lathe(book, number)?;
        let whence = setting::as_stated(&tag::lathe(kept.number));
        let all = fills(&kept.known, id).into_iter();
        let new = all.filter(|(name, _)| typed.iter().all(|given| given.name != *name));
        Ok(new
            .map(|(name, text)| Given {
                basis: Basis::Reading(whence.clone()),
                ..Given::typed(name, &text)
            })
            .collect())
    }

    /// Works the sheet with these arguments, whatever comes before it.
    fn alone(
        &self,
        book: &Book,
        rules: &Rulebook,
        id: &str,
        given: &[Given],
        on: Date,
        house: House,
    ) -> Result<Sheet, Failure> {
        if !self.is_by_law() {
            let mut sheet = physics::run(id, given, house)?;
            let typed = |name: &&str| given.iter().all(|one| one.name != **name);
            let left_out: Vec<&str> = figures_of(id).into_iter().filter(typed).collect();
            if !left_out.is_empty() {
                sheet.notices.push(say::law_left_out(&left_out));
            }
            return Ok(sheet);
        }
        physics::find(id)?;
        if !asks_law(id) {
            return Err(Failure::Input(say::no_law(id)));
        }
        let engine = match &self.engine {
            Some(number) => Some(shop::locomotive::engine(book, number)?.1),
            None => None,
        };
        let question = Question {
            sheet: id,
            given,
            rules: self.rules.as_deref(),
            engine,
            told: &self.so,
            facts: &self.facts,
            on,
            house,
        };
        let filled = fill(book, rules, question)?;
        let mut sheet = physics::run(id, &filled.given, house).map_err(|error| {
            if error.is_ours() || filled.notices.is_empty() {
                return Failure::Sheet(error);
            }
            let lines: Vec<String> = filled
                .notices
                .iter()
                .map(|n| format!("\n  - {n}"))
                .collect();
            Failure::Input(format!("{error}.{}", lines.concat()))
        })?;
        sheet.notices.extend(filled.notices);
        let used = filled
            .used
            .iter()
            .map(|(rule, version)| (rule.as_str(), *version));
        sheet.notices.extend(rule_held::line(book, rules, used));
        Ok(sheet)
    }
}

/// The exit code of a worked sheet: 1 where it cannot tell something or something fails.
pub fn code(sheet: &Sheet) -> u8 {
    let no = |text: &str| text.starts_with("cannot tell") || text.starts_with("fails");
    let mut results = sheet.results.iter();
    u8::from(results.any(|r| matches!(&r.value, Shown::Text(text) if no(text))))
}
