//! The rows a book is kept as: one text a thing, so that a book is read without folding its entries.
//!
//! A row is a convenience. What it says comes from the entries, and can be dropped and folded anew.

use serde::{Serialize, de::DeserializeOwned};

use super::id::{FireId, LocomotiveId, PartId};
use super::state::Book;

/// The kinds of derived row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RowKind {
    /// The shop.
    Shop,
    /// An adopted family.
    Family,
    /// A set of rules the shop wrote.
    RuleSet,
    /// Who held a rule against the official text.
    RuleHeld,
    /// A person.
    Person,
    /// A locomotive.
    Locomotive,
    /// A part.
    Part,
    /// A set of readings of a part.
    Readings,
    /// Tooling.
    Tooling,
    /// An instrument.
    Instrument,
    /// A spare.
    Spare,
    /// A lathe.
    Lathe,
    /// A lathe card.
    Card,
    /// A letter.
    Letter,
    /// A photograph or a scan.
    Photo,
    /// A fire.
    Fire,
    /// What an engine's fires add up to.
    Log,
    /// An engine's boiler.
    Boiler,
    /// An inspection.
    Inspection,
    /// A crew's report.
    Report,
    /// A finding.
    Finding,
    /// A job.
    Job,
}

impl RowKind {
    /// All of them.
    pub const ALL: [RowKind; 22] = [
        RowKind::Shop,
        RowKind::Family,
        RowKind::RuleSet,
        RowKind::RuleHeld,
        RowKind::Person,
        RowKind::Locomotive,
        RowKind::Part,
        RowKind::Readings,
        RowKind::Tooling,
        RowKind::Instrument,
        RowKind::Spare,
        RowKind::Lathe,
        RowKind::Card,
        RowKind::Letter,
        RowKind::Photo,
        RowKind::Fire,
        RowKind::Log,
        RowKind::Boiler,
        RowKind::Inspection,
        RowKind::Report,
        RowKind::Finding,
        RowKind::Job,
    ];

    /// The word the store keeps it under.
    pub fn word(self) -> &'static str {
        match self {
            RowKind::Shop => "shop",
            RowKind::Family => "family",
            RowKind::RuleSet => "rule-set",
            RowKind::RuleHeld => "rule-held",
            RowKind::Person => "person",
            RowKind::Locomotive => "locomotive",
            RowKind::Part => "part",
            RowKind::Readings => "readings",
            RowKind::Tooling => "tooling",
            RowKind::Instrument => "instrument",
            RowKind::Spare => "spare",
            RowKind::Lathe => "lathe",
            RowKind::Card => "card",
            RowKind::Letter => "letter",
            RowKind::Photo => "photo",
            RowKind::Fire => "fire",
            RowKind::Log => "log",
            RowKind::Boiler => "boiler",
            RowKind::Inspection => "inspection",
            RowKind::Report => "report",
            RowKind::Finding => "finding",
            RowKind::Job => "job",
        }
    }

    /// The kind of a word.
    pub fn from_word(word: &str) -> Option<RowKind> {
        RowKind::ALL.into_iter().find(|k| k.word() == word)
    }
}

/// Which derived row.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Row {
    /// Its kind.
    pub kind: RowKind,
    /// Its key within the kind.
    pub key: String,
}

impl Row {
    pub(super) fn of(kind: RowKind, key: impl ToString) -> Row {
        Row {
            kind,
            key: key.to_string(),
        }
    }
}

/// The key of a fire's row. It begins with the engine, so that the fires of one engine lie together.
pub(super) fn fire_key(engine: LocomotiveId, fire: FireId) -> String {
    format!("{engine}/{fire}")
}

/// What the key of a fire's row names.
fn fire_of(key: &str) -> Option<(LocomotiveId, FireId)> {
    let (engine, fire) = key.split_once('/')?;
    Some((engine.parse().ok()?, fire.parse().ok()?))
}

/// The key of the row of a set of readings. It begins with the part, so that the sets of one part lie together, in
/// the order entered.
pub(super) fn readings_key(part: PartId, entry: u64) -> String {
    format!("{part}/{entry:012}")
}

/// What the key of such a row names.
fn readings_of(key: &str) -> Option<(PartId, u64)> {
    let (part, entry) = key.split_once('/')?;
    Some((part.parse().ok()?, entry.parse().ok()?))
}

