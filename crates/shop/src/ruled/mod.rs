//! Worked sheets whose arguments are figures of law: each comes out of the rulebook as an argument that names its rule, its
//! version and its section.
//!
//! A sheet knows no rule and the rulebook no sheet; `table` says which argument asks for which limit. What a
//! person typed stands as typed. What the rulebook does not have is not put in, and the answer says *no limit on file*:
//! the sheet then works what it can. Without an engine, the rulebook meant must be said.

pub mod boiler;
pub mod knock_on;
mod table;
pub mod tires;
pub mod yearly;
mod words;

use std::collections::BTreeMap;

use jiff::civil::Date;
use measure::{Fraction, House};
use num_traits::{CheckedDiv as _, CheckedSub as _};
use physics::card::Card;
use physics::law::boiler_governing::ID as GOVERNING;
use physics::{Basis, Given};
use rules::{Limit, Rulebook, Ruling};

use crate::Refusal;
use crate::book::{Book, Locomotive};
use crate::locomotive::Law;
use crate::verdict::{Told, figure};
use table::{Fact, Known, OF_ENGINE, ROWS, Row, So, Takes};

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// The sheet's id.
    pub sheet: &'a str,
    /// What was typed.
    pub given: &'a [Given],
    /// The rulebook or set meant, where no engine is.
    pub rules: Option<&'a str>,
    /// The engine, whose rule sets bind.
    pub engine: Option<&'a Locomotive>,
    /// Circumstances that are so beside what the sheet is told: `steel-plate`.
    pub told: &'a [String],
    /// Facts that a table or formula hangs on beside what the sheet is told: `rivet` is `steel`.
    pub facts: &'a BTreeMap<String, String>,
    /// The day that chooses the rules.
    pub on: Date,
    /// The units of whoever typed.
    pub house: House,
}

/// A sheet's arguments with the law's figures among them.
#[derive(Debug, Clone, Default)]
pub struct Filled {
    /// What was typed, and after it what the rulebook and the book gave.
    pub given: Vec<Given>,
    /// What must be said of it: figures the rulebook has not, or that hang on something nobody told.
    pub notices: Vec<String>,
    /// The rulings used, by id and version.
    pub used: Vec<(String, u32)>,
}

/// Whether a sheet has arguments that are figures of law, or that were worked with them.
pub fn asks_law(sheet: &str) -> bool {
    !of_boiler(sheet).is_empty() || ROWS.iter().any(|row| row.sheet == sheet)
}

/// One line of the table: which limit of the rulebook stands in which argument of which sheet, under which of its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asks {
    /// The sheet.
    pub sheet: &'static str,
    /// Its argument.
    pub argument: &'static str,
    /// What the rulebook calls it.
    pub quantity: &'static str,
    /// Words of the sheet under which that is so.
    pub only: &'static [(&'static str, &'static str)],
}

/// The whole table.
pub fn table() -> impl Iterator<Item = Asks> {
    ROWS.iter().map(|row| Asks {
        sheet: row.sheet,
        argument: row.argument,
        quantity: row.quantity,
        only: row.only,
    })
}

/// Which arguments of a sheet are figures of law, in the order of the table, each once.
pub fn figures_of(sheet: &str) -> Vec<&'static str> {
    let mut found: Vec<&'static str> = Vec::new();
    for row in ROWS.iter().filter(|row| row.sheet == sheet) {
        if !found.contains(&row.argument) {
            found.push(row.argument);
        }
    }
    found
}

/// Which arguments of a sheet the boiler card of an engine gives.
pub fn of_boiler(sheet: &str) -> &'static [&'static str] {
    match sheet {
        GOVERNING => &["bears", "bounds", "factors", "set"],
        _ => &[],
    }
}

/// The arguments of a sheet, with the figures that the law in force on the day has for it.
///
/// # Errors
/// Input: no such sheet or rulebook, neither an engine nor a rulebook said, a set of the engine's rules that does not
/// read, a day before the rulebook's coverage, a circumstance no rule knows.
pub fn fill(book: &Book, rules: &Rulebook, question: Question<'_>) -> Result<Filled, Refusal> {
    let card = physics::find(question.sheet)
        .map_err(|e| Refusal::input(format!("{e}.")))?
        .card;
    let sets = sets(book, rules, &question)?;
    let mut desk = Desk {
        question,
        card,
        sets,
        filled: Filled {
            given: question.given.to_vec(),
            ..Filled::default()
        },
    };
    desk.of_engine();
    let mut asked = desk.of_card(book, rules)?;
    for argument in figures_of(question.sheet) {
        for row in ROWS
            .iter()
            .filter(|row| row.sheet == question.sheet && row.argument == argument)
        {
            if desk.holds(row) {
                asked = true;
                desk.put(row)?;
            }
        }
    }
    if !asked {
        let line = desk.nothing_asked();
        desk.filled.notices.push(line);
    }
    Ok(desk.filled)
}

