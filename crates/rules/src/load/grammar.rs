//! What differs between a file of the law and one a shop wrote: how a section reads, which marks there are, which
//! papers may be cited, and which inspections it may speak of.

use super::text;
use crate::words::{self, DIESEL_INSPECTIONS, INSPECTIONS};
use crate::{CountUnit, Declared, Definition};

/// The grammar a version is read by.
pub(crate) struct Grammar<'a> {
    /// The inspections a shop's file declares of its own; nothing for a file of the law.
    declared: Option<&'a [Declared]>,
}

impl<'a> Grammar<'a> {
    /// A file of the law: sections and marks of the closed sorts, no words of its own.
    pub(crate) fn of_law() -> Grammar<'static> {
        Grammar { declared: None }
    }

    /// A file a shop wrote, with the inspections it declares.
    pub(crate) fn of_shop(declared: &'a [Declared]) -> Grammar<'a> {
        Grammar {
            declared: Some(declared),
        }
    }

    /// Whether the file declares an inspection of this name.
    pub(super) fn declares(&self, word: &str) -> bool {
        self.declared
            .unwrap_or_default()
            .iter()
            .any(|it| it.word == word)
    }

    /// The declared inspections, to stand first where the words known are listed.
    pub(super) fn words(&self) -> Vec<&'a str> {
        let own = self.declared.unwrap_or_default().iter();
        own.map(|it| it.word.as_str()).collect()
    }

    /// Refuses a word that is neither a known inspection nor one the file declares.
    pub(super) fn inspections(&self, key: &str, given: &[String]) -> Result<(), String> {
        for word in given {
            if words::rank(word).is_some() || self.declares(word) {
                continue;
            }
            let mut known = self.words();
            known.extend(INSPECTIONS.iter().map(|(w, _)| *w));
            if self.declared.is_some() {
                let more = DIESEL_INSPECTIONS.iter().map(|(w, _)| *w);
                known.extend(more.filter(|w| words::meaning(INSPECTIONS, w).is_none()));
            }
            return Err(format!(
                "unknown word `{word}` for `{key}`; expected {}",
                words::or(&known)
            ));
        }
        Ok(())
    }

    /// A mark begins with one of the agreed words.
    pub(super) fn mark(&self, key: &str, given: &str) -> Result<(), String> {
        let mut known = words::MARKS.to_vec();
        if self.declared.is_some() {
            known.extend(words::OWN_MARKS);
        }
        if known.iter().any(|(begins, _)| given.starts_with(begins)) {
            return Ok(());
        }
        Err(format!(
            "`{key}` is \"{given}\"; it must begin with {}",
            words::listed(&known)
        ))
    }

    /// A section of the law reads like one; a shop numbers its papers as it likes, but says where.
    pub(super) fn section(&self, given: &str) -> Result<(), String> {
        match self.declared {
            None => text::section(given),
            Some(_) => text::filled("section", given),
        }
    }

    /// What to say of a citation of a paper nobody named.
    pub(super) fn unknown_source(&self, source: &str) -> String {
        match self.declared {
            None => format!("the source `{source}` is not named in sources.toml"),
            Some(_) => format!(
                "the source `{source}` is not named in this file; expected a table [source.{source}], or the key of one that stands here"
            ),
        }
    }

    /// The log counts a day by fire and pressure together, and knows no other way.
    pub(super) fn service_day(&self, it: &Definition) -> Result<(), String> {
        let holds = |list: &[String], word: &str| list.iter().any(|w| w == word);
        let counted = holds(&it.together, "fire-in-firebox")
            && holds(&it.together, "pressure-above-atmosphere")
            && it.fireless == ["pressure-above-atmosphere"];
        if self.declared.is_none() || (it.term == "service-day" && counted) {
            return Ok(());
        }
        Err("`together` is not how the log of this program counts a service day; expected term = \"service-day\", fire-in-firebox and pressure-above-atmosphere together, and pressure-above-atmosphere alone for a fireless engine".into())
    }

    /// Annuals are held under words of the built-in rounds only: a clock for a word of one's own would count none.
    pub(super) fn counts(&self, unit: CountUnit, inspection: &str) -> Result<(), String> {
        if unit == CountUnit::Annual && self.declares(inspection) {
            return Err(format!(
                "`unit` is \"annual\", which counts inspections called annual, and `{inspection}` is declared here; expected \"service-day\" or \"day-of-use\", or a calendar"
            ));
        }
        Ok(())
    }
}
