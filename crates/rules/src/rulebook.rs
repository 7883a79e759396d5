//! The rulebook: every rule on file, parsed once, asked by id and day.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use jiff::civil::Date;

use crate::near::near;
use crate::{Body, Declared, Kind, Origin, Rule, RulebookError, Ruling, Source, load, words};

/// Every file of `rulebook/`, built into the program.
const FILES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/rulebook_files.rs"));

/// Every rule on file and the papers they were read in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rulebook {
    rules: BTreeMap<String, Rule>,
    sources: BTreeMap<String, Source>,
    /// Inspections that a set a shop wrote declares; none in the rulebook of this program.
    declared: Vec<Declared>,
    origin: Origin,
}

impl Rulebook {
    /// The rulebook built into the program, parsed at the first call.
    ///
    /// # Errors
    /// The first thing wrong with its files; a test keeps them right.
    pub fn built_in() -> Result<&'static Rulebook, RulebookError> {
        static PARSED: OnceLock<Result<Rulebook, RulebookError>> = OnceLock::new();
        PARSED
            .get_or_init(|| Rulebook::from_files(FILES))
            .as_ref()
            .map_err(Clone::clone)
    }

    /// A rulebook from the names and texts of its files, `sources.toml` among them.
    ///
    /// # Errors
    /// The first thing wrong, with the file's name, what was found and what was expected.
    pub fn from_files(files: &[(&str, &str)]) -> Result<Rulebook, RulebookError> {
        let (_, text) = files
            .iter()
            .find(|(name, _)| *name == "sources.toml")
            .ok_or_else(|| {
                RulebookError::file(
                    "sources.toml",
                    "is missing; every rule cites a paper named there",
                )
            })?;
        let sources = load::sources(text)?;
        let mut rules = BTreeMap::new();
        let mut named = BTreeMap::new();
        for (name, text) in files.iter().filter(|(name, _)| *name != "sources.toml") {
            let rule = load::rule(name, text, &sources)?;
            named.insert(rule.id.clone(), *name);
            if let Some(other) = rules.insert(rule.id.clone(), rule) {
                return Err(RulebookError::file(
                    name,
                    format!("the id `{}` is used by another file too", other.id),
                ));
            }
        }
        let book = Rulebook {
            rules,
            sources,
            declared: Vec::new(),
            origin: Origin::Law,
        };
        book.check_pairs(&named)?;
        book.check_items(&named)?;
        Ok(book)
    }

    /// The rules of a set that a shop wrote, read and checked already.
    pub(crate) fn of_set(
        rules: BTreeMap<String, Rule>,
        sources: BTreeMap<String, Source>,
        declared: Vec<Declared>,
        origin: Origin,
    ) -> Rulebook {
        Rulebook {
            rules,
            sources,
            declared,
            origin,
        }
    }

    /// The inspections a shop's set declares, smallest first; none in the rulebook of this program.
    pub fn declared(&self) -> &[Declared] {
        &self.declared
    }

    /// The meaning of an inspection that a shop's set declares, if it declares this one.
    pub fn declares(&self, word: &str) -> Option<&str> {
        let found = self.declared.iter().find(|it| it.word == word);
        found.map(|it| it.meaning.as_str())
    }

    /// The rank of an inspection: within its built-in round, or behind those where a set declares it.
    fn rank(&self, inspection: &str) -> Option<usize> {
        let own = || self.declared.iter().position(|it| it.word == inspection);
        words::rank(inspection).or_else(|| Some(words::INSPECTIONS.len() + own()?))
    }

    /// Where a clock stands in a list: inspections first, then work with a clock of its own.
    fn place(&self, inspection: &str) -> Option<usize> {
        const AFTER_ALL: usize = 1000;
        let own = || words::place(inspection).map(|at| AFTER_ALL + at);
        self.rank(inspection).or_else(own)
    }

    /// What a rule names of others exists: a limit its partner, a clock the items that restart it.
    fn check_pairs(&self, named: &BTreeMap<String, &str>) -> Result<(), RulebookError> {
        for rule in self.rules.values() {
            for version in &rule.versions {
                if let Body::Count(count) = &version.body {
                    let is_item =
                        |id: &&String| self.rules.get(*id).is_some_and(|r| r.kind == Kind::Item);
                    let stray = count.restarted_by_items.iter().find(|id| !is_item(id));
                    if let Some(stray) = stray {
                        return Err(RulebookError::file(
                            named.get(&rule.id).copied().unwrap_or(&rule.id),
                            format!(
                                "restarted_by_items names `{stray}`, which is not an item of the rulebook"
                            ),
                        ));
                    }
                }
                let Body::Limit(limit) = &version.body else {
                    continue;
                };
                let Some(other) = &limit.together_with else {
                    continue;
                };
                let found = self.rules.get(other).is_some_and(|r| r.kind == rule.kind);
                if !found || *other == rule.id {
                    return Err(RulebookError::file(
                        named.get(&rule.id).copied().unwrap_or(&rule.id),
                        format!(
                            "together_with names `{other}`, which is not another limit of the rulebook"
                        ),
                    ));
                }
            }
        }
        Ok(())
    }

    /// The limits an item names exist.
    fn check_items(&self, named: &BTreeMap<String, &str>) -> Result<(), RulebookError> {
        for rule in self.rules.values() {
            for version in &rule.versions {
                let Body::Item(item) = &version.body else {
                    continue;
                };
                let limit = |id: &String| {
                    let versions = self.rules.get(id).map(|r| r.versions.as_slice());
                    versions
                        .unwrap_or_default()
                        .iter()
                        .any(|v| v.body.measures().is_some())
                };
                if let Some(lost) = item.limits.iter().find(|id| !limit(id)) {
                    return Err(RulebookError::file(
                        named.get(&rule.id).copied().unwrap_or(&rule.id),
                        format!("limits names `{lost}`, which is not a limit of the rulebook"),
                    ));
                }
            }
        }
        Ok(())
    }

    /// A rule by its id.
    ///
    /// # Errors
    /// When there is none; names that look like it are offered.
    pub fn rule(&self, id: &str) -> Result<&Rule, RulebookError> {
        self.rules.get(id).ok_or_else(|| RulebookError::Unknown {
            id: id.to_owned(),
            near: near(id, self.rules.keys().map(String::as_str)),
        })
    }

    /// Every rule, by id.
    pub fn rules(&self) -> impl Iterator<Item = &Rule> {
        self.rules.values()
    }

    /// Every rule of one jurisdiction, by id.
    pub fn in_jurisdiction<'a>(&'a self, jurisdiction: &'a str) -> impl Iterator<Item = &'a Rule> {
        self.rules().filter(move |r| r.jurisdiction == jurisdiction)
    }

    /// The jurisdictions on file.
    pub fn jurisdictions(&self) -> BTreeSet<&str> {
        self.rules().map(|r| r.jurisdiction.as_str()).collect()
    }

    /// The papers the rules were read in, by key.
    pub fn sources(&self) -> &BTreeMap<String, Source> {
        &self.sources
    }

    /// The version of a rule that bound a day: the day the work was done, never the day it was entered.
    ///
    /// # Errors
    /// When the id is unknown, or the day lies outside what is on file.
    pub fn ruling(&self, id: &str, on: Date) -> Result<Ruling, RulebookError> {
        self.rule(id)?.ruling(on)
    }

    /// The clocks that bound a day in a jurisdiction: those of the inspections, smallest first, then those of work
    /// with a clock of its own. A defect's own
    /// clock (a broken staybolt's thirty days) is not among them: it runs only while the defect stands.
    ///
    /// # Errors
    /// When the jurisdiction is unknown, or the day lies before its rules. A rule that ended is left out.
    pub fn clocks(&self, jurisdiction: &str, on: Date) -> Result<Vec<Ruling>, RulebookError> {
        let mut clocks = Vec::new();
        let is_clock = |body: &Body| body.work().is_some();
        for ruling in self.in_force_where(jurisdiction, on, is_clock)? {
            if let Some(place) = ruling.body.work().and_then(|work| self.place(work)) {
                clocks.push((place, ruling));
            }
        }
        clocks.sort_by(|(a, x), (b, y)| (a, &x.rule).cmp(&(b, &y.rule)));
        Ok(clocks.into_iter().map(|(_, ruling)| ruling).collect())
    }

    /// The inspections a jurisdiction knows on a day, smallest first: those that some item belongs to.
    ///
    /// # Errors
    /// When the jurisdiction is unknown, or the day lies before its rules.
    pub fn inspections(
        &self,
        jurisdiction: &str,
        on: Date,
    ) -> Result<Vec<(&str, &str)>, RulebookError> {
        let mut named = BTreeSet::new();
        for ruling in self.in_force(jurisdiction, on)? {
            if let Body::Item(item) = ruling.body {
                named.extend(item.inspections);
            }
        }
        let rounds = [words::INSPECTIONS, words::DIESEL_INSPECTIONS];
        let whole = |round: &&[words::Word]| {
            let known = |w: &String| words::meaning(round, w).is_some();
            named.iter().all(known)
        };
        if self.origin != Origin::Law {
            return Ok(self.inspections_named(&named));
        }
        let round = rounds.into_iter().find(whole).unwrap_or_default();
        Ok(round
            .iter()
            .filter(|(word, _)| named.contains(*word))
            .copied()
            .collect())
    }

    /// Of a set's inspections, those that an item names: of the built-in rounds, then those it declares.
    fn inspections_named(&self, named: &BTreeSet<String>) -> Vec<(&str, &str)> {
        let mut all: Vec<(&str, &str)> = Vec::new();
        let known = words::INSPECTIONS.iter().chain(words::DIESEL_INSPECTIONS);
        let own = self.declared.iter();
        let own = own.map(|it| (it.word.as_str(), it.meaning.as_str()));
        for (word, meaning) in known.copied().chain(own) {
            if named.contains(word) && all.iter().all(|(w, _)| *w != word) {
                all.push((word, meaning));
            }
        }
        all
    }

    /// Whether a jurisdiction counts service days: whether it says what one is.
    pub fn counts_service_days(&self, jurisdiction: &str) -> bool {
        self.in_jurisdiction(jurisdiction)
            .any(|rule| rule.kind == Kind::Definition)
    }

    /// The items of an inspection that bound a day, those of every smaller inspection it contains first, each list
    /// in its own order and what the text alone asks for after what the appendix lists.
    ///
    /// # Errors
    /// When the jurisdiction is unknown, or the day lies before its rules.
    pub fn items(
        &self,
        jurisdiction: &str,
        inspection: &str,
        on: Date,
    ) -> Result<Vec<Ruling>, RulebookError> {
        let mut items = Vec::new();
        for ruling in self.in_force(jurisdiction, on)? {
            let Body::Item(item) = &ruling.body else {
                continue;
            };
            let contained = item
                .inspections
                .iter()
                .filter(|own| words::contains(inspection, own) || inspection == own.as_str());
            if let Some(rank) = contained.filter_map(|own| self.rank(own)).min() {
                items.push(((rank, !item.listed, item.order), ruling));
            }
        }
        items.sort_by(|(a, x), (b, y)| (a, &x.rule).cmp(&(b, &y.rule)));
        Ok(items.into_iter().map(|(_, ruling)| ruling).collect())
    }

    /// The items that an occasion outside the inspections asks for on a day, in order.
    ///
    /// # Arguments
    /// `occasion`: a word of `words::OCCASIONS`.
    ///
    /// # Errors
    /// When the jurisdiction is unknown, or the day lies before its rules.
    pub fn items_on(
        &self,
        jurisdiction: &str,
        occasion: &str,
        on: Date,
    ) -> Result<Vec<Ruling>, RulebookError> {
        let mut items: Vec<(u32, Ruling)> = Vec::new();
        for ruling in self.in_force(jurisdiction, on)? {
            if let Body::Item(item) = &ruling.body
                && item.occasion.as_deref() == Some(occasion)
            {
                items.push((item.order, ruling));
            }
        }
        items.sort_by(|(a, x), (b, y)| (a, &x.rule).cmp(&(b, &y.rule)));
        Ok(items.into_iter().map(|(_, ruling)| ruling).collect())
    }

    /// Every ruling of a jurisdiction on a day.
    ///
    /// # Errors
    /// When the jurisdiction is unknown, or the day lies before one of its rules.
    pub fn in_force(&self, jurisdiction: &str, on: Date) -> Result<Vec<Ruling>, RulebookError> {
        self.in_force_where(jurisdiction, on, |_| true)
    }

    /// As [`Rulebook::in_force`], of the rules whose body is of a kind: the others are looked at and not copied.
    pub(crate) fn in_force_where(
        &self,
        jurisdiction: &str,
        on: Date,
        wanted: impl Fn(&Body) -> bool,
    ) -> Result<Vec<Ruling>, RulebookError> {
        if !self.rules().any(|r| r.jurisdiction == jurisdiction) {
            let near = near(jurisdiction, self.jurisdictions().into_iter());
            return Err(RulebookError::Unknown {
                id: jurisdiction.to_owned(),
                near,
            });
        }
        let mut held = Vec::new();
        for rule in self.in_jurisdiction(jurisdiction) {
            match rule.on(on) {
                Ok(version) if wanted(&version.body) => held.push(rule.ruling(on)?),
                Ok(_) | Err(RulebookError::Ended { .. }) => {}
                // Rules of a shop's set begin on days of their own; what bound before the set was written is
                // asked of whoever keeps it.
                Err(RulebookError::BeforeCoverage { .. }) if self.origin != Origin::Law => {}
                Err(other) => return Err(other),
            }
        }
        Ok(held)
    }
}