impl Book {
    /// Every row the book is kept as, in order.
    pub fn rows(&self) -> Vec<Row> {
        let mut rows = Vec::new();
        rows.extend(self.shop.iter().map(|_| Row::of(RowKind::Shop, "")));
        rows.extend(self.families.keys().map(|k| Row::of(RowKind::Family, k)));
        rows.extend(self.rule_sets.keys().map(|k| Row::of(RowKind::RuleSet, k)));
        rows.extend(
            self.rules_held
                .keys()
                .map(|k| Row::of(RowKind::RuleHeld, k)),
        );
        rows.extend(self.persons.keys().map(|k| Row::of(RowKind::Person, k)));
        rows.extend(
            self.locomotives
                .keys()
                .map(|k| Row::of(RowKind::Locomotive, k)),
        );
        rows.extend(self.parts.keys().map(|k| Row::of(RowKind::Part, k)));
        rows.extend(
            self.readings
                .keys()
                .map(|(part, entry)| Row::of(RowKind::Readings, readings_key(part, entry))),
        );
        rows.extend(self.tooling.keys().map(|k| Row::of(RowKind::Tooling, k)));
        rows.extend(
            self.instruments
                .keys()
                .map(|k| Row::of(RowKind::Instrument, k)),
        );
        rows.extend(self.spares.keys().map(|k| Row::of(RowKind::Spare, k)));
        rows.extend(self.lathes.keys().map(|k| Row::of(RowKind::Lathe, k)));
        rows.extend(self.cards.keys().map(|k| Row::of(RowKind::Card, k)));
        rows.extend(self.letters.keys().map(|k| Row::of(RowKind::Letter, k)));
        rows.extend(self.photos.keys().map(|k| Row::of(RowKind::Photo, k)));
        rows.extend(
            self.fires
                .keys()
                .map(|(engine, id)| Row::of(RowKind::Fire, fire_key(engine, id))),
        );
        rows.extend(self.logs.keys().map(|k| Row::of(RowKind::Log, k)));
        rows.extend(self.boilers.keys().map(|k| Row::of(RowKind::Boiler, k)));
        rows.extend(
            self.inspections
                .keys()
                .map(|k| Row::of(RowKind::Inspection, k)),
        );
        rows.extend(self.reports.keys().map(|k| Row::of(RowKind::Report, k)));
        rows.extend(self.findings.keys().map(|k| Row::of(RowKind::Finding, k)));
        rows.extend(self.jobs.keys().map(|k| Row::of(RowKind::Job, k)));
        rows
    }

    /// The text a row is kept as, or nothing if the book has no such row.
    pub fn row_text(&self, row: &Row) -> Option<String> {
        fn text<T: Serialize>(it: Option<&T>) -> Option<String> {
            it.and_then(|it| serde_json::to_string(it).ok())
        }
        let key = row.key.as_str();
        match row.kind {
            RowKind::Shop => text(self.shop.as_ref()),
            RowKind::Family => text(self.families.get(key)),
            RowKind::RuleSet => text(self.rule_sets.get(key)),
            RowKind::RuleHeld => text(self.rules_held.get(key)),
            RowKind::Person => text(key.parse().ok().and_then(|k| self.persons.get(&k))),
            RowKind::Locomotive => text(key.parse().ok().and_then(|k| self.locomotives.get(&k))),
            RowKind::Part => text(key.parse().ok().and_then(|k| self.parts.get(&k))),
            RowKind::Readings => {
                text(readings_of(key).and_then(|(part, entry)| self.readings.get(part, entry)))
            }
            RowKind::Tooling => text(key.parse().ok().and_then(|k| self.tooling.get(&k))),
            RowKind::Instrument => text(key.parse().ok().and_then(|k| self.instruments.get(&k))),
            RowKind::Spare => text(key.parse().ok().and_then(|k| self.spares.get(&k))),
            RowKind::Lathe => text(key.parse().ok().and_then(|k| self.lathes.get(&k))),
            RowKind::Card => text(key.parse().ok().and_then(|k| self.cards.get(&k))),
            RowKind::Letter => text(key.parse().ok().and_then(|k| self.letters.get(&k))),
            RowKind::Photo => text(key.parse().ok().and_then(|k| self.photos.get(&k))),
            RowKind::Fire => text(fire_of(key).and_then(|(engine, id)| self.fires.get(engine, id))),
            RowKind::Log => text(key.parse().ok().and_then(|k| self.logs.get(&k))),
            RowKind::Boiler => text(key.parse().ok().and_then(|k| self.boilers.get(&k))),
            RowKind::Inspection => text(key.parse().ok().and_then(|k| self.inspections.get(&k))),
            RowKind::Report => text(key.parse().ok().and_then(|k| self.reports.get(&k))),
            RowKind::Finding => text(key.parse().ok().and_then(|k| self.findings.get(&k))),
            RowKind::Job => text(key.parse().ok().and_then(|k| self.jobs.get(&k))),
        }
    }