/// The rule sets that are asked, each with its name.
fn sets<'a>(
    book: &'a Book,
    rules: &'a Rulebook,
    question: &Question<'a>,
) -> Result<Vec<(String, &'a Rulebook)>, Refusal> {
    let on = question.on;
    if let Some(engine) = question.engine {
        if let Some(other) = question.rules.filter(|other| *other != engine.jurisdiction) {
            return Err(Refusal::input(format!(
                "The rules `{other}` and No. {} were both asked for: her own rules bind her; say one of the two.",
                engine.number
            )));
        }
        let bound = Law::of(book, rules, engine).sets(on)?;
        return Ok(bound
            .into_iter()
            .map(|bound| (bound.set.to_string(), bound.rules))
            .collect());
    }
    let Some(named) = question.rules else {
        return Err(Refusal::input(
            "Figures of law were asked for, of no engine and no rulebook: say which.",
        ));
    };
    if rules.jurisdictions().contains(named) {
        return Ok(vec![(named.to_string(), rules)]);
    }
    let edition = book.rule_sets.get(named).and_then(|kept| kept.on(on));
    match edition.and_then(|(_, edition)| edition.rules(rules).ok()) {
        Some(read) => Ok(vec![(named.to_string(), &read.rules)]),
        None => {
            let known: Vec<_> = rules.jurisdictions().into_iter().collect();
            Err(Refusal::input(format!(
                "There are no rules `{named}` on {on}; expected one of {}, or a set that this book holds.",
                known.join(", ")
            )))
        }
    }
}

/// What a row came to.
enum Came {
    /// A figure, with its ruling.
    To(Fraction, Box<(Limit, Ruling)>),
    /// No rule in force limits the quantity under what is told.
    ToNothing,
    /// Something must be told first.
    Open(Vec<String>),
    /// The rule and the sheet do not go together.
    Apart(String),
}

struct Desk<'a> {
    question: Question<'a>,
    card: &'static Card,
    sets: Vec<(String, &'a Rulebook)>,
    filled: Filled,
}

