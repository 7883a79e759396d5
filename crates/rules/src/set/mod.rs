//! A set of rules that a shop wrote: its own limits and clocks, or another jurisdiction's rules as the shop wrote
//! them down. One text holds the whole set, with the papers it cites; it is never taken for this program's rulebook.

mod beside;
mod follow;
mod place;
mod read;

use std::collections::BTreeMap;

pub use beside::{Beside, beside, limits as stricter};

use crate::{Rulebook, RulebookError};

/// Where a rule comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Origin {
    /// The law, in the rulebook inside this program.
    Law,
    /// A shop's own rule: no law, and never shown as one.
    Shop,
    /// The rules of another jurisdiction, as a shop wrote them down. Nobody but that shop has held them against
    /// their source.
    Elsewhere,
}

impl Origin {
    /// Its word in a set's file; nothing for the law, which no file of a shop can be.
    pub fn word(self) -> &'static str {
        match self {
            Origin::Law => "",
            Origin::Shop => "shop",
            Origin::Elsewhere => "elsewhere",
        }
    }

    /// How it is spoken of beside the rule's name: "this shop's own".
    pub fn told(self) -> &'static str {
        match self {
            Origin::Law => "the rulebook of this program",
            Origin::Shop => "this shop's own",
            Origin::Elsewhere => "of another jurisdiction, as this shop wrote it down",
        }
    }

    /// Whether a reading outside it is a matter of law: everywhere but under a shop's own rule.
    pub fn binds_as_law(self) -> bool {
        self != Origin::Shop
    }
}

/// An inspection that a set declares, beside those of the built-in rounds. It contains no other inspection and no
/// other contains it: what restarts a clock and what is on a list is said in full.
#[derive(Debug, Clone, PartialEq, Eq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Declared {
    /// Its word.
    pub word: String,
    /// When it is held.
    pub meaning: String,
}

/// A fault of a set's text.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The line, counted from 1.
    pub line: usize,
    /// What was wrong and what was expected.
    pub says: String,
}

impl Fault {
    /// As a sentence with the file's name: `FILE:LINE: what was wrong`.
    pub fn at(&self, file: &str) -> String {
        format!("{file}:{}: {}", self.line, self.says)
    }
}

/// A set of rules that a shop wrote.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RuleSet {
    /// Its id, with which the id of each of its rules begins.
    pub id: String,
    /// Its title.
    pub title: String,
    /// A shop's own rules, or those of another jurisdiction.
    pub origin: Origin,
    /// Who answers for it.
    pub answers: String,
    /// Its rules.
    pub rules: Rulebook,
    /// The lines of each rule in the text: its head, then each version.
    lines: BTreeMap<String, Vec<usize>>,
}

impl RuleSet {
    /// Reads the text of a set.
    ///
    /// # Errors
    /// Every fault, in the order of the lines; of one version of a rule the first.
    pub fn read(text: &str, built_in: &Rulebook) -> Result<RuleSet, Vec<Fault>> {
        read::read(text, built_in)
    }

    /// What keeps this text from taking the place of an older one of the same set from a day on: a version that
    /// has bound a day is cited by verdicts, so it is closed and never changed or lost. Empty if nothing does.
    pub fn faults_after(&self, older: &RuleSet, from: jiff::civil::Date) -> Vec<Fault> {
        follow::faults(self, older, from)
    }

    /// The line of a rule (version 0) or of one of its versions.
    fn line(&self, rule: &str, version: u32) -> usize {
        let lines = self.lines.get(rule).map_or(&[][..], Vec::as_slice);
        let at = usize::try_from(version).unwrap_or(0);
        lines.get(at).or(lines.first()).copied().unwrap_or(1)
    }
}

impl Rulebook {
    /// Whether a name is that of a jurisdiction of the built-in rulebook.
    ///
    /// # Errors
    /// If the built-in rulebook does not read, which a test of this build forbids.
    pub fn is_built_in(name: &str) -> Result<bool, RulebookError> {
        Ok(Rulebook::built_in()?.jurisdictions().contains(name))
    }
}
