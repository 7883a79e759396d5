//! The report a careful keeper of the rulebook reads: how much is on file, how well it is known, what no page or
//! test ever leans on.

use std::collections::BTreeMap;
use std::fmt;

use jiff::civil::Date;

use crate::{Kind, Rulebook};

/// What a rulebook holds and where it is weak. Nothing here is an error: errors refuse the rulebook outright.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lint {
    /// How many versions are on file.
    pub versions: usize,
    /// How many rules of each kind.
    pub per_kind: BTreeMap<Kind, usize>,
    /// How many versions bear each mark.
    pub per_mark: BTreeMap<String, usize>,
    /// Rules that no given page names.
    pub no_page: Vec<String>,
    /// Limits that give no case of a reading below, at and above their value.
    pub no_case: Vec<String>,
    /// Rules whose words or figure rest, wholly or in part, on memory or inference, with the mark.
    pub unread: Vec<(String, String)>,
    /// How many versions have days in force that were not read.
    pub unread_dates: usize,
    /// The longest ago any version was held against its source.
    pub oldest_check: Option<Date>,
}

/// Looks a rulebook over.
///
/// # Arguments
/// `pages`: names and texts of the casebook's pages and of the tables that tests hold the rules against; a rule whose id
/// stands in none of them is listed.
pub fn lint(rulebook: &Rulebook, pages: &[(&str, &str)]) -> Lint {
    let unread = |mark: &str| mark.contains("memory") || mark.contains("inference");
    let mut found = Lint {
        versions: 0,
        per_kind: BTreeMap::new(),
        per_mark: BTreeMap::new(),
        no_page: Vec::new(),
        no_case: Vec::new(),
        unread: Vec::new(),
        unread_dates: 0,
        oldest_check: None,
    };
    for rule in rulebook.rules() {
        *found.per_kind.entry(rule.kind).or_default() += 1;
        if !pages.iter().any(|(_, text)| names(text, &rule.id)) {
            found.no_page.push(rule.id.clone());
        }
        for version in &rule.versions {
            found.versions += 1;
            if version.body.measures().is_some() && version.cases().is_empty() {
                found.no_case.push(rule.id.clone());
            }
            *found.per_mark.entry(version.mark.clone()).or_default() += 1;
            if unread(&version.mark) {
                found.unread.push((rule.id.clone(), version.mark.clone()));
            }
            found.unread_dates += usize::from(unread(&version.dates_mark));
            let oldest = found.oldest_check.get_or_insert(version.checked.on);
            *oldest = version.checked.on.min(*oldest);
        }
    }
    found
}

/// Whether a text names an id as a whole: `us-steam.clock.31` does not name `us-steam.clock.3`.
fn names(text: &str, id: &str) -> bool {
    let part = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    text.match_indices(id).any(|(at, _)| {
        let mut after = text.get(at + id.len()..).unwrap_or("").chars();
        // A point ends a sentence or leads on to a longer id.
        let longer = match after.next() {
            Some('.') => after.next().is_some_and(part),
            next => next.is_some_and(part),
        };
        !longer
            && !text
                .get(..at)
                .unwrap_or("")
                .ends_with(|c: char| part(c) || c == '.')
    })
}

impl fmt::Display for Lint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let rules: usize = self.per_kind.values().sum();
        writeln!(f, "{rules} rules, {} versions", self.versions)?;
        for (kind, count) in &self.per_kind {
            writeln!(f, "  {count:>4}  {}", kind.word())?;
        }
        writeln!(f, "How they are known:")?;
        for (mark, count) in &self.per_mark {
            writeln!(f, "  {count:>4}  {mark}")?;
        }
        if let Some(day) = self.oldest_check {
            writeln!(
                f,
                "Oldest check against a source, or notes taken from it: {day}"
            )?;
        }
        writeln!(
            f,
            "Versions whose days in force were not read in a source: {}",
            self.unread_dates
        )?;
        writeln!(
            f,
            "Resting on memory or inference, to be checked against the text in force: {}",
            self.unread.len()
        )?;
        for (rule, mark) in &self.unread {
            writeln!(f, "  {rule}: {mark}")?;
        }
        writeln!(
            f,
            "Named by no page of the casebook and no table of rows: {}",
            self.no_page.len()
        )?;
        self.no_page
            .iter()
            .try_for_each(|rule| writeln!(f, "  {rule}"))?;
        writeln!(
            f,
            "Limits without a case below, at and above their value: {}",
            self.no_case.len()
        )?;
        self.no_case
            .iter()
            .try_for_each(|rule| writeln!(f, "  {rule}"))
    }
}

#[cfg(test)]
mod tests {
    use super::names;

    #[test]
    fn an_id_is_named_whole_or_not_at_all() {
        assert!(names("see us-steam.clock.31.", "us-steam.clock.31"));
        assert!(names("`us-steam.clock.31`", "us-steam.clock.31"));
        assert!(!names("us-steam.clock.31", "us-steam.clock.3"));
        assert!(!names("us-steam.clock.31.report", "us-steam.clock.31"));
        assert!(!names("not-us-steam.clock.31", "us-steam.clock.31"));
    }
}