    /// Which engine a row belongs to, for rows that belong to one.
    pub fn row_engine(&self, row: &Row) -> Option<LocomotiveId> {
        let key = row.key.as_str();
        match row.kind {
            RowKind::Shop
            | RowKind::Family
            | RowKind::RuleSet
            | RowKind::RuleHeld
            | RowKind::Person
            | RowKind::Instrument
            | RowKind::Spare
            | RowKind::Lathe
            | RowKind::Card
            // A letter may be about no engine, and is read with the shop's other papers.
            | RowKind::Letter => None,
            RowKind::Locomotive | RowKind::Log | RowKind::Boiler => key.parse().ok(),
            RowKind::Part => key
                .parse()
                .ok()
                .and_then(|k| self.parts.get(&k))
                .map(|p| p.locomotive),
            RowKind::Readings => readings_of(key)
                .and_then(|(part, _)| self.parts.get(&part))
                .map(|p| p.locomotive),
            RowKind::Tooling => {
                let tool = key.parse().ok().and_then(|k| self.tooling.get(&k))?;
                let engine = |part: PartId| self.parts.get(&part).map(|it| it.locomotive);
                let first = engine(tool.part)?;
                // A tool of several engines is no engine's.
                let mut served = tool.serves();
                let hers = served.all(|part| engine(part) == Some(first));
                hers.then_some(first)
            }
            RowKind::Photo => key
                .parse()
                .ok()
                .and_then(|k| self.photos.get(&k))
                .and_then(|photo| photo.locomotive),
            RowKind::Fire => fire_of(key).map(|(engine, _)| engine),
            RowKind::Inspection => key
                .parse()
                .ok()
                .and_then(|k| self.inspections.get(&k))
                .map(|p| p.locomotive),
            RowKind::Report => key
                .parse()
                .ok()
                .and_then(|k| self.reports.get(&k))
                .map(|p| p.locomotive),
            RowKind::Finding => key
                .parse()
                .ok()
                .and_then(|k| self.findings.get(&k))
                .map(|p| p.locomotive),
            RowKind::Job => key
                .parse()
                .ok()
                .and_then(|k| self.jobs.get(&k))
                .map(|p| p.locomotive),
        }
    }

    /// Takes a kept row into the book.
    ///
    /// # Errors
    /// What the reader said, if the row does not read.
    pub fn take_row(&mut self, row: &Row, text: &str) -> Result<(), String> {
        fn read<T: DeserializeOwned>(text: &str) -> Result<T, String> {
            serde_json::from_str(text).map_err(|e| e.to_string())
        }
        fn key<K: std::str::FromStr<Err = super::IdError>>(row: &Row) -> Result<K, String> {
            row.key.parse().map_err(|e: super::IdError| e.to_string())
        }
        match row.kind {
            RowKind::Shop => self.shop = Some(read(text)?),
            RowKind::Family => drop(self.families.insert(row.key.clone(), read(text)?)),
            RowKind::RuleSet => drop(self.rule_sets.insert(row.key.clone(), read(text)?)),
            RowKind::RuleHeld => drop(self.rules_held.insert(row.key.clone(), read(text)?)),
            RowKind::Person => drop(self.persons.insert(key(row)?, read(text)?)),
            RowKind::Locomotive => drop(self.locomotives.insert(key(row)?, read(text)?)),
            RowKind::Part => drop(self.parts.insert(key(row)?, read(text)?)),
            RowKind::Readings => {
                let (part, _) = readings_of(&row.key).ok_or("its key names no readings")?;
                self.readings.put(part, read(text)?);
            }
            RowKind::Tooling => drop(self.tooling.insert(key(row)?, read(text)?)),
            RowKind::Instrument => drop(self.instruments.insert(key(row)?, read(text)?)),
            RowKind::Spare => drop(self.spares.insert(key(row)?, read(text)?)),
            RowKind::Lathe => drop(self.lathes.insert(key(row)?, read(text)?)),
            RowKind::Card => drop(self.cards.insert(key(row)?, read(text)?)),
            RowKind::Letter => drop(self.letters.insert(key(row)?, read(text)?)),
            RowKind::Photo => drop(self.photos.insert(key(row)?, read(text)?)),
            RowKind::Fire => {
                let (_, id) = fire_of(&row.key).ok_or("its key names no fire")?;
                self.fires.put(id, read(text)?);
            }
            RowKind::Log => drop(self.logs.insert(key(row)?, read(text)?)),
            RowKind::Boiler => drop(self.boilers.insert(key(row)?, read(text)?)),
            RowKind::Inspection => drop(self.inspections.insert(key(row)?, read(text)?)),
            RowKind::Report => drop(self.reports.insert(key(row)?, read(text)?)),
            RowKind::Finding => drop(self.findings.insert(key(row)?, read(text)?)),
            RowKind::Job => drop(self.jobs.insert(key(row)?, read(text)?)),
        }
        Ok(())
    }
}
