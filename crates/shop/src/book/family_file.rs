//! A family's text looked over before it is taken into a book: every fault with its line.
//!
//! More is asked here than of a family that a book holds already: sheets, rules and neighbors must be known today, and there
//! must be ways to choose from. What a book holds is read as it stands.

use std::collections::{BTreeMap, BTreeSet};

use rules::Fault;

use super::family::{Family, Feature, Route, RuleChoice, Slip};

/// The fewest ways to put a part right, beside carrying it.
const FEWEST_ROUTES: usize = 3;

/// What a family may name: rules, other families, worked sheets.
#[derive(Debug, Clone, Default)]
pub struct Known {
    /// Ids of rules.
    pub rules: BTreeSet<String>,
    /// Families by their words.
    pub families: BTreeMap<String, Family>,
    /// Ids of worked sheets.
    pub sheets: BTreeSet<String>,
    /// Every argument of a sheet, with the sheet's id before it.
    pub arguments: BTreeSet<(String, String)>,
}

/// Reads the text of a family and looks it over.
///
/// # Errors
/// Every fault with its line, in the order of the lines. Where the text is no family at all, the first that was met.
pub fn faults(text: &str, known: &Known) -> Result<Family, Vec<Fault>> {
    let family: Family = toml::from_str(text).map_err(|e| {
        let at = e.span().map_or(0, |span| span.start);
        let before = text.get(..at).unwrap_or_default();
        vec![Fault {
            line: before.matches('\n').count() + 1,
            says: e.message().to_string(),
        }]
    })?;
    let mut slips = family.slips();
    let mut look = Look {
        family: &family,
        known,
        slips: &mut slips,
    };
    look.whole();
    look.words();
    look.measured();
    look.named();
    look.routes();
    if slips.is_empty() {
        return Ok(family);
    }
    let mut all: Vec<Fault> = slips.into_iter().map(|slip| told(text, slip)).collect();
    all.sort_by_key(|fault| fault.line);
    Err(all)
}

/// A slip with the line it stands on: within its own entry if it is found there, else at the entry's head.
fn told(text: &str, slip: Slip) -> Fault {
    let head = format!("[[{}]]", slip.section);
    let part = format!("[[{}.", slip.section);
    let named = [
        format!("word = \"{}\"", slip.of),
        format!("name = \"{}\"", slip.of),
    ];
    let value = format!("\"{}\"", slip.value);
    // What stands before the first entry is of the family itself.
    let of_all = slip.section.is_empty();
    let (mut first, mut within, mut entry) = (None, of_all, None);
    for (at, line) in text.lines().map(str::trim).enumerate() {
        if line.starts_with('[') && !line.starts_with(&part) && line.ends_with(']') {
            within = line == head;
            entry = None;
        }
        if of_all && within && line.contains(&value) {
            first = Some(at + 1);
            break;
        }
        if within && named.iter().any(|name| line == name) {
            entry = Some(at + 1);
            first = first.or(entry);
        }
        if within && entry.is_some() && line.contains(&value) && entry != Some(at + 1) {
            first = Some(at + 1);
            break;
        }
    }
    Fault {
        line: first.unwrap_or(1),
        says: slip.says,
    }
}

struct Look<'a> {
    family: &'a Family,
    known: &'a Known,
    slips: &'a mut Vec<Slip>,
}