impl Desk<'_> {
    fn typed(&self, name: &str) -> Option<&str> {
        let mut given = self.filled.given.iter();
        given
            .find(|one| one.name == name)
            .map(|one| one.text.trim())
    }

    fn names(&self) -> String {
        let names: Vec<&str> = self.sets.iter().map(|(name, _)| name.as_str()).collect();
        names.join(", ")
    }

    /// What the book knows of the engine and nobody typed.
    fn of_engine(&mut self) {
        let Some(engine) = self.question.engine else {
            return;
        };
        for (_, argument, known) in OF_ENGINE
            .iter()
            .filter(|(sheet, ..)| *sheet == self.question.sheet)
        {
            let text = match known {
                Known::AxleLoad => engine.axle_load_lb.map(|load| format!("{load} lb")),
                Known::Mawp => engine.mawp_psig.map(|psig| format!("{psig} psig")),
                Known::TrackGauge => Some(words::length(engine.gauge.inches())),
            };
            if let (Some(text), None) = (text, self.typed(argument)) {
                self.filled.given.push(Given {
                    name: (*argument).to_string(),
                    text,
                    basis: Basis::Reading(format!("No. {}, as the book has her", engine.number)),
                });
            }
        }
    }

    /// The card of the engine's boiler, for the sheet that says what governs it; whether there was one.
    fn of_card(&mut self, book: &Book, rules: &Rulebook) -> Result<bool, Refusal> {
        let Some(engine) = self
            .question
            .engine
            .filter(|_| !of_boiler(self.card.id).is_empty())
        else {
            return Ok(false);
        };
        let hers = book
            .locomotives
            .iter()
            .find(|(_, it)| it.number == engine.number);
        let Some((id, _)) = hers.filter(|_| self.typed("bears").is_none()) else {
            return Ok(false);
        };
        let card = boiler::boiler_card(book, rules, *id, self.question.on)?;
        let (given, told) = boiler::of_card(&card, &engine.number);
        let typed: Vec<&str> = self
            .question
            .given
            .iter()
            .map(|it| it.name.as_str())
            .collect();
        let new = given
            .into_iter()
            .filter(|it| !typed.contains(&it.name.as_str()));
        let there = !told.is_empty();
        self.filled.given.extend(new);
        self.filled.notices.extend(told);
        self.filled.used.extend(card.used);
        Ok(there)
    }

    /// Whether a row holds under the words of the sheet.
    fn holds(&self, row: &Row) -> bool {
        let is = |(name, word): &(&str, &str)| self.typed(name) == Some(*word);
        row.only.iter().all(is) && !row.unless.as_ref().is_some_and(is)
    }

    /// Puts a row's figure among the arguments, or says why not.
    fn put(&mut self, row: &Row) -> Result<(), Refusal> {
        let came = self.resolve(row)?;
        let argument = row.argument;
        let Some(dimension) = self.card.argument(argument).and_then(|a| a.dimension()) else {
            return Ok(());
        };
        let line = match came {
            Came::To(value, told) => {
                let (limit, ruling) = *told;
                let cited = format!(
                    "{}, version {}, {}",
                    ruling.rule, ruling.version, ruling.cite
                );
                if self.typed(argument).is_some() {
                    let said = words::said(&limit);
                    self.filled.notices.push(format!(
                        "{argument} is taken as typed; the law has {said} ({cited})."
                    ));
                    return Ok(());
                }
                match words::as_typed(value, &limit.unit, dimension) {
                    Ok(text) => {
                        self.filled.given.push(Given {
                            name: argument.to_string(),
                            text,
                            basis: Basis::Ruling {
                                rule: ruling.rule.clone(),
                                version: format!("{}, {}", ruling.version, ruling.cite),
                            },
                        });
                        self.filled.used.push((ruling.rule, ruling.version));
                        return Ok(());
                    }
                    Err(why) => format!("{why} ({cited})"),
                }
            }
            Came::ToNothing => format!("no limit on file in {}", self.names()),
            Came::Open(needs) => format!("cannot tell: needs {}", needs.join("; ")),
            Came::Apart(why) => why,
        };
        if self.typed(argument).is_none() {
            self.filled.notices.push(format!("{argument}: {line}."));
        }
        Ok(())
    }

    /// Words of the sheet that no row holds for.
    fn nothing_asked(&self) -> String {
        let mut words: Vec<String> = Vec::new();
        for row in ROWS.iter().filter(|row| row.sheet == self.question.sheet) {
            for (name, _) in row.only {
                if let Some(word) = self.typed(name) {
                    let told = format!("{name} {word}");
                    if !words.contains(&told) {
                        words.push(told);
                    }
                }
            }
        }
        format!(
            "no limit on file in {} for {}.",
            self.names(),
            if words.is_empty() {
                "this".to_string()
            } else {
                words.join(", ")
            }
        )
    }

    /// The figure of a row. A list of facts, as wheel centers, must come to one figure.
    fn resolve(&self, row: &Row) -> Result<Came, Refusal> {
        let mut told: Vec<&str> = self.question.told.iter().map(String::as_str).collect();
        for so in row.so {
            match so {
                So::Is(word) => told.push(word),
                So::Judged {
                    argument,
                    quantity,
                    passes,
                    fails,
                } => match self.judged(argument, quantity)? {
                    Ok(true) => told.push(passes),
                    Ok(false) => told.push(fails),
                    Err(need) => return Ok(Came::Open(vec![need])),
                },
            }
        }
        let facts = match self.facts(row, &told)? {
            Ok(facts) => facts,
            Err(need) => return Ok(Came::Open(vec![need])),
        };
        let mut whole: Option<Came> = None;
        for facts in &facts {
            let came = self.look(row.quantity, &told, facts, row.takes)?;
            whole = Some(match (whole, came) {
                (None, came) => came,
                (Some(Came::To(one, told)), Came::To(other, _)) if one == other => {
                    Came::To(one, told)
                }
                (Some(Came::To(..)), Came::To(..)) => Came::Apart(
                    "not all of these stand under one figure of the rule; work them apart".into(),
                ),
                (Some(Came::To(..)), other) => other,
                (Some(stays), _) => stays,
            });
        }
        let came = whole.unwrap_or(Came::ToNothing);
        Ok(self.beside_argument(row.takes, came))
    }

    /// A figure less an argument of the sheet, or as a share of it, where the row says so.
    fn beside_argument(&self, takes: Takes, came: Came) -> Came {
        let (Takes::Over(name) | Takes::Share(name) | Takes::ShareOver(name)) = takes else {
            return came;
        };
        let Came::To(value, mut told) = came else {
            return came;
        };
        let dimension = self.card.argument(name).and_then(|a| a.dimension());
        let beside = self
            .typed(name)
            .zip(dimension)
            .and_then(|(text, dimension)| {
                words::in_unit(text, dimension, &told.0.unit, self.question.house)
            });
        let figure = beside.and_then(|beside| match takes {
            Takes::Over(_) => value.checked_sub(&beside),
            Takes::Share(_) => value.checked_div(&beside),
            _ => value.checked_sub(&beside)?.checked_div(&beside),
        });
        match figure {
            Some(figure) => {
                if !matches!(takes, Takes::Over(_)) {
                    told.0.unit = format!("of {name}");
                }
                Came::To(figure, told)
            }
            None => Came::Open(vec![name.to_string()]),
        }
    }

    /// Whether an argument passes another limit of the rulebook; a need where nobody can tell.
    fn judged(&self, argument: &str, quantity: &str) -> Result<Result<bool, String>, Refusal> {
        let size = self
            .typed(argument)
            .and_then(|text| words::size(text, self.question.house));
        let Some(size) = size else {
            return Ok(Err(argument.to_string()));
        };
        let told: Vec<&str> = Vec::new();
        let empty = BTreeMap::new();
        for (set, rules) in &self.sets {
            let asked = rules.limits_if_any(set, quantity, &told, self.question.on)?;
            for ruling in asked.into_iter().flat_map(|asked| asked.rulings) {
                let told = Told {
                    facts: &empty,
                    engine: self.question.engine,
                };
                if let Ok(Some(limit)) = figure(&ruling.body, told) {
                    return Ok(Ok(limit.judge(size) == rules::Outcome::Passes));
                }
            }
        }
        Ok(Err(format!("a rule on {quantity}")))
    }

    /// The facts of a row, once for each of a list; a need where one is missing.
    fn facts(
        &self,
        row: &Row,
        told: &[&str],
    ) -> Result<Result<Vec<BTreeMap<String, String>>, String>, Refusal> {
        let mut all = vec![self.question.facts.clone()];
        for (name, fact) in row.facts {
            let values = match fact {
                Fact::Is(word) => vec![(*word).to_string()],
                Fact::Word(argument) => self
                    .typed(argument)
                    .map(str::to_string)
                    .into_iter()
                    .collect(),
                Fact::Argument(argument, unit) => {
                    // Wanting, it is the rule's own table or formula that asks for it: the engine may have it.
                    let Some(text) = self.typed(argument) else {
                        continue;
                    };
                    let dimension = self.card.argument(argument).map(|a| match a.kind {
                        physics::card::Kind::List { dimension, .. }
                        | physics::card::Kind::Quantity(dimension, _) => dimension,
                        _ => measure::Dimension::Count,
                    });
                    let read = dimension.and_then(|dimension| {
                        words::as_told(text, dimension, unit, self.question.house)
                    });
                    match read {
                        Some(read) => read,
                        None => return Ok(Err(format!("{argument} in {unit}"))),
                    }
                }
                Fact::Figure(quantity, circumstances) => {
                    // Asked only where the formula needs it; above the table's own height it is the table's figure.
                    let mut figures = Vec::new();
                    for facts in &all {
                        let mut under = circumstances.to_vec();
                        under.extend(told.iter().filter(|word| {
                            let asks = |w: &str| rules::words::question(w).map(|(q, _)| q.asks);
                            circumstances.iter().all(|known| asks(known) != asks(word))
                        }));
                        if let Came::To(value, told) =
                            self.look(quantity, &under, facts, Takes::AtMost)?
                        {
                            figures.push(format!(
                                "{} {}",
                                measure::fraction::mixed(value),
                                told.0.unit
                            ));
                        }
                    }
                    figures
                }
            };
            let mut longer = Vec::new();
            for facts in &all {
                for value in &values {
                    let mut more = facts.clone();
                    more.insert((*name).to_string(), value.clone());
                    longer.push(more);
                }
            }
            if !longer.is_empty() {
                longer.dedup();
                all = longer;
            }
        }
        Ok(Ok(all))
    }

    /// The strictest figure on a quantity of all sets that are asked.
    fn look(
        &self,
        quantity: &str,
        told: &[&str],
        facts: &BTreeMap<String, String>,
        takes: Takes,
    ) -> Result<Came, Refusal> {
        let mut best: Option<(Fraction, Box<(Limit, Ruling)>)> = None;
        let mut needs: Vec<String> = Vec::new();
        for (set, rules) in &self.sets {
            let Some(asked) = rules.limits_if_any(set, quantity, told, self.question.on)? else {
                continue;
            };
            needs.extend(asked.needs.iter().map(|need| (*need).to_string()));
            for ruling in asked.rulings {
                let limit = match figure(
                    &ruling.body,
                    Told {
                        facts,
                        engine: self.question.engine,
                    },
                ) {
                    Ok(Some(limit)) => limit,
                    Ok(None) => continue,
                    Err(missing) => {
                        needs.extend(missing);
                        continue;
                    }
                };
                let value = match words::number(&limit, takes) {
                    Ok(value) => value,
                    Err(why) => return Ok(Came::Apart(format!("{why} ({})", ruling.rule))),
                };
                let better = best
                    .as_ref()
                    .is_none_or(|(known, _)| words::is_stricter(takes, value, *known));
                if better {
                    best = Some((value, Box::new((limit, ruling))));
                }
            }
        }
        // A limit that cannot be chosen yet may be the stricter one.
        Ok(match (needs.is_empty(), best) {
            (false, _) => Came::Open(needs),
            (true, Some((value, told))) => Came::To(value, told),
            (true, None) => Came::ToNothing,
        })
    }
}