impl Look<'_> {
    fn slip(&mut self, section: &'static str, of: &str, value: &str, says: String) {
        self.slips.push(Slip {
            section,
            of: of.into(),
            value: value.into(),
            says,
        });
    }

    fn whole(&mut self) {
        let family = self.family;
        if family.place.is_none() {
            let says = "`place` was expected: where on the engine it is looked for".to_string();
            self.slip("", "", "", says);
        }
        if family.hours_from.is_none() {
            let says = "`hours-from` was expected: \"common-practice\", or \"own-books\" where the shop booked them";
            self.slip("", "", "", says.to_string());
        }
        if family.features.is_empty() && family.conditions.is_empty() {
            let says =
                "something to measure or to see was expected: a `[[feature]]` or a `[[condition]]`";
            self.slip("", "", "", says.to_string());
        }
    }

    /// No word twice in one list.
    fn words(&mut self) {
        let family = self.family;
        let lists: [(&'static str, Vec<&str>); 8] = [
            (
                "fact",
                family.facts.iter().map(|it| it.name.as_str()).collect(),
            ),
            (
                "feature",
                family.features.iter().map(|it| it.name.as_str()).collect(),
            ),
            (
                "condition",
                family
                    .conditions
                    .iter()
                    .map(|it| it.word.as_str())
                    .collect(),
            ),
            (
                "limit",
                family.limits.iter().map(|it| it.word.as_str()).collect(),
            ),
            (
                "calculation",
                family
                    .calculations
                    .iter()
                    .map(|it| it.word.as_str())
                    .collect(),
            ),
            (
                "proof",
                family.proofs.iter().map(|it| it.word.as_str()).collect(),
            ),
            (
                "knock-on",
                family.knock_ons.iter().map(|it| it.word.as_str()).collect(),
            ),
            (
                "route",
                family.routes.iter().map(|it| it.word.as_str()).collect(),
            ),
        ];
        for (section, list) in lists {
            let mut seen = BTreeSet::new();
            for word in list {
                if !seen.insert(word) {
                    self.slip(section, word, word, format!("`{word}` stands twice"));
                }
            }
        }
    }

    fn measured(&mut self) {
        let family = self.family;
        for feature in &family.features {
            let Feature { name, .. } = feature;
            let mut seen = BTreeSet::new();
            for place in &feature.positions {
                if !seen.insert(place) {
                    let says = format!("`{name}` is measured twice at `{place}`");
                    self.slip("feature", name, place, says);
                }
            }
            if let Some(rule) = &feature.rule {
                self.choice("feature", name, rule);
            }
        }
        for difference in &family.differences {
            if family.feature(&difference.name).is_some() {
                let name = &difference.name;
                let says =
                    format!("`{name}` is a feature already: a difference needs a word of its own");
                self.slip("difference", name, name, says);
            }
            if let Some(rule) = &difference.rule {
                self.choice("difference", &difference.name, rule);
            }
        }
    }

    /// Which rule holds: a rule that is known for every answer of one fact that is asked.
    fn choice(&mut self, section: &'static str, of: &str, choice: &RuleChoice) {
        let by_fact = match choice {
            RuleChoice::One(rule) => return self.rule(section, of, rule),
            RuleChoice::ByFact(by_fact) => by_fact,
        };
        if by_fact.len() != 1 {
            let says = format!(
                "one fact decides which rule limits `{of}`, not {}",
                by_fact.len()
            );
            self.slip(section, of, of, says);
        }
        for (fact, rules) in by_fact {
            for rule in rules.values() {
                self.rule(section, of, rule);
            }
            let asked = self.family.facts.iter().find(|it| it.name == *fact);
            let answers: BTreeSet<&String> = asked.iter().flat_map(|it| &it.choices).collect();
            if answers != rules.keys().collect() {
                let says = format!(
                    "`{of}` has its rule by `{fact}`, which is not a fact with exactly those choices"
                );
                self.slip(section, of, fact, says);
            }
        }
    }

    fn rule(&mut self, section: &'static str, of: &str, rule: &str) {
        if !self.known.rules.contains(rule) {
            let says =
                format!("`{of}` names the rule `{rule}`, which is in no rulebook known here");
            self.slip(section, of, rule, says);
        }
    }

    /// Rules, sheets and neighbors that the entries name.
    fn named(&mut self) {
        let (family, known) = (self.family, self.known);
        for condition in &family.conditions {
            for rule in condition.rule.iter().chain(&condition.starts) {
                self.rule("condition", &condition.word, rule);
            }
        }
        for limit in &family.limits {
            if let Some(rule) = &limit.rule {
                self.rule("limit", &limit.word, rule);
            }
        }
        for proof in &family.proofs {
            if let Some(rule) = &proof.rule {
                self.rule("proof", &proof.word, rule);
            }
        }
        for sum in &family.calculations {
            for sheet in &sum.sheets {
                if !known.sheets.contains(sheet) {
                    let says = format!(
                        "`{}` is worked on `{sheet}`, which is no sheet: `sheet --list` tells them",
                        sum.word
                    );
                    self.slip("calculation", &sum.word, sheet, says);
                }
            }
            for (sheet, arguments) in &sum.fill {
                for argument in arguments.keys() {
                    let asked = (sheet.clone(), argument.clone());
                    if known.sheets.contains(sheet) && !known.arguments.contains(&asked) {
                        let says = format!("`{argument}` is no argument of `{sheet}`");
                        self.slip("calculation", &sum.word, argument, says);
                    }
                }
            }
        }
        for neighbor in &family.knock_ons {
            let word = &neighbor.word;
            for rule in &neighbor.rules {
                self.rule("knock-on", word, rule);
            }
            let Some(name) = &neighbor.family else {
                if let Some(size) = neighbor.sizes.first() {
                    let says = format!("`{word}` names `{size}` and no family that has it");
                    self.slip("knock-on", word, size, says);
                }
                continue;
            };
            let other = if *name == family.family {
                Some(family)
            } else {
                known.families.get(name)
            };
            let Some(other) = other else {
                let says = format!("`{word}` moves a `{name}`, which is no family known here");
                self.slip("knock-on", word, name, says);
                continue;
            };
            for size in neighbor.sizes.iter().filter(|size| !other.measures(size)) {
                let says = format!("`{word}` moves `{size}`, which is not measured on a `{name}`");
                self.slip("knock-on", word, size, says);
            }
        }
    }

    fn routes(&mut self) {
        let routes = &self.family.routes;
        let carrying = routes.iter().filter(|it| it.carries).count();
        if carrying != 1 {
            let says = format!("one route that carries it was expected, not {carrying}");
            self.slip("", "", "", says);
        }
        let working = routes.len() - carrying;
        if working < FEWEST_ROUTES {
            let says = format!(
                "at least {FEWEST_ROUTES} routes beside carrying were expected, not {working}: a way that is seldom taken is told too"
            );
            self.slip("", "", "", says);
        }
        for route in routes {
            let Route { word, .. } = route;
            for step in &route.operations {
                let [low, likely, high] = step.quarter_hours;
                if !(low <= likely && likely <= high && high > 0) {
                    let says = format!(
                        "a step of `{word}` has hours that do not rise from low over likely to high"
                    );
                    self.slip("route", word, word, says);
                }
            }
            if route.carries != route.cautions.is_empty() {
                let says = if route.carries {
                    format!("`{word}` carries and has cautions of work")
                } else {
                    format!("`{word}` does work and says nothing of what can hurt")
                };
                self.slip("route", word, word, says);
            }
            if !route.carries && route.stop_points.is_empty() {
                let says = format!("`{word}` does work and never says when to stop and ask");
                self.slip("route", word, word, says);
            }
        }
    }
}
